import { sanitize } from '../base/text.js';
import { data, type Filling, laid, type Spoken } from '../base/words.js';
import { LENGTH_NAMES } from '../measure/misread.js';
import type { RouteCheck } from '../procedure/types.js';
import type { Acted, World } from '../session/ports.js';
import { type Action, type BenchAction, isWorkshopAction } from '../unit/actions.js';
import type { JournalEvent } from '../unit/events.js';
import { findCheck } from '../unit/graph.js';
import { placesOf } from '../unit/sets.js';
import { unitWords } from '../unit/words.js';
import { send, wayIn } from './answers.js';
import { asked, currentTask, setIsIn, unitAt } from './currenttask.js';
import { looksNumeric } from './entry.js';
import { languageOf } from './language.js';
import { goBack, say, show, showForm, showPlain, stay, toStep, withoutNote } from './navigate.js';
import type { BenchMessage, Update } from './protocol.js';
import { reasonSaid } from './screens/reasons.js';
import { doneAtShop, toFirstOff } from './screens/setups.js';
import { atWalk, citesInWalk, walkOn } from './screens/stages.js';
import { type BenchState, type Note, TOP } from './state.js';
import {
  answerText,
  decidedText,
  isSetAnswer,
  OUTCOME,
  placeSaid,
  readingsTaken,
  readText,
} from './theme.js';
import { benchWords, problemSaid, told } from './words/told.js';

type ResultMessage = Extract<BenchMessage, { readonly kind: 'result' }>;

/** `world` is the world after the effect. */
export function onResult(state: BenchState, message: ResultMessage, world: World): Update {
  const update = resultShown(state, message, world);
  const { trouble } = world;
  // Told once a unit: it is still so with the next one.
  const before = message.of === 'open' ? undefined : update.state.troubleTold;
  if (trouble === undefined) {
    const { troubleTold: _gone, ...rest } = update.state;
    return { ...update, state: rest };
  }
  if (trouble.text === before || update.state.note?.tone === 'bad' || world.open?.readOnly !== undefined)
    return update;
  const noted = say(update.state, 'ask', ...problemSaid(trouble, world));
  return { ...update, state: { ...noted, troubleTold: trouble.text } };
}

function resultShown(state: BenchState, message: ResultMessage, world: World): Update {
  if (message.of === 'open') return opened(state, message, world);
  const { action, acted } = message;
  const clear = { ...state, entry: '' };
  switch (acted.kind) {
    case 'done':
      return isWorkshopAction(action)
        ? doneAtShop(clear, action, acted, world)
        : done(clear, action, acted.events, world);
    case 'ask':
      // A first-off form stays behind the question, so that its answers can be gone back to.
      return stay(
        show(withoutNote(isWorkshopAction(action) ? clear : leaveOver(clear)), {
          name: 'question',
          question: acted.question,
          action,
          cursor: TOP,
        }),
      );
    case 'refused':
      return stay(refused(clear, action, acted, world));
    case 'failed':
      return stay(
        show(say(leaveOver(clear), 'bad', ...problemSaid(acted.problem, world)), {
          name: 'question',
          cursor: TOP,
          action,
          retry: true,
          question: {
            id: acted.problem.id,
            text: benchWords('not-saved', { action: actionText(action) }),
            details: [acted.problem.said, acted.problem.wayOut, benchWords('right-again')],
          },
        }),
      );
  }
}

function opened(
  state: BenchState,
  message: Extract<ResultMessage, { readonly of: 'open' }>,
  world: World,
): Update {
  if (message.asked)
    return stay(say({ ...state, entry: '' }, 'ask', told(world)('asking-shop', { unit: message.unit })));
  const { at: _left, ...rest } = { ...state, entry: '' };
  if (message.problem) return stay(say(rest, 'bad', ...problemSaid(message.problem, world)));
  const { open } = world;
  const on = atWalk(withoutNote(rest), world);
  if (!open) return stay(on);
  // A unit in which nothing can be answered opens on its overview, which says why.
  const shown =
    currentTask(open.state) && !open.setOut.refused && !open.state.parked
      ? toStep(on)
      : showPlain(toStep(on), 'unit');
  if (open.readOnly !== undefined)
    return stay(
      say(shown, 'ask', told(world)('look-not-write', { why: open.readOnly }), wayIn(open, told(world))),
    );
  return { state: shown, effects: citesInWalk(shown, world) };
}

function done(state: BenchState, action: Action, events: readonly JournalEvent[], world: World): Update {
  const settledAt = rememberSecond(fromOverlay(state, action), action);
  const back = firstAgain(settledAt, events);
  // Whoever works on reads what is told, in their language.
  const language = languageOf(back, world);
  const reader = language === undefined ? world : { ...world, language };
  const note = noteOf(action, events, state, reader);
  const again = back.person !== settledAt.person ? personNamed(back, reader) : undefined;
  const home = { ...back, note: again === undefined ? note : { ...note, todo: again } };
  const settled = dropFinishedJump(home, action, world);
  const judgesSet = events.some((event) => event.kind === 'answered' && event.answer.kind === 'square');
  if (judgesSet) return stay(showPlain(settled, 'measured'));
  const walked = settled.walk && walkOn(settled, action.do, world);
  if (walked) return walked;
  if (action.do !== 'read') return stay(settled);
  // The last reading of a set settles it, unless its readings raise a question: that is asked now.
  const at = asked(settled, world);
  const settledNow = events.some(({ kind }) => kind === 'answered');
  if (settledNow || at?.check?.id !== action.check || !setIsIn(at.check, at.task.check)) return stay(settled);
  return send(settled, { do: 'answer', check: at.check.id, value: {} }, world);
}

