/**
 * The board's cache, logs/index/board.json: what is known about jobs and started units, with the mark of the file each
 * entry came from. Safe to delete at any time and never trusted over a journal: if a mark, the program version or an
 * entry's shape does not match, the journal is read. One that this account did not write is not believed at all.
 */
import { join } from 'node:path';
import type { TitlesTold } from '../procedure/titles.js';
import type { Disk } from '../store/disk.js';
import { attempt, makeFolders, writeWhole } from '../store/files.js';
import { logsFolder } from '../store/paths.js';
import { markHere } from '../store/register/account.js';
import type { UnitDigest } from '../unit/summary.js';

const FORMAT = 'pinchrod-board-index 8';
/** Anything larger is not a workshop's index and is discarded. */
const LARGEST = 60_000_000;

/** What the board shows of a unit from its job file. */
export interface JobLine {
  readonly id: string;
  readonly size: string;
  readonly sentence: string;
  /** SHA-256 of everything the job says about the unit. */
  readonly print: string;
}

export interface KeptJob {
  /** SHA-256 of the job's file. */
  readonly text: string;
  readonly profileSet: string;
  readonly procedure: string;
  readonly units: readonly JobLine[];
}

export interface KeptUnit {
  /** Mark of the journal this was read from. */
  readonly mark: string;
  /** `JobLine.print` from the frozen job, and what the board shows of it. */
  readonly print: string;
  readonly size: string;
  readonly sentence: string;
  /** SHA-256 of each source, by kind. */
  readonly sources: Readonly<Record<string, string>>;
  readonly digest: UnitDigest;
}

/** Titles of a procedure in another language. */
interface KeptTitles {
  /** SHA-256 of the procedure and of its translation. */
  readonly of: string;
  readonly told: TitlesTold;
}

export interface Index {
  readonly jobs: Map<string, KeptJob>;
  /** By PROCEDURE.LANGUAGE. */
  readonly titles: Map<string, KeptTitles>;
  /** By JOB/UNIT. */
  readonly units: Map<string, KeptUnit>;
}

/** Empty if the file is missing, damaged, or from another version. */
export function loadIndex(disk: Disk, root: string): Index {
  const index: Index = { jobs: new Map(), titles: new Map(), units: new Map() };
  attempt(() => {
    const file = fileOf(root);
    const stat = disk.stat(file);
    if (stat?.kind !== 'file' || stat.size > LARGEST) return;
    // ASCII only, one byte per character: for a large workshop this parses several times faster than text with accents.
    const bytes = disk.read(file);
    const end = bytes.indexOf(0x0a);
    const text = bytes.subarray(end + 1).toString('latin1');
    if (bytes.subarray(0, end).toString('latin1') !== markHere(disk, text)) return;
    const read = JSON.parse(text) as Partial<Written>;
    if (read.format !== FORMAT || read.program !== program()) return;
    const { jobs, titles, units, sources } = read as Written;
    for (const [name, job] of Object.entries(jobs)) if (isJob(job)) index.jobs.set(name, job);
    for (const [name, each] of Object.entries(titles)) if (areTitles(each)) index.titles.set(name, each);
    for (const [name, written] of Object.entries(units)) {
      const unit = { ...written, sources: sources[written.sources]! };
      if (isUnit(unit)) index.units.set(name, unit);
    }
  });
  return index;
}

/** All or nothing; if the disk refuses, the only cost is time at the next start. */
export function saveIndex(disk: Disk, root: string, index: Index, by = program()): void {
  attempt(() => {
    if (disk.stat(logsFolder(root))?.kind !== 'folder') return;
    makeFolders(disk, root, ['logs', 'index']);
    const text = ascii(JSON.stringify(written(index, by)));
    const mark = markHere(disk, text);
    if (mark !== undefined) writeWhole(disk, fileOf(root), Buffer.from(`${mark}\n${text}`, 'latin1'));
  });
}

/** File layout: each distinct set of sources is stored once, since most units share the same. */
interface Written {
  readonly format: string;
  readonly program: string;
  readonly jobs: Readonly<Record<string, KeptJob>>;
  readonly titles: Readonly<Record<string, KeptTitles>>;
  readonly sources: readonly KeptUnit['sources'][];
  readonly units: Readonly<Record<string, Omit<KeptUnit, 'sources'> & { readonly sources: number }>>;
}

function written(index: Index, program: string): Written {
  const sources: KeptUnit['sources'][] = [];
  const places = new Map<string, number>();
  const placeOf = (of: KeptUnit['sources']): number => {
    const key = JSON.stringify(of);
    const place = places.get(key) ?? sources.push(of) - 1;
    places.set(key, place);
    return place;
  };
  const units = [...index.units].map(([name, unit]) => [name, { ...unit, sources: placeOf(unit.sources) }]);
  return {
    format: FORMAT,
    program,
    jobs: Object.fromEntries(index.jobs),
    titles: Object.fromEntries(index.titles),
    sources,
    units: Object.fromEntries(units),
  };
}

const ascii = (text: string): string =>
  text.replace(/[^\0-\x7f]/g, (unit) => `\\u${unit.charCodeAt(0).toString(16).padStart(4, '0')}`);

const fileOf = (root: string): string => join(logsFolder(root), 'index', 'board.json');
const program = (): string => (typeof PINCHROD_VERSION === 'undefined' ? 'source' : PINCHROD_VERSION);

const isText = (value: unknown): value is string => typeof value === 'string';

function isJob(job: KeptJob): boolean {
  return (
    isText(job?.text) &&
    isText(job.profileSet) &&
    isText(job.procedure) &&
    Array.isArray(job.units) &&
    job.units.every(
      (unit) => isText(unit?.id) && isText(unit.size) && isText(unit.sentence) && isText(unit.print),
    )
  );
}

const areTitles = ({ of, told }: KeptTitles): boolean =>
  isText(of) &&
  typeof told?.phrases === 'object' &&
  Array.isArray(told.pairs) &&
  told.pairs.every((pair) => Array.isArray(pair) && pair.length === 2 && pair.every(isText));

function isUnit(unit: KeptUnit): boolean {
  const { digest } = unit ?? {};
  return (
    isText(unit?.mark) &&
    isText(unit.print) &&
    isText(unit.size) &&
    isText(unit.sentence) &&
    typeof unit.sources === 'object' &&
    Array.isArray(digest?.phases) &&
    digest.phases.length > 0 &&
    digest.phases.every(
      (phase) =>
        isText(phase?.from) &&
        isText(phase.standing) &&
        isText(phase.where) &&
        Array.isArray(phase.steps) &&
        typeof phase.handover === 'object',
    ) &&
    Array.isArray(digest.lots) &&
    Array.isArray(digest.notes) &&
    Array.isArray(digest.pictures) &&
    Array.isArray(digest.bases) &&
    Array.isArray(digest.snagged?.lots) &&
    Array.isArray(digest.snagged.setups) &&
    typeof digest.uses === 'object'
  );
}
