/** What a frame's readings say about its shape: from two diagonals up to all six lengths with repeats. */
import { inverse, Matrix, QrDecomposition } from 'ml-matrix';
import {
  anglesOf,
  type Corner,
  type Corners,
  closingWeights,
  distance,
  ENDS,
  impliedLength,
  isConvex,
  lengthsOf,
  placeCorners,
  rackingOf,
} from './quadrilateral.js';
import { coverageFactor, mean } from './stats.js';
import { type Instrument, type Reading, SQUARE_KEYS, type SquareKey, type SquareSet } from './types.js';
import { effectiveDof, instrumentError, readingPart } from './uncertainty.js';

export type SquareReadings = Readonly<Partial<Record<SquareKey, readonly number[]>>>;
type SomeOfSquare = Readonly<Partial<Record<SquareKey, number>>>;
export interface Nominal {
  readonly w: number;
  readonly h: number;
}

/** What the readings allow: six check themselves, five just determine the figure, fewer need assumptions. */
type SquareKind = 'six' | 'five' | 'sizes' | 'diagonals' | 'too-few' | 'impossible';

export interface SquareSolution {
  readonly kind: SquareKind;
  /** Mean of each length's readings, and its own standard uncertainty (excluding the common part). */
  readonly measured: SomeOfSquare;
  readonly u: SomeOfSquare;
  readonly assumed: boolean;
  /** bl_tr minus br_tl as measured, and its standard uncertainty. */
  readonly difference?: number;
  readonly differenceU?: number;
  readonly differenceDof?: number;
  /** Six readings: measured br_tl minus the one implied by the rest; its standard deviation; closed at 95 %? */
  readonly misclosure?: number;
  readonly misclosureSd?: number;
  readonly closes?: boolean;
  /** Misclosure in units of its own expanded uncertainty at 95 %. */
  readonly misclosureRatio?: number;
  readonly corners?: Corners;
  readonly adjusted?: SquareSet;
  /** Adjusted minus measured. */
  readonly residuals?: SomeOfSquare;
  readonly angles?: Readonly<Record<'tl' | 'tr' | 'br' | 'bl', number>>;
  readonly anglesU?: Readonly<Record<'tl' | 'tr' | 'br' | 'bl', number>>;
  /** Top offset to the right over the height, mm; assumes a parallelogram with fewer than five readings. */
  readonly racking?: number;
  readonly rackingU?: number;
  /** Top minus bottom, right minus left. */
  readonly taper?: { readonly width?: number; readonly height?: number };
  /** Measured minus nominal, for each length read. */
  readonly sizes: SomeOfSquare;
}

/** Instrument assumed if none is named: a class II tape with a hook, read to the millimetre. */
export const ASSUMED: Instrument = {
  id: 'assumed',
  kind: 'tape',
  measures: ['length'],
  title: 'tape read to the millimetre',
  resolution: 1,
  class: 'II',
  offset: 0,
  hook: true,
};

export interface SquareOptions {
  readonly instrument?: Instrument;
  /** Overrides for lengths read with another instrument. */
  readonly instruments?: Readonly<Partial<Record<SquareKey, Instrument>>>;
  readonly nominal?: Nominal;
}

