/** The squaring drill's frame with hidden faults, its tape with an error, and the apprentice's actions. */
import { figure } from '../../measure/decision.js';
import type { LimitsFile } from '../../measure/limits.js';
import { type Corner, impliedLength } from '../../measure/quadrilateral.js';
import { type Nominal, nominalOf } from '../../measure/square.js';
import type { Instrument, SquareKey, SquareSet } from '../../measure/types.js';
import { tapeError } from '../../measure/uncertainty.js';
import type { Chance, ChanceState } from '../chance.js';
import { trainSays } from '../words.js';

export const MEMBERS = ['top', 'bottom', 'left', 'right'] as const;
export type FrameMember = (typeof MEMBERS)[number];
export const DIAGONALS = ['bl_tr', 'br_tl'] as const;
export type Diagonal = (typeof DIAGONALS)[number];

export const FAULTS = ['racked', 'tapered', 'short', 'twisted', 'slip', 'hook'] as const;
export type FaultKind = (typeof FAULTS)[number];

/** A fault as seeded. `mm` is its signed size. */
export interface Fault {
  readonly kind: FaultKind;
  readonly mm: number;
  /** short: the member. slip: the length whose first reading slips. tapered: the longer member of the pair. */
  readonly at?: SquareKey;
}

/** Limits for the frame, mm. */
export interface SquaringLimits {
  readonly size: number;
  readonly diagonals: number;
  readonly sides: number;
  readonly flat: number;
}

/** The true frame. Sides in mm; together with the difference of diagonals they determine the shape. */
export interface Frame {
  readonly sides: Readonly<Record<FrameMember, number>>;
  /** bl_tr minus br_tl, mm. */
  readonly difference: number;
  /** How far a corner stands off the bench, the other three held: bl and tr if positive, br and tl if negative. */
  readonly twist: number;
}

/** The true tape: converts a true length to what it shows. */
export interface Tape {
  /** Error at 0 and its growth per metre, mm: within its class. */
  readonly zero: number;
  readonly perMetre: number;
  /** Hook error, mm: within its class, unless the hook is worn. */
  readonly hook: number;
}

export interface Taken {
  readonly what: SquareKey | 'bar';
  readonly start: 'hook' | '100';
  /** mm, with the start already subtracted. */
  readonly value: number;
  /** Number of changes to the frame before this reading: readings of the same shape share it. */
  readonly figure: number;
}

export type SquaringAction =
  | { readonly do: 'read'; readonly key: SquareKey }
  | { readonly do: 'bar' }
  | { readonly do: 'start'; readonly from: 'hook' | '100' }
  | { readonly do: 'flat' }
  | { readonly do: 'say'; readonly fault: FaultKind; readonly at?: SquareKey }
  | { readonly do: 'push'; readonly diagonal: Diagonal; readonly mm: number }
  | { readonly do: 'press'; readonly corner: Corner; readonly mm: number }
  | { readonly do: 'recut'; readonly member: FrameMember; readonly mm: number }
  | { readonly do: 'hint' }
  | { readonly do: 'done' }
  | { readonly do: 'snag' };

/** Feedback on a decision, given afterwards. `points` is its cost (0 or less). */
export interface Remark {
  readonly about: 'decision' | 'reading' | 'finding' | 'result';
  readonly good: boolean;
  readonly text: string;
  readonly points: number;
}

interface Entry {
  readonly action: SquaringAction;
  readonly says: readonly string[];
  /** Withheld until the end. */
  readonly remarks: readonly Remark[];
  /** Minutes since the sealant was applied, at the time of the action. */
  readonly minute: number;
}

export type GameEnding = 'right' | 'passed-wrong' | 'ruined' | 'snagged';

export interface Drill {
  readonly seed: number;
  readonly level: GameLevel;
  readonly nominal: Nominal;
  readonly limits: SquaringLimits;
  readonly chance: ChanceState;
  /** Hidden from the apprentice. */
  readonly hidden: {
    readonly faults: readonly Fault[];
    readonly frame: Frame;
    readonly tape: Tape;
    /** Fraction of a push that springs back on release. */
    readonly spring: number;
  };
  readonly start: 'hook' | '100';
  readonly taken: readonly Taken[];
  /** Feeler readings under the corners; `figure` as in `Taken`. */
  readonly flats: readonly { readonly figure: number; readonly gaps: Readonly<Record<Corner, number>> }[];
  readonly said: readonly { readonly fault: FaultKind; readonly at?: SquareKey }[];
  /** Number of changes to the frame so far. */
  readonly figure: number;
  readonly pieces: number;
  readonly minute: number;
  readonly log: readonly Entry[];
  readonly ended?: GameEnding;
}

