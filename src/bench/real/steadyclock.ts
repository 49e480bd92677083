/**
 * Notices that somebody set the wall clock while the bench runs: it is held against a clock that only goes forward. The
 * one that goes on while the machine sleeps takes long to ask, so a quick one that may stand still then is asked first.
 * Where it agrees with the wall clock, nothing was set and nothing slept; or the clock was set back by as long as the
 * machine slept, and then a cure ends later than it need, never sooner.
 */

/** Drift and delays that are no jump, ms. */
const SLACK_MS = 2000;

export class SteadyClock {
  #wallThen: number;
  #quickThen: number;
  #steadyThen: number;

  /** All in ms. @param steady goes on while the machine sleeps @param quick agrees with `steady` while it does not */
  constructor(
    wall: () => number,
    private readonly steady: () => number,
    private readonly quick: () => number = steady,
  ) {
    this.#wallThen = wall();
    this.#quickThen = quick();
    this.#steadyThen = steady();
  }

  /** Where the wall clock should be by now and where it is, if that is another; UTC. */
  jump(wall: number): { readonly from: string; readonly to: string } | undefined {
    if (this.#agrees(wall)) return undefined;
    const should = this.#wallThen + (this.steady() - this.#steadyThen);
    if (Math.abs(wall - should) < SLACK_MS) return undefined;
    return { from: new Date(should).toISOString(), to: new Date(wall).toISOString() };
  }

  /** The time as it would be without the jump that is noticed and not in the journal yet, UTC. */
  unjumped(wall: number): string {
    return this.jump(wall)?.from ?? new Date(wall).toISOString();
  }

  /** What was noticed until now is in the journal. */
  noted(wall: number): void {
    const quick = this.quick();
    this.#steadyThen = this.#agrees(wall) ? this.#steadyThen + (quick - this.#quickThen) : this.steady();
    this.#quickThen = quick;
    this.#wallThen = wall;
  }

  #agrees(wall: number): boolean {
    return Math.abs(wall - this.#wallThen - (this.quick() - this.#quickThen)) < SLACK_MS;
  }
}
