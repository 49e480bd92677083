/** What the work screen shows of the check that is asked: the question, its number, what judges it, and what failed. */

import { data, laid, type Spoken } from '../../base/words.js';
import { notesInParts } from '../../measure/decision.js';
import { foreseenU } from '../../measure/fitness.js';
import type { Instrument, ReadingUnit } from '../../measure/types.js';
import { figureUnit } from '../../measure/units.js';
import { measureWords } from '../../measure/words.js';
import type { RouteCheck } from '../../procedure/types.js';
import { wantedBy } from '../../procedure/wanted.js';
import type { World } from '../../session/ports.js';
import { lookAt } from '../../unit/looks.js';
import { isSet, nextPlace, placesOf, type SetPlace } from '../../unit/sets.js';
import type { CheckState } from '../../unit/types.js';
import { citeLines, citesAt, citesWith, withItLines } from '../cited.js';
import { type CurrentTask, toolFor, toolOffered, unitAt } from '../currenttask.js';
import { command, keyText } from '../keys/table.js';
import { BIG_HEIGHT, bigNumber } from '../parts/drawing.js';
import { atMost, blanks, crop, type Line, line, lineWidth, wrapLine } from '../parts/line.js';
import type { BenchState } from '../state.js';
import {
  answerText,
  decidedText,
  figureText,
  isSetAnswer,
  OUTCOME,
  placeSaid,
  readingsTaken,
  readText,
  shape,
  type Theme,
  withoutStop,
} from '../theme.js';
import { type BenchSay, told } from '../words/told.js';
import type { View } from './screen.js';
import { checkItems } from './stepitems.js';
import { limitTextsShort } from './why.js';

function numberNow(
  check: RouteCheck,
  checkState: CheckState,
  state: BenchState,
  world: World,
): number | undefined {
  if (isSet(check)) return (markedPlace(check, checkState, state) ?? nextPlace(check, checkState))?.expect;
  if (check.expect !== undefined) return check.expect;
  return check.explains === undefined ? undefined : world.open?.setOut.numbers.get(check.explains)?.value;
}

export function askedLines(
  task: CurrentTask & { readonly check: CheckState },
  check: RouteCheck,
  state: BenchState,
  world: World,
  width: number,
  height: number,
  theme: Theme,
  spareRows: Spare,
): View {
  const cites = citesAt(task.step, state, world);
  if (cites.length > 0) return { menu: 0, lines: citeLines(cites, world, width) };
  const together = lookAt(task.step);
  const withIt = withItLines(citesWith(task.step, world), world, width);
  if (together.length > 0)
    return {
      menu: 0,
      lines: [
        ...lookLines(together, state, width, theme, told(world)),
        ...together.flatMap((each) => evidenceLines(each, world, width)),
        ...withIt,
      ],
    };
  const checkState = task.check;
  const read = unitAt(check, state, world);
  const failed = checkState.answered !== undefined && !checkState.holds;
  const items = checkItems(checkState, task.step, state, world).length;
  const menu = Math.min(items, Math.max(3, height - 8));
  const tool = toolFor(check, state, world);
  const asks = laid`${withoutStop(check.ask)}${keyWords(check, checkState, state, told(world))}${withWords(check, tool, told(world))}`;
  const ask = atMost(wrapLine(laid` ${asks}`, width, 'strong', ' '), 2);
  const hint = check.how ?? (check.lot === undefined ? undefined : lotWords(check, told(world)));
  const how = hint === undefined || failed ? [] : quiet(laid` ${data(hint)}`, width, spareRows, ' ');
  const number = numberNow(check, checkState, state, world);
  const verdict = failed ? verdictLines(checkState, check, read, width, theme, told(world)) : [];
  const wanted = [
    ...(tool ? [] : wantedLines(check, state, world, width)),
    ...evidenceLines(check, world, width),
  ];
  const spare = height - menu - ask.length - how.length - wanted.length - (failed ? verdict.length + 1 : 3);
  const big =
    number === undefined ? [] : bigLines(number, check, read, tool, width, spare, theme, told(world));
  return {
    menu,
    lines: failed
      ? [...ask, ...verdict, ...wanted, ...big]
      : [
          ...ask,
          ...how,
          ...wanted,
          ...big,
          ...allowedLines(check, checkState, state, world, width, spareRows),
          ...withIt,
        ],
  };
}

