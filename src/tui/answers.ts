import { sanitize } from '../base/text.js';
import type { Spoken } from '../base/words.js';
import type { Instrument } from '../measure/types.js';
import { isShared } from '../procedure/rhythm.js';
import type { RouteCheck } from '../procedure/types.js';
import type { OpenUnit, World } from '../session/ports.js';
import { type Action, type BenchAction, isWorkshopAction } from '../unit/actions.js';
import { citing } from '../unit/handlers/cite.js';
import { lookAt } from '../unit/looks.js';
import { nextPlace, placesOf } from '../unit/sets.js';
import type { CheckState, LotUsed, StepState } from '../unit/types.js';
import { citesAt } from './cited.js';
import { asked, offersOf, setIsIn, toolOffered } from './currenttask.js';
import { looksNumeric } from './entry.js';
import { say, stay } from './navigate.js';
import type { Update } from './protocol.js';
import { withStood } from './stands.js';
import { type BenchState, TOP } from './state.js';
import { type BenchSay, told } from './words/told.js';

/** Handles Right (yes) and Left (no) on the work screen. */
export function answerByArrow(state: BenchState, yes: boolean, world: World): Update {
  const at = asked(state, world);
  if (!at) return stay(say(state, 'plain', told(world)('here-nothing'), told(world)('here-other-units')));
  const { task, check } = at;
  if (!check || !task.check) {
    if (task.step.status === 'held')
      return stay(say(state, 'ask', told(world)('here-held'), told(world)('here-held-key')));
    return stay(
      say(
        state,
        'ask',
        told(world).retell(task.step.because[0] ?? told(world)('here-waits')),
        told(world)('here-open-steps'),
      ),
    );
  }
  if (citesAt(task.step, state, world).length > 0)
    return yes
      ? send(state, citing(task.step)!, world)
      : stay(
          say(
            { ...state, anew: task.step.step.id },
            'ask',
            told(world)('asked-anew'),
            told(world)('asked-anew-stands'),
          ),
        );
  const together = lookAt(task.step);
  if (together.length > 0) return answerLook(state, task.step, yes, world);
  switch (check.kind) {
    case 'tick':
      if (!yes) return stay(say(state, 'ask', told(world)('tick-only'), told(world)('tick-snag')));
      return send(state, { do: 'answer', check: check.id, value: 'yes' }, world);
    case 'go-no-go':
      return send(state, { do: 'answer', check: check.id, value: yes ? 'yes' : 'no' }, world);
    case 'text': {
      const [lot] = yes ? offersOf(check, world) : [];
      if (lot) return takeLot(state, check, lot, world);
      break;
    }
    default: {
      // The readings are already in the journal; this answer only marks them as the complete set.
      if (yes && setIsIn(check, task.check) && isJudged(task.check))
        return stay(say(state, 'ask', told(world)('set-judged'), told(world)('set-again')));
      if (yes && setIsIn(check, task.check))
        return send(state, { do: 'answer', check: check.id, value: {} }, world);
      const tool = yes ? toolOffered(check, state, world) : undefined;
      if (tool) return stay(takeInstrument(state, tool, told(world), check.id));
    }
  }
  return stay(say(state, 'ask', told(world)('arrows-no-answer'), told(world)(`wants-${check.kind}`)));
}

/** One answer for all that stand together: Right takes all as good, Left the one that the arrows have marked as not. */
function answerLook(state: BenchState, at: StepState, yes: boolean, world: World): Update {
  const step = at.step.id;
  if (yes) return send(state, { do: 'look', step }, world);
  const { cursor } = state.screen;
  const not = cursor.moved ? lookAt(at)[cursor.at] : undefined;
  if (!not) return stay(say(state, 'ask', told(world)('look-which'), told(world)('look-mark')));
  return send(withCursorHome(state), { do: 'look', step, not: not.id }, world);
}

const withCursorHome = (state: BenchState): BenchState => ({
  ...state,
  screen: { ...state.screen, cursor: TOP },
});

