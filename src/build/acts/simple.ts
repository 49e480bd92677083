/** The small actions: person and instrument at hand, park, resume, note, override. */
import { findInstrument } from '../../measure/instruments.js';
import type { Action } from '../actions.js';
import type { EventBody } from '../events.js';
import { firstStage } from '../graph.js';
import { atBench, known, levelProblem, pinProblem, RELEASES } from '../people.js';
import { missingEnd } from '../settle.js';
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
