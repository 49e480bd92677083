/** What the bench needs of the world. Files, clock and locks are behind this; the bench itself only decides and draws. */
import type { Problem } from '../base/problem.js';
import type { Instrument } from '../measure/types.js';
import type { Route } from '../procedure/types.js';
import type { BenchAction } from '../unit/actions.js';
import type { Handover, StageRow } from '../unit/board.js';
import type { JournalEvent } from '../unit/events.js';
import type { InDoubt, SetupStanding } from '../unit/setups.js';
import type { Question, UnitStanding, WorkshopRules } from '../unit/types.js';
import type { UnitState } from '../unit/unitstate.js';
import type { SetOut } from '../window/types.js';

/** One line of the board. */
export interface BoardEntry {
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
  /** Whose lock keeps it, where it is looked at only. */
  readonly keptBy?: KeptBy;
  /** Absent where nothing is translated. */
  readonly words?: Words;
}

/** Who keeps a unit, for a person who thinks of taking it over. */
export interface KeptBy {
  /** "jb at bench-1 (process 4711 on shopfloor)". */
  readonly who: string;
  /** When they took it, UTC. */
  readonly since: string;
  /** That process surely runs on this machine: it is closed there, not taken over. */
  readonly runs: boolean;
}

/** A set-up of the workshop, and what was made under it where its last first-off failed. */
export interface SetupRow {
  readonly standing: SetupStanding;
  readonly inDoubt?: InDoubt;
}

/** What is true outside the bench at the moment a key comes. */
export interface World {
  /** UTC, ISO 8601. */
  readonly now: string;
  readonly rules: WorkshopRules;
  readonly bench: string;
  readonly instruments: readonly Instrument[];
  readonly board: readonly BoardEntry[];
  /** What few screens show is asked for by them alone. */
  readonly more?: More;
  readonly open?: OpenUnit;
}

interface More {
  /** Steps open or held across units, as they were when the board was read. */
  stages(): readonly StageRow[];
  /** What is open, held, curing and half done, for the next shift; with the notes of this one. */
  handover(): Handover;
  /** Set-ups that are proven on first-offs; none where the workshop asks for none. */
  setups(): readonly SetupRow[];
  /** The newest file in the inbox folder, as evidence names it. */
  newestFile(): string | undefined;
}

/** In whose name, and with what, an action is done. */
export interface Hand {
  readonly person: string | undefined;
  readonly inHand: Readonly<Record<string, string>>;
}

export type Acted =
  | {
      readonly kind: 'done';
      readonly events: readonly JournalEvent[];
      /** Units on which snags were raised at once, each with why it took none, if so. */
      readonly snags?: readonly { readonly job: string; readonly unit: string; readonly problem?: Problem }[];
    }
  | { readonly kind: 'refused'; readonly problem: Problem }
  | { readonly kind: 'ask'; readonly question: Question }
  /** The disk failed: nothing was written. */
  | { readonly kind: 'failed'; readonly problem: Problem };

export interface Ports {
  /** Present state of things; cheap, since it is read at every key. */
  world(): World;
  /** Opens a unit and claims it for writing; the one open before is let go. `who` is at the bench, for those who find it taken. */
  open(
    unit: string,
    who?: string,
  ): { readonly kind: 'open' } | { readonly kind: 'failed'; readonly problem: Problem };
  /** Decides, and writes what was decided before it returns. */
  act(action: BenchAction, hand: Hand): Acted;
  /** Reads the board (and the open unit) again from disk. */
  refresh(): void;
  /**
   * After a fault: reads the open unit anew from disk, keeping nothing of what was in memory. With `lookOnly` it is opened for
   * looking alone, for that reason. May throw.
   */
  reread(lookOnly?: Problem): void;
  /** Lets the open unit go. */
  close(): void;
}
