/** The hand-over page at the bench: what the next shift finds open, held, curing and half done. */
import { plain } from '../../base/text.js';
import type { World } from '../../session/ports.js';
import { HANDOVER_TITLES } from '../../unit/summary.js';
import { BLANK, type Line, line, wrap } from '../parts/line.js';
import type { ScreenDefinition } from './screen.js';

export function handoverLines({ more }: World, width: number): readonly Line[] {
  const page = more?.handover();
  const found = HANDOVER_TITLES.flatMap(([heading, title]): readonly Line[] => {
    const lines = page?.[heading] ?? [];
    if (lines.length === 0) return [];
    return [
      BLANK,
      line(` ${title}`, 'strong'),
      ...lines.flatMap(({ job, unit, text }) =>
        wrap(`   ${plain(`${job}/${unit}`)}  ${text}`, width, 'plain', '     '),
      ),
    ];
  });
  return [
    line(' Hand-over, with the notes of the last twelve hours', 'strong'),
    ...(found.length === 0
      ? [BLANK, ...wrap(' Nothing is open: every unit that was begun is finished.', width)]
      : found),
  ];
}

export const handoverScreen: ScreenDefinition<'handover'> = {
  scrolls: true,
  lines: (_state, _screen, world, width) => handoverLines(world, width),
};
