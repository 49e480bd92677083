/** The work screen: the one thing to do now, its number in large digits, everything else quiet. */
import { notesInParts } from '../../measure/decision.js';
import { foreseenU } from '../../measure/fitness.js';
import type { Instrument, ReadingUnit } from '../../measure/types.js';
import { figureUnit } from '../../measure/units.js';
import type { RouteCheck } from '../../procedure/types.js';
import { wantedBy } from '../../procedure/wanted.js';
import type { World } from '../../session/ports.js';
import { lookAt } from '../../unit/looks.js';
import { isSet, nextPlace, placesOf, type SetPlace } from '../../unit/sets.js';
import { timeText } from '../../unit/timers.js';
import type { CheckState, LotUsed, StepState } from '../../unit/types.js';
import { answerByArrow, answerByEntry, send, takeLot } from '../answers.js';
import { citeLines, citesAt, citesWith, withItLines } from '../cited.js';
import {
  asked,
  type CurrentTask,
  currentTask,
  offersOf,
  setIsIn,
  toolFor,
  toolOffered,
  unitAt,
} from '../currenttask.js';
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
  withoutStop,
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
      ? askedLines({ ...task, check: task.check }, check, state, world, width, height, theme, {
          rows: Math.max(0, spareRows),
        })
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
  const told = [...deadlineLines(task.step.step.id, world, width), ...instructions, ...caution];
  const kept = atMost(told, Math.max(0, room));
  return { lines: [...kept, BLANK, ...whole.lines].slice(0, height - whole.menu), menu: whole.menu };
}

/** What is left of the open time of what this step works on. */
function deadlineLines(step: string, { open, now }: World, width: number): readonly Line[] {
  const timer = open?.state.timers.find((each) => each.kind === 'not-after' && each.step === step);
  if (!timer) return [];
  const left = timer.until > now ? `${timeLeft(timer.until, now)} left` : 'the time is over';
  return [crop(line(` ${left}, until ${timeText(timer.until, now)}: ${timer.text}`, 'ask'), width)];
}

/** The spot to mark in the drawing: the check's, else the step's; and the kinds of marks the step makes. */
export function spotOf(state: BenchState, world: World) {
  const at = asked(state, world);
  const step = at?.task.step.step;
  return { spot: at?.check?.spot ?? step?.spot, item: step?.item, claims: step?.marks };
}

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

function askedLines(
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
    return { menu: 0, lines: [...lookLines(together, state, width, theme), ...withIt] };
  const checkState = task.check;
  const read = unitAt(check, state, world);
  const failed = checkState.answered !== undefined && !checkState.holds;
  const items = checkItems(checkState, task.step, state, world).length;
  const menu = Math.min(items, Math.max(3, height - 8));
  const tool = toolFor(check, state, world);
  const asks = `${withoutStop(check.ask)}${keyWords(check, checkState, state)}${withWords(check, tool)}`;
  const ask = atMost(wrapLine(` ${asks}`, width, 'strong', ' '), 2);
  const told = check.how ?? (check.lot === undefined ? undefined : lotWords(check));
  const how = told === undefined || failed ? [] : quiet(` ${told}`, width, spareRows, ' ');
  const number = numberNow(check, checkState, state, world);
  const verdict = failed ? verdictLines(checkState, check.points, read, width, theme) : [];
  const wanted = [
    ...(tool ? [] : wantedLines(check, state, world, width)),
    ...evidenceLines(check, world, width),
  ];
  const spare = height - menu - ask.length - how.length - wanted.length - (failed ? verdict.length + 1 : 3);
  const big = number === undefined ? [] : bigLines(number, check, read, tool, width, spare, theme);
  return {
    menu,
    lines: failed
      ? [...ask, ...verdict, ...wanted, ...big]
      : [...ask, ...how, ...wanted, ...big, ...allowedLines(check, world, width, spareRows), ...withIt],
  };
}

