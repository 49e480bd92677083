import fc from 'fast-check';
import { expect, test } from 'vitest';
import { name } from '../../src/base/schemas.js';
import { isName } from '../../src/base/text.js';

test('a name is a name by the schema and without it', () => {
  const near = fc.string({
    unit: fc.constantFrom('a', 'Z', '0', '.', '-', '_', '/', ' ', '\n', 'é'),
    maxLength: 8,
  });
  const long = fc.string({ unit: fc.constantFrom('a', '.'), minLength: 55, maxLength: 65 });
  fc.assert(
    fc.property(fc.oneof(near, long, fc.string()), (text) => {
      expect(isName(text)).toBe(name.safeParse(text).success);
    }),
    { seed: 20261125, numRuns: 3000 },
  );
});
