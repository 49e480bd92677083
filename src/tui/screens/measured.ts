/**
 * A frame as it was measured: verdict with its limits and sources, what to do next, and the drawing with its error
 * magnified. The drawing stands still beside the text, which is scrolled.
 */
import { plain } from '../../base/text.js';
import { asMeasuredText } from '../../measure/asmeasured.js';
import { notesInParts } from '../../measure/decision.js';
import { LENGTH_NAMES } from '../../measure/misread.js';
import { SQUARE_KEYS } from '../../measure/types.js';
import { sourceText } from '../../measure/verdict.js';
import type { World } from '../../session/ports.js';
import { lastMeasured, type Measured } from '../measured.js';
import { BLANK, type Line, line, wrap } from '../parts/line.js';
import { shape, type Theme } from '../theme.js';
import { OUTCOME } from '../words.js';

/** Columns of the drawing; 0 where there is no room for one beside the text. */
export const pictureColumns = (width: number): number =>
  width < 72 ? 0 : Math.min(72, Math.floor(width * 0.45));

/** Room from which the lengths stand beside their sides; in less they would leave nothing for the drawing. */
const LABELS_FROM = 56;

export function measuredLines(world: World, width: number, theme: Theme): readonly Line[] {
  const measured = lastMeasured(world);
  if (!measured) return wrap(' No set of sides and diagonals was measured on this unit yet.', width);
  const { verdict } = measured.answered;
  const { says, next } = notesInParts(verdict.notes);
  const { sign, word, tone } = OUTCOME[verdict.outcome];
  // What decided stands first, and what to do about it; what passes, and the figures, come after.
  const decided = verdict.rules.filter(({ outcome }) => outcome === verdict.outcome);
  const others = verdict.rules.filter(({ outcome }) => outcome !== verdict.outcome);
  const rule = (used: (typeof verdict.rules)[number]) =>
    wrap(
      ` ${shape(OUTCOME[used.outcome].sign, theme)} ${used.title}: ${used.says} (${sourceText(used)})`,
      width,
      'plain',
      '   ',
    );
  const first = verdict.outcome === 'pass' ? decided.slice(0, 1) : decided;
  const rest = verdict.outcome === 'pass' ? decided.slice(1) : others;
  return [
    ...wrap(` ${shape(sign, theme)} ${word}  ${measured.check.ask}`, width, tone, '   '),
    ...first.flatMap(rule),
    ...next.flatMap((note) => wrap(` ${note}`, width, 'strong', ' ')),
    ...rest.flatMap(rule),
    BLANK,
    ...readingLines(measured, width),
    ...says.flatMap((note) => wrap(` ${note}`, width, 'plain', ' ')),
  ];
}

function readingLines({ frame, answered }: Measured, width: number): readonly Line[] {
  if (answered.answer.kind !== 'square') return [];
  const { readings } = answered.answer;
  return SQUARE_KEYS.flatMap((key) => {
    const raws = readings[key]?.map(({ raw }) => raw) ?? [];
    if (raws.length === 0) return [];
    const mark = frame?.long === key ? ', the long one' : '';
    const label = frame?.labels[key];
    return wrap(
      ` ${LENGTH_NAMES[key]}: ${label ?? ''}${mark}  read ${raws.join(', ')}`,
      width,
      'plain',
      '   ',
    );
  });
}

/** The drawing with what it is drawn to, under it. */
export function pictureLines(world: World, columns: number, rows: number, theme: Theme): readonly Line[] {
  const frame = lastMeasured(world)?.frame;
  if (!frame) return [];
  const under = [
    ...(frame.long ? wrap(`* the long diagonal, ${LENGTH_NAMES[frame.long]}`, columns) : []),
    ...wrap(frame.caption, columns),
  ];
  const drawn = asMeasuredText(frame, {
    columns,
    rows: rows - under.length,
    ascii: theme.ascii,
    legend: false,
    labels: columns >= LABELS_FROM,
  });
  return [...drawn.map((row) => line(plain(row))), ...under];
}
