/** The quick test of canonical form, held against the form itself. */
import canonicalize from 'canonicalize';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { canonicalText, isCanonical } from '../../src/unit/chain.js';

const byForm = (text: string): boolean => {
  try {
    return canonicalText(JSON.parse(text)) === text;
  } catch {
    return false;
  }
};
const quick = (text: string): boolean => isCanonical(text, JSON.parse(text));

/** Other spellings of a number, some as long as the canonical one or shorter. */
const spellings = (value: number): string[] => [
  String(value),
  value.toExponential(),
  value.toExponential().replace('e+', 'e'),
  value.toExponential().toUpperCase(),
  value.toPrecision(17),
  value.toPrecision(21),
  ...(/e/.test(String(value))
    ? [value.toExponential(20), `${value}`]
    : [`${value}e0`, Number.isInteger(value) ? `${value}.0` : `${value}0`]),
];

it.each([[undefined], [() => 1], [Symbol('s')]])('there is no form of %s', (value) => {
  expect(() => canonicalText(value)).toThrow(new TypeError('the value has no JSON form'));
});

describe('the quick test of canonical form', () => {
  it.each([
    ['{"a":1e2}', '{"a":100}'],
    ['{"a":12e2}', '{"a":1200}'],
    ['{"a":5e-2}', '{"a":0.05}'],
    ['{"a":-0}', '{"a":0}'],
    ['{"a":1e21}', '{"a":1e+21}'],
    ['{"a":0.30000000000000005}', '{"a":0.30000000000000004}'],
    ['{"a":1,"a":1}', '{"a":1}'],
    ['{"b":1,"a":1}', '{"a":1,"b":1}'],
    ['{"a": 100}', '{"a":100}'],
    ['{"a": 1e2}', '{"a":100}'],
    ['{"9":1,"10":1}', '{"10":1,"9":1}'],
    ['["\\u0041"]', '["A"]'],
    ['["\\/"]', '["/"]'],
  ])('knows %s from %s', (other, canonical) => {
    expect(quick(other)).toBe(false);
    expect(quick(canonical)).toBe(true);
  });

  it('says what the form itself says, of any value in any spelling of its numbers', () => {
    const value = fc.jsonValue({ maxDepth: 3 });
    const number = fc.oneof(
      fc.double({ noNaN: true, noDefaultInfinity: true }),
      fc.integer(),
      fc.integer({ min: -50, max: 50 }).map((n) => n * 100),
      fc.integer({ min: -999, max: 999 }).map((n) => n / 10_000),
    );
    fc.assert(
      fc.property(value, number, fc.nat(7), fc.nat(3), (some, n, spelling, blank) => {
        const inner = canonicalText(some);
        const written = `{"a":${spellings(n)[spelling]},"b":${inner}${' '.repeat(blank === 0 ? 1 : 0)}}`;
        expect(quick(written), written).toBe(byForm(written));
        const plain = JSON.stringify(some);
        expect(quick(plain), plain).toBe(byForm(plain));
      }),
      { seed: 8785, numRuns: 3000 },
    );
  });
});

describe('the canonical form', () => {
  it('is the library\u2019s, of any value and in any order of members', () => {
    const key = fc.oneof(
      fc.string(),
      fc.constantFrom('', '1', '10', '9', '01', 'toJSON', '__proto__', '\u20ac'),
    );
    const { tree } = fc.letrec((tie) => ({
      leaf: fc.oneof(
        fc.string({ unit: 'binary' }),
        fc.constantFrom<unknown>('\ud800', 'x\udc00', '\\ud', undefined, Number.NaN, -0, 1e21, 1e-7),
        fc.double(),
        fc.boolean(),
        fc.constant(null),
      ),
      tree: fc.oneof(
        { depthSize: 'small' },
        tie('leaf'),
        fc.array(tie('tree'), { maxLength: 4 }),
        fc.dictionary(key, tie('tree'), { maxKeys: 5, noNullPrototype: true }),
      ),
    }));
    const said = (form: (value: unknown) => unknown, value: unknown): unknown => {
      try {
        return form(value) ?? 'refused';
      } catch {
        return 'refused';
      }
    };
    let refused = 0;
    fc.assert(
      fc.property(tree, (value) => {
        const library = said(canonicalize, value);
        if (library === 'refused') refused += 1;
        expect(said(canonicalText, value)).toBe(library);
      }),
      { seed: 8785, numRuns: 3000 },
    );
    expect(refused).toBeGreaterThan(100);
  });

  it('refuses what goes round in a circle, and is no deeper than a text', () => {
    const circle: Record<string, unknown> = {};
    circle.inner = { circle };
    expect(() => canonicalText(circle)).toThrow(TypeError);
    expect(canonicalText(new Date(0))).toBe('"1970-01-01T00:00:00.000Z"');
  });
});
