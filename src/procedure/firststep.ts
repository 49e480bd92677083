/** The step at which every unit of a procedure begins, told without working out a route. */
import type { Procedure } from './model.js';

export interface FirstStep {
  readonly base: string;
  /** For any unit: its id, where the title names it, is left out. */
  readonly title: string;
  readonly stage: string;
}

/** Undefined where it depends on the unit: the first step has a condition, is not the unit's as a whole, or is named for its numbers. */
export function firstStep(procedure: Procedure): FirstStep | undefined {
  const stage = procedure.stages[0];
  const step = stage?.steps[0];
  if (!stage || step?.each !== 'unit' || step.when) return undefined;
  const pieces = step.title.pieces.map((piece) =>
    typeof piece === 'string' ? piece : piece.text.trim() === 'unit.id' ? NAMELESS : undefined,
  );
  return pieces.includes(undefined) ? undefined : { base: step.id, title: pieces.join(''), stage: stage.id };
}

/** What stands for a unit's id in the title of a step that is told of several units. */
export const NAMELESS = '…';
