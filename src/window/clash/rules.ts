/** The clearances of a profile set as least distances between centres. */
import type { ProfileSet } from '../profileset.js';
import type { Sheet } from '../sheet.js';
import type { Apart, Standing } from './model.js';

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
