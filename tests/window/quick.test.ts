/** The quick form of a formula gives what the expression library gives, or there is none. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { FormulaSpace, isProblem } from '../../src/ground/formula.js';
import { quickly } from '../../src/window/quick.js';
import { formulasOf } from '../../src/window/setformulas.js';
import { SETS } from './kit.js';

const NAMES = { a: 'double', b: 'double', yes: 'bool', g: { x: 'double', y: 'double' } } as const;
const space = new FormulaSpace(NAMES);

const number: fc.Arbitrary<string> = fc.letrec<{ sum: string; choice: string }>((tie) => ({
  sum: fc.oneof(
    { maxDepth: 4 },
    fc.constantFrom('a', 'b', 'g.x', 'g.y', '2', '7', '0.5', '3.25'),
    fc
      .tuple(tie('sum'), fc.constantFrom('+', '-', '*', '/', '%'), tie('sum'))
      .map(([l, op, r]) => `(${l} ${op} ${r})`),
    tie('sum').map((inner) => `-(${inner})`),
    fc
      .tuple(fc.constantFrom('max', 'min', 'hypot'), tie('sum'), tie('sum'))
      .map(([f, l, r]) => `${f}(${l}, ${r})`),
    fc
      .tuple(fc.constantFrom('ceil', 'floor', 'abs', 'round'), tie('sum'))
      .map(([f, inner]) => `${f}(${inner})`),
    fc.tuple(tie('choice'), tie('sum'), tie('sum')).map(([test, l, r]) => `(${test} ? ${l} : ${r})`),
  ),
  choice: fc.oneof(
    { maxDepth: 4 },
    fc.constantFrom('yes', '!yes'),
    fc
      .tuple(tie('sum'), fc.constantFrom('<', '<=', '>', '>='), tie('sum'))
      .map(([l, op, r]) => `(${l} ${op} ${r})`),
    fc
      .tuple(tie('choice'), fc.constantFrom('&&', '||'), tie('choice'))
      .map(([l, op, r]) => `(${l} ${op} ${r})`),
  ),
})).sum;

describe('quick formulas', () => {
  it.each(['g.x.y', 'max(a, b, a)', '[a][0]', 'a *'])(
    'have no form for %s, which the library keeps',
    (text) => {
      expect(quickly(text)).toBeUndefined();
    },
  );

  it('agree with the library on random formulas and values', () => {
    let quick = 0;
    fc.assert(
      fc.property(
        number,
        fc.double({ min: -50, max: 50, noNaN: true }),
        fc.double({ min: -50, max: 50, noNaN: true }),
        fc.boolean(),
        (text, a, b, yes) => {
          const formula = space.compile(text, ['double', 'int']);
          const fast = quickly(text);
          if (isProblem(formula) || !fast) return;
          const values = { a, b, yes, g: { x: a + 1, y: b / 3 } };
          let expected: unknown;
          try {
            expected = formula.run(values);
          } catch {
            return;
          }
          quick++;
          expect(fast(new Map(Object.entries(values))), text).toEqual(expected);
        },
      ),
      { seed: 8, numRuns: 600 },
    );
    expect(quick).toBeGreaterThan(200);
  });
  it('leave whole numbers, lists and texts to the library', () => {
    for (const text of ['1 / 2', '7 % 2', '[a, b]', '"x"', 'a == b', 'g["x"]', 'has(g.x)', 'spread([a])'])
      expect(quickly(text), text).toBeUndefined();
  });
  it('are had for nearly every formula of the shipped sets', () => {
    for (const set of Object.values(SETS)) {
      const all = formulasOf(set.file).map(({ text }) => text);
      expect(all.filter((text) => quickly(text)).length / all.length).toBeGreaterThan(0.95);
    }
  });
  it('fail where a name has no value, as the library does', () => {
    expect(() =>
      quickly('g.z + a')!(
        new Map<string, unknown>([
          ['a', 1],
          ['g', {}],
        ]),
      ),
    ).toThrow();
  });
});
