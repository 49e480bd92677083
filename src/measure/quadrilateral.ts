/**
 * Convex quadrilateral from four sides and two diagonals. Corners seen from outside, anticlockwise: bl, br, tr, tl.
 * Nothing here assumes a rectangle.
 */
import { SQUARE_KEYS, type SquareKey, type SquareSet } from './types.js';

export const CORNERS = ['bl', 'br', 'tr', 'tl'] as const;
export type Corner = (typeof CORNERS)[number];
export interface Point {
  readonly x: number;
  readonly y: number;
}
export type Corners = Readonly<Record<Corner, Point>>;

/** The two corners each length joins. */
export const ENDS: Readonly<Record<SquareKey, readonly [Corner, Corner]>> = {
  top: ['tr', 'tl'],
  bottom: ['bl', 'br'],
  left: ['tl', 'bl'],
  right: ['br', 'tr'],
  bl_tr: ['bl', 'tr'],
  br_tl: ['br', 'tl'],
};

const isDiagonal = (key: SquareKey) => key === 'bl_tr' || key === 'br_tl';
const between = (a: Corner, b: Corner): SquareKey =>
  SQUARE_KEYS.find((key) => ENDS[key].includes(a) && ENDS[key].includes(b))!;

export function lengthsOf(corners: Corners): SquareSet {
  return Object.fromEntries(
    SQUARE_KEYS.map((key) => [key, distance(corners[ENDS[key][0]], corners[ENDS[key][1]])]),
  ) as Record<SquareKey, number>;
}

/**
 * One of the six lengths, computed from the other five in a convex figure; undefined if they form no figure. The two
 * corners it joins are placed relative to the line through the other two: on opposite sides of it for a diagonal, on
 * the same side for a side.
 */
export function impliedLength(
  key: SquareKey,
  others: Readonly<Partial<Record<SquareKey, number>>>,
): number | undefined {
  const [a, b] = ENDS[key];
  const [p, q] = CORNERS.filter((corner) => corner !== a && corner !== b) as [Corner, Corner];
  const base = others[between(p, q)];
  const first = apex(base, others[between(p, a)], others[between(q, a)]);
  const second = apex(base, others[between(p, b)], others[between(q, b)]);
  if (!first || !second) return undefined;
  return Math.hypot(first.x - second.x, isDiagonal(key) ? first.y + second.y : first.y - second.y);
}

/** Corners from the five lengths other than the top: bl at the origin, the bottom along x, the frame above it. */
export function placeCorners(set: SquareSet): Corners | undefined {
  const tr = apex(set.bottom, set.bl_tr, set.right);
  const tl = apex(set.bottom, set.left, set.br_tl);
  return tr && tl && { bl: { x: 0, y: 0 }, br: { x: set.bottom, y: 0 }, tr, tl };
}

/** Interior angles, degrees. */
export function anglesOf(corners: Corners): Record<'tl' | 'tr' | 'br' | 'bl', number> {
  const at = (corner: Corner): number => {
    const i = CORNERS.indexOf(corner);
    const next = corners[CORNERS[(i + 1) % 4]!];
    const before = corners[CORNERS[(i + 3) % 4]!];
    const u = minus(next, corners[corner]);
    const v = minus(before, corners[corner]);
    return (Math.atan2(u.x * v.y - u.y * v.x, u.x * v.x + u.y * v.y) * 180) / Math.PI;
  };
  return { tl: at('tl'), tr: at('tr'), br: at('br'), bl: at('bl') };
}

export const isConvex = (corners: Corners): boolean =>
  Object.values(anglesOf(corners)).every((angle) => angle > 0 && angle < 180);

/**
 * Sensitivity of the misclosure (measured br_tl minus the value implied by the rest) to a small change in each length:
 * 1 for br_tl itself; for a rectangle, 1 for the other diagonal and -W/D and -H/D for the sides. From the areas of the
 * four triangles: with weights m so that Σ m = 0 and Σ m·P = 0, small changes satisfy Σ m_i m_j l_ij dl_ij = 0.
 */
