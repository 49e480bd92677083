/** What is told at once when something came from the shop while nobody pressed a key. */

import type { World } from '../session/ports.js';
import { say } from './navigate.js';
import type { BenchState } from './state.js';
import { problemSaid, told } from './words/told.js';

export function withNews(state: BenchState, before: World, world: World): BenchState {
  return withTrouble(withUnit(withFiles(state, world), before, world), world);
}

/** Other files, by whom and why; an instrument in hand that is in them no more is in hand no more. */
function withFiles(state: BenchState, world: World): BenchState {
  const { shop, instruments } = world;
  const words = told(world);
  const edition = shop?.edition;
  if (!edition || edition.n === state.editionTold) return state;
  const { inHand, ...rest } = state;
  const isGone = inHand !== undefined && !instruments.some(({ id }) => id === inHand);
  return say(
    { ...(isGone ? rest : state), editionTold: edition.n },
    'ask',
    words('files-edition', { n: edition.n, by: edition.by, reason: edition.reason }),
    isGone ? words('tool-gone', { id: inHand }) : undefined,
  );
}

function withUnit(state: BenchState, before: World, world: World): BenchState {
  const { open } = world;
  if (!open || open.readOnly !== undefined || before.open?.readOnly === undefined) return state;
  if (before.open.id !== open.id || before.open.job !== open.job) return state;
  return say(state, 'good', told(world)('yours', { unit: open.id }));
}

/** What came of answers that were given is told over what stands there of them. */
function withTrouble(state: BenchState, world: World): BenchState {
  const { trouble } = world;
  if (!trouble?.id.startsWith('shop.') || trouble.text === state.troubleTold) return state;
  return { ...say(state, 'ask', ...problemSaid(trouble, world)), troubleTold: trouble.text };
}
