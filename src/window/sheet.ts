/** A working sheet: a scope's formulas evaluated for one unit, light or divider. */
import type { Formula } from '../base/formula.js';
import { paneThickness, wholeThickness } from './glass.js';
import type { MadeSum, Numbers } from './numbers.js';
import type { ProfileSet } from './profileset.js';
import type { Scope } from './setformulas.js';
import type { HingeSide, LightKind, Makeup, Trace } from './types.js';

type Group = Record<string, number>;

/**
 * Names of a sheet, falling back to the sheet above and to the constants. A Map, not an object with a prototype:
 * JavaScript engines are slowest at thousands of short-lived prototypes.
 */
class Layer extends Map<string, unknown> {
  readonly #above: ReadonlyMap<string, unknown>;

  constructor(above: ReadonlyMap<string, unknown>) {
    super();
    this.#above = above;
  }
  override get(name: string): unknown {
    const own = super.get(name);
    return own === undefined ? this.#above.get(name) : own;
  }
}

export class Sheet {
  readonly scope: Scope;
  readonly #set: ProfileSet;
  readonly #numbers: Numbers;
  readonly #values: Layer;
  readonly #own = new Set<string>();
  /** Names that belong to this item: `glass.w` of L2 is `glass.L2.w` among the unit's numbers. */
  readonly #ownNames = new Set<string>();
  readonly #item: string | undefined;
  /** Names of formulas that gave no number. */
  readonly failed: string[];

  constructor(set: ProfileSet, numbers: Numbers, scope: Scope, item?: string, parent?: Sheet) {
    this.scope = scope;
    this.#set = set;
    this.#numbers = numbers;
    this.#item = item;
    this.#values = new Layer(parent ? parent.#values : set.constantsMap);
    this.failed = parent ? parent.failed : [];
  }

  full = (local: string): string => {
    return this.#item !== undefined && this.#ownNames.has(local)
      ? local.replace('.', `.${this.#item}.`)
      : local;
  };

  flag(name: string, value: boolean): void {
    this.#values.set(name, value);
  }

  flags(group: string, values: Readonly<Record<string, boolean>>): void {
    this.#values.set(group, values);
  }

  /** A number not from a formula; `trace` says where it comes from. */
  given(group: string, field: string, value: number, unit: Trace['unit'], trace: () => MadeSum): number {
    this.#put(group, field, value);
    return this.#numbers.made(this.full(`${group}.${field}`), value, unit, trace);
  }
  /** As `given`, but the number is already among the unit's numbers. */
  known(group: string, field: string, value: number): void {
    this.#put(group, field, value);
  }
  /** Runs with one extra number defined, then removes it. */
  withNumber<T>(name: string, value: number, run: () => T): T {
    this.#values.set(name, value);
    const found = run();
    this.#values.delete(name);
    return found;
  }

  sizes(): void {
    for (const { name, group, field, formula, unit } of this.#set.sizes[this.scope]) {
      const value = this.#run(formula, name);
      this.#put(group, field, value);
      this.#numbers.byFormula(this.full(name), value, unit, formula, this.full, this.#show);
    }
  }

  value(text: string): number {
    return this.#run(this.#set.formula(this.scope, text), text);
  }
  holds(text: string | undefined): boolean {
    if (text === undefined) return true;
    return this.#set.formula(this.scope, text, 'bool').run(this.#values as never) === true;
  }
  /** Evaluates a formula of this scope into a named number of the unit. */
  named(name: string, text: string, unit: Trace['unit'], alias?: Readonly<Record<string, string>>): number {
    const formula = this.#set.formula(this.scope, text);
    const value = this.#run(formula, name);
    const full = alias ? (local: string) => alias[local] ?? this.full(local) : this.full;
    return this.#numbers.byFormula(name, value, unit, formula, full, this.#show);
  }
  get(group: string, field: string): number {
    return (this.#values.get(group) as Group | undefined)?.[field] ?? 0;
  }

  #show = (local: string): string | undefined => {
    const value = this.#values.get(local);
    return typeof value === 'boolean' ? String(value) : undefined;
  };
  #put(group: string, field: string, value: number): void {
    if (!this.#own.has(group)) {
      const known = this.#values.get(group);
      // Copied, so that the parent's group does not change.
      this.#values.set(group, typeof known === 'object' ? { ...(known as Group) } : {});
      this.#own.add(group);
    }
    (this.#values.get(group) as Group)[field] = value;
    this.#ownNames.add(`${group}.${field}`);
  }
  #run(formula: Formula, name: string): number {
    let value: unknown;
    try {
      value = formula.run(this.#values as never);
    } catch {
      value = Number.NaN;
    }
    if (typeof value === 'number' && Number.isFinite(value)) return value;
    this.failed.push(name);
    return 0;
  }
}

export interface LightFacts {
  readonly id: string;
  readonly kind: LightKind;
  readonly hinge?: HingeSide;
  readonly opensIn: boolean;
  readonly makeup: Makeup;
  readonly sight: { readonly w: number; readonly h: number };
  readonly why: { readonly w: () => MadeSum; readonly h: () => MadeSum };
  readonly onDivider: boolean;
  readonly underDivider: boolean;
}

/** The sizes that the set defines for a scope, as this sheet has them. */
export const sizesOf = (set: ProfileSet, scope: Scope, sheet: Sheet): ReadonlyMap<string, number> =>
  new Map(set.sizes[scope].map(({ name, group, field }) => [name, sheet.get(group, field)]));

export const scopeOf = (kind: LightKind): 'fixed' | 'opening' => (kind === 'fixed' ? 'fixed' : 'opening');

export function lightSheet(set: ProfileSet, numbers: Numbers, unitSheet: Sheet, facts: LightFacts): Sheet {
  const sheet = new Sheet(set, numbers, scopeOf(facts.kind), facts.id, unitSheet);
  sheet.given('sight', 'w', facts.sight.w, 'mm', facts.why.w);
  sheet.given('sight', 'h', facts.sight.h, 'mm', facts.why.h);
  const { makeup } = facts;
  const written = (list: readonly number[]) => (): MadeSum => {
    const text = list.join(' + ');
    return { formula: text, filled: text, of: [] };
  };
  sheet.given('panes', 'thickness', paneThickness(makeup), 'mm', written(makeup.panes));
  sheet.given('panes', 'count', makeup.panes.length, 'count', () => ({
    formula: String(makeup.panes.length),
    filled: String(makeup.panes.length),
    of: [],
  }));
  sheet.given(
    'glazing',
    'thickness',
    wholeThickness(makeup),
    'mm',
    written([...makeup.panes, ...makeup.gaps]),
  );
  sheet.flag('top_hung', facts.kind === 'top-hung');
  sheet.flag('side_hung', facts.kind === 'side-hung');
  sheet.flag('hinge_left', facts.hinge === 'left');
  sheet.flag('opens_in', facts.opensIn);
  sheet.flag('on_divider', facts.onDivider);
  sheet.flag('under_divider', facts.underDivider);
  sheet.sizes();
  return sheet;
}
