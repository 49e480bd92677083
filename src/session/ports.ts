/** The bench's interface to files, clock and locks; the bench itself only decides and draws. */
import type { Problem } from '../base/problem.js';
import type { Message } from '../base/words.js';
import type { Instrument } from '../measure/types.js';
import type { TitleReader } from '../procedure/titles.js';
import type { Route } from '../procedure/types.js';
import type { BenchAction } from '../unit/actions.js';
import type { Handover, StageRow } from '../unit/board.js';
import type { Moment } from '../unit/day.js';
import type { JournalEvent } from '../unit/events.js';
import type { InDoubt, SetupStanding } from '../unit/setups.js';
import type { LotUsed, Question, SharedShown, UnitStanding, WorkshopRules } from '../unit/types.js';
import type { UnitState } from '../unit/unitstate.js';
import type { WordsRead } from '../unit/wordsread.js';
import type { SetOut } from '../window/types.js';

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
  /** What it is waiting for, or its current stage. */
  readonly where: string;
  /** Sources that differ from the current workshop files: job, profileSet, procedure, limits. */
  readonly differs?: readonly string[];
  /** The other bench of the shop where it is being made. */
  readonly at?: string;
}

/** Languages of a unit's procedure. */
export interface Words {
  readonly own: string;
  readonly others: readonly string[];
  /** The route in another language; undefined if not available. */
  route(language: string): Route | undefined;
}

export interface OpenUnit {
  /** The route in the procedure's own words, where `state` has those of the reader. */
  readonly own?: Route;
  readonly id: string;
  readonly job: string;
  readonly state: UnitState;
  readonly setOut: SetOut;
  /** Why the unit is read-only: usually because somebody else is writing it. */
  readonly readOnly?: string;
  /** The way out of that, where it is no lock. */
  readonly readOnlyTodo?: string;
  /** Current lock holder, if read-only. */
  readonly keptBy?: KeptBy;
  readonly words?: Words;
}

export interface InboxFile {
  /** As evidence names it: `inbox/0012.jpg`. */
  readonly name: string;
  /** Bytes. */
  readonly size: number;
  /** When it was last written, UTC. */
  readonly at: string;
}

/** A unit of the open one's job. */
export interface JobUnit {
  readonly unit: string;
  readonly setOut: SetOut;
  /** Absent: not begun. */
  readonly state?: UnitState;
}

/** Who holds a unit, for a person considering a takeover. */
export interface KeptBy {
  /** "jb at bench-1 (process 4711 on shopfloor)". */
  readonly who: Message;
  /** When they took it, UTC. */
  readonly since: string;
  /** The process is known to run on this machine: close it there instead of taking over. */
  readonly runs: boolean;
}

/** A set-up, with what was made under it if its last first-off failed. */
export interface SetupRow {
  readonly standing: SetupStanding;
  readonly inDoubt?: InDoubt;
}

/** State of the outside world when a key arrives. */
export interface World extends Moment {
  readonly rules: WorkshopRules;
  readonly bench: string;
  readonly instruments: readonly Instrument[];
  readonly board: readonly BoardEntry[];
  /** Data that only a few screens need, fetched on demand. */
  readonly more?: More;
  readonly open?: OpenUnit;
  /** What somebody has to see to while work goes on: a register that is not written, or a shop that cannot be reached so. */
  readonly trouble?: Problem;
  /** Language of whoever reads the screen; the bench's own if absent. */
  readonly language?: string;
  /** The shop of several benches, where the folder takes part in one. */
  readonly shop?: ShopSeen;
}

/** What the screens show of a shop of several benches. */
export interface ShopSeen {
  /** Why the line is down; undefined while it is up. */
  readonly down?: Problem;
  /** Answers on this disk that the server does not have yet. */
  readonly waiting: number;
  /** The edition of the workshop's files that came while the bench is open. */
  readonly edition?: { readonly n: number; readonly by: string; readonly reason: string };
}

interface More {
  /** Steps open or held across units, as of the last board read. */
  stages(): readonly StageRow[];
  /** For the next shift: what is open, held, curing or half done, plus this shift's notes. */
  handover(): Handover;
  /** Set-ups to be proven on first-offs; empty if the workshop requires none. */
  setups(): readonly SetupRow[];
  /** Lots and pieces known in the workshop, and lots that an open snag touches. */
  lots(): { readonly known: readonly LotUsed[]; readonly snagged: readonly string[] };
  /** What the open unit may cite of others. */
  readonly shared?: {
    /** All that one key takes over at a step; empty where something is asked of the unit alone. */
    takes(step: string): readonly SharedShown[];
    /** What is cited with the answers of a step. */
    goesWith(step: string): readonly SharedShown[];
  };
  /** What titles of any unit's steps and holds are called in a language: always the same function of the same workshop. */
  readonly titles?: (language: string) => TitleReader;
  /** All units of the open one's job, for lists; read when first asked after something was written. */
  jobUnits?(): readonly JobUnit[];
  /** Pictures in the inbox folder, the newest first. */
  inbox(): readonly InboxFile[];
}

/** Who performs an action, and with which instrument. */
export interface Hand {
  readonly person: string | undefined;
  /** Id of the instrument in hand. */
  readonly inHand?: string | undefined;
  /** By which words the steps are read; the procedure's own if absent. */
  readonly reads?: WordsRead | undefined;
}

export type Acted =
  | {
      readonly kind: 'done';
      readonly events: readonly JournalEvent[];
      /** Units that got a snag in the same action, with the problem for any that could not take one. */
      readonly snags?: readonly { readonly job: string; readonly unit: string; readonly problem?: Problem }[];
    }
  | { readonly kind: 'refused'; readonly problem: Problem }
  | { readonly kind: 'ask'; readonly question: Question }
  /** Nothing was written. */
  | { readonly kind: 'failed'; readonly problem: Problem };

export interface Ports {
  /** Current state. Must be cheap: read on every key. */
  world(): World;
  /** Opens a unit, locks it for writing and releases the previous one. `who` is shown to others who find it taken. */
  open(
    unit: string,
    who?: string,
  ):
    | { readonly kind: 'open' }
    /** The shop is asked for it first; `told` says when it has answered, and it is to be opened then. */
    | { readonly kind: 'asked' }
    | { readonly kind: 'failed'; readonly problem: Problem };
  /** Calls back when something outside this bench has changed; `open`: and that unit is to be opened now. */
  told?(changed: (open?: string) => void): void;
  /** Decides, and writes the outcome before returning. */
  act(action: BenchAction, hand: Hand): Acted;
  refresh(): void;
  /** After a crash: reopens the unit from disk, dropping all memory; read-only with `lookOnly`. May throw. */
  reread(lookOnly?: Problem): void;
  close(): void;
}
