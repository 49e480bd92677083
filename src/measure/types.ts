/** Measurement types used by other rooms: readings, instruments, limits, verdicts. Lengths in mm. */
import type { SourceKind } from '../base/schemas.js';
import type { Message } from '../base/words.js';

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

/** What an instrument measures and a check asks for. A gap is what a feeler enters; a depth is read from an edge down. */
export const QUANTITIES = [
  'length',
  'gap',
  'depth',
  'angle',
  'mass',
  'force',
  'torque',
  'temperature',
  'humidity',
  'time',
  'illuminance',
  'pressure',
  'coating',
] as const;
export type Quantity = (typeof QUANTITIES)[number];

export interface Instrument {
  readonly id: string;
  readonly kind: InstrumentKind;
  readonly title: string;
  /** Empty for one that only compares (a reference square). */
  readonly measures: readonly Quantity[];
  /** Least and greatest figure it shows, in its unit (lengths in mm), before the offset. */
  readonly range?: { readonly from: number; readonly to: number };
  /** Rising sizes of one that goes by steps: leaves of a feeler gauge, steps of a gap gauge. */
  readonly steps?: readonly number[];
  /** Smallest step read, in the instrument's unit (N for a spring balance; lengths always in mm, see `unit`). */
  readonly resolution: number;
  /** MI-008 accuracy class, for a tape that has one. */
  readonly class?: 'I' | 'II' | 'III';
  /** Half-width of the error in the instrument's unit (lengths in mm), if not given by a class. */
  readonly maxError?: number;
  /** Added to the reading to get the length: -100 when starting at the 100 mm mark; a correction for a worn hook. */
  readonly offset: number;
  /** ISO dates. */
  readonly calibrated?: string;
  readonly due?: string;
  readonly certificate?: string;
  /** The tape starts at a hook or butt end, so MI-008 adds its c. */
  readonly hook: boolean;
  /** It types its own readings, by cable or radio. */
  readonly sends?: boolean;
  readonly serial?: string;
  /** Standard deviation of placing and reading once, in the instrument's unit, if the workshop has determined it. */
  readonly repeatability?: number;
  /** Unit displayed. Figures of an inch instrument are in inches in the file and in mm here. */
  readonly unit?: ReadingUnit;
  readonly note?: string;
}

/** Lengths are in mm inside the program, even if read in inches. */
export type FigureUnit = 'mm' | 'deg' | 'kg' | 'N' | 'Nm' | 'C' | '%' | 'min' | 'lx' | 'Pa' | 'bar' | 'µm';
export type ReadingUnit = FigureUnit | 'inch';

/** How a figure is compared with a limit: as it is, or with a guard band of `factor` x U taken off the limit. */
export type DecisionRule =
  | { readonly kind: 'simple' }
  | { readonly kind: 'guarded'; readonly factor: number };

export interface Reading {
  /** Exactly what the keyboard, scanner or calliper sent. */
  readonly raw: string;
  /** mm (or the check's own unit), offset applied. */
  readonly value: number;
  readonly instrument?: string;
  /** Queried (misread, far from expected) and confirmed by the person. */
  readonly confirmed?: boolean;
}

export type Outcome = 'pass' | 'fail' | 'not-proven';
export type SourceKindOfRule = SourceKind;

/** One rule applied in a verdict, frozen with it so that later changes to the limits file never re-judge. */
export interface RuleUsed {
  readonly limit: string;
  readonly title: string;
  /** The comparison in words with numbers: "difference of diagonals at most 2 mm". */
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
  /** Expanded uncertainty of that figure, if known (k = 2; larger for few degrees of freedom). */
  readonly uncertainty?: number;
  readonly rules: readonly RuleUsed[];
  /** What the figure means, what would settle it, what to do next. */
  readonly notes: readonly string[];
}

/** Keys of a squareness set; corners as seen from outside. */
export const SQUARE_KEYS = ['top', 'bottom', 'left', 'right', 'bl_tr', 'br_tl'] as const;
export type SquareKey = (typeof SQUARE_KEYS)[number];
export type SquareSet = Readonly<Record<SquareKey, number>>;

/** A likely misread: the person measures again or confirms what was typed. */
export interface MisreadQuestion {
  /** `measure.misread-repeat`, `-far`, `-finer`, `-open` or `-impossible`. */
  readonly id: string;
  readonly text: Message;
  readonly details: readonly Message[];
}
