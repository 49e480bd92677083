/** A measured frame: scrolling text (verdict, limits, sources, advice) beside a fixed drawing, the error magnified. */

import { sanitize } from '../../base/text.js';
import { data, laid } from '../../base/words.js';
import { type AsMeasured, asMeasured, asMeasuredText } from '../../measure/asmeasured.js';
import { notesInParts } from '../../measure/decision.js';
import { LENGTH_NAMES } from '../../measure/misread.js';
import { type LoggedSet, solveSquare, toolsOf, valuesOf } from '../../measure/square.js';
import { SQUARE_KEYS } from '../../measure/types.js';
import { unitRead } from '../../measure/units.js';
import { sourceText } from '../../measure/verdict.js';
import type { RouteCheck } from '../../procedure/types.js';
import type { World } from '../../session/ports.js';
import type { JournalEvent } from '../../unit/events.js';
import { findCheck } from '../../unit/graph.js';
import type { UnitState } from '../../unit/unitstate.js';
import { answerByEntry } from '../answers.js';
import { emptied, goBack, keptOnLine, say, stay } from '../navigate.js';
import { BLANK, type Line, line, wrapLine } from '../parts/line.js';
import type { Update } from '../protocol.js';
import type { BenchState } from '../state.js';
import { OUTCOME, shape, type Theme } from '../theme.js';
import { type BenchSay, told } from '../words/told.js';
import type { ScreenDefinition } from './screen.js';
import { walkOn } from './stages.js';

/** Width of the drawing; 0 if it does not fit beside the text. */
export const pictureColumns = (width: number): number =>
  width < 72 ? 0 : Math.min(72, Math.floor(width * 0.45));

/** Least width for showing lengths beside their sides; below it they would leave no room for the drawing. */
const LABELS_FROM = 56;

export function measuredLines(world: World, width: number, theme: Theme): readonly Line[] {
  const measured = lastMeasured(world);
  if (!measured) return wrapLine(laid` ${told(world)('none-measured')}`, width);
  const words = told(world);
  const { verdict } = measured.answered;
  const { says, next } = notesInParts(verdict.notes);
  const { sign, tone } = OUTCOME[verdict.outcome];
  // What decided the verdict and what to do about it come first, then what passed and the figures.
  const decided = verdict.rules.filter(({ outcome }) => outcome === verdict.outcome);
  const others = verdict.rules.filter(({ outcome }) => outcome !== verdict.outcome);
  const rule = (used: (typeof verdict.rules)[number]) =>
    wrapLine(
      laid` ${shape(OUTCOME[used.outcome].sign, theme)} ${data(used.title)}: ${words.retell(used.says)} (${words.retell(sourceText(used))})`,
      width,
      'plain',
      '   ',
    );
  const first = verdict.outcome === 'pass' ? decided.slice(0, 1) : decided;
  const rest = verdict.outcome === 'pass' ? decided.slice(1) : others;
  return [
    ...wrapLine(
      laid` ${shape(sign, theme)} ${told(world)(`outcome-${verdict.outcome}`)}  ${data(measured.check.ask)}`,
      width,
      tone,
      '   ',
    ),
    ...first.flatMap(rule),
    ...next.flatMap((note) => wrapLine(laid` ${words.retell(note)}`, width, 'strong', ' ')),
    ...rest.flatMap(rule),
    BLANK,
    ...readingLines(measured, width, words),
    ...says.flatMap((note) => wrapLine(laid` ${words.retell(note)}`, width, 'plain', ' ')),
  ];
}

function readingLines({ frame, answered }: Measured, width: number, say: BenchSay): readonly Line[] {
  if (answered.answer.kind !== 'square') return [];
  const { readings } = answered.answer;
  return SQUARE_KEYS.flatMap((key) => {
    const raws = readings[key]?.map(({ raw }) => raw) ?? [];
    if (raws.length === 0) return [];
    const told = { length: LENGTH_NAMES[key], label: frame?.labels[key] ?? '', raws };
    const text = frame?.long === key ? say('measured-long', told) : say('measured-length', told);
    return wrapLine(laid` ${text}`, width, 'plain', '   ');
  });
}

/** The drawing with its caption below. */
export function pictureLines(world: World, columns: number, rows: number, theme: Theme): readonly Line[] {
  const frame = lastMeasured(world)?.frame;
  if (!frame) return [];
  const words = told(world);
  const under = [
    ...(frame.long ? wrapLine(words('picture-long', { length: LENGTH_NAMES[frame.long] }), columns) : []),
    ...wrapLine(words.tell(frame.caption), columns),
  ];
  const drawn = asMeasuredText(frame, {
    columns,
    rows: rows - under.length,
    ascii: theme.ascii,
    legend: false,
    labels: columns >= LABELS_FROM,
  });
  return [...drawn.map((row) => line(sanitize(row))), ...under];
}

export interface Measured {
  readonly check: RouteCheck;
  readonly answered: JournalEvent & { readonly kind: 'answered' };
  /** Undefined if the readings give nothing to draw. */
  readonly frame: AsMeasured | undefined;
}

export function lastMeasured({ open, instruments, rules }: World): Measured | undefined {
  const answered = open && lastSet(open.state);
  const check = answered && findCheck(open.state.route, answered.check)?.check;
  if (!check || answered.answer.kind !== 'square') return undefined;
  const readings = answered.answer.readings as LoggedSet;
  const tools = toolsOf(readings, instruments);
  const solution = solveSquare(valuesOf(readings), {
    ...(check.nominal ? { nominal: check.nominal } : {}),
    ...tools,
  });
  const read = unitRead('mm', Object.values(tools.instruments ?? {})[0], rules.units);
  return { check, answered, frame: asMeasured(solution, check.nominal, read === 'inch' ? 'inch' : 'mm') };
}

/** The last set that was not taken back. */
function lastSet({ events }: UnitState): Measured['answered'] | undefined {
  const gone = new Set(events.flatMap((event) => (event.kind === 'corrected' ? [event.of] : [])));
  return events.findLast(
    (event): event is Measured['answered'] =>
      event.kind === 'answered' && event.answer.kind === 'square' && !gone.has(event.n),
  );
}

/** In a walk, moves to the next unit only when this screen is left, so that no verdict goes unseen. */
export function fromMeasured(state: BenchState, world: World): Update {
  const back = goBack(state);
  return walkOn(back, 'answer', world) ?? stay(back);
}

/** Text typed here answers the current check, unless leaving the screen moves on to another unit. */
function typedOnPicture(state: BenchState, text: string, world: World): Update {
  const left = fromMeasured(emptied(state), world);
  if (left.effects.length === 0) return keptOnLine(state, answerByEntry(left.state, text, world));
  return {
    ...left,
    state: say(left.state, 'ask', told(world)('next-unit-first', { typed: sanitize(text) })),
  };
}

export const measuredScreen: ScreenDefinition<'measured'> = {
  scrolls: true,
  lines: (_state, _screen, world, width, theme) => measuredLines(world, width, theme),
  right: (state, _screen, world) => fromMeasured(state, world),
  left: (state, _screen, world) => fromMeasured(state, world),
  typed: (state, _screen, text, world) => typedOnPicture(state, text, world),
};
