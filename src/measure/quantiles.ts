/** Normal, Student's and chi-square distributions, from jstat (relative error about 1e-7). */
import jstat from 'jstat';

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
