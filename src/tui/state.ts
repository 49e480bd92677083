/** The bench's own state: what is on the screen and on the entry line. What is true of a unit is never kept here. */
import type { Action, BenchAction } from '../unit/actions.js';
import type { Question } from '../unit/types.js';
import type { KeyName } from './keys/split.js';

export type ScreenName =
  | 'units'
  | 'stages'
  | 'handover'
  | 'unit'
  | 'step'
  | 'steps'
  | 'people'
  | 'instruments'
  | 'why'
  | 'measured'
  | 'help'
  | 'menu'
  | 'snags'
  | 'setups'
  | 'form'
  | 'release'
  | 'question'
  | 'leave';

/** Place in a list. `moved` is set by the arrows alone: without it Enter on an empty line chooses nothing. */
export interface Cursor {
  readonly at: number;
  readonly moved: boolean;
}

export type Screen =
  | { readonly name: Exclude<ScreenName, 'form' | 'question' | 'release'>; readonly cursor: Cursor }
  | {
      readonly name: 'form';
      readonly form: FormRequest;
      readonly cursor: Cursor;
      /** Answers so far by field id; the field being asked is the first without one. */
      readonly given: Readonly<Record<string, string>>;
    }
  | { readonly name: 'release'; readonly step: string; readonly cursor: Cursor }
  | {
      readonly name: 'question';
      readonly question: Question;
      readonly action: BenchAction;
      /** Not a question of the action's sense: it could not be saved, and is tried again. */
      readonly retry?: boolean;
      readonly cursor: Cursor;
    };

/** Which form, and about what. */
export type FormRequest =
  | { readonly id: 'put-right' }
  | { readonly id: 'rework'; readonly step: string }
  | { readonly id: 'snag'; readonly step?: string; readonly check?: string }
  | { readonly id: 'decide'; readonly snag: number }
  | { readonly id: 'close'; readonly snag: number }
  | { readonly id: 'park' }
  | { readonly id: 'note'; readonly step?: string }
  | { readonly id: 'override'; readonly problem: string }
  /** A set-up proven, ended, or what was made under it put under a snag. */
  | { readonly id: 'setup'; readonly setup: string }
  /** The open unit, from the bench whose lock keeps it. */
  | { readonly id: 'take-over' }
  /** A second name for an action that a person may not do alone. */
  | { readonly id: 'second'; readonly action: Action }
  /** A file or picture for an action that asks for evidence. */
  | { readonly id: 'evidence'; readonly action: Action }
  /** The word of somebody with the right, for an instrument whose calibration is overdue. */
  | { readonly id: 'overdue'; readonly action: Action };

export type Tone = 'plain' | 'quiet' | 'strong' | 'good' | 'bad' | 'ask' | 'mark';

/** The line above the entry line: what was done last, or why something was not. */
export interface Note {
  readonly tone: Tone;
  readonly text: string;
  /** What to do about it. */
  readonly todo?: string;
}

interface WalkUnit {
  readonly job: string;
  readonly unit: string;
  readonly step: string;
}

export interface BenchState {
  readonly screen: Screen;
  /** Where Esc goes, nearest last. */
  readonly back: readonly Screen[];
  readonly entry: string;
  /** Person id at the bench. */
  readonly person?: string;
  /** Person id of who stands by, where the person at the bench may not do a stage alone. */
  readonly second?: string;
  /** The language that the person at the bench chose, instead of the one shared/people.yaml gives them. */
  readonly said?: { readonly by: string | undefined; readonly language: string };
  /** Instrument in hand, id by kind. */
  readonly inHand: Readonly<Record<string, string>>;
  /** A step jumped to; the bench stands there until it is done. */
  readonly at?: string;
  /** One step taken over many units in turn: the units still to come, the one at hand first. */
  readonly walk?: { readonly title: string; readonly units: readonly WalkUnit[] };
  readonly note?: Note;
  /** The key before this one, and when, ms: a key held down repeats alone. */
  readonly lastKey?: { readonly name: KeyName; readonly at: number };
  readonly left: boolean;
}

export const TOP: Cursor = { at: 0, moved: false };
/** Longer than any code; what is longer was not one scan, and is refused rather than cut short. */
export const LONGEST_ENTRY = 300;

export const START: BenchState = {
  screen: { name: 'units', cursor: TOP },
  back: [],
  entry: '',
  inHand: {},
  left: false,
};
