/** A unit's journal: events in lowdb, our adapter on disk. An appended event is durable, a failed one in neither. */
import { dirname } from 'node:path/posix';
import { LowSync, type SyncAdapter } from 'lowdb';
import { err, ok, type Problem, type Result } from '../base/problem.js';
import { chainEvent, chainLine, type Stamp } from '../unit/chain.js';
import { type EventBody, eventSchema, type JournalEvent } from '../unit/events.js';
import {
  type Disk,
  diskProblem,
  errorCode,
  type Handle,
  StoreError,
  storeProblem,
  writeAll,
} from './disk.js';
import { attempt, isUnder, makeFolders, notAFolder } from './files.js';
import { cutTail, endLine, setAside } from './journalrepair.js';
import { type JournalPlace, journalPlace, logsFolder } from './paths.js';
import { journalProblem, readJournal } from './readjournal.js';
import { storeWords } from './words.js';

/** Bytes of what was written that are read back. */
const LAST = 200;

/** Longer than any real answer. */
const LONGEST_LINE = 100_000;

export class Journal {
  readonly place: JournalPlace;
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
   * Opens a unit's journal for writing; the caller holds the unit's lock (lockUnit does both). Repairs a torn end;
   * damage elsewhere is a problem with its line number. A unit without a journal has no events, and no file is created
   * until the first append.
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
      return err(diskProblem(error, place.value.shown, storeWords('while-journal-opened')));
    }
    return ok(new Journal(place.value, db, adapter), adapter.warnings);
  }

  /** All durable events, oldest first. Each append makes a new array; earlier arrays are not changed. */
  get events(): readonly JournalEvent[] {
    return this.#db.data;
  }

  /**
   * Numbers, timestamps, chains and writes events; durable on return. Throws StoreError, whose `problem` says what
   * happened and what to do; the journal is then unchanged in memory and on disk, and the same append can be retried.
   *
   * @param after derives one more event from the last chained one (a signature over its hash), for the same write
   */
  append(
    bodies: readonly EventBody[],
    stamp: Stamp,
    after: (last: JournalEvent) => EventBody | undefined = () => undefined,
  ): JournalEvent[] {
    const file = this.place.shown;
    if (this.#closed) throw new StoreError(storeProblem('journal.let-go', {}, { file }));
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
      const problem = diskProblem(error, file, storeWords('while-answer-written-journal'));
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
        storeProblem(
          'journal.cannot-hold/cannot',
          { kind: body.kind, why },
          {
            file: this.place.shown,
          },
        ),
        'EINVAL',
      );
    let event: JournalEvent;
    try {
      event = chainEvent(body, stamp, last);
    } catch (error) {
      throw cannot((error as Error).message);
    }
    if (chainLine(event).length > LONGEST_LINE) throw cannot(`it is longer than ${LONGEST_LINE} characters`);
    // Never write a line that this version would refuse to read.
    const parsed = eventSchema.safeParse(event);
    if (parsed.success) return event;
    const issue = parsed.error.issues[0]!;
    throw cannot(`${issue.path.map(String).join('.') || 'the event'}: ${issue.message}`);
  }
}

/** Read-only view of the complete events. Ignores a torn end, which may be a write in progress; changes nothing. */
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
    if (bytes === undefined) return ok([]);
    const found = readJournal(bytes, { of: place.value });
    const fault = found.faults[0];
    return fault ? err(journalProblem(fault, place.value.shown)) : ok(found.events);
  } catch (error) {
    return err(diskProblem(error, place.value.shown, storeWords('while-journal-read')));
  }
}

// The lowdb adapter behind a journal: an append-only log. `read` parses the lines and repairs a torn end; `write`
// appends only new events and fsyncs before returning. Existing lines are never rewritten. lowdb's own file adapters
// rewrite the whole file without fsync and must not hold records.

/** Far more than a unit ever needs (about 500 bytes an event), yet small enough to read whole. */
export const LARGEST_JOURNAL = 32_000_000;

/** Why writing is not allowed now: the lock was lost. */
export type Guard = () => Problem | undefined;

export class JournalAdapter implements SyncAdapter<JournalEvent[]> {
  readonly warnings: Problem[] = [];
  /** Number of events, and of bytes holding them, known to be durable. */
  #count = 0;
  #bytes = 0;
  #handle: Handle | undefined;
  /** Parent directories have been fsynced. Done once, because a previous process may have crashed before doing it. */
  #named = false;
  /** After a failed write: bytes that may follow the durable ones. */
  #attempted: Buffer | undefined;
  /** Durable events, kept across a failure to check the file against when it is reopened. */
  #durable: readonly JournalEvent[] = [];

  constructor(
    private readonly disk: Disk,
    private readonly root: string,
    private readonly place: JournalPlace,
    /** Called before each write; a problem blocks it. */
    private readonly guard: Guard = () => undefined,
  ) {}

  /** All events on disk, made durable first; null if there is no journal yet. Throws StoreError or a file error. */
  read(): JournalEvent[] | null {
    const { disk, place } = this;
    const bytes = readJournalBytes(disk, place);
    if (bytes === undefined) return null;
    const found = readJournal(bytes, { of: place });
    const fault = found.faults[0];
    if (fault) throw new StoreError(journalProblem(fault, place.shown));
    if (found.tail?.kind === 'torn') {
      const kept = setAside(disk, place, found.tail.bytes);
      cutTail(disk, place.file, found.goodBytes);
      this.warnings.push(
        storeProblem(
          'journal.torn',
          { line: found.tail.line, count: found.tail.bytes.length, kept },
          { file: place.shown, line: found.tail.line },
        ),
      );
    } else if (found.tail) {
      cutTail(disk, place.file, found.goodBytes);
      endLine(disk, place.file);
    }
    // The data read may not be durable yet (writer killed before its fsync); what we show must be on disk.
    const handle = disk.open(place.file, 'append');
    this.#handle = handle;
    disk.flush(handle);
    this.#nameDurably();
    this.#bytes = disk.size(handle);
    this.#count = found.events.length;
    this.#durable = found.events;
    return [...found.events];
  }

