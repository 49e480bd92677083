/** Lengths that form no figure, or one without an inside, are an answer ("impossible"), never an exception. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { solveSquare } from '../../src/measure/square.js';

const length = fc.oneof(
  fc.constantFrom(0, 0.5, 1, 700, 1000, 1220.5, 10_000),
  fc.integer({ min: 0, max: 6000 }).map((half) => half / 2),
);
const reading = length.map((value) => [value]);
const set = fc.record(
  {
    top: reading,
    bottom: reading,
    left: reading,
    right: reading,
    bl_tr: reading,
    br_tl: reading,
  },
  { requiredKeys: [] },
);

it('any six lengths are judged without an exception', () => {
  fc.assert(
    fc.property(set, (measured) => {
      expect(() => solveSquare(measured, { nominal: { w: 1000, h: 700 } })).not.toThrow();
    }),
    { seed: 20261125, numRuns: 800 },
  );
});
