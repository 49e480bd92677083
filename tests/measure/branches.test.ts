/** What the other tests of this room do not come by: rare shapes, half-given input, limits that bind on one side. */
import { describe, expect, it } from 'vitest';
import { squareText } from '../../src/commands/squaretext.js';
import { squareAdvice } from '../../src/measure/advice.js';
import { asMeasured, asMeasuredText, legendOf } from '../../src/measure/asmeasured.js';
import { applicableLimits, squareReport } from '../../src/measure/calculator.js';
import { conformance, NO_LIMIT, notesInParts } from '../../src/measure/decision.js';
import { instrumentText } from '../../src/measure/instruments.js';
import { judgeSquare } from '../../src/measure/judgesquare.js';
import { type LimitsFile, parseLimits } from '../../src/measure/limits.js';
import { lookForMisread, lookForSquareMisread, usualSlips } from '../../src/measure/misread.js';
import { equalDiagonal, impliedLength } from '../../src/measure/quadrilateral.js';
import { solveSquare } from '../../src/measure/square.js';
import type { DecisionRule, Instrument } from '../../src/measure/types.js';
import { lengthText, parseReading, unitRead } from '../../src/measure/units.js';
import { howToResolve, judgeNumber, type Unsettled } from '../../src/measure/verdict.js';

const limits = (body: string): LimitsFile => {
  const read = parseLimits({ file: 'l.yaml', text: `format: pinchrod-limits 1\nlimits:\n${body}` });
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.value;
};
/** Invented limits; the source says so. */
const SOURCE = 'source: {kind: house-rule, text: invented for tests}';
const FILE = limits(`
  far: {title: Far, of: diagonals, least: 1, ${SOURCE}, note: the other way about}
  o: {title: Opposite, of: opposite-sides, bands: [{upto: 800, most: 0.4}, {most: 3}], ${SOURCE}}
  size: {title: Size, of: deviation, within: 1, ${SOURCE}}
  d: {title: Diagonals, of: diagonals, most: 2, ${SOURCE}}
  force: {title: Force, of: value, least: 10, unit: N, ${SOURCE}}
`);
const guarded: DecisionRule = { kind: 'guarded', factor: 1 };
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
const fine: Instrument = { ...tape, id: 'F', resolution: 0.1, class: 'I' };
const values = (...list: number[]) => list.map((value) => ({ value }));

/** A kite all but stretched flat at its bottom right: no other diagonals close with these sides. */
const KITE = { bottom: 100, right: 100, top: 150, left: 150, bl_tr: 199.9, br_tl: 0 };
KITE.br_tl = impliedLength('br_tl', KITE)!;
const listed = (set: Partial<Record<keyof typeof KITE, number>>) =>
  Object.fromEntries(Object.entries(set).map(([key, value]) => [key, [value]]));

describe('shapes that cannot be made square', () => {
  it('have no diagonal to aim for', () => {
    expect(equalDiagonal(KITE)).toBeUndefined();
    const { br_tl: _unread, ...five } = KITE;
    const says = squareAdvice(solveSquare(listed(five))).join(' ');
    expect(says).toContain('Push it in');
    expect(says).not.toContain('Aim for');
  });
  it('are told where no change of one reading alone would close them', () => {
    const solution = solveSquare(listed({ ...KITE, bl_tr: 201.5 }), { instrument: fine });
    const question = lookForSquareMisread({ solution, readings: {} });
    expect(question?.details.join(' ')).toContain('no change of this one alone would close the figure');
  });
  it('are drawn at their true size where that is large enough', () => {
    const nominal = { w: 1000, h: 700 };
    const leaning = solveSquare(
      { bl_tr: [Math.hypot(650, 606)], br_tl: [Math.hypot(1350, 606)] },
      { nominal },
    );
    const frame = asMeasured(leaning, nominal)!;
    expect(frame.factor).toBe(1);
    // It leans to the left: its upright sides fall from left to right.
    expect(asMeasuredText(frame, { columns: 60, rows: 20, ascii: true }).join('')).toContain('\\');
  });
});

