import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Instrument } from '../../src/measure/types.js';
import { lengthText, parseReading, readingOf } from '../../src/measure/units.js';

const mm = (raw: string) => {
  const got = parseReading(raw, { unit: 'mm' });
  return got.ok ? got.value : got.problem.id;
};
const inch = (raw: string) => {
  const got = parseReading(raw, { unit: 'inch' });
  return got.ok ? got.value : got.problem.id;
};

describe('readings in mm', () => {
  it.each([
    ['1221.5', 1221.5],
    ['1221,5', 1221.5],
    ['1221', 1221],
    [' 1221 mm\r', 1221],
    ['+  12.34 mm\r\n', 12.34],
    ['-0.30MM', -0.3],
    ['0012.34', 12.34],
    ['1221.5000', 1221.5],
    ['0.125', 0.125],
    ['1221.125', 1221.125],
    ['.5', 0.5],
    [',5', 0.5],
    ['-0', 0],
  ])('%j is %d', (raw, value) => expect(mm(raw)).toBe(value));

  it.each([
    ['1,221', 'measure.reading-ambiguous'],
    ['1.221', 'measure.reading-ambiguous'],
    ['1.221,5', 'measure.reading-ambiguous'],
    ['1,221.5', 'measure.reading-ambiguous'],
    ['1.221.500', 'measure.reading-ambiguous'],
    ['1 221', 'measure.reading-ambiguous'],
    ["1'221.5", 'measure.reading-ambiguous'],
    ['12.345mm', 'measure.reading-ambiguous'],
    ['', 'measure.reading-empty'],
    [' \r', 'measure.reading-empty'],
    ['1221.', 'measure.reading-unclear'],
    ['12 34', 'measure.reading-unclear'],
    ['1221.51221.5', 'measure.reading-unclear'],
    ['1e3', 'measure.reading-unclear'],
    ['0x10', 'measure.reading-unclear'],
    ['Infinity', 'measure.reading-unclear'],
    ['--5', 'measure.reading-unclear'],
    ['1221.5 1220.5', 'measure.reading-unclear'],
    ['１２２１', 'measure.reading-unclear'],
    ['1221\u001b[A', 'measure.reading-unclear'],
    ['T1', 'measure.reading-unclear'],
    ['48.09in', 'measure.reading-unit'],
    ['48"', 'measure.reading-unit'],
    ['12 N', 'measure.reading-unit'],
    ['48 1/4', 'measure.reading-fraction'],
    ['9999999', 'measure.reading-range'],
    ['1'.repeat(60), 'measure.reading-unclear'],
  ])('%j is asked about: %s', (raw, id) => expect(mm(raw)).toBe(id));

  it('takes three decimals from an instrument that always types them', () => {
    const micrometer: Instrument = {
      id: 'M',
      kind: 'calliper',
      measures: ['length'],
      title: '',
      resolution: 0.001,
      maxError: 0.002,
      offset: 0,
      hook: false,
    };
    const got = readingOf('12.345', { unit: 'mm', instrument: micrometer });
    expect(got).toMatchObject({ ok: true, reading: { value: 12.345, instrument: 'M' } });
  });

  it('never takes a string to be two different numbers: point and comma read alike', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 9999 }), fc.integer({ min: 0, max: 99 }), (whole, part) => {
        const text = `${whole}.${String(part).padStart(2, '0')}`;
        expect(mm(text)).toBeCloseTo(whole + part / 100, 9);
        expect(mm(text.replace('.', ','))).toBe(mm(text));
      }),
      { seed: 42, numRuns: 500 },
    );
  });

  it('is total on any string, and what it reads is finite', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 30 }), (raw) => {
        const got = parseReading(raw, { unit: 'mm' });
        expect(got.ok ? Number.isFinite(got.value) : got.problem.todo !== '').toBe(true);
      }),
      { seed: 43, numRuns: 2000 },
    );
    fc.assert(
      fc.property(fc.stringMatching(/^[-+0-9., /'"mMiInN]{0,14}$/), (raw) => {
        const got = parseReading(raw, { unit: 'inch' });
        expect(got.ok ? Number.isFinite(got.value) : got.problem.text !== '').toBe(true);
      }),
      { seed: 44, numRuns: 2000 },
    );
  });
});

describe('readings in inches', () => {
  it.each([
    ['48', 1219.2],
    ['48.25', 1225.55],
    ['48 1/4', 1225.55],
    ['48-1/4"', 1225.55],
    ['3/16', 4.7625],
    ['48 3/64 in', 48.046875 * 25.4],
    ['1221.5 mm', 1221.5],
  ])('%j is %d mm', (raw, value) => expect(inch(raw)).toBeCloseTo(value, 9));
  it.each([
    ['48 1/3', 'measure.reading-fraction'],
    ['48 5/4', 'measure.reading-fraction'],
    ['48 0/4', 'measure.reading-fraction'],
    ['1/4 48', 'measure.reading-fraction'],
    [`4' 1/4"`, 'measure.reading-fraction'],
    ['1,221', 'measure.reading-ambiguous'],
  ])('%j is asked about: %s', (raw, id) => expect(inch(raw)).toBe(id));
  it('shows a length as a fraction that reads back to within half of 1/64', () => {
    expect(lengthText(1225.55, 'inch')).toBe('48 1/4"');
    expect(lengthText(-4.7625, 'inch')).toBe('-3/16"');
    expect(lengthText(25.4, 'inch')).toBe('1"');
    fc.assert(
      fc.property(fc.double({ min: 1, max: 3000, noNaN: true }), (value) => {
        expect(Math.abs((inch(lengthText(value, 'inch')) as number) - value)).toBeLessThanOrEqual(
          25.4 / 128 + 1e-9,
        );
      }),
      { seed: 45, numRuns: 300 },
    );
  });
});

describe('readings with an instrument', () => {
  const from100: Instrument = {
    id: 'T3',
    kind: 'tape',
    measures: ['length'],
    title: 'tape',
    resolution: 0.5,
    class: 'II',
    offset: -100,
    hook: false,
  };
  it('adds the offset and keeps what was typed', () => {
    expect(readingOf('1321,5\r', { unit: 'mm', instrument: from100, confirmed: true })).toEqual({
      ok: true,
      reading: { raw: '1321,5\r', value: 1221.5, instrument: 'T3', confirmed: true },
    });
  });
  it('leaves no floating-point dust', () => {
    const worn = { ...from100, offset: 0.1 };
    expect(readingOf('0.2', { unit: 'mm', instrument: worn })).toMatchObject({ reading: { value: 0.3 } });
  });
});
