import { describe, expect, it } from 'vitest';
import { lookForMisread, lookForSquareMisread, usualSlips } from '../../src/measure/misread.js';
import { solveSquare } from '../../src/measure/square.js';
import { type Instrument, SQUARE_KEYS, type SquareKey } from '../../src/measure/types.js';

const from100: Instrument = {
  id: 'T3',
  kind: 'tape',
  measures: ['length'],
  title: '',
  resolution: 0.5,
  class: 'II',
  offset: -100,
  hook: false,
};
const tape: Instrument = { ...from100, id: 'T1', offset: 0, resolution: 1 };
const fine: Instrument = { ...tape, resolution: 0.0001, repeatability: 0.29 };
const values = (...list: number[]) => list.map((value) => ({ value }));

describe('one length', () => {
  it('asks when a repeat differs by more than is usual', () => {
    expect(lookForMisread({ readings: values(1000, 1000.5) })).toBeUndefined();
    expect(lookForMisread({ readings: values(1000, 1001) })).toMatchObject({ id: 'measure.misread-repeat' });
    expect(lookForMisread({ readings: values(1000, 1001), instrument: tape })).toBeUndefined();
    expect(lookForMisread({ readings: values(1000, 1001), repeatWithin: 2 })).toBeUndefined();
  });
  it('asks when it lies far from what is expected, and points at usual slips', () => {
    expect(lookForMisread({ readings: values(1005), expect: 1000 })).toBeUndefined();
    expect(lookForMisread({ readings: values(1005), expect: 1000, plausible: 3 })?.id).toBe(
      'measure.misread-far',
    );
    expect(lookForMisread({ readings: values(1178), expect: 1187 })?.details.map(String)[0]).toBe(
      '1178: two digits swapped: 1187?',
    );
    expect(lookForMisread({ readings: values(1100), expect: 1000.5 })?.details.map(String)[0]).toContain(
      '100 mm start was not taken off',
    );
    expect(
      lookForMisread({ readings: values(900), expect: 1000, instrument: from100 })?.details.map(String)[0],
    ).toContain('held at its end, not at the 100 mm mark');
    expect(lookForMisread({ readings: values(1090), expect: 1060 })?.details.join(' ')).toContain(
      '6 and 9 mixed up: 1060',
    );
    expect(lookForMisread({ readings: values(1010), expect: 1000 })?.details.join(' ')).toContain(
      'a slip of 10 mm',
    );
  });
  it('has no window for forces unless one is given', () => {
    expect(lookForMisread({ readings: values(80), expect: 20, unit: 'N' })).toBeUndefined();
    expect(lookForMisread({ readings: values(80), expect: 20, unit: 'N', plausible: 30 })?.id).toBe(
      'measure.misread-far',
    );
  });
  it('claims no slip where none fits', () => {
    expect(usualSlips(1000, 33, 1).map(String)).toEqual([]);
    expect(usualSlips(1000, 1.2, 1).map(String)).toEqual(['a slip of 1 mm']);
    expect(usualSlips(1000, -50.5, 1).map(String)).toEqual(['a slip of 50 mm']);
    expect(usualSlips(1000, 100, 1).map(String)).toEqual(['a slip of 100 mm']);
  });
});

describe('a frame', () => {
  const square: Record<SquareKey, number> = {
    top: 1000,
    bottom: 1000,
    left: 700,
    right: 700,
    bl_tr: 1220.5,
    br_tl: 1220.5,
  };
  const ask = (set: Partial<Record<SquareKey, number>>, nominal?: { w: number; h: number }) => {
    const readings = Object.fromEntries(Object.entries(set).map(([key, value]) => [key, values(value)]));
    const numbers = Object.fromEntries(Object.entries(set).map(([key, value]) => [key, [value]]));
    return lookForSquareMisread({
      solution: solveSquare(numbers, { instrument: tape, ...(nominal ? { nominal } : {}) }),
      readings,
      instrument: fine,
      ...(nominal ? { nominal } : {}),
    });
  };
  it('says nothing when it closes', () => expect(ask(square, { w: 1000, h: 700 })).toBeUndefined());
  it('gives the change of each of the six that would close it, and never says which is wrong', () => {
    for (const key of SQUARE_KEYS) {
      const question = ask({ ...square, [key]: square[key] + 10 })!;
      expect(question.id).toBe('measure.misread-open');
      expect(question.details).toHaveLength(7);
      expect(String(question.details[SQUARE_KEYS.indexOf(key)])).toMatch(
        /: -(9|10|11)\.?\d* to .*a slip of 10 mm/,
      );
      expect(String(question.details.at(-1))).toBe('Which one is wrong cannot be told from the numbers.');
    }
  });
  it('adds what lies far from its nominal', () => {
    const question = ask({ ...square, left: 710 }, { w: 1000, h: 700 })!;
    expect(String(question.details.at(-1))).toMatch(/^left: 710 mm lies 10 mm from the expected 700/);
    const onlyFar = ask({ bl_tr: 1230, br_tl: 1210 }, { w: 1000, h: 700 })!;
    expect(String(onlyFar.text)).toMatch(/^bottom left to top right: 1230 mm lies/);
    expect(onlyFar.details.join(' ')).toContain('bottom right to top left: 1210 mm lies');
  });
  it('asks for a repeat first', () => {
    const readings = { bl_tr: values(1220, 1223), br_tl: values(1221) };
    const solution = solveSquare({ bl_tr: [1220, 1223], br_tl: [1221] });
    expect(lookForSquareMisread({ solution, readings })).toMatchObject({ id: 'measure.misread-repeat' });
  });
  it('from two sizes and two diagonals, asks for the other sides', () => {
    expect(String(ask({ bottom: 1000, left: 700, bl_tr: 1220.5, br_tl: 1230 })?.text)).toContain(
      'Read the other two sides',
    );
  });
  it('says when the lengths give no figure', () => {
    expect(ask({ top: 10, right: 10, bl_tr: 100, br_tl: 100 })).toMatchObject({
      id: 'measure.misread-impossible',
    });
    expect(ask({ ...square, bl_tr: 12205 })?.id).toMatch(/measure.misread-(open|impossible)/);
  });
});
