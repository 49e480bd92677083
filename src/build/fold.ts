/** The state of a unit follows from its events alone. */
import type { Problem } from '../ground/problem.js';
import type { Route } from '../procedure/types.js';
import type { JournalEvent } from './events.js';
import { absorb, copyMarks, emptyMarks } from './marks.js';
import { stateAt, stateOf } from './state.js';
import type { UnitState } from './unitstate.js';

export interface FoldOptions {
  /** Problems of the order check (the set-out's): the unit is refused until each is overridden by a named person. */
  readonly problems?: readonly Problem[];
  /** The moment for which timers are judged; the last event's time where it is absent. */
  readonly now?: string;
}

/** All events, oldest first, to the state they leave. Pure; about 1 ms for a unit of 400 events. */
export function fold(route: Route, events: readonly JournalEvent[], options: FoldOptions = {}): UnitState {
  const marks = emptyMarks(route, options.problems ?? []);
  for (const event of events) absorb(marks, event);
  return stateOf(marks, options.now);
}

/** One event more: the same state as a fold of all of them from the beginning. */
export function apply(state: UnitState, ...events: readonly JournalEvent[]): UnitState {
  const marks = copyMarks(state.derived.marks);
  for (const event of events) absorb(marks, event);
  return stateOf(marks);
}

/** The same unit at another moment: timers run out, nothing else changes. */
export function asOf(state: UnitState, now: string): UnitState {
  return now === state.now ? state : stateAt(state, now);
}
