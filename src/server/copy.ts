/** A copy of the whole shop as files that a bench by itself reads: for an auditor, for keeping, or to go on without a server. */
import { join } from 'node:path';
import { err, ok, type Problem, type Result } from '../base/problem.js';
import { type Disk, diskProblem } from '../store/disk.js';
import { makeFolders } from '../store/files.js';
import { storeWords } from '../store/words.js';
import type { ServerClient } from './client.js';
import { keptFiles, layFile } from './contents.js';
import { takeEdition } from './editions.js';
import { batches } from './exchange.js';
import { formProblem, shopThere } from './gate.js';
import { forgetShop } from './join.js';
import { placeNamed } from './journalnames.js';
import { serverTips, wholeJournals } from './lines.js';
import { BEFORE_ALL, layBehind } from './localfile.js';
import { shopProblem } from './messages.js';

export interface CopiedShop {
  readonly journals: number;
  readonly files: number;
}

/** Reads alone: an auditor's rights suffice. The folder must be empty or not there. Throws ServerError. */
export async function copyShop(client: ServerClient, disk: Disk, root: string): Promise<Result<CopiedShop>> {
  const shop = await shopThere(client);
  if (!shop.ok) return shop;
  const form = formProblem(shop.value.form);
  if (form && form.id !== 'shop.newer') return err(form);
  try {
    if (disk.list(root).length > 0) return err(shopProblem('shop.not-empty', { root }));
    makeFolders(disk, root, ['logs']);
  } catch (error) {
    return err(diskProblem(error, root, storeWords('while-shop-copied')));
  }
  const taken = await takeEdition(client, disk, root);
  const problems: Problem[] = taken.ok ? [] : [...taken.problems];
  const tips = await serverTips(client);
  let journals = 0;
  for (const batch of batches([...tips].filter(([, { n }]) => n > 0)))
    for (const [journal, bytes] of await wholeJournals(client, batch)) {
      const place = placeNamed(root, journal);
      const laid = place.ok ? layBehind(disk, root, place.value, BEFORE_ALL, bytes, 'copy') : place;
      if (laid.ok) journals += 1;
      else problems.push(...laid.problems);
    }
  const kept = await keptFiles(client);
  for (const file of kept.values()) {
    const laid = await layFile(client, disk, root, file);
    if (!laid.ok) problems.push(...laid.problems);
  }
  const forgot = disk.stat(join(root, 'shop')) ? forgetShop(disk, root) : ok(undefined);
  if (!forgot.ok) problems.push(...forgot.problems);
  return problems.length > 0 ? err(...problems) : ok({ journals, files: kept.size });
}
