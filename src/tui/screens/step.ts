/** The work screen: the one thing to do now, its number in large digits, everything else quiet. */
import { notesInParts } from '../../measure/decision.js';
import { LENGTH_NAMES } from '../../measure/misread.js';
import { nominalOf } from '../../measure/square.js';
import { type Instrument, type ReadingUnit, SQUARE_KEYS } from '../../measure/types.js';
import type { RouteCheck } from '../../procedure/types.js';
import type { World } from '../../session/ports.js';
import type { CheckState, StepState } from '../../unit/types.js';
import { answerByArrow, answerByEntry, send } from '../answers.js';
import { asked, type CurrentTask, currentTask, squareNext, toolFor, unitAt } from '../currenttask.js';
import { command, keyText, MARKING, type WordedKey, worded } from '../keys/table.js';
import { emptied, keptOnLine, say, showForm, stay } from '../navigate.js';
import { BIG_HEIGHT, bigNumber } from '../parts/drawing.js';
import { atMost, BLANK, crop, type Line, line, wrapLine } from '../parts/line.js';
import type { Update } from '../protocol.js';
import { type BenchState, TOP } from '../state.js';
import {
  answerText,
  decidedText,
  figureText,
  OUTCOME,
  readText,
  shape,
  type Theme,
  timeLeft,
} from '../theme.js';
import type { Item, ScreenDefinition, View } from './screen.js';
import { snagHere } from './snags.js';
import { limitTexts } from './why.js';

export function stepView(state: BenchState, world: World, width: number, height: number, theme: Theme): View {
  const at = asked(state, world);
  if (!at) return { lines: nothingLeft(world, width), menu: 0 };
  const { task, check } = at;
  const { step } = task.step;
  const wanted = (spareRows: number): View =>
    check && task.check
      ? askedLines(task.check, check, state, world, width, height, theme, { rows: Math.max(0, spareRows) })
      : waits(task, width, theme);
  // Lines too long for one row are shown in full if the instructions and the caution leave room.
  const taken = [...step.do, step.caution ?? ''].flatMap((text) =>
    wrapLine(` ${text}`, width, 'plain', '   '),
  ).length;
  const least = wanted(0);
  const whole = wanted(height - least.lines.length - least.menu - taken - 1);
  const room = height - whole.lines.length - whole.menu - 1;
  const instructions = atMost(
    step.do.flatMap((sentence) => wrapLine(` ${sentence}`, width, 'plain', ' ')),
    Math.max(1, room - (step.caution ? 2 : 0)),
  );
  const caution =
    step.caution === undefined
      ? []
      : atMost(
          wrapLine(` ${shape('!', theme)} ${step.caution}`, width, 'ask', '   '),
          Math.max(1, room - instructions.length),
        );
  const told = [...instructions, ...caution];
  const kept = atMost(told, Math.max(0, room));
  return { lines: [...kept, BLANK, ...whole.lines].slice(0, height - whole.menu), menu: whole.menu };
}

/** The spot to mark in the drawing: the check's, else the step's. */
export function spotOf(state: BenchState, world: World) {
  const at = asked(state, world);
  const step = at?.task.step.step;
  return { spot: at?.check?.spot ?? step?.spot, item: step?.item };
}

function numberNow(check: RouteCheck, checkState: CheckState, world: World): number | undefined {
  if (check.kind === 'square' && check.nominal) {
    const next = squareNext(checkState);
    return next ? nominalOf(next.key, check.nominal) : undefined;
  }
  if (check.expect !== undefined) return check.expect;
  return check.explains === undefined ? undefined : world.open?.setOut.numbers.get(check.explains)?.value;
}

