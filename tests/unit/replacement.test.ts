/** Names of units that stand in for scrapped ones. */
import { expect, it } from 'vitest';
import { replacedBy, replacementOf } from '../../src/unit/replacement.js';

it.each([
  ['P02-1', 'P02-1R1', 'P02-1'],
  ['P02-1R1', 'P02-1R2', 'P02-1'],
  ['P02-1R9', 'P02-1R10', 'P02-1'],
  ['R7-2', 'R7-2R1', 'R7-2'],
])('%s is built again as %s', (unit, again, listed) => {
  expect(replacementOf(unit)).toBe(again);
  expect(replacedBy(again)).toEqual({ replaces: unit, listed });
});

it.each(['P02-1', 'P02', 'R1', 'BAR1', 'P02-1R0', 'P02-1R', ''])('"%s" stands in for nothing', (unit) => {
  expect(replacedBy(unit)).toBeUndefined();
});
