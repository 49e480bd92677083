/** Taking part in a shop, and leaving it. What was begun and broke off goes on where it stood. */
import { join } from 'node:path';
import { err, ok, type Problem, type Result } from '../base/problem.js';
import { type Card, liesAt, readCard, writeCard } from '../store/card.js';
import { type Disk, diskProblem } from '../store/disk.js';
import { makeFolders, writeWhole } from '../store/files.js';
import { benchFile } from '../store/register/place.js';
import { storeWords } from '../store/words.js';
import { ServerClient, ServerError } from './client.js';
import { jobOf, keepFile, keptFiles, layFile, localFiles, newFolderId } from './contents.js';
import { takeEdition } from './editions.js';
import { enrol, formProblem, shopThere, signOff } from './gate.js';
import { localJournals } from './journalnames.js';
import { wholeJournals } from './lines.js';
import { openLink } from './link.js';
import { Memory } from './memory.js';
import { shopProblem } from './messages.js';
import { newsNow, Teller } from './news.js';
import { removedJobs } from './removal.js';
import type { Settings } from './settings.js';

export interface JoinPlace {
  readonly disk: Disk;
  readonly root: string;
  readonly settings: Settings;
  readonly clock: () => number;
}

export interface Joining {
  readonly bench: string;
  /** Id of the person who takes the folder in. */
  readonly by: string;
  readonly service?: string;
  /** The folder is the bench's own, and lies elsewhere now. */
  readonly moved?: boolean;
  readonly progress?: (what: 'journals' | 'files', done: number, of: number) => void;
}

/** Takes part, and fetches all that the shop has. Called again, it goes on where it broke off. */
export async function joinShop(place: JoinPlace, how: Joining): Promise<Result<Card>> {
  const { disk, root, settings } = place;
  const held = readCard(disk, root);
  if (!held.ok) return held;
  return onServer(settings, async (client) => {
    const shop = await shopThere(client);
    if (!shop.ok) return shop;
    const form = formProblem(shop.value.form);
    if (form) return err(form);
    makeFolders(disk, root, ['shop']);
    const lies = liesAt(disk, root);
    // A copy of a bench's folder may take part as a bench of its own.
    const isCopy = held.value !== undefined && held.value.lies !== lies && !how.moved;
    if (isCopy && held.value.bench === how.bench)
      return err(shopProblem('shop.copied', { bench: how.bench }));
    const before = isCopy ? undefined : held.value;
    const service = how.service ?? held.value?.service;
    if (before && (before.shop !== shop.value.id || before.bench !== how.bench))
      return err(shopProblem('shop.joined-already', { before: before.name, bench: before.bench }));
    const card: Card = before
      ? { ...before, lies }
      : {
          format: 'pinchrod-shop 1',
          shop: shop.value.id,
          name: shop.value.name,
          bench: how.bench,
          folder: newFolderId(),
          lies,
          ...(service === undefined ? {} : { service }),
        };
    const enrolled = await enrol(client, card.bench, card.folder, how.by);
    if (!enrolled.ok) return enrolled;
    if (isCopy) await asTheServerHas(client, disk, root, held.value.bench);
    const wrote = before?.lies === lies ? ok(undefined) : writeCard(disk, root, card);
    if (!wrote.ok) return wrote;
    const taken = await takeEdition(client, disk, root);
    const exchanged = await exchangeAll(place, card, client, how.progress);
    const problems = [...(taken.ok ? [] : taken.problems), ...(exchanged.ok ? [] : exchanged.problems)];
    return problems.length === 0 ? ok(card) : err(...problems);
  });
}

/**
 * In a copy of a bench's folder: that bench's own journals become those of the server. What the copy wrote into them is kept
 * under shop/dropped, for it was never that bench's.
 */
