import fc from 'fast-check';
import stringWidth from 'string-width';
import { expect, test } from 'vitest';
import widthOf from '../../src/bench/stringwidth.js';

// The general-purpose library string-width is the reference for every width.

test('every sign of the basic plane alone is as wide as the library says', () => {
  const wrong: string[] = [];
  for (let code = 0; code <= 0xffff; code += 1) {
    const sign = String.fromCharCode(code);
    if (widthOf(sign) !== stringWidth(sign)) wrong.push(code.toString(16));
  }
  expect(wrong).toEqual([]);
});

test('texts of usual signs, styles, marks and emoji beside one another are as wide as the library says', () => {
  const pieces = fc.oneof(
    fc.string({ unit: 'grapheme' }),
    fc.string({ unit: 'binary' }),
    fc.constantFrom(
      '\u001b[1m',
      '\u001b[38;5;12m',
      '\u001b[0m',
      '\u001b[2K',
      '\u001b',
      '\u200d',
      '\ufe0f',
      '\u20e3',
    ),
    fc.constantFrom('│', '─', '…', '±', '°', '→', '©', '®', '7', '#', '↔', '▲', '◽', 'é', 'e\u0301'),
  );
  fc.assert(
    fc.property(fc.array(pieces, { maxLength: 12 }), (parts) => {
      const text = parts.join('');
      expect(widthOf(text)).toBe(stringWidth(text));
    }),
    { seed: 20261125, numRuns: 3000 },
  );
});
