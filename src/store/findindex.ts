/**
 * What units are looked for by, logs/index/find.json: a cache, so that one of ten thousand is found without reading the
 * others. It may be deleted at any moment. An entry counts while its journal is the same file of the same length and
 * time; what it leads to is read from the journals, and a journal that cannot be read has no entry.
 */
import { join } from 'node:path';
import { sha256 } from '../build/chain.js';
import { summaryOf, type UnitSummary } from '../build/summary.js';
import { reachesOf, type TraceQuery } from '../build/trace.js';
import type { Disk } from './disk.js';
import { attempt, makeFolders, writeWhole } from './files.js';
import { readEvents } from './journal.js';
import { journalMarks } from './journals.js';
import { logsFolder } from './paths.js';

const FORMAT = 'pinchrod-find-index 1';
/** Larger than this it is no index of a workshop. */
const LARGEST = 200_000_000;

export interface Kept extends UnitSummary {
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
  const before = load(disk, root);
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
  if (fresh > 0 || Object.keys(before).length !== Object.keys(now).length) save(disk, root, now);
  return found;
}

function read(disk: Disk, root: string, job: string, unit: string): Kept | undefined {
  const events = readEvents(disk, root, job, unit);
  return events.ok ? { ...summaryOf(events.value), reaches: reachesOf(events.value) } : undefined;
}

/** What is not whole, or of another version, is nothing. */
function load(disk: Disk, root: string): Entries {
  let entries: Entries = {};
  attempt(() => {
    const stat = disk.stat(fileOf(root));
    if (stat?.kind !== 'file' || stat.size > LARGEST) return;
    const [format, sum, text] = disk.read(fileOf(root)).toString('utf8').split('\n');
    if (format === FORMAT && text !== undefined && sha256(text) === sum)
      entries = JSON.parse(text) as Entries;
  });
  return entries;
}

/** Whole or not at all; a disk that does not take it costs only time at the next question. */
function save(disk: Disk, root: string, entries: Entries): void {
  attempt(() => {
    makeFolders(disk, root, ['logs', 'index']);
    const text = JSON.stringify(entries);
    writeWhole(disk, fileOf(root), Buffer.from(`${FORMAT}\n${sha256(text)}\n${text}\n`));
  });
}

const fileOf = (root: string): string => join(logsFolder(root), 'index', 'find.json');
