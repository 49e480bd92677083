/**
 * What a decision is given of a running shop. Lots, snags of other units and set-ups are read from disk only where a
 * decision asks for them, as they are then, and once.
 */
import type { Surroundings } from '../../build/types.js';
import type { WorkshopRules } from '../../build/workshop.js';
import type { FoundEvidence } from '../../store/evidence.js';
import type { Hand } from '../ports.js';
import { materialsOf } from './board.js';
import type { Shop } from './shop.js';

/** Evidence files by the names under which the action speaks of them. */
export type Found = Readonly<Record<string, FoundEvidence>>;
type Evidence = NonNullable<Surroundings['evidence']>;

export class ShopAround implements Surroundings {
  readonly bench: string;
  readonly person: Surroundings['person'];
  readonly inHand: Surroundings['inHand'];
  readonly instruments: Surroundings['instruments'];
  readonly clockJump: Surroundings['clockJump'];
  readonly evidence: Evidence;
  // Not of the kind with a #: a decision may look through an object that inherits from this one.
  private known: ReturnType<typeof materialsOf> | undefined;
  private proven: Surroundings['setups'];

  /** `ms` and `now` are the same moment. */
  constructor(
    private readonly shop: Shop,
    hand: Hand,
    private readonly ms: number,
    readonly now: string,
    readonly workshop: WorkshopRules,
    found: Found,
  ) {
    this.bench = shop.bench;
    this.person = hand.person;
    this.inHand = hand.inHand;
    this.instruments = shop.workshop.instruments;
    this.clockJump = shop.steady.jump(ms);
    this.evidence = evidenceIn(found);
  }

  get pinLocked(): readonly string[] {
    return this.shop.tries.locked(this.ms);
  }

  get lots() {
    return this.materials.lots;
  }

  get snagged() {
    return this.materials.snagged;
  }

  get setups(): Surroundings['setups'] {
    const { shop, now } = this;
    if (!shop.workshop.setups) return undefined;
    this.proven ??= shop.setups.valid(shop.workshop, () => this.materials.uses, now);
    return this.proven;
  }

  private get materials() {
    this.known ??= materialsOf(this.shop.look(this.now));
    return this.known;
  }
}

function evidenceIn(found: Found): Evidence {
  const out: Record<string, Evidence[string]> = {};
  for (const name in found) out[name] = found[name]!.evidence;
  return out;
}