function askedLines(
  checkState: CheckState,
  check: RouteCheck,
  state: BenchState,
  world: World,
  width: number,
  height: number,
  theme: Theme,
  spareRows: Spare,
): View {
  const read = unitAt(check, state, world);
  const failed = checkState.answered !== undefined && !checkState.holds;
  const choices = squareIsIn(checkState) ? SQUARE_KEYS.length : (check.choices?.length ?? 0);
  const menu = failed ? 3 : Math.min(choices, Math.max(3, height - 8));
  const ask = atMost(wrapLine(` ${check.ask}${keyWords(check, checkState)}`, width, 'strong', ' '), 2);
  const told = check.how ?? (check.lot === undefined ? undefined : EXPIRY);
  const how = told === undefined || failed ? [] : quiet(` ${told}`, width, spareRows, ' ');
  const number = numberNow(check, checkState, world);
  const verdict = failed ? verdictLines(checkState, read, width, theme) : [];
  const tool = toolFor(check, state, world);
  const wanted = tool || failed ? [] : wantedLines(check, width);
  const spare = height - menu - ask.length - how.length - wanted.length - (failed ? verdict.length + 1 : 3);
  const big = number === undefined ? [] : bigLines(number, check, read, tool, width, spare, theme);
  return {
    menu,
    lines: failed
      ? [...ask, ...verdict, ...big, ...partialLines(checkState, read, width, spareRows)]
      : [
          ...ask,
          ...how,
          ...wanted,
          ...big,
          ...partialLines(checkState, read, width, spareRows),
          ...allowedLines(check, world, width, spareRows),
        ],
  };
}

/** The kind of instrument a reading needs, shown while none is in hand. */
function wantedLines({ kind, instruments }: RouteCheck, width: number): readonly Line[] {
  if ((kind !== 'number' && kind !== 'square') || instruments.length === 0) return [];
  const key = keyText(command('instrument').keys[0]!);
  return [crop(line(`   Takes a ${instruments.join(' or ')}: scan it, or ${key}.`, 'ask'), width)];
}

const EXPIRY = 'Scan or type it; the day it runs out may follow: AB12 2027-03-31';

/** Large digits, the unit at the foot of the last; one line with its label if there is no room. */
function bigLines(
  number: number,
  check: RouteCheck,
  read: ReadingUnit,
  tool: Instrument | undefined,
  width: number,
  spare: number,
  theme: Theme,
): readonly Line[] {
  const counts = check.kind === 'count';
  const text = counts ? String(number) : readText(number, read);
  const unit = counts || read === 'inch' ? '' : ` ${check.unit ?? 'mm'}`;
  const label = expectedLabel(number, check, read, tool);
  const rows = spare >= BIG_HEIGHT + 1 ? bigNumber(text, width - 4 - unit.length, theme) : undefined;
  if (!rows) return [crop([{ text: `   ${label} ` }, { text: text + unit, tone: 'strong' }], width)];
  return [
    crop(line(`   ${label}`), width),
    ...rows.map((row, index) => [{ text: '   ' }, ...row, { text: index === BIG_HEIGHT - 1 ? unit : '' }]),
  ];
}

/** Describes the number: also what the instrument shows for it if it does not start at zero, and mm for inches. */
function expectedLabel(
  number: number,
  check: RouteCheck,
  read: ReadingUnit,
  tool: Instrument | undefined,
): string {
  if (check.kind === 'tick' || check.kind === 'go-no-go') return 'the number';
  if (check.kind === 'count') return 'expected';
  const shows = tool && tool.offset !== 0 ? [`${tool.id} shows ${readText(number - tool.offset, read)}`] : [];
  return ['expected', ...(read === 'inch' ? [`${figureText(number)} mm`] : []), ...shows].join(', ');
}

const squareIsIn = (check: CheckState): boolean =>
  check.partial !== undefined && squareNext(check) === undefined;

function keyWords(check: RouteCheck, state: CheckState): string {
  if (check.kind !== 'square') return '';
  const next = squareNext(state);
  if (!next) return ': all readings are in; Right arrow judges them';
  return `: ${LENGTH_NAMES[next.key]}${next.again ? ', once more' : ''}`;
}

function partialLines(state: CheckState, unit: ReadingUnit, width: number, spare: Spare): readonly Line[] {
  const read = SQUARE_KEYS.filter((key) => (state.partial?.[key]?.length ?? 0) > 0).map(
    (key) =>
      `${key.replace('_', '-')} ${state.partial![key]!.map(({ value }) => readText(value, unit)).join(', ')}`,
  );
  return read.length === 0 ? [] : quiet(`   ${read.join('; ')}`, width, spare);
}