/** `, with R2 (± 0.3 mm)`: the instrument that the reading is booked to, and its U at the figure expected. */
function withWords(check: RouteCheck, tool: Instrument | undefined, say: BenchSay): Spoken {
  if (!tool) return data('');
  const at = check.nominal ? Math.max(check.nominal.w, check.nominal.h) : (check.expect ?? 0);
  const u = `${figureText(foreseenU(tool, at, false))} ${figureUnit(tool.unit)}`;
  return laid`, ${say(tool.steps ? 'step-with-steps' : 'step-with', { tool: tool.id, u })}`;
}

/** What measures it, shown while the instrument in hand does not. */
function wantedLines(check: RouteCheck, state: BenchState, world: World, width: number): readonly Line[] {
  const wanted = wantedBy(check);
  if (!wanted) return [];
  const say = told(world);
  const key = keyText(command('instrument').keys[0]!, say);
  const quantity = measureWords(`quantity-${wanted.quantity}`);
  const inHand = world.instruments.find(({ id }) => id === state.inHand);
  const offered = toolOffered(check, state, world);
  const first = inHand
    ? say('tool-not-this', { tool: inHand.id, quantity })
    : say('tool-asked', { quantity });
  const way = offered
    ? say('tool-offered', { tool: offered.id, title: offered.title })
    : say('tool-scan', { key });
  return atMost(wrapLine(laid`   ${first} ${way}`, width, 'ask', '   '), 3);
}

/** A picture is announced before the answer that needs it. */
function evidenceLines(check: RouteCheck, world: World, width: number): readonly Line[] {
  if (!check.evidence) return [];
  const newest = world.more?.inbox()[0]?.name;
  const what =
    newest === undefined ? told(world)('picture-none') : told(world)('picture-newest', { name: newest });
  return [crop(line(laid`   ${what}`, 'ask'), width)];
}

/** Each question in full: a list would crop it. */
function lookLines(
  together: readonly RouteCheck[],
  { screen }: BenchState,
  width: number,
  theme: Theme,
  say: BenchSay,
): readonly Line[] {
  const { at, moved } = screen.cursor;
  return [
    ...wrapLine(laid` ${say('look-all')}`, width, 'strong', ' '),
    ...together.flatMap(({ ask, how }, i) => {
      const isMarked = moved && i === at;
      const sign = isMarked ? shape('>', theme) : shape('.', theme);
      const text = how === undefined ? ask : `${ask} (${how})`;
      return wrapLine(laid` ${sign} ${data(text)}`, width, isMarked ? 'strong' : 'plain', '   ');
    }),
  ];
}

function lotWords(check: RouteCheck, say: BenchSay): string {
  if (check.serial) return say('lot-serial');
  return say(check.dated ? 'lot-dated' : 'lot-scan');
}

/** Large digits, the unit at the foot of the last; one line with its label if there is no room. */
function bigLines(
  number: number,
  check: RouteCheck,
  read: ReadingUnit,
  tool: Instrument | undefined,
  width: number,
  spare: number,
  theme: Theme,
  say: BenchSay,
): readonly Line[] {
  const counts = check.kind === 'count';
  const text = counts ? String(number) : readText(number, read);
  const unit = counts || read === 'inch' ? '' : ` ${check.unit ?? 'mm'}`;
  const label = expectedLabel(number, check, read, tool, say);
  const rows = spare >= BIG_HEIGHT + 1 ? bigNumber(text, width - 4 - unit.length, theme) : undefined;
  if (!rows)
    return [crop([{ text: laid`   ${label} ` }, { text: data(text + unit), tone: 'strong' }], width)];
  return [
    crop(line(laid`   ${label}`), width),
    ...rows.map((row, index) => [blanks(3), ...row, { text: data(index === BIG_HEIGHT - 1 ? unit : '') }]),
  ];
}

