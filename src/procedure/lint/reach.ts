/** Steps and checks that no kind of unit gets, and what goes wrong when routes are made for every kind. */
import type { Problem } from '../../ground/problem.js';
import { sampleUnits } from '../kinds.js';
import { raise } from '../messages.js';
import { type Procedure, stepsOf } from '../model.js';
import { makeRoute } from '../route.js';
import type { Route } from '../types.js';
import { figuresAsked } from './figures.js';

export function reachProblems(procedure: Procedure, routes: readonly Route[]): Problem[] {
  const reached = new Set<string>();
  const reach = ({ steps }: Route) => {
    for (const step of steps) {
      reached.add(step.base);
      for (const check of step.checks) reached.add(`${step.base}/${check.id.split('/').at(-1)}`);
    }
  };
  routes.forEach(reach);
  const found = new Map<string, Problem>();
  for (const contexts of sampleUnits(figuresAsked(procedure).keys())) {
    const route = makeRoute(procedure, contexts);
    if (route.ok) reach(route.value);
    else for (const problem of route.problems) found.set(`${problem.id} ${problem.text}`, problem);
  }
  // Where no route can be made, what is not reached says nothing.
  if (reached.size === 0) return [...found.values()];
  const unreached = stepsOf(procedure).flatMap((step) => {
    if (!reached.has(step.id))
      return [raise('procedure.unreachable', `No kind of unit gets step "${step.id}".`, step.place)];
    return step.checks
      .filter((check) => !reached.has(`${step.id}/${check.id}`))
      .map((check) =>
        raise('procedure.unreachable', `No kind of unit gets check "${step.id}/${check.id}".`, check.place),
      );
  });
  return [...found.values(), ...unreached];
}
