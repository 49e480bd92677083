/** The unit on the bench: held for writing, or viewed while somebody else is writing it. */
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
import { sessionWords } from './words.js';

export interface OpenedUnit {
  readonly id: string;
  readonly job: string;
  readonly plan: Plan;
  /** Absent if somebody else holds it; `readOnly` then says who. */
  readonly claim?: UnitLock;
  readonly readOnly?: Problem;
  /** With `readOnly`: the current holder; undefined if they have let go since. */
  keptBy?: KeptBy | undefined;
  state: UnitState;
  /** When the timers in `state` were last computed, ms. */
  seen: number;
}

export interface OpenOptions {
  readonly job: string;
  readonly unit: string;
  readonly bench: string;
  /** Person at the bench (id), shown to others who find the unit taken. */
  readonly who: string;
  readonly now: string;
  readonly takeOver?: boolean;
  /** Why to open it read-only although it could be locked. */
  readonly lookOnly?: Problem;
}

/** Fails if the unit cannot even be viewed: it is damaged or one of its sources is missing. */
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

export const isLocked = ({ id }: Problem): boolean => id.startsWith('lock.');

/** Re-reads a unit that somebody else is writing, so their steps show up. Returns whether it could be read. */
export function follow(disk: Disk, root: string, held: OpenedUnit, now: string): boolean {
  const read = readEvents(disk, root, held.job, held.id);
  // By the last line, not by their number: where another bench's lines took the place of these there may be as many.
  if (read.ok && read.value.at(-1)?.hash !== held.state.events.at(-1)?.hash)
    held.state = stateFrom(held.plan, read.value, now);
  return read.ok;
}

/** Who holds a unit and since when; undefined if it was released meanwhile. */
export function keeperOf(disk: Disk, root: string, job: string, unit: string): KeptBy | undefined {
  const seen = unitLock(disk, root, job, unit);
  return (
    seen && {
      who: seen.holder ? holderText(seen.holder) : sessionWords('nobody-named'),
      since: new Date(seen.sinceMs).toISOString(),
      runs: seen.runs,
    }
  );
}

const stateFrom = ({ route, setOut }: Plan, events: readonly JournalEvent[], now: string): UnitState =>
  fold(route, events, { problems: setOut.problems, now });
