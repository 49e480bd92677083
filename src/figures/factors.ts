/**
 * Factors of control charts for normal readings, computed and not rounded. Their names are those of ISO 7870-2: d2 and d3 are the
 * mean and the standard deviation of the range of n readings with standard deviation 1, c4 is the mean of their
 * standard deviation.
 */

import { normalBelow, sum } from '../measure/stats.js';
import { logGamma } from './distributions.js';

/** Mean of the standard deviation of readings, over the true one, with so many degrees of freedom (they need not be whole). */
export const meanOfSd = (freedom: number): number =>
  Math.sqrt(2 / freedom) * Math.exp(logGamma((freedom + 1) / 2) - logGamma(freedom / 2));

export const c4 = (n: number): number => meanOfSd(n - 1);

/** Standard deviation of a standard deviation of n readings. */
export const c5 = (n: number): number => Math.sqrt(1 - c4(n) ** 2);

export const d2 = (n: number): number => rangeFactors(n).mean;
export const d3 = (n: number): number => rangeFactors(n).sd;

/** For the mean of few ranges: its square over that of the true deviation is 1 on average. */
export const d2Star = (groups: number, n: number): number => Math.sqrt(d2(n) ** 2 + d3(n) ** 2 / groups);

const known = new Map<number, { readonly mean: number; readonly sd: number }>();

/** Steps of the sums below: the functions fall off like a normal one, so that a plain sum over them is as good as exact. */
const STEP = 0.05;
const END = 8;

function rangeFactors(n: number): { readonly mean: number; readonly sd: number } {
  const found = known.get(n);
  if (found) return found;
  const at = Array.from({ length: Math.round((2 * END) / STEP) + 1 }, (_, i) => -END + i * STEP);
  const below = at.map(normalBelow);
  const density = at.map((x) => Math.exp(-(x * x) / 2) / Math.sqrt(2 * Math.PI));
  // ∫ 1 − Φⁿ − (1 − Φ)ⁿ
  const mean = STEP * sum(below.map((p) => 1 - p ** n - (1 - p) ** n));
  let square = 0;
  // The range is y − x where the least reading is x, the largest y, and the others lie between.
  for (let i = 0; i < at.length; i++)
    for (let j = i + 1; j < at.length; j++) {
      const between = below[j]! - below[i]!;
      const weight = density[i]! * density[j]! * between ** (n - 2);
      const range = at[j]! - at[i]!;
      square += range * range * weight;
    }
  square *= n * (n - 1) * STEP * STEP;
  const factors = { mean, sd: Math.sqrt(square - mean * mean) };
  known.set(n, factors);
  return factors;
}
