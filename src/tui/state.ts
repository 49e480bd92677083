/** The UI state: the screens and the entry line. Facts about a unit are never kept here. */
import type { Spoken } from '../base/words.js';
import type { Action, BenchAction } from '../unit/actions.js';
import type { Question } from '../unit/types.js';
import type { WorkList } from '../window/worklists.js';
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
  | 'lists'
  | 'figures'
  | 'form'
  | 'release'
  | 'question'
  | 'leave';

/** Position in a list. Only the arrows set `moved`; without it, Enter on an empty line picks nothing. */
export interface Cursor {
  readonly at: number;
  readonly moved: boolean;
}

export type Screen =
  | {
      readonly name: Exclude<ScreenName, 'form' | 'question' | 'release' | 'lists' | 'figures'>;
      readonly cursor: Cursor;
    }
  | {
      readonly name: 'form';
      readonly form: FormRequest;
      readonly cursor: Cursor;
      /** Answers so far by field id; the first field without one is being asked. */
      readonly given: Readonly<Record<string, string>>;
    }
  | { readonly name: 'release'; readonly step: string; readonly cursor: Cursor }
  /** Which of the things that were measured; undefined: the first. */
  | { readonly name: 'figures'; readonly check: string | undefined; readonly cursor: Cursor }
  | { readonly name: 'lists'; readonly list: WorkList; readonly scope: ListScope; readonly cursor: Cursor }
  | {
      readonly name: 'question';
      readonly question: Question;
      readonly action: BenchAction;
      /** Not a question about the action: saving failed, and Right tries again. */
      readonly retry?: boolean;
      readonly cursor: Cursor;
    };

/** Whose lists are shown: the unit's, those of the units that a step is taken over, the job's. */
export type ListScope = 'unit' | 'batch' | 'job';

export type FormRequest =
  | { readonly id: 'put-right' }
  | { readonly id: 'rework'; readonly step: string }
  | { readonly id: 'snag'; readonly step?: string; readonly check?: string }
  | { readonly id: 'decide'; readonly snag: number }
  | { readonly id: 'close'; readonly snag: number }
  | { readonly id: 'park' }
  | { readonly id: 'note'; readonly step?: string }
  | { readonly id: 'override'; readonly problem: string }
  /** Prove or end a set-up, or raise a snag on what was made under it. */
  | { readonly id: 'setup'; readonly setup: string }
  /** Take the open unit over from the bench whose lock holds it. */
  | { readonly id: 'take-over' }
  /** A second name for an action that this person may not do alone. */
  | { readonly id: 'second'; readonly action: Action }
  /** A file or picture for an action that requires evidence. */
  | { readonly id: 'evidence'; readonly action: Action }
  /** Approval by an authorised person for an instrument whose calibration is overdue. */
  | { readonly id: 'overdue'; readonly action: Action }
  /** Word of an authorised person that the unit is closed though the bench cannot sign it. */
  | { readonly id: 'unsigned'; readonly action: Action }
  /** Acceptance, by an authorised person, of a lot that goods-in has not seen. */
  | { readonly id: 'accept'; readonly action: Action };

export type Tone = 'plain' | 'quiet' | 'strong' | 'good' | 'bad' | 'ask' | 'mark';

/** The note above the entry line: what was done last, or why something was not. */
export interface Note {
  readonly tone: Tone;
  readonly text: Spoken;
  readonly todo?: Spoken;
}

interface WalkUnit {
  readonly job: string;
  readonly unit: string;
  readonly step: string;
}

export interface BenchState {
  readonly screen: Screen;
  readonly back: readonly Screen[];
  readonly entry: string;
  /** What stands on the line was put there: the first thing typed takes its place. */
  readonly suggested?: boolean;
  readonly person?: string;
  /** By person, the id of the second person who stands by for them, until it is taken back. */
  readonly seconds: Readonly<Record<string, string>>;
  /** Who was at the bench before, until the person now there does something else than release a hold. */
  readonly before?: string;
  /** Language chosen at the bench, overriding the person's language in shared/people.yaml. */
  /** Language of the terminal, where the environment names one. */
  readonly terminal?: string;
  readonly said?: { readonly by: string | undefined; readonly language: string };
  /** Id of the instrument in hand. */
  readonly inHand?: string;
  /** By quantity, the instrument last in hand that measures it: offered, never taken by itself. */
  readonly lastFor: Readonly<Record<string, string>>;
  /** A typed answer that waits for an instrument or a set-up; it comes back to the entry line. */
  readonly waiting?: { readonly check: string; readonly text: string };
  /** The step jumped to; it stays current until it is done. */
  readonly at?: string;
  /** One step done on many units in turn: the units left, the current one first, and the ids of all. */
  readonly walk?: {
    readonly title: string;
    readonly units: readonly WalkUnit[];
    readonly batch: readonly string[];
  };
  /** The question on the screen, and since when it stands there, ms. */
  readonly stands?: { readonly of: string; readonly at: number };
  /** The shared step that is asked anew, though what was asked of another unit stands. */
  readonly anew?: string;
  readonly note?: Note;
  /** The trouble with the register that was told last: each is told once. */
  readonly troubleTold?: string;
  /** The edition of the shop's files that was told. */
  readonly editionTold?: number;
  /** The previous key and its time in ms, and when a key last answered, to tell a key held down. */
  readonly lastKey?: { readonly name: KeyName; readonly at: number; readonly acted?: number };
  readonly left: boolean;
}

export const TOP: Cursor = { at: 0, moved: false };
/** Longer than any code. A longer entry was not one scan, and is refused rather than cut short. */
export const LONGEST_ENTRY = 300;

export const START: BenchState = {
  screen: { name: 'units', cursor: TOP },
  back: [],
  entry: '',
  seconds: {},
  lastFor: {},
  left: false,
};