/** Returns to the work screen after a form, question or hold; the list of snags stays open. */
function fromOverlay(state: BenchState, action: Action): BenchState {
  switch (state.screen.name) {
    case 'measured':
      return action.do === 'begin-set' ? toStep(state) : state;
    case 'form':
    case 'question':
    case 'release':
      return action.do === 'rework' ? { ...toStep(state), at: action.step } : toStep(state);
    case 'step':
      return { ...state, screen: { ...state.screen, cursor: TOP } };
    default:
      return state;
  }
}

/** The second person stays, shown in the header, until the name is taken back. */
function rememberSecond(state: BenchState, action: Action): BenchState {
  const second = 'second' in action ? action.second : undefined;
  if (second === undefined || state.person === undefined) return state;
  return { ...state, seconds: { ...state.seconds, [state.person]: second } };
}

/** After a release the one who worked before is at the bench again; after anything else the newcomer stays. */
function firstAgain(state: BenchState, events: readonly JournalEvent[]): BenchState {
  const { before, ...rest } = state;
  if (before === undefined) return state;
  return events.some(({ kind }) => kind === 'released') ? { ...rest, person: before } : rest;
}

function personNamed({ person = '' }: BenchState, world: World): Spoken {
  const first = world.rules.people.find(({ id }) => id === person);
  return told(world)('person-again', { name: first?.name ?? person });
}

function dropFinishedJump(state: BenchState, action: Action, world: World): BenchState {
  if (state.at === undefined || action.do === 'rework') return state;
  if (world.open?.state.steps.get(state.at)?.status !== 'done') return state;
  const { at: _done, ...rest } = state;
  return rest;
}

/** Refusals that one more question can resolve. */
const LIFTED_BY: Readonly<Record<string, 'second' | 'evidence' | 'overdue' | 'accept' | 'unsigned'>> = {
  'build.needs-second': 'second',
  'build.second-unconfirmed': 'second',
  'build.lot-not-accepted': 'accept',
  'build.evidence-needed': 'evidence',
  'build.instrument-overdue': 'overdue',
  'build.unsigned': 'unsigned',
};

function refused(
  state: BenchState,
  action: BenchAction,
  acted: Extract<Acted, { readonly kind: 'refused' }>,
  world: World,
): BenchState {
  const { problem } = acted;
  const id = LIFTED_BY[problem.id];
  const noted = say(state, 'bad', ...problemSaid(problem, world));
  const kept = waitsFor(noted, action, problem.id, world);
  if (problem.id === 'build.no-setup') return toFirstOff(kept, action, world);
  if (kept !== noted) return kept;
  const asksItself = state.screen.name === 'form' && state.screen.form.id === id;
  if (id !== undefined && !isWorkshopAction(action) && !asksItself)
    return { ...showForm(leaveOver(state), { id, action }), note: noted.note! };
  // Ask again for a PIN that did not match; keep the rest of the form.
  if (noted.screen.name === 'form' && noted.screen.given.pin !== undefined) {
    const { pin: _wrong, ...given } = noted.screen.given;
    return { ...noted, screen: { ...noted.screen, given, cursor: TOP } };
  }
  return noted.screen.name === 'question' ? goBack(noted) : noted;
}

/** Keeps a typed answer that only lacks an instrument or a set-up. */
function waitsFor(state: BenchState, action: BenchAction, problem: string, world: World): BenchState {
  const typed =
    action.do === 'read' || (action.do === 'answer' && typeof action.value === 'string')
      ? { check: action.check, text: action.value as string }
      : undefined;
  if (!typed || !WAITS.has(problem) || !looksNumeric(typed.text)) return state;
  const note = state.note && {
    ...state.note,
    text: told(world)('typed-waits', { refusal: state.note.text, typed: typed.text }),
  };
  return { ...state, waiting: typed, ...(note ? { note } : {}) };
}
const WAITS: ReadonlySet<string> = new Set([
  'build.no-instrument',
  'build.instrument-quantity',
  'build.no-setup',
]);

/** A question raised by a form or by another question replaces it. */
const leaveOver = (state: BenchState): BenchState =>
  state.screen.name === 'question' || state.screen.name === 'form' ? goBack(state) : state;

