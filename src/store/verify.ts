/** Checks everything under logs/, read-only: lines in verifyjournal.ts; seals, sources, evidence in verifykept.ts. */
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { parentPort, Worker, workerData } from 'node:worker_threads';
import { type Problem, problemFactory } from '../base/problem.js';
import type { RegisterHead } from '../unit/events.js';
import { type Disk, realDisk } from './disk.js';
import { hashBytes } from './files.js';
import { isJobSeal, type JobSeal, LARGEST_SEAL, readJobSeal } from './jobseal.js';
import { branchNamed, isFileName, logsFolder } from './paths.js';
import { checkRegistered, isUnpacked } from './register/check.js';
import type { JournalNow } from './register/heads.js';
import { countedKeys, type Keys } from './register/keys.js';
import { type Registers, readRegisters } from './register/registers.js';
import { lateSignature, unsignedFaults } from './register/signatures.js';
import { addNamed, examineJournal, type JournalReport, type JournalToExamine } from './verifyjournal.js';
import {
  entries,
  isOfWorkshop,
  jobSealProblems,
  type NamedByJournals,
  readOrdinary,
  verifyEvidence,
  verifyNames,
  verifySources,
  verifyWorkshop,
} from './verifykept.js';
import { VERIFY_MESSAGES, VERIFY_NOTES } from './verifymessages.js';
import { storeWords } from './words.js';

const raise = problemFactory(VERIFY_MESSAGES);

export interface VerifyReport {
  /** No faults; there may be notes. */
  readonly holds: boolean;
  readonly faults: readonly Problem[];
  readonly notes: readonly Problem[];
  readonly journals: number;
  readonly events: number;
  readonly sources: number;
  readonly evidence: number;
  /** Unit and job seals checked. */
  readonly seals: number;
  /** Entries of registers. */
  readonly entries: number;
  /** Fingerprint of the key by which the others count. */
  readonly firstKey?: string;
  /** Heads of registers that are known from elsewhere and are not there. */
  readonly lost: readonly RegisterHead[];
}

export interface VerifyRequest {
  readonly job?: string;
  /** In any job, or only in `job`. */
  readonly unit?: string;
  /** Fingerprints of the only keys that count. */
  readonly trust?: readonly string[];
}

/** Examines one journal; replaced when several threads share the work. */
export type Examine = (request: JournalToExamine, keys: Keys) => JournalReport;

/** Verifies a workshop's logs, or one job or unit and its references. Never throws; no logs is a pass. */
export function verifyTree(
  disk: Disk,
  root: string,
  request: VerifyRequest = {},
  examine: Examine = (journal, keys) => examineJournal(disk, root, journal, keys),
  { counted, registers } = vouching(disk, root, request),
): VerifyReport {
  const found: Problem[] = [];
  const named: NamedByJournals = { sources: new Map(), names: new Map(), evidence: new Map() };
  const count = { journals: 0, events: 0, seals: 0 };
  const { keys } = counted;
  found.push(...registers.problems);
  const unpacked = isUnpacked(disk, root);
  if (keys.size > 0 && !registers.any && !unpacked && !request.trust)
    found.push(raise('verify.no-register', {}, { file: 'register' }));
  const now = new Map<string, JournalNow | 'broken'>();
  const sealsThere = new Set<string>();
  for (const item of listed(disk, root, request, found, registers.expected)) {
    const standings = new Map<string, JournalNow>();
    for (const journal of item.journals) {
      const report = examine(journal, keys);
      const file = `logs/${journal.job}/${journal.unit}.jsonl`;
      found.push(...report.problems);
      count.journals++;
      now.set(file, report.whole?.chained ? report.whole.standing : 'broken');
      if (!report.whole) continue;
      count.events += report.whole.standing.lines;
      count.seals += report.whole.signed.length;
      standings.set(journal.unit, report.whole.standing);
      addNamed(journal, report.whole, named);
      for (const [key, line] of report.whole.signed)
        found.push(...lateSignature(keys.get(key), key, registers, { file, line }));
      if (unpacked || !report.whole.chained) continue;
      found.push(...unsignedFaults(report.whole.unsigned, file, counted, registers));
      for (const [head, line] of report.whole.cites)
        found.push(...registers.against(head, { file, line }, storeWords('known-line', { line })));
    }
    for (const { file, seal, sha256, problems } of item.seals) {
      found.push(...problems);
      sealsThere.add(`${item.job} ${sha256}`);
      if (problems.length > 0) continue;
      count.seals++;
      found.push(...jobSealProblems(seal, item.job, file, standings, keys, request.unit));
      found.push(...lateSignature(keys.get(seal?.key ?? ''), seal?.key ?? '', registers, { file }, sha256));
    }
  }
  const whole = request.job === undefined && request.unit === undefined;
  found.push(...checkRegistered(disk, root, request, registers, now, sealsThere));
  for (const events of whole ? verifyWorkshop(disk, root, named, found) : []) {
    count.journals++;
    count.events += events;
  }
  const sources = verifySources(disk, root, named, found, whole);
  verifyNames(disk, root, named, found, whole);
  let evidence = 0;
  const jobs = request.unit === undefined ? jobFolders(disk, root, request.job) : [...named.evidence.keys()];
  for (const job of jobs)
    evidence += verifyEvidence(disk, root, job, named, found, request.unit === undefined);
  const faults = found.filter(({ id }) => !VERIFY_NOTES.has(id));
  // What only a journal that is gone names is needed again once that is put back.
  const wanting = faults.some(({ id }) => id.startsWith('verify.journal-'));
  const notes = found.filter(({ id }) => VERIFY_NOTES.has(id) && !(wanting && /-unknown$/.test(id)));
  const { entries, lost } = registers;
  return {
    holds: faults.length === 0,
    faults,
    notes,
    ...count,
    sources,
    evidence,
    entries,
    lost,
    ...(counted.first === undefined ? {} : { firstKey: counted.first }),
  };
}

