import type { Problem } from '../base/problem.js';
import { procedureProblem } from './messages.js';
import type { Procedure } from './model.js';

/** Unknown stages in `after`, cycles, and stages listed before one that they come after. */
export function stageProblems(procedure: Procedure): Problem[] {
  const place = new Map(procedure.stages.map((stage, index) => [stage.id, index]));
  const found: Problem[] = [];
  for (const [index, stage] of procedure.stages.entries())
    for (const before of stage.after) {
      const at = place.get(before);
      if (at === undefined)
        found.push(procedureProblem('procedure.stage-unknown', { stage: stage.id, before }, stage.place));
      else if (comesAfter(procedure, before).has(stage.id))
        found.push(procedureProblem('procedure.stage-cycle', { stage: stage.id, before }, stage.place));
      else if (at > index)
        found.push(procedureProblem('procedure.stage-order', { stage: stage.id, before }, stage.place));
    }
  return found;
}

/** Every stage that must be done before `stage` starts, transitively. */
export function comesAfter(
  procedure: { readonly stages: readonly { readonly id: string; readonly after: readonly string[] }[] },
  stage: string,
): Set<string> {
  const after = new Map(procedure.stages.map(({ id, after }) => [id, after]));
  const before = new Set<string>();
  const visit = (id: string) => {
    for (const next of after.get(id) ?? [])
      if (!before.has(next)) {
        before.add(next);
        visit(next);
      }
  };
  visit(stage);
  return before;
}

/** `after` of each kept stage, followed through stages that are dropped. */
export function thinned(procedure: Procedure, kept: ReadonlySet<string>): Map<string, string[]> {
  const after = new Map(procedure.stages.map((stage) => [stage.id, stage.after]));
  const through = (id: string): string[] =>
    (after.get(id) ?? []).flatMap((before) => (kept.has(before) ? [before] : through(before)));
  return new Map([...kept].map((id) => [id, [...new Set(through(id))]]));
}

// The first step of every unit of a procedure, found without making a route.

export interface FirstStep {
  readonly base: string;
  /** Applies to any unit: the unit id is left out of the title. */
  readonly title: string;
  readonly stage: string;
}

/** Undefined if it depends on the unit: the first step is conditional, per item, or has numbers in its title. */
export function firstStep(procedure: Procedure): FirstStep | undefined {
  const stage = procedure.stages[0];
  const step = stage?.steps[0];
  if (!stage || step?.each !== 'unit' || step.when) return undefined;
  const pieces = step.title.pieces.map((piece) =>
    typeof piece === 'string' ? piece : piece.text.trim() === 'unit.id' ? NAMELESS : undefined,
  );
  return pieces.includes(undefined) ? undefined : { base: step.id, title: pieces.join(''), stage: stage.id };
}

/** Stands for the unit id in a title that applies to several units. */
export const NAMELESS = '…';
