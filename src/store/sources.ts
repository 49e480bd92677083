/**
 * What a unit is built from, kept once by content as logs/sources/<sha256>: a later edit of a procedure or a limit never
 * changes what an old record means.
 */
import { join } from 'node:path';
import { bad, good, type Problem, type Result } from '../base/problem.js';
import type { Disk } from './disk.js';
import { diskProblem, raise, StoreError } from './diskproblem.js';
import { hashBytes, makeFolders, writeWhole } from './files.js';
import { sourcesFolder } from './paths.js';

const HASH = /^[0-9a-f]{64}$/;

/**
 * Freezes texts by kind (`procedure`, `profileSet`, `limits`, `job`, `setout` …) and gives each one's hash, as the
 * `opened` event holds them. Durable when it returns. Throws StoreError.
 */
export function freezeSources(
  disk: Disk,
  root: string,
  texts: Readonly<Record<string, string>>,
): Record<string, string> {
  const hashes: Record<string, string> = {};
  let shown = 'logs/sources';
  try {
    const folder = makeFolders(disk, root, ['logs', 'sources']);
    for (const [kind, text] of Object.entries(texts)) {
      const bytes = Buffer.from(text, 'utf8');
      const hash = hashBytes(bytes);
      hashes[kind] = hash;
      shown = `logs/sources/${hash}`;
      if (!keptAlready(disk, join(folder, hash), hash)) writeWhole(disk, join(folder, hash), bytes);
    }
    disk.flushFolder(folder);
  } catch (error) {
    throw new StoreError(diskProblem(error, shown, 'what the unit is built from was frozen'));
  }
  return hashes;
}

/** A damaged copy is not "kept": the whole text is at hand, and writing it mends what `verify` would report. */
const keptAlready = (disk: Disk, path: string, hash: string): boolean =>
  disk.stat(path)?.kind === 'file' && hashBytes(disk.read(path)) === hash;

/** One frozen text, held against its name. */
export function readSource(disk: Disk, root: string, hash: string): Result<string> {
  const file = `logs/sources/${hash}`;
  try {
    const bytes = HASH.test(hash) ? readIfThere(disk, join(sourcesFolder(root), hash)) : undefined;
    if (bytes === undefined) return bad(raise('source.missing', `${file} is not there.`, { file }));
    const problem = changed(bytes, hash, file);
    return problem ? bad(problem) : good(bytes.toString('utf8'));
  } catch (error) {
    return bad(diskProblem(error, file, 'a frozen source was read'));
  }
}

const readIfThere = (disk: Disk, path: string): Buffer | undefined =>
  disk.stat(path)?.kind === 'file' ? disk.read(path) : undefined;

const changed = (bytes: Buffer, hash: string, file: string): Problem | undefined =>
  hashBytes(bytes) === hash
    ? undefined
    : raise('source.changed', 'The file is not what its name says: its content was changed.', { file });