export function solveSquare(readings: SquareReadings, options: SquareOptions = {}): SquareSolution {
  const keys = SQUARE_KEYS.filter((key) => (readings[key]?.length ?? 0) > 0);
  const measured = forKeys(keys, (key) => mean(readings[key]!));
  const toolOf = (key: SquareKey) => options.instruments?.[key] ?? options.instrument ?? ASSUMED;
  const mixed = new Set(keys.map((key) => toolOf(key).id)).size > 1;
  const parts = forKeys(keys, (key) => readingPart(toolOf(key), readings[key]!));
  const u = forKeys(keys, (key) =>
    // With different instruments, their own errors no longer cancel.
    mixed
      ? Math.hypot(parts[key]!.u, instrumentError(toolOf(key), measured[key]!) / Math.sqrt(3))
      : parts[key]!.u,
  );
  const dof = (weights: SomeOfSquare): number => {
    const terms = keys.map((key) => ({ u: (weights[key] ?? 0) * u[key]!, dof: parts[key]!.dof }));
    return effectiveDof(Math.hypot(...terms.map((term) => term.u)), terms);
  };
  const { nominal } = options;
  const common = {
    measured,
    u,
    assumed: options.instrument === undefined && options.instruments === undefined,
    sizes: nominal ? forKeys(keys, (key) => measured[key]! - nominalOf(key, nominal)) : {},
  };
  const { bl_tr, br_tl } = measured;
  if (bl_tr === undefined || br_tl === undefined) {
    if (keys.length < 5) return { kind: 'too-few', ...common, ...taperOf(measured) };
  }
  const differenceParts =
    bl_tr !== undefined && br_tl !== undefined
      ? {
          difference: bl_tr - br_tl,
          differenceU: Math.hypot(u.bl_tr!, u.br_tl!),
          differenceDof: dof({ bl_tr: 1, br_tl: 1 }),
        }
      : {};
  const known = { ...common, ...differenceParts, ...taperOf(measured) };
  if (keys.length < 5) return { ...known, ...assumedParallelogram(measured, u, nominal) };
  const found = adjust(measured, u);
  // Five lengths either fit a figure exactly or form none.
  const fits =
    found &&
    (keys.length === 6 || keys.every((key) => Math.abs(found.adjusted[key] - measured[key]!) < 1e-6));
  if (!fits) return { kind: 'impossible', ...known, ...(keys.length === 6 ? { closes: false } : {}) };
  // If one of the two diagonals was not read, the figure gives it, and so the difference.
  const implied =
    known.difference === undefined
      ? {
          difference: found.adjusted.bl_tr - found.adjusted.br_tl,
          differenceU: found.uncertaintyOf((at) => distance(at.bl, at.tr) - distance(at.br, at.tl)),
          differenceDof: Number.POSITIVE_INFINITY,
        }
      : {};
  return {
    ...known,
    ...implied,
    ...shapeOf(found, measured),
    ...(keys.length === 6 ? closing(found, measured as SquareSet, u, dof) : {}),
  };
}

export function nominalOf(key: SquareKey, { w, h }: Nominal): number {
  if (key === 'top' || key === 'bottom') return w;
  return key === 'left' || key === 'right' ? h : Math.hypot(w, h);
}

function closing(
  found: Adjustment,
  measured: SquareSet,
  u: SomeOfSquare,
  dof: (weights: SomeOfSquare) => number,
): Partial<SquareSolution> & { readonly kind: SquareKind } {
  const weights = closingWeights(found.corners);
  const misclosureSd = Math.hypot(...SQUARE_KEYS.map((key) => weights[key] * u[key]!));
  const implied = impliedLength('br_tl', measured);
  // If the other five form no figure, the linear condition still gives the size of the gap.
  const misclosure =
    implied === undefined
      ? SQUARE_KEYS.reduce((total, key) => total + weights[key] * (measured[key] - found.adjusted[key]), 0)
      : measured.br_tl - implied;
  const allowed = coverageFactor(dof(weights), 0.95) * misclosureSd;
  const ratio = Math.abs(misclosure) / allowed;
  return { kind: 'six', misclosure, misclosureSd, closes: ratio <= 1, misclosureRatio: ratio };
}

function shapeOf(
  found: Adjustment,
  measured: SomeOfSquare,
): Partial<SquareSolution> & { readonly kind: SquareKind } {
  const { corners, adjusted } = found;
  const keys = Object.keys(measured) as SquareKey[];
  const angle = (name: 'tl' | 'tr' | 'br' | 'bl') => found.uncertaintyOf((at) => anglesOf(at)[name]);
  return {
    kind: 'five',
    corners,
    adjusted,
    residuals: forKeys(keys, (key) => adjusted[key] - measured[key]!),
    angles: anglesOf(corners),
    anglesU: { tl: angle('tl'), tr: angle('tr'), br: angle('br'), bl: angle('bl') },
    racking: rackingOf(corners).racking,
    rackingU: found.uncertaintyOf((at) => rackingOf(at).racking),
    taper: { width: adjusted.top - adjusted.bottom, height: adjusted.right - adjusted.left },
  };
}