/** Which keys count, and the registers: read once, as they grow for years. */
function vouching(disk: Disk, root: string, { trust }: VerifyRequest) {
  const counted = countedKeys(disk, root, trust);
  return { counted, registers: readRegisters(disk, root, counted) };
}

/** The journals that `verifyTree` will check, in the same order. */
const journalsToExamine = (
  disk: Disk,
  root: string,
  request: VerifyRequest,
  { expected }: Registers,
): JournalToExamine[] => listed(disk, root, request, [], expected).flatMap(({ journals }) => journals);

interface ListedJob {
  readonly job: string;
  readonly journals: readonly JournalToExamine[];
  readonly seals: readonly ListedSeal[];
}
interface ListedSeal {
  readonly file: string;
  /** Undefined if the file holds no seal or cannot be read; `problems` then says why. */
  readonly seal: JobSeal | undefined;
  readonly sha256: string;
  readonly problems: readonly Problem[];
}

const NO_JOBS: ReadonlySet<string> = new Set(['sources', 'names', 'index', 'README.md']);

/** The requested contents of logs/; reports stray files along the way. */
function listed(
  disk: Disk,
  root: string,
  request: VerifyRequest,
  found: Problem[],
  expected: Registers['expected'],
): ListedJob[] {
  const jobs: ListedJob[] = [];
  for (const job of entries(disk, logsFolder(root), 'logs', found)) {
    if (NO_JOBS.has(job) || isOfWorkshop(job)) continue;
    if (request.job !== undefined && job !== request.job) continue;
    const shown = `logs/${job}`;
    const kind = disk.stat(join(logsFolder(root), job))?.kind;
    if (kind === 'link') {
      found.push(raise('verify.not-a-file', {}, { file: shown }));
      continue;
    }
    if (!isFileName(job) || kind !== 'folder') {
      if (!job.endsWith('.tmp')) found.push(raise('verify.stray-file', { shown }, { file: shown }));
      continue;
    }
    const files = entries(disk, join(logsFolder(root), job), shown, found);
    const seals = files.filter(isJobSeal).map((file) => listedSeal(disk, root, job, file));
    const units: string[] = [];
    for (const file of files) {
      const unit = /^(.+)\.jsonl$/.exec(file)?.[1];
      if (unit === undefined || !(isFileName(unit) || branchNamed(unit))) {
        if (request.unit === undefined) besides(file, shown, found);
      } else if (request.unit === undefined || (branchNamed(unit)?.unit ?? unit) === request.unit)
        units.push(unit);
    }
    jobs.push({
      job,
      seals,
      journals: units.map((unit) => ({
        job,
        unit,
        known: [
          ...sealedLines(unit, seals),
          ...(expected.get(`logs/${job}/${unit}.jsonl`) ?? []).map(({ events }) => events),
        ],
      })),
    });
  }
  return jobs;
}

