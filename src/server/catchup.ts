/** Brings a folder up to what other benches have written since it was last connected, for a look at the whole shop. */
import { err, ok, type Result } from '../base/problem.js';
import { type Card, liesAt } from '../store/card.js';
import type { Disk } from '../store/disk.js';
import type { ServerClient } from './client.js';
import { keptFiles, layFile, localFiles } from './contents.js';
import { takeEdition } from './editions.js';
import { Exchange } from './exchange.js';
import { formProblem, shopThere } from './gate.js';
import { exchangeAll, onServer } from './join.js';
import { Memory } from './memory.js';
import { shopProblem } from './messages.js';
import { type News, newsNow, newsSince, Teller } from './news.js';
import type { Settings } from './settings.js';

interface CatchUpPlace {
  readonly disk: Disk;
  readonly root: string;
  readonly card: Card;
  readonly settings: Settings;
}

/** Journals, files and editions. Where what was read before is not there any more, everything is compared. */
export function catchUp({ disk, root, card, settings }: CatchUpPlace): Promise<Result<void>> {
  return onServer(settings, async (client) => {
    const shop = await shopThere(client);
    if (!shop.ok) return shop;
    if (shop.value.id !== card.shop) return err(shopProblem('shop.other-shop', { shop: shop.value.name }));
    if (card.lies !== liesAt(disk, root)) return err(shopProblem('shop.copied', { bench: card.bench }));
    const form = formProblem(shop.value.form);
    if (form && form.id !== 'shop.newer') return err(form);
    const memory = new Memory(disk, root);
    const read = new Map(memory.read);
    const there = await newsNow(client);
    const isBehind = [...read].some(([folder, k]) => (there.get(folder) ?? 0) < k);
    if (read.size === 0 || isBehind)
      return exchangeAll({ disk, root, settings, clock: Date.now }, card, client);
    const news: News[] = [];
    for (let more = await newsSince(client, read); more.length > 0; more = await newsSince(client, read))
      news.push(...more);
    if (news.length === 0) return ok(undefined);
    const wrong = await fetchNews(client, { disk, root, card }, news);
    memory.keepTips(new Map([...memory.tips, ...wrong.tips]), read);
    memory.save();
    return wrong.problems.length === 0 ? ok(undefined) : err(...wrong.problems);
  });
}

async function fetchNews(
  client: ServerClient,
  { disk, root, card }: Pick<CatchUpPlace, 'disk' | 'root' | 'card'>,
  news: readonly News[],
) {
  const now = () => new Date().toISOString();
  const exchange = new Exchange(client, new Teller(client, card.folder, 0), { disk, root, card, now });
  const others = news.filter(({ folder }) => folder !== card.folder);
  const subjects = (kind: News['kind']) =>
    new Set(others.filter((each) => each.kind === kind).map(({ subject }) => subject));
  for (const journal of subjects('lines')) await exchange.level(journal);
  const here = new Set(localFiles(disk, root));
  const problems = [];
  for (const path of subjects('kept')) {
    const kept = here.has(path) ? undefined : (await keptFiles(client, path)).get(path);
    const laid = kept ? await layFile(client, disk, root, kept) : ok(undefined);
    if (!laid.ok) problems.push(...laid.problems);
  }
  if (others.some(({ kind }) => kind === 'edition')) {
    const taken = await takeEdition(client, disk, root);
    if (!taken.ok) problems.push(...taken.problems);
  }
  return { tips: exchange.tips(), problems: [...problems, ...exchange.wrong.values()] };
}
