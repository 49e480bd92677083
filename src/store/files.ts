/** What is built from single disk calls, in the order that logs/README.md derives: nothing here returns before it is durable. */
import { createHash, randomBytes } from 'node:crypto';
import { dirname, join } from 'node:path';
import type { Problem } from '../base/problem.js';
import { type Disk, diskProblem, errorCode, type Handle, StoreError, storeProblem } from './disk.js';

/** Writes all of `bytes`: a write may take fewer than it was given, on a nearly full disk without an error. */
export function writeAll(disk: Disk, handle: Handle, bytes: Uint8Array, file: string): void {
  let from = 0;
  while (from < bytes.length) {
    const taken = disk.write(handle, bytes, from);
    if (taken <= 0)
      throw new StoreError(
        storeProblem('disk.short', `The disk took ${from} of ${bytes.length} bytes.`, { file }),
        'ENOSPC',
      );
    from += taken;
  }
}

/**
 * Makes a file whole or not at all: temporary file in the same folder, flush, rename, flush of the folder. Replaces a
 * file of that name. On an error the temporary file is removed and the error thrown.
 */
export function writeWhole(
  disk: Disk,
  path: string,
  bytes: Uint8Array,
  how: 'new' | 'private' = 'new',
): void {
  replace(disk, path, bytes, how, (handle) => disk.flush(handle));
  disk.flushFolder(dirname(path));
}

/**
 * As `writeWhole`, but a power cut may leave it torn or empty: for what is checked when it is read and can be made again,
 * so that nobody waits for the disk.
 */
export const writeSpare = (disk: Disk, path: string, bytes: Uint8Array): void =>
  replace(disk, path, bytes, 'new', () => {});

function replace(
  disk: Disk,
  path: string,
  bytes: Uint8Array,
  how: 'new' | 'private',
  settle: (handle: Handle) => void,
): void {
  const temporary = `${path}.${randomBytes(6).toString('hex')}.tmp`;
  let handle: Handle | undefined;
  try {
    handle = disk.open(temporary, how);
    writeAll(disk, handle, bytes, path);
    settle(handle);
    disk.close(handle);
    handle = undefined;
    disk.rename(temporary, path);
  } catch (error) {
    if (handle !== undefined) attempt(() => disk.close(handle!));
    attempt(() => disk.unlink(temporary));
    throw error;
  }
}

/** Makes the folders `names` under `root`, each durable in the one above before the next is made in it. */
export function makeFolders(disk: Disk, root: string, names: readonly string[]): string {
  let path = root;
  for (const name of names) {
    const parent = path;
    path = join(path, name);
    if (disk.stat(path) === undefined) {
      try {
        disk.mkdir(path);
      } catch (error) {
        if (errorCode(error) !== 'EEXIST') throw error;
      }
    }
    // Also where it was there: whoever made it may have died before its name was durable.
    disk.flushFolder(parent);
  }
  return path;
}

/** For tidying up after an error that is already on its way to the person: a second error adds nothing. */
export function attempt(run: () => void): boolean {
  try {
    run();
    return true;
  } catch {
    return false;
  }
}

/** SHA-256 in hex of bytes of any length. */
export const hashBytes = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

// On start: does the logs folder really keep what is appended to it? Some shares and synchronised folders do not.

/** Appends twice to a file of its own under logs/, flushes, reads it back and removes it. Undefined: it can be trusted. */
export function testLogsFolder(disk: Disk, root: string): Problem | undefined {
  const name = `append-test-${randomBytes(6).toString('hex')}.tmp`;
  let path: string | undefined;
  let handle: Handle | undefined;
  try {
    path = join(makeFolders(disk, root, ['logs']), name);
    handle = disk.open(path, 'new');
    writeAll(disk, handle, Buffer.from('first\n'), path);
    disk.flush(handle);
    disk.close(handle);
    handle = disk.open(path, 'append');
    writeAll(disk, handle, Buffer.from('second\n'), path);
    disk.flush(handle);
    disk.flushFolder(join(root, 'logs'));
    const back = disk.read(path).toString('utf8');
    if (back !== 'first\nsecond\n')
      return storeProblem(
        'disk.does-not-append',
        'What was appended to a file under logs/ did not come back.',
        {
          file: 'logs',
        },
      );
    return undefined;
  } catch (error) {
    return diskProblem(error, 'logs', 'the logs folder was tested');
  } finally {
    if (handle !== undefined) attempt(() => disk.close(handle!));
    if (path !== undefined) attempt(() => disk.unlink(path!));
  }
}
