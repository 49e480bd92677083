/** Which units a bench has, over one connection: it takes some ahead, asks other benches for theirs, and gives its own. */
import { setTimeout as pause } from 'node:timers/promises';
import type { Card } from '../store/card.js';
import { isUnitJournal } from './exchange.js';
import type { ShopLink } from './link.js';

/** How long a bench may take to give a lease that it does not use, ms. */
const GIVES_MS = 1_500;

interface GivesPlace {
  readonly card: Card;
  readonly isInUse: (job: string, unit: string) => boolean;
}

/** Asks the bench that has it, and waits a little. */
export async function askFor({ leases, client }: ShopLink, journal: string): Promise<void> {
  await leases.ask(journal);
  await client.announce();
  const end = performance.now() + GIVES_MS;
  while (performance.now() < end && !leases.isOwn(journal)) {
    await pause(25);
    await leases.reread(journal);
  }
}

/**
 * A unit that was begun without a line gets its lease once the server has it. One that went to another bench since is left
 * there: nothing more of it is given from here.
 */
export async function leaseWhatWasBegun(link: ShopLink): Promise<void> {
  const { leases, exchange } = link;
  for (const journal of exchange.given()) {
    if (!isUnitJournal(journal) || leases.isOwn(journal)) continue;
    if (leases.of(journal)?.bench === undefined) await leases.take(journal);
    else await askFor(link, journal);
  }
}

/** Units that nobody has and nobody began, so that a shift without a line finds them here. */
export async function takeAhead(
  { leases, exchange }: ShopLink,
  bench: string,
  { units, most }: { readonly units: readonly string[]; readonly most: number },
): Promise<void> {
  const own = [...leases.held()].filter(
    ([journal, holder]) => holder === bench && exchange.handed(journal) === 0,
  );
  let left = most - own.length;
  for (const journal of units) {
    if (left <= 0) break;
    if (leases.of(journal)?.bench !== undefined || exchange.handed(journal) > 0) continue;
    const took = await leases.take(journal);
    if (!took.ok) break;
    if (took.value) left -= 1;
  }
}

/** A unit that was let go here is free, if a bench asked for it while it was in use. */
export async function freeIfAsked(
  link: ShopLink,
  known: Map<string, string>,
  at: GivesPlace,
  journal: string,
): Promise<void> {
  const { leases } = link;
  const turn = leases.isOwn(journal) ? leases.of(journal)?.turn : undefined;
  if (turn === undefined || (await leases.asking(journal, turn)).length === 0) return;
  await letGo(link, known, at, journal, undefined);
}

/** Gives a unit that is not in use here to a bench that asked. `known` is what this folder remembers of the leases. */
export async function giveTo(
  link: ShopLink,
  known: Map<string, string>,
  at: GivesPlace,
  { journal, turn }: { readonly journal: string; readonly turn: number },
): Promise<void> {
  const { leases } = link;
  if (!leases.isOwn(journal) || leases.of(journal)?.turn !== turn) return;
  const [asker] = await leases.asking(journal, turn);
  if (asker !== undefined) await letGo(link, known, at, journal, asker);
}

async function letGo(
  { leases, exchange }: ShopLink,
  known: Map<string, string>,
  { card, isInUse }: GivesPlace,
  journal: string,
  to: string | undefined,
): Promise<void> {
  const [job = '', unit = ''] = journal.split('/');
  // Taken off before it is looked at: nothing is opened with it in between.
  known.delete(journal);
  if (isInUse(job, unit)) {
    known.set(journal, card.bench);
    return;
  }
  await exchange.handOver(journal);
  await leases.give(journal, to);
}
