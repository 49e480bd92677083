/** Operations built from single disk calls, ordered as logs/README.md derives. Durable on return unless stated. */
import { createHash, randomBytes } from 'node:crypto';
import { dirname, join } from 'node:path';
import type { Problem } from '../base/problem.js';
import {
  type Disk,
  diskProblem,
  errorCode,
  type Handle,
  StoreError,
  storeProblem,
  writeAll,
} from './disk.js';
import { storeWords } from './words.js';

/**
 * Writes a file atomically: temporary file in the same folder, fsync, rename, fsync of the folder. Replaces an existing
 * file. On error the temporary file is removed and the error rethrown.
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

/** Like `writeWhole` without fsync: a power cut may tear the file. For data checked on read that can be rebuilt. */
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

/** Creates nested folders `names` under `root`, each durable in its parent before the next one is created. */
export function makeFolders(disk: Disk, root: string, names: readonly string[]): string {
  let path = root;
  for (const name of names) {
    const parent = path;
    path = join(path, name);
    const there = disk.stat(path);
    if (there !== undefined && there.kind !== 'folder') throw notAFolder(names.join('/'));
    if (there === undefined) {
      try {
        disk.mkdir(path);
      } catch (error) {
        if (errorCode(error) !== 'EEXIST') throw error;
      }
    }
    // Even if it already existed: a previous process may have crashed before its name was durable.
    disk.flushFolder(parent);
  }
  return path;
}

/** A link may lead anywhere, so none is followed below the workshop's folder. */
export const notAFolder = (file: string): StoreError =>
  new StoreError(storeProblem('workshop.outside/folder', {}, { file }));

/** For cleanup after an error that is already being reported: a second error would add nothing. */
export function attempt(run: () => void): boolean {
  try {
    run();
    return true;
  } catch {
    return false;
  }
}

/** SHA-256 as hex. */
export const hashBytes = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

/** Whether the name is still that of the open file, which ends with these bytes. */
export function isUnder(disk: Disk, path: string, handle: Handle, end?: Uint8Array): boolean {
  if (disk.identityAt(path) !== disk.identity(handle)) return false;
  return end === undefined || disk.tail(path, end.length).equals(end);
}

// Start-up check that the logs folder really keeps what is appended. Some shares and synchronised folders do not.

/** Appends twice to a scratch file under logs/, reads it back and removes it. Undefined: the folder is fine. */
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
        {},
        {
          file: 'logs',
        },
      );
    return undefined;
  } catch (error) {
    return diskProblem(error, 'logs', storeWords('while-logs-folder-tested'));
  } finally {
    if (handle !== undefined) attempt(() => disk.close(handle!));
    if (path !== undefined) attempt(() => disk.unlink(path!));
  }
}
