/** Means and spreads to full double precision: compensated sums (Neumaier), mean subtracted before squaring. */
import jstat from 'jstat';

/** Sum with a running correction for digits lost at each addition (Neumaier 1974). */
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

/** NaN for an empty list. */
export function mean(values: readonly number[]): number {
  if (values.length === 0) return Number.NaN;
  const first = sum(values) / values.length;
  // A second pass over the residuals removes the rounding error of the division.
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

/** Lag-1 autocorrelation; NaN for fewer than two values. */
export function autocorrelation(values: readonly number[]): number {
  if (values.length < 2) return Number.NaN;
  const centre = mean(values);
  const rests = values.map((value) => value - centre);
  const products = rests.slice(1).map((rest, i) => rest * rests[i]!);
  return sum(products) / sum(rests.map((rest) => rest * rest));
}

/** Mean absolute step between neighbours (individuals chart); NaN for fewer than two values. */
export function meanMovingRange(values: readonly number[]): number {
  return mean(values.slice(1).map((value, i) => Math.abs(value - values[i]!)));
}

/** Largest minus smallest; 0 for an empty list. */
export function spread(values: readonly number[]): number {
  return values.length === 0 ? 0 : Math.max(...values) - Math.min(...values);
}

// Normal, Student's t and chi-square distributions, from jstat (relative error about 1e-7).

const { jStat } = jstat;

export const normalBelow = (z: number): number => jStat.normal.cdf(z, 0, 1);

/** Coverage of k = 2 for a normal distribution; k is chosen to match it when degrees of freedom are few. */
const TWO_SIGMA = 0.9545;

/** Two-sided coverage factor for a probability; infinite degrees of freedom give the normal distribution's. */
export function coverageFactor(dof: number, probability: number = TWO_SIGMA): number {
  if (!Number.isFinite(dof))
    return probability === TWO_SIGMA ? 2 : jStat.normal.inv((1 + probability) / 2, 0, 1);
  // JCGM 100, G.4.1: truncate a non-integer value to the next lower integer.
  return jStat.studentt.inv((1 + probability) / 2, Math.max(1, Math.floor(dof + 1e-9)));
}

/** Factor by which a standard deviation from few readings may exceed its known value; significant at 95 % above it. */
export const scatterBound = (dof: number): number => Math.sqrt(jStat.chisquare.inv(0.95, dof) / dof);
