/** Notices that somebody set the wall clock while the bench runs: it is held against a clock that only goes forward. */

/** Drift and delays that are no jump, ms. */
const SLACK_MS = 2000;

export class SteadyClock {
  readonly #steady: () => number;
  #wallThen: number;
  #steadyThen: number;

  constructor(wall: () => number, steady: () => number) {
    this.#steady = steady;
    this.#wallThen = wall();
    this.#steadyThen = steady();
  }

  /** `{clockJump}` where the wall clock is not where it should be by now; else nothing. */
  jump(wall: number): { readonly clockJump?: { readonly from: string; readonly to: string } } {
    const should = this.#wallThen + (this.#steady() - this.#steadyThen);
    if (Math.abs(wall - should) < SLACK_MS) return {};
    return { clockJump: { from: new Date(should).toISOString(), to: new Date(wall).toISOString() } };
  }

  /** The time as it would be without the jump that is noticed and not in the journal yet, UTC. */
  unjumped(wall: number): string {
    const { clockJump } = this.jump(wall);
    return clockJump?.from ?? new Date(wall).toISOString();
  }

  /** What was noticed until now is in the journal. */
  noted(wall: number): void {
    this.#wallThen = wall;
    this.#steadyThen = this.#steady();
  }
}