/** `, with R2 (± 0.3 mm)`: the instrument that the reading is booked to, and its U at the figure expected. */
function withWords(check: RouteCheck, tool: Instrument | undefined): string {
  if (!tool) return '';
  const at = check.nominal ? Math.max(check.nominal.w, check.nominal.h) : (check.expect ?? 0);
  const figure = figureText(foreseenU(tool, at, false));
  return `, with ${tool.id} (${tool.steps ? 'steps of' : '±'} ${figure} ${figureUnit(tool.unit)})`;
}

/** What measures it, shown while the instrument in hand does not. */
function wantedLines(check: RouteCheck, state: BenchState, world: World, width: number): readonly Line[] {
  const wanted = wantedBy(check);
  if (!wanted) return [];
  const key = keyText(command('instrument').keys[0]!);
  const inHand = world.instruments.find(({ id }) => id === state.inHand);
  const offered = toolOffered(check, state, world);
  const first = inHand
    ? `${inHand.id} in hand does not measure ${wanted.quantity}`
    : `Asks for an instrument: ${wanted.quantity}`;
  const way = offered
    ? `Right takes up ${offered.id}, ${offered.title}; or scan another.`
    : `Scan one that does, or ${key}.`;
  return atMost(wrapLine(`   ${first}. ${way}`, width, 'ask', '   '), 3);
}

/** A picture is announced before the answer that needs it. */
function evidenceLines(check: RouteCheck, world: World, width: number): readonly Line[] {
  if (!check.evidence) return [];
  const newest = world.more?.newestFile();
  const what =
    newest === undefined ? 'put it into the folder "inbox", or type its path' : `the newest is ${newest}`;
  return [crop(line(`   Takes a picture: ${what}.`, 'ask'), width)];
}

const LOOK = 'Are all of these right?';

/** Each question in full: a list would crop it. */
function lookLines(
  together: readonly RouteCheck[],
  { screen }: BenchState,
  width: number,
  theme: Theme,
): readonly Line[] {
  const { at, moved } = screen.cursor;
  return [
    ...wrapLine(` ${LOOK}`, width, 'strong', ' '),
    ...together.flatMap(({ ask, how }, i) => {
      const isMarked = moved && i === at;
      const sign = isMarked ? shape('>', theme) : shape('.', theme);
      const text = how === undefined ? ask : `${ask} (${how})`;
      return wrapLine(` ${sign} ${text}`, width, isMarked ? 'strong' : 'plain', '   ');
    }),
  ];
}

