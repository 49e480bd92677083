/**
 * A chained journal that belongs to no unit (practice, sign-offs, set-ups). Same envelope, hash chain, append, fsync
 * and torn-end repair as a unit's journal, for any event type; the caller supplies the path and the line check.
 */
import { join } from 'node:path';
import { LowSync, type SyncAdapter } from 'lowdb';
import { err, ok, type Result } from '../base/problem.js';
import { canonicalText, chainEvent, type Stamp } from '../unit/chain.js';
import type { Envelope } from '../unit/events.js';
import { appendWhole } from './appended.js';
import { chainedIn } from './chained.js';
import { type Disk, diskProblem, StoreError, storeProblem } from './disk.js';
import { makeFolders } from './files.js';
import { readJournalBytes } from './journal.js';
import { cutTail, setAside } from './journalrepair.js';
import { takeLock, thisProcess } from './lock.js';
import { isFileName, type JournalPlace } from './paths.js';
import { storeWords } from './words.js';

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
    return ok(sure<E>(bytes, place.value, options).entries);
  } catch (error) {
    return err(diskProblem(error, place.value.shown, storeWords('while-journal-read')));
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
            storeProblem(
              'journal.cannot-hold',
              { wrong },
              {
                file: place.value.shown,
              },
            ),
          );
        fresh.push(event);
      }
      if (fresh.length > 0) {
        db.data = [...db.data, ...fresh];
        db.write();
      }
      return ok(fresh);
    } finally {
      lock.value.release();
    }
  } catch (error) {
    return err(diskProblem(error, place.value.shown, storeWords('while-written-journal')));
  }
}

/** lowdb adapter for an append-only log: writes only new events and fsyncs before returning. */
class ChainAdapter<E extends Envelope> implements SyncAdapter<E[]> {
  #count = 0;
  /** Of whole lines; undefined: there is no file. */
  #bytes: number | undefined;

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
    const read = sure<E>(bytes, place, this.options);
    if (read.torn) {
      setAside(disk, place, read.torn);
      cutTail(disk, place.file, read.goodBytes);
    }
    this.#count = read.entries.length;
    this.#bytes = read.goodBytes;
    return [...read.entries];
  }

  write(events: E[]): void {
    const { disk, place } = this;
    const text = events.slice(this.#count).map((event) => `${canonicalText(event)}\n`);
    const bytes = Buffer.from(text.join(''));
    appendWhole(disk, place, bytes, this.#bytes, () => {
      disk.flushFolder(place.folder);
      disk.flushFolder(this.root);
    });
    this.#count = events.length;
    this.#bytes = (this.#bytes ?? 0) + bytes.length;
  }
}

/** Throws StoreError where a line is damaged, or unknown to this version. */
function sure<E>(
  bytes: Buffer,
  { shown: file }: JournalPlace,
  { wrongWith }: ChainLogOptions,
): ReturnType<typeof chainedIn<E>> {
  const read = chainedIn<E>(bytes, wrongWith);
  const fault = read.faults.find(({ kind }) => kind !== 'torn');
  if (!fault) return read;
  const id = fault.kind === 'unknown' ? 'journal.unknown-event' : 'journal.damaged';
  throw new StoreError(storeProblem(id, { fault: fault.text }, { file, line: fault.line }));
}

function placeOf(root: string, path: readonly string[]): Result<JournalPlace> {
  const wrong = path.find((part) => !isFileName(part));
  if (wrong !== undefined) return err(storeProblem('journal.name/cannot', { wrong }));
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
