import fc from 'fast-check';
import widthOf from 'string-width';
import { describe, expect, it } from 'vitest';
import { data } from '../../src/base/words.js';
import { bigNumber } from '../../src/tui/parts/drawing.js';
import { crop, justify, type Line, lineWidth, wrapLine } from '../../src/tui/parts/line.js';
import { windowStart } from '../../src/tui/parts/rows.js';

const words = fc.string({
  unit: fc.constantFrom('a', 'b', ' ', 'é', '窓', '\u001b', '\n', '-'),
  maxLength: 80,
});
const textOf = (line: Line): string => line.map(({ text }) => text).join('');

describe('lines', () => {
  it('never grow wider than their room, and hold no control character', () => {
    fc.assert(
      fc.property(words, fc.integer({ min: 8, max: 40 }), (text, width) => {
        for (const each of wrapLine(data(`  ${text}`), width, 'plain', '   ')) {
          expect(lineWidth(each)).toBeLessThanOrEqual(width);
          expect(textOf(each)).not.toMatch(/[\u0000-\u001f]/);
        }
        expect(lineWidth(crop([{ text: data('ab') }, { text: data(text) }], width))).toBeLessThanOrEqual(
          Math.max(width, 0) + 0,
        );
      }),
      { seed: 5, numRuns: 1000 },
    );
  });

  it('keep every word when they are wrapped', () => {
    fc.assert(
      fc.property(
        fc.array(fc.stringMatching(/^[a-z]{1,30}$/), { maxLength: 12 }),
        fc.integer({ min: 8, max: 40 }),
        (list, width) => {
          const wrapped = wrapLine(data(list.join(' ')), width)
            .map(textOf)
            .join('')
            .replaceAll(' ', '');
          expect(wrapped).toBe(list.join(''));
        },
      ),
      { seed: 6, numRuns: 500 },
    );
  });

  it('spread the right text to the edge; the left one gives way', () => {
    const line = justify([{ text: data('a long text on the left') }], [{ text: data('JB') }], 12);
    expect(widthOf(textOf(line))).toBe(12);
    expect(textOf(line).endsWith('JB')).toBe(true);
  });

  it('draw digits five rows high, in ASCII where that is wanted, or not at all where they do not fit', () => {
    const rows = bigNumber('1220.7', 80, { colours: 'none', ascii: true })!;
    expect(rows).toHaveLength(5);
    expect(new Set(rows.map((each) => textOf(each).length)).size).toBe(1);
    expect(rows.map(textOf).join('')).toMatch(/^[# ]+$/);
    expect(bigNumber('1220.7', 20, { colours: 'none', ascii: true })).toBeUndefined();
  });

  it('keep the marked row in the window of a list', () => {
    for (const count of [0, 1, 5, 30])
      for (const height of [1, 4, 10])
        for (let at = 0; at < count; at += 1) {
          const start = windowStart(count, at, height);
          expect(at).toBeGreaterThanOrEqual(start);
          expect(at).toBeLessThan(start + height);
        }
  });
});
