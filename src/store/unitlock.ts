/** A unit taken for writing: its lock, and its journal opened and mended under the lock. */
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

export interface UnitLock {
  readonly journal: Journal;
  /** What was mended when the unit was opened. */
  readonly warnings: readonly Problem[];
  /** Closes the journal and lets the unit go. Also done when the process ends. */
  release(): void;
}

/**
 * Takes a unit for writing. A second bench gets `lock.held`, `lock.other-machine` or `lock.unreadable`, and
 * may look with `readEvents`; what `options.takeOver` does not lift is a holder that surely runs on this machine. Other problems: a damaged journal, a disk that fails.
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
    return err(diskProblem(error, place.value.shown, 'the unit was taken'));
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

/** Who has the unit now; undefined where nobody has. For the board and for those who look. */
export const unitHolder = (
  disk: Disk,
  root: string,
  job: string,
  unit: string,
  here: Host = thisProcess(),
): Holder | undefined => unitLock(disk, root, job, unit, here)?.holder;

/** The lock that keeps a unit, with since when, for a person who thinks of taking it over. */
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