/** Assumes equal opposite sides: racking from the diagonals, plus a closing check if a width and a height were read. */
function assumedParallelogram(
  measured: SomeOfSquare,
  u: SomeOfSquare,
  nominal: Nominal | undefined,
): Partial<SquareSolution> & { readonly kind: SquareKind } {
  const p = measured.bl_tr!;
  const q = measured.br_tl!;
  const w = measured.bottom ?? measured.top;
  const h = measured.left ?? measured.right;
  const width =
    w ??
    nominal?.w ??
    (h !== undefined && p * p + q * q > 2 * h * h ? Math.sqrt((p * p + q * q) / 2 - h * h) : undefined);
  const racked =
    width === undefined
      ? {}
      : {
          racking: (p * p - q * q) / (4 * width),
          rackingU: Math.hypot(p * u.bl_tr!, q * u.br_tl!) / (2 * width),
        };
  if (w === undefined || h === undefined) return { kind: 'diagonals', ...racked };
  const other = 2 * (w * w + h * h) - p * p;
  if (other <= 0) return { kind: 'impossible', closes: false };
  const uw = u[measured.bottom === undefined ? 'top' : 'bottom']!;
  const uh = u[measured.left === undefined ? 'right' : 'left']!;
  const misclosure = q - Math.sqrt(other);
  const misclosureSd = Math.hypot(q * u.br_tl!, p * u.bl_tr!, 2 * w * uw, 2 * h * uh) / q;
  const ratio = Math.abs(misclosure) / (coverageFactor(Number.POSITIVE_INFINITY, 0.95) * misclosureSd);
  return { kind: 'sizes', ...racked, misclosure, misclosureSd, misclosureRatio: ratio, closes: ratio <= 1 };
}

function taperOf({ top, bottom, left, right }: SomeOfSquare): Pick<SquareSolution, 'taper'> {
  const taper = {
    ...(top !== undefined && bottom !== undefined ? { width: top - bottom } : {}),
    ...(left !== undefined && right !== undefined ? { height: right - left } : {}),
  };
  return Object.keys(taper).length > 0 ? { taper } : {};
}

function forKeys<T>(keys: readonly SquareKey[], make: (key: SquareKey) => T): Partial<Record<SquareKey, T>> {
  return Object.fromEntries(keys.map((key) => [key, make(key)]));
}

// Least-squares adjustment of the lengths between the corners of a quadrilateral. The unknowns are the corner
// coordinates (bl fixed, br on the x axis: five of them), so every solution satisfies the closing condition exactly.
// Observations are weighted by their uncertainties and the equations solved by QR steps (Gauss-Newton, halved where a
// step would make it worse).

interface Adjustment {
  readonly corners: Corners;
  readonly adjusted: SquareSet;
  /** Standard uncertainty of a figure derived from the corners, given the readings' own uncertainties. */
  uncertaintyOf(figure: (corners: Corners) => number): number;
}

const UNKNOWNS: readonly (readonly [Corner, 'x' | 'y'])[] = [
  ['br', 'x'],
  ['tr', 'x'],
  ['tr', 'y'],
  ['tl', 'x'],
  ['tl', 'y'],
];

/** Adjusts five or six lengths (u: standard uncertainty of each); undefined if they form no convex figure. */
function adjust(
  measured: Readonly<Partial<Record<SquareKey, number>>>,
  u: Readonly<Partial<Record<SquareKey, number>>>,
): Adjustment | undefined {
  const keys = (Object.keys(measured) as SquareKey[]).filter((key) => measured[key] !== undefined);
  let at = start(measured);
  const weightOf = (key: SquareKey) => 1 / u[key]!;
  const rests = (corners: Corners) => {
    const lengths = lengthsOf(corners);
    return keys.map((key) => (measured[key]! - lengths[key]) * weightOf(key));
  };
  const cost = (values: readonly number[]) => values.reduce((total, value) => total + value * value, 0);
  let rest = rests(at);
  for (let round = 0; round < 60; round++) {
    const equations = new QrDecomposition(designOf(at, keys, weightOf));
    // Coincident or collinear corners leave an unknown undetermined.
    if (!equations.isFullRank()) return undefined;
    const step = equations.solve(Matrix.columnVector(rest)).to1DArray();
    if (!step.every(Number.isFinite)) return undefined;
    let factor = 1;
    let next = moved(at, step, factor);
    let nextRest = rests(next);
    while (cost(nextRest) > cost(rest) * (1 + 1e-12) && factor > 1e-6) {
      factor /= 2;
      next = moved(at, step, factor);
      nextRest = rests(next);
    }
    at = next;
    rest = nextRest;
    if (Math.max(...step.map(Math.abs)) * factor < 1e-9) break;
  }
  if (!isConvex(at)) return undefined;
  return { corners: at, adjusted: lengthsOf(at), uncertaintyOf: propagation(at, keys, weightOf) };
}

