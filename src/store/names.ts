/**
 * People's names, one to a file: logs/names/<SHA-256 of it>. Its salt keeps a name from being guessed from the hash once the
 * file is erased. Journals and what they name hold ids and these hashes, so that erasing a name changes none of them.
 */
import { randomBytes } from 'node:crypto';
import { join } from 'node:path';
import * as z from 'zod';
import { err, ok, type Result } from '../base/problem.js';
import { canonicalText, sha256 } from '../unit/chain.js';
import type { Person } from '../unit/types.js';
import { type Disk, diskProblem, StoreError } from './disk.js';
import { makeFolders, writeWhole } from './files.js';
import { logsFolder } from './paths.js';
import { storeWords } from './words.js';

export const namesFolder = (root: string): string => join(logsFolder(root), 'names');
const HASH = /^[0-9a-f]{64}$/;
const FORMAT = 'pinchrod-name 1';
/** Far more than a name needs. */
const LARGEST_NAME = 4000;

const keptSchema = z.strictObject({
  format: z.literal(FORMAT),
  id: z.string(),
  initials: z.string(),
  name: z.string(),
  salt: z.string(),
});
/** What stands in the place of an erased name. */
const erasedSchema = z.strictObject({
  format: z.literal(FORMAT),
  id: z.string(),
  erased: z.iso.datetime({ precision: 3 }),
  by: z.string(),
});
export type NameFile = z.infer<typeof keptSchema> | z.infer<typeof erasedSchema>;

/** Undefined if these bytes are no name, or not the one of this hash. */
export function readName(bytes: Uint8Array, hash: string): NameFile | undefined {
  if (bytes.length > LARGEST_NAME) return undefined;
  try {
    const data: unknown = JSON.parse(Buffer.from(bytes).toString('utf8'));
    const erased = erasedSchema.safeParse(data);
    if (erased.success) return erased.data;
    const kept = keptSchema.safeParse(data);
    return kept.success && sha256(bytes) === hash ? kept.data : undefined;
  } catch {
    return undefined;
  }
}

/** The file of this hash; undefined if it is not there, or not what it was. */
export function keptName(disk: Disk, root: string, hash: string): NameFile | undefined {
  const path = join(namesFolder(root), hash);
  const stat = HASH.test(hash) ? disk.stat(path) : undefined;
  return stat?.kind === 'file' && stat.size <= LARGEST_NAME ? readName(disk.read(path), hash) : undefined;
}

/** All usable name files, by hash; unusable ones are left out, and `verify` names them. */
function keptNames(disk: Disk, root: string): ReadonlyMap<string, NameFile> {
  const folder = namesFolder(root);
  const names = new Map<string, NameFile>();
  if (disk.stat(folder)?.kind !== 'folder') return names;
  for (const hash of disk.list(folder)) {
    const name = keptName(disk, root, hash);
    if (name) names.set(hash, name);
  }
  return names;
}

/** Keeps names as they are met, each once. */
export class NameKeeper {
  #known: Map<string, string> | undefined;

  constructor(
    private readonly disk: Disk,
    private readonly root: string,
  ) {}

  /** SHA-256 of the file with this person's name, which is durable on return. Throws StoreError. */
  hashOf({ id, initials, name }: Person): string {
    try {
      this.#known ??= new Map(
        [...keptNames(this.disk, this.root)].flatMap(([hash, kept]) =>
          'name' in kept ? [[keyOf(kept), hash] as const] : [],
        ),
      );
      const before = this.#known.get(keyOf({ id, initials, name }));
      if (before !== undefined) return before;
      const salt = randomBytes(16).toString('hex');
      const text = canonicalText({ format: FORMAT, id, initials, name, salt });
      const hash = sha256(text);
      const folder = makeFolders(this.disk, this.root, ['logs', 'names']);
      writeWhole(this.disk, join(folder, hash), Buffer.from(text));
      this.#known.set(keyOf({ id, initials, name }), hash);
      return hash;
    } catch (error) {
      throw new StoreError(diskProblem(error, 'logs/names', storeWords('while-name-person-kept')));
    }
  }
}

const keyOf = ({ id, initials, name }: { id: string; initials: string; name: string }): string =>
  JSON.stringify([id, initials, name]);

/**
 * Puts, in the place of every name kept under this id, who erased it and when. Returns how many were erased. Durable on
 * return; run again after a failure, it goes on.
 */
export function eraseNames(
  disk: Disk,
  root: string,
  id: string,
  by: { readonly at: string; readonly by: string },
): Result<number> {
  try {
    let erased = 0;
    for (const [hash, kept] of keptNames(disk, root)) {
      if (kept.id !== id || 'erased' in kept) continue;
      const text = canonicalText({ format: FORMAT, id, erased: by.at, by: by.by });
      writeWhole(disk, join(namesFolder(root), hash), Buffer.from(text));
      erased += 1;
    }
    return ok(erased);
  } catch (error) {
    return err(diskProblem(error, 'logs/names', storeWords('while-name-erased')));
  }
}
