/** A folder of a shop around a verb: what others wrote is fetched first, and what was written is handed over behind. */
import { type Problem, problemTold, type Result } from '../base/problem.js';
import { sanitize } from '../base/text.js';
import { data, type Spoken } from '../base/words.js';
import { catchUp } from '../server/catchup.js';
import { exchangeAll, onServer } from '../server/join.js';
import { readSettings, type Settings } from '../server/settings.js';
import { sources } from '../session/sources.js';
import { type Card, readCard } from '../store/card.js';
import { realDisk } from '../store/disk.js';
import { type Io, saying, tellOf } from './io.js';
import { SHOP_SAYS } from './words/shop.js';

/** Longer, and the verb goes on without, ms. */
const MOST_MS = 20_000;

/** Where the server is not reached, what stands here is shown, and that is said. */
export async function shopFirst(io: Io): Promise<void> {
  const problem = await withShop(io, (place) => catchUp(place));
  if (problem?.id === 'workshop.shop-card') io.err(problemTold(problem, io.reader?.tell));
  else if (problem) io.err(said(io, 'shop-as-last', problem));
}

/** Where the server is not reached, it is handed over another time, and that is said. */
export async function shopAfter(io: Io): Promise<void> {
  const problem = await withShop(io, ({ disk, root, card, settings }) =>
    onServer(settings, (client) => exchangeAll({ disk, root, settings, clock: Date.now }, card, client)),
  );
  if (problem) io.err(said(io, 'shop-later', problem));
}

const said = (io: Io, id: 'shop-as-last' | 'shop-later', problem: Problem): Spoken =>
  data(`${saying(io, SHOP_SAYS)(id, { problem: sanitize(tellOf(io)(problem.said)) })} [${problem.id}]`);

interface ShopPlace {
  readonly disk: typeof realDisk;
  readonly root: string;
  readonly card: Card;
  readonly settings: Settings;
}

async function withShop(
  io: Io,
  run: (place: ShopPlace) => Promise<Result<void>>,
): Promise<Problem | undefined> {
  const card = readCard(realDisk, io.workshop);
  if (!card.ok) return card.problems[0];
  if (!card.value) return undefined;
  const settings = readSettings(sources(), card.value.service ?? process.env.PGSERVICE);
  if (!settings.ok) return settings.problems[0];
  const place = { disk: realDisk, root: io.workshop, card: card.value, settings: settings.value };
  const done = await Promise.race([run(place), later(MOST_MS)]);
  return done === undefined || done.ok ? undefined : done.problems[0];
}

const later = (ms: number): Promise<undefined> =>
  new Promise((resolve) => setTimeout(resolve, ms, undefined).unref());
