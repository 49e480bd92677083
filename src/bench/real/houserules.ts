/** The house rules as they count now: levels by the sign-offs on disk, and the limits that the open unit was begun with. */
import type { WorkshopRules } from '../../build/workshop.js';
import type { Result } from '../../ground/problem.js';
import type { LimitsFile } from '../../measure/limits.js';
import type { Disk } from '../../store/disk.js';
import { rulesWithSignoffs, signoffMark } from '../train/journals.js';

export class HouseRules {
  #signed:
    | { readonly mark: string; readonly of: WorkshopRules; readonly rules: Result<WorkshopRules> }
    | undefined;
  #withLimits: { readonly base: WorkshopRules; readonly rules: WorkshopRules } | undefined;

  constructor(
    private readonly disk: Disk,
    private readonly root: string,
  ) {}

  /** With the levels that count by the sign-offs; a problem where those are damaged. Read again only when they changed. */
  signed(rules: WorkshopRules, now: string): Result<WorkshopRules> {
    const mark = `${signoffMark(this.disk, this.root)} ${now.slice(0, 10)}`;
    if (this.#signed?.mark !== mark || this.#signed.of !== rules)
      this.#signed = { mark, of: rules, rules: rulesWithSignoffs(rules, this.disk, this.root, now) };
    return this.#signed.rules;
  }

  /** The same object as long as nothing changed. @param limits those of the open unit */
  now(rules: WorkshopRules, limits: LimitsFile | undefined, now: string): WorkshopRules {
    const signed = this.signed(rules, now);
    const base = signed.ok ? signed.value : rules;
    if (limits === undefined || limits === base.limits) return base;
    if (this.#withLimits?.base !== base || this.#withLimits.rules.limits !== limits)
      this.#withLimits = { base, rules: { ...base, limits } };
    return this.#withLimits.rules;
  }
}
