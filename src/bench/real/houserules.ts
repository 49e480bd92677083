/**
 * The house rules as they count now, for the open unit: levels by the sign-offs on disk (of its profile set, for its
 * procedure's stages as they read now, and not run out by absence), and the limits that it was begun with.
 */
import type { WorkshopRules } from '../../build/workshop.js';
import { good, type Result } from '../../ground/problem.js';
import type { Disk } from '../../store/disk.js';
import type { Workshop } from '../../store/workshop.js';
import { rulesWithSignoffs, signoffMark } from '../train/journals.js';
import { workdays } from '../train/workdays.js';
import type { BuiltFrom } from './plan.js';

export class HouseRules {
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
    const written = signoffMark(this.disk, this.root);
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
    return signed.ok ? good(this.#limited(signed.value, from)) : signed;
  }

  #limited(base: WorkshopRules, from: BuiltFrom | undefined): WorkshopRules {
    const limits = from?.limits;
    if (limits === undefined || limits === base.limits) return base;
    if (this.#withLimits?.base !== base || this.#withLimits.rules.limits !== limits)
      this.#withLimits = { base, rules: { ...base, limits } };
    return this.#withLimits.rules;
  }
}
