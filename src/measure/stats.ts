/**
 * Means and spreads that hold all digits double precision can: sums are compensated (Neumaier), and deviations are taken
 * from the mean before they are squared.
 */
import jstat from 'jstat';

/** Sum with a running correction for the digits lost at each addition (Neumaier 1974). */
export function sum(values: readonly number[]): number {
  let total = 0;
  let lost = 0;
  for (const value of values) {
    const next = total + value;
    lost += Math.abs(total) >= Math.abs(value) ? total - next + value : value - next + total;
    total = next;
  }
  return total + lost;
}

/** Arithmetic mean; NaN for nothing. */
export function mean(values: readonly number[]): number {
  if (values.length === 0) return Number.NaN;
  const first = sum(values) / values.length;
  // A second pass over the small remainders removes what the division rounded off.
  return first + sum(values.map((value) => value - first)) / values.length;
}

/** Sample standard deviation (n - 1); NaN for fewer than two values. */
export function sd(values: readonly number[]): number {
  if (values.length < 2) return Number.NaN;
  const centre = mean(values);
  const rests = values.map((value) => value - centre);
  const drift = sum(rests);
  const squares = sum(rests.map((rest) => rest * rest)) - (drift * drift) / values.length;
  return Math.sqrt(squares / (values.length - 1));
}

/** Correlation of each value with the one before it (lag 1); NaN for fewer than two values. */
export function autocorrelation(values: readonly number[]): number {
  if (values.length < 2) return Number.NaN;
  const centre = mean(values);
  const rests = values.map((value) => value - centre);
  const products = rests.slice(1).map((rest, i) => rest * rests[i]!);
  return sum(products) / sum(rests.map((rest) => rest * rest));
}

/** Mean of the steps between neighbours, taken without sign (individuals chart); NaN for fewer than two values. */
export function meanMovingRange(values: readonly number[]): number {
  return mean(values.slice(1).map((value, i) => Math.abs(value - values[i]!)));
}

/** Largest less smallest; 0 for nothing. */
export function spread(values: readonly number[]): number {
  return values.length === 0 ? 0 : Math.max(...values) - Math.min(...values);
}

// Normal, Student's and chi-square distributions, from jstat (relative error about 1e-7).

const { jStat } = jstat;

/** Probability that a standard normal value is at most z. */
export const normalBelow = (z: number): number => jStat.normal.cdf(z, 0, 1);

/** The coverage that k = 2 gives a normal distribution, and that k is chosen for where the degrees of freedom are few. */
const TWO_SIGMA = 0.9545;

/** Two-sided coverage factor for a probability; infinite degrees of freedom give the normal distribution's. */
export function coverageFactor(dof: number, probability: number = TWO_SIGMA): number {
  if (!Number.isFinite(dof))
    return probability === TWO_SIGMA ? 2 : jStat.normal.inv((1 + probability) / 2, 0, 1);
  // JCGM 100, G.4.1: a value that is no whole number is truncated to the next lower one.
  return jStat.studentt.inv((1 + probability) / 2, Math.max(1, Math.floor(dof + 1e-9)));
}

/** How many times its known value a standard deviation from few readings may be before that is significant at 95 %. */
export const scatterBound = (dof: number): number => Math.sqrt(jStat.chisquare.inv(0.95, dof) / dof);
