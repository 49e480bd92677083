/**
 * The frame as measured beside its nominal, as geometry: pure points and labels, in mm, from which the terminal's lines
 * and the documents' SVG are both drawn. The error is magnified by a stated factor, or nobody would see it.
 */
import { figure, signed } from './decision.js';
import { CORNERS, type Corners, distance, type Point } from './quadrilateral.js';
import { type Nominal, nominalOf, type SquareSolution } from './square.js';
import { SQUARE_KEYS, type SquareKey } from './types.js';
import { lengthText } from './units.js';

export interface AsMeasured {
  /** The error is drawn this many times its size. */
  readonly factor: number;
  /** Rectangle of the nominal size (or of the mean sizes where none is known), bl at the origin, y upwards. */
  readonly nominal: Corners;
  readonly drawn: Corners;
  /** The long diagonal, where they differ by more than can be put down to reading. */
  readonly long?: 'bl_tr' | 'br_tl';
  /** What stands at each length that was read: "1000.5 (+0.5)". */
  readonly labels: Readonly<Partial<Record<SquareKey, string>>>;
  /** One line that says what is drawn. */
  readonly caption: string;
}

const FACTORS = [500, 200, 100, 50, 20, 10, 5, 2, 1] as const;
/** The largest error is drawn at most this part of the smaller side long. */
const SHOWN = 0.09;
const LEAST = 0.05;

/** Undefined where the readings give no figure to draw. `units`: what labels and caption are written in. */
export function asMeasured(
  solution: SquareSolution,
  nominal?: Nominal,
  units: 'mm' | 'inch' = 'mm',
): AsMeasured | undefined {
  const corners = cornersOf(solution, nominal);
  if (!corners) return undefined;
  const size = nominal ?? {
    w: (distance(corners.bl, corners.br) + distance(corners.tl, corners.tr)) / 2,
    h: (distance(corners.bl, corners.tl) + distance(corners.br, corners.tr)) / 2,
  };
  const rectangle: Corners = {
    bl: { x: 0, y: 0 },
    br: { x: size.w, y: 0 },
    tr: { x: size.w, y: size.h },
    tl: { x: 0, y: size.h },
  };
  const most = Math.max(LEAST, ...CORNERS.map((corner) => distance(corners[corner], rectangle[corner])));
  const factor = FACTORS.find((f) => f * most <= SHOWN * Math.min(size.w, size.h)) ?? 1;
  const drawn = Object.fromEntries(
    CORNERS.map((corner) => [corner, magnified(rectangle[corner], corners[corner], factor)]),
  ) as Record<keyof Corners, Point>;
  const { difference = 0, differenceU = 0, measured } = solution;
  const long = Math.abs(difference) > 2 * differenceU ? (difference > 0 ? 'bl_tr' : 'br_tl') : undefined;
  const length = (mm: number) => (units === 'mm' ? figure(mm) : lengthText(mm, units));
  const off = (mm: number) => (units === 'mm' ? signed(mm) : signedInches(mm));
  const labels = Object.fromEntries(
    SQUARE_KEYS.filter((key) => measured[key] !== undefined).map((key) => [
      key,
      nominal
        ? `${length(measured[key]!)} (${off(measured[key]! - nominalOf(key, nominal))})`
        : length(measured[key]!),
    ]),
  );
  return {
    factor,
    nominal: rectangle,
    drawn,
    ...(long ? { long } : {}),
    labels,
    caption:
      `As measured, seen from outside; error drawn ${factor} times its size. ` +
      `Dotted: ${nominal ? `nominal ${length(size.w)} x ${length(size.h)}` : 'square, of the mean sizes'}.`,
  };
}

const signedInches = (mm: number): string => {
  const text = lengthText(mm, 'inch');
  return mm > 0 && text !== '0"' ? `+${text}` : text;
};

const magnified = (from: Point, to: Point, factor: number): Point => ({
  x: from.x + (to.x - from.x) * factor,
  y: from.y + (to.y - from.y) * factor,
});

/** Corners with the bottom along x; a parallelogram where fewer than five lengths were read and its sizes are known. */
function cornersOf(solution: SquareSolution, nominal: Nominal | undefined): Corners | undefined {
  if (solution.corners) return solution.corners;
  const { measured, racking } = solution;
  const w = measured.bottom ?? measured.top ?? nominal?.w;
  const h = measured.left ?? measured.right ?? nominal?.h;
  if (solution.kind === 'impossible' || racking === undefined || w === undefined || h === undefined)
    return undefined;
  if (Math.abs(racking) >= h) return undefined;
  const y = Math.sqrt(h * h - racking * racking);
  return { bl: { x: 0, y: 0 }, br: { x: w, y: 0 }, tr: { x: w + racking, y }, tl: { x: racking, y } };
}