/** Whether the last verdict is of the readings as they are. */
function isJudged({ answered, partial }: CheckState): boolean {
  const readings = answered && 'readings' in answered.answer ? answered.answer.readings : undefined;
  return readings !== undefined && JSON.stringify(readings) === JSON.stringify(partial);
}

export function takeLot(
  state: BenchState,
  check: RouteCheck,
  { code, expires }: LotUsed,
  world: World,
): Update {
  return send(
    state,
    { do: 'answer', check: check.id, value: code, ...(expires === undefined ? {} : { expires }) },
    world,
  );
}

/** Takes an instrument in hand. An answer that waited for it comes back to the entry line. */
export function takeInstrument(
  state: BenchState,
  instrument: Instrument,
  words: BenchSay,
  check?: string,
): BenchState {
  const lastFor = { ...state.lastFor };
  for (const quantity of instrument.measures) lastFor[quantity] = instrument.id;
  const { waiting, ...rest } = state;
  const back = waiting !== undefined && waiting.check === check ? waiting.text : undefined;
  return say(
    {
      ...rest,
      inHand: instrument.id,
      lastFor,
      ...(back === undefined ? {} : { entry: back, suggested: true }),
    },
    'good',
    words('in-hand', { id: instrument.id, title: instrument.title }),
    back === undefined ? undefined : words('on-line-again', { text: sanitize(back) }),
  );
}

/** Handles a reading of a set: in place of the one marked, or the next one. */
function answerSet(
  state: BenchState,
  text: string,
  check: RouteCheck,
  now: CheckState,
  world: World,
): Update {
  const places = placesOf(check);
  const { at, moved } = state.screen.cursor;
  const marked = moved ? places[at] : undefined;
  const taken = marked && (now.partial?.[marked.key]?.length ?? 0) >= marked.time;
  if (marked && taken)
    return send(
      state,
      { do: 'read', check: check.id, key: marked.key, value: text, replaces: marked.time },
      world,
    );
  const next = nextPlace(check, now);
  if (next) return send(state, { do: 'read', check: check.id, key: next.key, value: text }, world);
  return stay(
    say({ ...state, entry: text, suggested: true }, 'ask', told(world)('set-which'), told(world)('set-mark')),
  );
}

/** The words in this reader's language, and the English ones, which stand in every manual. */
const isWord = (typed: string, id: 'typed-yes' | 'typed-no', world: World): boolean =>
  [told(world)(id), told({})(id)].some((words) => words.split(' ').includes(typed));

/** Handles entry-line text on Enter when it is not a code the workshop knows. */
export function answerByEntry(state: BenchState, text: string, world: World): Update {
  const at = asked(state, world);
  if (!at?.check || !at.task.check)
    return stay(
      say(
        state,
        'ask',
        told(world)('not-logged-no-check', { text: sanitize(text) }),
        told(world)('f3-steps'),
      ),
    );
  const { check } = at;
  const numeric = looksNumeric(text);
  const lot = isSpoken(text, world) ? undefined : lotAskedLater(at.task.step, check);
  if (lot && !numeric) return send(state, { do: 'answer', check: lot.id, value: text }, world);
  switch (check.kind) {
    case 'number':
      if (numeric) return send(state, { do: 'answer', check: check.id, value: text }, world);
      break;
    case 'square':
    case 'points':
      if (numeric) return answerSet(state, text, check, at.task.check, world);
      break;
    case 'count':
      if (/^\d+$/.test(text)) return send(state, { do: 'answer', check: check.id, value: text }, world);
      break;
    case 'tick':
    case 'go-no-go': {
      const word = text.toLowerCase();
      const [yes, no] = [isWord(word, 'typed-yes', world), isWord(word, 'typed-no', world)];
      if ((yes || no) && lookAt(at.task.step).length > 0) return answerLook(state, at.task.step, yes, world);
      if (yes) return send(state, { do: 'answer', check: check.id, value: 'yes' }, world);
      if (check.kind === 'go-no-go' && no)
        return send(state, { do: 'answer', check: check.id, value: 'no' }, world);
      break;
    }
    case 'choice': {
      const choice = choiceOf(check, text);
      if (choice !== undefined) return send(state, { do: 'answer', check: check.id, value: choice }, world);
      break;
    }
    case 'text':
      // Don't take a calliper reading for a lot: all-digit lots are common, lots with a decimal point are not.
      if (check.lot !== undefined && numeric && /[.,]/.test(text)) break;
      return send(state, { do: 'answer', check: check.id, value: text }, world);
  }
  const words = told(world);
  const why = words(numeric ? 'not-logged-number' : 'not-logged-unknown', { text: sanitize(text) });
  return stay(say(state, 'bad', why, words(`wants-${check.kind}`)));
}

