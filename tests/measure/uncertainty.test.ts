import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assess, conformance, decisionText } from '../../src/measure/decision.js';
import { coverageFactor } from '../../src/measure/stats.js';
import type { Instrument } from '../../src/measure/types.js';
import {
  combine,
  differenceUncertainty,
  effectiveDof,
  instrumentError,
  readingPart,
  readingUncertainty,
  tapeError,
  temperatureCorrection,
} from '../../src/measure/uncertainty.js';

const tape: Instrument = {
  id: 'T',
  kind: 'tape',
  measures: ['length'],
  title: 'tape',
  resolution: 1,
  class: 'II',
  offset: 0,
  hook: false,
};

describe('tapes, Directive 2014/32/EU annex X (MI-008)', () => {
  it.each([
    [450, 0.2, 0.5, 1.0],
    [1200, 0.3, 0.7, 1.4],
    [2000, 0.3, 0.7, 1.4],
    [2300, 0.4, 0.9, 1.8],
  ])('%d mm: %d, %d, %d', (length, one, two, three) => {
    expect(tapeError('I', length)).toBeCloseTo(one, 12);
    expect(tapeError('II', length)).toBeCloseTo(two, 12);
    expect(tapeError('III', length)).toBeCloseTo(three, 12);
  });
  it('adds c for a hook or butt end', () => {
    expect(tapeError('I', 450, true)).toBeCloseTo(0.3, 12);
    expect(tapeError('II', 450, true)).toBeCloseTo(0.7, 12);
    expect(tapeError('III', 450, true)).toBeCloseTo(1.3, 12);
  });
});

describe('JCGM 100', () => {
  it('one length: 0.289 from reading, 0.404 from the tape, together 0.497 (derived)', () => {
    const found = readingUncertainty(tape, 2000);
    expect(found.components.map((part) => part.u)).toEqual([
      expect.closeTo(0.2887, 4),
      expect.closeTo(0.4041, 4),
    ]);
    expect(found.u).toBeCloseTo(0.497, 3);
    expect(found.U).toBeCloseTo(0.99, 2);
  });
  it('a difference read with one tape keeps the tape out: 0.408, U 0.82 (derived)', () => {
    const found = differenceUncertainty({ instrument: tape, value: 1922 }, { instrument: tape, value: 1919 });
    expect(found.u).toBeCloseTo(0.408, 3);
    expect(found.U).toBeCloseTo(0.82, 2);
    const two = differenceUncertainty(
      { instrument: tape, value: 1922 },
      { instrument: { ...tape, id: 'B' }, value: 1919 },
    );
    expect(two.u).toBeCloseTo(Math.hypot(0.408, 0.404, 0.404), 2);
  });
  it('end gauge, H.1: effective degrees of freedom 16.7, truncated to 16, k(95 %) = 2.12', () => {
    // Standard uncertainties in nm with their degrees of freedom, as the example lists them.
    const parts = [
      { u: 25, dof: 18 },
      { u: 9.7, dof: 25.6 },
      { u: 2.9, dof: 50 },
      { u: 16.6, dof: 2 },
    ];
    const u = Math.hypot(...parts.map((part) => part.u));
    expect(effectiveDof(u, parts)).toBeGreaterThan(16.6);
    expect(effectiveDof(u, parts)).toBeLessThan(16.9);
    expect(coverageFactor(effectiveDof(u, parts), 0.95)).toBeCloseTo(2.12, 2);
    expect(
      combine(
        parts.map((part) => ({ ...part, from: 'reading' as const })),
        0.95,
      ).k,
    ).toBeCloseTo(2.12, 2);
  });
  it('coverage: k = 2 for many degrees of freedom, 13.97 for one at 95.45 % (JCGM 100, table G.2)', () => {
    expect(coverageFactor(Number.POSITIVE_INFINITY)).toBe(2);
    expect(coverageFactor(Number.POSITIVE_INFINITY, 0.95)).toBeCloseTo(1.96, 3);
    expect(coverageFactor(1)).toBeCloseTo(13.97, 2);
    expect(coverageFactor(10)).toBeCloseTo(2.28, 2);
    expect(coverageFactor(0.4)).toBeCloseTo(13.97, 2);
  });
  it('repeats: their scatter counts, and rounding does not average out while they agree', () => {
    expect(readingPart(tape, [1000]).u).toBeCloseTo(0.2887, 4);
    expect(readingPart(tape, [1000, 1000, 1000]).u).toBeCloseTo(0.2887, 4);
    const scattered = readingPart(tape, [1000, 1001, 999, 1000]);
    expect(scattered).toMatchObject({ dof: 3 });
    expect(scattered.u).toBeCloseTo(Math.sqrt(2 / 3) / 2, 9);
    const noisy = { ...tape, repeatability: 1 };
    expect(readingPart(noisy, [1000, 1001]).u).toBeCloseTo(Math.hypot(1, 0.2887) / Math.SQRT2, 3);
    expect(readingPart(noisy, [1000, 1000]).u).toBeCloseTo(Math.hypot(0.2887, 1 / Math.SQRT2), 3);
  });
  it('few repeats widen the coverage factor', () => {
    const rule: Instrument = { ...tape, maxError: 0, resolution: 0.01 };
    delete (rule as { class?: string }).class;
    expect(instrumentError(rule, 1000)).toBe(0);
    expect(readingUncertainty(rule, 10, [10, 10.5, 9.5]).k).toBeGreaterThan(4);
    expect(instrumentError({ ...rule, maxError: 0.2 }, 1000)).toBe(0.2);
    delete (rule as { maxError?: number }).maxError;
    expect(instrumentError(rule, 1000)).toBe(0);
  });
  it('temperature: a steel tape on aluminium, 10 K off 20 degrees, 2 m: 0.23 mm (derived, coefficients from memory)', () => {
    expect(temperatureCorrection(2000, 30)).toBeCloseTo(-0.23, 2);
    expect(temperatureCorrection(2000, 20)).toBe(0);
    const found = readingUncertainty(tape, 2000, [], { celsius: 30, within: 5 });
    expect(found.u).toBeGreaterThan(readingUncertainty(tape, 2000).u);
  });
});

