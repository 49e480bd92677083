/** Studies of measuring against published results. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { cohenKappa, fleissKappa, repeatedCohen } from '../../src/figures/agreement.js';
import { biasOf, linearityOf } from '../../src/figures/bias.js';
import { gaugeStudy } from '../../src/figures/gauge.js';
import { agreementOf, crossedOf } from '../../src/figures/study.js';
import { numberColumn, readTable, textColumn } from '../../src/figures/table.js';
import { normals } from './normals.js';

const DATA = join(import.meta.dirname, 'data');

// The crossed study of ten parts, three appraisers and three trials that AIAG, "Measurement Systems Analysis", works out; public
// copies of the data agree.
describe('the published gauge study', () => {
  const table = readTable(readFileSync(join(DATA, 'gauge-rr-10x3x3.csv'), 'utf8'), 'gauge.csv');
  if (!table.ok) throw new Error('the table cannot be read');
  const [parts, people, values] = [
    textColumn(table.value, 'part'),
    textColumn(table.value, 'appraiser'),
    numberColumn(table.value, 'reading'),
  ];
  if (!parts.ok || !people.ok || !values.ok) throw new Error('a column is missing');
  const crossed = crossedOf(
    values.value.map((value, i) => ({ part: parts.value[i]!, person: people.value[i]!, value })),
  );
  if (!crossed.ok) throw new Error('the study is not complete');
  const study = gaugeStudy(crossed.value);

  it('has the sums of squares', () => {
    const { part, person, interaction, repeatability } = study.anova;
    expect([part.ss, person.ss, interaction.ss, repeatability.ss].map((ss) => ss.toFixed(4))).toEqual([
      '88.3619',
      '3.1673',
      '0.3590',
      '2.7589',
    ]);
    expect([part.df, person.df, interaction.df, repeatability.df]).toEqual([9, 2, 18, 60]);
  });

  it('has the interaction, which is pooled', () => {
    expect(study.interaction.F).toBeCloseTo(0.4337, 4);
    expect(study.interaction.p).toBeCloseTo(0.9741, 4);
    expect(study.used).toBe('pooled');
  });

  it('has the components, pooled and not', () => {
    const { pooled, unpooled } = study;
    expect(pooled.repeatability.sd).toBeCloseTo(0.199933, 5);
    expect(pooled.reproducibility.sd).toBeCloseTo(0.226838, 5);
    expect(pooled.grr.sd).toBeCloseTo(0.302373, 5);
    expect(pooled.part.sd).toBeCloseTo(1.042327, 5);
    expect(pooled.grr.studyVariation).toBeCloseTo(27.86, 2);
    expect(pooled.grr.contribution).toBeCloseTo(7.76, 2);
    expect(pooled.ndc).toEqual({ value: expect.closeTo(4.86, 2), truncated: 4 });
    expect(unpooled.grr.studyVariation).toBeCloseTo(28.75, 2);
    expect(unpooled.ndc.value).toBeCloseTo(4.7, 2);
  });

  // The same source by ranges: EV 0.20188, AV 0.22963, GRR 0.30575, 26.68 % of total variation (from memory).
  it('has the result by ranges', () => {
    expect(study.byRanges.grr.sd).toBeCloseTo(0.3058, 3);
    expect(study.byRanges.grr.studyVariation).toBeCloseTo(26.68, 1);
  });
});

it('components come back that were put in, and an interaction is not pooled away', () => {
  const [parts, people, trials] = [40, 6, 4];
  const part = normals(parts, 1).map((z) => 2 * z);
  const person = normals(people, 2).map((z) => 0.5 * z);
  const both = normals(parts * people, 3).map((z) => 0.7 * z);
  const noise = normals(parts * people * trials, 4).map((z) => 0.3 * z);
  const study = gaugeStudy(
    part.map((p, i) =>
      person.map((q, k) =>
        Array.from(
          { length: trials },
          (_, t) => p + q + both[i * people + k]! + noise[(i * people + k) * trials + t]!,
        ),
      ),
    ),
  );
  expect(study.used).toBe('unpooled');
  expect(study.unpooled.repeatability.sd).toBeCloseTo(0.3, 1);
  expect(Math.abs(study.unpooled.part.sd / 2 - 1)).toBeLessThan(0.3);
});

// Fleiss' worked example as it is commonly reprinted: 14 raters, 10 subjects, 5 categories; kappa 0.210.
it("Fleiss' worked example", () => {
  const counts = [
    [0, 0, 0, 0, 14],
    [0, 2, 6, 4, 2],
    [0, 0, 3, 5, 6],
    [0, 3, 9, 2, 0],
    [2, 2, 8, 1, 1],
    [7, 7, 0, 0, 0],
    [3, 2, 6, 3, 0],
    [2, 5, 3, 2, 2],
    [6, 5, 2, 1, 0],
    [0, 2, 2, 3, 7],
  ];
  const found = fleissKappa(counts);
  expect(found.kappa).toBeCloseTo(0.21, 3);
  expect(found.agreement).toBeCloseTo(0.378, 3);
});

// 50 applications judged by two: 20 yes-yes, 5 yes-no, 10 no-yes, 15 no-no; kappa 0.4 (commonly reprinted, from memory).
it("Cohen's kappa of the common example", () => {
  const pairs = (n: number, a: string, b: string) => Array.from({ length: n }, () => [a, b] as const);
  const found = cohenKappa([
    ...pairs(20, 'y', 'y'),
    ...pairs(5, 'y', 'n'),
    ...pairs(10, 'n', 'y'),
    ...pairs(15, 'n', 'n'),
  ]);
  expect(found.kappa).toBeCloseTo(0.4, 12);
  expect(found.agreement).toBeCloseTo(0.7, 12);
});

it('kappa is 1 for full agreement and about 0 for chance', () => {
  const same = Array.from({ length: 20 }, (_, i) => (i % 3 === 0 ? 'no' : 'yes'));
  expect(cohenKappa(same.map((value) => [value, value] as const)).kappa).toBe(1);
  const [a, b] = [normals(4000, 11), normals(4000, 12)];
  const chance = a.map((z, i) => [z > 0 ? 'y' : 'n', b[i]! > 0 ? 'y' : 'n'] as const);
  expect(Math.abs(cohenKappa(chance).kappa!)).toBeLessThan(0.05);
});

it("intervals of kappa hold the true one in about 95 % of samples: Cohen's and Fleiss', seeds from 500", () => {
  // Two judges who agree with what is right in 85 of 100 cases each: agreement 0.745 where half are right, kappa 0.49.
  let [cohen, fleiss] = [0, 0];
  const [RUNS, PIECES] = [400, 120];
  for (let run = 0; run < RUNS; run++) {
    const z = normals(PIECES * 3, 500 + run);
    const pairs = Array.from({ length: PIECES }, (_, i) => {
      const right = z[i]! > 0;
      const judge = (k: number) => ((z[PIECES * k + i]! < 1.0364 ? right : !right) ? 'y' : 'n');
      return [judge(1), judge(2)] as const;
    });
    const holds = ([low, high]: readonly [number, number]) => low <= 0.49 && 0.49 <= high;
    if (holds(cohenKappa(pairs).interval!)) cohen += 1 / RUNS;
    const counts = pairs.map((pair) => ['y', 'n'].map((kind) => pair.filter((each) => each === kind).length));
    if (holds(fleissKappa(counts).interval!)) fleiss += 1 / RUNS;
  }
  expect(Math.abs(cohen - 0.95)).toBeLessThan(0.035);
  expect(Math.abs(fleiss - 0.95)).toBeLessThan(0.035);
});

it('says nothing where all were judged alike, and does not take repeats for more pieces', () => {
  expect(
    cohenKappa([
      ['go', 'go'],
      ['go', 'go'],
    ]),
  ).toEqual({ kappa: null, interval: null, agreement: 1 });
  const pieces = normals(40, 31).map((z) => [[z > 0 ? 'y' : 'n', z > -0.5 ? 'y' : 'n'] as const]);
  const once = repeatedCohen(pieces).interval!;
  const twice = repeatedCohen(pieces.map((piece) => [...piece, ...piece])).interval!;
  expect(twice[1] - twice[0]).toBeCloseTo(once[1] - once[0], 9);
  const asIfIndependent = cohenKappa(pieces.flatMap((piece) => [...piece, ...piece])).interval!;
  expect(asIfIndependent[1] - asIfIndependent[0]).toBeLessThan(0.85 * (twice[1] - twice[0]));
});

it('agreement knows people, what is right and themselves; a piece judged less often is refused', () => {
  const rows = ['A', 'B'].flatMap((person) =>
    ['1', '2', '3', '4'].flatMap((part) =>
      [1, 2].map((trial) => ({
        person,
        part,
        value: part === '4' && person === 'B' && trial === 2 ? 'no' : 'go',
      })),
    ),
  );
  const right = new Map([
    ['1', 'go'],
    ['2', 'go'],
    ['3', 'go'],
    ['4', 'no'],
  ]);
  const found = agreementOf(rows, right, 'right');
  expect(found).toMatchObject({
    ok: true,
    value: {
      themselves: [
        { person: 'A', agree: 4, of: 4 },
        { person: 'B', agree: 3, of: 4 },
      ],
    },
  });
  expect(found.ok && found.value.pairs.map(({ first, second }) => `${first} ${second}`)).toEqual([
    'A B',
    'A right',
    'B right',
  ]);
  expect(agreementOf(rows.slice(1), right, 'right')).toMatchObject({
    ok: false,
    problems: [{ id: 'figures.study' }],
  });
});

it('bias is found with its interval, and a slope with its', () => {
  const values = normals(25, 21).map((z) => 1000.2 + 0.1 * z);
  const bias = biasOf(values, 1000);
  expect(bias.interval[0]).toBeLessThan(0.2);
  expect(bias.interval[1]).toBeGreaterThan(0.2);
  expect(bias.p).toBeLessThan(1e-6);
  // Student's t of 24 degrees of freedom at 95 %: 2.064 (published tables).
  expect((bias.interval[1] - bias.bias) / (bias.sd / 5)).toBeCloseTo(2.064, 3);
  const readings = [200, 600, 1000].flatMap((reference) =>
    normals(10, reference).map((z) => ({ reference, value: reference * 1.001 + 0.05 * z })),
  );
  const line = linearityOf(readings);
  expect(line.slope).toBeCloseTo(0.001, 3);
  expect(line.p).toBeLessThan(1e-6);
  expect(line.at.map(({ reference }) => reference)).toEqual([200, 600, 1000]);
});
