/** The names that formulas of a step may use: those of the unit, and of the light or divider the step is done for. */
import { FormulaSpace } from '../ground/formula.js';
import { CONTEXT_NAMES, DIVIDER_NAMES, LIGHT_NAMES } from '../window/context.js';
import type { Each } from './schema.js';

/** What a step is repeated for. Steps of one family are walked item by item: first all for L1, then all for L2. */
export type Family = 'unit' | 'light' | 'divider';

export const familyOf = (each: Each): Family => (each === 'unit' || each === 'divider' ? each : 'light');

const NAMES = {
  unit: CONTEXT_NAMES,
  light: { ...CONTEXT_NAMES, ...LIGHT_NAMES },
  divider: { ...CONTEXT_NAMES, ...DIVIDER_NAMES },
} as const;

// Registering the language's functions takes some 20 ms, so each space is made once, when it is first wanted.
const made = new Map<Family, FormulaSpace>();

export function spaceFor(family: Family): FormulaSpace {
  let space = made.get(family);
  if (!space) {
    space = new FormulaSpace(NAMES[family]);
    made.set(family, space);
  }
  return space;
}
