/** Builds a whole unit through the same decision as the bench, with a clock that moves as it must. */

import { type DriverOptions, nextMove } from '../../src/unit/autopilot.js';
import { asIfWritten, decide } from '../../src/unit/decide.js';
import { apply } from '../../src/unit/fold.js';
import type { Surroundings } from '../../src/unit/types.js';
import type { UnitState } from '../../src/unit/unitstate.js';

export interface Built {
  readonly state: UnitState;
  readonly around: Surroundings;
  readonly actions: number;
}

/** `until` stops early. Throws with what was refused, asked or stuck, so that a failing test says why. */
export function autobuild(
  start: UnitState,
  from: Surroundings,
  options: DriverOptions = {},
  until: (state: UnitState) => boolean = () => false,
): Built {
  let state = start;
  let around = from;
  for (let actions = 0; actions < 5000; actions += 1) {
    if (until(state)) return { state, around, actions };
    const move = nextMove(state, around, options);
    if (move.kind === 'finished') return { state, around, actions };
    if (move.kind === 'stuck') throw new Error(`stuck: ${move.why}`);
    if (move.kind === 'wait') {
      around = { ...around, now: move.until };
      continue;
    }
    const { action } = move;
    const decision = decide(state, action, around);
    if (decision.kind !== 'events')
      throw new Error(`${JSON.stringify(action)} by ${around.person}: ${JSON.stringify(decision)}`);
    for (const event of decision.events)
      if (event.kind === 'answered' && event.verdict.outcome !== 'pass')
        throw new Error(`the driver's answer does not pass: ${JSON.stringify({ action, event })}`);
    if (action.do === 'person') around = { ...around, person: decision.by };
    else if (action.do === 'instrument') {
      const tool = around.instruments.find(({ id }) => id === action.instrument)!;
      around = { ...around, inHand: { ...around.inHand, [tool.kind]: tool.id } };
    }
    state = apply(state, ...asIfWritten(state, decision.events, decision.by, around));
    around = { ...around, now: new Date(Date.parse(around.now) + 40_000).toISOString() };
  }
  throw new Error('no end after 5000 actions');
}
