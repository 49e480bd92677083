/** Context passed to every action handler, and helpers most of them use. */
import type { Problem } from '../../base/problem.js';
import { CLOCK_SLACK, type EventBody, type Evidence } from '../events.js';
import { type BuildRaise, type BuildRefusal, unitProblem } from '../messages.js';
import { atBench } from '../people.js';
import { iso } from '../timers.js';
import type { Decision, DecisionContext, Person, StepState } from '../types.js';
import type { UnitState } from '../unitstate.js';

export interface ActionContext {
  readonly state: UnitState;
  readonly context: DecisionContext;
}

export const refuse = (problem: Problem): Decision => ({ kind: 'refused', problem });

export const refused = <K extends BuildRefusal>(key: K, ...given: BuildRaise<K>): Decision =>
  refuse(unitProblem(key, ...given));

export const write = (person: Person, ...events: readonly EventBody[]): Decision => ({
  kind: 'events',
  events,
  by: person.id,
});

/** The person at the bench, provided the unit accepts work at all. */
export function worker(
  scope: ActionContext,
  { whileParked = false } = {},
): { person: Person } | { refusal: Decision } {
  const { state, context } = scope;
  const found = atBench(context);
  if ('problem' in found) return { refusal: refuse(found.problem) };
  if (!scope.state.derived.marks.opened)
    return { refusal: refused('build.not-opened', { unit: state.unit }) };
  if (state.scrapped)
    return {
      refusal: refused('build.scrapped', { unit: state.unit, replacement: state.replacement! }),
    };
  if (state.parked && !whileParked) return { refusal: refused('build.parked', { unit: state.unit }) };
  return found;
}

export function stepOf(scope: ActionContext, id: string): { step: StepState } | { refusal: Decision } {
  const step = scope.state.steps.get(id);
  return step ? { step } : { refusal: refused('build.unknown-step', { unit: scope.state.unit, id }) };
}

/** Looks up stored evidence files by the names the action uses. */
export function evidenceOf(
  names: readonly string[] | undefined,
  context: DecisionContext,
): { evidence: Evidence[] } | { refusal: Decision } {
  const evidence: Evidence[] = [];
  for (const name of names ?? []) {
    const kept = context.evidence?.[name];
    if (!kept) return { refusal: refused('build.evidence-missing', { name }) };
    evidence.push(kept);
  }
  return { evidence };
}

/** Current time on the marks' steady scale, ms, with any jump noticed just now removed. */
export function steadyNow({ context, state }: ActionContext): number {
  return Date.parse(context.now) - state.derived.marks.shift - jump(state, context).by;
}

/** A wall-clock jump noticed now: reported by the program's steady clock, or seen because time went backwards. */
export function jump(
  state: UnitState,
  context: DecisionContext,
): { readonly events: readonly EventBody[]; readonly by: number } {
  const last = state.events.at(-1);
  const told = context.clockJump;
  if (told)
    return { events: [{ kind: 'clock-jumped', ...told }], by: Date.parse(told.to) - Date.parse(told.from) };
  // Timestamps share one format, so they sort as strings.
  if (last && context.now < last.at && Date.parse(context.now) < Date.parse(last.at) - CLOCK_SLACK)
    return {
      events: [{ kind: 'clock-jumped', from: last.at, to: iso(Date.parse(context.now)) }],
      by: Date.parse(context.now) - Date.parse(last.at),
    };
  return NO_JUMP;
}
const NO_JUMP = { events: [], by: 0 } as const;
