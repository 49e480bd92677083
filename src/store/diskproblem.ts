/** File errors as problems: one sentence of what happened, one of what to do. */
import { basename } from 'node:path';
import { type Problem, raiser } from '../base/problem.js';
import { STORE_MESSAGES } from './messages.js';

export const raise = raiser(STORE_MESSAGES);

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
  return raise(id, `${says} (${code}): ${basename(file)}, while ${doing}.`, { file });
}
