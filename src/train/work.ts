/** What people did at the bench, read from the units' own journals: the evidence that a sign-off rests on. */
import type { UnitState } from '../build/unitstate.js';
import { isAbout } from './standing.js';

/** One person in one stage of one unit. */
export interface UnitWork {
  readonly unit: string;
  /** The profile set it was built from. */
  readonly profileSet?: string;
  readonly checks: number;
  /** Checks that passed when they were first answered. */
  readonly firstPass: number;
  /** Every check was answered with a second person named. */
  readonly supervised: boolean;
  /** UTC, ISO 8601, of the last answer. */
  readonly last: string;
}

/** Person id, then stage id. */
export type Work = ReadonlyMap<string, ReadonlyMap<string, readonly UnitWork[]>>;

/** Gathers work from units' states. A correction takes its answer out, as it does from the record. */
export function workFrom(states: readonly UnitState[]): Work {
  const work = new Map<string, Map<string, UnitWork[]>>();
  for (const state of states) {
    const stageOf = new Map(state.route.steps.map((step) => [step.id, step.stage]));
    const corrected = new Set(
      state.events.flatMap((event) => (event.kind === 'corrected' ? [event.of] : [])),
    );
    const opened = state.events.find((event) => event.kind === 'opened');
    const set = opened?.kind === 'opened' ? { profileSet: opened.profileSet } : {};
    const seen = new Set<string>();
    const found = new Map<string, { person: string; stage: string; work: UnitWork }>();
    for (const event of state.events) {
      if (event.kind !== 'answered' || corrected.has(event.n)) continue;
      const stage = stageOf.get(event.step);
      if (stage === undefined) continue;
      const first = !seen.has(event.check);
      seen.add(event.check);
      const key = `${event.by} ${stage}`;
      const before = found.get(key)?.work;
      found.set(key, {
        person: event.by,
        stage,
        work: {
          unit: state.unit,
          ...set,
          checks: (before?.checks ?? 0) + (first ? 1 : 0),
          firstPass: (before?.firstPass ?? 0) + (first && event.verdict.outcome === 'pass' ? 1 : 0),
          supervised: (before?.supervised ?? true) && event.second !== undefined && event.second !== event.by,
          last: before && before.last > event.at ? before.last : event.at,
        },
      });
    }
    for (const { person, stage, work: one } of found.values()) {
      const stages = work.get(person) ?? new Map<string, UnitWork[]>();
      stages.set(stage, [...(stages.get(stage) ?? []), one]);
      work.set(person, stages);
    }
  }
  return work;
}

export const workOf = (work: Work, person: string, stage: string): readonly UnitWork[] =>
  work.get(person)?.get(stage) ?? [];

/** When the person last did anything in the stage of each unit, with a profile set or with any. */
export const workedAt = (work: Work, person: string, stage: string, profileSet?: string): readonly string[] =>
  workOf(work, person, stage)
    .filter((one) => isAbout(one, profileSet))
    .map(({ last }) => last);
