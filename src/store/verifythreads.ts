/**
 * Large logs looked at by several threads. This thread and its helpers take one journal after the other from one list;
 * what they found is put together in the order of the names, so it is what one thread alone would say.
 */
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { parentPort, Worker, workerData } from 'node:worker_threads';
import { realDisk } from './disk.js';
import { publicKeys } from './key.js';
import { logsFolder } from './paths.js';
import { type VerifyReport, type VerifyWish, verifyTree, wishedJournals } from './verify.js';
import { examineJournal, type JournalReport, type JournalWish } from './verifyjournal.js';

/** Below this a helper costs more than it saves: it starts in about the time that one thread takes for so many bytes. */
const WORTH_IT = 12_000_000;
const MOST_THREADS = 8;

interface Task {
  readonly verify: { readonly root: string; readonly wishes: readonly JournalWish[] };
  /** How many of the wishes are taken. */
  readonly taken: SharedArrayBuffer;
}

/**
 * `verifyTree` on the real disk.
 *
 * @param program a script that calls `helpVerify` when it runs as a thread with `words`
 */
export async function verifyInThreads(
  root: string,
  wish: VerifyWish,
  program: { readonly script: URL; readonly words: readonly string[] },
  { threads = Math.min(availableParallelism(), MOST_THREADS), worthIt = WORTH_IT } = {},
): Promise<VerifyReport> {
  const wishes = wishedJournals(realDisk, root, wish);
  if (threads < 2 || wishes.length < 2 || sizeOf(root, wishes) < worthIt)
    return verifyTree(realDisk, root, wish);
  const task: Task = { verify: { root, wishes }, taken: new SharedArrayBuffer(4) };
  const helpers = Array.from({ length: Math.min(threads, wishes.length) - 1 }, () => helper(task, program));
  const found = new Map(examineSome(task));
  for (const reports of await Promise.all(helpers)) for (const [i, report] of reports) found.set(i, report);
  const byName = new Map([...found].map(([i, report]) => [nameOf(wishes[i]!), report]));
  // What a helper took and never answered for is looked at here.
  return verifyTree(
    realDisk,
    root,
    wish,
    (each, keys) => byName.get(nameOf(each)) ?? examineJournal(realDisk, root, each, keys),
  );
}

/** In a helper's thread: takes its share and sends it. Does nothing, and says so, in any other. */
export function helpVerify(): boolean {
  const task = workerData as Task | null;
  /* v8 ignore start -- tests/store/threads.test.ts starts it in a thread of its own, whose lines nothing counts */
  if (!parentPort || !task?.verify) return false;
  parentPort.postMessage(examineSome(task));
  return true;
  /* v8 ignore stop */
}

function examineSome({ verify: { root, wishes }, taken }: Task): [number, JournalReport][] {
  const { keys } = publicKeys(realDisk, root);
  const next = new Int32Array(taken);
  const found: [number, JournalReport][] = [];
  for (let i = Atomics.add(next, 0, 1); i < wishes.length; i = Atomics.add(next, 0, 1))
    found.push([i, examineJournal(realDisk, root, wishes[i]!, keys)]);
  return found;
}

/** A helper that fails has found nothing. */
const helper = (task: Task, { script, words }: { readonly script: URL; readonly words: readonly string[] }) =>
  new Promise<[number, JournalReport][]>((resolve) => {
    const worker = new Worker(script, { workerData: task, argv: [...words], stdout: true, stderr: true });
    worker.once('message', resolve);
    worker.once('error', () => resolve([]));
    worker.once('exit', () => resolve([]));
  });

const nameOf = ({ job, unit }: JournalWish): string => `${job}/${unit}`;

function sizeOf(root: string, wishes: readonly JournalWish[]): number {
  let size = 0;
  for (const { job, unit } of wishes) {
    const stat = realDisk.stat(join(logsFolder(root), job, `${unit}.jsonl`));
    /* v8 ignore next -- only a journal that is removed between two looks has no size */
    size += stat?.size ?? 0;
  }
  return size;
}
