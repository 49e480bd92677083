/** The state of a unit: what its events have left behind, judged. It holds all that a decision needs of the unit. */
import type { Problem } from '../base/problem.js';
import type { Route } from '../procedure/types.js';
import type { JournalEvent } from './events.js';
import type { FoldState } from './foldstate.js';
import type { OrderView, SnagBlocks } from './order.js';
import type { Snag, StepState, UnitStanding } from './types.js';

interface DerivedState {
  readonly marks: FoldState;
  readonly view: OrderView;
  readonly blocks: SnagBlocks;
  /** When the timers of steps that are not done end: between two of these, time changes nothing. */
  readonly ends: readonly string[];
}

export interface UnitState {
  readonly unit: string;
  readonly job: string;
  readonly route: Route;
  readonly events: readonly JournalEvent[];
  readonly steps: ReadonlyMap<string, StepState>;
  readonly snags: readonly Snag[];
  readonly standing: UnitStanding;
  readonly parked: boolean;
  readonly finished: boolean;
  readonly scrapped: boolean;
  /** Ids of order-check problems that a named person let pass. */
  readonly overrides: readonly string[];
  /** Problems of the order check that nobody has overridden: the unit is refused while there is one. */
  readonly orderProblems: readonly Problem[];
  /** The moment this state was worked out for: the last event's, unless `asOf` was given another. */
  readonly now: string;
  /** Unit that replaces this one, once it is scrapped. */
  readonly replacement?: string;
  /** Steps done of steps in the route. */
  readonly done: number;
  /** Timers that run: cure and open times, with the UTC time at which they end. */
  readonly timers: readonly {
    readonly step: string;
    readonly kind: 'not-before' | 'not-after';
    readonly until: string;
    readonly text: string;
  }[];
  /** What the fold worked out on its way here, and the next event or decision starts from. */
  readonly derived: DerivedState;
}
