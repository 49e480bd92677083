import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parseInstruments } from '../../src/measure/instruments.js';
import { judgeSquare, type SquareQuestion } from '../../src/measure/judgesquare.js';
import { parseLimits } from '../../src/measure/limits.js';
import { type DecisionRule, SQUARE_KEYS, type SquareKey } from '../../src/measure/types.js';
import { judgeNumber, sourceText } from '../../src/measure/verdict.js';

const read = (name: string) => ({
  file: name,
  text: readFileSync(join(import.meta.dirname, '../../shared', name), 'utf8'),
});
const limitsRead = parseLimits(read('limits.yaml'));
const instrumentsRead = parseInstruments(read('instruments.yaml'));
if (!limitsRead.ok || !instrumentsRead.ok) throw new Error('the demonstration files do not parse');
const file = limitsRead.value;
const instruments = instrumentsRead.value;
const tool = (id: string) => instruments.find((instrument) => instrument.id === id)!;
const simple: DecisionRule = { kind: 'simple' };
const guarded: DecisionRule = { kind: 'guarded', factor: 1 };

const BANDED = `format: pinchrod-limits 1
limits:
  glass:
    title: Glass, size
    of: deviation
    bands:
      - {upto: 1000, within: 2}
      - {upto: 2000, within: 2.5}
    source: {kind: memory, text: an older code}
`;
const bandedRead = parseLimits({ file: 'x', text: BANDED });
if (!bandedRead.ok) throw new Error('the bands do not parse');
const banded = bandedRead.value;
const LENGTH = { quantity: 'length', unit: 'mm', kinds: [] } as const;