function lotWords(check: RouteCheck): string {
  if (check.serial) return 'Scan or type the number of this piece.';
  return check.dated ? 'Scan it, or type it and its date: AB12 2027-03-31' : 'Scan or type it.';
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

function keyWords(check: RouteCheck, now: CheckState, state: BenchState): string {
  if (!isSet(check)) return '';
  const marked = markedPlace(check, now, state);
  if (marked) return `: ${marked.text}, taken again`;
  const next = nextPlace(check, now);
  if (next) return `: ${next.text}`;
  return now.answered ? '' : ': all readings are in; Right arrow judges them';
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
  points: RouteCheck['points'],
  read: ReadingUnit,
  width: number,
  theme: Theme,
): readonly Line[] {
  if (!answered) return [];
  const { answer, verdict } = answered;
  const { sign, word, tone } = OUTCOME[verdict.outcome];
  const head = ` ${shape(sign, theme)} ${word}  ${answerText(answered, read, points)}`;
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
  if (open.state.parked)
    return wrapLine(' This unit is parked. ^B takes it up again; F2 shows the other units.', width, 'ask');
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

/** What the arrows offer at a check: the readings of a set, its choices, lots in use, and the ways out of a failure. */
function checkItems(check: CheckState, step: StepState, state: BenchState, world: World): readonly Item[] {
  const asked = step.step.checks.find(({ id }) => id === check.id);
  if (!asked || citesAt(step, state, world).length > 0) return [];
  const together = lookAt(step);
  if (together.length > 0) return together.map(({ id, ask }) => ({ id, text: ask }));
  const failed = check.answered !== undefined && !check.holds;
  return [
    ...(isSet(asked) && check.partial ? readingItems(asked, check, state, world) : []),
    ...(failed ? waysOut(asked, step, world) : []),
    ...(failed ? [] : (asked.choices ?? []).map(({ id, text }, i) => ({ id, text: `${i + 1}  ${text}` }))),
    ...(failed ? [] : offersOf(asked, world).map((lot, i) => ({ id: `${i}`, text: lotText(lot, i) }))),
  ];
}

const branchOf = (stage: string, open: World['open']): string | undefined =>
  open?.state.route.stages.find(({ id }) => id === stage)?.branch;

/** Measure again, make again the part that was made wrong, or this step, or raise a snag. */
function waysOut({ kind }: RouteCheck, { step }: StepState, { open }: World): readonly Item[] {
  const makers = (open?.state.derived.marks.graph.nodes.get(step.id)?.restsOn ?? [])
    .map((link) => open!.state.steps.get(link.step))
    .filter((maker) => maker?.madeAt !== undefined)
    // An order that was agreed, or goods that were taken in, are not what failed here.
    .filter((maker) => maker!.step.stage === step.stage || branchOf(maker!.step.stage, open) !== 'all')
    .slice(-3)
    .reverse();
  const again = AGAIN[kind] ?? 'check it again';
  return [
    ...(kind === 'square' || kind === 'points' ? [] : [{ id: 'again', text: again }]),
    ...[...new Map(makers.map((maker) => [maker!.step.id, maker!.step.title]))].map(([id, title]) => ({
      id: `${MAKE}${id}`,
      text: `make again: ${title}`,
    })),
    { id: `${MAKE}${step.id}`, text: `do this step again: ${step.title}` },
    { id: 'snag', text: 'raise a snag and park the unit' },
  ];
}

const AGAIN: Partial<Record<RouteCheck['kind'], string>> = {
  number: 'measure again',
  count: 'count again',
  choice: 'answer again',
  text: 'type it again',
};

/** Before the id of a step to be made again. */
const MAKE = 'make:';

/** The readings of the set at hand. */
export function setItems(state: BenchState, world: World): readonly Item[] {
  const at = asked(state, world);
  return at?.check && at.task.check && isSet(at.check)
    ? readingItems(at.check, at.task.check, state, world)
    : [];
}

function readingItems(
  check: RouteCheck,
  { partial }: CheckState,
  state: BenchState,
  world: World,
): readonly Item[] {
  const unit = unitAt(check, state, world);
  return placesOf(check).map(({ key, time, text }) => {
    const reading = partial?.[key]?.[time - 1];
    const by = reading?.instrument === undefined ? '' : `  with ${reading.instrument}`;
    return {
      id: `${key} ${time}`,
      text: `${text}  ${reading ? `${readText(reading.value, unit)}${by}` : '...'}`,
    };
  });
}

function lotText({ code, expires, at }: LotUsed, i: number): string {
  const until = expires === undefined ? '' : `, until ${expires}`;
  return `${code}${until}, last named ${at.slice(0, 10)}${i === 0 ? ' (Right takes it)' : ''}`;
}

function chooseAtCheck(state: BenchState, item: Item, world: World): Update {
  const at = asked(state, world);
  if (!at?.task.check || !at.check) return stay(state);
  const { check } = at;
  if (lookAt(at.task.step).length > 0)
    return stay(say(state, 'ask', 'Left says that this one is not right; Right takes all as good.'));
  const staying = { ...state, screen: { ...state.screen, cursor: TOP } };
  if (item.id.startsWith(MAKE))
    return stay(showForm(staying, { id: 'rework', step: item.id.slice(MAKE.length) }));
  if (item.id === 'snag') return stay(showForm(staying, snagHere(state, world)));
  if (isSet(check))
    return stay(
      say(state, 'ask', `${item.text}: take it again.`, 'Type or send the new reading, then Enter.'),
    );
  const lot = check.kind === 'text' ? offersOf(check, world)[Number(item.id)] : undefined;
  if (lot) return takeLot(state, check, lot, world);
  const failed = at.task.check.answered !== undefined && !at.task.check.holds;
  if (!failed) return send(state, { do: 'answer', check: check.id, value: item.id }, world);
  return stay(
    say(
      staying,
      'ask',
      'Check it again.',
      check.kind === 'number' ? 'Type or send the new reading, then Enter.' : 'Then answer again.',
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
  points: TYPED,
  computed: [],
};

function answerKeys(state: BenchState, world: World): readonly WordedKey[] {
  const at = asked(state, world);
  if (!at) return [];
  const { task, check } = at;
  if (citesAt(task.step, state, world).length > 0)
    return [worded('yes', 'takes all over'), worded('no', 'asks anew')];
  const failed = task.check?.answered !== undefined && !task.check.holds;
  if (failed && check && !isSet(check))
    return [...(ANSWERS[check.kind] ?? []), ...MARKING, worded('act', 'takes what is marked')];
  if (!check || !task.check) return task.step.status === 'held' ? [worded('release', 'release')] : [];
  if (lookAt(task.step).length > 0)
    return [worded('yes', 'all right'), ...MARKING, worded('no', 'the one marked is not')];
  if (isSet(check)) {
    const first = setIsIn(check, task.check) ? [worded('yes', 'judge them')] : TYPED;
    return [...first, ...(task.check.partial ? [...MARKING, worded('anew', 'all anew')] : [])];
  }
  if (toolOffered(check, state, world)) return [worded('yes', 'takes it up'), ...ANSWERS[check.kind]];
  if (check.kind === 'text' && offersOf(check, world).length > 0)
    return [worded('yes', 'takes the lot'), ...TYPED];
  if (check.kind === 'choice' && !state.screen.cursor.moved)
    return [...MARKING, worded('act', 'takes a number typed')];
  return ANSWERS[check.kind];
}

/** The place that the mark stands on, in a set of which it is taken already. */
function markedPlace(check: RouteCheck, now: CheckState, { screen }: BenchState): SetPlace | undefined {
  const place = screen.cursor.moved && isSet(check) ? placesOf(check)[screen.cursor.at] : undefined;
  return place && (now.partial?.[place.key]?.length ?? 0) >= place.time ? place : undefined;
}

export const stepScreen: ScreenDefinition<'step'> = {
  // In a set, the reading just taken: it is the one that is doubted most often.
  startsAt(state, world) {
    const at = asked(state, world);
    const now = at?.task.check;
    // Of what stands together, and of the ways out of a failure, none is passed by.
    if (now && (lookAt(at.task.step).length > 0 || (now.answered && !now.holds && !now.partial))) return 0;
    if (!at?.check || !now?.partial || !isSet(at.check)) return undefined;
    const next = nextPlace(at.check, now);
    const places = placesOf(at.check);
    const index = next
      ? places.findIndex(({ key, time }) => key === next.key && time === next.time)
      : places.length;
    return Math.max(0, index - 1);
  },
  list(state, world) {
    const task = world.open && currentTask(world.open.state, state.at);
    return task?.check ? checkItems(task.check, task.step, state, world) : [];
  },
  view: stepView,
  keys: (state, _screen, world) => answerKeys(state, world),
  choose: chooseAtCheck,
  right(state, { cursor }, world) {
    // In the list of a set's readings, the mark picks one to be taken again; the arrow still judges the set.
    const at = asked(state, world);
    const item = cursor.moved ? stepScreen.list?.(state, world)[cursor.at] : undefined;
    const reading = at?.check && isSet(at.check) && item?.id.includes(' ');
    if (at && lookAt(at.task.step).length > 0) return answerByArrow(state, true, world);
    if (item && !reading) return chooseAtCheck(state, item, world);
    return answerByArrow(state, true, world);
  },
  left: (state, _screen, world) => answerByArrow(state, false, world),
  typed: (state, _screen, text, world) => keptOnLine(state, answerByEntry(emptied(state), text, world)),
};
