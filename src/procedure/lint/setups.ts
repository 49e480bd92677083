/** Steps that need a set-up: one that the workshop does not have can never be proven, so the step could never be done. */
import type { Problem } from '../../ground/problem.js';
import { raise } from '../messages.js';
import { type Procedure, stepsOf } from '../model.js';

/** @param known ids of shared/setups.yaml; without that file no first-off is asked for, and nothing is wrong */
export function setupProblems(procedure: Procedure, known?: readonly string[]): Problem[] {
  if (!known) return [];
  return stepsOf(procedure).flatMap(({ id, setup, place }) =>
    setup === undefined || known.includes(setup)
      ? []
      : [
          raise(
            'procedure.setup-unknown',
            `Step "${id}" needs the set-up "${setup}".`,
            place,
            `Add it to shared/setups.yaml, or name one that is there: ${known.join(', ') || 'none is'}.`,
          ),
        ],
  );
}
