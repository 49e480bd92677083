/** Seeded random numbers for practice. The state is plain data, so a drill can be stored, replayed and tested. */
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { xoroshiro128plus, xoroshiro128plusFromState } from 'pure-rand/generator/xoroshiro128plus';

export type ChanceState = readonly number[];

/** `state` is what to save in order to continue the sequence later. */
export class Chance {
  readonly #from: ReturnType<typeof xoroshiro128plus>;

  private constructor(from: ReturnType<typeof xoroshiro128plus>) {
    this.#from = from;
  }

  static seeded(seed: number): Chance {
    return new Chance(xoroshiro128plus(seed));
  }

  static from(state: ChanceState): Chance {
    return new Chance(xoroshiro128plusFromState(state));
  }

  get state(): ChanceState {
    return [...this.#from.getState()];
  }

  between(low: number, high: number): number {
    return low + (high - low) * uniformFloat64(this.#from);
  }

  /** Like `between`, with a random sign. */
  signed(low: number, high: number): number {
    return this.between(low, high) * (this.whole(0, 1) === 0 ? -1 : 1);
  }

  /** An integer, both ends inclusive. */
  whole(low: number, high: number): number {
    return uniformInt(this.#from, low, high);
  }

  pick<T>(from: readonly T[]): T {
    return from[this.whole(0, from.length - 1)]!;
  }

  /** A shuffled copy (Fisher-Yates). */
  shuffled<T>(things: readonly T[]): T[] {
    const out = [...things];
    for (let i = out.length - 1; i > 0; i--) {
      const j = this.whole(0, i);
      [out[i], out[j]] = [out[j]!, out[i]!];
    }
    return out;
  }
}
