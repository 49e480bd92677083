/** Job revision mid-build: what it changes is redone just like rework; everything else stays done. */
import type { Route, RouteStep } from '../procedure/types.js';
import type { EventBody } from './events.js';
import { firstStage } from './graph.js';
import { atBench, levelProblem, RELEASES } from './people.js';
import type { Decision, DecisionContext } from './types.js';
import type { UnitState } from './unitstate.js';

/** Steps in both routes whose work, checks (numbers, limits, wording), hold, timers, set-up or dependencies differ. */
export function changedSteps(old: Route, next: Route): string[] {
  const before = new Map(old.steps.map((step) => [step.id, essence(step)]));
  return next.steps
    .filter((step) => (before.get(step.id) ?? essence(step)) !== essence(step))
    .map(({ id }) => id);
}

/** What a step requires of the work. Explanations, hints and practice questions may change without redoing anything. */
function essence({
  id,
  do: sentences,
  makes,
  rests,
  checks,
  hold,
  notBefore,
  notAfter,
  setup,
}: RouteStep): string {
  const asked = checks.map(({ how: _how, spot: _spot, explains: _explains, ...rest }) => rest);
  return JSON.stringify([id, sentences, makes, rests, asked, hold, notBefore, notAfter, setup]);
}

/** Replaces the frozen sources; steps in `changed` must be redone. Fold with the new route afterwards. */
export function decideRevision(
  state: UnitState,
  next: Route,
  sources: Readonly<Record<string, string>>,
  reason: string,
  context: DecisionContext,
): Decision {
  const found = atBench(context);
  if ('problem' in found) return { kind: 'refused', problem: found.problem };
  const level = levelProblem(found.person, firstStage(state.route), RELEASES, 'revising a unit', context);
  if (level) return { kind: 'refused', problem: level };
  const event: EventBody = {
    kind: 'revised',
    sources: { ...sources },
    procedure: { name: next.procedure.name, version: next.procedure.version },
    changed: changedSteps(state.route, next).filter((id) => state.steps.get(id)?.madeAt !== undefined),
    reason,
  };
  return { kind: 'events', events: [event], by: found.person.id };
}

// Names of units built to replace scrapped ones.

/** `P02-1` -> `P02-1R1` -> `P02-1R2`. */
export function replacementOf(unit: string): string {
  const again = AGAIN.exec(unit);
  return again ? `${again[1]}R${Number(again[2]) + 1}` : `${unit}R1`;
}

/** The unit that one with this name replaces, and the original listed in the job; undefined for any other name. */
export function replacedBy(unit: string): { readonly replaces: string; readonly listed: string } | undefined {
  const [, listed, count] = AGAIN.exec(unit) ?? [];
  if (listed === undefined || Number(count) < 1) return undefined;
  return { listed, replaces: Number(count) === 1 ? listed : `${listed}R${Number(count) - 1}` };
}

/** A listed unit's id ends in its number. */
const AGAIN = /^(.*-\d+)R(\d+)$/;
