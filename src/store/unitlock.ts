/** A unit open for writing: its lock, and its journal opened and repaired under the lock. */
import { err, ok, type Problem, type Result } from '../base/problem.js';
import { type Disk, diskProblem } from './disk.js';
import { makeFolders } from './files.js';
import { Journal } from './journal.js';
import {
  type Holder,
  type Host,
  type Lock,
  type LockOptions,
  type LockSeen,
  lockSeen,
  takeLock,
  thisProcess,
} from './lock.js';
import { journalPlace } from './paths.js';
import { storeWords } from './words.js';

export interface UnitLock {
  readonly journal: Journal;
  readonly warnings: readonly Problem[];
  /** Closes the journal and releases the lock. Also done on process exit. */
  release(): void;
}

/**
 * Locks a unit for writing. A second bench gets `lock.held`, `lock.other-machine` or `lock.unreadable` and may still
 * read with `readEvents`. `options.takeOver` overrides any holder except one known to be running on this machine. Other
 * problems: a damaged journal, a failing disk.
 */
export function lockUnit(
  disk: Disk,
  root: string,
  job: string,
  unit: string,
  options: LockOptions,
  here: Host = thisProcess(),
): Result<UnitLock> {
  const place = journalPlace(root, job, unit);
  if (!place.ok) return place;
  let lock: Lock | undefined;
  try {
    makeFolders(disk, root, ['logs', job]);
    const taken = takeLock(disk, place.value, here, options);
    if (!taken.ok) return taken;
    lock = taken.value;
  } catch (error) {
    return err(diskProblem(error, place.value.shown, storeWords('while-unit-taken')));
  }
  const opened = Journal.open(disk, root, job, unit, lock.lost);
  if (!opened.ok) {
    lock.release();
    return opened;
  }
  const journal = opened.value;
  const release = (): void => {
    journal.close();
    lock.release();
  };
  return ok({ journal, warnings: journal.warnings, release }, journal.warnings);
}

/** Current holder of the unit; undefined if there is none. For the board and read-only views. */
export const unitHolder = (
  disk: Disk,
  root: string,
  job: string,
  unit: string,
  here: Host = thisProcess(),
): Holder | undefined => unitLock(disk, root, job, unit, here)?.holder;

/** The unit's lock and when it was taken, for a person considering a takeover. */
export function unitLock(
  disk: Disk,
  root: string,
  job: string,
  unit: string,
  here: Host = thisProcess(),
): LockSeen | undefined {
  const place = journalPlace(root, job, unit);
  if (!place.ok) return undefined;
  try {
    return lockSeen(disk, place.value, here);
  } catch {
    return undefined;
  }
}
