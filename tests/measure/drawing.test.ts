import { describe, expect, it } from 'vitest';
import { asMeasured, asMeasuredSvg, asMeasuredText, wrapHanging } from '../../src/measure/asmeasured.js';
import { solveSquare } from '../../src/measure/square.js';

const nominal = { w: 1000, h: 700 };
const racked = solveSquare(
  { top: [1000], bottom: [1000], left: [700], right: [700], bl_tr: [1222], br_tl: [1219] },
  { nominal },
);

describe('the frame as measured', () => {
  const frame = asMeasured(racked, nominal)!;
  it('magnifies the error by the stated factor, and only the error', () => {
    expect(frame.factor).toBe(20);
    for (const corner of ['bl', 'br', 'tr', 'tl'] as const)
      for (const axis of ['x', 'y'] as const)
        expect((frame.drawn[corner][axis] - frame.nominal[corner][axis]) / frame.factor).toBeCloseTo(
          racked.corners![corner][axis] - frame.nominal[corner][axis],
          9,
        );
    expect(String(frame.caption)).toContain('error drawn 20 times its size');
    expect(frame.long).toBe('bl_tr');
  });
  it('text and SVG say the same, and stay in their room', () => {
    for (const [columns, rows] of [
      [78, 18],
      [40, 14],
      [30, 20],
    ] as const) {
      const lines = asMeasuredText(frame, { columns, rows, ascii: true });
      expect(lines.length).toBeLessThanOrEqual(rows);
      for (const line of lines) {
        expect(line.length).toBeLessThanOrEqual(columns);
        expect(line).toMatch(/^[\x20-\x7e]*$/);
      }
      expect(lines.join(' ')).toContain('1222 (+1.34), the long one');
      expect(lines.join('\n')).toContain('*');
    }
    const svg = asMeasuredSvg(frame, { width: 400, height: 260 });
    expect(svg.match(/<polygon/g)).toHaveLength(2);
    expect(svg).toContain('1222 (+1.34), the long one');
    expect(svg).toContain('>1000 (0)</text>');
    expect(svg).toContain('<line');
  });
  it('the drawn top stands to the right where the frame is racked to the right', () => {
    const lines = asMeasuredText(frame, { columns: 60, rows: 18, ascii: true });
    const corners = lines.filter((line) => line.includes('+-'));
    expect(corners[0]!.indexOf('+')).toBeGreaterThan(corners.at(-1)!.indexOf('+'));
  });
  it('uses line characters where they are allowed', () => {
    expect(asMeasuredText(frame, { columns: 60, rows: 18 }).join('')).toMatch(/[─│·]/);
  });
  it('gives only the legend where there is no room, and nothing where there is no figure', () => {
    expect(asMeasuredText(frame, { columns: 20, rows: 5 }).length).toBeLessThanOrEqual(5);
    expect(asMeasured(solveSquare({ bl_tr: [1222], br_tl: [1219] }))).toBeUndefined();
    expect(asMeasured(solveSquare({ top: [10], right: [10], bl_tr: [100], br_tl: [100] }))).toBeUndefined();
    expect(asMeasured(solveSquare({ bl_tr: [1700], br_tl: [10] }, { nominal }), nominal)).toBeUndefined();
  });
  it('draws a parallelogram from two diagonals and the nominal, and a square frame without a long diagonal', () => {
    const two = asMeasured(solveSquare({ bl_tr: [1222], br_tl: [1219] }, { nominal }), nominal)!;
    expect(two.drawn.tr.x).toBeGreaterThan(two.nominal.tr.x);
    expect(two.labels.top).toBeUndefined();
    const even = asMeasured(solveSquare({ bottom: [1000], left: [700], bl_tr: [1220.7], br_tl: [1220.7] }))!;
    expect(even.long).toBeUndefined();
    expect(String(even.caption)).toContain('square, of the mean sizes');
    expect(asMeasuredSvg(even, { width: 300, height: 200 })).not.toContain('<line');
    const plus = asMeasured(solveSquare({ bl_tr: [1219], br_tl: [1222], top: [1000], right: [700] }))!;
    expect(plus.long).toBe('br_tl');
  });
  it('leaves the legend to the caller where that is asked', () => {
    const lines = asMeasuredText(frame, { columns: 30, rows: 12, legend: false });
    expect(lines.join('\n')).toContain('*');
    expect(lines.join('\n')).not.toContain('As measured');
  });
  it('wraps between words', () => {
    expect(wrapHanging('one two three', 7)).toEqual(['one two', 'three']);
    expect(wrapHanging('one two three', 7, '  ')).toEqual(['one two', '  three']);
  });
});
