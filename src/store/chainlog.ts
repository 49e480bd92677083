/**
 * A chained journal that belongs to no unit (practice, sign-offs, set-ups). Same envelope, hash chain, append, fsync
 * and torn-end repair as a unit's journal, for any event type; the caller supplies the path and the line check.
 */
import { isUtf8 } from 'node:buffer';
import { join } from 'node:path';
import { LowSync, type SyncAdapter } from 'lowdb';
import { err, ok, type Problem, type Result } from '../base/problem.js';
import { canonicalText, chainEvent, checkLine, type Stamp, verifyChain } from '../unit/chain.js';
import type { Envelope } from '../unit/events.js';
import { type Disk, diskProblem, type Handle, StoreError, storeProblem, writeAll } from './disk.js';
import { attempt, isUnder, makeFolders } from './files.js';
import { readJournalBytes } from './journal.js';
import { cutTail, setAside } from './journalrepair.js';
import { takeLock, thisProcess } from './lock.js';
import { isFileName, type JournalPlace } from './paths.js';

/** Bytes of what was written that are read back. */
const LAST = 200;

export interface ChainLogOptions {
  /** Path under the workshop, file name without extension: ['practice', 'people', 'jb']. */
  readonly path: readonly string[];
  /** What is wrong with the event; undefined if this version knows it. */
  readonly wrongWith: (event: unknown) => string | undefined;
}

/** Reads a whole log without modifying it, ignoring a torn end. A missing file has no events. */
export function readChainLog<E extends Envelope>(
  disk: Disk,
  root: string,
  options: ChainLogOptions,
): Result<readonly E[]> {
  const place = placeOf(root, options.path);
  if (!place.ok) return place;
  try {
    const bytes = readJournalBytes(disk, place.value);
    if (bytes === undefined) return ok([]);
    const read = parse<E>(bytes, place.value, options.wrongWith);
    return 'problem' in read ? err(read.problem) : ok(read.events);
  } catch (error) {
    return err(diskProblem(error, place.value.shown, 'the journal was read'));
  }
}

/** Appends, under the lock, the events `bodies` derives from the existing ones. All or nothing; durable once ok. */
export function appendChainLog<E extends Envelope>(
  disk: Disk,
  root: string,
  options: ChainLogOptions,
  stamp: Stamp,
  bodies: (events: readonly E[]) => readonly Omit<E, keyof Envelope>[],
): Result<readonly E[]> {
  const place = placeOf(root, options.path);
  if (!place.ok) return place;
  try {
    makeFolders(disk, root, options.path.slice(0, -1));
    const lock = takeLock(disk, place.value, thisProcess(), { bench: stamp.bench, who: stamp.by });
    if (!lock.ok) return lock;
    const adapter = new ChainAdapter<E>(disk, root, place.value, options);
    try {
      const db = new LowSync<E[]>(adapter, []);
      db.read();
      const fresh: E[] = [];
      for (const body of bodies(db.data)) {
        const event = chainEvent(body, stamp, fresh.at(-1) ?? db.data.at(-1)) as unknown as E;
        const wrong = options.wrongWith(event);
        if (wrong !== undefined)
          return err(
            storeProblem('journal.cannot-hold', `The line cannot be written: ${wrong}.`, {
              file: place.value.shown,
            }),
          );
        fresh.push(event);
      }
      if (fresh.length > 0) {
        db.data = [...db.data, ...fresh];
        db.write();
      }
      return ok(fresh);
    } finally {
      adapter.close();
      lock.value.release();
    }
  } catch (error) {
    return err(diskProblem(error, place.value.shown, 'it was written; it is not in the journal'));
  }
}

/** lowdb adapter for an append-only log: writes only new events and fsyncs before returning. */
class ChainAdapter<E extends Envelope> implements SyncAdapter<E[]> {
  #count = 0;
  #bytes = 0;
  #handle: Handle | undefined;

