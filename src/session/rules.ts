/**
 * Effective rules for the open unit: skill levels from current sign-offs (for its profile set and its procedure's
 * stages as they read now, not lapsed through absence), and the limits and the rule of judging the unit was started with.
 */
import { isDeepStrictEqual } from 'node:util';
import { ok, type Problem, type Result } from '../base/problem.js';
import { workshopJournals } from '../store/benchjournals.js';
import type { Disk } from '../store/disk.js';
import type { Workshop } from '../store/workshop.js';
import type { Action } from '../unit/actions.js';
import type { WorkshopRules } from '../unit/types.js';
import type { BuiltFrom } from './plan.js';
import { rulesWithSignoffs, workdays } from './practicejournals.js';

export class EffectiveRules {
  /** By procedure and profile set; valid while workshop, sign-offs and day stay the same. */
  #signed:
    | {
        readonly written: string;
        readonly day: string;
        readonly of: Workshop;
        readonly rules: Map<string, Result<WorkshopRules>>;
      }
    | undefined;
  #asBegun:
    | { readonly base: WorkshopRules; readonly from: BuiltFrom; readonly rules: WorkshopRules }
    | undefined;

  constructor(
    private readonly disk: Disk,
    private readonly root: string,
  ) {}

  /** Rules with levels from sign-offs; fails if those are damaged. Re-read only on change, and each day. */
  signed(workshop: Workshop, from: BuiltFrom | undefined, now: string): Result<WorkshopRules> {
    const written = signoffFingerprint(this.disk, this.root);
    const day = now.slice(0, 10);
    const last = this.#signed;
    const same = last?.written === written && last.day === day && last.of === workshop;
    const signed = same ? last : { written, day, of: workshop, rules: new Map() };
    this.#signed = signed;
    // No need to look further if nobody is signed off.
    const judged = written === '' ? undefined : from;
    const key = judged ? `${judged.procedure.name} ${judged.set.name}` : '';
    const before = signed.rules.get(key);
    if (before) return before;
    const made = judged
      ? this.#judged(workshop, judged, now)
      : rulesWithSignoffs(workshop.rules, this.disk, this.root, now);
    signed.rules.set(key, made);
    return made;
  }

  #judged(workshop: Workshop, from: BuiltFrom, now: string): Result<WorkshopRules> {
    const current = workshop.procedures.get(from.procedure.name);
    const procedure = current.ok ? current.value.value : from.procedure;
    const profileSet = from.set.name;
    const days = workdays(this.disk, this.root, procedure);
    return rulesWithSignoffs(workshop.rules, this.disk, this.root, now, procedure, {
      profileSet,
      workedAt: (person, stage) => days(person, stage, profileSet),
    });
  }

  /** Returns the same object until something changes. @param from sources of the open unit */
  now(workshop: Workshop, from: BuiltFrom | undefined, now: string): WorkshopRules {
    const signed = this.signed(workshop, from, now);
    return this.#limited(signed.ok ? signed.value : workshop.rules, from);
  }

  /** Like `now`, but fails if the sign-offs are damaged. */
  sure(workshop: Workshop, from: BuiltFrom | undefined, now: string): Result<WorkshopRules> {
    const signed = this.signed(workshop, from, now);
    return signed.ok ? ok(this.#limited(signed.value, from)) : signed;
  }

  #limited(base: WorkshopRules, from: BuiltFrom | undefined): WorkshopRules {
    if (from === undefined) return base;
    const { limits, decisionRule = base.decisionRule } = from;
    if (limits === base.limits && isDeepStrictEqual(decisionRule, base.decisionRule)) return base;
    if (this.#asBegun?.base !== base || this.#asBegun.from !== from)
      this.#asBegun = { base, from, rules: { ...base, limits, decisionRule } };
    return this.#asBegun.rules;
  }
}

// Counts wrong PINs per person, so that a PIN cannot be guessed.

const TRIES = 5;
const LOCKED_MS = 5 * 60_000;

export class PinAttempts {
  readonly #wrong = new Map<string, { count: number; last: number }>();

  /** Ids of people who must wait. */
  locked(now: number): readonly string[] {
    return [...this.#wrong]
      .filter(([, { count, last }]) => count >= TRIES && Math.abs(now - last) < LOCKED_MS)
      .map(([person]) => person);
  }

  note(problem: Problem, action: Action, person: string | undefined, now: number): void {
    if (problem.id !== 'build.pin-wrong') return;
    for (const whose of pinOwners(action, person)) {
      const before = this.#wrong.get(whose);
      const fresh = before === undefined || Math.abs(now - before.last) >= LOCKED_MS;
      this.#wrong.set(whose, { count: fresh ? 1 : before.count + 1, last: now });
    }
  }

  right(action: Action, person: string | undefined): void {
    for (const whose of pinOwners(action, person)) this.#wrong.delete(whose);
  }
}

/** Everybody whose PIN the action carries. A refusal does not say which one was wrong: it counts for each. */
function pinOwners(action: Action, person: string | undefined): readonly string[] {
  const owners = WORDS.flatMap((key) => {
    const word = (action as Partial<Record<(typeof WORDS)[number], { readonly person: string }>>)[key];
    return word ? [word.person] : [];
  });
  const own = person !== undefined && ('pin' in action || owners.length === 0);
  return own ? [...owners, person] : owners;
}

const WORDS = ['overdueAllowedBy', 'acceptedBy', 'unsignedBy'] as const;

/** Changes whenever a sign-off is written. Reads no file. */
function signoffFingerprint(disk: Disk, root: string): string {
  return workshopJournals(disk, root, 'signoff')
    .map((file) => {
      const stat = disk.stat(`${root}/${file}`);
      return stat ? `${stat.id}/${stat.size}/${stat.modifiedMs}` : '';
    })
    .join(' ');
}
