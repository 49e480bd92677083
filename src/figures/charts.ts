/** Control charts of measured readings and of counts, after ISO 7870-2. */
import { mean, sd, spread } from '../measure/stats.js';
import { c4, c5, d2, d3 } from './factors.js';
import { type Rule, type Signal, signalsOf } from './rules.js';

export const CHART_KINDS = ['individuals', 'moving-range', 'mean', 'range', 'sd', 'p', 'laney'] as const;
export type ChartKind = (typeof CHART_KINDS)[number];

export interface Chart {
  readonly kind: ChartKind;
  readonly centre: number;
  /** Of each point, where it changes with the size of the group. */
  readonly centres?: readonly number[];
  /** One for all points, or one for each where their groups differ in size. */
  readonly lower: number | readonly number[];
  readonly upper: number | readonly number[];
  readonly points: readonly number[];
  readonly signals: readonly Signal[];
  /** Which groups the points are of, from 1, where some groups have none. */
  readonly places?: readonly number[];
}

/** How the standard deviation within groups was found. */
export type Estimator = 'moving-range' | 'range' | 'sd' | 'frozen';

export interface Within {
  readonly sd: number;
  readonly estimator: Estimator;
  /** Variance of the estimate over its square: what its degrees of freedom follow from. */
  readonly relativeVariance: number;
}

/** Centre and deviation that somebody fixed; they judge all points. */
export interface FrozenChart {
  readonly centre: number;
  readonly sd: number;
}

/** Which points the centre and the deviation are found from: the first so many (phase I); all where undefined. */
export interface ChartBasis {
  readonly first?: number | undefined;
  readonly frozen?: FrozenChart | undefined;
}

/** Variance of one moving range of two, and covariance of neighbours, of readings with standard deviation 1. */
const MOVING_VARIANCE = 2 - 4 / Math.PI;
const NEIGHBOURS = (4 / Math.PI) * (Math.sqrt(3) / 2 + Math.PI / 12) - 4 / Math.PI;

export function movingRanges(values: readonly number[]): number[] {
  return values.slice(1).map((value, i) => Math.abs(value - values[i]!));
}

/** From at least two readings in the order in which they were taken. */
export function withinIndividuals(values: readonly number[]): Within {
  const ranges = movingRanges(values);
  const m = ranges.length;
  const variance = (MOVING_VARIANCE + (2 * (m - 1) * NEIGHBOURS) / m) / m;
  return {
    sd: mean(ranges) / d2(2),
    estimator: 'moving-range',
    relativeVariance: variance / d2(2) ** 2,
  };
}

/** From groups; those of one reading say nothing of the deviation within groups. At least one must have more. */
export function withinGroups(groups: readonly (readonly number[])[], estimator: 'range' | 'sd'): Within {
  const several = groups.filter(({ length }) => length > 1);
  const of = (group: readonly number[]) =>
    estimator === 'range' ? spread(group) / d2(group.length) : sd(group) / c4(group.length);
  const variance = ({ length }: readonly number[]) =>
    estimator === 'range' ? (d3(length) / d2(length)) ** 2 : (c5(length) / c4(length)) ** 2;
  return {
    sd: mean(several.map(of)),
    estimator,
    relativeVariance: mean(several.map(variance)) / several.length,
  };
}

/** Individuals and their moving ranges. */
export function individualsCharts(
  values: readonly number[],
  rules: readonly Rule[],
  { first, frozen }: ChartBasis = {},
): { readonly charts: readonly [Chart, Chart]; readonly within: Within } {
  const found = withinIndividuals(values.slice(0, first));
  const within: Within = frozen ? { sd: frozen.sd, estimator: 'frozen', relativeVariance: 0 } : found;
  const centre = frozen?.centre ?? mean(values.slice(0, first));
  const ranges = movingRanges(values);
  return {
    within,
    charts: [
      locationChart('individuals', values, centre, () => within.sd, rules, first),
      spreadChart(
        'moving-range',
        ranges,
        () => within.sd * d2(2),
        () => within.sd * d3(2),
      ),
    ],
  };
}

