/**
 * Reads everything under logs/ and says what does not hold. Only reads: no lock, no mending. Each kind of thing is a
 * check of its own over what the journals name, so that further ones (seals, signatures, documents) stand beside these.
 */
import { join } from 'node:path';
import type { Evidence, JournalEvent } from '../build/events.js';
import { type Place, type Problem, raiser } from '../ground/problem.js';
import { LARGEST_JOURNAL } from './adapter.js';
import type { Disk } from './disk.js';
import { diskProblem } from './diskproblem.js';
import { hashBytes } from './files.js';
import { evidenceFolder, isFileName, logsFolder, sourcesFolder } from './paths.js';
import { type JournalFault, readJournal } from './readjournal.js';
import { VERIFY_MESSAGES, VERIFY_NOTES } from './verifymessages.js';

const raise = raiser(VERIFY_MESSAGES);

export interface VerifyReport {
  /** No fault; notes may be there. */
  readonly holds: boolean;
  readonly faults: readonly Problem[];
  readonly notes: readonly Problem[];
  readonly journals: number;
  readonly events: number;
  readonly sources: number;
  readonly evidence: number;
}

export interface VerifyWish {
  /** Only this job. */
  readonly job?: string;
  /** Only this unit (of any job, or of that job). */
  readonly unit?: string;
}

/** What journals name, with the places that name it, for the checks that follow. */
interface Named {
  readonly sources: Map<string, Place>;
  /** Job, then hash. */
  readonly evidence: Map<string, Map<string, { readonly evidence: Evidence; readonly place: Place }>>;
}

/** Verifies a workshop's logs, or one job or unit of them with what it names. Throws nothing; a folder without logs holds. */
export function verifyTree(disk: Disk, root: string, wish: VerifyWish = {}): VerifyReport {
  const found: Problem[] = [];
  const named: Named = { sources: new Map(), evidence: new Map() };
  const count = { journals: 0, events: 0 };
  for (const job of entries(disk, logsFolder(root), 'logs', found)) {
    if (job === 'sources' || job === 'README.md' || job === 'index') continue;
    if (wish.job !== undefined && job !== wish.job) continue;
    const shown = `logs/${job}`;
    if (!isFileName(job) || disk.stat(join(logsFolder(root), job))?.kind !== 'folder') {
      if (!job.endsWith('.tmp'))
        found.push(raise('verify.stray-file', `${shown} is no job.`, { file: shown }));
      continue;
    }
    for (const file of entries(disk, join(logsFolder(root), job), shown, found)) {
      const unit = /^(.+)\.jsonl$/.exec(file)?.[1];
      if (unit === undefined || !isFileName(unit)) {
        if (wish.unit === undefined) besides(file, shown, found);
        continue;
      }
      if (wish.unit !== undefined && unit !== wish.unit) continue;
      count.journals++;
      count.events += verifyJournal(disk, root, job, unit, named, found);
    }
  }
  const whole = wish.job === undefined && wish.unit === undefined;
  const sources = verifySources(disk, root, named, found, whole);
  let evidence = 0;
  const jobs = wish.unit === undefined ? jobFolders(disk, root, wish.job) : [...named.evidence.keys()];
  for (const job of jobs) evidence += verifyEvidence(disk, root, job, named, found, wish.unit === undefined);
  const faults = found.filter(({ id }) => !VERIFY_NOTES.has(id));
  const notes = found.filter(({ id }) => VERIFY_NOTES.has(id));
  return { holds: faults.length === 0, faults, notes, ...count, sources, evidence };
}

const FAULT_IDS: Record<JournalFault['kind'], keyof typeof VERIFY_MESSAGES> = {
  changed: 'verify.changed-line',
  missing: 'verify.missing-line',
  're-ordered': 'verify.re-ordered-line',
  repeated: 'verify.repeated-line',
  broken: 'verify.broken-chain',
  newer: 'verify.newer-format',
  'unknown-event': 'verify.unknown-event',
  'not-first': 'verify.not-opened',
  'wrong-unit': 'verify.wrong-unit',
};

/** One journal; gives how many whole events it has. */
function verifyJournal(
  disk: Disk,
  root: string,
  job: string,
  unit: string,
  named: Named,
  found: Problem[],
): number {
  const file = `logs/${job}/${unit}.jsonl`;
  const bytes = readOrdinary(
    disk,
    join(logsFolder(root), job, `${unit}.jsonl`),
    file,
    found,
    LARGEST_JOURNAL,
  );
  if (bytes === undefined) return 0;
  const read = readJournal(bytes, { of: { job, unit } });
  for (const fault of read.faults)
    found.push(raise(FAULT_IDS[fault.kind], fault.text, { file, line: fault.line }));
  if (read.tail) {
    const torn = read.tail.kind === 'torn';
    const text = torn
      ? `Line ${read.tail.line} is only a piece of an event (${read.tail.bytes.length} bytes).`
      : `Line ${read.tail.line} is whole but has no line end.`;
    found.push(raise(torn ? 'verify.torn-end' : 'verify.no-line-end', text, { file, line: read.tail.line }));
  }
  for (const [i, event] of read.events.entries()) note(event, job, { file, line: i + 1 }, named);
  return read.events.length;
}

