import { data, laid, type Spoken } from '../../base/words.js';
import type { RouteCheck } from '../../procedure/types.js';
import type { World } from '../../session/ports.js';
import { lookAt } from '../../unit/looks.js';
import { isSet, nextPlace, placesOf } from '../../unit/sets.js';
import { timeText } from '../../unit/timers.js';
import type { Snag } from '../../unit/types.js';
import { unitWords } from '../../unit/words.js';
import { listsOf } from '../../unit/worklists.js';
import { answerByArrow, answerByEntry } from '../answers.js';
import { citesAt } from '../cited.js';
import { asked, type CurrentTask, currentTask, offersOf, setIsIn, toolOffered } from '../currenttask.js';
import { marking, type WordedKey, worded } from '../keys/table.js';
import { emptied, keptOnLine } from '../navigate.js';
import { atMost, BLANK, crop, type Line, line, wrapLine } from '../parts/line.js';
import type { BenchState } from '../state.js';
import { shape, type Theme, timeLeft } from '../theme.js';
import { type BenchSay, told } from '../words/told.js';
import { aroundLines } from './around.js';
import type { ScreenDefinition, View } from './screen.js';
import { walkLines } from './stages.js';
import { checkItems, chooseAtCheck } from './stepitems.js';
import { askedLines } from './steplines.js';

export function stepView(state: BenchState, world: World, width: number, tall: number, theme: Theme): View {
  const at = asked(state, world);
  if (!at) return { lines: nothingLeft(world, width), menu: 0 };
  const { task, check } = at;
  const { step } = task.step;
  const wantedIn = (height: number, spareRows: number): View =>
    check && task.check
      ? askedLines({ ...task, check: task.check }, check, state, world, width, height, theme, {
          rows: Math.max(0, spareRows),
        })
      : waits(task, width, theme, told(world));
  // The unit of a walk is drawn large only where that crops neither the question nor all of the instructions.
  const large = walkLines(state, world, width, true, theme);
  const fits = (): boolean => {
    const { lines, menu } = wantedIn(tall - large.length, 0);
    return lines.length + menu + LEAST_TOLD <= tall - large.length;
  };
  const walked = large.length === 0 || fits() ? large : walkLines(state, world, width, false, theme);
  const height = tall - walked.length;
  // A caution is read whole: digits are small and instructions short before it is cut.
  const care =
    step.caution === undefined
      ? []
      : wrapLine(laid` ${shape('!', theme)} ${data(step.caution)}`, width, 'ask', '   ');
  const wanted = (spareRows: number): View => wantedIn(height - care.length, spareRows);
  // Lines too long for one row are shown in full if the instructions and the caution leave room.
  const taken = [...step.do, step.caution ?? ''].flatMap((text) =>
    wrapLine(laid` ${data(text)}`, width, 'plain', '   '),
  ).length;
  const least = wanted(0);
  const whole = wanted(height - least.lines.length - least.menu - taken - 1);
  const room = height - whole.lines.length - whole.menu - 1;
  const deadline = deadlineLines(task.step.step.id, world, width);
  const instructions = atMost(
    step.do.flatMap((sentence) => wrapLine(laid` ${data(sentence)}`, width, 'plain', ' ')),
    Math.max(0, room - deadline.length - care.length),
  );
  const kept = atMost([...deadline, ...instructions, ...care], Math.max(0, room));
  const lines = [...kept, BLANK, ...whole.lines].slice(0, height - whole.menu);
  // The list keeps rows of its own only while it is drawn.
  const free = height - lines.length - whole.menu;
  return {
    lines: [...walked, ...lines],
    menu: whole.menu,
    below: aroundLines(task.step, world, width, free, theme),
  };
}

/** Rows for instructions, with the blank one below them. */
const LEAST_TOLD = 3;

/** What is left of the open time of what this step works on. */
function deadlineLines(step: string, world: World, width: number): readonly Line[] {
  const { open, now } = world;
  const timer = open?.state.timers.find((each) => each.kind === 'not-after' && each.step === step);
  if (!timer) return [];
  const { until, text } = timer;
  const say = told(world);
  const [time, left] = [timeText(until, now), timeLeft(until, now, say)];
  const kept = say.retell(text);
  const says =
    until > now ? say('time-left', { left, time, text: kept }) : say('time-over', { time, text: kept });
  return [crop(line(laid` ${says}`, 'ask'), width)];
}

/** The spot to mark in the drawing: the check's, else the step's; and the kinds of marks the step makes. */
export function spotOf(state: BenchState, world: World) {
  const at = asked(state, world);
  const step = at?.task.step.step;
  return { spot: at?.check?.spot ?? step?.spot, item: step?.item, claims: step?.marks };
}

function waits({ step }: CurrentTask, width: number, theme: Theme, say: BenchSay): View {
  const { hold } = step.step;
  if (step.status === 'held' && hold)
    return {
      menu: 0,
      lines: [
        ...wrapLine(
          laid` ${shape('#', theme)} ${say('hold-step', { title: hold.title })}`,
          width,
          'ask',
          '   ',
        ),
        ...wrapLine(laid` ${say('hold-waits')}`, width, 'plain', ' '),
      ],
    };
  return {
    menu: 0,
    lines: step.because.flatMap((why) => wrapLine(laid` ${say.retell(why)}`, width, 'ask', ' ')),
  };
}

