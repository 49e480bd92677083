/**
 * What units are looked for by, logs/index/find.json: a cache, so that one of ten thousand is found without reading the
 * others. It may be deleted at any moment. An entry counts while its journal is the same file of the same length and
 * time; what it leads to is read from the journals, and a journal that cannot be read has no entry.
 *
 * An entry that was changed could keep a unit from being found. Where a bench here has a key, the index is signed with it
 * and no other is believed (logs/index/find-KEY.json); without a key a sum tells only what was damaged.
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
/** Larger than this it is no index of a workshop. */
const LARGEST = 200_000_000;

interface Kept extends UnitSummary {
  readonly reaches: Readonly<Record<keyof TraceQuery, readonly string[]>>;
}

export interface Findable {
  readonly job: string;
  readonly unit: string;
  /** Not there where the journal cannot be read: whoever looks must ask the journal. */
  readonly kept?: Kept;
}

type Entries = Record<string, readonly [mark: string, kept: Kept]>;

/** Every unit with a journal, by job and unit, with what it is looked for by. What is out of date is read, and kept where the disk takes it. */
export function findIndex(disk: Disk, root: string): Findable[] {
  const place = placeOf(disk, root);
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
  /** Says of a text that it is whole, and, where there is a key, that it was written here. */
  readonly mark: (text: string) => string;
}

function placeOf(disk: Disk, root: string): Place {
  const folder = join(logsFolder(root), 'index');
  const key = anyKey(disk, root);
  if (!key) return { file: join(folder, 'find.json'), mark: sha256 };
  // An Ed25519 signature of the same text is always the same, so it is made again to be compared.
  const mark = (text: string): string => key.sign(sha256(`${FORMAT}\n${text}`));
  return { file: join(folder, `find-${key.id}.json`), mark };
}

/** What is not whole, not written here, or of another version, is nothing. */
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

/** Whole or not at all; a disk that does not take it costs only time at the next question. */
function save(disk: Disk, root: string, { file, mark }: Place, entries: Entries): void {
  attempt(() => {
    makeFolders(disk, root, ['logs', 'index']);
    const text = JSON.stringify(entries);
    writeSpare(disk, file, Buffer.from(`${FORMAT}\n${mark(text)}\n${text}\n`));
  });
}
