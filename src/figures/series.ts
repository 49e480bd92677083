/** Readings as a chart with its figures: of single readings, of groups, or of shares. */
import { err, ok, type Result } from '../base/problem.js';
import { mean, sd } from '../measure/stats.js';
import { type Capability, capabilityOf, type Limits } from './capability.js';
import {
  type Chart,
  type ChartBasis,
  type ChartKind,
  type Count,
  countChart,
  type Estimator,
  groupCharts,
  individualsCharts,
} from './charts.js';
import { figuresProblem } from './messages.js';
import type { Rule } from './rules.js';

/** With more readings in a group a range uses too little of them. */
const MOST_FOR_RANGE = 10;

export interface SeriesWish {
  readonly chart?: ChartKind | undefined;
  readonly rules: readonly Rule[];
  readonly limits: Limits;
  readonly basis?: ChartBasis | undefined;
  /** Of the instrument; the least step between readings where it is not known. */
  readonly resolution?: number | undefined;
}

export interface SeriesFigures {
  readonly n: number;
  readonly mean: number;
  readonly sd: number;
  /** null for shares, as is its estimator. */
  readonly sdWithin: number | null;
  readonly estimator: Estimator | null;
  readonly charts: readonly Chart[];
  /** null for shares. */
  readonly capability: Capability | null;
}

/** @param groups one reading each for single readings, in the order in which they were taken */
export function seriesFigures(
  groups: readonly (readonly number[])[],
  grouped: boolean,
  { chart, rules, limits, basis = {}, resolution }: SeriesWish,
): Result<SeriesFigures> {
  const values = groups.flat();
  const points = groups.length;
  if (values.length < 2 || points < 2) return err(figuresProblem('figures.few', { n: values.length }));
  if (basis.first !== undefined && (basis.first < 2 || basis.first > points))
    return err(figuresProblem('figures.few/first', { first: basis.first, n: points }));
  const based = groups.slice(0, basis.first);
  if (grouped && !based.some(({ length }) => length > 1)) return err(figuresProblem('figures.few/groups'));
  const largest = groups.reduce((most, { length }) => Math.max(most, length), 0);
  const bySd = chart === 'sd' || (chart !== 'range' && largest > MOST_FOR_RANGE);
  const { charts, within } = grouped
    ? groupCharts(groups, bySd ? 'sd' : 'range', rules, basis)
    : individualsCharts(values, rules, basis);
  // Moving ranges signal by chance far more often than readings do, and show little that these do not.
  const judged = grouped ? charts : charts.slice(0, 1);
  const stable = judged.every(({ signals }) => signals.length === 0);
  return ok({
    n: values.length,
    mean: mean(values),
    sd: sd(values),
    sdWithin: within.sd,
    estimator: within.estimator,
    charts,
    capability: capabilityOf(values, within, limits, stable, resolution ?? leastStep(values)),
  });
}

/** Shares of each group that failed. */
export function shareFigures(
  counts: readonly Count[],
  kind: 'p' | 'laney',
  { rules, basis = {} }: Pick<SeriesWish, 'rules' | 'basis'>,
): Result<SeriesFigures> {
  if (counts.length < 2) return err(figuresProblem('figures.few', { n: counts.length }));
  if (basis.first !== undefined && (basis.first < 2 || basis.first > counts.length))
    return err(figuresProblem('figures.few/first', { first: basis.first, n: counts.length }));
  const { chart } = countChart(kind, counts, rules, basis);
  const shares = counts.map(({ failed, of }) => failed / of);
  return ok({
    n: counts.length,
    mean: chart.centre,
    sd: sd(shares),
    sdWithin: null,
    estimator: null,
    charts: [chart],
    capability: null,
  });
}

/** The resolution that readings themselves show; undefined where all are alike. */
function leastStep(values: readonly number[]): number | undefined {
  const sorted = [...new Set(values)].sort((a, b) => a - b);
  let least = Number.POSITIVE_INFINITY;
  for (let i = 1; i < sorted.length; i++) least = Math.min(least, sorted[i]! - sorted[i - 1]!);
  // Steps of a few last binary digits are none.
  return Number.isFinite(least) ? Number(least.toPrecision(12)) : undefined;
}
