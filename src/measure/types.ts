/** What the other rooms need to know of measuring: readings, instruments, limits, verdicts. Lengths in mm. */
import type { SourceKind } from '../base/schemas.js';

export type InstrumentKind =
  | 'tape'
  | 'rule'
  | 'calliper'
  | 'feeler'
  | 'square'
  | 'straight-edge'
  | 'trammel'
  | 'spring-balance'
  | 'timer'
  | 'gauge';

/** One instrument of shared/instruments.yaml, checked. */
export interface Instrument {
  readonly id: string;
  readonly kind: InstrumentKind;
  readonly title: string;
  /** Smallest step read, in the instrument's unit (N for a spring balance; lengths always mm, see `unit`). */
  readonly resolution: number;
  /** Accuracy class of a tape by MI-008, where it has one. */
  readonly class?: 'I' | 'II' | 'III';
  /** Half-width of error in mm, where a class does not give it. */
  readonly maxError?: number;
  /** Added to what is read to give the length: -100 where the 100 mm mark is the start; a worn hook's correction. */
  readonly offset: number;
  /** ISO dates. */
  readonly calibrated?: string;
  readonly due?: string;
  readonly certificate?: string;
  /** The tape starts at a hook or butt end, so MI-008 adds its c. */
  readonly hook: boolean;
  /** The number on the instrument itself, where it has one. */
  readonly serial?: string;
  /** Standard deviation of placing and reading it once, in its unit, where the workshop has found it out. */
  readonly repeatability?: number;
  /** Unit that it shows. The figures of an inch instrument are inches in the file and mm here. */
  readonly unit?: ReadingUnit;
  readonly note?: string;
}

export type ReadingUnit = 'mm' | 'inch' | 'N' | 'kg' | 'deg' | 'min' | 'C';

/** How a figure is held against a limit: as it stands, or with a guard band of `factor` x U taken off the limit. */
export type DecisionRule =
  | { readonly kind: 'simple' }
  | { readonly kind: 'guarded'; readonly factor: number };

/** A number as it was entered: what was typed, and what it means. */
export interface Reading {
  /** Exactly what the keyboard, scanner or calliper sent. */
  readonly raw: string;
  /** mm (or the check's own unit), offset applied. */
  readonly value: number;
  readonly instrument?: string;
  /** Asked about (misread, far from expected) and confirmed by the person. */
  readonly confirmed?: boolean;
}

export type Outcome = 'pass' | 'fail' | 'not-proven';
export type SourceKindOfRule = SourceKind;

/** One rule that bound a verdict, frozen with it so that a later change of the limits file never re-judges. */
export interface RuleUsed {
  /** Id in limits.yaml. */
  readonly limit: string;
  readonly title: string;
  /** How the value is held against it, in words with numbers: "difference of diagonals at most 2 mm". */
  readonly says: string;
  readonly low?: number;
  readonly high?: number;
  readonly sourceKind: SourceKind;
  readonly source: string;
  readonly outcome: Outcome;
}

export interface Verdict {
  readonly outcome: Outcome;
  /** The figure judged (a deviation, a difference, the reading itself) and its unit. */
  readonly value?: number;
  readonly unit?: string;
  /** Expanded uncertainty of that figure (k = 2; larger for few degrees of freedom) where it is known. */
  readonly uncertainty?: number;
  readonly rules: readonly RuleUsed[];
  /** Plain sentences: what the figure means, what would settle it, what to do next. */
  readonly notes: readonly string[];
}

/** Keys of a squareness set; corners as seen from outside. */
export const SQUARE_KEYS = ['top', 'bottom', 'left', 'right', 'bl_tr', 'br_tl'] as const;
export type SquareKey = (typeof SQUARE_KEYS)[number];
export type SquareSet = Readonly<Record<SquareKey, number>>;

/** A likely misread: the person measures again, or stands by what was typed. */
export interface MisreadQuestion {
  /** One of MISREAD_QUESTIONS. */
  readonly id: string;
  readonly text: string;
  readonly details: readonly string[];
}
