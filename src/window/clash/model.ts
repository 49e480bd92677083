/**
 * What the solver knows: marks along one part, some free to move in steps of half a millimetre, and the least
 * distances between them. Positions are along the part, in mm, from any common datum.
 */
import type { ProfileSet } from '../profileset.js';
import type { Sheet } from '../sheet.js';

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
  /** Nodes that are searched at most for marks that have to do with one another. */
  readonly nodes?: number;
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
  /** False where the search bound was reached before it was shown that nothing holds. */
  readonly proven: boolean;
}

export const HAIR = 1e-7;

/**
 * What a step costs: first the step itself, then the rank of what moves, then the direction of ties, then the place in
 * the row, so that of many solutions with one total the same one is found each time, and its mirror image in a mirror.
 * Each level is scaled above the most that the levels below it can sum to.
 */
export function slopesOf(movables: readonly Movable[], tie: 1 | -1): Slope[] {
  const order = movables
    .map(({ nominal, kind }, i) => ({ nominal: nominal * tie, kind, i }))
    .sort((a, b) => a.nominal - b.nominal || (a.kind < b.kind ? -1 : 1))
    .map(({ i }) => i);
  return movables.map(({ rank }, i) => {
    const base = 2 ** 42 + rank * 2 ** 28 + Math.min(15, order.indexOf(i));
    const against = base + 2 ** 16;
    return tie > 0 ? { down: against, up: base } : { down: base, up: against };
  });
}

// The clearances of a profile set as least distances between centres.

export interface Clearance {
  readonly between: readonly [string, string];
  readonly least: number;
  readonly from: 'centres' | 'edges';
  readonly faces: 'any' | 'opposite' | 'same';
  /** As a person reads it. */
  readonly says: string;
}

type Mark = Pick<Standing, 'kind' | 'face' | 'half'>;

export class Clearances {
  readonly list: readonly Clearance[];
  /** The longest of them, edges not counted. */
  readonly longest: number;
  readonly #byKinds = new Map<string, Map<string, Clearance[]>>();

  constructor(list: readonly Clearance[]) {
    this.list = list;
    this.longest = Math.max(0, ...list.map(({ least }) => least));
    for (const clearance of list) {
      const [a, b] = clearance.between;
      this.#put(a, b, clearance);
      if (a !== b) this.#put(b, a, clearance);
    }
  }

  #put(a: string, b: string, clearance: Clearance): void {
    const row = this.#byKinds.get(a) ?? new Map<string, Clearance[]>();
    this.#byKinds.set(a, row.set(b, [...(row.get(b) ?? []), clearance]));
  }

  static of(set: ProfileSet, unitSheet: Sheet): Clearances {
    return new Clearances(
      set.file.clearances.map(({ between, least, from, faces, says }) => {
        const value = unitSheet.value(least);
        const opposite = faces === 'opposite' ? ' on the opposite side' : '';
        return {
          between,
          least: value,
          from,
          faces,
          says:
            says ||
            `${set.titleOf(between[0])} at least ${value} from ${set.titleOf(between[1])}${opposite}, between ${from === 'edges' ? 'edges' : 'centres'}`,
        };
      }),
    );
  }

  apart: Apart = (a, b) => {
    const found = this.#byKinds.get(a.kind)?.get(b.kind);
    if (found === undefined) return 0;
    let least = 0;
    for (const clearance of found)
      if (bindsFaces(clearance, a, b)) least = Math.max(least, distance(clearance, a, b));
    return least;
  };
  /** Without one of the clearances, to find out which rules stand in one another's way. */
  except(dropped: Clearance): Clearances {
    return new Clearances(this.list.filter((each) => each !== dropped));
  }
}

function bindsFaces({ faces }: Clearance, a: Mark, b: Mark): boolean {
  if (faces === 'any') return true;
  const product = a.face * b.face;
  return faces === 'opposite' ? product < 0 : product >= 0;
}

const distance = ({ from, least }: Clearance, a: Mark, b: Mark): number =>
  from === 'edges' ? least + a.half + b.half : least;

/** Cost of a step below and above zero. */
export interface Slope {
  readonly down: number;
  readonly up: number;
}
