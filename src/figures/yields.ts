/** How much of the work was right at once, what failed most, and where time went. People are not told apart. */
import type { Interval } from './capability.js';
import { exactProportion } from './distributions.js';
import type { UnitFigures } from './unitfigures.js';

interface Yield {
  readonly right: number;
  readonly of: number;
  /** Clopper and Pearson, 95 %. */
  readonly interval: Interval;
}

interface StepYield extends Yield {
  readonly step: string;
  readonly title: string;
}

export interface Yields {
  readonly steps: readonly StepYield[];
  /** Finished units without a failed first answer, a snag or work done again. */
  readonly units: Yield | undefined;
  /** Product of the steps' shares: what a unit would have if steps failed independently. Without an interval. */
  readonly rolled: number | undefined;
}

export function yieldsOf(units: readonly UnitFigures[]): Yields {
  const steps = new Map<string, { title: string; right: number; of: number }>();
  for (const unit of units)
    for (const { step, title, right } of unit.steps) {
      const found = steps.get(step) ?? { title, right: 0, of: 0 };
      steps.set(step, found);
      found.of += 1;
      if (right) found.right += 1;
    }
  const finished = units.filter((unit) => unit.finished);
  const yields = [...steps].map(([step, { title, right, of }]) => ({ step, title, ...yieldOf(right, of) }));
  return {
    steps: yields,
    units:
      finished.length === 0
        ? undefined
        : yieldOf(finished.filter(({ whole }) => whole).length, finished.length),
    rolled:
      yields.length === 0 ? undefined : yields.reduce((product, { right, of }) => product * (right / of), 1),
  };
}

const yieldOf = (right: number, of: number): Yield => ({ right, of, interval: exactProportion(right, of) });

export interface Ranked {
  readonly what: string;
  readonly count: number;
  /** Of all that have ended, together; undefined where none has. */
  readonly hours: number | undefined;
  /** Pieces thrown away because of it. */
  readonly parts: number;
}

/** Causes of snags, the most frequent first. */
export const causesOf = (units: readonly UnitFigures[]): Ranked[] =>
  ranked(units.flatMap(({ causes }) => causes));

/** Checks that failed at first, the most frequent first. */
export const failuresOf = (units: readonly UnitFigures[]): Ranked[] =>
  ranked(units.flatMap(({ failures }) => failures));

function ranked(troubles: UnitFigures['failures']): Ranked[] {
  const found = new Map<string, { count: number; hours: number | undefined; parts: number }>();
  for (const { what, hours, parts } of troubles) {
    const of = found.get(what) ?? { count: 0, hours: undefined, parts: 0 };
    found.set(what, of);
    of.count += 1;
    of.parts += parts;
    if (hours !== undefined) of.hours = (of.hours ?? 0) + hours;
  }
  return [...found]
    .map(([what, of]) => ({ what, ...of }))
    .sort((a, b) => b.count - a.count || (b.hours ?? 0) - (a.hours ?? 0) || (a.what < b.what ? -1 : 1));
}

export interface StepTime {
  readonly step: string;
  readonly title: string;
  readonly units: number;
  /** Median minutes between the answers of the step. */
  readonly work: number;
  /** Median minutes before an answer of it in which the unit lay. */
  readonly waiting: number;
}

/** Where time goes, by step; the longest waits first. */
export function timesOf(units: readonly UnitFigures[]): StepTime[] {
  const found = new Map<string, { title: string; work: number[]; waiting: number[] }>();
  for (const unit of units)
    for (const { step, title, work, waiting } of unit.times) {
      const of = found.get(step) ?? { title, work: [], waiting: [] };
      found.set(step, of);
      of.work.push(work);
      of.waiting.push(waiting);
    }
  return [...found]
    .map(([step, { title, work, waiting }]) => ({
      step,
      title,
      units: work.length,
      work: median(work),
      waiting: median(waiting),
    }))
    .sort((a, b) => b.waiting - a.waiting || b.work - a.work);
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}
