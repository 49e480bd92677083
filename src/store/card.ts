/** shop/shop.json: which shop this folder takes part in, and as which bench. It holds no password. */
import { join } from 'node:path';
import * as z from 'zod';
import { err, ok, type Result } from '../base/problem.js';
import { sha256 } from '../unit/chain.js';
import { type Disk, diskProblem, storeProblem } from './disk.js';
import { makeFolders, writeWhole } from './files.js';
import { thisProcess } from './lock.js';
import { storeWords } from './words.js';

export const CARD_FILE = 'shop/shop.json';

const cardSchema = z.strictObject({
  format: z.literal('pinchrod-shop 1'),
  /** Of the shop. */
  shop: z.string(),
  name: z.string(),
  bench: z.string(),
  /** Of this folder, as the server knows it. */
  folder: z.string(),
  /** Where it lies: a copy of it lies elsewhere. */
  lies: z.string(),
  /** Section of the service file; absent: the environment says where the server is. */
  service: z.string().optional(),
});
export type Card = z.infer<typeof cardSchema>;

/** Machine and folder, as no copy of the folder has them; a folder that was moved to another disk has not either. */
export function liesAt(disk: Disk, root: string, machine = thisProcess().machine): string {
  const inode = disk.identityAt(join(root, 'shop'))?.split(':')[1] ?? '';
  return sha256(`${machine} ${inode}`).slice(0, 32);
}

/** Undefined if the folder takes part in no shop. */
export function readCard(disk: Disk, root: string): Result<Card | undefined> {
  try {
    const path = join(root, ...CARD_FILE.split('/'));
    const stat = disk.stat(path);
    if (stat === undefined)
      return disk.stat(join(root, 'shop', 'edition.json')) === undefined
        ? ok(undefined)
        : err(storeProblem('workshop.shop-card/gone', {}, { file: CARD_FILE }));
    const text = stat.kind === 'file' && stat.size < 100_000 ? disk.read(path).toString('utf8') : '';
    const parsed = cardSchema.safeParse(JSON.parse(text || 'null'));
    return parsed.success ? ok(parsed.data) : err(unusable(parsed.error.issues[0]?.message));
  } catch (error) {
    if (error instanceof SyntaxError)
      return err(storeProblem('workshop.shop-card/json', {}, { file: CARD_FILE }));
    return err(diskProblem(error, CARD_FILE, storeWords('while-read')));
  }
}

const unusable = (why?: string) =>
  why === undefined
    ? storeProblem('workshop.shop-card/no-card', {}, { file: CARD_FILE })
    : storeProblem('workshop.shop-card', { why }, { file: CARD_FILE });

export function writeCard(disk: Disk, root: string, card: Card): Result<void> {
  try {
    const folder = makeFolders(disk, root, ['shop']);
    writeWhole(disk, join(folder, 'shop.json'), Buffer.from(`${JSON.stringify(card, null, 2)}\n`));
    return ok(undefined);
  } catch (error) {
    return err(diskProblem(error, CARD_FILE, storeWords('while-written')));
  }
}
