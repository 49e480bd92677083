/**
 * What the solver knows: marks along one part, some free to move in steps of half a millimetre, and the least
 * distances between them. Positions are along the part, in mm, from any common datum.
 */
export const STEP = 0.5;

export interface Movable {
  /** Where its rule puts it. */
  readonly nominal: number;
  /** It may lie from here … */
  readonly low: number;
  /** … to here. */
  readonly high: number;
  readonly kind: string;
  /** Which side of the part it opens to: 1, -1, or 0 for through it or neither. */
  readonly face: -1 | 0 | 1;
  /** Half its length along the part. */
  readonly half: number;
  /** 0 moves before 3 where the total shift is the same. */
  readonly rank: number;
}

export interface Standing {
  readonly at: number;
  readonly kind: string;
  readonly face: -1 | 0 | 1;
  readonly half: number;
}

/** Neighbours that keep their order: later less earlier lies between `least` and `most`. */
export interface Link {
  readonly first: number;
  readonly second: number;
  readonly least: number;
  readonly most: number;
}

/** Least distance between centres that two marks must keep, 0 where no rule binds them. */
export type Apart = (
  a: Pick<Standing, 'kind' | 'face' | 'half'>,
  b: Pick<Standing, 'kind' | 'face' | 'half'>,
) => number;

export interface LineProblem {
  readonly movables: readonly Movable[];
  readonly standing: readonly Standing[];
  readonly links: readonly Link[];
  readonly apart: Apart;
  /** Of two equal shifts the one this way is taken: 1 is right or up. */
  readonly tie: 1 | -1;
}

export interface Placed {
  readonly ok: true;
  /** Steps each movable is shifted. */
  readonly shifts: readonly number[];
  /** Sum of all shifts, mm. */
  readonly total: number;
  /** Comparable between attempts at one line. */
  readonly cost: number;
  /** False where the search bound was reached before the least was proven. */
  readonly proven: boolean;
}
export interface Stuck {
  readonly ok: false;
  /** Movables that cannot all be placed. */
  readonly among: readonly number[];
}

export const HAIR = 1e-7;

/**
 * Costs are ordered first by total shift, then by the rank of what moves, then by how many move, then by the direction
 * of ties. Each level is scaled above the most that the levels below it can sum to.
 */
export function shiftCost(k: number, rank: number, tie: 1 | -1): number {
  if (k === 0) return 0;
  const size = Math.abs(k);
  return size * 2 ** 35 + size * rank * 2 ** 19 + 2 ** 14 + (k * tie < 0 ? size : 0);
}
