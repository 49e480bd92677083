/** The state of one unit, as it follows from its events, and the answers of the build room. */
import type { Problem } from '../base/problem.js';
import type { LimitsFile } from '../measure/limits.js';
import type { Instrument, Reading, Verdict } from '../measure/types.js';
import type { RouteStep } from '../procedure/types.js';
import type { Answer, EventBody, Evidence, JournalEvent } from './events.js';

/**
 * ready: may be done now. waiting: something before it is not done, or a timer runs (`because`). begun: some checks
 * answered. failed: a check failed and nothing has been done about it. held: all checks pass, the hold is not released.
 * done. stale: was done; something it rests on was made again. */
export type StepStatus = 'waiting' | 'ready' | 'begun' | 'failed' | 'held' | 'done' | 'stale';

export interface CheckState {
  readonly id: string;
  /** The answer that counts now, or nothing. */
  readonly answered?: {
    readonly n: number;
    readonly at: string;
    readonly by: string;
    readonly second?: string;
    readonly answer: Answer;
    readonly verdict: Verdict;
    readonly lot?: { readonly material: string; readonly code: string; readonly expires?: string };
    /** Id of the set-up (its first-off) under which it was done. */
    readonly setup?: string;
    readonly evidence: readonly Evidence[];
    readonly burst: boolean;
    readonly overdueAllowedBy?: string;
    /** n of the snag whose concession lets this failed check stand. */
    readonly concession?: number;
  };
  /** square: readings logged one by one (`read` events) since the last complete answer, each key with its repeats. */
  readonly partial?: Readonly<Record<string, readonly Reading[]>>;
  /** Counts towards the step: answered, passing (or conceded), and nothing it rests on made since. */
  readonly holds: boolean;
  /** Earlier answers, superseded or corrected, oldest first. */
  readonly earlier: readonly {
    readonly n: number;
    readonly why: 'corrected' | 'superseded' | 'reworked' | 'stale';
  }[];
}

export interface StepState {
  readonly step: RouteStep;
  readonly status: StepStatus;
  /** Why it waits or is stale: one plain sentence each, naming what would lift it. */
  readonly because: readonly string[];
  readonly checks: readonly CheckState[];
  /** Its checks may be answered now (as far as order goes; who may is asked when it is done). */
  readonly open: boolean;
  /** n of the event from which the step counts as made; undefined before it is begun. */
  readonly madeAt?: number;
  readonly released?: {
    readonly n: number;
    readonly by: string;
    readonly at: string;
    readonly rule?: string;
  };
}

export interface Snag {
  /** n of its `snag-raised` event: its number in this unit. */
  readonly n: number;
  readonly raised: JournalEvent & { readonly kind: 'snag-raised' };
  readonly decided?: JournalEvent & { readonly kind: 'snag-decided' };
  readonly closed?: JournalEvent & { readonly kind: 'snag-closed' };
  readonly open: boolean;
}

/** How a unit stands, in one word for the board. */
export type UnitStanding =
  | 'not-started'
  | 'refused'
  | 'under-way'
  | 'held'
  | 'curing'
  | 'snagged'
  | 'parked'
  | 'finished'
  | 'scrapped';

/** A check asked again before it is judged: a likely misread. Answer with `confirmed` to stand by it. */
export interface Question {
  readonly id: string;
  readonly text: string;
  readonly details: readonly string[];
}

export type Decision =
  | { readonly kind: 'events'; readonly events: readonly EventBody[]; readonly by: string }
  | { readonly kind: 'refused'; readonly problem: Problem }
  | { readonly kind: 'ask'; readonly question: Question };

/** What a decision needs beside the unit's state: the workshop as it is now. All of it comes in; nothing is looked up. */
export interface DecisionContext {
  readonly now: string;
  readonly bench: string;
  /** Person at the bench, or undefined for nobody. */
  readonly person: string | undefined;
  /** Instrument in hand by kind. */
  readonly inHand: Readonly<Partial<Record<string, string>>>;
  readonly workshop: WorkshopRules;
  readonly instruments: readonly Instrument[];
  /** Evidence files already kept by the store, by the name under which the action speaks of them. */
  readonly evidence?: Readonly<Record<string, Evidence>>;
  /** Lots known in this workshop, so that an expiry date need not be typed twice. */
  readonly lots?: readonly { readonly material: string; readonly code: string; readonly expires?: string }[];
  /** Lots and set-ups that an open snag of any unit touches. */
  readonly snagged?: { readonly lots: readonly string[]; readonly setups: readonly string[] };
  /** Set-ups with a valid first-off, by kind (see setups.ts). Absent: this caller keeps no set-ups, and none is asked for. */
  readonly setups?: Readonly<Record<string, { readonly id: string } | undefined>> | undefined;
  /** People whose PIN was typed wrongly too often. */
  readonly pinLocked?: readonly string[];
  /** The wall clock was seen to jump against a steady clock while the program ran. */
  readonly clockJump?: { readonly from: string; readonly to: string } | undefined;
}

// What the build room needs to know of the workshop: people and house rules. Read from shared/people.yaml and
// shared/workshop.yaml.

/** 0 inducted, 1 observed, 2 supervised, 3 alone, 4 may release, 5 may assess. */
export type Level = 0 | 1 | 2 | 3 | 4 | 5;

export interface Person {
  readonly id: string;
  readonly initials: string;
  readonly name: string;
  /** Level per stage id; `all` where a stage is not named. */
  readonly levels: Readonly<Record<string, Level>>;
  readonly validUntil?: string;
  /** scrypt hash, `salt:hash` in hex; absent where no PIN is wanted. */
  readonly pin?: string;
  readonly language?: string;
}

export interface WorkshopRules {
  readonly name: string;
  readonly people: readonly Person[];
  /** Checks a PIN against a person's hash; comes in from outside so that this room needs no key derivation of its own. */
  readonly pinMatches: (person: Person, pin: string) => boolean;
  readonly limits: LimitsFile;
  /** simple acceptance, or guarded by w = factor x U. */
  readonly decisionRule: { readonly kind: 'simple' } | { readonly kind: 'guarded'; readonly factor: number };
  readonly units: 'mm' | 'inch';
  /** One-person workshop: the same person may release after this many minutes, with evidence. Absent: never. */
  readonly soloRelease?: { readonly minutes: number; readonly evidence: boolean };
  /** Minutes without a key until the bench is handed back to nobody. */
  readonly idleMinutes: number;
  readonly openingTriangle: 'apex-at-hinge' | 'apex-at-handle';
}