function listedSeal(disk: Disk, root: string, job: string, name: string): ListedSeal {
  const file = `logs/${job}/${name}`;
  const problems: Problem[] = [];
  const bytes = readOrdinary(disk, join(logsFolder(root), job, name), file, problems, LARGEST_SEAL);
  return { file, seal: bytes && readJobSeal(bytes), sha256: bytes ? hashBytes(bytes) : '', problems };
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

/** Files beside the journals. Ignores temporary files and locks of running benches. */
function besides(name: string, shown: string, found: Problem[]): void {
  if (name === 'evidence' || isJobSeal(name) || /\.(tmp|lock|gone)$/.test(name)) return;
  const file = `${shown}/${name}`;
  if (/\.jsonl\.torn-\d+$/.test(name)) found.push(raise('verify.set-aside', {}, { file }));
  else found.push(raise('verify.stray-file/none', { file }, { file }));
}

// Multi-threaded verification of large logs. The main thread and its helpers take journals from one shared list;
// results are merged in name order, so the output is the same as from a single thread.

/** Minimum bytes for helpers to pay off: one thread needs about as long for this much as a helper needs to start. */
const WORTH_IT = 12_000_000;
const MOST_THREADS = 8;

interface Task {
  readonly verify: {
    readonly root: string;
    readonly requests: readonly JournalToExamine[];
    readonly trust?: readonly string[] | undefined;
  };
  /** Counter of requests taken so far. */
  readonly taken: SharedArrayBuffer;
}

/** `verifyTree` on the real disk. `program`: a script that calls `helpVerify` when run as a thread with `words`. */
export async function verifyInThreads(
  root: string,
  request: VerifyRequest,
  program: { readonly script: URL; readonly words: readonly string[] },
  { threads = Math.min(availableParallelism(), MOST_THREADS), worthIt = WORTH_IT } = {},
): Promise<VerifyReport> {
  const known = vouching(realDisk, root, request);
  const requests = journalsToExamine(realDisk, root, request, known.registers);
  if (threads < 2 || requests.length < 2 || sizeOf(root, requests) < worthIt)
    return verifyTree(realDisk, root, request, undefined, known);
  const task: Task = { verify: { root, requests, trust: request.trust }, taken: new SharedArrayBuffer(4) };
  const helpers = Array.from({ length: Math.min(threads, requests.length) - 1 }, () => helper(task, program));
  const found = new Map(examineSome(task));
  for (const reports of await Promise.all(helpers)) for (const [i, report] of reports) found.set(i, report);
  const byName = new Map([...found].map(([i, report]) => [nameOf(requests[i]!), report]));
  // Check here whatever a helper took but never reported.
  return verifyTree(
    realDisk,
    root,
    request,
    (each, keys) => byName.get(nameOf(each)) ?? examineJournal(realDisk, root, each, keys),
    known,
  );
}

/** In a helper thread: does its share and posts the result. In any other: does nothing and returns false. */
export function helpVerify(): boolean {
  const task = workerData as Task | null;
  /* v8 ignore start -- tests/store/threads.test.ts starts it in a thread of its own, whose lines nothing counts */
  if (!parentPort || !task?.verify) return false;
  parentPort.postMessage(examineSome(task));
  return true;
  /* v8 ignore stop */
}

function examineSome({ verify: { root, requests, trust }, taken }: Task): [number, JournalReport][] {
  const { keys } = countedKeys(realDisk, root, trust);
  const next = new Int32Array(taken);
  const found: [number, JournalReport][] = [];
  for (let i = Atomics.add(next, 0, 1); i < requests.length; i = Atomics.add(next, 0, 1))
    found.push([i, examineJournal(realDisk, root, requests[i]!, keys)]);
  return found;
}

/** A helper that fails contributes no results. */
const helper = (task: Task, { script, words }: { readonly script: URL; readonly words: readonly string[] }) =>
  new Promise<[number, JournalReport][]>((resolve) => {
    const worker = new Worker(script, { workerData: task, argv: [...words], stdout: true, stderr: true });
    worker.once('message', resolve);
    worker.once('error', () => resolve([]));
    worker.once('exit', () => resolve([]));
  });

const nameOf = ({ job, unit }: JournalToExamine): string => `${job}/${unit}`;

function sizeOf(root: string, requests: readonly JournalToExamine[]): number {
  let size = 0;
  for (const { job, unit } of requests) {
    const stat = realDisk.stat(join(logsFolder(root), job, `${unit}.jsonl`));
    /* v8 ignore next -- only a journal that is removed between two looks has no size */
    size += stat?.size ?? 0;
  }
  return size;
}
