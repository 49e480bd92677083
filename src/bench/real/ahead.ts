/**
 * What the next key may answer, decided while the person still looks or types: then only the writing is waited for. A
 * decision made so counts only where it could not have come out otherwise at the moment of the answer: for the same
 * action, unit, hand and rules, where it asked for nothing that is read from disk, and where time does not bear on it. A
 * jump of the clock is in the journal before anything is decided, so that the unit is then another.
 */
import { isDeepStrictEqual } from 'node:util';
import type { BenchAction } from '../../build/actions.js';
import { decide } from '../../build/decide.js';
import type { Decision, Surroundings, UnitState } from '../../build/types.js';

/** It counts for so long, ms; a bench that nobody touches decides anew sooner than that. */
const COUNTS_MS = 10_000;

export type Decided = Extract<Decision, { kind: 'events' }>;

/** What a decision is held against. */
export type Moment = Pick<Surroundings, 'now' | 'person' | 'inHand' | 'workshop' | 'instruments'>;

export class Ahead {
  readonly #decided: readonly { readonly action: BenchAction; readonly decision: Decided }[];
  readonly #inHand: Surroundings['inHand'];
  readonly #until: string;

  /** @param around as they are now */
  constructor(
    private readonly state: UnitState,
    actions: readonly BenchAction[],
    private readonly around: Surroundings,
  ) {
    this.#inHand = { ...around.inHand };
    this.#until = new Date(Date.parse(around.now) + COUNTS_MS).toISOString();
    this.#decided = actions.flatMap((action) => {
      const decision = this.#decide(action);
      return decision ? [{ action, decision }] : [];
    });
  }

  /** The decisions that were made. */
  all(): readonly Decided[] {
    return this.#decided.map(({ decision }) => decision);
  }

  /** What was decided, if it counts at this moment. */
  of(state: UnitState, action: BenchAction, at: Moment): Decided | undefined {
    const then = this.around;
    const same =
      state === this.state &&
      at.person === then.person &&
      at.workshop === then.workshop &&
      at.instruments === then.instruments &&
      at.now >= then.now &&
      at.now < this.#until &&
      sameTexts(at.inHand, this.#inHand);
    if (!same) return undefined;
    for (const each of this.#decided) if (sameTexts(each.action, action)) return each.decision;
    return undefined;
  }

  #decide(action: BenchAction): Decided | undefined {
    const { around, state } = this;
    // What has parts (a form, pictures) is not compared.
    if ((action.do !== 'answer' && action.do !== 'read') || !sameTexts(action, action)) return undefined;
    const noting = new Noting(around, around.now);
    const now = decide(state, action, noting);
    if (now.kind !== 'events' || noting.asked) return undefined;
    // What time bears on (a burst, a cure, a sign-off that runs out) comes at one moment and does not go again.
    const later = decide(state, action, new Noting(around, this.#until));
    return isDeepStrictEqual(now, later) ? now : undefined;
  }
}

type Texts = Readonly<Record<string, unknown>>;

/** Whether two tables have the same members, all of them texts or a yes or no. */
function sameTexts(a: object, b: object): boolean {
  let more = 0;
  for (const name in a) {
    const value = (a as Texts)[name];
    if (value !== (b as Texts)[name] || typeof value === 'object') return false;
    more += 1;
  }
  for (const _ in b) more -= 1;
  return more === 0;
}

/** Surroundings that note whether they were asked for what is read from disk as it is then. */
class Noting implements Surroundings {
  asked = false;
  readonly bench: string;
  readonly person: Surroundings['person'];
  readonly inHand: Surroundings['inHand'];
  readonly workshop: Surroundings['workshop'];
  readonly instruments: Surroundings['instruments'];

  constructor(
    private readonly around: Surroundings,
    readonly now: string,
  ) {
    this.bench = around.bench;
    this.person = around.person;
    this.inHand = around.inHand;
    this.workshop = around.workshop;
    this.instruments = around.instruments;
  }

  get evidence(): NonNullable<Surroundings['evidence']> {
    this.asked = true;
    return this.around.evidence ?? {};
  }

  get lots(): NonNullable<Surroundings['lots']> {
    this.asked = true;
    return this.around.lots ?? [];
  }

  get snagged(): NonNullable<Surroundings['snagged']> {
    this.asked = true;
    return this.around.snagged ?? { lots: [], setups: [] };
  }

  get setups(): Surroundings['setups'] {
    this.asked = true;
    return this.around.setups;
  }

  get pinLocked(): NonNullable<Surroundings['pinLocked']> {
    this.asked = true;
    return this.around.pinLocked ?? [];
  }
}
