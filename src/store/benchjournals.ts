/**
 * Journals that belong to no unit, one to a bench where several share a shop: benches/<bench>/setups.jsonl, daybook.jsonl,
 * signoff.jsonl and practice/<person>.jsonl. A bench by itself keeps them as logs/setups.jsonl, logs/daybook.jsonl,
 * practice/signoff.jsonl and practice/people/<person>.jsonl; what stands there from before a bench joined is read with the rest.
 */
import { join } from 'node:path';
import { err, ok, type Result } from '../base/problem.js';
import type { Message } from '../base/words.js';
import type { Envelope } from '../unit/events.js';
import { CARD_FILE } from './card.js';
import { type ChainLogOptions, readChainLog } from './chainlog.js';
import { type Disk, diskProblem } from './disk.js';
import { DAYBOOK, isFileName, SETUP_JOURNAL, SIGNOFF_JOURNAL } from './paths.js';

const FOLDER = 'benches';

/** Paths of all of them under the workshop, with `/`. */
export function benchJournals(disk: Disk, root: string): string[] {
  return list(disk, root, [FOLDER]).flatMap((bench) => {
    if (!isFileName(bench)) return [];
    const own = list(disk, root, [FOLDER, bench]).map((name) => `${FOLDER}/${bench}/${name}`);
    const practice = list(disk, root, [FOLDER, bench, 'practice']).map(
      (name) => `${FOLDER}/${bench}/practice/${name}`,
    );
    return [...own, ...practice].filter((path) => path.endsWith('.jsonl'));
  });
}

const ALONE = { setups: SETUP_JOURNAL, signoff: SIGNOFF_JOURNAL, daybook: DAYBOOK } as const;

/** Files of first-offs, of sign-offs or of the day book: that of a bench by itself, and those of the benches of a shop; whether there or not. */
export const workshopJournals = (disk: Disk, root: string, which: keyof typeof ALONE): string[] => [
  ALONE[which],
  ...benchJournals(disk, root).filter((path) => path.endsWith(`/${which}.jsonl`)),
];

/** Practice of one person at whatever bench. */
export const practiceJournals = (disk: Disk, root: string, person: string): string[] => [
  `practice/people/${person}.jsonl`,
  ...benchJournals(disk, root).filter((path) => path.endsWith(`/practice/${person}.jsonl`)),
];

/** Ids of people who have a practice journal at some bench. */
export const practisedAt = (disk: Disk, root: string): string[] =>
  benchJournals(disk, root).flatMap(
    (path) => /^benches\/[^/]+\/practice\/(.+)\.jsonl$/.exec(path)?.[1] ?? [],
  );

/** Where this bench writes: its own journal in a shop, the only one elsewhere. */
export const ownJournal = (
  disk: Disk,
  root: string,
  bench: string,
  alone: readonly string[],
  shared: readonly string[],
): readonly string[] => (isOfShop(disk, root) ? [FOLDER, bench, ...shared] : alone);

/** Whether the folder takes part in a shop. */
export const isOfShop = (disk: Disk, root: string): boolean =>
  disk.stat(join(root, ...CARD_FILE.split('/'))) !== undefined;

/** Where these journals are is looked up on the disk too: whatever it says is a problem, as from the journals themselves. */
export function tried<T>(file: string, doing: Message, run: () => Result<T>): Result<T> {
  try {
    return run();
  } catch (error) {
    return err(diskProblem(error, file, doing));
  }
}

/** The events of all these files, each file's in its own order, by their time. Fails with the first that fails. */
export function readMerged<E extends Envelope>(
  disk: Disk,
  root: string,
  files: readonly string[],
  wrongWith: ChainLogOptions['wrongWith'],
): Result<readonly E[]> {
  const queues: E[][] = [];
  for (const file of files) {
    const path = file.slice(0, -'.jsonl'.length).split('/');
    const read = readChainLog<E>(disk, root, { path, wrongWith });
    if (!read.ok) return read;
    if (read.value.length > 0) queues.push([...read.value]);
  }
  if (queues.length < 2) return ok(queues[0] ?? []);
  const merged: E[] = [];
  for (;;) {
    const next = queues.reduce<E[] | undefined>(
      (first, queue) => (queue[0] && (!first || queue[0].at < first[0]!.at) ? queue : first),
      undefined,
    );
    if (!next) return ok(merged);
    merged.push(next.shift()!);
  }
}

function list(disk: Disk, root: string, path: readonly string[]): readonly string[] {
  const folder = join(root, ...path);
  return disk.stat(folder)?.kind === 'folder' ? disk.list(folder) : [];
}
