/**
 * The solver's model: marks along one part, some movable in steps of half a millimetre, and the minimum distances
 * between them. Positions are along the part, in mm, from any common datum.
 */
import type { ProfileSet } from '../profileset.js';
import type { Sheet } from '../sheet.js';
import { windowSays } from '../words.js';

export const STEP = 0.5;

export interface Movable {
  /** Position given by its rule. */
  readonly nominal: number;
  /** Allowed range, `low` to `high`. */
  readonly low: number;
  readonly high: number;
  readonly kind: string;
  /** Side of the part it opens to: 1, -1, or 0 for through the part or neither. */
  readonly face: -1 | 0 | 1;
  /** Half its length along the part. */
  readonly half: number;
  /** 0 loose, 1 drilled, 2 punched: nothing of a later class moves further to spare one of an earlier class. */
  readonly made: 0 | 1 | 2;
  /** 0 moves before 3 if class and total shift are the same. */
  readonly rank: number;
}

export interface Standing {
  readonly at: number;
  readonly kind: string;
  readonly face: -1 | 0 | 1;
  readonly half: number;
}

/** Neighbours in fixed order: later minus earlier is between `least` and `most`. */
export interface Link {
  readonly first: number;
  readonly second: number;
  readonly least: number;
  readonly most: number;
}

/** Minimum distance between the centres of two marks, 0 if no rule applies. */
export type Apart = (
  a: Pick<Standing, 'kind' | 'face' | 'half'>,
  b: Pick<Standing, 'kind' | 'face' | 'half'>,
) => number;

export interface LineProblem {
  readonly movables: readonly Movable[];
  readonly standing: readonly Standing[];
  readonly links: readonly Link[];
  readonly apart: Apart;
  /** Direction preferred between two equal shifts: 1 is right or up. */
  readonly tie: 1 | -1;
  /** Maximum nodes to search per group of interacting marks. */
  readonly nodes?: number;
}

export interface Placed {
  readonly ok: true;
  /** In steps, one per movable. */
  readonly shifts: readonly number[];
  /** Sum of all shifts, mm. */
  readonly total: number;
  /** Comparable only between attempts at the same line. */
  readonly cost: number;
  /** False if the search limit was reached before the shift was proven minimal. */
  readonly proven: boolean;
}
export interface Stuck {
  readonly ok: false;
  readonly among: readonly number[];
  /** A mark that has one place only cannot stand there: more marks in its row do not help. */
  readonly pinned: boolean;
  /** False if the search limit was reached before infeasibility was proven. */
  readonly proven: boolean;
}

export const HAIR = 1e-7;

/**
 * Cost of a step: first the mark's class, then the step itself, then its rank, then the tie direction, then its place in
 * the row. So of many solutions with one total the same one is always found, and its mirror image in a mirrored window.
 * Each level is scaled above the sum of the levels below it over 512 steps; with three classes in one group the last
 * levels are beyond what a double holds.
 */
export function slopesOf(movables: readonly Movable[], tie: 1 | -1): Slope[] {
  const classes = [...new Set(movables.map(({ made }) => made))].sort((a, b) => a - b);
  const order = movables
    .map(({ nominal, kind }, i) => ({ nominal: nominal * tie, kind, i }))
    .sort((a, b) => a.nominal - b.nominal || (a.kind < b.kind ? -1 : 1))
    .map(({ i }) => i);
  return movables.map(({ rank, made }, i) => {
    const base = 2 ** (32 + 9 * classes.indexOf(made)) + rank * 2 ** 21 + Math.min(7, order.indexOf(i));
    const against = base + 2 ** 12;
    return tie > 0 ? { down: against, up: base } : { down: base, up: against };
  });
}

export interface Clearance {
  readonly between: readonly [string, string];
  readonly least: number;
  readonly from: 'centres' | 'edges';
  readonly faces: 'any' | 'opposite' | 'same';
  /** Human-readable text. */
  readonly says: string;
}

type Mark = Pick<Standing, 'kind' | 'face' | 'half'>;

export class Clearances {
  readonly list: readonly Clearance[];
  /** The largest `least`, half-lengths not counted. */
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
      set.file.clearances.flatMap(({ between, least, from, faces, says }) => {
        const value = unitSheet.value(least);
        // A rule that says that two things may meet.
        if (value === 0 && from === 'centres') return [];
        return {
          between,
          least: value,
          from,
          faces,
          says:
            says ||
            windowSays(`clear-${from}${faces === 'opposite' ? '-opposite' : ''}`, {
              mark: set.titleOf(between[0]),
              least: String(value),
              other: set.titleOf(between[1]),
            }),
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
}

function bindsFaces({ faces }: Clearance, a: Mark, b: Mark): boolean {
  if (faces === 'any') return true;
  const product = a.face * b.face;
  return faces === 'opposite' ? product < 0 : product >= 0;
}

const distance = ({ from, least }: Clearance, a: Mark, b: Mark): number =>
  from === 'edges' ? least + a.half + b.half : least;

/** Cost per step below and above zero. */
export interface Slope {
  readonly down: number;
  readonly up: number;
}
