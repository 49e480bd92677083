/** The elevation: one geometry, drawn in characters and as SVG. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { drawSvg, drawText } from '../../src/window/draw.js';
import { elevation } from '../../src/window/elevation.js';
import { setOut } from '../../src/window/setout.js';
import { SPOTS } from '../../src/window/types.js';
import {
  at,
  fixed,
  GLASS,
  marks,
  SETS,
  sideHung,
  split,
  topHung,
  unit,
  w52,
  w52With,
  windows,
} from './kit.js';

const three = elevation(
  setOut(
    unit(
      1800,
      1300,
      split('upright', at(650), [sideHung('left'), split('level', at(820), [topHung(), fixed()])]),
    ),
    w52,
  ),
);
const draw = (more: object = {}) =>
  drawText(three, { columns: 44, rows: 18, ascii: false, triangles: 'apex-at-hinge', ...more });

describe('in characters', () => {
  it('shows frame, dividers, sashes, triangles, handles and numbers', () => {
    expect(draw().join('\n')).toBe(
      [
        '┌───────────────┬──────────────────────────┐',
        '│┌─────────────┐│┌────────────────────────┐│',
        '││            ╱│││        ╱      ╲╲       ││',
        '││          ╱  │││    ╱╱    L2      ╲╲    ││',
        '││       ╱╱    │││ ╱╱                  ╲╲ ││',
        '││      ╱      ││└────────────○───────────┘│',
        '││    ╱        │├──────────────────────────┤',
        '││ ╱╱          ││                          │',
        '││╱    L1      ○│                          │',
        '││ ╲           ││                          │',
        '││   ╲         ││                          │',
        '││    ╲╲       ││           L3             │',
        '││       ╲     ││                          │',
        '││         ╲   ││                          │',
        '││          ╲╲ ││                          │',
        '│└─────────────┘│                          │',
        '└───────────────┴──────────────────────────┘',
      ].join('\n'),
    );
  });
  it('writes the places of those marks only that are asked for', () => {
    const below = (more: object) => draw({ spot: 'stays', item: 'L2', ...more }).at(-1);
    expect(below({})).toMatch(/addon-left bottom \d/);
    expect(below({ measured: new Set(['bracket']) })).not.toMatch(/\d{2}/);
  });
  it('turns the triangles where the workshop draws the apex at the handle', () => {
    const handle = draw({ triangles: 'apex-at-handle' });
    expect(handle).not.toEqual(draw());
    // The apex of L1 is at the right, where its handle is: in the row of the handle the strokes have met there.
    expect(handle[2]).toMatch(/^││╲/);
    expect(draw()[2]).toMatch(/^││ {12}╱/);
  });
  it('marks the part in question, and gives its measures', () => {
    expect(draw({ spot: 'sill' }).at(-1)).toMatch(/^┗━+┻━+┛$/);
    const keeps = draw({ spot: 'keeps', item: 'L2' });
    expect(keeps.at(-1)).toBe('addon-bottom left 242.5 860.5');
    expect(keeps.join('').match(/●/g)).toHaveLength(2);
    expect(draw({ spot: 'divider', item: 'D2' }).join('\n')).toMatch(/┣━+┫/);
  });
  it('draws a strong slope in strokes of its own', () => {
    for (const [ascii, stroke] of [
      [false, '•'],
      [true, '*'],
    ] as const) {
      expect(draw({ ascii, spot: 'diagonals' }).join('')).toContain(stroke);
      expect(draw({ ascii }).join('')).not.toContain(stroke);
    }
  });
  it('has an ASCII form', () => {
    for (const spot of SPOTS) expect(draw({ ascii: true, spot }).join('')).not.toMatch(/[^\x20-\x7e]/);
  });
  it('fits any space, for any window, spot and item', () => {
    for (const name of ['w52', 'k70'] as const)
      fc.assert(
        fc.property(
          windows(GLASS[name]),
          fc.integer({ min: 1, max: 130 }),
          fc.integer({ min: 1, max: 50 }),
          fc.constantFrom(...SPOTS),
          fc.constantFrom(undefined, 'L1', 'L3', 'D1', 'L99'),
          fc.boolean(),
          (window, columns, rows, spot, item, ascii) => {
            const view = elevation(setOut(window, SETS[name]));
            const lines = drawText(view, {
              columns,
              rows,
              ascii,
              spot,
              triangles: 'apex-at-hinge',
              ...(item && { item }),
            });
            expect(lines.length).toBeLessThanOrEqual(rows);
            for (const line of lines) expect([...line].length).toBeLessThanOrEqual(columns);
          },
        ),
        { seed: 9, numRuns: 60 },
      );
  });
});

describe('as SVG', () => {
  it('is whole, and has the marks in question with their measures', () => {
    const svg = drawSvg(three, { triangles: 'apex-at-hinge', spot: 'keeps', item: 'L1' });
    expect(svg).toMatch(/^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg" width="480"/);
    expect(svg.trimEnd()).toMatch(/<\/svg>$/);
    for (const text of ['L1', 'L2', 'L3', '310.5', '928.5', '1800', '1300'])
      expect(svg).toContain(`>${text}</text>`);
    expect(svg.match(/<line /g)!.length).toBeGreaterThan(6);
  });
  it('gives the measure of marks in one place once', () => {
    // The outer drain slots straight below the inner ones.
    const set = w52With([
      /beside: \{kind: drain-inner, on: bottom, by: drain_offset[^}]*\}/,
      'same_as: {kind: drain-inner, on: bottom}',
    ]);
    const made = setOut(unit(900, 1200, fixed()), set);
    expect(marks(made, 'frame-sill', 'drain-outer')).toEqual(marks(made, 'frame-sill', 'drain-inner'));
    const svg = drawSvg(elevation(made), { triangles: 'apex-at-hinge', spot: 'drains' });
    for (const text of ['112', '450', '788']) expect(svg.split(`>${text}</text>`)).toHaveLength(2);
  });
  it('never passes text on as markup, and holds no number that is none', () => {
    const named = { ...three, unit: '"><script>alert(1)</script>' };
    for (const spot of SPOTS) {
      const svg = drawSvg(named, { triangles: 'apex-at-handle', spot });
      expect(svg).not.toContain('<script');
      expect(svg).not.toMatch(/NaN|undefined|Infinity/);
    }
  });
});