export function closingWeights(corners: Corners): SquareSet {
  const area = (a: Corner, b: Corner, c: Corner) => {
    const u = minus(corners[b], corners[a]);
    const v = minus(corners[c], corners[a]);
    return u.x * v.y - u.y * v.x;
  };
  const m: Record<Corner, number> = {
    bl: area('br', 'tr', 'tl'),
    br: -area('tr', 'tl', 'bl'),
    tr: area('tl', 'bl', 'br'),
    tl: -area('bl', 'br', 'tr'),
  };
  const lengths = lengthsOf(corners);
  const weight = (key: SquareKey) => m[ENDS[key][0]] * m[ENDS[key][1]] * lengths[key];
  const unit = weight('br_tl');
  return Object.fromEntries(SQUARE_KEYS.map((key) => [key, weight(key) / unit])) as Record<SquareKey, number>;
}

/**
 * Racking: how far the top is offset to the right over the height; also the mean width and height. The lines joining
 * the midpoints of opposite sides are m1 (left to right) and m2 (bottom to top); the diagonals are m1 + m2 and m2 - m1,
 * so the difference of their squares is exactly 4 m1·m2 for any quadrilateral. A frame with equal diagonals has no
 * racking, whatever its taper.
 */
export function rackingOf(corners: Corners): {
  readonly racking: number;
  readonly width: number;
  readonly height: number;
} {
  const { bl, br, tr, tl } = corners;
  const m1 = { x: (br.x + tr.x - bl.x - tl.x) / 2, y: (br.y + tr.y - bl.y - tl.y) / 2 };
  const m2 = { x: (tl.x + tr.x - bl.x - br.x) / 2, y: (tl.y + tr.y - bl.y - br.y) / 2 };
  const width = Math.hypot(m1.x, m1.y);
  return { racking: (m1.x * m2.x + m1.y * m2.y) / width, width, height: Math.hypot(m2.x, m2.y) };
}

/** Length at which both diagonals are equal if racked with the sides unchanged; undefined if impossible. */
export function equalDiagonal(set: SquareSet): number | undefined {
  const gap = (p: number): number => {
    const q = impliedLength('br_tl', { ...set, bl_tr: p });
    return q === undefined ? Number.NaN : p - q;
  };
  let low = Math.min(set.bl_tr, set.br_tl) - 1;
  let high = Math.max(set.bl_tr, set.br_tl) + 1;
  if (!(gap(low) < 0 && gap(high) > 0)) return undefined;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (gap(middle) < 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Cayley-Menger determinant: zero when six distances belong to four coplanar points; mm to the sixth power. */
export function cayleyMenger(set: SquareSet): number {
  const [a, b, c, d, p, q] = (['bottom', 'right', 'top', 'left', 'bl_tr', 'br_tl'] as const).map(
    (key) => set[key] ** 2,
  ) as [number, number, number, number, number, number];
  // Up to sign, the 5 x 5 determinant is twice the determinant of these inner products taken from the first corner.
  const bc = (a + p - b) / 2;
  const cd = (p + d - c) / 2;
  const bd = (a + d - q) / 2;
  return 8 * (a * (p * d - cd * cd) - bc * (bc * d - cd * bd) + bd * (bc * cd - p * bd));
}

/** The third corner, above a base from (0, 0) to (base, 0), at these distances from its two ends. */
function apex(
  base: number | undefined,
  fromStart: number | undefined,
  fromEnd: number | undefined,
): Point | undefined {
  if (base === undefined || fromStart === undefined || fromEnd === undefined || base <= 0) return undefined;
  const x = (base * base + fromStart * fromStart - fromEnd * fromEnd) / (2 * base);
  const y2 = fromStart * fromStart - x * x;
  return y2 > 0 ? { x, y: Math.sqrt(y2) } : undefined;
}

const minus = (a: Point, b: Point): Point => ({ x: a.x - b.x, y: a.y - b.y });
export const distance = (a: Point, b: Point): number => Math.hypot(a.x - b.x, a.y - b.y);