/** 1: one simple fault. 2: one fault of any kind. 3: two at once. */
export type GameLevel = 1 | 2 | 3;

/** Minutes the sealant allows pushing (in this simulation; the real figure is the sealant maker's). */
export const OPEN_MINUTES = 30;
/** Spare lengths of profile beside the saw. */
export const PIECES = 3;
/** A single push further than this opens the mitres, mm. */
export const HARDEST_PUSH = 15;
/** Reference bar that tapes are checked against, mm. */
export const BAR = 1000;
export const MINUTES: Readonly<Record<SquaringAction['do'], number>> = {
  read: 0.5,
  bar: 0.5,
  start: 0,
  flat: 1,
  say: 0,
  push: 1,
  press: 1,
  recut: 0,
  hint: 0,
  done: 0,
  snag: 0,
};

/** Without a limits file. Figures are common practice except 1.5 and 2; see shared/limits.yaml. */
export const USUAL_LIMITS: SquaringLimits = { size: 1.5, diagonals: 2, sides: 1, flat: 1.5 };

/** The workshop's own limits for frames. */
export function squaringLimits(file: LimitsFile | undefined): SquaringLimits {
  const of = (id: string, usual: number) => file?.byId.get(id)?.bands.at(-1)?.high ?? usual;
  return {
    size: of('frame.size', USUAL_LIMITS.size),
    diagonals: of('frame.diagonals.house', USUAL_LIMITS.diagonals),
    sides: of('frame.sides-equal', USUAL_LIMITS.sides),
    flat: of('flatness', USUAL_LIMITS.flat),
  };
}

// The simulated tape: what it shows, and its stated error. The drill never shows a reading outside that error.

/** The tape on the practice bench. Its class is the published one; step and placing error belong to this simulation. */
export const TAPE: Instrument = {
  id: 'practice-tape',
  kind: 'tape',
  measures: ['length'],
  title: trainSays('practice-tape-class'),
  resolution: 0.5,
  class: 'II',
  offset: 0,
  hook: true,
  repeatability: 0.15,
};
/** Largest placing and reading error in one reading, mm. */
const PLACING = 0.25;
/** Largest error of a feeler reading, mm. */
export const FEELER = 0.1;

/** Half-width of the total error of one reading, excluding slips and a worn hook, mm. */
export const statedError = (length: number, start: 'hook' | '100'): number =>
  tapeError('II', length, start === 'hook') + PLACING + TAPE.resolution / 2;

/** A tape within its class. A worn hook is a fault in itself and adds to it. */
export function newTape(chance: Chance, worn: number): Tape {
  return {
    zero: chance.between(-0.25, 0.25),
    perMetre: chance.between(-0.18, 0.18),
    hook: chance.between(-0.15, 0.15) + worn,
  };
}

/** One reading of a true length, mm, rounded to the tape's step. `slip` is an extra mistake. */
export function tapeReading(
  tape: Tape,
  length: number,
  start: 'hook' | '100',
  chance: Chance,
  slip = 0,
): number {
  const own = tape.zero + (tape.perMetre * length) / 1000 + (start === 'hook' ? tape.hook : 0);
  const seen = length + own + chance.between(-PLACING, PLACING) + slip;
  return Math.round(seen / TAPE.resolution) * TAPE.resolution;
}

/** One feeler reading, to 0.1 mm; no feeler fits a gap under 0.05. */
export function feel(gap: number, chance: Chance): number {
  if (gap < 0.05) return 0;
  const off = chance.between(-FEELER / 2, FEELER / 2);
  return Math.max(0, Math.round((gap + off) * 10) / 10);
}

// The simulated frame's geometry, using the measure room's own functions, so that every number in the drill is true.