/** Describes the number: also what the instrument shows for it if it does not start at zero, and mm for inches. */
function expectedLabel(
  number: number,
  check: RouteCheck,
  read: ReadingUnit,
  tool: Instrument | undefined,
  say: BenchSay,
): Spoken {
  if (check.kind === 'tick' || check.kind === 'go-no-go') return say('big-number');
  if (check.kind === 'count') return say('big-expected');
  const shows =
    tool && tool.offset !== 0
      ? [say('big-shows', { tool: tool.id, figure: readText(number - tool.offset, read) })]
      : [];
  return data(
    [say('big-expected'), ...(read === 'inch' ? [`${figureText(number)} mm`] : []), ...shows].join(', '),
  );
}

function keyWords(check: RouteCheck, now: CheckState, state: BenchState, say: BenchSay): Spoken {
  if (!isSet(check)) return data('');
  const marked = markedPlace(check, now, state);
  if (marked) return laid`: ${say('set-taken-again', { place: marked.text })}`;
  const next = nextPlace(check, now);
  if (next) return laid`: ${placeSaid(next.text, say)}`;
  return now.answered ? data('') : laid`: ${say('set-all-in')}`;
}

/** The first two limits that apply to what is asked now, with their sources. */
function allowedLines(
  check: RouteCheck,
  now: CheckState,
  state: BenchState,
  world: World,
  width: number,
  spare: Spare,
): readonly Line[] {
  const place = isSet(check) ? (markedPlace(check, now, state) ?? nextPlace(check, now)) : undefined;
  return limitTextsShort(check, world, place?.key)
    .slice(0, 2)
    .flatMap((text) => quiet(laid`   ${text}`, width, spare));
}

/** Unused rows, available to quiet lines longer than one row. */
export interface Spare {
  rows: number;
}

/** A quiet line: in full if there are spare rows, else cropped to one row. */
function quiet(text: Spoken, width: number, spare: Spare, indent = '     '): readonly Line[] {
  const whole = wrapLine(text, width, 'plain', indent);
  if (whole.length - 1 > spare.rows) return [crop(line(text), width)];
  spare.rows -= whole.length - 1;
  return whole;
}

/** A verdict that keeps the step open: every rule that decided, in full, and what the figures show. */
function verdictLines(
  { answered }: CheckState,
  check: RouteCheck,
  read: ReadingUnit,
  width: number,
  theme: Theme,
  say: BenchSay,
): readonly Line[] {
  if (!answered) return [];
  const { answer, verdict } = answered;
  const { sign, tone } = OUTCOME[verdict.outcome];
  const word = say(`outcome-${verdict.outcome}`);
  const mark = laid` ${shape(sign, theme)} ${word}  `;
  const whole = laid`${mark}${answerText(say, answered, read, check)}`;
  // The first readings of a long set would read as those that were judged; what was judged stands below.
  const head =
    isSetAnswer(answer) && lineWidth(line(whole)) > width
      ? laid`${mark}${readingsTaken(answer, say)}`
      : whole;
  const { says, next } = notesInParts(verdict.notes);
  const notes =
    answer.kind === 'square'
      ? [say('picture-of-frame', { key: pictureKey(say) })]
      : [...next, ...says].map(say.retell);
  return [
    ...atMost(wrapLine(head, width, tone, '   '), 1),
    ...atMost(
      decidedText(verdict, say).flatMap((text) => wrapLine(laid`   ${text}`, width, 'plain', '   ')),
      5,
    ),
    ...atMost(
      notes.flatMap((note) => wrapLine(laid`   ${note}`, width, 'plain', '   ')),
      3,
    ),
  ];
}

const pictureKey = (say: BenchSay): string => keyText(command('measured').keys[0]!, say);

/** The place that the mark stands on, in a set of which it is taken already. */
function markedPlace(check: RouteCheck, now: CheckState, { screen }: BenchState): SetPlace | undefined {
  const place = screen.cursor.moved && isSet(check) ? placesOf(check)[screen.cursor.at] : undefined;
  return place && (now.partial?.[place.key]?.length ?? 0) >= place.time ? place : undefined;
}
