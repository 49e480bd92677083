/** Charts against published tables and worked examples, and against run lengths found by Markov chains. */
import { describe, expect, it } from 'vitest';
import { countChart, groupCharts, individualsCharts, movingRanges } from '../../src/figures/charts.js';
import { c4, d2, d2Star, d3 } from '../../src/figures/factors.js';
import { RULES, type Rule, signalsOf } from '../../src/figures/rules.js';
import { mean } from '../../src/measure/stats.js';
import { normals } from './normals.js';

/**
 * Factors for n = 2 to 25 as ISO 7870-2 tabulates them: rounded to three figures after the point, c4 to four. For n up to 6 compared
 * with published tables; the rest from memory.
 */
const D2 = [
  1.128, 1.693, 2.059, 2.326, 2.534, 2.704, 2.847, 2.97, 3.078, 3.173, 3.258, 3.336, 3.407, 3.472, 3.532,
  3.588, 3.64, 3.689, 3.735, 3.778, 3.819, 3.858, 3.895, 3.931,
];
const D3 = [
  0.853, 0.888, 0.88, 0.864, 0.848, 0.833, 0.82, 0.808, 0.797, 0.787, 0.778, 0.77, 0.763, 0.756, 0.75, 0.744,
  0.739, 0.734, 0.729, 0.724, 0.72, 0.716, 0.712, 0.708,
];
const C4 = [
  0.7979, 0.8862, 0.9213, 0.94, 0.9515, 0.9594, 0.965, 0.9693, 0.9727, 0.9754, 0.9776, 0.9794, 0.981, 0.9823,
  0.9835, 0.9845, 0.9854, 0.9862, 0.9869, 0.9876, 0.9882, 0.9887, 0.9892, 0.9896,
];

describe('factors', () => {
  it.each(D2.map((_, i) => i + 2))('of %i readings are those of the table', (n) => {
    expect(Math.abs(d2(n) - D2[n - 2]!)).toBeLessThanOrEqual(0.00051);
    expect(Math.abs(d3(n) - D3[n - 2]!)).toBeLessThanOrEqual(0.00061);
    expect(Math.abs(c4(n) - C4[n - 2]!)).toBeLessThanOrEqual(0.000051);
  });

  it('of two readings are what can be written down: 2/√π and √(2 − 4/π)', () => {
    expect(d2(2)).toBeCloseTo(2 / Math.sqrt(Math.PI), 9);
    expect(d3(2)).toBeCloseTo(Math.sqrt(2 - 4 / Math.PI), 9);
    expect(c4(2)).toBeCloseTo(Math.sqrt(2 / Math.PI), 12);
  });

  // K2 and K3 of the usual forms for gauge studies (1/1.9116 for three people, 1/3.1786 for ten parts): common practice.
  it('of one range give the usual factors of a gauge study', () => {
    expect(1 / d2Star(1, 3)).toBeCloseTo(0.5231, 4);
    expect(1 / d2Star(1, 10)).toBeCloseTo(0.3146, 4);
  });
});

// NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2: ten flow rates; limits 45.8159 and 55.8041 with d2 printed as 1.128.
const FLOW = [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1];

describe('the worked chart of the handbook', () => {
  const [individuals, ranges] = individualsCharts(FLOW, RULES).charts;

  it('has its limits to 0.05 % of their width', () => {
    const width = 55.8041 - 45.8159;
    expect(individuals.centre).toBeCloseTo(50.81, 10);
    expect(Math.abs((individuals.upper as number) - 55.8041)).toBeLessThan(0.0005 * width);
    expect(Math.abs((individuals.lower as number) - 45.8159)).toBeLessThan(0.0005 * width);
    expect(individuals.signals).toEqual([]);
  });

  it('gives the printed limits with the printed constant', () => {
    const half = (3 * mean(movingRanges(FLOW))) / 1.128;
    expect(50.81 + half).toBeCloseTo(55.8041, 3);
    expect(50.81 - half).toBeCloseTo(45.8159, 3);
    expect(ranges.centre).toBeCloseTo(1.8778, 4);
    // D4 of two readings is 3.267 and D3 is 0: published factor tables.
    expect((ranges.upper as number) / ranges.centre).toBeCloseTo(3.267, 2);
    expect(ranges.lower).toBe(0);
  });
});

it('of groups of five keeps to A2 0.577, D4 2.114, A3 1.427, B4 2.089 (published factor tables)', () => {
  const groups = Array.from({ length: 25 }, (_, i) => normals(5, 40 + i).map((z) => 10 + z));
  const [means, ranges] = groupCharts(groups, 'range', ['R1']).charts;
  const range = ranges.centre;
  expect(((means.upper as number) - means.centre) / range).toBeCloseTo(0.577, 3);
  expect((ranges.upper as number) / range).toBeCloseTo(2.114, 3);
  const [byDeviation, deviations] = groupCharts(groups, 'sd', ['R1']).charts;
  expect(((byDeviation.upper as number) - byDeviation.centre) / deviations.centre).toBeCloseTo(1.427, 3);
  expect((deviations.upper as number) / deviations.centre).toBeCloseTo(2.089, 3);
});

