/** What the bench needs of the world. Files, clock and locks are behind this; the bench itself only decides and draws. */
import type { Action } from '../build/actions.js';
import type { StageRow } from '../build/board.js';
import type { JournalEvent } from '../build/events.js';
import type { Question, UnitStanding, UnitState } from '../build/types.js';
import type { WorkshopRules } from '../build/workshop.js';
import type { Problem } from '../ground/problem.js';
import type { Instrument } from '../measure/types.js';
import type { Route } from '../procedure/types.js';
import type { SetOut } from '../window/types.js';

/** One line of the board. */
export interface BoardRow {
  readonly unit: string;
  readonly job: string;
  readonly standing: UnitStanding;
  readonly done: number;
  readonly total: number;
  /** `900 x 1200`. */
  readonly size: string;
  /** "hinged left, seen from outside, opens out". */
  readonly sentence: string;
  /** What it waits for, or the stage at hand. */
  readonly where: string;
  /** What it is built from that the workshop's files no longer say: job, profileSet, procedure, limits. */
  readonly differs?: readonly string[];
}

/** The languages of a unit's procedure. */
export interface Words {
  /** The procedure's own. */
  readonly own: string;
  readonly others: readonly string[];
  /** The unit's route in another language; undefined where that cannot be given. */
  route(language: string): Route | undefined;
}

/** The unit on the bench. */
export interface OpenUnit {
  readonly id: string;
  readonly job: string;
  readonly state: UnitState;
  readonly setOut: SetOut;
  /** Somebody else writes this unit: it may be looked at. */
  readonly readOnly?: string;
  /** Absent where nothing is translated. */
  readonly words?: Words;
}

/** What is true outside the bench at the moment a key comes. */
export interface World {
  /** UTC, ISO 8601. */
  readonly now: string;
  readonly rules: WorkshopRules;
  readonly bench: string;
  readonly instruments: readonly Instrument[];
  readonly board: readonly BoardRow[];
  /** Steps open or held across begun units, as they were when the board was read. */
  readonly stages?: readonly StageRow[];
  readonly open?: OpenUnit;
}

/** In whose name, and with what, an action is done. */
export interface Hand {
  readonly person: string | undefined;
  readonly inHand: Readonly<Record<string, string>>;
}

export type Acted =
  | { readonly kind: 'done'; readonly events: readonly JournalEvent[] }
  | { readonly kind: 'refused'; readonly problem: Problem }
  | { readonly kind: 'ask'; readonly question: Question }
  /** The disk failed: nothing was written. */
  | { readonly kind: 'failed'; readonly problem: Problem };

export interface Ports {
  /** Present state of things; cheap, since it is read at every key. */
  world(): World;
  /** Opens a unit and claims it for writing; the one open before is let go. */
  open(unit: string): { readonly kind: 'open' } | { readonly kind: 'failed'; readonly problem: Problem };
  /** Decides, and writes what was decided before it returns. */
  act(action: Action, hand: Hand): Acted;
  /** Reads the board (and the open unit) again from disk. */
  refresh(): void;
  /** Reads ahead what opening a unit will need, a piece a call; false when nothing more is to be read. */
  readAhead?(): boolean;
  /** Lets the open unit go. */
  close(): void;
}