describe('the drawing', () => {
  const nominal = { w: 1000.125, h: 700.0875 };
  const square = {
    ...listed({ top: 1000.125, bottom: 1001.7125, left: 700.0875, right: 698.5, br_tl: 1221, bl_tr: 1221 }),
  };
  it('writes inches where they are read', () => {
    const frame = asMeasured(solveSquare(square, { nominal }), nominal, 'inch')!;
    expect(frame.labels).toMatchObject({
      top: '39 3/8" (0")',
      bottom: '39 7/16" (+1/16")',
      right: '27 1/2" (-1/16")',
    });
    expect(String(frame.caption)).toContain('nominal 39 3/8" x 27 9/16"');
    expect(asMeasured(solveSquare(square), undefined, 'inch')!.labels.top).toBe('39 3/8"');
  });
  it('leaves out lengths beside the sides, and stars nothing where no diagonal is long', () => {
    const frame = asMeasured(solveSquare(square, { nominal }), nominal)!;
    const lines = asMeasuredText(frame, { columns: 30, rows: 12, legend: false, labels: false });
    expect(lines.join('')).not.toMatch(/\d|\*/);
    expect(legendOf(frame)).toHaveLength(2);
  });
});

describe('questions about inches', () => {
  it('write figures in inches, and name slips of an inch tape', () => {
    const far = lookForMisread({ readings: values(974.725), expect: 1000.125, read: 'inch' })!;
    expect(String(far.text)).toBe('38 3/8" lies 1" from the expected 39 3/8". Read again, or confirm it.');
    expect(far.details.map(String)).toEqual(['38 3/8": a slip of 1"?']);
    expect(String(lookForMisread({ readings: values(1000, 1003.2), read: 'inch' })!.text)).toMatch(
      /^The repeats differ by 1\/8"/,
    );
    expect(usualSlips(1000, 3, 1, undefined, 'inch').map(String)).toEqual(['a slip of 1/8"']);
    expect(usualSlips(1000, 37, 1, undefined, 'inch').map(String)).toEqual([]);
    const start = { ...tape, offset: -100 };
    expect(usualSlips(1000, 100, 1, start, 'inch').map(String)).toEqual([
      'the tape was held at its end, not at the 100 mm mark',
    ]);
  });
  it('are of other units in those', () => {
    expect(
      String(
        lookForMisread({ readings: values(50), expect: 20, plausible: 5, unit: 'N', read: 'inch' })!.text,
      ),
    ).toContain('50 N lies 30 N');
  });
  it('are asked of a set in what it was read in, within the window of its check', () => {
    const readings = {
      top: values(1000),
      bottom: values(1000),
      left: values(700),
      right: values(700),
      bl_tr: values(1226),
      br_tl: values(1220),
    };
    const ask = (more: object) =>
      judgeSquare({ readings, limits: [], rule: { kind: 'simple' }, instrument: fine, ...more }, FILE)
        .question!;
    expect(String(ask({ read: 'inch' }).text)).toMatch(/miss closing by 3\/16", where up to/);
    expect(ask({ read: 'inch' }).details.join(' ')).toMatch(/top 39 3\/8": \+/);
    const wide = { nominal: { w: 1000, h: 700 }, plausible: 20 };
    expect(ask({ ...wide }).details.join(' ')).not.toContain('from the expected');
    expect(ask({ ...wide, plausible: 3 }).details.join(' ')).toContain('from the expected');
  });
});

describe('limits that bind on one side, by size, or on what is not there', () => {
  const racked = { top: values(1000), bottom: values(1000), bl_tr: values(1222), br_tl: values(1220) };
  const judge = (ids: string[], more = {}) =>
    judgeSquare({ readings: racked, limits: ids, rule: guarded, instrument: fine, ...more }, FILE);

  it('a least difference', () => {
    const { verdict } = judge(['far']);
    expect(verdict.rules[0]).toMatchObject({ low: 1, outcome: 'pass' });
    expect(verdict.rules[0]!.high).toBeUndefined();
    const report = squareReport({ readings: racked, limits: ['far'], rule: guarded, file: FILE });
    expect(report.json.limits[0]).toMatchObject({ low: 1 });
    expect(report.json.limits[0]!.high).toBeUndefined();
    expect(
      judgeNumber({ value: 12, against: 'value', limits: ['force'], rule: { kind: 'simple' } }, FILE)
        .rules[0],
    ).toMatchObject({ low: 10, outcome: 'pass' });
    expect(conformance(10, 1, { low: 10 })).toBeCloseTo(0.5, 12);
  });
  it('opposite sides, banded: the band of the frame names the member, not the widest one', () => {
    const sides = { ...racked, top: values(1000.8) };
    const told = (nominal?: { w: number; h: number }) =>
      judge(['o'], { readings: sides, ...(nominal ? { nominal } : {}) }).verdict.notes.join(' ');
    expect(told({ w: 1000, h: 700 })).toContain('No pushing will cure that');
    expect(told({ w: 1000, h: 900 })).not.toContain('No pushing will cure that');
    // Without a size no band is known: the usual millimetre names it.
    expect(told()).not.toContain('No pushing will cure that');
  });
  it('sizes without a nominal, and a difference that only five readings give', () => {
    expect(judge(['size']).verdict.notes.join(' ')).toContain(
      'a nominal size and at least one side are needed',
    );
    const five = { ...racked, left: values(700), right: values(700), bl_tr: [], br_tl: values(1219) };
    const { verdict } = judge(['d'], { readings: five });
    expect(verdict.rules[0]!.limit).toBe('d');
    expect(verdict.outcome).not.toBe('pass');
  });
  it('an empty list of readings is no reading, and one repeat is counted as one', () => {
    const readings = { ...racked, bl_tr: values(1221.95), left: [] };
    expect(judge(['d'], { readings }).verdict.notes.join(' ')).toContain('Not proven');
  });
});

describe('what would settle a doubt', () => {
  const open: Unsettled = {
    value: 10.1,
    band: { low: 10 },
    rule: { kind: 'guarded', factor: 1 },
    unit: 'mm',
    u: 0.3,
    taken: 1,
    instrument: tape,
    expected: (instrument, n) => (instrument.id === 'F' ? 0.05 : 0.6 / Math.sqrt(n)),
    workshop: [tape, fine, { ...fine, id: 'R', kind: 'rule' }],
  };
  it('of a limit from below, with the kind in hand where the check names none', () => {
    const notes = howToResolve(open);
    expect(notes[0]).toContain('10.1 mm lies 0.1 mm inside the limit');
    expect(notes.join(' ')).toContain('F, tape');
    expect(notes.join(' ')).not.toContain('R, tape');
  });
  it('of a figure that lies outside', () => {
    expect(howToResolve({ ...open, value: 9.9 })[0]).toContain('9.9 mm lies 0.1 mm outside the limit');
  });
});

describe('small things', () => {
  it('notes in parts: what is said, and what to do', () => {
    expect(notesInParts(['a', 'Decision rule: simple acceptance.', 'b'])).toEqual({
      says: ['a', 'Decision rule: simple acceptance.'],
      next: ['b'],
    });
    expect(notesInParts([NO_LIMIT, 'b']).next).toEqual(['b']);
    expect(notesInParts(['a'])).toEqual({ says: [], next: ['a'] });
  });
  it('lengths and units in words', () => {
    expect(lengthText(1221.504, 'mm')).toBe('1221.5');
    expect(unitRead('N', undefined, 'inch')).toBe('N');
    expect(unitRead('mm', undefined, 'inch')).toBe('inch');
    expect(unitRead('mm', { unit: 'inch' }, 'mm')).toBe('inch');
    expect(unitRead('mm', { unit: 'mm' }, 'mm')).toBe('mm');
    expect(parseReading('1.0000000001', { unit: 'mm' }).ok).toBe(false);
    expect(parseReading('39.375', { unit: 'inch' })).toMatchObject({ ok: true, value: 1000.125 });
    expect(parseReading('1,375', { unit: 'inch' }).ok).toBe(false);
    const { class: _none, ...bare } = tape;
    expect(instrumentText(bare)).toBe('T, tape, 1 mm');
  });
  it('the calculator: a pair of upright sides, five readings, and five that give nothing', () => {
    const upright = { left: values(700), right: values(700), bl_tr: values(1221) };
    expect(
      applicableLimits({
        file: limits(`
  frame.sides-equal: {title: Equal, of: opposite-sides, most: 1, ${SOURCE}}
`),
        readings: upright,
      }),
    ).toEqual(['frame.sides-equal']);
    const five = { ...upright, top: values(1000), bottom: values(1000) };
    const report = squareReport({ readings: five, limits: ['d'], rule: guarded, file: FILE });
    expect(squareText(report.judgement, { ascii: true }, {}).join('\n')).toMatch(
      /bottom right to top left +- +1220\.\d/,
    );
    const never = { ...five, bl_tr: values(5000) };
    expect(squareReport({ readings: never, limits: ['d'], rule: guarded, file: FILE }).json.closes).toBe(
      false,
    );
  });
});
