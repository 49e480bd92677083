/**
 * Search index over units, logs/index/find.json: a cache that finds one unit among ten thousand without reading the
 * rest. Safe to delete at any time. An entry is valid while its journal has the same file id, length and mtime; search
 * hits are then read from the journals themselves. An unreadable journal has no entry.
 *
 * A tampered entry could hide a unit from searches. If a bench here has a key, the index is signed with it and no other
 * index is trusted (logs/index/find-KEY.json); without a key, a checksum detects only accidental damage.
 */
import { join } from 'node:path';
import { sha256 } from '../unit/chain.js';
import { summaryOf, type UnitSummary } from '../unit/summary.js';
import { reachesOf, type TraceQuery } from '../unit/trace.js';
import type { Disk } from './disk.js';
import { attempt, makeFolders, writeSpare } from './files.js';
import { readEvents } from './journal.js';
import { journalMarks } from './journals.js';
import { anyKey } from './key.js';
import { logsFolder } from './paths.js';

const FORMAT = 'pinchrod-find-index 1';
/** Anything larger is not a workshop's index. */
const LARGEST = 200_000_000;

interface Kept extends UnitSummary {
  readonly reaches: Readonly<Record<keyof TraceQuery, readonly string[]>>;
}

export interface Findable {
  readonly job: string;
  readonly unit: string;
  /** Absent if the journal cannot be read; the caller must then check the journal. */
  readonly kept?: Kept;
}

type Entries = Record<string, readonly [mark: string, kept: Kept]>;

/** Every unit with a journal, and its search fields. Re-reads stale entries and saves them if the disk allows. */
export function findIndex(disk: Disk, root: string): Findable[] {
  const place = indexPlace(disk, root, 'find', FORMAT);
  const before = load(disk, place);
  const now: Entries = {};
  let fresh = 0;
  const found = journalMarks(disk, root).map(({ job, unit, mark }): Findable => {
    const name = `${job}/${unit}`;
    const entry = Object.hasOwn(before, name) ? before[name] : undefined;
    const kept = entry?.[0] === mark ? entry[1] : read(disk, root, job, unit);
    if (kept) now[name] = [mark, kept];
    if (kept && kept !== entry?.[1]) fresh++;
    return { job, unit, ...(kept ? { kept } : {}) };
  });
  if (fresh > 0 || Object.keys(before).length !== Object.keys(now).length) save(disk, root, place, now);
  return found;
}

function read(disk: Disk, root: string, job: string, unit: string): Kept | undefined {
  const events = readEvents(disk, root, job, unit);
  return events.ok ? { ...summaryOf(events.value), reaches: reachesOf(events.value) } : undefined;
}

interface Place {
  readonly file: string;
  /** Checksum or, if there is a key, signature: proves the text is intact and, with a key, written here. */
  readonly mark: (text: string) => string;
}

/** Where an index of that name lies, signed where a bench here has a key. */
export function indexPlace(disk: Disk, root: string, name: string, format: string): Place {
  const folder = join(logsFolder(root), 'index');
  const key = anyKey(disk, root);
  if (!key) return { file: join(folder, `${name}.json`), mark: sha256 };
  // Ed25519 signatures are deterministic, so verify by signing again and comparing.
  const mark = (text: string): string => key.sign(sha256(`${format}\n${text}`));
  return { file: join(folder, `${name}-${key.id}.json`), mark };
}

/** Empty if the file is damaged, was not written here, or has another version. */
function load(disk: Disk, { file, mark }: Place): Entries {
  let entries: Entries = {};
  attempt(() => {
    const stat = disk.stat(file);
    if (stat?.kind !== 'file' || stat.size > LARGEST) return;
    const [format, said, text] = disk.read(file).toString('utf8').split('\n');
    if (format === FORMAT && text !== undefined && mark(text) === said) entries = JSON.parse(text) as Entries;
  });
  return entries;
}

/** All or nothing; if the disk refuses, the only cost is time on the next query. */
function save(disk: Disk, root: string, { file, mark }: Place, entries: Entries): void {
  attempt(() => {
    makeFolders(disk, root, ['logs', 'index']);
    const text = JSON.stringify(entries);
    writeSpare(disk, file, Buffer.from(`${FORMAT}\n${mark(text)}\n${text}\n`));
  });
}
