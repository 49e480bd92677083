/**
 * Every file call of the program that a record rests on, behind one object: each method is one call to the system, so
 * that tests can fail, cut short or crash each of them in turn, and run the same code over a model of a disk that loses
 * power. What is built from these calls stands in files.ts.
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
  realpathSync,
  renameSync,
  unlinkSync,
  writeSync,
} from 'node:fs';
import { basename } from 'node:path';
import { type Problem, problemFactory } from '../base/problem.js';
import { STORE_MESSAGES } from './messages.js';

/** An open file. */
export type Handle = number;

/**
 * append: an existing file, always at its end. new: made here, an error where it exists. private: as new, readable by its
 * owner alone. mend: an existing file, to be shortened.
 */
export type OpenHow = 'append' | 'new' | 'private' | 'mend';

export interface Stat {
  readonly kind: 'file' | 'folder' | 'link' | 'other';
  readonly size: number;
  /** Tells one file from another that later has its name. */
  readonly id: string;
  readonly modifiedMs: number;
  /** Others than its owner may read it; not told where the system has no such rights. */
  readonly open?: boolean;
}

/** Calls throw errors with an errno name in `code`, as node's do. Paths are absolute. */
export interface Disk {
  open(path: string, how: OpenHow): Handle;
  /** One write of `bytes` from `from` on; gives how many were taken, which may be fewer. */
  write(handle: Handle, bytes: Uint8Array, from: number): number;
  /** Content and length are durable when this returns (fdatasync). */
  flush(handle: Handle): void;
  truncate(handle: Handle, length: number): void;
  size(handle: Handle): number;
  close(handle: Handle): void;
  /** Names made, renamed and removed in the folder are durable when this returns; where a system cannot do that for a folder, nothing happens. */
  flushFolder(path: string): void;
  rename(from: string, to: string): void;
  /** A second name for a file; an error where the name exists. */
  link(from: string, to: string): void;
  unlink(path: string): void;
  mkdir(path: string): void;
  read(path: string): Buffer;
  /** Names in a folder, sorted. */
  list(path: string): string[];
  /** Of the name itself: a symbolic link is a link. Undefined where nothing has the name. */
  stat(path: string): Stat | undefined;
  /** Where the path really leads, links followed. */
  real(path: string): string;
}

/** The real one. */
export const realDisk: Disk = {
  open: (path, how) => openSync(path, FLAGS[how], how === 'private' ? 0o600 : 0o644),
  write: (handle, bytes, from) => writeSync(handle, bytes, from),
  flush: (handle) => fdatasyncSync(handle),
  truncate: (handle, length) => ftruncateSync(handle, length),
  size: (handle) => fstatSync(handle).size,
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

// An append handle cannot shorten a file on Windows, so `mend` opens without O_APPEND.
const FLAGS: Record<OpenHow, number> = {
  append: constants.O_WRONLY | constants.O_APPEND,
  new: constants.O_WRONLY | constants.O_APPEND | constants.O_CREAT | constants.O_EXCL,
  private: constants.O_WRONLY | constants.O_APPEND | constants.O_CREAT | constants.O_EXCL,
  mend: constants.O_RDWR,
};

/** Windows gives every file the same mode, whoever may read it. */
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

/** Whether the error is what a system or file system answers that has no such thing as flushing a folder: Windows, some network shares. */
export const isNoFolderFlush = (code: string | undefined, platform: NodeJS.Platform): boolean =>
  NO_FOLDER_FLUSH.has(code) || (platform === 'win32' && (code === 'EPERM' || code === 'EACCES'));

const NO_FOLDER_FLUSH = new Set<string | undefined>(['EISDIR', 'EINVAL', 'ENOTSUP', 'ENOSYS', 'EBADF']);

// File errors as problems: one sentence of what happened, one of what to do.

export const storeProblem = problemFactory(STORE_MESSAGES);

/** A store that cannot go on throws this: the problem is for people, `code` (an errno name) for the exit code. */
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

const KINDS: Record<string, readonly [keyof typeof STORE_MESSAGES, string]> = {
  ENOSPC: ['disk.full', 'The disk is full'],
  EDQUOT: ['disk.full', 'Your share of the disk is used up'],
  EFBIG: ['disk.full', 'The file is larger than this disk takes'],
  EROFS: ['disk.read-only', 'The disk is read-only'],
  EACCES: ['disk.no-right', 'The program may not use this'],
  EPERM: ['disk.no-right', 'The program may not use this'],
  EMFILE: ['disk.too-many-open', 'Too many files are open'],
  ENFILE: ['disk.too-many-open', 'Too many files are open'],
  EIO: ['disk.fault', 'The disk reports a fault'],
  ENOENT: ['disk.gone', 'Something is not there'],
  ENOTDIR: ['disk.gone', 'Something is not there'],
  ENODEV: ['disk.gone', 'The disk is gone'],
  ENXIO: ['disk.gone', 'The disk is gone'],
};

export const errorCode = (error: unknown): string | undefined => {
  const code = (error as { code?: unknown } | null | undefined)?.code;
  return typeof code === 'string' ? code : undefined;
};

/** Whether a file call failed, or a store that rests on one; anything else is a fault of the program. */
export const isFileError = (error: unknown): boolean =>
  error instanceof StoreError || /^E[A-Z0-9]+$/.test(errorCode(error) ?? '');

/** `doing` finishes the sentence "… while ___": "the event was written". Errors that are no file errors are thrown on. */
export function diskProblem(error: unknown, file: string, doing: string): Problem {
  if (error instanceof StoreError) return error.problem;
  const code = errorCode(error);
  if (code === undefined || !isFileError(error)) throw error;
  const [id, says] = KINDS[code] ?? ['disk.failed', 'The file call failed'];
  return storeProblem(id, `${says} (${code}): ${basename(file)}, while ${doing}.`, { file });
}
