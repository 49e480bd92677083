/** Capability: how often its intervals hold the true figure, by simulation; and what it refuses. */
import { describe, expect, it } from 'vitest';
import { capabilityOf, freedomOf } from '../../src/figures/capability.js';
import { withinGroups, withinIndividuals } from '../../src/figures/charts.js';
import { exactProportion } from '../../src/figures/distributions.js';
import { normality } from '../../src/figures/normality.js';
import { normals } from './normals.js';

const RUNS = 20_000;
/** Limits and centre of a process with deviation 1: off the middle, so that the nearer side decides. */
const LIMITS = { low: -4.5, high: 5.5 };
const TRUE = { cp: 10 / 6, cpk: 4.5 / 3, pp: 10 / 6, ppk: 4.5 / 3 };
type Index = keyof typeof TRUE;

/** Share of runs in which each interval holds the true figure. */
function coverage(n: number, size: number, estimator: 'range' | 'sd', seed: number): Record<Index, number> {
  const held: Record<Index, number> = { cp: 0, cpk: 0, pp: 0, ppk: 0 };
  const all = normals(n * RUNS, seed);
  for (let run = 0; run < RUNS; run++) {
    const values = all.slice(run * n, (run + 1) * n);
    const groups = Array.from({ length: n / size }, (_, i) => values.slice(i * size, (i + 1) * size));
    const within = size === 1 ? withinIndividuals(values) : withinGroups(groups, estimator);
    const { intervals } = capabilityOf(values, within, LIMITS, true, undefined);
    for (const index of Object.keys(held) as Index[]) {
      const [low, high] = intervals[index]!;
      if (low <= TRUE[index] && TRUE[index] <= high) held[index] += 1 / RUNS;
    }
  }
  return held;
}

describe.each([
  [30, 1, 'range'],
  [50, 5, 'range'],
  [50, 5, 'sd'],
  [100, 1, 'range'],
  [120, 4, 'sd'],
] as const)('intervals of %i readings in groups of %i by %s, %#', (n, size, estimator) => {
  const seed = 1000 + n + size;
  const held = coverage(n, size, estimator, seed);
  it(`hold the true figure in 95 ± 1 % of runs, seed ${seed}`, () => {
    for (const index of ['pp', 'ppk'] as const) expect(Math.abs(held[index] - 0.95)).toBeLessThan(0.01);
    // Those within groups are reported: their freedom is that of their estimator.
    for (const index of ['cp', 'cpk'] as const)
      expect(Math.abs(held[index] - 0.95), `${index} ${held[index]}`).toBeLessThan(0.015);
  });
});

it('the exact interval of a proportion holds it at least as often as it says, for every count', () => {
  for (const n of [1, 5, 20, 60])
    for (let p = 0.01; p < 1; p += 0.01) {
      let held = 0;
      let weight = (1 - p) ** n;
      for (let count = 0; count <= n; count++) {
        const [low, high] = exactProportion(count, n);
        if (low <= p && p <= high) held += weight;
        weight *= ((n - count) / (count + 1)) * (p / (1 - p));
      }
      expect(held).toBeGreaterThanOrEqual(0.95 - 1e-9);
    }
  // 0 of 30: the rule of three, made exact: 1 − 0.025^(1/30).
  expect(exactProportion(0, 30)[1]).toBeCloseTo(1 - 0.025 ** (1 / 30), 9);
});

// NIST/SEMATECH e-Handbook 7.1.6 (attribution from memory): limits 8 and 20, mean 16, deviation 2.
it('the worked example: Cp 1.0 and Cpk 0.6667', () => {
  const values = [14, 18, 14, 18, 14, 18].map((value) => 16 + (value - 16) * Math.sqrt(5 / 6));
  const within = { sd: 2, estimator: 'sd', relativeVariance: 0.01 } as const;
  const { cp, cpk, pp, ppk } = capabilityOf(values, within, { low: 8, high: 20 }, true, undefined);
  expect([cp, cpk]).toEqual([1, expect.closeTo(2 / 3, 12)]);
  expect([pp, ppk]).toEqual([expect.closeTo(1, 12), expect.closeTo(2 / 3, 12)]);
});

it('degrees of freedom: 24 groups of five by deviation have nearly all of 96; by moving range about 0.61 of n − 1', () => {
  const groups = Array.from({ length: 24 }, () => [1, 2, 3, 4, 5]);
  const bySd = freedomOf(withinGroups(groups, 'sd').relativeVariance);
  expect(bySd).toBeGreaterThan(88);
  expect(bySd).toBeLessThan(96);
  expect(freedomOf(withinIndividuals(normals(100, 1)).relativeVariance) / 99).toBeCloseTo(0.61, 2);
});

describe('what is refused', () => {
  const good = normals(60, 5).map((z) => Number(z.toFixed(3)));
  const refusedOf = (
    values: readonly number[],
    limits: { readonly low?: number; readonly high?: number } = LIMITS,
    stable = true,
    resolution?: number,
  ) => capabilityOf(values, withinIndividuals(values), limits, stable, resolution).refused;

  it.each<[string | null, () => string | null]>([
    [null, () => refusedOf(good)],
    ['no-limits', () => refusedOf(good, {})],
    ['no-scatter', () => refusedOf(good.map(() => 1))],
    ['few-readings', () => refusedOf(good.slice(0, 29))],
    ['few-values', () => refusedOf(good.map((value) => Math.round(value / 2)))],
    ['coarse', () => refusedOf(good, LIMITS, true, 1.5)],
    ['unstable', () => refusedOf(good, LIMITS, false)],
    ['not-normal', () => refusedOf(good.map((value) => Math.exp(2 * value)))],
  ])('%s', (expected, refused) => {
    expect(refused()).toBe(expected);
  });

  it('a limit on one side has no Cp and no Pp', () => {
    const found = capabilityOf(good, withinIndividuals(good), { high: 4 }, true, undefined);
    expect([found.cp, found.pp, found.intervals.cp]).toEqual([null, null, undefined]);
    expect(found.cpk).toBeGreaterThan(0);
  });

  it('percentiles stand beside from 1,000 readings on', () => {
    const values = normals(5000, 9).map((z) => Math.exp(z / 4));
    const { percentiles } = capabilityOf(values, withinIndividuals(values), { high: 3 }, true, undefined);
    // Of a lognormal distribution with sigma 1/4: exp(±3/4) about a middle of 1.
    expect(percentiles!.p50).toBeCloseTo(1, 1);
    expect(Math.abs(percentiles!.p99865 / Math.exp(0.75) - 1)).toBeLessThan(0.08);
    expect(percentiles!.pp).toBeNull();
    expect(capabilityOf(good, withinIndividuals(good), LIMITS, true, undefined).percentiles).toBeNull();
  });
});

it('normal readings are taken for others at the rate that p says', () => {
  let below = 0;
  for (let run = 0; run < 4000; run++) if (normality(normals(40, 7000 + run)).p < 0.05) below += 1 / 4000;
  expect(Math.abs(below - 0.05)).toBeLessThan(0.015);
});
