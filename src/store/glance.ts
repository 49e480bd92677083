/** What another program may change meanwhile, and need not be looked at again within a second. */

/** For so long a look counts, ms. A bench looks this often while nobody touches it. */
export const LOOK_MS = 1000;

export class Glance<T> {
  #seen: { readonly at: number; readonly what: T } | undefined;

  /** @param quick a clock that only goes forward, ms */
  constructor(
    private readonly look: () => T,
    private readonly quick: () => number,
  ) {}

  /** As it is now. Throws what looking throws. */
  now(): T {
    const what = this.look();
    this.#seen = { at: this.quick(), what };
    return what;
  }

  /** As it was within the last second. */
  lately(): T {
    const seen = this.#seen;
    return seen && Math.abs(this.quick() - seen.at) < LOOK_MS ? seen.what : this.now();
  }
}
