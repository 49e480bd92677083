/** How a folder and its shop stand, for a person to read. */
import { err, ok, type Problem, type Result } from '../base/problem.js';
import { type Card, liesAt } from '../store/card.js';
import type { Disk } from '../store/disk.js';
import type { ServerClient } from './client.js';
import { noteClock } from './clocks.js';
import { keptFiles, localFiles } from './contents.js';
import { changedHere, heldEdition } from './editions.js';
import { type BenchThere, benches, formProblem, shopThere } from './gate.js';
import { localJournals } from './journalnames.js';
import { Leases } from './leases.js';
import { NOTHING, serverTips } from './lines.js';
import { cursorAt, linesBehind, localEnd } from './localfile.js';
import { Memory } from './memory.js';
import { shopProblem } from './messages.js';
import { SCHEMA } from './migrations.js';
import { Teller } from './news.js';

export interface ShopStatus {
  readonly benches: readonly BenchThere[];
  /** Lines and files here that the server does not have. */
  readonly waiting: number;
  readonly files: number;
  /** The newest one; undefined if nothing is published. `here`: the one that was last taken or published here. */
  readonly edition?: {
    readonly n: number;
    readonly by: string;
    readonly reason: string;
    readonly at: string;
    readonly here: number;
  };
  /** Files of the workshop that are not as that edition has them. */
  readonly changed: readonly string[];
  /** Units that each bench has. */
  readonly leases: readonly (readonly [bench: string, units: readonly string[]])[];
  /** Why something is not handed over. */
  readonly problems: readonly Problem[];
  readonly branches: readonly string[];
  /** How much this bench's clock is ahead of the server's, ms. */
  readonly aheadMs: number;
  /** Why no lease is given. */
  readonly waits?: string;
}

/** Lines here that the server did not have when the line was last up, or that were written since. */
export function linesKeptBack(disk: Disk, root: string): number {
  const { tips, behind } = new Memory(disk, root);
  return localJournals(disk, root).reduce((sum, { journal, place }) => {
    const end = localEnd(disk, place);
    const had = behind.get(journal) ?? tips.get(journal) ?? 0;
    return sum + Math.max(0, (end.ok ? end.value.n : 0) - had);
  }, 0);
}

/** Throws ServerError. */
export async function readStatus(
  client: ServerClient,
  disk: Disk,
  root: string,
  card: Card,
): Promise<Result<ShopStatus>> {
  const shop = await shopThere(client);
  if (!shop.ok) return shop;
  const form = formProblem(shop.value.form);
  if (form && form.id !== 'shop.newer') return err(form);
  if (shop.value.id !== card.shop) return err(shopProblem('shop.other-shop', { shop: shop.value.name }));
  const tips = await serverTips(client);
  const problems: Problem[] =
    card.lies === liesAt(disk, root) ? [] : [shopProblem('shop.copied', { bench: card.bench })];
  let waiting = 0;
  for (const { journal, place } of localJournals(disk, root)) {
    const end = localEnd(disk, place);
    const tip = tips.get(journal) ?? NOTHING;
    waiting += Math.max(0, (end.ok ? end.value.n : 0) - tip.n);
    if (end.ok && end.value.n <= tip.n) continue;
    const from = end.ok ? cursorAt(disk, place, tip) : end;
    const lines = from.ok ? linesBehind(disk, place, from.value) : from;
    if (!lines.ok) problems.push(lines.problems[0]!);
  }
  const kept = await keptFiles(client);
  const [newest] = await client.query<{ n: number; by: string; reason: string; at: Date }>(
    `select n, published_by as by, reason, published_at as at from ${SCHEMA}.edition order by n desc limit 1`,
  );
  const held = heldEdition(disk, root);
  const leases = new Leases(client, new Teller(client, card.folder, 0), card.bench);
  await leases.begin();
  const units = new Map<string, string[]>();
  for (const [journal, bench] of leases.held())
    units.set(bench, [...(units.get(bench) ?? []), journal.split('/')[1]!]);
  const waits = await leases.waitsAfterSetback();
  return ok({
    benches: await benches(client),
    waiting,
    files: localFiles(disk, root).filter((path) => !kept.has(path)).length,
    ...(newest
      ? { edition: { ...newest, n: Number(newest.n), at: newest.at.toISOString(), here: held.n } }
      : {}),
    changed: changedHere(disk, root, held),
    leases: [...units].sort(([a], [b]) => (a < b ? -1 : 1)),
    problems,
    branches: [...tips.keys()].filter((journal) => journal.includes('~')).sort(),
    aheadMs: await noteClock(client, card.folder, Date.now),
    ...(waits === undefined ? {} : { waits: waits.text }),
  });
}