  /** Appends events that are not on disk yet. Durable on return; if it throws, none of them counts. */
  write(events: JournalEvent[]): void {
    const fresh = events.slice(this.#count);
    if (fresh.length === 0) return;
    const lost = this.guard();
    if (lost) throw new StoreError(lost, 'ESTALE');
    const bytes = Buffer.from(linesOf(fresh));
    // Never write what could not be read back.
    if (this.#bytes + bytes.length > LARGEST_JOURNAL)
      throw new StoreError(
        storeProblem(
          'journal.too-large',
          { bytes: this.#bytes + bytes.length },
          {
            file: this.place.shown,
          },
        ),
        'EINVAL',
      );
    let begun = false;
    try {
      const handle = this.#open();
      if (!isUnder(this.disk, this.place.file, handle)) throw this.#replaced();
      if (this.disk.size(handle) !== this.#bytes) throw this.#changedBeneath();
      begun = true;
      writeAll(this.disk, handle, bytes, this.place.shown);
      this.disk.flush(handle);
      this.#nameDurably();
      // What was written must be found under the journal's name.
      if (!isUnder(this.disk, this.place.file, handle, bytes.subarray(-LAST))) throw this.#replaced();
    } catch (error) {
      this.#letGo();
      // Before the next write the file is read again, whatever it is by then.
      this.#attempted = begun ? bytes : (this.#attempted ?? Buffer.alloc(0));
      // Roll back if the disk still allows it; otherwise the next write (or the next bench) does.
      if (begun) attempt(() => this.#readAgain(bytes));
      throw error;
    }
    this.#bytes += bytes.length;
    this.#count = events.length;
    this.#durable = events;
  }

  close(): void {
    // If the disk allows it now, remove data reported as not saved, so the next bench does not find it.
    const attempted = this.#attempted;
    if (attempted) attempt(() => this.#readAgain(attempted));
    this.#letGo();
  }

  #letGo(): void {
    const handle = this.#handle;
    this.#handle = undefined;
    if (handle !== undefined) attempt(() => this.disk.close(handle));
  }

  #open(): Handle {
    if (this.#handle !== undefined) return this.#handle;
    const { disk, place } = this;
    if (this.#attempted) this.#readAgain(this.#attempted);
    if (disk.stat(place.file) === undefined) {
      if (this.#count > 0) throw this.#replaced();
      makeFolders(disk, this.root, ['logs', place.job]);
      this.#handle = disk.open(place.file, 'new');
    } else this.#handle = disk.open(place.file, 'append');
    return this.#handle;
  }

  /**
   * After a failed write or fsync the old handle is never reused: the kernel may have dropped the pages and would
   * report success next time. So reread the file: it must start with the durable events, and whatever follows must be
   * our own unacknowledged bytes, which are cut off.
   */
  #readAgain(attempted: Buffer): void {
    const { disk, place } = this;
    const found = readJournalBytes(disk, place);
    if (found === undefined && this.#count > 0) throw this.#replaced();
    const bytes = found ?? Buffer.alloc(0);
    const durable = Buffer.from(linesOf(this.#durable));
    const extra = bytes.subarray(durable.length);
    const ours =
      bytes.subarray(0, durable.length).equals(durable) &&
      extra.length <= attempted.length &&
      extra.every((byte, i) => byte === 0 || byte === attempted[i]);
    if (!ours) throw this.#changedBeneath();
    if (extra.length > 0) cutTail(disk, place.file, durable.length);
    this.#attempted = undefined;
  }

  #nameDurably(): void {
    if (this.#named) return;
    this.disk.flushFolder(this.place.folder);
    this.disk.flushFolder(logsFolder(this.root));
    this.disk.flushFolder(this.root);
    this.#named = true;
  }

  #replaced(): StoreError {
    return new StoreError(storeProblem('journal.replaced/open', {}, { file: this.place.shown }));
  }

  #changedBeneath(): StoreError {
    return new StoreError(storeProblem('journal.changed-beneath', {}, { file: this.place.shown }));
  }
}

function linesOf(events: readonly JournalEvent[]): string {
  let text = '';
  for (const event of events) text += `${chainLine(event)}\n`;
  return text;
}

/** A journal's bytes; undefined if there is none. Only a regular file, size-checked before reading. */
export function readJournalBytes(disk: Disk, place: JournalPlace): Buffer | undefined {
  const folder = disk.stat(place.folder);
  if (folder !== undefined && folder.kind !== 'folder') throw notAFolder(dirname(place.shown));
  const stat = disk.stat(place.file);
  if (stat === undefined) return undefined;
  if (stat.kind !== 'file')
    throw new StoreError(storeProblem('workshop.not-a-file/journal', {}, { file: place.shown }));
  if (stat.size > LARGEST_JOURNAL)
    throw new StoreError(
      storeProblem('journal.too-large/journal', { stat: stat.size }, { file: place.shown }),
    );
  return disk.read(place.file);
}
