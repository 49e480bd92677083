/**
 * Capability: what room the limits leave for the scatter. Cp and Cpk rest on the deviation within groups, Pp and Ppk on that of all
 * readings (n − 1). ISO 22514-2 calls by Cp and Cpk what the time-dependent model of a process gives; `shared/figures.md` tells
 * the difference.
 */
import { mean, sd } from '../measure/stats.js';
import type { Within } from './charts.js';
import { chiSquareQuantile, normalQuantile } from './distributions.js';
import { meanOfSd } from './factors.js';
import { normality } from './normality.js';

export interface Limits {
  readonly low?: number | undefined;
  readonly high?: number | undefined;
}

export type Interval = readonly [number, number];

/** Why figures of capability are not to be relied on. */
const REFUSALS = [
  'no-limits',
  'no-scatter',
  'few-readings',
  'few-values',
  'coarse',
  'unstable',
  'not-normal',
] as const;
type Refusal = (typeof REFUSALS)[number];

export interface Capability {
  /** null for a limit on one side only. */
  readonly cp: number | null;
  readonly cpk: number | null;
  readonly pp: number | null;
  readonly ppk: number | null;
  readonly intervals: Readonly<Partial<Record<'cp' | 'cpk' | 'pp' | 'ppk', Interval>>>;
  readonly level: number;
  /** The gravest reason; the figures then show what there would be to say, and are not to be told as a result. */
  readonly refused: Refusal | null;
  /** From the readings' own percentiles, for those that are not normal; only from enough readings. */
  readonly percentiles: Percentiles | null;
}

interface Percentiles {
  readonly p0135: number;
  readonly p50: number;
  readonly p99865: number;
  readonly pp: number | null;
  readonly ppk: number | null;
}

/** From fewer readings intervals are too wide to be of use. */
const FEWEST_READINGS = 30;
const FEWEST_VALUES = 5;
/** Fewer readings hold no 0.135 % of themselves. */
const FEWEST_FOR_PERCENTILES = 1000;
/** Below this p normal figures would mislead; a higher one is met by chance too often over many checks. */
const NOT_NORMAL = 0.005;

/**
 * @param within of the chart's groups
 * @param stable no point of the charts signals
 * @param resolution smallest step of the instrument; the least step between readings where it is not known
 */
export function capabilityOf(
  values: readonly number[],
  within: Within,
  { low, high }: Limits,
  stable: boolean,
  resolution: number | undefined,
  level = 0.95,
): Capability {
  const n = values.length;
  const centre = mean(values);
  const overall = sd(values);
  const room = (deviation: number) => roomOf(centre, deviation, { low, high });
  const [c, p] = [room(within.sd), room(overall)];
  const freedom =
    within.estimator === 'frozen' ? Number.POSITIVE_INFINITY : freedomOf(within.relativeVariance);
  const intervals: { -readonly [K in keyof Capability['intervals']]: Capability['intervals'][K] } = {};
  if (n > 1) {
    if (c.both !== null) intervals.cp = bothInterval(c.both, freedom, level);
    if (c.nearer !== null) intervals.cpk = nearerInterval(c.nearer, n, freedom, level);
    if (p.both !== null) intervals.pp = bothInterval(p.both, n - 1, level);
    if (p.nearer !== null) intervals.ppk = nearerInterval(p.nearer, n, n - 1, level);
  }
  return {
    cp: c.both,
    cpk: c.nearer,
    pp: p.both,
    ppk: p.nearer,
    intervals,
    level,
    refused: refusal(values, overall, { low, high }, stable, resolution),
    percentiles: n >= FEWEST_FOR_PERCENTILES ? percentilesOf(values, { low, high }) : null,
  };
}

/** Room over six deviations, and the nearer side over three; null where a limit that it needs is missing, or nothing scatters. */
function roomOf(
  centre: number,
  deviation: number,
  { low, high }: Limits,
): { readonly both: number | null; readonly nearer: number | null } {
  if (!(deviation > 0)) return { both: null, nearer: null };
  const sides = [
    ...(low === undefined ? [] : [(centre - low) / (3 * deviation)]),
    ...(high === undefined ? [] : [(high - centre) / (3 * deviation)]),
  ];
  return {
    both: low === undefined || high === undefined ? null : (high - low) / (6 * deviation),
    nearer: sides.length === 0 ? null : Math.min(...sides),
  };
}

/** By the chi-square distribution of the deviation; with infinite freedom the deviation is known. */
function bothInterval(index: number, freedom: number, level: number): Interval {
  if (!Number.isFinite(freedom)) return [index, index];
  const tail = (1 - level) / 2;
  return [
    index * Math.sqrt(chiSquareQuantile(tail, freedom) / freedom),
    index * Math.sqrt(chiSquareQuantile(1 - tail, freedom) / freedom),
  ];
}

/** Bissell (1990): normal approximation. */
function nearerInterval(index: number, n: number, freedom: number, level: number): Interval {
  const z = normalQuantile((1 + level) / 2);
  const half = z * Math.sqrt(1 / (9 * n) + index ** 2 / (2 * freedom));
  return [index - half, index + half];
}

/** Degrees of freedom at which a standard deviation is as uncertain as this estimate: they need not be whole. */
export function freedomOf(relativeVariance: number): number {
  // The more freedom, the less uncertain.
  let [few, many] = [0.1, 1e7];
  for (let i = 0; i < 80; i++) {
    const half = Math.sqrt(few * many);
    if (1 / meanOfSd(half) ** 2 - 1 > relativeVariance) few = half;
    else many = half;
  }
  return Math.sqrt(few * many);
}

function refusal(
  values: readonly number[],
  overall: number,
  { low, high }: Limits,
  stable: boolean,
  resolution: number | undefined,
): Refusal | null {
  if (low === undefined && high === undefined) return 'no-limits';
  if (!(overall > 0)) return 'no-scatter';
  if (values.length < FEWEST_READINGS) return 'few-readings';
  if (new Set(values).size < FEWEST_VALUES) return 'few-values';
  if (resolution !== undefined && resolution > overall * (1 + 1e-9)) return 'coarse';
  if (!stable) return 'unstable';
  return normality(values).p < NOT_NORMAL ? 'not-normal' : null;
}

/** ISO 22514-2 by percentiles: 99.73 % of what there is, and its middle. */
function percentilesOf(values: readonly number[], { low, high }: Limits): Percentiles {
  const sorted = [...values].sort((a, b) => a - b);
  const [p0135, p50, p99865] = [0.00135, 0.5, 0.99865].map((p) => quantileOf(sorted, p)) as [
    number,
    number,
    number,
  ];
  const sides = [
    ...(low === undefined || p50 === p0135 ? [] : [(p50 - low) / (p50 - p0135)]),
    ...(high === undefined || p99865 === p50 ? [] : [(high - p50) / (p99865 - p50)]),
  ];
  return {
    p0135,
    p50,
    p99865,
    pp: low === undefined || high === undefined || p99865 === p0135 ? null : (high - low) / (p99865 - p0135),
    ppk: sides.length === 0 ? null : Math.min(...sides),
  };
}

/** Between the two readings about it, where the first is 0 and the last 1. */
function quantileOf(sorted: readonly number[], p: number): number {
  const at = p * (sorted.length - 1);
  const below = Math.floor(at);
  return sorted[below]! + (at - below) * ((sorted[below + 1] ?? sorted[below]!) - sorted[below]!);
}
