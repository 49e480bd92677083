/** What an instrument reads beside what is there: bias at one reference, and how it grows along its range. */
import { mean, sd } from '../measure/stats.js';
import type { Interval } from './capability.js';
import { studentQuantile, studentTails } from './distributions.js';

export interface Bias {
  readonly n: number;
  readonly reference: number;
  readonly mean: number;
  readonly sd: number;
  readonly bias: number;
  /** Student's t at the level asked for. */
  readonly interval: Interval;
  /** How likely such a bias is of an instrument that has none. */
  readonly p: number;
}

/** @param values at least two readings of one reference */
export function biasOf(values: readonly number[], reference: number, level = 0.95): Bias {
  const n = values.length;
  const bias = mean(values) - reference;
  const error = sd(values) / Math.sqrt(n);
  const half = studentQuantile((1 + level) / 2, n - 1) * error;
  return {
    n,
    reference,
    mean: mean(values),
    sd: sd(values),
    bias,
    interval: [bias - half, bias + half],
    p: error > 0 ? studentTails(bias / error, n - 1) : bias === 0 ? 1 : 0,
  };
}

export interface Linearity {
  readonly n: number;
  readonly slope: number;
  readonly intercept: number;
  readonly slopeInterval: Interval;
  /** How likely such a slope is of an instrument that has none. */
  readonly p: number;
  readonly at: readonly Bias[];
}

/** Least squares of bias over reference. At least two references, and three readings in all. */
export function linearityOf(
  readings: readonly { readonly reference: number; readonly value: number }[],
  level = 0.95,
): Linearity {
  const n = readings.length;
  const x = mean(readings.map(({ reference }) => reference));
  const y = mean(readings.map(({ reference, value }) => value - reference));
  let [xx, xy] = [0, 0];
  for (const { reference, value } of readings) {
    xx += (reference - x) ** 2;
    xy += (reference - x) * (value - reference - y);
  }
  const slope = xy / xx;
  const intercept = y - slope * x;
  const rest = readings.reduce(
    (sum, { reference, value }) => sum + (value - reference - intercept - slope * reference) ** 2,
    0,
  );
  const error = Math.sqrt(rest / (n - 2) / xx);
  const half = studentQuantile((1 + level) / 2, n - 2) * error;
  const references = [...new Set(readings.map(({ reference }) => reference))].sort((a, b) => a - b);
  return {
    n,
    slope,
    intercept,
    slopeInterval: [slope - half, slope + half],
    p: error > 0 ? studentTails(slope / error, n - 2) : slope === 0 ? 1 : 0,
    at: references.flatMap((reference) => {
      const values = readings.filter((each) => each.reference === reference).map(({ value }) => value);
      return values.length > 1 ? [biasOf(values, reference, level)] : [];
    }),
  };
}
