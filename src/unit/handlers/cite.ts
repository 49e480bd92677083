/** Citing what other units were asked: their answers, and the releases of their holds. */
import { isOfTheShop, isShared } from '../../procedure/rhythm.js';
import type { RouteCheck } from '../../procedure/types.js';
import type { Action } from '../actions.js';
import { asIfWritten } from '../aswritten.js';
import type { EventBody } from '../events.js';
import { apply } from '../fold.js';
import { factFor, releaseFor } from '../shared.js';
import type { Decision, DecisionContext, SharedFact, SharedShown, StepState } from '../types.js';
import type { UnitState } from '../unitstate.js';
import { beginning } from './answer.js';
import { type ActionContext, refused, worker, write } from './context.js';

/** Whether nothing at the step is asked of this unit alone. */
export const isSharedStep = ({ step }: StepState): boolean =>
  step.checks.some(({ kind }) => kind !== 'computed') &&
  step.checks.every(({ kind, rhythm }) => kind === 'computed' || isShared(rhythm));

/** Events as a person is shown them. */
function shown({ route }: UnitState, events: readonly EventBody[]): SharedShown[] {
  return events.flatMap((event): SharedShown[] => {
    if ((event.kind !== 'answered' && event.kind !== 'released') || !event.cited) return [];
    const { unit, at, by } = event.cited;
    const step = route.steps.find(({ id }) => id === event.step)!;
    if (event.kind === 'released')
      return [{ step: event.step, ask: step.hold?.title ?? event.hold, unit, at, by, released: true }];
    const check = step.checks.find(({ id }) => id === event.check)!;
    const { answer, lot } = event;
    return [
      { step: event.step, ask: check.ask, unit, at, by, answered: { answer, ...(lot ? { lot } : {}) } },
    ];
  });
}

/** What `cite` would take over now. */
export const citable = (scope: ActionContext, step?: string): readonly SharedShown[] =>
  shown(scope.state, citedEvents(scope, 'nobody', step));

/** What would be cited with the answers of a step that asks something of its own too. */
export function citedWithStep({ state, context }: ActionContext, step: StepState): readonly SharedShown[] {
  const events = step.step.checks.flatMap((check, i): EventBody[] => {
    const at = step.checks[i]!;
    const fact = at.holds || at.answered ? undefined : factFor(check, step, { state, context });
    return fact && isShared(check.rhythm) ? citedAnswer(check, step, fact) : [];
  });
  return shown(state, events);
}

/** Whether it is asked for the order, a lot, a shift or a set-up: no work on this unit goes with it. */
const isShopStep = (step: StepState): boolean =>
  isSharedStep(step) &&
  step.step.checks.every(({ kind, rhythm }) => kind === 'computed' || isOfTheShop(rhythm));

/** The action that takes over what stands at a step; undefined where something is asked of the unit alone. */
export function citing(step: StepState): Extract<Action, { do: 'cite' }> | undefined {
  if (isShopStep(step)) return { do: 'cite' };
  return isSharedStep(step) ? { do: 'cite', step: step.step.id } : undefined;
}

/** Takes over all that stands of the steps that units share and that can be done now. */
export function cite(scope: ActionContext, { step }: Extract<Action, { do: 'cite' }>): Decision {
  const who = worker(scope);
  if ('refusal' in who) return who.refusal;
  const events = citedEvents(scope, who.person.id, step);
  return events.length > 0
    ? write(who.person, ...events)
    : refused('build.nothing-to-cite', { unit: scope.state.unit });
}

function citedEvents(scope: ActionContext, by: string, only: string | undefined): EventBody[] {
  const events: EventBody[] = [];
  let { state } = scope;
  for (;;) {
    const more = citedNext({ ...scope, state }, only);
    if (more.length === 0) return events;
    events.push(...more);
    state = apply(state, ...asIfWritten(state, more, by, scope.context));
  }
}

/** The events that cite at the first shared step at which something stands. */
function citedNext({ state, context }: ActionContext, only: string | undefined): EventBody[] {
  for (const step of state.steps.values()) {
    if (only === undefined ? !isShopStep(step) : step.step.id !== only || !isSharedStep(step)) continue;
    if (step.status === 'held') {
      const release = citedRelease(state, step, context);
      if (release) return [release];
    }
    if (!step.open) continue;
    const found = citedAt(state, step, context);
    if (found.length > 0) return found;
  }
  return [];
}

/** Cites the checks of a step from the one asked now, up to the first that must be asked. */
export function citedAt(state: UnitState, step: StepState, context: DecisionContext): EventBody[] {
  const events: EventBody[] = [];
  for (const [i, { holds, answered }] of step.checks.entries()) {
    if (holds) continue;
    const check = step.step.checks[i]!;
    const fact = answered ? undefined : factFor(check, step, { state, context });
    if (!fact) break;
    events.push(...citedAnswer(check, step, fact));
  }
  return events.length > 0 ? [...beginning(state, step, {}), ...events] : [];
}

function citedAnswer(
  { id, rhythm }: RouteCheck,
  { step }: StepState,
  { answered, from }: SharedFact,
): EventBody[] {
  return answered && isShared(rhythm)
    ? [{ kind: 'answered', step: step.id, check: id, ...answered, cited: { rhythm, ...from } }]
    : [];
}

function citedRelease(state: UnitState, step: StepState, context: DecisionContext): EventBody | undefined {
  const { hold } = step.step;
  const fact = releaseFor(step.step, { state, context });
  if (!hold || !fact?.released || !isShared(hold.rhythm)) return undefined;
  return {
    kind: 'released',
    step: step.step.id,
    hold: hold.id,
    ...fact.released,
    cited: { rhythm: hold.rhythm, ...fact.from },
  };
}
