/**
 * A unit's journal. lowdb holds the events in memory, our adapter on disk; an event that `append` gave back is durable,
 * and one that it did not is in neither.
 */
import { LowSync } from 'lowdb';
import { bad, good, type Problem, type Result } from '../base/problem.js';
import { chainEvent, chainLine, type Stamp } from '../unit/chain.js';
import { type EventBody, eventSchema, type JournalEvent } from '../unit/events.js';
import { type Guard, JournalAdapter, readJournalBytes } from './adapter.js';
import type { Disk } from './disk.js';
import { diskProblem, errorCode, raise, StoreError } from './diskproblem.js';
import { type JournalPlace, journalPlace } from './paths.js';
import { journalProblem, readJournal } from './readjournal.js';

/** Longer than anything that is said at a bench. */
const LONGEST_LINE = 100_000;

export class Journal {
  readonly place: JournalPlace;
  /** What was mended when the journal was opened. */
  readonly warnings: readonly Problem[];
  readonly #db: LowSync<JournalEvent[]>;
  readonly #adapter: JournalAdapter;
  #closed = false;

  private constructor(place: JournalPlace, db: LowSync<JournalEvent[]>, adapter: JournalAdapter) {
    this.place = place;
    this.#db = db;
    this.#adapter = adapter;
    this.warnings = adapter.warnings;
  }

  /**
   * Opens a unit's journal for writing; the caller holds the unit's lock (claim.ts does both). Mends a torn end; damage
   * elsewhere is a problem with its line. A unit without a journal has no events, and no file is made until the first.
   */
  static open(disk: Disk, root: string, job: string, unit: string, guard?: Guard): Result<Journal> {
    const place = journalPlace(root, job, unit);
    if (!place.ok) return place;
    const adapter = new JournalAdapter(disk, root, place.value, guard);
    const db = new LowSync<JournalEvent[]>(adapter, []);
    try {
      db.read();
    } catch (error) {
      adapter.close();
      return bad(diskProblem(error, place.value.shown, 'the journal was opened'));
    }
    return good(new Journal(place.value, db, adapter), adapter.warnings);
  }

  /** Every durable event, oldest first. A new array after each append; old ones stay as they were. */
  get events(): readonly JournalEvent[] {
    return this.#db.data;
  }

  /**
   * Numbers, dates, chains and writes events; durable when it returns. Throws StoreError, whose `problem` says what
   * happened and what to do; then the journal in memory and on disk is as it was, and the same append may be tried again.
   *
   * @param after what follows from the last of these events as chained (a signature over its hash), in the same write
   */
  append(
    bodies: readonly EventBody[],
    stamp: Stamp,
    after: (last: JournalEvent) => EventBody | undefined = () => undefined,
  ): JournalEvent[] {
    const file = this.place.shown;
    if (this.#closed) throw new StoreError(raise('journal.let-go', 'The unit was let go.', { file }));
    const before = this.#db.data;
    const fresh: JournalEvent[] = [];
    for (const body of bodies) fresh.push(this.#seal(body, stamp, fresh.at(-1) ?? before.at(-1)));
    const end = fresh.at(-1);
    const following = end && after(end);
    if (following) fresh.push(this.#seal(following, stamp, end));
    this.#db.data = [...before, ...fresh];
    try {
      this.#db.write();
    } catch (error) {
      this.#db.data = before;
      const problem = diskProblem(error, file, 'the answer was written; it is not in the journal');
      throw new StoreError(problem, errorCode(error));
    }
    return fresh;
  }

  close(): void {
    this.#closed = true;
    this.#adapter.close();
  }

  #seal(body: EventBody, stamp: Stamp, last: JournalEvent | undefined): JournalEvent {
    const cannot = (why: string) =>
      new StoreError(
        raise('journal.cannot-hold', `"${body.kind}" cannot be written: ${why}.`, { file: this.place.shown }),
        'EINVAL',
      );
    let event: JournalEvent;
    try {
      event = chainEvent(body, stamp, last);
    } catch (error) {
      throw cannot((error as Error).message);
    }
    if (chainLine(event).length > LONGEST_LINE) throw cannot(`it is longer than ${LONGEST_LINE} characters`);
    // A line that this version would refuse to read must never be written.
    const parsed = eventSchema.safeParse(event);
    if (parsed.success) return event;
    const issue = parsed.error.issues[0]!;
    throw cannot(`${issue.path.map(String).join('.') || 'the event'}: ${issue.message}`);
  }
}

/** What somebody who only looks sees: the whole events. A torn end may be a writer at work and is passed over; nothing is changed. */
export function readEvents(
  disk: Disk,
  root: string,
  job: string,
  unit: string,
): Result<readonly JournalEvent[]> {
  const place = journalPlace(root, job, unit);
  if (!place.ok) return place;
  try {
    const bytes = readJournalBytes(disk, place.value);
    if (bytes === undefined) return good([]);
    const found = readJournal(bytes, { of: place.value });
    const fault = found.faults[0];
    return fault ? bad(journalProblem(fault, place.value.shown)) : good(found.events);
  } catch (error) {
    return bad(diskProblem(error, place.value.shown, 'the journal was read'));
  }
}