async function asTheServerHas(client: ServerClient, disk: Disk, root: string, bench: string): Promise<void> {
  const own = localJournals(disk, root).filter(
    ({ journal }) => journal === benchFile(bench) || journal.startsWith(`benches/${bench}/`),
  );
  const server = await wholeJournals(
    client,
    own.map(({ journal }) => journal),
  );
  for (const { journal, place } of own) {
    const bytes = server.get(journal);
    const here = disk.read(place.file);
    if (bytes?.equals(here)) continue;
    const aside = ['shop', 'dropped', ...journal.split('/')];
    writeWhole(disk, join(makeFolders(disk, root, aside.slice(0, -1)), aside.at(-1)!), here);
    if (bytes) writeWhole(disk, place.file, bytes);
    else disk.unlink(place.file);
  }
}

/** Everything once, both ways: journals, then files. */
export async function exchangeAll(
  place: JoinPlace,
  card: Card,
  client: ServerClient,
  progress: Joining['progress'] = () => undefined,
): Promise<Result<void>> {
  const { disk, root } = place;
  const memory = new Memory(disk, root);
  const line = await openLink({ ...place, card }, memory.tips, (done, of) => progress('journals', done, of));
  if (!line.ok) return line;
  const { exchange, leases, read } = line.value;
  const problems: Problem[] = [...exchange.wrong.values()];
  memory.keepTips(exchange.tips(), read);
  memory.keepLeases(leases.held());
  memory.save();
  line.value.client.close();
  const files = new Teller(client, card.folder, (await newsNow(client)).get(card.folder) ?? 0);
  const there = await keptFiles(client);
  const here = new Set(localFiles(disk, root));
  const missing = [...there.values()].filter(({ path }) => !here.has(path));
  const removed = await removedJobs(client);
  const fresh = [...here].filter((path) => !there.has(path) && !removed.has(jobOf(path) ?? ''));
  const of = missing.length + fresh.length;
  for (const [i, kept] of missing.entries()) {
    if (i % 20 === 0) progress('files', i, of);
    const laid = await layFile(client, disk, root, kept);
    if (!laid.ok) problems.push(...laid.problems);
  }
  for (const [i, path] of fresh.entries()) {
    if (i % 20 === 0) progress('files', missing.length + i, of);
    await keepFile(client, files, disk, root, path, undefined);
  }
  progress('files', of, of);
  memory.save();
  return problems.length === 0 ? ok(undefined) : err(...problems);
}

/** Everything is handed over, the folder is taken off the shop's list, and its card is removed: it is a workshop by itself. */
export async function leaveShop(place: JoinPlace, card: Card, by: string): Promise<Result<void>> {
  return onServer(place.settings, async (client) => {
    const exchanged = await exchangeAll(place, card, client);
    if (!exchanged.ok) return exchanged;
    const line = await openLink({ ...place, card }, new Map());
    if (!line.ok) return line;
    for (const [journal, bench] of line.value.leases.held())
      if (bench === card.bench) await line.value.leases.give(journal, undefined);
    line.value.client.close();
    const teller = new Teller(client, card.folder, (await newsNow(client)).get(card.folder) ?? 0);
    await signOff(client, teller, by);
    return forgetShop(place.disk, place.root);
  });
}

/** Removes what makes the folder one of a shop; journals and files stay. */
export function forgetShop(disk: Disk, root: string): Result<void> {
  try {
    for (const name of ['memory.json', 'edition.json', 'shop.json'])
      if (disk.stat(join(root, 'shop', name)) !== undefined) disk.unlink(join(root, 'shop', name));
    disk.flushFolder(join(root, 'shop'));
    return ok(undefined);
  } catch (error) {
    return err(diskProblem(error, 'shop', storeWords('while-shop-left')));
  }
}

/** Runs it on a connection that is closed afterwards; whatever the server refuses is a problem. */
export async function onServer<T>(
  settings: Settings,
  run: (client: ServerClient) => Promise<Result<T>>,
): Promise<Result<T>> {
  const opened = await ServerClient.open(settings);
  if (!opened.ok) return opened;
  try {
    return await run(opened.value);
  } catch (error) {
    if (error instanceof ServerError) return err(error.problem);
    throw error;
  } finally {
    opened.value.close();
  }
}
