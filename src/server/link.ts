/** One connection of a folder to its shop, opened and brought level: journals exchanged, leases known. */
import { err, ok, type Problem, type Result } from '../base/problem.js';
import { type Card, liesAt } from '../store/card.js';
import type { Disk } from '../store/disk.js';
import { ServerClient, ServerError } from './client.js';
import { clocksOf, noteClock } from './clocks.js';
import { Exchange } from './exchange.js';
import { benches, formProblem, shopThere } from './gate.js';
import { Leases } from './leases.js';
import { shopProblem } from './messages.js';
import { newsNow, type Read, Teller } from './news.js';
import { noteSetback, reportSetbacks } from './setback.js';
import type { Settings } from './settings.js';

export interface ShopLink {
  readonly client: ServerClient;
  readonly teller: Teller;
  readonly exchange: Exchange;
  readonly leases: Leases;
  /** How far the news of each folder have been read. */
  readonly read: Read;
  /** How much each bench's clock is ahead of the server's, ms. */
  clocks: ReadonlyMap<string, number>;
}

interface LinkPlace {
  readonly disk: Disk;
  readonly root: string;
  readonly card: Card;
  readonly settings: Settings;
  readonly clock: () => number;
}

/** Whatever else ends an exchange; the next connection begins it anew. */
export const faultOf = (error: unknown): Problem =>
  shopProblem('shop.refused', { error: String((error as Error)?.message ?? error) });

/** @param known lines that the server had of each journal when the line was last up */
export async function openLink(
  { disk, root, card, settings, clock }: LinkPlace,
  known: ReadonlyMap<string, number>,
  progress?: (done: number, of: number) => void,
): Promise<Result<ShopLink>> {
  const opened = await ServerClient.open(settings);
  if (!opened.ok) return opened;
  const client = opened.value;
  try {
    const shop = await shopThere(client);
    const wrong = shop.ok
      ? (formProblem(shop.value.form) ??
        (shop.value.id === card.shop
          ? undefined
          : shopProblem('shop.other-shop/server', { shop: shop.value.name, card: card.name })))
      : shop.problems[0]!;
    const copied =
      card.lies === liesAt(disk, root) ? undefined : shopProblem('shop.copied', { bench: card.bench });
    const own = wrong ? undefined : (await benches(client)).find(({ folder }) => folder === card.folder);
    const refused =
      wrong ??
      copied ??
      (own === undefined || own.left ? shopProblem('shop.not-joined/shop', { card: card.name }) : undefined);
    if (refused) {
      client.close();
      return err(refused);
    }
    await noteClock(client, card.folder, clock);
    const clocks = await clocksOf(client);
    // Before the journals are compared: what comes meanwhile is read again.
    const read = await newsNow(client);
    const k = read.get(card.folder) ?? 0;
    const teller = new Teller(client, card.folder, k);
    const now = () => new Date(clock()).toISOString();
    const exchange = new Exchange(client, teller, { disk, root, card, now });
    await exchange.begin(known, () => noteSetback(client, card.bench), progress);
    const leases = new Leases(client, teller, card.bench);
    await leases.begin();
    await reportSetbacks(client, card.folder);
    return ok({ client, teller, exchange, leases, read, clocks });
  } catch (error) {
    client.close();
    return err(error instanceof ServerError ? error.problem : faultOf(error));
  }
}