/** Fields are read with care: a line may be whole in the chain and still not have this version's fields. */
function note(event: JournalEvent, job: string, place: Place, named: Named): void {
  const { sources, evidence } = event as { sources?: unknown; evidence?: unknown };
  if (sources !== null && typeof sources === 'object')
    for (const hash of Object.values(sources))
      if (typeof hash === 'string' && !named.sources.has(hash)) named.sources.set(hash, place);
  if (Array.isArray(evidence))
    for (const each of evidence as Evidence[]) {
      if (typeof each?.sha256 !== 'string') continue;
      const ofJob = named.evidence.get(job) ?? new Map();
      named.evidence.set(job, ofJob);
      if (!ofJob.has(each.sha256)) ofJob.set(each.sha256, { evidence: each, place });
    }
}

function verifySources(disk: Disk, root: string, named: Named, found: Problem[], whole: boolean): number {
  const folder = sourcesFolder(root);
  const there = new Set(disk.stat(folder) === undefined ? [] : entries(disk, folder, 'logs/sources', found));
  for (const [hash, place] of named.sources) {
    const file = `logs/sources/${hash}`;
    if (!there.has(hash)) {
      found.push(raise('verify.source-missing', `${file} is not there.`, place));
      continue;
    }
    const bytes = readOrdinary(disk, join(folder, hash), file, found);
    if (bytes !== undefined && hashBytes(bytes) !== hash)
      found.push(raise('verify.source-changed', 'The content is not what the name says.', { file }));
  }
  if (whole)
    for (const name of there)
      if (!named.sources.has(name) && !name.endsWith('.tmp'))
        found.push(
          raise('verify.source-unknown', 'No journal names this file.', { file: `logs/sources/${name}` }),
        );
  return named.sources.size;
}

function verifyEvidence(
  disk: Disk,
  root: string,
  job: string,
  named: Named,
  found: Problem[],
  whole: boolean,
): number {
  const folder = evidenceFolder(root, job);
  const shown = `logs/${job}/evidence`;
  const there = new Set(disk.stat(folder) === undefined ? [] : entries(disk, folder, shown, found));
  const ofJob = named.evidence.get(job) ?? new Map<string, { evidence: Evidence; place: Place }>();
  for (const [hash, { evidence, place }] of ofJob) {
    if (!there.has(hash)) {
      found.push(raise('verify.evidence-missing', `"${evidence.name}" (${hash}) is not there.`, place));
      continue;
    }
    const bytes = readOrdinary(disk, join(folder, hash), `${shown}/${hash}`, found);
    if (bytes !== undefined && hashBytes(bytes) !== hash)
      found.push(
        raise('verify.evidence-changed', `"${evidence.name}" is not what its name says.`, {
          file: `${shown}/${hash}`,
        }),
      );
  }
  if (whole)
    for (const name of there)
      if (!ofJob.has(name) && !name.endsWith('.tmp'))
        found.push(
          raise('verify.evidence-unknown', 'No journal names this file.', { file: `${shown}/${name}` }),
        );
  return ofJob.size;
}

function jobFolders(disk: Disk, root: string, only: string | undefined): string[] {
  const folder = logsFolder(root);
  if (disk.stat(folder) === undefined) return [];
  return entries(disk, folder, 'logs', []).filter(
    (name) =>
      (only === undefined || name === only) &&
      isFileName(name) &&
      disk.stat(join(folder, name))?.kind === 'folder',
  );
}

/** Files beside the journals. Temporary files and locks of benches at work are passed over. */
function besides(name: string, shown: string, found: Problem[]): void {
  if (name === 'evidence' || /\.(tmp|lock|gone)$/.test(name)) return;
  const file = `${shown}/${name}`;
  if (/\.jsonl\.torn-\d+$/.test(name))
    found.push(raise('verify.set-aside', 'A piece of a line, set aside after a crash.', { file }));
  else found.push(raise('verify.stray-file', `${file} is none of the program's.`, { file }));
}

function entries(disk: Disk, path: string, shown: string, found: Problem[]): string[] {
  try {
    return disk.stat(path) === undefined ? [] : disk.list(path);
  } catch (error) {
    found.push(unreadable(error, shown));
    return [];
  }
}

function readOrdinary(
  disk: Disk,
  path: string,
  file: string,
  found: Problem[],
  largest = Number.POSITIVE_INFINITY,
): Buffer | undefined {
  try {
    const stat = disk.stat(path);
    if (stat?.kind === 'file' && stat.size <= largest) return disk.read(path);
    const text = stat?.kind === 'file' ? `The file has ${stat.size} bytes.` : 'This is no ordinary file.';
    found.push(raise('verify.not-a-file', text, { file }));
  } catch (error) {
    found.push(unreadable(error, file));
  }
  return undefined;
}

const unreadable = (error: unknown, file: string): Problem =>
  raise('verify.unreadable', diskProblem(error, file, 'it was verified').text, { file });
