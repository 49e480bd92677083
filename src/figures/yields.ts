/** How much of the work was right at once, what failed most, and where time went. People are not told apart. */
import type { JournalEvent } from '../unit/events.js';
import type { UnitState } from '../unit/unitstate.js';
import type { Interval } from './capability.js';
import { exactProportion } from './distributions.js';
import { firstAnswer, titleOf } from './readings.js';

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

/** Of units that are begun; a step counts once all its checks have an answer. */
export function yieldsOf(units: readonly UnitState[]): Yields {
  const steps = new Map<string, { title: string; right: number; of: number }>();
  let [right, finished] = [0, 0];
  for (const state of units) {
    const byLine = new Map(state.events.map((event) => [event.n, event]));
    const again = new Set(state.events.flatMap((event) => (event.kind === 'reworked' ? [event.step] : [])));
    const snagged = new Set(
      state.snags.flatMap(({ raised }) => (raised.step === undefined ? [] : [raised.step])),
    );
    let whole = state.snags.length === 0 && again.size === 0;
    for (const { step, checks } of state.steps.values()) {
      const answers = checks.flatMap((check) => firstAnswer(check, byLine) ?? []);
      if (answers.some(({ verdict }) => verdict.outcome !== 'pass')) whole = false;
      // A step whose checks were all cited, or that asks nothing, says nothing here.
      if (answers.length === 0 || checks.some(({ answered, earlier }) => !answered && earlier.length === 0))
        continue;
      const found = steps.get(step.base) ?? { title: titleOf(step), right: 0, of: 0 };
      steps.set(step.base, found);
      found.of += 1;
      if (
        answers.every(({ verdict }) => verdict.outcome === 'pass') &&
        !again.has(step.id) &&
        !snagged.has(step.id)
      )
        found.right += 1;
    }
    if (!state.finished) continue;
    finished += 1;
    if (whole) right += 1;
  }
  const yields = [...steps].map(([step, { title, right, of }]) => ({ step, title, ...yieldOf(right, of) }));
  return {
    steps: yields,
    units: finished === 0 ? undefined : yieldOf(right, finished),
    rolled:
      yields.length === 0 ? undefined : yields.reduce((product, { right, of }) => product * (right / of), 1),
  };
}

const yieldOf = (right: number, of: number): Yield => ({ right, of, interval: exactProportion(right, of) });

export interface Ranked {
  readonly what: string;
  readonly count: number;
  /** From the first failed answer or the snag to its end, together; undefined where none has ended. */
  readonly hours: number | undefined;
  /** Pieces made again or thrown away because of it. */
  readonly parts: number;
}

const HOUR = 3_600_000;

/** Causes of snags, the most frequent first. */
export function causesOf(units: readonly UnitState[]): Ranked[] {
  return ranked(
    units.flatMap(({ snags }) =>
      snags.map(({ raised, decided, closed }) => ({
        what: raised.cause,
        hours: closed ? between(raised.at, closed.at) : undefined,
        parts: decided?.disposition === 'scrap' ? 1 : 0,
      })),
    ),
  );
}

/** Checks that failed at first, the most frequent first; hours until they passed. */
export function failuresOf(units: readonly UnitState[]): Ranked[] {
  return ranked(
    units.flatMap((state) => {
      const byLine = new Map(state.events.map((event) => [event.n, event]));
      return [...state.steps.values()].flatMap(({ step, checks }) =>
        checks.flatMap((check) => {
          const first = firstAnswer(check, byLine);
          if (!first || first.verdict.outcome === 'pass') return [];
          const { answered } = check;
          const passed = answered && answered.n > first.n && answered.verdict.outcome === 'pass';
          return [
            {
              what: `${step.base}/${check.id.slice(check.id.lastIndexOf('/') + 1)}`,
              hours: passed ? between(first.at, answered.at) : undefined,
              parts: 0,
            },
          ];
        }),
      );
    }),
  );
}

const between = (from: string, to: string): number => (Date.parse(to) - Date.parse(from)) / HOUR;

function ranked(
  each: readonly { readonly what: string; readonly hours: number | undefined; readonly parts: number }[],
): Ranked[] {
  const found = new Map<string, { count: number; hours: number | undefined; parts: number }>();
  for (const { what, hours, parts } of each) {
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
  /** Median minutes before its first answer in which the unit lay. */
  readonly waiting: number;
}

/** Two answers farther apart than this are not one piece of work. */
const PAUSE_MINUTES = 30;

/** Where time goes, by step; the longest waits first. */
export function timesOf(units: readonly UnitState[]): StepTime[] {
  const found = new Map<string, { title: string; work: number[]; waiting: number[] }>();
  for (const state of units) {
    const own = new Map<string, { base: string; title: string; work: number; waiting: number }>();
    let before: string | undefined;
    for (const event of state.events) {
      const step = stepIn(event, state);
      if (!step) continue;
      const minutes = before === undefined ? 0 : between(before, event.at) * 60;
      before = event.at;
      const of = own.get(step.id) ?? { base: step.base, title: titleOf(step), work: 0, waiting: 0 };
      own.set(step.id, of);
      if (minutes > PAUSE_MINUTES) of.waiting += minutes;
      else of.work += minutes;
    }
    for (const { base, title, work, waiting } of own.values()) {
      const of = found.get(base) ?? { title, work: [], waiting: [] };
      found.set(base, of);
      of.work.push(work);
      of.waiting.push(waiting);
    }
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

function stepIn(event: JournalEvent, { steps }: UnitState) {
  return event.kind === 'answered' || event.kind === 'read' || event.kind === 'released'
    ? steps.get(event.step)?.step
    : undefined;
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}