it('limits follow the size of each group, and stand once where all are as large', () => {
  const groups = [
    [1, 2, 3],
    [2, 3],
    [1, 3, 2],
    [2, 2.5, 3],
  ];
  const [means] = groupCharts(groups, 'range', ['R1']).charts;
  expect(Array.isArray(means.upper) && means.upper.length).toBe(4);
  expect((means.upper as number[])[1]).toBeGreaterThan((means.upper as number[])[0]!);
  expect(
    typeof groupCharts(
      [
        [1, 2],
        [2, 3],
      ],
      'sd',
      ['R1'],
    ).charts[0].upper,
  ).toBe('number');
});

it('a group of one reading has no range, and ranges of other sizes another centre', () => {
  const [means, ranges] = groupCharts([[2], [3], [4, 5], [4, 6, 7]], 'range', ['R1']).charts;
  expect(means.points).toHaveLength(4);
  expect(ranges.points).toEqual([1, 3]);
  expect(ranges.places).toEqual([3, 4]);
  const sigma = (1 / d2(2) + 3 / d2(3)) / 2;
  expect(ranges.centres).toEqual([expect.closeTo(sigma * d2(2), 9), expect.closeTo(sigma * d2(3), 9)]);
});

it('a chart of shares has the limits of the binomial distribution, Laney widens them where groups differ more', () => {
  const even = [4, 6, 5, 5, 4, 6, 5, 5].map((failed) => ({ failed, of: 100 }));
  const { chart } = countChart('p', even, ['R1']);
  expect(chart.centre).toBe(0.05);
  expect(chart.upper).toBeCloseTo(0.05 + 3 * Math.sqrt((0.05 * 0.95) / 100), 12);
  expect(chart.lower).toBe(0);
  const uneven = [4, 30, 5, 40, 4, 26, 5, 45].map((failed) => ({ failed, of: 1000 }));
  const laney = countChart('laney', uneven, ['R1']);
  expect(laney.sigmaZ).toBeGreaterThan(2);
  expect(countChart('p', uneven, ['R1']).chart.signals.length).toBeGreaterThan(laney.chart.signals.length);
});

describe('rules', () => {
  it.each<[Rule, readonly number[], readonly number[]]>([
    ['R1', [0, 3.01, -3.01, 3], [2, 3]],
    ['R2', [2.1, 0, 2.1, -2.1, -2.1, 1], [3, 5]],
    ['R3', [1.1, 1.2, 0.5, 1.3, 1.4, 1.1], [5, 6]],
    ['R4', [0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1, -0.1], [8, 9]],
    ['R4', [0.1, 0.1, 0.1, 0.1, 0, 0.1, 0.1, 0.1, 0.1], []],
  ])('%s of %j signals at %j', (rule, offsets, at) => {
    expect(signalsOf(offsets, [rule])).toEqual(at.map((each) => ({ at: each, rule })));
  });
});

it('a pattern does not reach back over the point where limits begin to judge', () => {
  const offsets = [0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1];
  expect(signalsOf(offsets, ['R4']).map(({ at }) => at)).toEqual([8, 9, 10]);
  expect(signalsOf(offsets, ['R4'], 3).map(({ at }) => at)).toEqual([10]);
  expect(signalsOf(offsets, ['R4'], 4).map(({ at }) => at)).toEqual([]);
  expect(signalsOf(offsets, ['R4'], 9).map(({ at }) => at)).toEqual([8]);
});

/**
 * Mean run lengths with known centre and deviation, independent normal means and a zero start, in control and after a step of 1σ. They
 * were derived by Markov chains.
 */
const RUN_LENGTHS: readonly (readonly [readonly Rule[], number, number])[] = [
  [['R1'], 370.4, 43.89],
  [['R1', 'R2'], 225.44, 20.01],
  [['R1', 'R3'], 166.05, 12.66],
  [['R1', 'R4'], 152.73, 14.58],
  [RULES, 91.75, 9.22],
];
const RUNS = 10_000;

describe('run lengths over 10,000 runs', () => {
  for (const [k, [rules, control, shifted]] of RUN_LENGTHS.entries())
    it.each([
      ['in control', 0, control],
      ['after a step of one sigma', 1, shifted],
    ])(`${rules.join(', ')} %s, seed ${100 + k}`, (_, step, expected) => {
      const lengths = runLengths(rules, step, 100 + k);
      expect(Math.abs(mean(lengths) / expected - 1)).toBeLessThan(0.05);
    });

  it.each([
    ['R1', ['R1'] as const, 31],
    ['all', RULES, 8],
  ])('the median after a step of one sigma with %s', (_, rules, expected) => {
    const sorted = runLengths(rules, 1, 300).sort((a, b) => a - b);
    expect(Math.abs(sorted[RUNS / 2]! - expected)).toBeLessThanOrEqual(1);
  });
});

function runLengths(rules: readonly Rule[], step: number, seed: number): number[] {
  const draws = normals(400_000, seed);
  let next = 0;
  let again = seed;
  const draw = () => {
    if (next === draws.length) {
      again += 1_000;
      draws.splice(0, draws.length, ...[]);
      for (const z of normals(400_000, again)) draws.push(z);
      next = 0;
    }
    return draws[next++]! + step;
  };
  return Array.from({ length: RUNS }, () => {
    // Patterns reach back eight points at most.
    let kept: number[] = [];
    let before = 0;
    for (;;) {
      const fresh = Array.from({ length: 24 }, draw);
      const window = [...kept, ...fresh];
      const found = signalsOf(window, rules).find(({ at }) => at > kept.length);
      if (found) return before + found.at - kept.length;
      before += fresh.length;
      kept = window.slice(-7);
    }
  });
}