/** The first two limits that apply, with their sources. */
function allowedLines(check: RouteCheck, world: World, width: number, spare: Spare): readonly Line[] {
  return limitTexts(check, world)
    .slice(0, 2)
    .flatMap((text) => quiet(`   ${text}`, width, spare));
}

/** Unused rows, available to quiet lines longer than one row. */
interface Spare {
  rows: number;
}

/** A quiet line: in full if there are spare rows, else cropped to one row. */
function quiet(text: string, width: number, spare: Spare, indent = '     '): readonly Line[] {
  const whole = wrapLine(text, width, 'plain', indent);
  if (whole.length - 1 > spare.rows) return [crop(line(text), width)];
  spare.rows -= whole.length - 1;
  return whole;
}

/** A verdict that keeps the step open: every rule that decided, in full, and what the figures show. */
function verdictLines(
  { answered }: CheckState,
  read: ReadingUnit,
  width: number,
  theme: Theme,
): readonly Line[] {
  if (!answered) return [];
  const { answer, verdict } = answered;
  const { sign, word, tone } = OUTCOME[verdict.outcome];
  const head = ` ${shape(sign, theme)} ${word}  ${answerText(answered, read)}`;
  const { says, next } = notesInParts(verdict.notes);
  const notes =
    answer.kind === 'square'
      ? [`${PICTURE_KEY}: the frame as measured, and what to do.`]
      : [...next, ...says];
  return [
    ...atMost(wrapLine(head, width, tone, '   '), 1),
    ...atMost(
      decidedText(verdict).flatMap((text) => wrapLine(`   ${text}`, width, 'plain', '   ')),
      5,
    ),
    ...atMost(
      notes.flatMap((note) => wrapLine(`   ${note}`, width, 'plain', '   ')),
      3,
    ),
  ];
}

const PICTURE_KEY = keyText(command('measured').keys[0]!);

function waits({ step }: CurrentTask, width: number, theme: Theme): View {
  const { hold } = step.step;
  if (step.status === 'held' && hold)
    return {
      menu: 0,
      lines: [
        ...wrapLine(` ${shape('#', theme)} HOLD: ${hold.title}`, width, 'ask', '   '),
        ...wrapLine(
          ' Every check of this step passes. Work does not go past it until it is released: F8.',
          width,
          'plain',
          ' ',
        ),
      ],
    };
  return { menu: 0, lines: step.because.flatMap((why) => wrapLine(` ${why}`, width, 'ask', ' ')) };
}

function nothingLeft(world: World, width: number): readonly Line[] {
  const { open } = world;
  if (!open) return wrapLine(' No unit is on the bench. Scan one, or F2.', width);
  if (open.state.finished)
    return [
      ...wrapLine(` ${open.id} is finished.`, width, 'good'),
      BLANK,
      ...wrapLine(` Its record: pinchrod record ${open.id} --format html --out ${open.id}.html`, width),
      ...wrapLine(' F2 shows the other units.', width),
    ];
  if (open.state.scrapped) return wrapLine(` ${open.id} is scrapped.`, width, 'bad');
  const { steps, timers } = open.state;
  const cures = timers.filter(({ kind }) => kind === 'not-before');
  const curing = new Set(cures.map(({ step }) => step));
  return [
    ...wrapLine(' Nothing can be done on this unit now.', width, 'ask'),
    ...cures.flatMap(({ step, until, text }) =>
      wrapLine(
        ` ${steps.get(step)!.step.title}: in ${timeLeft(until, world.now)}. ${text}.`,
        width,
        'strong',
        '   ',
      ),
    ),
    ...[...steps.values()]
      .filter(
        ({ status, because, step }) => status === 'waiting' && because.length > 0 && !curing.has(step.id),
      )
      .slice(0, Math.max(1, 4 - 2 * cures.length))
      .flatMap(({ step, because }) =>
        atMost(wrapLine(` ${step.title}: ${because[0]}`, width, 'plain', '   '), 3),
      ),
    BLANK,
    ...wrapLine(' F3 shows the steps, F6 the snags, F2 the other units.', width),
  ];
}