describe('decision rules', () => {
  const U = 0.82;
  const outcome = (value: number, factor: number) =>
    assess(value, U, { high: 4 }, { kind: 'guarded', factor });
  it('limit 4, U 0.82: pass to 3.18 (w = U) or 3.32 (w = 0.83 U), fail from 4.82 (derived)', () => {
    expect(outcome(3.18, 1)).toBe('pass');
    expect(outcome(3.19, 1)).toBe('not-proven');
    expect(outcome(3.31, 0.83)).toBe('pass');
    expect(outcome(3.33, 0.83)).toBe('not-proven');
    expect(outcome(4.82, 1)).toBe('not-proven');
    expect(outcome(4.83, 1)).toBe('fail');
  });
  it('with a 2 mm limit a millimetre tape leaves 0 and 1 as passes (derived)', () => {
    expect(
      [0, 1, 2, 3].map((value) => assess(value, U, { high: 2 }, { kind: 'guarded', factor: 1 })),
    ).toEqual(['pass', 'pass', 'not-proven', 'fail']);
  });
  it('simple acceptance takes the limit itself as holding, in spite of floating-point dust', () => {
    expect(assess(1200.2 - 1200, undefined, { low: -0.2, high: 0.2 }, { kind: 'simple' })).toBe('pass');
    expect(assess(0.21, 1, { low: -0.2, high: 0.2 }, { kind: 'simple' })).toBe('fail');
    expect(assess(5, undefined, { low: 5 }, { kind: 'simple' })).toBe('pass');
  });
  it('guarded without a known uncertainty proves nothing', () => {
    expect(assess(0, undefined, { high: 4 }, { kind: 'guarded', factor: 1 })).toBe('not-proven');
  });
  it('a wider guard never turns a fail or a doubt into a pass', () => {
    const order = ['pass', 'not-proven', 'fail'];
    fc.assert(
      fc.property(
        fc.double({ min: -6, max: 6, noNaN: true }),
        fc.double({ min: 0, max: 3, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (value, wide, part) => {
          const band = { low: -4, high: 4 };
          const narrow = assess(value, wide * part, band, { kind: 'guarded', factor: 1 });
          const wider = assess(value, wide, band, { kind: 'guarded', factor: 1 });
          if (wider !== 'not-proven') expect(narrow).toBe(wider);
          expect(order).toContain(narrow);
        },
      ),
      { seed: 47, numRuns: 1000 },
    );
  });
  it('conformance probability, JCGM 106: 0.9192 (from memory, recomputed)', () => {
    expect(conformance(-5.47, 0.05, { high: -5.4 })).toBeCloseTo(0.9192, 4);
    expect(conformance(0, 1, { low: -1, high: 1 })).toBeCloseTo(0.6827, 4);
  });
  it('names the rule', () => {
    expect(decisionText({ kind: 'guarded', factor: 0.83 }, 0.82, 'mm')).toContain(
      'w = 0.83 U = 0.68 mm (ISO 14253-1)',
    );
    expect(decisionText({ kind: 'guarded', factor: 1 }, 0.82, 'mm')).toContain('(ILAC-G8)');
    expect(decisionText({ kind: 'guarded', factor: 0.5 }, undefined, 'mm')).toBe(
      'Decision rule: guarded, w = 0.5 U.',
    );
    expect(decisionText({ kind: 'simple' }, 0.82, 'mm')).toContain('simple acceptance');
  });
});
