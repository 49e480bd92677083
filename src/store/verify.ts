/**
 * Reads everything under logs/ and says what does not hold. Only reads: no lock, no mending. Each kind of thing is a
 * check of its own over what the journals name: lines here, seals in verifyseals.ts, sources and evidence in verifykept.ts.
 */
import { join } from 'node:path';
import type { Evidence, JournalEvent } from '../build/events.js';
import { type Place, type Problem, raiser } from '../ground/problem.js';
import { LARGEST_JOURNAL } from './adapter.js';
import type { Disk } from './disk.js';
import { isJobSeal, LARGEST_SEAL, readJobSeal } from './jobseal.js';
import { publicKeys } from './key.js';
import { isFileName, logsFolder } from './paths.js';
import { type JournalFault, readJournal } from './readjournal.js';
import { type Named, verifyEvidence, verifySources } from './verifykept.js';
import { VERIFY_MESSAGES, VERIFY_NOTES } from './verifymessages.js';
import { entries, readOrdinary } from './verifyread.js';
import { jobSealProblems, type Keys, type Standing, unitSealProblems } from './verifyseals.js';
import { isOfSetups, verifySetups } from './verifysetups.js';

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
  /** Seals of units and of jobs that were looked at. */
  readonly seals: number;
}

export interface VerifyWish {
  /** Only this job. */
  readonly job?: string;
  /** Only this unit (of any job, or of that job). */
  readonly unit?: string;
}

/** Verifies a workshop's logs, or one job or unit of them with what it names. Throws nothing; a folder without logs holds. */
export function verifyTree(disk: Disk, root: string, wish: VerifyWish = {}): VerifyReport {
  const found: Problem[] = [];
  const named: Named = { sources: new Map(), evidence: new Map() };
  const count = { journals: 0, events: 0, seals: 0 };
  const { keys, problems } = publicKeys(disk, root);
  for (const { text, place } of problems) found.push(raise('verify.key-damaged', text, place));
  for (const job of entries(disk, logsFolder(root), 'logs', found)) {
    if (job === 'sources' || job === 'README.md' || job === 'index' || isOfSetups(job)) continue;
    if (wish.job !== undefined && job !== wish.job) continue;
    const shown = `logs/${job}`;
    if (!isFileName(job) || disk.stat(join(logsFolder(root), job))?.kind !== 'folder') {
      if (!job.endsWith('.tmp'))
        found.push(raise('verify.stray-file', `${shown} is no job.`, { file: shown }));
      continue;
    }
    const files = entries(disk, join(logsFolder(root), job), shown, found);
    const standings = new Map<string, Standing>();
    for (const file of files) {
      const unit = /^(.+)\.jsonl$/.exec(file)?.[1];
      if (unit === undefined || !isFileName(unit)) {
        if (wish.unit === undefined) besides(file, shown, found);
        continue;
      }
      if (wish.unit !== undefined && unit !== wish.unit) continue;
      count.journals++;
      const events = verifyJournal(disk, root, { job, unit }, named, keys, found);
      if (!events) continue;
      count.events += events.length;
      count.seals += events.filter(({ kind }) => kind === 'sealed').length;
      // Where the job has no seal, nobody will ask, and the events can be forgotten.
      if (files.some(isJobSeal))
        standings.set(unit, { lines: events.length, hashAt: (line) => events[line - 1]?.hash });
    }
    for (const file of files.filter(isJobSeal)) {
      const bytes = readOrdinary(
        disk,
        join(logsFolder(root), job, file),
        `${shown}/${file}`,
        found,
        LARGEST_SEAL,
      );
      if (bytes === undefined) continue;
      count.seals++;
      found.push(...jobSealProblems(readJobSeal(bytes), job, `${shown}/${file}`, standings, keys, wish.unit));
    }
  }
  const whole = wish.job === undefined && wish.unit === undefined;
  const setups = whole ? verifySetups(disk, root, found) : undefined;
  if (setups !== undefined) {
    count.journals++;
    count.events += setups;
  }
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

/** One journal; gives its whole events, or nothing where it cannot be read. */
function verifyJournal(
  disk: Disk,
  root: string,
  { job, unit }: { readonly job: string; readonly unit: string },
  named: Named,
  keys: Keys,
  found: Problem[],
): readonly JournalEvent[] | undefined {
  const file = `logs/${job}/${unit}.jsonl`;
  const bytes = readOrdinary(
    disk,
    join(logsFolder(root), job, `${unit}.jsonl`),
    file,
    found,
    LARGEST_JOURNAL,
  );
  if (bytes === undefined) return undefined;
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
  // A chain that does not hold is told by its line; what its signatures are of is then no question.
  if (read.faults.length === 0) found.push(...unitSealProblems(read.events, file, keys));
  return read.events;
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
  if (name === 'evidence' || isJobSeal(name) || /\.(tmp|lock|gone)$/.test(name)) return;
  const file = `${shown}/${name}`;
  if (/\.jsonl\.torn-\d+$/.test(name))
    found.push(raise('verify.set-aside', 'A piece of a line, set aside after a crash.', { file }));
  else found.push(raise('verify.stray-file', `${file} is none of the program's.`, { file }));
}
