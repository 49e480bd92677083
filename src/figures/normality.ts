/** Whether readings may come from a normal distribution: Anderson and Darling, with the p of D'Agostino and Stephens (1986). */
import { mean, normalBelow, sd } from '../measure/stats.js';

/** @param values at least eight that are not all alike */
export function normality(values: readonly number[]): { readonly statistic: number; readonly p: number } {
  const n = values.length;
  const [centre, deviation] = [mean(values), sd(values)];
  const sorted = [...values].sort((a, b) => a - b).map((value) => (value - centre) / deviation);
  let sum = 0;
  for (let i = 0; i < n; i++) {
    const below = clamp(normalBelow(sorted[i]!));
    const above = clamp(normalBelow(-sorted[n - 1 - i]!));
    sum += (2 * i + 1) * (Math.log(below) + Math.log(above));
  }
  const statistic = (-n - sum / n) * (1 + 0.75 / n + 2.25 / n ** 2);
  return { statistic, p: pOf(statistic) };
}

const clamp = (p: number): number => Math.min(1 - 1e-15, Math.max(1e-300, p));

function pOf(a: number): number {
  if (a >= 0.6) return Math.exp(1.2937 - 5.709 * a + 0.0186 * a * a);
  if (a >= 0.34) return Math.exp(0.9177 - 4.279 * a - 1.38 * a * a);
  if (a >= 0.2) return 1 - Math.exp(-8.318 + 42.796 * a - 59.938 * a * a);
  return 1 - Math.exp(-13.436 + 101.14 * a - 223.73 * a * a);
}