function nothingLeft(world: World, width: number): readonly Line[] {
  const { open } = world;
  const say = told(world);
  if (!open) return wrapLine(laid` ${told(world)('bench-no-unit')}`, width);
  if (open.state.finished)
    return [
      ...wrapLine(laid` ${say('unit-finished', { unit: open.id })}`, width, 'good'),
      BLANK,
      ...wrapLine(
        laid` ${say('unit-record', { command: `pinchrod record ${open.id} --format html --out ${open.id}.html` })}`,
        width,
      ),
      ...wrapLine(laid` ${say('here-other-units')}`, width),
    ];
  if (open.state.scrapped) return wrapLine(laid` ${say('unit-scrapped', { unit: open.id })}`, width, 'bad');
  if (open.state.parked) return wrapLine(laid` ${say('unit-parked')}`, width, 'ask');
  const { steps, timers } = open.state;
  const cures = timers.filter(({ kind }) => kind === 'not-before');
  const curing = new Set(cures.map(({ step }) => step));
  const snags = open.state.snags.filter((snag) => snag.open);
  return [
    ...(snags.some(({ decided }) => decided) ? [] : wrapLine(laid` ${say('unit-nothing')}`, width, 'ask')),
    ...snags.slice(0, 3).flatMap((snag) => wrapLine(laid` ${snagText(snag, say)}`, width, 'ask', '   ')),
    ...cures.flatMap(({ step, until, text }) =>
      wrapLine(
        laid` ${say('unit-in', { step: steps.get(step)!.step.title, left: timeLeft(until, world.now, say), text: say.retell(text) })}`,
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
        atMost(wrapLine(laid` ${data(step.title)}: ${say.retell(because[0]!)}`, width, 'plain', '   '), 3),
      ),
    BLANK,
    ...wrapLine(laid` ${say('unit-keys')}`, width),
  ];
}

/** What an open snag waits for. */
function snagText({ n, raised: { text }, decided }: Snag, say: BenchSay): Spoken {
  return decided
    ? say('snag-waits-proof', { n, text, disposition: unitWords(`decided-${decided.disposition}`) })
    : say('snag-waits-decision', { n, text });
}

const typedKey = (say: BenchSay): WordedKey => worded('act', say('foot-logs-typed'));

/** Keys that answer a check of this kind. */
function keysFor(kind: RouteCheck['kind'], say: BenchSay): readonly WordedKey[] {
  switch (kind) {
    case 'tick':
      return [worded('yes', say('key-yes'))];
    case 'go-no-go':
      return [worded('yes', say('key-yes')), worded('no', say('key-no'))];
    case 'choice':
      return [...marking(say), worded('act', say('foot-choose'))];
    case 'computed':
      return [];
    default:
      return [typedKey(say)];
  }
}

/** The list that the step works on: the screen may have no room for its rows. */
function listKeys({ step }: CurrentTask, say: BenchSay): readonly WordedKey[] {
  const [list] = listsOf(step.step);
  return list === undefined ? [] : [worded('lists', say(`list-${list}`))];
}

function answerKeys(state: BenchState, world: World): readonly WordedKey[] {
  const at = asked(state, world);
  return at ? [...answersAt(at, state, world), ...listKeys(at.task, told(world))] : [];
}

function answersAt(
  at: NonNullable<ReturnType<typeof asked>>,
  state: BenchState,
  world: World,
): readonly WordedKey[] {
  const { task, check } = at;
  const say = told(world);
  if (citesAt(task.step, state, world).length > 0)
    return [worded('yes', say('foot-all-over')), worded('no', say('foot-asks-anew'))];
  const failed = task.check?.answered !== undefined && !task.check.holds;
  if (failed && check && !isSet(check))
    return [...keysFor(check.kind, say), ...marking(say), worded('act', say('foot-takes-marked'))];
  if (!check || !task.check)
    return task.step.status === 'held' ? [worded('release', say('key-release'))] : [];
  if (lookAt(task.step).length > 0)
    return [worded('yes', say('foot-all-right')), ...marking(say), worded('no', say('foot-marked-not'))];
  if (isSet(check)) {
    const first = setIsIn(check, task.check) ? worded('yes', say('foot-judge')) : typedKey(say);
    return [first, ...(task.check.partial ? [...marking(say), worded('anew', say('key-anew'))] : [])];
  }
  if (toolOffered(check, state, world))
    return [worded('yes', say('foot-takes-tool')), ...keysFor(check.kind, say)];
  if (check.kind === 'text' && offersOf(check, world).length > 0)
    return [worded('yes', say('foot-takes-lot')), typedKey(say)];
  if (check.kind === 'choice' && !state.screen.cursor.moved)
    return [...marking(say), worded('act', say('foot-number-typed'))];
  return keysFor(check.kind, say);
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
