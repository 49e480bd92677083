/** Making a step again. Everything that rests on it re-opens with it; earlier readings stay as superseded. */
import type { Action } from '../actions.js';
import { standsBy } from '../people.js';
import { wouldReopen } from '../reopen.js';
import type { Decision } from '../types.js';
import { type Deed, refuse, refused, stepOf, worker, write } from './deed.js';

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
