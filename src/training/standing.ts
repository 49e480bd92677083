/** A person's standing per stage: people file overlaid with sign-offs, minus lapses. The bench uses these levels. */
import { asWritten } from '../procedure/inlanguage.js';
import type { Procedure } from '../procedure/model.js';
import { canonicalText, sha256 } from '../unit/chain.js';
import { LEVEL_WORDS, levelOf } from '../unit/people.js';
import type { Level, Person } from '../unit/types.js';
import type { SignoffEvent } from './events.js';
import { trainSays } from './words.js';

export interface SignoffRules {
  /** Days without work in a stage after which a sign-off lapses; 6 to 12 months are common practice. */
  readonly absenceDays: number;
  /** Supervised units, and share of checks passing on the first answer, for levels 2 and 3 (common practice). */
  readonly unitsForSupervised: number;
  readonly unitsForAlone: number;
  readonly firstPassForAlone: number;
  readonly drillsForAlone: number;
}

export const SIGNOFF_RULES: SignoffRules = {
  absenceDays: 270,
  unitsForSupervised: 3,
  unitsForAlone: 10,
  firstPassForAlone: 0.9,
  drillsForAlone: 1,
};

/** What remains of a lapsed or withdrawn level: work under supervision. */
const LEFT: Level = 2;

export interface StandingOptions {
  readonly now: string;
  readonly procedure?: Procedure;
  /** Counts sign-offs for this profile set and for all sets; if omitted, every sign-off counts. */
  readonly profileSet?: string | undefined;
  /** When a person worked in a stage, UTC, any order; if omitted, absence is not checked. Called only if needed. */
  readonly workedAt?: (person: string, stage: string) => readonly string[];
  readonly rules?: SignoffRules;
}

type SignedEvent = Extract<SignoffEvent, { readonly kind: 'signed-off' }>;

export interface SkillStatus {
  /** Effective level now. */
  readonly level: Level;
  readonly from: 'people-file' | 'signed' | 'expired' | 'withdrawn';
  readonly signed?: SignedEvent;
  /** Plain sentences: who signed it, or why it no longer holds. */
  readonly why: readonly string[];
}

export function standingOf(
  person: Person,
  stage: string,
  events: readonly SignoffEvent[],
  options: StandingOptions,
): SkillStatus {
  const own = events.filter(
    (event) =>
      (event.kind === 'signed-off' || event.kind === 'withdrawn') &&
      event.person === person.id &&
      event.stage === stage &&
      isAbout(event, options.profileSet),
  );
  const last = own.at(-1);
  const signed = own.findLast((event) => event.kind === 'signed-off') as SignedEvent | undefined;
  if (!last || !signed) {
    const level = levelOf(person, stage);
    return {
      level,
      from: 'people-file',
      why: [
        options.profileSet === undefined
          ? trainSays('level-from-file', { level: String(level) })
          : trainSays('level-from-file-set', { level: String(level), set: options.profileSet }),
      ],
    };
  }
  const level = signed.level as Level;
  const lowered: Level = level < LEFT ? level : LEFT;
  if (last.kind === 'withdrawn')
    return {
      level: lowered,
      from: 'withdrawn',
      signed,
      why: [trainSays('withdrawn', { at: dayOf(last.at), by: last.by, reason: last.reason })],
    };
  const expired = level <= LEFT ? [] : reasons(person, stage, signed, options);
  if (expired.length > 0) return { level: lowered, from: 'expired', signed, why: expired };
  return {
    level,
    from: 'signed',
    signed,
    why: [
      trainSays('level-signed', {
        level,
        levelWords: LEVEL_WORDS[level],
        by: signed.by,
        at: dayOf(signed.at),
      }),
    ],
  };
}

function reasons(person: Person, stage: string, signed: SignedEvent, options: StandingOptions): string[] {
  const { procedure, workedAt, now, rules = SIGNOFF_RULES } = options;
  const out: string[] = [];
  if (procedure && procedure.name === signed.procedure.name) {
    const print = stagePrint(procedure, stage);
    if (print !== undefined && print !== signed.stagePrint)
      out.push(
        trainSays('procedure-changed-stage', {
          version: signed.procedure.version,
          version2: procedure.version,
        }),
      );
  }
  if (workedAt && daysFrom(signed.at, now) > rules.absenceDays) {
    const days = longestAbsence(signed.at, workedAt(person.id, stage), now);
    if (days > rules.absenceDays)
      out.push(trainSays('days-without-work', { days, absenceDays: rules.absenceDays }));
  }
  return out;
}

/** Longest stretch without work since signing, in days. Working does not revive a lapsed sign-off; signing does. */
function longestAbsence(signed: string, worked: readonly string[], now: string): number {
  const times = [signed, ...worked.filter((at) => at > signed && at < now).toSorted(), now];
  return Math.max(...times.slice(1).map((at, i) => daysFrom(times[i]!, at)));
}

const daysFrom = (from: string, to: string): number =>
  Math.floor((Date.parse(to) - Date.parse(from)) / 86_400_000);

/** People with current levels. Stages without a sign-off keep the people file's, so that file alone is enough. */
export function levelsFrom(
  events: readonly SignoffEvent[],
  people: readonly Person[],
  now: string,
  procedure?: Procedure,
  options: Omit<StandingOptions, 'now' | 'procedure'> = {},
): Person[] {
  return people.map((person) => {
    const stages = new Set(
      events.flatMap((event) =>
        event.kind === 'signed-off' && event.person === person.id && isAbout(event, options.profileSet)
          ? [event.stage]
          : [],
      ),
    );
    if (stages.size === 0) return person;
    const levels = { ...person.levels };
    for (const stage of stages)
      levels[stage] = standingOf(person, stage, events, {
        now,
        ...(procedure ? { procedure } : {}),
        ...options,
      }).level;
    return { ...person, levels };
  });
}

/** Whether an observation, sign-off or withdrawal counts for a profile set. */
export const isAbout = (
  { profileSet }: { readonly profileSet?: string | undefined },
  set: string | undefined,
): boolean => profileSet === undefined || set === undefined || profileSet === set;

export const dayOf = (at: string): string => at.slice(0, 10);

// Fingerprint of one stage of a procedure: changes with anything in the stage that a person does, reads or is held to.

/** SHA-256 as hex; undefined if there is no such stage. Ignores file positions and compiled formulas. */
export function stagePrint(procedure: Procedure, stageId: string): string | undefined {
  const stage = procedure.stages.find((each) => each.id === stageId);
  if (!stage) return undefined;
  const holds = stage.steps.flatMap((step) =>
    step.hold === undefined ? [] : [procedure.holds.get(step.hold)],
  );
  return sha256(canonicalText(asWritten({ stage, holds })));
}
