/** A unit's overview: what it is, where it stands, and what is in the way. The list of stages stands under it. */
import { plain } from '../../base/text.js';
import type { World } from '../../session/ports.js';
import { atMost, BLANK, crop, type Line, line, wrap } from '../parts/line.js';
import { shape, type Theme } from '../theme.js';
import { STANDING, timeLeft } from '../words.js';

export function overviewLines(world: World, width: number, theme: Theme): readonly Line[] {
  const { open } = world;
  if (!open) return wrap(' No unit is on the bench. Scan one, or F2.', width);
  const { state, setOut } = open;
  const { unit } = setOut;
  const standing = STANDING[state.standing];
  const room = unit.room === '' ? '' : `   ${unit.room}`;
  return [
    [
      { text: ` ${plain(open.job)} / ${plain(open.id)}`, tone: 'strong' },
      { text: `   ${shape(standing.sign, theme)} ${standing.word}${plain(room)}` },
    ],
    ...setOut.lights.map(({ id, sentence }) => crop(line(`   ${id} ${plain(sentence)}`), width)),
    crop(line(`   ${plain(setOut.lift)}`), width),
    ...(state.parked ? wrap(' Parked. ^B takes it up again.', width, 'ask') : []),
    ...setOut.warnings
      .slice(0, 2)
      .flatMap(({ text }) => atMost(wrap(` ${shape('!', theme)} ${text}`, width, 'ask', '   '), 2)),
    ...state.timers.slice(0, 2).flatMap(({ text, until }) => {
      const left = until > world.now ? ` (in ${timeLeft(until, world.now)})` : '';
      return wrap(` ${shape('~', theme)} ${plain(text)}${left}`, width, 'plain', '   ');
    }),
    ...state.snags
      .filter((snag) => snag.open)
      .slice(0, 2)
      .map((snag) =>
        crop(line(` ${shape('!', theme)} snag #${snag.n}: ${plain(snag.raised.text)}`, 'ask'), width),
      ),
    BLANK,
  ];
}
