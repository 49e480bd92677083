/** Holds the server against this folder, line by line and file by file. Nothing is handed over or changed. */
import { err, ok, type Problem, type Result } from '../base/problem.js';
import type { Card } from '../store/card.js';
import type { Disk } from '../store/disk.js';
import type { ServerClient } from './client.js';
import { getContent, keptFiles } from './contents.js';
import { batches, lostOf } from './exchange.js';
import { shopThere } from './gate.js';
import { localJournals, placeNamed } from './journalnames.js';
import { linesIn, NOTHING, serverTips, type Tip, wholeJournals } from './lines.js';
import { localEnd } from './localfile.js';
import { Memory } from './memory.js';
import { shopProblem } from './messages.js';

export interface Compared {
  readonly journals: number;
  readonly lines: number;
  readonly files: number;
  /** Journals of this folder that the server has not all of. */
  readonly waiting: number;
  readonly problems: readonly Problem[];
}

/** Throws ServerError. */
export async function compareWithServer(
  client: ServerClient,
  disk: Disk,
  root: string,
  card: Card,
): Promise<Result<Compared>> {
  const shop = await shopThere(client);
  if (!shop.ok) return shop;
  if (shop.value.id !== card.shop) return err(shopProblem('shop.other-shop', { shop: shop.value.name }));
  const tips = await serverTips(client);
  const known = new Memory(disk, root).tips;
  const problems: Problem[] = lostOf(known, tips).map((journal) =>
    shopProblem('shop.lines-lost', { known: known.get(journal)!, journal, tips: tips.get(journal)?.n ?? 0 }),
  );
  let lines = 0;
  for (const journals of batches([...tips].filter(([, { n }]) => n > 0)))
    for (const [journal, bytes] of await wholeJournals(client, journals)) {
      const problem = compareJournal(disk, root, journal, bytes, tips.get(journal)!);
      if (problem) problems.push(problem);
      lines += tips.get(journal)!.n;
    }
  const kept = await keptFiles(client);
  const checked = new Set<string>();
  for (const { path, sha256 } of kept.values()) {
    if (checked.has(sha256)) continue;
    checked.add(sha256);
    const content = await getContent(client, sha256);
    if (!content.ok) problems.push(shopProblem('shop.content-changed', { path }, { file: path }));
  }
  const waiting = localJournals(disk, root).filter(({ journal, place }) => {
    const end = localEnd(disk, place);
    return end.ok && end.value.n > (tips.get(journal)?.n ?? 0);
  }).length;
  return ok({ journals: tips.size, lines, files: kept.size, waiting, problems });
}

function compareJournal(
  disk: Disk,
  root: string,
  journal: string,
  server: Buffer,
  tip: Tip,
): Problem | undefined {
  const place = placeNamed(root, journal);
  if (!place.ok) return place.problems[0];
  const { file, shown } = place.value;
  const lines = linesIn(server, NOTHING);
  if (lines?.at(-1)?.hash !== tip.hash)
    return shopProblem(
      'shop.line-broken',
      { shown },
      {
        file: shown,
      },
    );
  const here = disk.stat(file)?.kind === 'file' ? disk.read(file) : Buffer.alloc(0);
  const both = Math.min(here.lastIndexOf(0x0a) + 1, server.length);
  return here.subarray(0, both).equals(server.subarray(0, both))
    ? undefined
    : shopProblem('shop.journal-differs/other', { shown }, { file: shown });
}
