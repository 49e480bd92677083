/** Lines of a text document, held against the plain rule: word by word, sign by sign. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { wrapText } from '../../src/record/text.js';

it('breaks at blanks, cuts what is longer than a line, and loses no sign', () => {
  const word = fc.string({ unit: fc.constantFrom('a', 'b', 'é', '\u{1d400}', '-'), maxLength: 14 });
  fc.assert(
    fc.property(fc.array(word, { maxLength: 12 }), fc.integer({ min: 3, max: 20 }), (words, width) => {
      const text = words.join(' ');
      const made = wrapText(text, width);
      for (const line of made) expect([...line].length).toBeLessThanOrEqual(width);
      expect(made.join('').replaceAll(' ', '')).toBe(text.replaceAll(' ', ''));
      // No line could have taken the first word of the next.
      for (const [i, line] of made.entries()) {
        const next = made[i + 1]?.split(' ')[0];
        if (next !== undefined && next !== '' && text.split(/ +/).includes(next))
          expect([...line].length + 1 + [...next].length).toBeGreaterThan(width);
      }
    }),
    { seed: 72, numRuns: 500 },
  );
});

it.each<[string, number, string[]]>([
  ['', 10, ['']],
  ['one two', 10, ['one two']],
  ['one  two', 10, ['one two']],
  ['one two three', 7, ['one two', 'three']],
  ['abcdefghijk', 4, ['abcd', 'efgh', 'ijk']],
  ['a abcdefgh b', 4, ['a', 'abcd', 'efgh', 'b']],
])('%j in %i', (text, width, lines) => {
  expect(wrapText(text, width)).toEqual(lines);
});
