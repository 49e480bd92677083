/** Whether a hold can be released by whoever is at the bench, told before they try. */

import type { Problem } from '../base/problem.js';
import type { World } from '../session/ports.js';
import { decide } from '../unit/decide.js';
import type { BenchState } from './state.js';

/** What a refusal would say; undefined where nothing but a PIN or a picture is wanting. */
export function whyNotReleased(state: BenchState, world: World, step: string): Problem | undefined {
  if (!world.open) return undefined;
  const { now, bench, rules, instruments } = world;
  const { person, inHand } = state;
  const around = { now, bench, person, inHand, workshop: rules, instruments };
  const decision = decide(world.open.state, { do: 'release', step }, around);
  if (decision.kind !== 'refused' || GIVEN_WITH_IT.has(decision.problem.id)) return undefined;
  return decision.problem;
}

const GIVEN_WITH_IT: ReadonlySet<string> = new Set(['build.pin-needed', 'build.evidence-needed']);