/** What the arrows offer at a check: its choices, or the ways out of a failure. */
function checkItems(check: CheckState, step: StepState, state: BenchState, world: World): readonly Item[] {
  const asked = step.step.checks.find(({ id }) => id === check.id);
  const read = asked ? unitAt(asked, state, world) : 'mm';
  if (check.answered && !check.holds) {
    return [
      {
        id: 'again',
        text: asked?.kind === 'tick' || asked?.kind === 'go-no-go' ? 'check it again' : 'measure again',
      },
      { id: 'rework', text: 'rework now' },
      { id: 'snag', text: 'raise a snag and park the unit' },
    ];
  }
  if (check.partial && squareNext(check) === undefined)
    return SQUARE_KEYS.map((key) => ({
      id: key,
      text: `${LENGTH_NAMES[key]} ${check.partial?.[key]?.map(({ value }) => readText(value, read)).join(', ') ?? ''}`,
    }));
  return asked?.choices?.map(({ id, text }) => ({ id, text })) ?? [];
}

function chooseAtCheck(state: BenchState, item: Item, world: World): Update {
  const at = asked(state, world);
  if (!at?.task.check || !at.check) return stay(state);
  const failed = at.task.check.answered !== undefined && !at.task.check.holds;
  if (!failed && at.check.kind === 'square')
    return stay(
      say(state, 'ask', `${item.text}: take it again.`, 'Type or send the new reading, then Enter.'),
    );
  if (!failed) return send(state, { do: 'answer', check: at.check.id, value: item.id }, world);
  const staying = { ...state, screen: { ...state.screen, cursor: TOP } };
  if (item.id === 'rework') return stay(showForm(staying, { id: 'rework', step: at.task.step.step.id }));
  if (item.id === 'snag') return stay(showForm(staying, snagHere(state, world)));
  return stay(
    say(
      staying,
      'ask',
      'Check it again.',
      at.check.kind === 'number' || at.check.kind === 'square'
        ? 'Type or send the new reading, then Enter.'
        : 'Then answer again.',
    ),
  );
}

const YES = worded('yes', 'yes');
const TYPED = [worded('act', 'logs what is typed')];
const ANSWERS: Readonly<Record<RouteCheck['kind'], readonly WordedKey[]>> = {
  tick: [YES],
  'go-no-go': [YES, worded('no', 'no')],
  choice: [...MARKING, worded('act', 'choose')],
  number: TYPED,
  count: TYPED,
  text: TYPED,
  square: TYPED,
};

function answerKeys(state: BenchState, world: World): readonly WordedKey[] {
  const at = asked(state, world);
  if (!at) return [];
  const { task, check } = at;
  if (!check || !task.check) return task.step.status === 'held' ? [worded('release', 'release')] : [];
  return check.kind === 'square' && squareIsIn(task.check) ? ANSWERS.tick : ANSWERS[check.kind];
}

export const stepScreen: ScreenDefinition<'step'> = {
  list(state, world) {
    const task = world.open && currentTask(world.open.state, state.at);
    return task?.check ? checkItems(task.check, task.step, state, world) : [];
  },
  view: stepView,
  keys: (state, _screen, world) => answerKeys(state, world),
  choose: chooseAtCheck,
  right(state, { cursor }, world) {
    // In the list below a complete square set, the mark picks a reading to retake; the arrow still judges the set.
    const check = world.open && currentTask(world.open.state, state.at)?.check;
    if (cursor.moved && !(check && squareIsIn(check))) {
      const item = stepScreen.list?.(state, world)[cursor.at];
      return item ? chooseAtCheck(state, item, world) : stay(state);
    }
    return answerByArrow(state, true, world);
  },
  left: (state, _screen, world) => answerByArrow(state, false, world),
  typed: (state, _screen, text, world) => keptOnLine(state, answerByEntry(emptied(state), text, world)),
};
