/** The small actions: person and instrument at hand, park, resume, note, override. */
import { findInstrument } from '../../measure/instruments.js';
import type { Action } from '../actions.js';
import type { EventBody, JournalEvent } from '../events.js';
import type { Marks } from '../foldstate.js';
import { firstStage } from '../graph.js';
import { missingEnd, wouldReopen } from '../next.js';
import { ALONE, atBench, known, levelProblem, pinProblem, RELEASES, standsBy } from '../people.js';
import type { Decision } from '../types.js';
import { type Deed, refuse, refused, stepOf, worker, write } from './deed.js';

type Of<D extends Action['do']> = Extract<Action, { do: D }>;

/** Nothing is written: who is at the bench is the bench's own; each event carries the name. */
export function person({ around }: Deed, action: Of<'person'>): Decision {
  const found = known(around, action.person);
  if ('problem' in found) return refuse(found.problem);
  const pin = action.pin === undefined ? undefined : pinProblem(found.person, action.pin, around);
  return pin ? refuse(pin) : write(found.person);
}

export function instrument({ around }: Deed, action: Of<'instrument'>): Decision {
  const found = findInstrument(around.instruments, action.instrument);
  if (!found)
    return refused('build.unknown-instrument', `"${action.instrument}" is no instrument of this workshop.`);
  return { kind: 'events', events: [], by: around.person ?? 'nobody' };
}

export function park(deed: Deed, action: Of<'park'>): Decision {
  const who = worker(deed);
  if ('refusal' in who) return who.refusal;
  if (deed.state.finished) return refused('build.finished', `${deed.state.unit} is finished.`);
  return write(who.person, { kind: 'parked', reason: action.reason });
}

export function resume(deed: Deed): Decision {
  const who = worker(deed, { whileParked: true });
  if ('refusal' in who) return who.refusal;
  const end = missingEnd(deed.state);
  if (end) return write(who.person, end);
  if (!deed.state.parked) return refused('build.not-parked', `${deed.state.unit} is not parked.`);
  return write(who.person, { kind: 'resumed' } as EventBody);
}

/** A note is taken always, also on a scrapped, parked or finished unit. */
export function note(deed: Deed, action: Of<'note'>): Decision {
  const found = atBench(deed.around);
  if ('problem' in found) return refuse(found.problem);
  if (!deed.state.derived.marks.opened)
    return refused('build.not-opened', `${deed.state.unit} is not opened.`);
  if (action.step !== undefined) {
    const step = stepOf(deed, action.step);
    if ('refusal' in step) return step.refusal;
  }
  return write(found.person, {
    kind: 'noted',
    text: action.text,
    ...(action.step === undefined ? {} : { step: action.step }),
  });
}

/** A named person lets a problem of the order check pass, with a reason. */
export function override(deed: Deed, action: Of<'override'>): Decision {
  const who = worker(deed, { whileParked: true });
  if ('refusal' in who) return who.refusal;
  const { orderProblems, route } = deed.state;
  const problem = orderProblems.find(({ id }) => id === action.problem);
  if (!problem)
    return refused(
      'build.no-such-problem',
      `The order check has no open problem "${action.problem}".`,
      orderProblems.length > 0
        ? `Open problems: ${orderProblems.map(({ id }) => id).join(', ')}.`
        : 'Go on; nothing needs overriding.',
    );
  const refusal =
    levelProblem(who.person, firstStage(route), RELEASES, 'overriding the order check', deed.around) ??
    pinProblem(who.person, action.pin, deed.around);
  if (refusal) return refuse(refusal);
  return write(who.person, {
    kind: 'overridden',
    problem: problem.id,
    text: problem.text,
    reason: action.reason,
  });
}

// Making a step again. Everything that rests on it re-opens with it; earlier readings stay as superseded.

export function rework(deed: Deed, action: Extract<Action, { do: 'rework' }>): Decision {
  const who = worker(deed);
  if ('refusal' in who) return who.refusal;
  const found = stepOf(deed, action.step);
  if ('refusal' in found) return found.refusal;
  const { step } = found;
  if (step.madeAt === undefined)
    return refused('build.nothing-to-rework', `${action.step} has not been begun.`);
  const second = standsBy(who.person, step.step.stage, action.second, deed.around);
  if ('problem' in second) return refuse(second.problem);
  const snag = snagFor(deed, action.step);
  return write(who.person, {
    kind: 'reworked',
    step: action.step,
    reason: action.reason,
    reopens: wouldReopen(deed.state, action.step).map((each) => each.step),
    ...(snag === undefined ? {} : { snag }),
  });
}

/** The snag that this rework answers: one decided as rework and not reworked yet, on this step first. */
function snagFor({ state }: Deed, step: string): number | undefined {
  const waiting = state.snags.filter(
    ({ open, decided, n }) =>
      open &&
      decided?.disposition === 'rework' &&
      !state.events.some((event) => event.kind === 'reworked' && event.snag === n && event.n > decided.n),
  );
  return (waiting.find(({ raised }) => raised.step === step) ?? waiting[0])?.n;
}

// Taking back the last answer, reading or release: a correction with a reason, never an erasure.

type Undoable = JournalEvent & { readonly kind: 'answered' | 'read' | 'released' };

export function undo(deed: Deed, action: Extract<Action, { do: 'undo' }>): Decision {
  const who = worker(deed);
  if ('refusal' in who) return who.refusal;
  const { marks } = deed.state.derived;
  const found = lastUndoable(marks);
  if (!found) return refused('build.nothing-to-undo', 'Nothing was answered that could be taken back.');
  const { last, stage } = found;
  if (last.n < marks.lastRework)
    return refused(
      'build.nothing-to-undo',
      `Since the last answer (event ${last.n}) a step was made again; that is not taken back.`,
      'Answer the step anew.',
    );
  if (last.n < marks.lastDecision)
    return refused(
      'build.nothing-to-undo',
      `A snag was decided after the last answer (event ${last.n}); what the decision stood on is not taken back.`,
      `Rework ${last.step} instead; that keeps both readings.`,
    );
  if (who.person.id !== last.by) {
    const least = last.kind === 'released' ? RELEASES : ALONE;
    const problem = levelProblem(who.person, stage, least, "taking back another person's entry", deed.around);
    if (problem) return refuse(problem);
  }
  return write(who.person, { kind: 'corrected', of: last.n, reason: action.reason });
}

/** The last entry that undo would take back, and its stage. */
function lastUndoable(marks: Marks): { readonly last: Undoable; readonly stage: string } | undefined {
  const corrected = new Set<number>();
  const completed = new Set<string>();
  for (let i = marks.events.length - 1; i >= 0; i--) {
    const event = marks.events[i]!;
    if (event.kind === 'corrected') corrected.add(event.of);
    if (event.kind !== 'answered' && event.kind !== 'read' && event.kind !== 'released') continue;
    const node = marks.graph.nodes.get(event.step);
    if (!node) continue;
    // Single readings were taken up by the answer that completed their set, also where that was corrected.
    if (event.kind === 'answered') completed.add(event.check);
    if (event.kind === 'read' && completed.has(event.check)) continue;
    if (!corrected.has(event.n)) return { last: event, stage: node.step.stage };
  }
  return undefined;
}