const isSpoken = (text: string, world: World): boolean =>
  isWord(text.toLowerCase(), 'typed-yes', world) || isWord(text.toLowerCase(), 'typed-no', world);

/** A lot that the step shares with others and asks for last: one that is scanned earlier is meant for it. */
function lotAskedLater({ step, checks }: StepState, now: RouteCheck): RouteCheck | undefined {
  if (now.kind === 'text' || now.kind === 'choice') return undefined;
  return step.checks.find(
    ({ lot, rhythm }, i) => lot !== undefined && isShared(rhythm) && !checks[i]!.answered,
  );
}

/** Requests an action in the name of the person at the bench. */
export function send(state: BenchState, action: BenchAction, world: World): Update {
  const refused = isWorkshopAction(action) ? undefined : notHere(state, world);
  if (refused) return refused;
  if (state.person === undefined)
    return stay(say(state, 'ask', told(world)('nobody-here'), told(world)('nobody-way')));
  const whole = isWorkshopAction(action) ? action : withStood(state, withSecond(state, action), world);
  return { state, effects: [{ kind: 'act', action: whole }] };
}

/** The refusal when no unit is open or the open one is read-only. */
function notHere(state: BenchState, world: World): Update | undefined {
  const { open } = world;
  const words = told(world);
  if (!open) return stay(say(state, 'ask', words('no-unit-open'), words('choose-unit')));
  if (open.readOnly === undefined) return undefined;
  return stay(say(state, 'bad', words('look-not-write', { why: open.readOnly }), wayIn(open, words)));
}

/** How to get write access to a unit that is open read-only. */
export function wayIn({ keptBy, readOnlyTodo }: OpenUnit, words: BenchSay): Spoken {
  if (readOnlyTodo !== undefined) return words.retell(readOnlyTodo);
  if (!keptBy) return words('open-again');
  return words(keptBy.runs ? 'close-there' : 'close-or-take');
}

/** Adds the second person shown in the header to any action that may need one. */
function withSecond(state: BenchState, action: Action): Action {
  const second = secondOf(state);
  if (second === undefined) return action;
  if (action.do !== 'answer' && action.do !== 'look' && action.do !== 'read' && action.do !== 'rework')
    return action;
  return action.second === undefined ? { ...action, second } : action;
}

/** Who stands by for the person at the bench. */
export const secondOf = ({ person, seconds }: Pick<BenchState, 'person' | 'seconds'>): string | undefined =>
  person === undefined ? undefined : seconds[person];

/** Finds a choice by id, list number, or unambiguous prefix of its text. */
function choiceOf(check: RouteCheck, text: string): string | undefined {
  const word = text.toLowerCase();
  const choices = check.choices ?? [];
  const exact =
    choices.find(({ id }) => id.toLowerCase() === word) ??
    choices[/^\d+$/.test(word) ? Number(word) - 1 : -1];
  if (exact) return exact.id;
  const begun = choices.filter((each) => each.text.toLowerCase().startsWith(word));
  return begun.length === 1 ? begun[0]!.id : undefined;
}

/** An answer that waited for what is there now comes back to the entry line. */
export function backOnLine(state: BenchState, world: World): BenchState {
  const { waiting, ...rest } = state;
  if (waiting === undefined || asked(state, world)?.check?.id !== waiting.check) return state;
  return { ...rest, entry: waiting.text, suggested: true };
}