describe('judgeNumber', () => {
  const length = { expect: 1000, against: 'deviation', limits: ['cut.length'], rule: simple } as const;
  it('holds a deviation against the limit and names it with its source', () => {
    const verdict = judgeNumber({ ...length, value: 1000.5, instrument: tool('R2') }, file);
    expect(verdict).toMatchObject({
      outcome: 'pass',
      value: 0.5,
      unit: 'mm',
      rules: [{ limit: 'cut.length', outcome: 'pass', low: -0.5, high: 0.5, sourceKind: 'common-practice' }],
    });
    expect(verdict.rules[0]!.says).toBe('deviation +0.5 mm, within ±0.5 mm');
    expect(sourceText(verdict.rules[0]!)).toMatch(/^common practice: /);
    expect(judgeNumber({ ...length, value: 1000.6, instrument: tool('R2') }, file).outcome).toBe('fail');
  });
  it('is as good as the worst of several rules', () => {
    const gap = (value: number) =>
      judgeNumber(
        {
          value,
          against: 'value',
          limits: ['mitre.gap.house', 'mitre.gap.article'],
          rule: simple,
          instrument: tool('F1'),
        },
        file,
      );
    // Common practice, as the limit says: feeler 0.20 does not enter.
    expect(gap(0.15).outcome).toBe('pass');
    expect(gap(0.2)).toMatchObject({
      outcome: 'not-proven',
      rules: [{ outcome: 'not-proven' }, { outcome: 'pass' }],
    });
    expect(gap(0.25)).toMatchObject({ outcome: 'fail', rules: [{ outcome: 'fail' }, { outcome: 'pass' }] });
  });
  it('not proven says what would settle it, with the instruments of the workshop', () => {
    const verdict = judgeNumber(
      {
        ...length,
        value: 1000.2,
        instrument: tool('T1'),
        instruments,
        wanted: LENGTH,
        rule: guarded,
      },
      file,
    );
    expect(verdict.outcome).toBe('not-proven');
    expect(verdict.notes.join('\n')).toMatch(/0.3 mm inside the limit/);
    expect(verdict.notes.join('\n')).toMatch(
      /better instrument would settle it if the figure stays: C1, .*C2, /,
    );
    const settled = judgeNumber(
      { ...length, value: 1000.2, instrument: tool('C2'), instruments, rule: guarded },
      file,
    );
    expect(settled.outcome).toBe('pass');
  });
  it('leaves overdue instruments out of that advice', () => {
    const notes = judgeNumber(
      {
        ...length,
        value: 1000.2,
        instrument: tool('T1'),
        instruments,
        wanted: { ...LENGTH, kinds: ['rule'] },
        rule: guarded,
        now: '2031-01-01T00:00:00.000Z',
      },
      file,
    ).notes.join('\n');
    expect(notes).not.toMatch(/R2/);
  });
  it('offers a repeat or a mean where that is enough', () => {
    // A calliper with a known scatter of 0.1: two readings bring U from 0.20 to 0.15.
    const shaky = { ...tool('C2'), repeatability: 0.1, maxError: 0.01 };
    const notes = (value: number) =>
      judgeNumber({ ...length, value, instrument: shaky, rule: guarded }, file).notes.join('\n');
    expect(notes(1000.35)).toContain('A repeat would settle it');
    expect(notes(1000.4)).toContain('The mean of 5 fresh readings would settle it');
    expect(notes(1000.499)).toContain('No instrument of this workshop can settle it');
    const mean = judgeNumber(
      { ...length, value: [1000.35, 1000.36, 1000.34], instrument: shaky, rule: guarded },
      file,
    );
    expect(mean).toMatchObject({ outcome: 'pass' });
    expect(mean.notes[0]).toBe('Mean of 3 readings: 1000.35 mm.');
  });
  it('guarded without an instrument is not proven, unless the check wants none', () => {
    const verdict = judgeNumber({ ...length, value: 1000, rule: guarded }, file);
    expect(verdict.outcome).toBe('not-proven');
    expect(verdict.notes.join(' ')).toContain('scan the instrument');
    expect(
      judgeNumber({ ...length, value: 1000, rule: guarded, instrumentWanted: false }, file).outcome,
    ).toBe('pass');
    expect(judgeNumber({ ...length, value: 1000 }, file).notes.join(' ')).toContain('not known');
  });
  it('an unknown limit, or a size beyond its bands, is not proven and says so', () => {
    expect(judgeNumber({ ...length, value: 1000, limits: ['no.such'] }, file)).toMatchObject({
      outcome: 'not-proven',
      notes: expect.arrayContaining([expect.stringContaining('no.such is not in shared/limits.yaml')]),
    });
    const glass = (expected: number, value = expected) =>
      judgeNumber({ value, expect: expected, against: 'deviation', limits: ['glass'], rule: simple }, banded);
    expect(glass(900, 902).outcome).toBe('pass');
    expect(glass(900, 902.4).outcome).toBe('fail');
    expect(glass(1500, 1502.4).outcome).toBe('pass');
    expect(glass(2600).notes.join(' ')).toContain('no band for a size of 2600 mm');
    const sizeless = judgeNumber({ value: 1, against: 'value', limits: ['glass'], rule: simple }, banded);
    expect(sizeless.notes.join(' ')).toContain('depends on size');
  });
  it('without a limit records only', () => {
    expect(judgeNumber({ value: 7, against: 'value', limits: [], rule: guarded }, file)).toMatchObject({
      outcome: 'pass',
      rules: [],
      notes: ['Recorded only: no limit is set for this.'],
    });
  });
  it('corrects for temperature where it is given, and says so', () => {
    const warm = judgeNumber(
      {
        ...length,
        expect: 2000,
        value: 2000.23,
        instrument: tool('T2'),
        temperature: { celsius: 30, within: 2 },
      },
      file,
    );
    expect(warm.value).toBeCloseTo(0, 2);
    expect(warm.notes.join(' ')).toContain('Corrected by -0.23 mm from 30 to 20 degrees.');
  });
  it('says that a reading was confirmed', () => {
    expect(judgeNumber({ ...length, value: 1000, confirmed: true }, file).notes.join(' ')).toContain(
      'confirmed',
    );
  });
});

