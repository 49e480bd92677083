/** The small actions: choose person or instrument, park, resume, note, override. */
import { findInstrument } from '../../measure/instruments.js';
import type { Action } from '../actions.js';
import type { EventBody } from '../events.js';
import { firstStage } from '../graph.js';
import { lastUndoable, missingEnd, wouldReopen } from '../next.js';
import {
  ALONE,
  atBench,
  confirmation,
  known,
  levelProblem,
  pinProblem,
  RELEASES,
  standsBy,
} from '../people.js';
import type { Decision } from '../types.js';
import { unitWords } from '../words.js';
import { type ActionContext, refuse, refused, stepOf, worker, write } from './context.js';

type Of<D extends Action['do']> = Extract<Action, { do: D }>;

/** Writes nothing: the bench tracks who is present, and each event carries the name. */
export function person({ context }: ActionContext, action: Of<'person'>): Decision {
  const found = known(context, action.person);
  if ('problem' in found) return refuse(found.problem);
  const pin = action.pin === undefined ? undefined : pinProblem(found.person, action.pin, context);
  return pin ? refuse(pin) : write(found.person);
}

export function instrument({ context }: ActionContext, action: Of<'instrument'>): Decision {
  const found = findInstrument(context.instruments, action.instrument);
  if (!found) return refused('build.unknown-instrument', { instrument: action.instrument });
  return { kind: 'events', events: [], by: context.person ?? 'nobody' };
}

export function park(scope: ActionContext, action: Of<'park'>): Decision {
  const who = worker(scope);
  if ('refusal' in who) return who.refusal;
  if (scope.state.finished) return refused('build.finished/finished', { unit: scope.state.unit });
  return write(who.person, { kind: 'parked', reason: action.reason });
}

export function resume(scope: ActionContext): Decision {
  const who = worker(scope, { whileParked: true });
  if ('refusal' in who) return who.refusal;
  const end = missingEnd(scope.state);
  if (end) return write(who.person, end);
  if (!scope.state.parked) return refused('build.not-parked', { unit: scope.state.unit });
  return write(who.person, { kind: 'resumed' } as EventBody);
}

/** Notes are always accepted, even on a scrapped, parked or finished unit. */
export function note(scope: ActionContext, action: Of<'note'>): Decision {
  const found = atBench(scope.context);
  if ('problem' in found) return refuse(found.problem);
  if (!scope.state.derived.marks.opened)
    return refused('build.not-opened/opened', { unit: scope.state.unit });
  if (action.step !== undefined) {
    const step = stepOf(scope, action.step);
    if ('refusal' in step) return step.refusal;
  }
  return write(found.person, {
    kind: 'noted',
    text: action.text,
    ...(action.step === undefined ? {} : { step: action.step }),
  });
}

export function override(scope: ActionContext, action: Of<'override'>): Decision {
  const who = worker(scope, { whileParked: true });
  if ('refusal' in who) return who.refusal;
  const { orderProblems, route } = scope.state;
  const problem = orderProblems.find(({ id }) => id === action.problem);
  if (!problem)
    return orderProblems.length > 0
      ? refused('build.no-such-problem', {
          problem: action.problem,
          open: orderProblems.map(({ id }) => id),
        })
      : refused('build.no-such-problem/none', { problem: action.problem });
  const refusal =
    levelProblem(who.person, firstStage(route), RELEASES, unitWords('act-override'), scope.context) ??
    pinProblem(who.person, action.pin, scope.context);
  if (refusal) return refuse(refusal);
  return write(who.person, {
    kind: 'overridden',
    problem: problem.id,
    text: problem.text,
    reason: action.reason,
  });
}

// Redoing a step. Everything that depends on it re-opens too; earlier readings are kept as superseded.

export function rework(scope: ActionContext, action: Extract<Action, { do: 'rework' }>): Decision {
  const who = worker(scope);
  if ('refusal' in who) return who.refusal;
  const found = stepOf(scope, action.step);
  if ('refusal' in found) return found.refusal;
  const { step } = found;
  if (step.madeAt === undefined) return refused('build.nothing-to-rework', { step: action.step });
  const second = standsBy(who.person, step.step.stage, action.second, scope.context);
  if ('problem' in second) return refuse(second.problem);
  const confirmed = confirmation(scope, who.person, second.second, step.step.stage, action.confirm);
  if ('problem' in confirmed) return refuse(confirmed.problem);
  const snag = snagFor(scope, action.step);
  return write(who.person, ...confirmed.events, {
    kind: 'reworked',
    step: action.step,
    reason: action.reason,
    reopens: wouldReopen(scope.state, action.step).map((each) => each.step),
    ...(snag === undefined ? {} : { snag }),
  });
}

/** The snag this rework resolves: decided as rework and not yet reworked, preferring one raised on this step. */
function snagFor({ state }: ActionContext, step: string): number | undefined {
  const waiting = state.snags.filter(
    ({ open, decided, n }) =>
      open &&
      decided?.disposition === 'rework' &&
      !state.events.some((event) => event.kind === 'reworked' && event.snag === n && event.n > decided.n),
  );
  return (waiting.find(({ raised }) => raised.step === step) ?? waiting[0])?.n;
}

// Undoing the last answer, reading or release: recorded as a correction with a reason, never erased.

export function undo(scope: ActionContext, action: Extract<Action, { do: 'undo' }>): Decision {
  const who = worker(scope);
  if ('refusal' in who) return who.refusal;
  const { marks } = scope.state.derived;
  const found = lastUndoable(marks);
  if (!found) return refused('build.nothing-to-undo');
  const { last, stage } = found;
  if (last.n < marks.lastRework) return refused('build.nothing-to-undo/since', { last: last.n });
  if (last.n < marks.lastDecision)
    return refused('build.nothing-to-undo/snag', { last: last.n, step: last.step });
  if (who.person.id !== last.by) {
    const least = last.kind === 'released' ? RELEASES : ALONE;
    const problem = levelProblem(who.person, stage, least, unitWords('act-undo'), scope.context);
    if (problem) return refuse(problem);
  }
  return write(who.person, { kind: 'corrected', of: last.n, reason: action.reason });
}
