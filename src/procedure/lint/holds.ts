/** Holds: each is used, and somebody in the workshop can release it. */
import type { Problem } from '../../ground/problem.js';
import { raise } from '../messages.js';
import { type Procedure, stepsOf } from '../model.js';

export interface LintPeople {
  readonly persons: readonly { readonly id: string; readonly levels: Readonly<Record<string, number>> }[];
  /** The workshop lets one person release their own work by a rule. */
  readonly solo: boolean;
}

/** Level from which a person may release holds of a stage. */
const MAY_RELEASE = 4;

export function holdProblems(procedure: Procedure, people?: LintPeople): Problem[] {
  const steps = stepsOf(procedure).filter((step) => step.hold !== undefined);
  const used = new Set(steps.map((step) => step.hold));
  const unused = [...procedure.holds.values()]
    .filter((hold) => !used.has(hold.id))
    .map((hold) => raise('procedure.hold-unused', `No step stops at hold "${hold.id}".`, hold.place));
  if (!people) return unused;
  const stuck = steps.flatMap((step) => {
    const hold = procedure.holds.get(step.hold ?? '');
    if (!hold) return [];
    const releasers = people.persons.filter(
      ({ levels }) => (levels[step.stage] ?? levels.all ?? 0) >= MAY_RELEASE,
    );
    if (releasers.length === 0)
      return [
        raise(
          'procedure.hold-unreleasable',
          `Nobody has level ${MAY_RELEASE} for stage "${step.stage}", so hold "${hold.id}" of step "${step.id}" is never released.`,
          step.place,
        ),
      ];
    if (hold.notSamePerson && people.persons.length < 2 && !people.solo)
      return [
        raise(
          'procedure.hold-unreleasable',
          `One person alone does step "${step.id}" and may not release its hold "${hold.id}".`,
          step.place,
        ),
      ];
    return [];
  });
  return [...unused, ...stuck];
}
