/** A unit's judged state: everything a decision needs to know about the unit. */
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
  /** End times of unfinished steps' timers: between two of these, time changes nothing. */
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
  /** Ids of the order-check problems overridden by a named person. */
  readonly overrides: readonly string[];
  /** Order-check problems not overridden; the unit is refused while any remain. */
  readonly orderProblems: readonly Problem[];
  /** The time this state was computed for: the last event's, unless `asOf` was given another. */
  readonly now: string;
  readonly replacement?: string;
  readonly done: number;
  /** Running cure and open times, with their UTC end times. */
  readonly timers: readonly {
    readonly step: string;
    readonly kind: 'not-before' | 'not-after';
    readonly until: string;
    readonly text: string;
  }[];
  /** Intermediate results of the fold; the next event or decision starts from them. */
  readonly derived: DerivedState;
}
