/**
 * All file access that records depend on, behind one interface. Each method is a single system call, so tests can fail,
 * truncate or crash any one of them, and run the same code against a simulated disk that loses power. Higher-level
 * operations are in files.ts.
 */
import {
  closeSync,
  constants,
  fdatasyncSync,
  fstatSync,
  fsyncSync,
  ftruncateSync,
  linkSync,
  lstatSync,
  mkdirSync,
  openSync,
  readdirSync,
  readFileSync,
  readSync,
  realpathSync,
  renameSync,
  unlinkSync,
  writeSync,
} from 'node:fs';
import { basename } from 'node:path';
import { type Problem, problemFactory } from '../base/problem.js';
import type { Message } from '../base/words.js';
import { STORE_MESSAGES } from './messages.js';
import { storeWords } from './words.js';

export type Handle = number;

/**
 * append: existing file, writes always at the end. new: create, error if it exists. private: like new, readable by the
 * owner only. mend: existing file, to be truncated.
 */
export type OpenHow = 'append' | 'new' | 'private' | 'mend';

export interface Stat {
  readonly kind: 'file' | 'folder' | 'link' | 'other';
  readonly size: number;
  /** Distinguishes a file from a later one with the same name. */
  readonly id: string;
  readonly modifiedMs: number;
  /** Readable by users other than the owner; absent where the platform has no such permissions. */
  readonly open?: boolean;
}

/** Calls throw errors with an errno name in `code`, like node. Paths are absolute. */
export interface Disk {
  open(path: string, how: OpenHow): Handle;
  /** A single write of `bytes` starting at `from`; returns the number of bytes written, possibly fewer than given. */
  write(handle: Handle, bytes: Uint8Array, from: number): number;
  /** fdatasync: content and length are durable on return. */
  flush(handle: Handle): void;
  truncate(handle: Handle, length: number): void;
  size(handle: Handle): number;
  /** Device and inode of an open file: its identity, whatever it is called. */
  identity(handle: Handle): string;
  /** Of what has this name, links not followed; undefined if nothing has it. */
  identityAt(path: string): string | undefined;
  /** The last bytes of the file of this name, at most `length`. */
  tail(path: string, length: number): Buffer;
  close(handle: Handle): void;
  /** fsync of a folder: its new, renamed and removed names are durable. No-op where unsupported. */
  flushFolder(path: string): void;
  rename(from: string, to: string): void;
  link(from: string, to: string): void;
  unlink(path: string): void;
  mkdir(path: string): void;
  read(path: string): Buffer;
  list(path: string): string[];
  /** Like lstat: does not follow symbolic links. Undefined if nothing has that name. */
  stat(path: string): Stat | undefined;
  /** Resolves symbolic links. */
  real(path: string): string;
}

export const realDisk: Disk = {
  open: (path, how) => openSync(path, FLAGS[how], how === 'private' ? 0o600 : 0o644),
  write: (handle, bytes, from) => writeSync(handle, bytes, from),
  flush: (handle) => fdatasyncSync(handle),
  truncate: (handle, length) => ftruncateSync(handle, length),
  size: (handle) => fstatSync(handle).size,
  // As bigint: an inode may be larger than what a number holds exactly.
  identity: (handle) => identityOf(fstatSync(handle, { bigint: true })),
  identityAt: (path) => {
    const found = lstatSync(path, { bigint: true, throwIfNoEntry: false });
    return found && identityOf(found);
  },
  tail: tailOf,
  close: (handle) => closeSync(handle),
  flushFolder,
  rename: (from, to) => renameSync(from, to),
  link: (from, to) => linkSync(from, to),
  unlink: (path) => unlinkSync(path),
  mkdir: (path) => mkdirSync(path, 0o755),
  read: (path) => readFileSync(path),
  list: (path) => readdirSync(path).sort(),
  stat: (path) => {
    const found = lstatSync(path, { throwIfNoEntry: false });
    if (!found) return undefined;
    const kind = found.isFile()
      ? 'file'
      : found.isDirectory()
        ? 'folder'
        : found.isSymbolicLink()
          ? 'link'
          : 'other';
    return {
      kind,
      size: found.size,
      id: `${found.dev}:${found.ino}`,
      modifiedMs: found.mtimeMs,
      ...rightsOf(found.mode, process.platform),
    };
  },
  real: (path) => realpathSync(path),
};

// An append handle cannot truncate a file on Windows, so `mend` opens without O_APPEND.
const FLAGS: Record<OpenHow, number> = {
  append: constants.O_WRONLY | constants.O_APPEND,
  new: constants.O_WRONLY | constants.O_APPEND | constants.O_CREAT | constants.O_EXCL,
  private: constants.O_WRONLY | constants.O_APPEND | constants.O_CREAT | constants.O_EXCL,
  mend: constants.O_RDWR,
};

