/** The state of one unit, derived from its events, and the decision types. */
import type { DateForm } from '../base/dates.js';
import type { Problem } from '../base/problem.js';
import type { Message } from '../base/words.js';
import type { LimitsFile } from '../measure/limits.js';
import type { Instrument, Reading, Verdict } from '../measure/types.js';
import type { RouteStep } from '../procedure/types.js';
import type { Moment } from './day.js';
import type { Answer, Basis, Cited, EventBody, Evidence, JournalEvent } from './events.js';

/**
 * ready: can be done now. waiting: an earlier step is not done, or a timer is running (`because`). begun: some checks
 * answered. failed: a check failed and nothing has been done about it. held: all checks pass, but the hold is not
 * released. done. stale: was done, but something it depends on was redone.
 */
export type StepStatus = 'waiting' | 'ready' | 'begun' | 'failed' | 'held' | 'done' | 'stale';

/** A lot or piece as an answer names it. */
export interface Lot {
  readonly material: string;
  readonly code: string;
  readonly expires?: string;
  readonly accepted?: true;
  readonly acceptedBy?: string;
  readonly serial?: true;
  readonly item?: string;
  readonly raw?: string;
}

/** A lot or piece known in the workshop. */
export interface LotUsed {
  readonly material: string;
  readonly code: string;
  readonly expires?: string;
  /** When it was last named. */
  readonly at: string;
  /** Goods-in accepted it, or somebody on the spot. */
  readonly accepted?: true;
  /** A piece: the unit and light it belongs to. */
  readonly serial?: true;
  readonly job?: string;
  readonly unit?: string;
  readonly item?: string;
}

export interface CheckState {
  readonly id: string;
  readonly answered?: {
    readonly n: number;
    readonly at: string;
    readonly by: string;
    readonly second?: string;
    readonly answer: Answer;
    readonly verdict: Verdict;
    readonly lot?: Lot;
    readonly setup?: string;
    /** Asked of another unit, and cited here. */
    readonly cited?: Cited;
    readonly evidence: readonly Evidence[];
    readonly burst: boolean;
    readonly overdueAllowedBy?: string;
    /** n of the snag whose concession accepts this failed check. */
    readonly concession?: number;
  };
  /** Readings of a set that are in and not judged, or judged and not passed, by key, repeats included. */
  readonly partial?: Readonly<Record<string, readonly Reading[]>>;
  /** Counts towards the step: answered, passing (or conceded), and nothing it depends on was made since. */
  readonly holds: boolean;
  /** Superseded or corrected answers, oldest first. */
  readonly earlier: readonly {
    readonly n: number;
    readonly why: 'corrected' | 'superseded' | 'reworked' | 'stale';
  }[];
}

export interface StepState {
  readonly step: RouteStep;
  readonly status: StepStatus;
  /** Why it is waiting or stale: one sentence each, naming the remedy. */
  readonly because: readonly string[];
  readonly checks: readonly CheckState[];
  /** Its checks can be answered now as far as order goes; who may do so is decided on answering. */
  readonly open: boolean;
  /** n of the event from which the step counts as made; undefined before it is begun. */
  readonly madeAt?: number;
  readonly released?: {
    readonly n: number;
    readonly by: string;
    readonly at: string;
    readonly rule?: string;
    readonly cited?: Cited;
  };
}

export interface Snag {
  /** n of its `snag-raised` event, which is its number in this unit. */
  readonly n: number;
  readonly raised: JournalEvent & { readonly kind: 'snag-raised' };
  readonly decided?: JournalEvent & { readonly kind: 'snag-decided' };
  readonly closed?: JournalEvent & { readonly kind: 'snag-closed' };
  readonly open: boolean;
}

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

/** A fact that a unit cites or may cite, as a person is shown it. */
export interface SharedShown {
  readonly step: string;
  readonly ask: string;
  /** Whose fact it is, and who gave it when. */
  readonly unit: string;
  readonly at: string;
  readonly by: string;
  readonly answered?: { readonly answer: Answer; readonly lot?: Pick<Lot, 'code'> };
  readonly released?: true;
}

/** An answer or a release that other units may cite. */
export interface SharedFact {
  /** What was asked or released, in full. */
  readonly terms: string;
  /** Limits that it met. */
  readonly limits: readonly string[];
  readonly from: Omit<Cited, 'rhythm'>;
  /** Set-up that it was given under. */
  readonly setup?: string;
  /** Lot that its step names. */
  readonly lot?: string;
  readonly answered?: Pick<
    EventBody & { kind: 'answered' },
    'answer' | 'verdict' | 'lot' | 'evidence' | 'setup'
  >;
  readonly released?: Pick<EventBody & { kind: 'released' }, 'pin' | 'rule' | 'evidence'>;
}

