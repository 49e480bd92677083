/**
 * Every number of a unit by name, each with its explanation. Traces are made only on request, so that setting out a
 * thousand units does not write ten thousand sentences nobody reads.
 */
import type { Formula } from '../base/formula.js';
import type { Source } from '../base/schemas.js';
import type { ProfileSet } from './profileset.js';
import type { Trace } from './types.js';

/** A sum made by the program, not by a formula of the set, with its names and filled text. */
export interface MadeSum {
  readonly formula: string;
  readonly filled: string;
  readonly of: readonly string[];
}

interface Entry {
  readonly value: number;
  readonly unit: Trace['unit'];
  readonly made?: () => MadeSum;
  readonly reason?: string;
  readonly formula?: Formula;
  /** `full` maps the formula's local names to full names; `show` gives values that are not numbers. */
  readonly full?: (local: string) => string;
  readonly show?: (local: string) => string | undefined;
  readonly source?: Source;
}

const UNKEPT = (): MadeSum => ({ formula: '', filled: '', of: [] });

export const exact = (value: number): string => String(Math.round(value * 1e6) / 1e6);
const signed = (value: number): string => (value < 0 ? `(${exact(value)})` : exact(value));

export class Numbers implements ReadonlyMap<string, Trace> {
  readonly #entries = new Map<string, Entry>();
  readonly #traces = new Map<string, Trace>();
  readonly #set: ProfileSet;
  readonly #job: string;
  /** False for a plain set-out. As set-out is pure, sums are had on request by setting out again with recording on. */
  readonly recording: boolean;

  constructor(set: ProfileSet, job: string, recording: boolean) {
    this.#set = set;
    this.#job = job;
    this.recording = recording;
  }

  fromJob(name: string, value: number, unit: Trace['unit'] = 'mm'): number {
    if (this.recording)
      this.#entries.set(name, { value, unit, source: { kind: 'manual', text: `job ${this.#job}` } });
    return value;
  }
  /** A number taken from the set unchanged, such as from one of its charts. */
  fromSet(name: string, value: number, unit: Trace['unit'], source: string): void {
    if (this.recording) this.#entries.set(name, { value, unit, source: this.#set.sourceOf(source) });
  }
  byFormula(
    name: string,
    value: number,
    unit: Trace['unit'],
    formula: Formula,
    full: Entry['full'],
    show: Entry['show'],
  ): number {
    if (this.recording)
      this.#entries.set(name, { value, unit, formula, ...(full && { full }), ...(show && { show }) });
    return value;
  }
  made(name: string, value: number, unit: Trace['unit'], made: () => MadeSum, reason = ''): number {
    if (this.recording) this.#entries.set(name, { value, unit, made, ...(reason !== '' && { reason }) });
    return value;
  }
  /** E.g. numbers.sum`${'sight.L1.w'} - 2 * ${'lap'}`: names are looked up, numbers are literal. */
  sum = (strings: TemplateStringsArray, ...names: (string | number)[]): (() => MadeSum) => {
    if (!this.recording) return UNKEPT;
    return () => {
      let formula = strings[0]!;
      let filled = strings[0]!;
      names.forEach((name, i) => {
        const shown = typeof name === 'number' ? signed(name) : this.shown(name);
        formula += (typeof name === 'number' ? shown : name) + strings[i + 1]!;
        filled += shown + strings[i + 1]!;
      });
      return { formula, filled, of: names.filter((name) => typeof name === 'string') };
    };
  };

  value(name: string): number | undefined {
    return this.#entries.get(name)?.value ?? this.#set.constants[name];
  }

  /** The value as shown in a filled sum, negative ones in brackets; undefined if no number has that name. */
  shown(name: string): string | undefined {
    const value = this.value(name);
    return value === undefined ? undefined : signed(value);
  }

  get(name: string): Trace | undefined {
    const known = this.#traces.get(name);
    if (known) return known;
    const entry = this.#entries.get(name) ?? this.#constant(name);
    if (!entry) return undefined;
    const trace = new LazyTrace(this, name, entry);
    this.#traces.set(name, trace);
    return trace;
  }
  #constant(name: string): Entry | undefined {
    const constant = Object.hasOwn(this.#set.file.constants, name)
      ? this.#set.file.constants[name]
      : undefined;
    return (
      constant && { value: constant.value, unit: constant.unit, source: this.#set.sourceOf(constant.source) }
    );
  }
  has(name: string): boolean {
    return this.#entries.has(name);
  }
  get size(): number {
    return this.#entries.size;
  }
  keys(): MapIterator<string> {
    return this.#entries.keys();
  }
  *#pairs(): Generator<[string, Trace], undefined> {
    for (const name of this.#entries.keys()) yield [name, this.get(name)!];
    return undefined;
  }
  entries(): MapIterator<[string, Trace]> {
    return this.#pairs() as unknown as MapIterator<[string, Trace]>;
  }
  *#traced(): Generator<Trace, undefined> {
    for (const name of this.#entries.keys()) yield this.get(name)!;
    return undefined;
  }
  values(): MapIterator<Trace> {
    return this.#traced() as unknown as MapIterator<Trace>;
  }
  [Symbol.iterator](): MapIterator<[string, Trace]> {
    return this.entries();
  }
  forEach(run: (trace: Trace, name: string, map: ReadonlyMap<string, Trace>) => void): void {
    for (const name of this.#entries.keys()) run(this.get(name)!, name, this);
  }
}

class LazyTrace implements Trace {
  readonly name: string;
  readonly value: number;
  readonly unit: Trace['unit'];
  readonly source?: Source;
  readonly reason?: string;
  readonly formula?: string;
  readonly #numbers: Numbers;
  readonly #entry: Entry;
  #made: MadeSum | undefined;

  constructor(numbers: Numbers, name: string, entry: Entry) {
    this.#numbers = numbers;
    this.#entry = entry;
    this.name = name;
    this.value = entry.value;
    this.unit = entry.unit;
    if (entry.source) this.source = entry.source;
    if (entry.reason !== undefined) this.reason = entry.reason;
    this.#made = entry.made?.();
    const formula = this.#made?.formula ?? entry.formula?.text;
    if (formula !== undefined) this.formula = formula;
  }
  get filled(): string {
    if (this.#made) return this.#made.filled;
    const { formula, full, show } = this.#entry;
    if (!formula || !full) return exact(this.value);
    return formula.filled((local) => this.#numbers.shown(full(local)) ?? show?.(local));
  }
  get of(): readonly Trace[] {
    const { formula, full } = this.#entry;
    const names = this.#made ? this.#made.of : (formula?.names ?? []).map((local) => full!(local));
    return names.flatMap((name) => this.#numbers.get(name) ?? []);
  }
}

export function total(numbers: Numbers, names: readonly string[]): () => MadeSum {
  return () => ({
    formula: names.join(' + ') || '0',
    filled: names.map((name) => numbers.shown(name)).join(' + ') || '0',
    of: names,
  });
}