function start(measured: Readonly<Partial<Record<SquareKey, number>>>): Corners {
  const { top, bottom, left, right, bl_tr, br_tl } = measured;
  // At most one of the six is missing, so each pair of sides has at least one.
  const w = average(top, bottom)!;
  const h = average(left, right)!;
  const placed = placeCorners({
    top: top ?? w,
    bottom: bottom ?? w,
    left: left ?? h,
    right: right ?? h,
    bl_tr: bl_tr ?? Math.hypot(w, h),
    br_tl: br_tl ?? Math.hypot(w, h),
  });
  if (placed && isConvex(placed)) return placed;
  return { bl: { x: 0, y: 0 }, br: { x: w, y: 0 }, tr: { x: w, y: h }, tl: { x: 0, y: h } };
}

function average(a: number | undefined, b: number | undefined): number | undefined {
  return a !== undefined && b !== undefined ? (a + b) / 2 : (a ?? b);
}

/** Derivatives of each length with respect to each unknown, rows weighted. */
function designOf(
  corners: Corners,
  keys: readonly SquareKey[],
  weightOf: (key: SquareKey) => number,
): Matrix {
  return new Matrix(
    keys.map((key) => {
      const [a, b] = ENDS[key];
      const length = Math.hypot(corners[a].x - corners[b].x, corners[a].y - corners[b].y);
      return UNKNOWNS.map(([corner, axis]) => {
        const along = (corners[a][axis] - corners[b][axis]) / length;
        return (corner === a ? along : corner === b ? -along : 0) * weightOf(key);
      });
    }),
  );
}

function moved(corners: Corners, step: readonly number[], factor: number): Corners {
  const next = {
    bl: corners.bl,
    br: { ...corners.br },
    tr: { ...corners.tr },
    tl: { ...corners.tl },
  };
  UNKNOWNS.forEach(([corner, axis], i) => {
    next[corner] = { ...next[corner], [axis]: corners[corner][axis] + step[i]! * factor };
  });
  return next;
}

/** Law of propagation of uncertainty (JCGM 100, 5.2): central differences and the unknowns' covariance. */
function propagation(corners: Corners, keys: readonly SquareKey[], weightOf: (key: SquareKey) => number) {
  let covariance: Matrix | undefined;
  return (figure: (at: Corners) => number): number => {
    if (!covariance) {
      const design = designOf(corners, keys, weightOf);
      covariance = inverse(design.transpose().mmul(design));
    }
    const h = 1e-3;
    const gradient = UNKNOWNS.map((_, i) => {
      const step = UNKNOWNS.map((__, j) => (i === j ? h : 0));
      return (figure(moved(corners, step, 1)) - figure(moved(corners, step, -1))) / (2 * h);
    });
    const g = Matrix.columnVector(gradient);
    return Math.sqrt(Math.max(0, g.transpose().mmul(covariance).mmul(g).get(0, 0)));
  };
}

export type LoggedSet = Readonly<
  Partial<Record<SquareKey, readonly Pick<Reading, 'value' | 'instrument'>[]>>
>;

export const valuesOf = (set: LoggedSet): SquareReadings =>
  Object.fromEntries(Object.entries(set).map(([key, list]) => [key, list.map(({ value }) => value)]));

/** The instrument of each length, if its first reading names one the workshop has. */
export function toolsOf(
  set: LoggedSet,
  workshop: readonly Instrument[] = [],
): Pick<SquareOptions, 'instruments'> {
  const own: Partial<Record<SquareKey, Instrument>> = {};
  for (const key of SQUARE_KEYS) {
    const id = set[key]?.[0]?.instrument;
    const tool = id === undefined ? undefined : workshop.find((instrument) => instrument.id === id);
    if (tool) own[key] = tool;
  }
  return Object.keys(own).length > 0 ? { instruments: own } : {};
}
