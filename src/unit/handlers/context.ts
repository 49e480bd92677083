/** What every action's decision is given, and the few things that most of them say. */
import type { Problem } from '../../base/problem.js';
import { CLOCK_SLACK, type EventBody, type Evidence, iso, ms } from '../events.js';
import { type BuildMessage, unitProblem } from '../messages.js';
import { atBench } from '../people.js';
import type { Decision, DecisionContext, Person, StepState } from '../types.js';
import type { UnitState } from '../unitstate.js';

export interface ActionContext {
  /** The unit as of `around.now`. */
  readonly state: UnitState;
  readonly context: DecisionContext;
}

export const refuse = (problem: Problem): Decision => ({ kind: 'refused', problem });

export const refused = (id: BuildMessage, text: string, todo?: string): Decision =>
  refuse(unitProblem(id, text, undefined, todo));

export const write = (person: Person, ...events: readonly EventBody[]): Decision => ({
  kind: 'events',
  events,
  by: person.id,
});

/** The person at the bench, where the unit takes work at all. */
export function worker(
  scope: ActionContext,
  { whileParked = false } = {},
): { person: Person } | { refusal: Decision } {
  const { state, context } = scope;
  const found = atBench(context);
  if ('problem' in found) return { refusal: refuse(found.problem) };
  if (!scope.state.derived.marks.opened)
    return { refusal: refused('build.not-opened', `${state.unit} is not opened: it has no journal yet.`) };
  if (state.scrapped)
    return {
      refusal: refused(
        'build.scrapped',
        `${state.unit} is scrapped.`,
        `Build its replacement, ${state.replacement}; only notes are taken here.`,
      ),
    };
  if (state.parked && !whileParked) return { refusal: refused('build.parked', `${state.unit} is parked.`) };
  return found;
}

export function stepOf(scope: ActionContext, id: string): { step: StepState } | { refusal: Decision } {
  const step = scope.state.steps.get(id);
  return step
    ? { step }
    : { refusal: refused('build.unknown-step', `${scope.state.unit} has no step "${id}".`) };
}

/** Evidence files that the store has kept, by the names the action uses. */
export function evidenceOf(
  names: readonly string[] | undefined,
  context: DecisionContext,
): { evidence: Evidence[] } | { refusal: Decision } {
  const evidence: Evidence[] = [];
  for (const name of names ?? []) {
    const kept = context.evidence?.[name];
    if (!kept) return { refusal: refused('build.evidence-missing', `"${name}" was not found, or not kept.`) };
    evidence.push(kept);
  }
  return { evidence };
}

/** Time now on the steady scale of the marks, ms, a jump noticed this moment taken out. */
export function steadyNow({ context, state }: ActionContext): number {
  return ms(context.now) - state.derived.marks.shift - jump(state, context).by;
}

/** A jump of the wall clock that is noticed now: told by the program's steady clock, or because time went backwards. */
export function jump(
  state: UnitState,
  context: DecisionContext,
): { readonly events: readonly EventBody[]; readonly by: number } {
  const last = state.events.at(-1);
  const told = context.clockJump;
  if (told) return { events: [{ kind: 'clock-jumped', ...told }], by: ms(told.to) - ms(told.from) };
  // Written alike, times stand in order as texts do.
  if (last && context.now < last.at && ms(context.now) < ms(last.at) - CLOCK_SLACK)
    return {
      events: [{ kind: 'clock-jumped', from: last.at, to: iso(ms(context.now)) }],
      by: ms(context.now) - ms(last.at),
    };
  return NO_JUMP;
}
const NO_JUMP = { events: [], by: 0 } as const;
