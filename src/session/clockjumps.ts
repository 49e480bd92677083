/** Notices that somebody set the wall clock while the bench runs: it is held against a clock that only goes forward. */

/** Drift and delays that are no jump, ms. */
const SLACK_MS = 2000;

export class SteadyClock {
  #wallThen: number;
  #steadyThen: number;

  /** Both in ms. @param steady goes on while the machine sleeps */
  constructor(
    wall: () => number,
    private readonly steady: () => number,
  ) {
    this.#wallThen = wall();
    this.#steadyThen = steady();
  }

  /** Where the wall clock should be by now and where it is, if that is another; UTC. */
  jump(wall: number): { readonly from: string; readonly to: string } | undefined {
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
    this.#steadyThen = this.steady();
    this.#wallThen = wall;
  }
}