describe('judgeSquare', () => {
  const frame = (set: Partial<Record<SquareKey, number | number[]>>, more: Partial<SquareQuestion> = {}) =>
    judgeSquare(
      {
        readings: Object.fromEntries(
          SQUARE_KEYS.filter((key) => set[key] !== undefined).map((key) => [
            key,
            [set[key]!].flat().map((value) => ({ value, instrument: 'T1' })),
          ]),
        ),
        nominal: { w: 1000, h: 700 },
        limits: ['frame.size', 'frame.diagonals.house', 'frame.diagonals.product', 'frame.sides-equal'],
        instrument: tool('T1'),
        instruments,
        rule: simple,
        ...more,
      },
      file,
    );
  const square = { top: 1000, bottom: 1000, left: 700, right: 700, bl_tr: 1221, br_tl: 1221 };

  it('passes a square frame and names every limit with its source', () => {
    const { verdict, question } = frame(square);
    expect(question).toBeUndefined();
    expect(verdict.outcome).toBe('pass');
    expect(verdict.rules.map((used) => [used.limit, used.outcome])).toEqual([
      ['frame.size', 'pass'],
      ['frame.diagonals.house', 'pass'],
      ['frame.diagonals.product', 'pass'],
      ['frame.sides-equal', 'pass'],
    ]);
    expect(verdict.rules[2]).toMatchObject({
      sourceKind: 'published',
      source: 'BS 4873:2009, 6.2; superseded by BS 4873:2016',
    });
    expect(verdict.notes.at(-1)).toContain('do not show bow, twist or a lifted corner');
    expect(verdict.notes.join(' ')).not.toContain('Push');
  });
  it('fails the house limit, says which diagonal, how far, and what to aim for', () => {
    const { verdict } = frame({ ...square, bl_tr: 1222, br_tl: 1219 });
    expect(verdict).toMatchObject({ outcome: 'fail', value: 3 });
    const notes = verdict.notes.join('\n');
    expect(notes).toContain('The diagonal bottom left to top right is long by 3 mm.');
    // x = D·Δ/(2W) = 1220.7·3/2000 = 1.83.
    expect(notes).toMatch(/the top right corner goes about 1\.83 mm to the left/);
    expect(notes).toContain('Aim for 1220.6 on both diagonals');
    const other = frame({ ...square, bl_tr: 1219, br_tl: 1222 }).verdict.notes.join('\n');
    expect(other).toMatch(/the top left corner goes about 1\.83 mm to the right/);
  });
  it('a cured corner is not to be forced', () => {
    const notes = frame({ ...square, bl_tr: 1222, br_tl: 1219 }, { cured: true }).verdict.notes.join('\n');
    expect(notes).toContain('a cured corner is not to be forced');
    expect(notes).not.toContain('Push');
  });
  it('names the member where sides differ, and says that pushing does not cure it', () => {
    const { verdict } = frame({ ...square, top: 1002, bl_tr: 1221, br_tl: 1222 });
    expect(verdict.rules.find((used) => used.limit === 'frame.sides-equal')!.outcome).toBe('fail');
    expect(verdict.notes.join('\n')).toMatch(
      /The top is 2 mm longer than the bottom: the top is the one off its size\. No pushing/,
    );
    const bare = judgeSquare(
      {
        readings: {
          left: [{ value: 700 }],
          right: [{ value: 698 }],
          bl_tr: [{ value: 1220 }],
          br_tl: [{ value: 1220 }],
        },
        limits: ['frame.sides-equal'],
        rule: simple,
      },
      file,
    );
    expect(bare.verdict.notes.join('\n')).toContain('either the left is long or the right is short');
    const short = frame({ ...square, right: 698, bl_tr: 1219.5, br_tl: 1220.5 }).verdict.notes.join('\n');
    expect(short).toContain('the right is the one off its size');
  });
  it('sees a size error in both diagonals', () => {
    expect(
      frame({ bl_tr: 1224, br_tl: 1224 }, { limits: ['frame.diagonals.house'] }).verdict.notes.join('\n'),
    ).toMatch(/longer than the computed 1220.7 by more than 2 mm/);
    expect(
      frame({ bl_tr: 1217, br_tl: 1217 }, { limits: ['frame.diagonals.house'] }).verdict.notes.join('\n'),
    ).toMatch(/shorter than the computed/);
  });
  it('does not judge readings that do not close, and asks', () => {
    const { verdict, question } = frame({ ...square, br_tl: 1231 });
    expect(verdict.outcome).toBe('not-proven');
    expect(verdict.rules.every((used) => used.outcome === 'not-proven')).toBe(true);
    expect(verdict.notes[0]).toBe('Not judged: the readings do not close.');
    expect(verdict.notes.join('\n')).not.toContain('Push');
    expect(question).toMatchObject({ id: 'measure.misread-open' });
  });
  it('judges confirmed readings that nearly close, and says that they were confirmed', () => {
    const near = { ...square, br_tl: 1219.6, bl_tr: 1220.2 };
    expect(frame(near).verdict.outcome).toBe('not-proven');
    const confirmed = frame(near, { confirmed: true });
    expect(confirmed.verdict.outcome).toBe('pass');
    expect(confirmed.verdict.notes.join('\n')).toContain('confirmed');
    const hopeless = frame({ ...square, br_tl: 1231 }, { confirmed: true });
    expect(hopeless.verdict.outcome).toBe('not-proven');
    expect(hopeless.verdict.notes[0]).toContain('although confirmed');
    expect(frame({ ...square, br_tl: 12310 }).verdict.notes[0]).toContain('Not judged');
  });
  it('guarded: a doubt at the house limit names the trammel that would settle it', () => {
    const { verdict } = frame(
      { ...square, bl_tr: 1221.5, br_tl: 1220 },
      { rule: guarded, wanted: { ...LENGTH, kinds: ['tape', 'trammel'] } },
    );
    expect(verdict.outcome).toBe('not-proven');
    expect(verdict.uncertainty).toBeCloseTo(0.816, 3);
    expect(verdict.notes.join('\n')).toContain('Decision rule: guarded, w = U = 0.82 mm (ILAC-G8)');
    expect(verdict.notes.join('\n')).toMatch(/better instrument would settle it.*P1/);
  });
  it('an angle limit needs all six, a side limit a side, and it says so', () => {
    const angle = parseLimits({
      file: 'x',
      text: 'format: pinchrod-limits 1\nlimits:\n  c: {title: Corner, of: corner-angle, unit: deg, within: 0.1, source: {kind: house-rule, text: ours}}\n  v: {title: V, of: value, most: 1, source: {kind: house-rule, text: ours}}\n',
    });
    if (!angle.ok) return expect.unreachable();
    const readings = Object.fromEntries(SQUARE_KEYS.map((key) => [key, [{ value: square[key] }]]));
    const judge = (given: SquareQuestion['readings'], limits: string[], rule: DecisionRule = simple) =>
      judgeSquare({ readings: given, limits, rule, nominal: { w: 1000, h: 700 } }, angle.value).verdict;
    expect(judge(readings, ['c'])).toMatchObject({ outcome: 'pass', rules: [{ limit: 'c' }] });
    expect(judge(readings, ['c']).rules[0]!.says).toMatch(
      /^corner .. .* degrees from square, within ±0.1 deg$/,
    );
    expect(judge({ bl_tr: [{ value: 1221 }], br_tl: [{ value: 1221 }] }, ['c']).notes.join(' ')).toContain(
      'four sides and two diagonals are needed',
    );
    expect(judge(readings, ['v']).notes.join(' ')).toContain('it is for single numbers');
    expect(judge(readings, ['none']).notes.join(' ')).toContain('none is not in shared/limits.yaml');
  });
  it('guarded: doubts about sides, their difference and angles say what would settle them', () => {
    const ids = parseLimits({
      file: 'x',
      text: [
        'format: pinchrod-limits 1',
        'limits:',
        '  c: {title: Corner, of: corner-angle, unit: deg, within: 0.04, source: {kind: house-rule, text: ours}}',
        '  o: {title: Opposite, of: opposite-sides, most: 1, source: {kind: house-rule, text: ours}}',
        '  s: {title: Size, of: deviation, within: 1, source: {kind: house-rule, text: ours}}',
        '  b: {title: Small, of: diagonals, bands: [{upto: 500, most: 1}], source: {kind: house-rule, text: ours}}',
      ].join('\n'),
    });
    if (!ids.ok) return expect.unreachable();
    const readings = Object.fromEntries(
      Object.entries({ ...square, top: 1000.5, bl_tr: 1220.8 }).map(([key, value]) => [key, [{ value }]]),
    );
    const judge = (limits: string[], more: Partial<SquareQuestion> = {}) =>
      judgeSquare(
        {
          readings,
          limits,
          rule: guarded,
          nominal: { w: 1000, h: 700 },
          instrument: tool('T1'),
          instruments,
          wanted: LENGTH,
          now: '2026-06-01T00:00:00.000Z',
          ...more,
        },
        ids.value,
      ).verdict;
    for (const [id, title] of [
      ['c', 'Corner'],
      ['o', 'Opposite'],
      ['s', 'Size'],
    ] as const) {
      const verdict = judge([id]);
      expect(verdict.outcome, id).toBe('not-proven');
      expect(verdict.notes.join('\n'), id).toMatch(new RegExp(`${title}: .*would settle it`));
    }
    expect(judge(['b']).notes.join(' ')).toContain('no band for a size of 1220.66 mm');
    const nameless = judgeSquare({ readings, limits: ['o'], rule: guarded }, ids.value).verdict;
    expect(nameless.notes.join(' ')).toContain('Name the instrument');
  });
  it('corrects sizes for temperature where it is given', () => {
    const { verdict } = frame({ ...square, top: 1000.5 }, { temperature: { celsius: 40, within: 2 } });
    // 1000.5 mm of aluminium read with a steel tape 20 K above: 0.23 mm too long.
    expect(verdict.rules[0]!.says).toContain('top +0.27 mm from 1000');
    expect(verdict.notes.join(' ')).toContain('Sizes corrected from 40 to 20 degrees');
  });
  it('two sizes and diagonals that do not go together are not judged, and the other sides are asked for', () => {
    const { verdict, question } = frame({ bottom: 1000, left: 700, bl_tr: 1220.5, br_tl: 1226 });
    expect(verdict.outcome).toBe('not-proven');
    expect(verdict.notes[0]).toContain('Read the other two sides');
    expect(question?.id).toBe('measure.misread-open');
  });
  it('lengths read with two tapes keep both tapes in the uncertainty', () => {
    const readings = {
      bl_tr: [{ value: 1221, instrument: 'T1' }],
      br_tl: [{ value: 1221, instrument: 'T2' }],
    };
    const verdict = judgeSquare({ readings, limits: [], rule: simple, instruments }, file).verdict;
    expect(verdict.uncertainty!).toBeGreaterThan(1.5);
  });
  it('one side alone, or nothing, is not judged on diagonals', () => {
    expect(frame({ top: 1000 }).verdict.outcome).toBe('not-proven');
    expect(frame({}).verdict.notes.join(' ')).toContain('both diagonals are needed');
    expect(frame(square, { limits: [] }).verdict.notes.join(' ')).toContain('Recorded only');
  });
  it('says in plain words what fewer readings cannot tell', () => {
    const two = frame({ bl_tr: 1221, br_tl: 1220 }, { limits: ['frame.diagonals.house'] });
    expect(two.verdict.notes.join(' ')).toContain('do not show a taper');
    const four = frame(
      { bottom: 1000, left: 700, bl_tr: 1221, br_tl: 1220 },
      { limits: ['frame.diagonals.house'] },
    );
    expect(four.verdict.notes.join(' ')).toContain('opposite sides are taken as equal');
    const five = frame({ bottom: 1000, left: 700, right: 700, bl_tr: 1221, br_tl: 1220 }, { limits: [] });
    expect(five.verdict.notes.join(' ')).toContain('a misread would not show');
  });
});
