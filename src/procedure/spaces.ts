/** The names that formulas of a step may use: those of the unit, and of the light or divider the step is done for. */
import { FormulaSpace } from '../ground/formula.js';
import { CONTEXT_NAMES, DIVIDER_NAMES, LIGHT_NAMES } from '../window/context.js';
import type { Each } from './schema.js';

/** What a step is repeated for. Steps of one family are walked item by item: first all for L1, then all for L2. */
export type Family = 'unit' | 'light' | 'divider';

export const familyOf = (each: Each): Family => (each === 'unit' || each === 'divider' ? each : 'light');

/** A fresh space; making one takes a few milliseconds, so a reader makes one a family and keeps it. */
export function spaceFor(family: Family): FormulaSpace {
  if (family === 'light') return new FormulaSpace({ ...CONTEXT_NAMES, ...LIGHT_NAMES });
  if (family === 'divider') return new FormulaSpace({ ...CONTEXT_NAMES, ...DIVIDER_NAMES });
  return new FormulaSpace(CONTEXT_NAMES);
}

/** Makes each space when it is first wanted. */
export function spaces(): (family: Family) => FormulaSpace {
  const made = new Map<Family, FormulaSpace>();
  return (family) => {
    let space = made.get(family);
    if (!space) {
      space = spaceFor(family);
      made.set(family, space);
    }
    return space;
  };
}
