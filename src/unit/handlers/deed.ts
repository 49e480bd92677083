/** What every action's decision is given, and the few things that most of them say. */
import type { Problem } from '../../base/problem.js';
import { CLOCK_SLACK, type EventBody, type Evidence, iso, ms } from '../events.js';
import { type BuildMessage, raise } from '../messages.js';
import { atBench } from '../people.js';
import type { Decision, Person, StepState, Surroundings } from '../types.js';
import type { UnitState } from '../unitstate.js';

export interface Deed {
  /** The unit as of `around.now`. */
  readonly state: UnitState;
  readonly around: Surroundings;
}

export const refuse = (problem: Problem): Decision => ({ kind: 'refused', problem });

export const refused = (id: BuildMessage, text: string, todo?: string): Decision =>
  refuse(raise(id, text, undefined, todo));

export const write = (person: Person, ...events: readonly EventBody[]): Decision => ({
  kind: 'events',
  events,
  by: person.id,
});

/** The person at the bench, where the unit takes work at all. */
export function worker(deed: Deed, { whileParked = false } = {}): { person: Person } | { refusal: Decision } {
  const { state, around } = deed;
  const found = atBench(around);
  if ('problem' in found) return { refusal: refuse(found.problem) };
  if (!deed.state.derived.marks.opened)
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

export function stepOf(deed: Deed, id: string): { step: StepState } | { refusal: Decision } {
  const step = deed.state.steps.get(id);
  return step
    ? { step }
    : { refusal: refused('build.unknown-step', `${deed.state.unit} has no step "${id}".`) };
}

/** Evidence files that the store has kept, by the names the action uses. */
export function evidenceOf(
  names: readonly string[] | undefined,
  around: Surroundings,
): { evidence: Evidence[] } | { refusal: Decision } {
  const evidence: Evidence[] = [];
  for (const name of names ?? []) {
    const kept = around.evidence?.[name];
    if (!kept) return { refusal: refused('build.evidence-missing', `"${name}" was not found, or not kept.`) };
    evidence.push(kept);
  }
  return { evidence };
}

/** Time now on the steady scale of the marks, ms, a jump noticed this moment taken out. */
export function steadyNow({ around, state }: Deed): number {
  return ms(around.now) - state.derived.marks.shift - jump(state, around).by;
}

/** A jump of the wall clock that is noticed now: told by the program's steady clock, or because time went backwards. */
export function jump(
  state: UnitState,
  around: Surroundings,
): { readonly events: readonly EventBody[]; readonly by: number } {
  const last = state.events.at(-1);
  const told = around.clockJump;
  if (told) return { events: [{ kind: 'clock-jumped', ...told }], by: ms(told.to) - ms(told.from) };
  // Written alike, times stand in order as texts do.
  if (last && around.now < last.at && ms(around.now) < ms(last.at) - CLOCK_SLACK)
    return {
      events: [{ kind: 'clock-jumped', from: last.at, to: iso(ms(around.now)) }],
      by: ms(around.now) - ms(last.at),
    };
  return NO_JUMP;
}
const NO_JUMP = { events: [], by: 0 } as const;