const identityOf = ({ dev, ino }: { readonly dev: bigint; readonly ino: bigint }): string => `${dev}:${ino}`;

function tailOf(path: string, length: number): Buffer {
  const handle = openSync(path, constants.O_RDONLY);
  try {
    const { size } = fstatSync(handle);
    const bytes = Buffer.alloc(Math.min(length, size));
    const count = readSync(handle, bytes, 0, bytes.length, size - bytes.length);
    return bytes.subarray(0, count);
  } finally {
    closeSync(handle);
  }
}

/** Windows reports the same mode for every file, whoever may read it. */
export const rightsOf = (mode: number, platform: NodeJS.Platform): { readonly open?: boolean } =>
  platform === 'win32' ? {} : { open: (mode & 0o077) !== 0 };

function flushFolder(path: string): void {
  let handle: number | undefined;
  try {
    handle = openSync(path, constants.O_RDONLY);
    fsyncSync(handle);
  } catch (error) {
    if (!isNoFolderFlush((error as NodeJS.ErrnoException).code, process.platform)) throw error;
  } finally {
    if (handle !== undefined) closeSync(handle);
  }
}

/** Whether the error means that the system or file system cannot fsync a folder: Windows, some network shares. */
export const isNoFolderFlush = (code: string | undefined, platform: NodeJS.Platform): boolean =>
  NO_FOLDER_FLUSH.has(code) || (platform === 'win32' && (code === 'EPERM' || code === 'EACCES'));

const NO_FOLDER_FLUSH = new Set<string | undefined>(['EISDIR', 'EINVAL', 'ENOTSUP', 'ENOSYS', 'EBADF']);

// File errors as problems: what happened, and what to do.

export const storeProblem = problemFactory(STORE_MESSAGES);

/** Thrown when the store cannot continue: `problem` is for people, `code` (an errno name) for the exit code. */
export class StoreError extends Error {
  readonly code: string;
  constructor(
    readonly problem: Problem,
    code = 'EIO',
  ) {
    super(problem.text);
    this.name = 'StoreError';
    this.code = code;
  }
}

const KINDS: Record<string, readonly [DiskId, Message]> = {
  ENOSPC: ['disk.full', storeWords('disk-full')],
  EDQUOT: ['disk.full', storeWords('disk-quota')],
  EFBIG: ['disk.full', storeWords('disk-larger')],
  EROFS: ['disk.read-only', storeWords('disk-read-only')],
  EACCES: ['disk.no-right', storeWords('disk-no-right')],
  EPERM: ['disk.no-right', storeWords('disk-no-right')],
  EMFILE: ['disk.too-many-open', storeWords('disk-open')],
  ENFILE: ['disk.too-many-open', storeWords('disk-open')],
  EIO: ['disk.fault', storeWords('disk-fault')],
  ENOENT: ['disk.gone', storeWords('disk-missing')],
  ENOTDIR: ['disk.gone', storeWords('disk-missing')],
  ENODEV: ['disk.gone', storeWords('disk-gone')],
  ENXIO: ['disk.gone', storeWords('disk-gone')],
};
type DiskId =
  | 'disk.full'
  | 'disk.read-only'
  | 'disk.no-right'
  | 'disk.too-many-open'
  | 'disk.fault'
  | 'disk.gone'
  | 'disk.failed';

export const errorCode = (error: unknown): string | undefined => {
  const code = (error as { code?: unknown } | null | undefined)?.code;
  return typeof code === 'string' ? code : undefined;
};

/** Whether a file call, or the store on top of it, failed; anything else is a bug. */
export const isFileError = (error: unknown): boolean =>
  error instanceof StoreError || /^E[A-Z0-9]+$/.test(errorCode(error) ?? '');

/** @param doing completes the sentence "… while ___". Rethrows anything but file errors. */
export function diskProblem(error: unknown, file: string, doing: Message): Problem {
  if (error instanceof StoreError) return error.problem;
  const code = errorCode(error);
  if (code === undefined || !isFileError(error)) throw error;
  const [id, says] = KINDS[code] ?? (['disk.failed', storeWords('disk-failed')] as const);
  return storeProblem(id, { says, code, name: basename(file), doing }, { file });
}

/** Writes all of `bytes`. A single write may be short, without an error, on a nearly full disk. */
export function writeAll(disk: Disk, handle: Handle, bytes: Uint8Array, file: string): void {
  let from = 0;
  while (from < bytes.length) {
    const taken = disk.write(handle, bytes, from);
    if (taken <= 0)
      throw new StoreError(storeProblem('disk.short', { from, count: bytes.length }, { file }), 'ENOSPC');
    from += taken;
  }
}