/** Means of groups, and their ranges or standard deviations. */
export function groupCharts(
  groups: readonly (readonly number[])[],
  estimator: 'range' | 'sd',
  rules: readonly Rule[],
  { first, frozen }: ChartBasis = {},
): { readonly charts: readonly [Chart, Chart]; readonly within: Within } {
  const base = groups.slice(0, first);
  const found = withinGroups(base, estimator);
  const within: Within = frozen ? { sd: frozen.sd, estimator: 'frozen', relativeVariance: 0 } : found;
  const centre = frozen?.centre ?? mean(base.flat());
  const size = (i: number) => groups[i]!.length;
  const means = locationChart(
    'mean',
    groups.map(mean),
    centre,
    (i) => within.sd / Math.sqrt(size(i)),
    rules,
    first,
  );
  // One reading has neither range nor deviation.
  const of = (factor: (n: number) => number) => (i: number) =>
    size(i) > 1 ? within.sd * factor(size(i)) : Number.NaN;
  const scatter =
    estimator === 'range'
      ? spreadChart('range', groups.map(rangeIn), of(d2), of(d3))
      : spreadChart('sd', groups.map(sd), of(c4), of(c5));
  return { within, charts: [means, scatter] };
}

function locationChart(
  kind: ChartKind,
  points: readonly number[],
  centre: number,
  deviation: (i: number) => number,
  rules: readonly Rule[],
  first: number | undefined,
): Chart {
  return {
    kind,
    centre,
    lower: each(points, (i) => centre - 3 * deviation(i)),
    upper: each(points, (i) => centre + 3 * deviation(i)),
    points,
    signals: signalsOf(
      points.map((point, i) => offset(point - centre, deviation(i))),
      rules,
      first === undefined ? undefined : first + 1,
    ),
  };
}

const rangeIn = (group: readonly number[]): number => (group.length > 1 ? spread(group) : Number.NaN);

/** Ranges and deviations lie unevenly about their mean: only R1 is meant for them. Groups of one reading have no point. */
function spreadChart(
  kind: ChartKind,
  points: readonly number[],
  expected: (i: number) => number,
  deviation: (i: number) => number,
): Chart {
  const there = points.map((_, i) => i).filter((i) => !Number.isNaN(points[i]!));
  const upper = (i: number) => expected(i) + 3 * deviation(i);
  const lower = (i: number) => Math.max(0, expected(i) - 3 * deviation(i));
  const centres = there.map(expected);
  const found = signalsOf(
    there.map((i) => offset(points[i]! - expected(i), deviation(i))),
    ['R1'],
  );
  const all = (limit: (i: number) => number) => each(there, (k) => limit(there[k]!));
  return {
    kind,
    centre: mean(centres),
    ...(centres.every((centre) => centre === centres[0]) ? {} : { centres }),
    lower: all(lower),
    upper: all(upper),
    points: there.map((i) => points[i]!),
    signals: found,
    ...(there.length === points.length ? {} : { places: there.map((i) => i + 1) }),
  };
}

/** Where nothing scatters, whatever is off is beyond every limit. */
const offset = (by: number, deviation: number): number =>
  deviation > 0 ? by / deviation : Math.abs(by) < 1e-12 ? 0 : by * Number.POSITIVE_INFINITY;

/** One limit where it is the same for every point. */
function each(points: readonly number[], limit: (i: number) => number): number | readonly number[] {
  const all = points.map((_, i) => limit(i));
  return all.every((value) => value === all[0]) ? (all[0] ?? 0) : all;
}

/** How many of how many failed, in each group. */
export interface Count {
  readonly failed: number;
  readonly of: number;
}

/** A p chart, or with the limits that Laney (2002) widens by what groups differ more than chance lets them. */
export function countChart(
  kind: 'p' | 'laney',
  counts: readonly Count[],
  rules: readonly Rule[],
  { first }: ChartBasis = {},
): { readonly chart: Chart; readonly sigmaZ: number } {
  const base = counts.slice(0, first);
  const centre = total(base, ({ failed }) => failed) / total(base, ({ of }) => of);
  const points = counts.map(({ failed, of }) => failed / of);
  const chance = (i: number) => Math.sqrt((centre * (1 - centre)) / counts[i]!.of);
  const offsets = points.map((point, i) => offset(point - centre, chance(i)));
  const sigmaZ =
    kind === 'laney' && base.length > 1 ? mean(movingRanges(offsets.slice(0, first))) / d2(2) : 1;
  return {
    sigmaZ,
    chart: {
      kind,
      centre,
      lower: each(points, (i) => Math.max(0, centre - 3 * chance(i) * sigmaZ)),
      upper: each(points, (i) => Math.min(1, centre + 3 * chance(i) * sigmaZ)),
      points,
      signals: signalsOf(
        offsets.map((each) => offset(each, sigmaZ)),
        rules,
      ),
    },
  };
}

const total = <T>(of: readonly T[], value: (each: T) => number): number =>
  of.reduce((sum, each) => sum + value(each), 0);
