/** Quantiles and tails of the distributions that intervals need; relative error below 1e-7. */
import jstat from 'jstat';

const { jStat } = jstat;

export const normalQuantile = (p: number): number => jStat.normal.inv(p, 0, 1);
export const chiSquareQuantile = (p: number, freedom: number): number => jStat.chisquare.inv(p, freedom);
export const studentQuantile = (p: number, freedom: number): number => jStat.studentt.inv(p, freedom);

/** How likely an F of that size or above is by chance. */
export const fTail = (f: number, above: number, below: number): number =>
  f <= 0 ? 1 : 1 - jStat.centralF.cdf(f, above, below);

/** How likely a Student's t of that size is by chance, on either side. */
export const studentTails = (t: number, freedom: number): number =>
  2 * (1 - jStat.studentt.cdf(Math.abs(t), freedom));

/**
 * Exact interval of a proportion (Clopper and Pearson 1934): it holds the true one at least as often as it says.
 * @returns from 0 to 1
 */
export function exactProportion(count: number, of: number, level = 0.95): readonly [number, number] {
  const tail = (1 - level) / 2;
  return [
    count === 0 ? 0 : jStat.beta.inv(tail, count, of - count + 1),
    count === of ? 1 : jStat.beta.inv(1 - tail, count + 1, of - count),
  ];
}

/** ln Γ. */
export const logGamma = (x: number): number => jStat.gammaln(x);
