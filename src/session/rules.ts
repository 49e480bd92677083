/**
 * The house rules as they count now, for the open unit: levels by the sign-offs on disk (of its profile set, for its
 * procedure's stages as they read now, and not run out by absence), and the limits that it was begun with.
 */
import { ok, type Problem, type Result } from '../base/problem.js';
import type { Disk } from '../store/disk.js';
import type { Workshop } from '../store/workshop.js';
import type { Action } from '../unit/actions.js';
import type { WorkshopRules } from '../unit/types.js';
import type { BuiltFrom } from './plan.js';
import { rulesWithSignoffs, signoffFingerprint, workdays } from './practicejournals.js';

export class EffectiveRules {
  /** By procedure and profile set, as long as workshop, sign-offs and day are the same. */
  #signed:
    | {
        readonly written: string;
        readonly day: string;
        readonly of: Workshop;
        readonly rules: Map<string, Result<WorkshopRules>>;
      }
    | undefined;
  #withLimits: { readonly base: WorkshopRules; readonly rules: WorkshopRules } | undefined;

  constructor(
    private readonly disk: Disk,
    private readonly root: string,
  ) {}

  /** With the levels that count by the sign-offs; a problem where those are damaged. Read again only when they changed, and each day. */
  signed(workshop: Workshop, from: BuiltFrom | undefined, now: string): Result<WorkshopRules> {
    const written = signoffFingerprint(this.disk, this.root);
    const day = now.slice(0, 10);
    const last = this.#signed;
    const same = last?.written === written && last.day === day && last.of === workshop;
    const signed = same ? last : { written, day, of: workshop, rules: new Map() };
    this.#signed = signed;
    // Nothing is looked into where nobody is signed off.
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

  /** The same object as long as nothing changed. @param from what the open unit is built from */
  now(workshop: Workshop, from: BuiltFrom | undefined, now: string): WorkshopRules {
    const signed = this.signed(workshop, from, now);
    return this.#limited(signed.ok ? signed.value : workshop.rules, from);
  }

  /** As `now`; a problem where the sign-offs are damaged. */
  sure(workshop: Workshop, from: BuiltFrom | undefined, now: string): Result<WorkshopRules> {
    const signed = this.signed(workshop, from, now);
    return signed.ok ? ok(this.#limited(signed.value, from)) : signed;
  }

  #limited(base: WorkshopRules, from: BuiltFrom | undefined): WorkshopRules {
    const limits = from?.limits;
    if (limits === undefined || limits === base.limits) return base;
    if (this.#withLimits?.base !== base || this.#withLimits.rules.limits !== limits)
      this.#withLimits = { base, rules: { ...base, limits } };
    return this.#withLimits.rules;
  }
}

// Wrong PINs are counted per person, so that one cannot be found by trying.

const TRIES = 5;
const LOCKED_MS = 5 * 60_000;

export class PinAttempts {
  readonly #wrong = new Map<string, { count: number; last: number }>();

  /** Person ids that must wait. */
  locked(now: number): readonly string[] {
    return [...this.#wrong]
      .filter(([, { count, last }]) => count >= TRIES && Math.abs(now - last) < LOCKED_MS)
      .map(([person]) => person);
  }

  note(problem: Problem, action: Action, person: string | undefined, now: number): void {
    const whose = pinOwner(action, person);
    if (problem.id !== 'build.pin-wrong' || whose === undefined) return;
    const before = this.#wrong.get(whose);
    const fresh = before === undefined || Math.abs(now - before.last) >= LOCKED_MS;
    this.#wrong.set(whose, { count: fresh ? 1 : before.count + 1, last: now });
  }

  right(action: Action, person: string | undefined): void {
    const whose = pinOwner(action, person);
    if (whose !== undefined && ('pin' in action || 'overdueAllowedBy' in action)) this.#wrong.delete(whose);
  }
}

const pinOwner = (action: Action, person: string | undefined): string | undefined =>
  (action.do === 'answer' || action.do === 'read') && action.overdueAllowedBy
    ? action.overdueAllowedBy.person
    : person;
