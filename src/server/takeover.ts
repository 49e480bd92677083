/**
 * A person takes a unit from the bench that has it. That is one more event of its journal: whatever the old holder gives
 * from then on meets a number that is taken, and becomes a branch.
 */
import { err, ok, type Result } from '../base/problem.js';
import type { Disk } from '../store/disk.js';
import { chainEvent, chainLine } from '../unit/chain.js';
import type { EventBody, JournalEvent } from '../unit/events.js';
import { ServerError } from './client.js';
import { placeNamed } from './journalnames.js';
import { addLines } from './lines.js';
import type { ShopLink } from './link.js';
import { localEnd } from './localfile.js';
import { shopProblem } from './messages.js';

export interface Takeover {
  /** Id of the person. */
  readonly by: string;
  readonly reason: string;
  /** The event that says so. @param from the bench that had it */
  body(from: string): EventBody;
}

interface TakeoverPlace {
  readonly disk: Disk;
  readonly root: string;
  readonly bench: string;
  readonly clock: () => number;
}

/** Throws ServerError. */
export async function takeOver(
  { client, teller, leases, exchange }: ShopLink,
  { disk, root, bench, clock }: TakeoverPlace,
  journal: string,
  how: Takeover,
): Promise<Result<void>> {
  const place = placeNamed(root, journal);
  if (!place.ok) return place;
  for (;;) {
    await leases.reread(journal);
    const from = leases.of(journal)?.bench;
    if (from === undefined || from === bench)
      return err(shopProblem('shop.not-held', { unit: place.value.unit }));
    const waits = await leases.waitsAfterSetback();
    if (waits !== undefined) return err(waits);
    await exchange.fetch(journal);
    const end = localEnd(disk, place.value);
    if (!end.ok) return end;
    // A unit that nobody began has nothing to fence off.
    if (end.value.n > 0) {
      const stamp = { by: how.by, at: new Date(clock()).toISOString(), bench };
      const event = chainEvent(how.body(from), stamp, end.value);
      const bytes = Buffer.from(chainLine(event as JournalEvent));
      const { n, hash, prev } = event;
      try {
        await teller.tell((news) => addLines(client, journal, [{ n, hash, prev, bytes }], news));
      } catch (error) {
        // The bench that has the unit was faster with a line of its own.
        if (error instanceof ServerError && error.isTaken) continue;
        throw error;
      }
      await exchange.fetch(journal);
    }
    if (await leases.next(journal, how.by, how.reason)) return ok(undefined);
  }
}
