import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { autocorrelation, mean, meanMovingRange, sd, spread, sum } from '../../src/measure/stats.js';

const FOLDER = join(import.meta.dirname, '../data/nist');

function read(file: string): { data: number[]; certified: Record<'mean' | 'sd' | 'r', number> } {
  const text = readFileSync(join(FOLDER, file), 'utf8');
  const find = (pattern: RegExp) => Number(pattern.exec(text)![1]);
  const from = text.search(/^(# Data\s*\n#+|Data:\s+Y)/m);
  const data = text
    .slice(from)
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => /^-?\d+(\.\d+)?$/.test(line))
    .map(Number);
  return {
    data,
    certified: {
      mean: find(/^(?:Sample Mean\s+ybar:|mean\s+=)\s*(\S+)/m),
      sd: find(/^(?:Sample Standard Deviation.*s:|standardDeviation\s+=)\s*(\S+)/m),
      r: find(/^(?:Sample Autocorrelation.*r\(1\):|autocorrelationCoefficient\s+=)\s*(\S+)/m),
    },
  };
}

/** Digits that agree: the log relative error, as NIST's StRD defines it; 15 where nothing differs. */
const digits = (got: number, want: number) =>
  got === want ? 15 : Math.min(15, -Math.log10(Math.abs(got - want) / Math.abs(want)));

/**
 * Digits asked for. Certified values carry 15. Where fewer are asked, the data themselves cannot be held: 1000000.2 and
 * 10000000.2 are off by up to 6e-11 and 1e-9 in double precision, and their spread is 0.1.
 */
const ASKED: Record<string, { n: number; sd: number; r: number }> = {
  'Lew.txt': { n: 200, sd: 14.5, r: 14 },
  'Lottery.txt': { n: 218, sd: 14.5, r: 14 },
  'Mavro.txt': { n: 50, sd: 12.5, r: 12.5 },
  'NumAcc1.txt': { n: 3, sd: 15, r: 15 },
  'NumAcc2.txt': { n: 1001, sd: 14.5, r: 14 },
  'NumAcc3.txt': { n: 1001, sd: 9, r: 9 },
  'NumAcc4.txt': { n: 1001, sd: 8, r: 8 },
};

describe('NIST StRD, univariate', () => {
  it('has every file', () => {
    expect(
      readdirSync(FOLDER)
        .filter((file) => file.endsWith('.txt'))
        .sort(),
    ).toEqual(Object.keys(ASKED));
  });
  for (const [file, asked] of Object.entries(ASKED))
    it(file, () => {
      const { data, certified } = read(file);
      expect(data).toHaveLength(asked.n);
      expect(digits(mean(data), certified.mean)).toBeGreaterThanOrEqual(14.9);
      expect(digits(sd(data), certified.sd)).toBeGreaterThanOrEqual(asked.sd);
      expect(digits(autocorrelation(data), certified.r)).toBeGreaterThanOrEqual(asked.r);
    });
});

describe('means and spreads', () => {
  // NIST/SEMATECH e-Handbook 6.3.2.2, individuals chart; the standard deviation recomputed.
  const flow = [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1];
  it('gives the handbook mean and moving range', () => {
    expect(mean(flow)).toBeCloseTo(50.81, 10);
    expect(meanMovingRange(flow)).toBeCloseTo(1.8778, 4);
    expect(sd(flow)).toBeCloseTo(2.0339, 4);
  });
  it('says NaN where there is nothing to say', () => {
    expect(mean([])).toBeNaN();
    expect(sd([1])).toBeNaN();
    expect(autocorrelation([1])).toBeNaN();
    expect(spread([])).toBe(0);
  });
  it('keeps small terms beside large ones', () => {
    expect(sum([1e16, 1, -1e16, 1])).toBe(2);
  });
  it('a shift moves the mean and leaves the spread', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: -5000, max: 5000 }), { minLength: 2, maxLength: 30 }),
        fc.integer({ min: -1_000_000, max: 1_000_000 }),
        (values, shift) => {
          const moved = values.map((value) => value + shift);
          expect(mean(moved)).toBeCloseTo(mean(values) + shift, 6);
          expect(sd(moved)).toBeCloseTo(sd(values), 6);
          expect(spread(moved)).toBe(spread(values));
        },
      ),
      { seed: 41, numRuns: 300 },
    );
  });
});