  constructor(
    private readonly disk: Disk,
    private readonly root: string,
    private readonly place: JournalPlace,
    private readonly options: ChainLogOptions,
  ) {}

  read(): E[] | null {
    const { disk, place } = this;
    const bytes = readJournalBytes(disk, place);
    if (bytes === undefined) return null;
    const read = parse<E>(bytes, place, this.options.wrongWith);
    if ('problem' in read) throw new StoreError(read.problem);
    if (read.torn) {
      setAside(disk, place, read.torn);
      cutTail(disk, place.file, read.goodBytes);
    }
    this.#count = read.events.length;
    this.#bytes = read.goodBytes;
    return [...read.events];
  }

  write(events: E[]): void {
    const { disk, place } = this;
    const text = events.slice(this.#count).map((event) => `${canonicalText(event)}\n`);
    const isNew = disk.stat(place.file) === undefined;
    const handle = disk.open(place.file, isNew ? 'new' : 'append');
    this.#handle = handle;
    try {
      const bytes = Buffer.from(text.join(''));
      writeAll(disk, handle, bytes, place.shown);
      disk.flush(handle);
      disk.flushFolder(place.folder);
      disk.flushFolder(this.root);
      if (!isUnder(disk, place.file, handle, bytes.subarray(-LAST)))
        throw new StoreError(
          storeProblem('journal.replaced', 'The file under this name is not the one that was written.', {
            file: place.shown,
          }),
        );
      this.#count = events.length;
      this.#bytes += bytes.length;
    } catch (error) {
      const ours = attempt(() => {
        if (!isUnder(disk, place.file, handle)) throw error;
      });
      this.close();
      if (ours) attempt(() => cutTail(disk, place.file, this.#bytes));
      throw error;
    }
  }

  close(): void {
    const handle = this.#handle;
    this.#handle = undefined;
    if (handle !== undefined) attempt(() => this.disk.close(handle));
  }
}

type Parsed<E> =
  | { readonly events: readonly E[]; readonly goodBytes: number; readonly torn?: Buffer }
  | { readonly problem: Problem };

function parse<E>(
  bytes: Buffer,
  place: JournalPlace,
  wrongWith: (event: unknown) => string | undefined,
): Parsed<E> {
  const end = bytes.lastIndexOf(0x0a) + 1;
  const torn = end < bytes.length ? bytes.subarray(end) : undefined;
  const whole = bytes.subarray(0, end);
  const damaged = (line: number, text: string) => ({
    problem: storeProblem('journal.damaged', text, { file: place.shown, line }),
  });
  if (!isUtf8(whole)) return damaged(1, 'The journal holds bytes that are no text.');
  const lines = whole.toString('utf8').split('\n').slice(0, -1).map(checkLine);
  const events = lines.flatMap((line) => (line.whole ? [line.event] : []));
  const fault = verifyChain(lines)[0];
  if (fault) return damaged(fault.line, fault.text);
  for (const [i, event] of events.entries()) {
    const wrong = wrongWith(event);
    if (wrong !== undefined)
      return {
        problem: storeProblem(
          'journal.unknown-event',
          `The line is whole, but this version does not know it: ${wrong}`,
          {
            file: place.shown,
            line: i + 1,
          },
        ),
      };
  }
  return { events: events as unknown as E[], goodBytes: end, ...(torn ? { torn } : {}) };
}

function placeOf(root: string, path: readonly string[]): Result<JournalPlace> {
  const wrong = path.find((part) => !isFileName(part));
  if (wrong !== undefined)
    return err(storeProblem('journal.name', `"${wrong}" cannot be the name of a file.`));
  const unit = path.at(-1)!;
  const folder = join(root, ...path.slice(0, -1));
  return ok({
    job: path[0]!,
    unit,
    folder,
    file: join(folder, `${unit}.jsonl`),
    lock: join(folder, `${unit}.lock`),
    shown: `${path.join('/')}.jsonl`,
  });
}