/** A set-up that work may rely on. */
export interface ValidSetup {
  readonly id: string;
  /** The first-off that proved it. */
  readonly firstOff?: JournalEvent;
}

/** What other units offer: facts, and how often each is cited, by `keyOf`. */
export interface SharedFacts {
  readonly facts: readonly SharedFact[];
  readonly cites: ReadonlyMap<string, number>;
  /** What a unit's line rests on; undefined where the unit did not keep it. */
  basisAt(line: Pick<Cited, 'job' | 'unit' | 'n'>): Basis | undefined;
}

/** Asked before judging a likely misread. Answer again with `confirmed` to insist. */
export interface Question {
  readonly id: string;
  readonly text: Message;
  readonly details: readonly Message[];
}

export type Decision =
  | { readonly kind: 'events'; readonly events: readonly EventBody[]; readonly by: string }
  | { readonly kind: 'refused'; readonly problem: Problem }
  | { readonly kind: 'ask'; readonly question: Question };

/**
 * What a decision needs besides the unit's state: the workshop as it is now. Everything is passed in; nothing is looked
 * up.
 */
export interface DecisionContext extends Moment {
  readonly bench: string;
  readonly person: string | undefined;
  /** Id of the instrument in hand. */
  readonly inHand?: string | undefined;
  readonly workshop: WorkshopRules;
  readonly instruments: readonly Instrument[];
  /** Evidence files already stored, by the name the action uses. */
  readonly evidence?: Readonly<Record<string, Evidence>>;
  /** Lots and pieces known in this workshop. */
  readonly lots?: readonly LotUsed[];
  /** SHA-256 of the pictures that other units' answers hold. */
  readonly pictures?: ReadonlySet<string>;
  /** Lots and set-ups touched by an open snag of any unit. */
  readonly snagged?: { readonly lots: readonly string[]; readonly setups: readonly string[] };
  /** What other units were asked and this one may cite. */
  readonly shared?: SharedFacts;
  /** Valid set-ups by kind (see setups.ts). Absent: the caller keeps none, and none is required. */
  readonly setups?: Readonly<Record<string, ValidSetup | undefined>> | undefined;
  /** People locked out after too many wrong PINs. */
  readonly pinLocked?: readonly string[];
  /** The wall clock jumped relative to a steady clock while the program was running. */
  readonly clockJump?: { readonly from: string; readonly to: string } | undefined;
  /** Why the bench's key cannot sign; undefined if it can, or has none. Looked up only where a unit is closed. */
  readonly keyProblem?: Problem | undefined;
  /** What a shop's server does not have of the unit, and whether it may be released so. Looked up only where it is closed. */
  readonly unseen?: Unseen | undefined;
}

export interface Unseen {
  /** Lines; 0 where only evidence is missing there. */
  readonly lines: number;
  readonly allowed: boolean;
}

// The workshop's people and house rules, read from shared/people.yaml and shared/workshop.yaml.

/** 0 inducted, 1 observed, 2 supervised, 3 alone, 4 may release, 5 may assess. */
export type Level = 0 | 1 | 2 | 3 | 4 | 5;

export interface Person {
  readonly id: string;
  readonly initials: string;
  readonly name: string;
  /** Level per stage id; `all` applies to stages not named. */
  readonly levels: Readonly<Record<string, Level>>;
  readonly validUntil?: string;
  /** scrypt hash, `salt:hash` in hex; absent if no PIN is required. */
  readonly pin?: string;
  readonly language?: string;
}

export interface WorkshopRules {
  readonly name: string;
  readonly people: readonly Person[];
  /** Passed in so that this room needs no key derivation of its own. */
  readonly pinMatches: (person: Person, pin: string) => boolean;
  readonly limits: LimitsFile;
  /** simple acceptance, or guarded by w = factor x U. */
  readonly decisionRule: { readonly kind: 'simple' } | { readonly kind: 'guarded'; readonly factor: number };
  readonly units: 'mm' | 'inch';
  /** How dates are written here, besides ISO 8601. */
  readonly dates: DateForm;
  /** The least longer and shorter side of a picture, pixels. */
  readonly leastPicture: readonly [number, number];
  /** One-person workshop: the same person may release after this many minutes, with evidence if set. Absent: never. */
  readonly soloRelease?: { readonly minutes: number; readonly evidence: boolean };
  /** Minutes without a key press until the person at the bench is signed out. */
  readonly idleMinutes: number;
  /** How long what is asked once a shift stands, minutes. */
  readonly shiftMinutes: number;
  readonly openingTriangle: 'apex-at-hinge' | 'apex-at-handle';
}
