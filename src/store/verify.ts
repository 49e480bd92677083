/**
 * Reads everything under logs/ and says what does not hold. Only reads: no lock, no mending. Each kind of thing is a
 * check of its own: lines in verifyjournal.ts, seals in verifyseals.ts, sources and evidence, as the journals name them,
 * in verifykept.ts.
 */
import { join } from 'node:path';
import { type Problem, raiser } from '../base/problem.js';
import type { Disk } from './disk.js';
import { isJobSeal, type JobSeal, LARGEST_SEAL, readJobSeal } from './jobseal.js';
import { publicKeys } from './key.js';
import { VERIFY_MESSAGES, VERIFY_NOTES } from './messages.js';
import { isFileName, logsFolder } from './paths.js';
import { addNamed, examineJournal, type JournalReport, type JournalWish } from './verifyjournal.js';
import { entries, type Named, readOrdinary, verifyEvidence, verifySources } from './verifykept.js';
import { jobSealProblems, type Keys, type Standing } from './verifyseals.js';
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

/** How a journal is looked at; elsewhere than here where several threads share the work. */
export type Examine = (wish: JournalWish, keys: Keys) => JournalReport;

/** Verifies a workshop's logs, or one job or unit of them with what it names. Throws nothing; a folder without logs holds. */
export function verifyTree(
  disk: Disk,
  root: string,
  wish: VerifyWish = {},
  examine: Examine = (journal, keys) => examineJournal(disk, root, journal, keys),
): VerifyReport {
  const found: Problem[] = [];
  const named: Named = { sources: new Map(), evidence: new Map() };
  const count = { journals: 0, events: 0, seals: 0 };
  const { keys, problems } = publicKeys(disk, root);
  for (const { text, place } of problems) found.push(raise('verify.key-damaged', text, place));
  for (const item of listed(disk, root, wish, found)) {
    const standings = new Map<string, Standing>();
    for (const journal of item.journals) {
      const report = examine(journal, keys);
      found.push(...report.problems);
      count.journals++;
      if (!report.whole) continue;
      count.events += report.whole.standing.lines;
      count.seals += report.whole.seals;
      standings.set(journal.unit, report.whole.standing);
      addNamed(journal, report.whole, named);
    }
    for (const { file, seal, problems } of item.seals) {
      found.push(...problems);
      if (problems.length > 0) continue;
      count.seals++;
      found.push(...jobSealProblems(seal, item.job, file, standings, keys, wish.unit));
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

/** The journals that `verifyTree` will look at, in its order. */
export const wishedJournals = (disk: Disk, root: string, wish: VerifyWish): JournalWish[] =>
  listed(disk, root, wish, []).flatMap(({ journals }) => journals);

interface ListedJob {
  readonly job: string;
  readonly journals: readonly JournalWish[];
  readonly seals: readonly ListedSeal[];
}
interface ListedSeal {
  readonly file: string;
  /** Not there where the file holds none, or cannot be read: then `problems` say why. */
  readonly seal: JobSeal | undefined;
  readonly problems: readonly Problem[];
}

/** What there is under logs/ of what is wished for; strays are found on the way. */
function listed(disk: Disk, root: string, wish: VerifyWish, found: Problem[]): ListedJob[] {
  const jobs: ListedJob[] = [];
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
    const seals = files.filter(isJobSeal).map((file) => listedSeal(disk, root, job, file));
    const units: string[] = [];
    for (const file of files) {
      const unit = /^(.+)\.jsonl$/.exec(file)?.[1];
      if (unit === undefined || !isFileName(unit)) {
        if (wish.unit === undefined) besides(file, shown, found);
      } else if (wish.unit === undefined || unit === wish.unit) units.push(unit);
    }
    jobs.push({
      job,
      seals,
      journals: units.map((unit) => ({ job, unit, sealed: sealedLines(unit, seals) })),
    });
  }
  return jobs;
}

function listedSeal(disk: Disk, root: string, job: string, name: string): ListedSeal {
  const file = `logs/${job}/${name}`;
  const problems: Problem[] = [];
  const bytes = readOrdinary(disk, join(logsFolder(root), job, name), file, problems, LARGEST_SEAL);
  return { file, seal: bytes && readJobSeal(bytes), problems };
}

const sealedLines = (unit: string, seals: readonly ListedSeal[]): number[] =>
  seals.flatMap(
    ({ seal }) => seal?.units.filter((each) => each.unit === unit).map(({ lines }) => lines) ?? [],
  );

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
