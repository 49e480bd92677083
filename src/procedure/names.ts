/** Ids of a procedure: each used once, and every name that a step gives is one that the procedure lists. */
import type { Place, Problem } from '../ground/problem.js';
import { raise } from './messages.js';
import { EVERYTHING, type Procedure, stepsOf } from './model.js';

/** Two stages, steps, or checks of a step with one id. */
export function idProblems(procedure: Procedure): Problem[] {
  const found: Problem[] = [];
  const once = (kind: string, items: readonly { id: string; place: Place }[]) => {
    const seen = new Map<string, Place>();
    for (const { id, place } of items) {
      const first = seen.get(id);
      if (first)
        found.push(raise('procedure.twice', `${kind} "${id}" is already in line ${first.line ?? 0}.`, place));
      else seen.set(id, place);
    }
  };
  once('Stage', procedure.stages);
  const steps = stepsOf(procedure);
  once('Step', steps);
  for (const step of steps) once(`Check of step "${step.id}",`, step.checks);
  return found;
}

/** Features and holds that the procedure does not list. */
export function nameProblems(procedure: Procedure): Problem[] {
  const found: Problem[] = [];
  for (const step of stepsOf(procedure)) {
    const named = [
      ...step.makes,
      ...[...step.rests, ...step.checks.flatMap((check) => check.rests)].filter((f) => f !== EVERYTHING),
      ...[step.notBefore, step.notAfter].flatMap((timer) => (timer ? [timer.feature] : [])),
    ];
    for (const feature of new Set(named))
      if (!procedure.features.has(feature))
        found.push(
          raise('procedure.feature-unknown', `Step "${step.id}": no feature "${feature}".`, step.place),
        );
    if (step.hold !== undefined && !procedure.holds.has(step.hold))
      found.push(raise('procedure.hold-unknown', `Step "${step.id}": no hold "${step.hold}".`, step.place));
  }
  return found;
}
