/** Steps, ranges, resolutions, and what an instrument can support. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { squareAdvice } from '../../src/measure/advice.js';
import { foreseenU, measuresIt, supportedBy, wouldDo } from '../../src/measure/fitness.js';
import { parseInstruments } from '../../src/measure/instruments.js';
import { judgePoints } from '../../src/measure/judgepoints.js';
import { parseLimits } from '../../src/measure/limits.js';
import { lookForMisread } from '../../src/measure/misread.js';
import { solveSquare } from '../../src/measure/square.js';
import { outcomeBetween } from '../../src/measure/steps.js';
import { readingOf } from '../../src/measure/units.js';
import { judgeNumber } from '../../src/measure/verdict.js';

const text = (name: string) => readFileSync(join(import.meta.dirname, '../../shared', name), 'utf8');
const read = parseInstruments({ file: 'i', text: text('instruments.yaml') });
const limits = parseLimits({ file: 'l', text: text('limits.yaml') });
if (!read.ok || !limits.ok) throw new Error('the demonstration files do not parse');
const file = limits.value;
const tool = (id: string) => read.value.find((each) => each.id === id)!;
const LENGTH = { quantity: 'length', unit: 'mm', kinds: [] } as const;
const GAP = { quantity: 'gap', unit: 'mm', kinds: [] } as const;

describe('by steps', () => {
  // The rule of the trade: "0.20 does not enter" (common practice). E enters, the next step N does not.
  it.each([
    ['at most L, N below', { low: 0.1, high: 0.15 }, { high: 0.2 }, 'pass'],
    ['at most L, N is L', { low: 0.15, high: 0.2 }, { high: 0.2 }, 'pass'],
    ['at most L, E is L', { low: 0.2, high: 0.25 }, { high: 0.2 }, 'not-proven'],
    ['at most L, E above', { low: 0.25, high: 0.3 }, { high: 0.2 }, 'fail'],
    ['at most L, none enters', { low: 0, high: 0.05 }, { high: 0.2 }, 'pass'],
    ['at most L, no step above', { low: 0.1, high: Infinity }, { high: 0.2 }, 'not-proven'],
    ['at least L, E is L', { low: 3, high: 3.5 }, { low: 3 }, 'pass'],
    ['at least L, N is L', { low: 2.5, high: 3 }, { low: 3 }, 'fail'],
    ['at least L, between', { low: 2.5, high: 3.5 }, { low: 3 }, 'not-proven'],
  ] as const)('%s', (_, between, band, outcome) => {
    expect(outcomeBetween(between, band)).toBe(outcome);
  });

  it('a feeler reading says which step enters and which does not', () => {
    const verdict = judgeNumber(
      {
        value: 0.15,
        against: 'value',
        limits: ['mitre.gap.house'],
        rule: { kind: 'simple' },
        instrument: tool('F1'),
      },
      file,
    );
    expect(verdict).toMatchObject({ outcome: 'pass' });
    expect(verdict.notes).toContain('Decision rule: by steps; 0.15 mm enters, 0.2 mm does not.');
  });

  it('takes no figure between two steps', () => {
    expect(readingOf('0.17', { unit: 'mm', instrument: tool('F1') })).toMatchObject({
      problem: { id: 'measure.reading-step', text: '0.17 is no step of F1: there are 0.15 mm and 0.2 mm.' },
    });
    expect(readingOf('0', { unit: 'mm', instrument: tool('F1') })).toMatchObject({ ok: true });
  });
});

describe('a reading', () => {
  it('outside what the instrument shows is refused', () => {
    expect(readingOf('5200', { unit: 'mm', instrument: tool('T1') })).toMatchObject({
      problem: { id: 'measure.reading-outside', text: 'T1 reads from 0 mm to 5000 mm; 5200 was typed.' },
    });
  });
  it('finer than the instrument reads is asked about', () => {
    const ask = (value: number, id: string) =>
      lookForMisread({ readings: [{ value }], instrument: tool(id) });
    expect(ask(471.34, 'T1')).toMatchObject({ id: 'measure.misread-finer' });
    expect(ask(471.5, 'T2')).toBeUndefined();
    expect(ask(471.3, 'R2')).toBeUndefined();
  });
});

describe('an instrument', () => {
  it('is matched by what it measures, not by its kind', () => {
    expect(measuresIt(tool('G1'), { quantity: 'temperature', unit: 'C', kinds: ['gauge'] })).toBe(false);
    expect(measuresIt(tool('H1'), { quantity: 'temperature', unit: 'C', kinds: ['gauge'] })).toBe(true);
    expect(measuresIt(tool('H1'), GAP)).toBe(false);
    expect(measuresIt(tool('R2'), LENGTH)).toBe(true);
    expect(wouldDo(read.value, LENGTH, '2026-11-30', 4200).map(({ id }) => id)).toEqual(['T1', 'T3']);
  });

  it('of an older file measures what its kind and unit say', () => {
    const old = parseInstruments({
      file: 'i',
      text: 'format: pinchrod-instruments 1\ninstruments:\n  - {id: G, kind: gauge, title: g, unit: C, resolution: 1, maxError: 1}\n',
    });
    expect(old.ok && old.value[0]!.measures).toEqual(['temperature']);
  });

  it('supports a limit where its U is smaller than the zone (a millimetre tape and ± 0.5: it does not)', () => {
    // U of a class II tape read to the millimetre at 2 m is 0.99 (MI-008 and JCGM 100, worked in the reference values).
    const U = foreseenU({ ...tool('T1'), hook: false }, 2000, false);
    expect(U).toBeCloseTo(0.99, 2);
    expect(supportedBy(U, { low: -0.5, high: 0.5 }, { kind: 'simple' })).toBe(false);
    expect(
      supportedBy(foreseenU(tool('R2'), 2000, false), { low: -0.5, high: 0.5 }, { kind: 'simple' }),
    ).toBe(true);
  });

  it('too coarse for its limit is said with the pass, and which would do', () => {
    const verdict = judgeNumber(
      {
        value: 1000,
        expect: 1000,
        against: 'deviation',
        limits: ['cut.length'],
        rule: { kind: 'simple' },
        instrument: tool('T1'),
        instruments: read.value,
        wanted: LENGTH,
        now: '2026-11-30T08:00:00.000Z',
      },
      file,
    );
    expect(verdict.outcome).toBe('pass');
    expect(verdict.notes.join(' ')).toMatch(/as wide as the limit: this pass says little\. Take .*R2/);
  });
});

describe('several readings', () => {
  const judge = (
    readings: Record<string, number>,
    ids: string[],
    instrument = 'R2',
    pairs: [string, string][] = [],
  ) =>
    judgePoints(
      {
        points: Object.keys(readings).map((id) => ({ id, text: id, expect: 8 })),
        readings: Object.fromEntries(
          Object.entries(readings).map(([id, value]) => [id, [{ raw: String(value), value, instrument }]]),
        ),
        pairs,
        limits: ids,
        unit: 'mm',
        rule: { kind: 'simple' },
        instruments: read.value,
        now: '2026-11-30T08:00:00.000Z',
      },
      file,
    );

  it('are compared by the program: nobody subtracts', () => {
    // "Largest less smallest" once passed 0.9 after 8.0 and 8.0; now the readings themselves are judged.
    expect(judge({ a: 8, b: 8, c: 8.9 }, ['reveal', 'reveal.spread'])).toMatchObject({
      outcome: 'pass',
      value: 0.9,
    });
    expect(judge({ a: 7.4, b: 8.6 }, ['reveal', 'reveal.spread'])).toMatchObject({ outcome: 'fail' });
    expect(judge({ a: 7, b: 8.8 }, ['reveal.opposite'], 'R2', [['a', 'b']])).toMatchObject({
      outcome: 'fail',
    });
    expect(judge({ a: 8, b: 9 }, ['sash.brace'])).toMatchObject({ outcome: 'fail' });
    expect(judge({ a: 9, b: 8 }, ['sash.brace'])).toMatchObject({ outcome: 'pass' });
  });

  it('by steps lie between two figures, and so does their spread', () => {
    expect(judge({ a: 8, b: 8 }, ['reveal.spread'], 'G1').outcome).toBe('pass');
    expect(judge({ a: 8, b: 9 }, ['reveal.spread'], 'G1').outcome).toBe('not-proven');
    expect(judge({ a: 8, b: 10 }, ['reveal.spread'], 'G1').outcome).toBe('fail');
  });
});

it('squareness blames both members where both are off', () => {
  const readings = { top: [902], bottom: [898], left: [1200], right: [1200], bl_tr: [1500], br_tl: [1500] };
  const nominal = { w: 900, h: 1200 };
  const advice = squareAdvice(solveSquare(readings, { nominal }), { nominal }).join(' ');
  expect(advice).toContain('both are off their size, by 2 and 2 mm');
});