function noteOf(action: Action, events: readonly JournalEvent[], state: BenchState, world: World): Note {
  // What is cited goes along with an answer, and is not what was just given.
  const last =
    events.findLast(
      (event) => event.kind === 'read' || (event.kind === 'answered' && event.cited === undefined),
    ) ?? events.at(-1);
  if (!last) return { tone: 'plain', text: told(world)('done-nothing') };
  if (events.some(({ kind }) => kind === 'finished')) return { tone: 'good', text: told(world)('done-unit') };
  switch (last.kind) {
    case 'answered': {
      const { tone } = OUTCOME[last.verdict.outcome];
      const word = told(world)(`outcome-${last.verdict.outcome}`);
      const check = world.open && findCheck(world.open.state.route, last.check)?.check;
      // What was taken out of use meanwhile is told at once, before how it was judged.
      const late = events.find((event) => event.kind === 'snag-raised' && event.by === 'nobody') as
        | { readonly text: string }
        | undefined;
      const burst = last.burst ? laid`  ${told(world)('done-fast')}` : data('');
      const decided =
        last.answer.kind === 'square'
          ? told(world)('unseen-short')
          : data(decidedText(last.verdict, told(world)).join('; '));
      if (action.do === 'look' && action.not === undefined)
        return {
          tone,
          text: laid`${word}  ${told(world)('done-look', { n: last.look ?? 1 })}${burst}`,
        };
      return {
        tone,
        // The answer comes first: a long question is cropped.
        text: laid`${word}  ${answered(last, check, state, world)}: ${data(check?.ask ?? last.check)}${burst}`,
        ...(late ? { todo: told(world).retell(late.text) } : decided === '' ? {} : { todo: decided }),
      };
    }
    case 'read': {
      const check = world.open && findCheck(world.open.state.route, last.check)?.check;
      const place = check && placesOf(check).find(({ key }) => key === last.key);
      const name = placeSaid(place?.text ?? last.key, told(world));
      const read = check ? unitAt(check, state, world) : 'mm';
      const tool = last.reading.instrument;
      const reading = `${name} ${told(world).figure(readText(last.reading.value, read))}`;
      return {
        tone: 'plain',
        text:
          tool === undefined
            ? told(world)('done-read', { reading })
            : told(world)('done-read-with', { reading, tool }),
      };
    }
    case 'set-begun':
      return { tone: 'plain', text: told(world)('done-anew') };
    case 'corrected':
      return {
        tone: 'plain',
        text: told(world)('done-undone', {
          n: last.of,
          reason: sanitize(reasonSaid(last.reason, told(world))),
        }),
      };
    case 'reworked':
      return {
        tone: 'ask',
        text: told(world)('done-again', { n: last.reopens.length }),
      };
    case 'released': {
      const nameOf = (who: string) => world.rules.people.find(({ id }) => id === who)?.name ?? who;
      return {
        tone: 'good',
        text: last.cited
          ? told(world)('done-release-counts', { unit: last.cited.unit, name: nameOf(last.cited.by) })
          : told(world)('done-released', { name: nameOf(last.by) }),
      };
    }
    case 'snag-raised':
      return { tone: 'ask', text: told(world)('done-snag', { n: last.n }) };
    case 'parked':
      return { tone: 'ask', text: told(world)('done-parked'), todo: told(world)('done-parked-way') };
    case 'resumed':
      return { tone: 'plain', text: told(world)('done-resumed') };
    case 'noted':
      return { tone: 'plain', text: told(world)('done-noted') };
    case 'snag-closed':
      return { tone: 'plain', text: told(world)('done-closed', { n: last.snag }) };
    case 'snag-decided': {
      const disposition = unitWords(`decided-${last.disposition}`);
      return { tone: 'plain', text: told(world)('done-decided', { n: last.snag, disposition }) };
    }
    default:
      return { tone: 'plain', text: told(world)('logged', { action: actionText(action) }) };
  }
}

function answered(
  { answer, lot }: Extract<JournalEvent, { readonly kind: 'answered' }>,
  check: RouteCheck | undefined,
  state: BenchState,
  world: World,
): Spoken {
  if (answer.kind === 'number' && check)
    return answerText(told(world), { answer }, unitAt(check, state, world));
  if (lot?.expires !== undefined) return told(world)('done-until', { lot: lot.code, date: lot.expires });
  return isSetAnswer(answer)
    ? readingsTaken(answer, told(world))
    : answerText(told(world), { answer }, 'mm', check);
}

function actionText(action: BenchAction): Filling {
  switch (action.do) {
    case 'first-off':
      return benchWords('action-first-off', { setup: action.setup });
    case 'end-setup':
      return benchWords('action-end-setup', { setup: action.setup });
    case 'answer':
      return typeof action.value === 'string' ? action.value : benchWords('action-readings');
    case 'look':
      return benchWords(action.not === undefined ? 'action-all-right' : 'action-one-not-right');
    case 'read': {
      const place = LENGTH_NAMES[action.key as keyof typeof LENGTH_NAMES] ?? action.key;
      return benchWords('action-read', { place, value: action.value });
    }
    case 'undo':
      return benchWords('action-undo');
    case 'release':
      return benchWords('action-release');
    case 'decide':
      return benchWords('action-decide', {
        n: action.snag,
        disposition: unitWords(`decided-${action.disposition}`),
      });
    case 'close':
      return benchWords('action-close', { n: action.snag });
    default:
      return benchWords('action-other');
  }
}
