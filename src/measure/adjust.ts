/**
 * Least-squares adjustment of lengths between the corners of a quadrilateral. The corners' coordinates are the unknowns
 * (bl fixed, br on the x axis: five of them), so any figure they give satisfies the closing condition exactly. The
 * observations are weighted by their uncertainties, the equations solved by QR steps (Gauss-Newton, halved where a step
 * would make it worse).
 */
import { inverse, Matrix, QrDecomposition } from 'ml-matrix';
import { type Corner, type Corners, ENDS, isConvex, lengthsOf, placeCorners } from './quadrilateral.js';
import type { SquareKey, SquareSet } from './types.js';

export interface Adjustment {
  readonly corners: Corners;
  readonly adjusted: SquareSet;
  /** Standard uncertainty of a figure worked out from the corners, from the readings' own uncertainties. */
  uncertaintyOf(figure: (corners: Corners) => number): number;
}

const UNKNOWNS: readonly (readonly [Corner, 'x' | 'y'])[] = [
  ['br', 'x'],
  ['tr', 'x'],
  ['tr', 'y'],
  ['tl', 'x'],
  ['tl', 'y'],
];

/** Adjusts five or six lengths (u: standard uncertainty of each); undefined where they form no convex figure. */
export function adjust(
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
    // Corners that fell together, or all on one line, leave an unknown free.
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
  // At most one of the six is missing, so each pair of sides has one.
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

/** Derivatives of each length by each unknown, rows weighted. */
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

/** Law of propagation (JCGM 100, 5.2): gradient by central differences, with the covariance of the unknowns. */
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
