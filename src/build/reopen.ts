/** What making a step again re-opens: all that rests on it, and on what that makes, and so on; and single checks that rest on it alone. */
import type { Route } from '../procedure/types.js';
import { graphOf } from './graph.js';
import type { UnitState } from './unitstate.js';

export interface Reopened {
  readonly step: string;
  /** One plain sentence: what it rests on, and who makes that. */
  readonly why: string;
  /** Only these checks are asked again; absent where the whole step is. */
  readonly checks?: readonly string[];
}

/** All that rests on a step, whether begun or not, in walking order; without the step itself. */
export function restingOn(route: Route, stepId: string): Reopened[] {
  const { nodes } = graphOf(route);
  const whole = new Map<string, string>();
  const single = new Map<string, { why: string; checks: string[] }>();
  const queue = [stepId];
  const seen = new Set(queue);
  for (const at of queue) {
    const node = nodes.get(at);
    if (!node) continue;
    const sentence = (id: string, feature: string) =>
      `${nodes.get(id)!.step.title}: rests on ${feature}, made at ${node.step.title}.`;
    for (const { step, feature } of node.carries) {
      if (seen.has(step)) continue;
      seen.add(step);
      whole.set(step, sentence(step, feature));
      queue.push(step);
    }
    for (const { step, feature, check } of node.carriesChecks) {
      const entry = single.get(step) ?? { why: sentence(step, feature), checks: [] };
      if (!entry.checks.includes(check)) entry.checks.push(check);
      single.set(step, entry);
    }
  }
  const out: Reopened[] = [];
  for (const { id } of route.steps) {
    if (id === stepId) continue;
    const why = whole.get(id);
    if (why !== undefined) out.push({ step: id, why });
    else if (single.has(id)) out.push({ step: id, ...single.get(id)! });
  }
  return out;
}

/** What reworking a step would re-open as the unit stands: only what has been begun, with why. */
export function wouldReopen(state: UnitState, stepId: string): Reopened[] {
  return restingOn(state.route, stepId).filter(({ step, checks }) => {
    const at = state.steps.get(step);
    if (at?.madeAt === undefined) return false;
    return !checks || at.checks.some((check) => checks.includes(check.id) && check.answered);
  });
}
