/** Everything that the registers know, held against what is there. */
import { join } from 'node:path';
import { type Problem, problemFactory } from '../../base/problem.js';
import type { Envelope } from '../../unit/events.js';
import { workshopJournals } from '../benchjournals.js';
import { readChained } from '../chained.js';
import { type Disk, isFileError } from '../disk.js';
import { LARGEST_JOURNAL } from '../journal.js';
import { chainProblems } from '../verifychained.js';
import { VERIFY_MESSAGES } from '../verifymessages.js';
import { type Expected, headProblem, type JournalNow } from './heads.js';
import type { Registers } from './registers.js';

const raise = problemFactory(VERIFY_MESSAGES);

/** Which journals are asked about; all where neither is given. */
interface Asked {
  readonly job?: string;
  readonly unit?: string;
}

/**
 * @param now journals of units as they were examined
 * @param seals of the jobs that were looked at: "JOB SHA-256"
 */
export function checkRegistered(
  disk: Disk,
  root: string,
  asked: Asked,
  { expected, seals: known, any }: Registers,
  now: ReadonlyMap<string, JournalNow | 'broken'>,
  seals: ReadonlySet<string>,
): Problem[] {
  const problems: Problem[] = [];
  for (const [file, heads] of expected) {
    if (!isAsked(file, asked)) continue;
    const found = isOfUnit(file) ? now.get(file) : lookedAt(disk, root, file, problems);
    const problem = found === 'broken' ? undefined : headProblem(file, heads, found);
    if (problem) problems.push(problem);
  }
  for (const [file, found] of now)
    if (any && found !== 'broken') problems.push(...behind(file, found, expected.get(file)));
  if (any && asked.job === undefined && asked.unit === undefined)
    problems.push(
      ...ofTheWorkshop(disk, root).flatMap((file) => notEntered(disk, root, file, expected.get(file))),
    );
  for (const { file, sha256, place } of known) {
    const job = file.split('/')[1]!;
    if (isAsked(file, asked) && !seals.has(`${job} ${sha256}`))
      problems.push(raise('verify.seal-gone', { job, place: place.file, line: place.line ?? 0 }, { file }));
  }
  return problems;
}

/** What cannot be listed is said with the set-ups. */
function ofTheWorkshop(disk: Disk, root: string): string[] {
  try {
    return (['setups', 'daybook', 'signoff'] as const).flatMap((which) =>
      workshopJournals(disk, root, which),
    );
  } catch (error) {
    if (!isFileError(error)) throw error;
    return [];
  }
}

function notEntered(disk: Disk, root: string, file: string, heads: readonly Expected[] = []): Problem[] {
  const now = lookedAt(disk, root, file, []);
  return now === undefined || now === 'broken' ? [] : behind(file, now, heads);
}

/** Lines that no register knows. */
function behind(file: string, { lines }: JournalNow, heads: readonly Expected[] = []): Problem[] {
  const known = heads.at(-1)?.events ?? 0;
  if (lines <= known) return [];
  const place = { file, line: known + 1 };
  return [
    known === 0
      ? raise('verify.not-entered', {}, place)
      : raise('verify.not-entered/behind', { known }, place),
  ];
}

const isOfUnit = (file: string): boolean => /^logs\/[^/]+\/[^/]+\.jsonl$/.test(file);

function isAsked(file: string, { job, unit }: Asked): boolean {
  if (job === undefined && unit === undefined) return true;
  const of = /^logs\/([^/]+)\/([^/]+)\.json/.exec(file);
  return !!of && (job === undefined || of[1] === job) && (unit === undefined || of[2] === unit);
}

/** A journal that belongs to no unit, read for this alone. What is wrong with that of the set-ups is said elsewhere. */
function lookedAt(
  disk: Disk,
  root: string,
  file: string,
  problems: Problem[],
): JournalNow | 'broken' | undefined {
  const place = { file: join(root, ...file.split('/')), shown: file };
  const read = readChained<Pick<Envelope, 'n' | 'hash'>>(disk, place, () => undefined, LARGEST_JOURNAL);
  if (!read) return undefined;
  if (!/(^|\/)(setups|daybook)\.jsonl$/.test(file)) problems.push(...chainProblems(read.faults, file));
  if (read.faults.some(({ kind }) => kind !== 'torn')) return 'broken';
  return { lines: read.lines, hashes: new Map(read.entries.map(({ n, hash }) => [n, hash])) };
}

/** An unpacked archive: it has the journals of one job, and no register. */
export const isUnpacked = (disk: Disk, root: string): boolean =>
  disk.stat(join(root, 'shared', 'workshop.yaml')) === undefined;
