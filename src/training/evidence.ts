/** Evidence towards a level in a stage (supervised units, drills, notes), and what is still missing. */
import type { Procedure } from '../procedure/model.js';
import { LEVEL_WORDS } from '../unit/people.js';
import type { Level, Person, WorkshopRules } from '../unit/types.js';
import type { UnitState } from '../unit/unitstate.js';
import type { PracticeEvent, SignoffEvent, SignoffEvidence } from './events.js';
import { isAbout, SIGNOFF_RULES, type SignoffRules, standingOf } from './standing.js';
import { trainSays } from './words.js';

/** Inputs to a sign-off decision. */
export interface SignoffWorld {
  readonly workshop: WorkshopRules;
  readonly procedure: Procedure;
  /** The workshop's profile sets; if there is more than one, each sign-off is for one of them. */
  readonly profileSets?: readonly string[];
  readonly events: readonly SignoffEvent[];
  readonly work: Work;
  /** By person id. */
  readonly practice: (person: string) => readonly PracticeEvent[];
  readonly now: string;
  readonly rules?: SignoffRules;
}

/** Existing evidence, and in words what is missing for the level. */
export function evidenceFor(
  person: Person,
  stage: string,
  level: Level,
  world: SignoffWorld,
  { assessor, profileSet }: { readonly assessor?: string; readonly profileSet?: string | undefined } = {},
): { readonly evidence: SignoffEvidence; readonly missing: readonly string[] } {
  const rules = world.rules ?? SIGNOFF_RULES;
  const now = standingOf(person, stage, world.events, standingOptions(world, profileSet));
  const supervised = workOf(world.work, person.id, stage).filter(
    (one) => one.supervised && isAbout(one, profileSet),
  );
  const notes = world.events.filter(
    (event) =>
      event.kind === 'observed' &&
      event.person === person.id &&
      event.stage === stage &&
      isAbout(event, profileSet),
  );
  const drills = world
    .practice(person.id)
    .flatMap((event) =>
      event.kind === 'drilled' && event.passed
        ? [{ drill: event.drill, seed: event.seed, points: event.points, at: event.at }]
        : [],
    );
  const checks = supervised.reduce((n, one) => n + one.checks, 0);
  const passed = supervised.reduce((n, one) => n + one.firstPass, 0);
  const rate = checks === 0 ? 0 : passed / checks;
  const missing: string[] = [];
  // Renewing a lapsed level does not skip one: it was reached before.
  const reached = Math.max(now.level, now.from === 'expired' ? (now.signed?.level ?? 0) : 0);
  if (level > reached + 1)
    missing.push(
      trainSays('level-first', { level: level - 1, levelWords: LEVEL_WORDS[(level - 1) as Level] }),
    );
  if (level >= 1 && notes.length === 0) missing.push(trainSays('note-somebody-who'));
  const units = level >= 3 ? rules.unitsForAlone : level === 2 ? rules.unitsForSupervised : 0;
  if (supervised.length < units)
    missing.push(trainSays('units-under-supervision', { units, count: supervised.length }));
  if (level >= 3) {
    if (checks > 0 && rate < rules.firstPassForAlone)
      missing.push(
        trainSays('checks-passed-first', {
          firstPassForAlone: Math.round(rules.firstPassForAlone * 100),
          rate: Math.round(rate * 100),
        }),
      );
    if (drills.length < rules.drillsForAlone) missing.push(trainSays('drill-passed'));
    const second = signer(person.id, stage, 2, world.events, profileSet);
    if (level === 3 && assessor !== undefined && second === assessor)
      missing.push(trainSays('assessor-other-than'));
  }
  return {
    evidence: {
      units: supervised.map(({ unit, checks: n, firstPass, last }) => ({ unit, checks: n, firstPass, last })),
      drills,
      notes: notes.map((event) => event.n),
    },
    missing,
  };
}

export const standingOptions = (world: SignoffWorld, profileSet?: string) => ({
  now: world.now,
  procedure: world.procedure,
  profileSet,
  workedAt: (person: string, stage: string) => workedAt(world.work, person, stage, profileSet),
  ...(world.rules ? { rules: world.rules } : {}),
});

const signer = (
  person: string,
  stage: string,
  level: number,
  events: readonly SignoffEvent[],
  profileSet: string | undefined,
): string | undefined =>
  events.findLast(
    (event) =>
      event.kind === 'signed-off' &&
      event.person === person &&
      event.stage === stage &&
      event.level === level &&
      isAbout(event, profileSet),
  )?.by;

// Work done at the bench, from the units' own journals: the evidence behind a sign-off.

/** One person's work in one stage of one unit. */
export interface UnitWork {
  readonly unit: string;
  readonly profileSet?: string;
  readonly checks: number;
  /** Checks passed on the first answer. */
  readonly firstPass: number;
  /** Every check was answered with a second person named. */
  readonly supervised: boolean;
  /** Time of the last answer, UTC, ISO 8601. */
  readonly last: string;
}

/** By person id, then stage id. */
export type Work = ReadonlyMap<string, ReadonlyMap<string, readonly UnitWork[]>>;

/** Collects work from units' states. A corrected answer is left out, as in the record. */
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
      // What was asked of another unit is evidence there.
      if (event.kind !== 'answered' || event.cited || corrected.has(event.n)) continue;
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

/** When the person last worked in the stage on each unit, for one profile set or any. */
export const workedAt = (work: Work, person: string, stage: string, profileSet?: string): readonly string[] =>
  workOf(work, person, stage)
    .filter((one) => isAbout(one, profileSet))
    .map(({ last }) => last);
