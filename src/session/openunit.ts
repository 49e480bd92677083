/** The unit on the bench: taken for writing, or looked at while somebody else writes it. */
import { err, ok, type Problem, type Result } from '../base/problem.js';
import type { Disk } from '../store/disk.js';
import { readEvents } from '../store/journal.js';
import { holderText } from '../store/lock.js';
import { lockUnit, type UnitLock, unitLock } from '../store/unitlock.js';
import type { Workshop } from '../store/workshop.js';
import { type JournalEvent, pinnedSources } from '../unit/events.js';
import { fold } from '../unit/fold.js';
import type { UnitState } from '../unit/unitstate.js';
import { builtFromFrozen, builtFromNow, type Plan, planOf } from './plan.js';
import type { KeptBy } from './ports.js';

export interface OpenedUnit {
  readonly id: string;
  readonly job: string;
  readonly plan: Plan;
  /** Absent where somebody else has it; `readOnly` then says who. */
  readonly claim?: UnitLock;
  readonly readOnly?: Problem;
  /** With `readOnly`, who has it now; undefined where they let it go since. */
  keptBy?: KeptBy | undefined;
  state: UnitState;
  /** When the timers of `state` were worked out, ms. */
  seen: number;
}

export interface OpenOptions {
  readonly job: string;
  readonly unit: string;
  readonly bench: string;
  /** Id of the person at the bench, for those who find it taken. */
  readonly who: string;
  readonly now: string;
  readonly takeOver?: boolean;
  /** Why it is not to be taken for writing, though it could be. */
  readonly lookOnly?: Problem;
}

/** Not ok where the unit cannot be looked at either: damaged, or built from what is no longer there. */
export function openUnit(
  disk: Disk,
  root: string,
  workshop: Workshop,
  options: OpenOptions,
): Result<OpenedUnit> {
  const { job, unit, now } = options;
  const claim = options.lookOnly ? err(options.lookOnly) : lockUnit(disk, root, job, unit, options);
  const locked = claim.ok ? undefined : claim.problems[0]!;
  if (locked && locked !== options.lookOnly && !isLocked(locked)) return err(locked);
  const read = claim.ok ? ok(claim.value.journal.events) : readEvents(disk, root, job, unit);
  if (!read.ok) return read;
  const opened = pinnedSources(read.value);
  const from = opened ? builtFromFrozen(disk, root, opened) : builtFromNow(workshop, job);
  const plan = from.ok ? planOf(from.value, unit) : from;
  if (!plan.ok) {
    if (claim.ok) claim.value.release();
    return plan;
  }
  const keptBy = locked && keeperOf(disk, root, job, unit);
  return ok({
    id: unit,
    job,
    plan: plan.value,
    ...(claim.ok ? { claim: claim.value } : {}),
    ...(locked ? { readOnly: locked } : {}),
    ...(keptBy ? { keptBy } : {}),
    state: stateFrom(plan.value, read.value, now),
    seen: 0,
  });
}

/** Somebody else writes the unit. */
export const isLocked = ({ id }: Problem): boolean => id.startsWith('lock.');

/** A unit that somebody else writes is read again, so that one sees their steps. Whether it could be read. */
export function follow(disk: Disk, root: string, held: OpenedUnit, now: string): boolean {
  const read = readEvents(disk, root, held.job, held.id);
  if (read.ok && read.value.length !== held.state.events.length)
    held.state = stateFrom(held.plan, read.value, now);
  return read.ok;
}

/** Who keeps a unit, and since when; undefined where it was let go meanwhile. */
export function keeperOf(disk: Disk, root: string, job: string, unit: string): KeptBy | undefined {
  const seen = unitLock(disk, root, job, unit);
  return (
    seen && {
      who: seen.holder ? holderText(seen.holder) : 'somebody whom the lock does not name',
      since: new Date(seen.sinceMs).toISOString(),
      runs: seen.runs,
    }
  );
}

const stateFrom = ({ route, setOut }: Plan, events: readonly JournalEvent[], now: string): UnitState =>
  fold(route, events, { problems: setOut.problems, now });
