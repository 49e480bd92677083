/** The demonstration workshop's limits and instruments, and what their readers refuse. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Problem, Result } from '../../src/base/problem.js';
import {
  findInstrument,
  instrumentText,
  isOverdue,
  overdueProblem,
  parseInstruments,
} from '../../src/measure/instruments.js';
import { bandFor, boundsText, parseLimits } from '../../src/measure/limits.js';

const shared = (name: string) => readFileSync(join(import.meta.dirname, '../../shared', name), 'utf8');
const problems = (result: Result<unknown>): readonly Problem[] => (result.ok ? [] : result.problems);
const limits = (body: string) =>
  parseLimits({ file: 'limits.yaml', text: `format: pinchrod-limits 1\nlimits:\n${body}` });
const source = 'source: {kind: published, text: "BS 4873:2009, 6.2"}';

describe('limits', () => {
  const parsed = parseLimits({ file: 'shared/limits.yaml', text: shared('limits.yaml') });
  it('of the demonstration workshop parse, each with a source', () => {
    expect(problems(parsed)).toEqual([]);
    if (!parsed.ok) return;
    expect(parsed.value.limits.length).toBeGreaterThan(50);
    for (const limit of parsed.value.limits) expect(limit.source.text.length, limit.id).toBeGreaterThan(2);
  });
  it('keep the published and the house limit of diagonals apart', () => {
    if (!parsed.ok) return expect.unreachable();
    const { byId } = parsed.value;
    // BS 4873:2009, 6.1-6.2.
    expect(byId.get('frame.diagonals.product')).toMatchObject({
      bands: [{ high: 4 }],
      source: { kind: 'published' },
    });
    expect(byId.get('frame.size')).toMatchObject({
      bands: [{ low: -1.5, high: 1.5 }],
      source: { kind: 'published' },
    });
    expect(byId.get('frame.diagonals.house')).toMatchObject({
      bands: [{ high: 2 }],
      source: { kind: 'house-rule' },
    });
  });
  it('without a source are refused, with the place', () => {
    const [problem] = problems(limits('  a.b:\n    title: A\n    of: value\n    most: 1\n'));
    expect(problem).toMatchObject({ id: 'measure.limit-no-source', place: { file: 'limits.yaml', line: 4 } });
  });
  it('with no value, two values or a crossed pair are refused', () => {
    for (const value of ['', 'most: 1, least: 0, ', 'between: [2, 1], '])
      expect(problems(limits(`  a: {title: A, of: value, ${value}${source}}`))[0]!.id).toBe(
        'measure.limit-value',
      );
    expect(
      problems(limits(`  a: {title: A, of: value, most: 1, bands: [{most: 2}], ${source}}`))[0]!.id,
    ).toBe('measure.limit-value');
  });
  it('with bands out of order are refused', () => {
    for (const bands of ['{upto: 2, most: 1}, {upto: 1, most: 2}', '{most: 1}, {upto: 1, most: 2}'])
      expect(problems(limits(`  a: {title: A, of: value, bands: [${bands}], ${source}}`))[0]!.id).toBe(
        'measure.limit-bands',
      );
  });
  it('choose the band by size, its end included', () => {
    const got = limits(
      `  a: {title: A, of: value, bands: [{upto: 1000, within: 2}, {upto: 2000, most: 3}], ${source}}`,
    );
    if (!got.ok) return expect.unreachable();
    const limit = got.value.byId.get('a')!;
    expect(bandFor(limit, 1000)).toEqual({ upto: 1000, low: -2, high: 2 });
    expect(bandFor(limit, 1000.5)).toEqual({ upto: 2000, high: 3 });
    expect(bandFor(limit, 2001)).toBeUndefined();
    expect(bandFor(limit, undefined)).toBeUndefined();
  });
  it('say in words what is allowed', () => {
    expect(boundsText({ low: -1.5, high: 1.5 }, 'mm')).toBe('within ±1.5 mm');
    expect(boundsText({ high: 4 }, 'mm')).toBe('at most 4 mm');
    expect(boundsText({ low: 5 }, 'C')).toBe('at least 5 C');
    expect(boundsText({ low: -0.5, high: 0 }, 'mm')).toBe('from -0.5 to 0 mm');
  });
  it('do not take an invented source', () => {
    expect(
      problems(limits('  a: {title: A, of: value, most: 1, source: {kind: invented, text: none}}'))[0]!.id,
    ).toBe('file.schema');
  });
});

describe('instruments', () => {
  const parsed = parseInstruments({ file: 'shared/instruments.yaml', text: shared('instruments.yaml') });
  const file = (lines: string) =>
    parseInstruments({ file: 'i.yaml', text: `format: pinchrod-instruments 1\ninstruments:\n${lines}` });
  it('of the demonstration workshop parse and are found by a scan in any case', () => {
    expect(problems(parsed)).toEqual([]);
    if (!parsed.ok) return;
    expect(findInstrument(parsed.value, ' t3 ')).toMatchObject({
      id: 'T3',
      offset: -100,
      class: 'II',
      hook: false,
    });
    expect(findInstrument(parsed.value, 'T33')).toBeUndefined();
    expect(instrumentText(findInstrument(parsed.value, 'B1')!)).toBe(
      'B1, spring balance 200 N, 1 N, error at most 1.5 N',
    );
  });
  it('with one identity twice, no known error, or crossed dates are refused', () => {
    const tape = 'kind: tape, title: t, resolution: 1';
    expect(
      problems(file(`  - {id: T1, ${tape}, class: II}\n  - {id: t1, ${tape}, class: II}`))[0],
    ).toMatchObject({
      id: 'measure.instrument-twice',
      place: { line: 4 },
    });
    expect(problems(file(`  - {id: T1, ${tape}}`))[0]!.id).toBe('measure.instrument-error');
    expect(
      problems(file(`  - {id: T1, ${tape}, class: II, calibrated: 2026-02-01, due: 2025-02-01}`))[0]!.id,
    ).toBe('measure.instrument-dates');
  });
  it('that show inches are kept in mm', () => {
    const got = file(
      '  - {id: I1, kind: tape, title: inch tape, unit: inch, resolution: 0.0625, maxError: 0.02, repeatability: 0.01, offset: -4}\n' +
        '  - {id: I2, kind: tape, title: inch tape, unit: inch, resolution: 0.5, class: II}',
    );
    if (!got.ok) return expect.unreachable();
    expect(got.value[0]).toMatchObject({
      unit: 'inch',
      resolution: 1.5875,
      maxError: 0.508,
      repeatability: 0.254,
      offset: -101.6,
    });
    expect(instrumentText(got.value[0]!)).toBe('I1, inch tape, 1.588 mm, error at most 0.508 mm');
    expect(instrumentText(got.value[1]!)).toBe('I2, inch tape, 12.7 mm, class II');
  });
  it('are overdue from the day after', () => {
    if (!parsed.ok) return expect.unreachable();
    const t9 = findInstrument(parsed.value, 'T9')!;
    expect(isOverdue(t9, '2023-05-03T23:59:59.000Z')).toBe(false);
    expect(overdueProblem(t9, '2023-05-04T00:00:00.000Z')?.id).toBe('measure.instrument-overdue');
    expect(isOverdue(findInstrument(parsed.value, 'K1')!, '2999-01-01')).toBe(false);
    expect(overdueProblem(findInstrument(parsed.value, 'K1')!, '2999-01-01')).toBeUndefined();
  });
});
