/** Builds a whole unit through the same decision as the bench, with a clock that moves as it must. */

import { asIfWritten } from '../../src/unit/aswritten.js';
import { type DriverOptions, nextMove } from '../../src/unit/autopilot.js';
import { decide } from '../../src/unit/decide.js';
import { apply } from '../../src/unit/fold.js';
import type { DecisionContext } from '../../src/unit/types.js';
import type { UnitState } from '../../src/unit/unitstate.js';

export interface Built {
  readonly state: UnitState;
  readonly context: DecisionContext;
  readonly actions: number;
}

/** Each answer finds a picture of its own. */
function withNewPicture(context: DecisionContext, n: number): DecisionContext {
  if (!context.evidence) return context;
  const sha256 = n.toString(16).padStart(64, '0');
  return {
    ...context,
    evidence: Object.fromEntries(
      Object.entries(context.evidence).map(([name, each]) => [name, { ...each, sha256 }]),
    ),
  };
}

/** `until` stops early. Throws with what was refused, asked or stuck, so that a failing test says why. */
export function autobuild(
  start: UnitState,
  from: DecisionContext,
  options: DriverOptions = {},
  until: (state: UnitState) => boolean = () => false,
): Built {
  let state = start;
  let context = from;
  for (let actions = 0; actions < 5000; actions += 1) {
    if (until(state)) return { state, context, actions };
    const move = nextMove(state, context, options);
    if (move.kind === 'finished') return { state, context, actions };
    if (move.kind === 'stuck') throw new Error(`stuck: ${move.why}`);
    if (move.kind === 'wait') {
      context = { ...context, now: move.until };
      continue;
    }
    const { action } = move;
    context = withNewPicture(context, actions);
    const decision = decide(state, action, context);
    if (decision.kind !== 'events')
      throw new Error(`${JSON.stringify(action)} by ${context.person}: ${JSON.stringify(decision)}`);
    for (const event of decision.events)
      if (event.kind === 'answered' && event.verdict.outcome !== 'pass')
        throw new Error(`the driver's answer does not pass: ${JSON.stringify({ action, event })}`);
    if (action.do === 'person') context = { ...context, person: decision.by };
    else if (action.do === 'instrument') {
      const tool = context.instruments.find(({ id }) => id === action.instrument)!;
      context = { ...context, inHand: tool.id };
    }
    state = apply(state, ...asIfWritten(state, decision.events, decision.by, context));
    context = { ...context, now: new Date(Date.parse(context.now) + 40_000).toISOString() };
  }
  throw new Error('no end after 5000 actions');
}
