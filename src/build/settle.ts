/**
 * What a torn write left undone. The events of one decision are written together; where a power cut kept only the first
 * of them, the state says what belongs after it.
 */

import type { EventBody } from './events.js';
import { replacementOf } from './replacement.js';
import type { UnitState } from './unitstate.js';

/** The event that is missing at the end, or nothing: `finished` of a complete unit, `scrapped` after that decision. */
export function missingEnd(state: UnitState): EventBody | undefined {
  if (state.scrapped || state.finished) return undefined;
  const scrap = state.snags.find(({ open, decided }) => open && decided?.disposition === 'scrap');
  if (scrap)
    return { kind: 'scrapped', reason: scrap.decided!.reason, replacement: replacementOf(state.unit) };
  const steps = state.route.steps.length;
  const complete =
    state.done === steps &&
    !state.parked &&
    state.orderProblems.length === 0 &&
    state.snags.every(({ open }) => !open);
  if (!complete) return undefined;
  const checks = state.route.steps.reduce((sum, step) => sum + step.checks.length, 0);
  return { kind: 'finished', steps, checks };
}