/** The six true lengths, corner to corner. A corner off the bench makes its diagonal slightly longer. */
export function trueLengths(frame: Frame): SquareSet {
  const p = diagonalAt(frame);
  const q = p - frame.difference;
  const lifted = (length: number) => Math.hypot(length, frame.twist);
  return { ...frame.sides, bl_tr: frame.twist > 0 ? lifted(p) : p, br_tl: frame.twist < 0 ? lifted(q) : q };
}

/** bl_tr for these sides and this difference of diagonals. The gap is almost linear, so use secant steps. */
function diagonalAt({ sides, difference }: Frame): number {
  const gap = (p: number) => p - impliedLength('br_tl', { ...sides, bl_tr: p })! - difference;
  let before = Math.hypot((sides.top + sides.bottom) / 2, (sides.left + sides.right) / 2);
  let gapBefore = gap(before);
  let at = before + difference / 2 + 0.01;
  for (let i = 0; i < 12; i++) {
    const gapAt = gap(at);
    if (Math.abs(gapAt) < 1e-10 || gapAt === gapBefore) break;
    const next = at - (gapAt * (at - before)) / (gapAt - gapBefore);
    before = at;
    gapBefore = gapAt;
    at = next;
  }
  return at;
}

/** The frame after pushing one diagonal in so that it stays `mm` shorter. */
export function pushed(frame: Frame, diagonal: Diagonal, mm: number): Frame {
  const flat = { ...frame, twist: 0 };
  const before = trueLengths(flat);
  const other: Diagonal = diagonal === 'bl_tr' ? 'br_tl' : 'bl_tr';
  const length = before[diagonal] - mm;
  const implied = impliedLength(other, { ...frame.sides, [diagonal]: length }) ?? before[other];
  return { ...frame, difference: diagonal === 'bl_tr' ? length - implied : implied - length };
}

/** The frame after pressing a corner down so that `mm` of it stays. */
export const pressed = (frame: Frame, corner: Corner, mm: number): Frame => ({
  ...frame,
  twist: frame.twist - (corner === 'bl' || corner === 'tr' ? mm : -mm),
});

/** Feeler gap under each corner with the other three held down, mm. */
export const gapsOf = ({ twist }: Frame): Readonly<Record<Corner, number>> => ({
  bl: Math.max(0, twist),
  tr: Math.max(0, twist),
  br: Math.max(0, -twist),
  tl: Math.max(0, -twist),
});

export const longDiagonal = ({ difference }: Frame): Diagonal => (difference >= 0 ? 'bl_tr' : 'br_tl');

export const memberOff = (frame: Frame, member: FrameMember, nominal: Nominal): number =>
  frame.sides[member] - nominalOf(member, nominal);

export const isMember = (key: SquareKey | undefined): key is FrameMember =>
  MEMBERS.some((member) => member === key);

/** What is out of limits, in words with numbers; empty if the frame is right. */
export function outside(frame: Frame, nominal: Nominal, limits: SquaringLimits): string[] {
  return tolerance(frame, nominal, limits)
    .filter((each) => each.reached > each.limit + 1e-9)
    .map((each) =>
      trainSays('mm-where-allowed', {
        each: each.title,
        reached: figure(each.reached),
        limit: figure(each.limit),
      }),
    );
}

export interface Tolerance {
  readonly title: string;
  /** True value, mm. */
  readonly reached: number;
  readonly limit: number;
}

/** Every figure of the true frame with its limit. */
export function tolerance(frame: Frame, nominal: Nominal, limits: SquaringLimits): Tolerance[] {
  const { top, bottom, left, right } = frame.sides;
  const worst = Math.max(...MEMBERS.map((member) => Math.abs(memberOff(frame, member, nominal))));
  const pair = Math.max(Math.abs(top - bottom), Math.abs(left - right));
  return [
    { title: trainSays('side-off-size'), reached: worst, limit: limits.size },
    { title: trainSays('opposite-sides-differ'), reached: pair, limit: limits.sides },
    {
      title: trainSays('difference-diagonals'),
      reached: Math.abs(frame.difference),
      limit: limits.diagonals,
    },
    { title: trainSays('corner-off-bench'), reached: Math.abs(frame.twist), limit: limits.flat },
  ];
}
