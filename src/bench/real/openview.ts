/** The open unit as screens see it: the same object as long as nothing about it changed. */
import { isDeepStrictEqual } from 'node:util';
import { asOf } from '../../build/fold.js';
import type { OpenUnit } from '../ports.js';
import { follow, type Held, isLocked, keeperOf } from './held.js';
import { wordsOf } from './languages.js';
import type { Shop } from './shop.js';

/** Timers are worked out anew this often, ms; between times the state stays as it is. */
const TIMERS_MS = 1000;

export class OpenView {
  #open: OpenUnit | undefined;

  constructor(private readonly shop: Shop) {}

  /** `ms` and `now` are the same moment. Brings the state of `held` up to it. */
  at(held: Held | undefined, ms: number, now: string): OpenUnit | undefined {
    if (!held) return undefined;
    const { shop } = this;
    if (held.readOnly && Math.abs(ms - held.seen) >= TIMERS_MS) {
      held.seen = ms;
      // Where nothing can be read just now, nothing is known of who has it either.
      if (follow(shop.disk, shop.root, held, now)) this.#lookForKeeper(held);
    }
    if (held.state.timers.length > 0 && Math.abs(ms - held.seen) >= TIMERS_MS) {
      // A jump of the clock that is not in the journal yet must not let a cure end sooner on the screen.
      held.state = asOf(held.state, shop.steady.unjumped(ms));
      held.seen = ms;
    }
    if (this.#open?.state === held.state && this.#open.id === held.id) return this.#open;
    this.#open = {
      id: held.id,
      job: held.job,
      state: held.state,
      setOut: held.plan.setOut,
      ...(held.readOnly
        ? { readOnly: isLocked(held.readOnly) && !held.keptBy ? letGo(held.id) : held.readOnly.text }
        : {}),
      ...(held.keptBy ? { keptBy: held.keptBy } : {}),
      words: wordsOf(held.plan, shop.workshop),
    };
    return this.#open;
  }

  /** Somebody who only looks is told when the unit has become free, or another has taken it. */
  #lookForKeeper(held: Held): void {
    const { disk, root } = this.shop;
    const keptBy = keeperOf(disk, root, held.job, held.id);
    if (isDeepStrictEqual(keptBy, held.keptBy)) return;
    held.keptBy = keptBy;
    this.forget();
  }

  /** The unit, or what it is read with, is another. */
  forget(): void {
    this.#open = undefined;
  }
}

const letGo = (unit: string): string => `nobody has ${unit} any more.`;
