/** Where the registers are, and how each ends. Reads the last line only: a register grows for years. */
import { join } from 'node:path';
import { dirname } from 'node:path/posix';
import { err, ok, type Result } from '../../base/problem.js';
import { checkLine } from '../../unit/chain.js';
import type { RegisterHead } from '../../unit/events.js';
import { type Disk, diskProblem, storeProblem } from '../disk.js';
import { notAFolder } from '../files.js';
import { isFileName, type JournalPlace } from '../paths.js';
import { storeWords } from '../words.js';

export const BENCHES = ['register', 'benches'] as const;
export const KEYS_FILE = 'register/keys.jsonl';

/** Far more than a bench writes in twenty years. */
export const LARGEST_REGISTER = 500_000_000;
/** Longer than most lines, and than nearly every one. */
const TAILS = [4_096, 65_536];

export const benchFile = (bench: string): string => `${BENCHES.join('/')}/${bench}.jsonl`;

export function benchPlace(root: string, bench: string): Result<JournalPlace> {
  return isFileName(bench)
    ? ok(placeOf(root, BENCHES, bench))
    : err(storeProblem('key.bench-name', { bench }));
}

export const keysPlace = (root: string): JournalPlace => placeOf(root, ['register'], 'keys');

function placeOf(root: string, folders: readonly string[], name: string): JournalPlace {
  const folder = join(root, ...folders);
  return {
    job: 'register',
    unit: name,
    folder,
    file: join(folder, `${name}.jsonl`),
    lock: join(folder, `${name}.lock`),
    shown: `${folders.join('/')}/${name}.jsonl`,
  };
}

/** Names of the benches that have a register. */
export function registered(disk: Disk, root: string): string[] {
  const folder = join(root, ...BENCHES);
  // A link is not followed: it may lead anywhere.
  if (disk.stat(join(root, 'register'))?.kind !== 'folder' || disk.stat(folder)?.kind !== 'folder') return [];
  return disk.list(folder).flatMap((file) => {
    const bench = /^(.+)\.jsonl$/.exec(file)?.[1];
    return bench !== undefined && isFileName(bench) ? [bench] : [];
  });
}

export interface RegisterEnd {
  /** 0 and no hash where there is no line yet. */
  readonly n: number;
  readonly hash?: string;
  /** The last line. */
  readonly entry?: Readonly<Record<string, unknown>>;
  /** Bytes of whole lines. */
  readonly bytes: number;
  /** A piece of a line behind them. */
  readonly torn?: Buffer;
}

type EndPlace = Pick<JournalPlace, 'file' | 'folder' | 'shown'>;

/** Of any file of chained lines. Undefined if there is none. A last line that is not whole is a problem. */
export function readEnd(disk: Disk, place: EndPlace): Result<RegisterEnd | undefined> {
  try {
    const above = disk.stat(place.folder);
    if (above !== undefined && above.kind !== 'folder') throw notAFolder(dirname(place.shown));
    const stat = disk.stat(place.file);
    if (stat === undefined) return ok(undefined);
    if (stat.kind !== 'file' || stat.size > LARGEST_REGISTER) throw notAFolder(place.shown);
    const { size } = stat;
    for (const length of TAILS) {
      if (length >= size) break;
      const bytes = disk.tail(place.file, length);
      const end = bytes.lastIndexOf(0x0a);
      if (end > 0 && bytes.lastIndexOf(0x0a, end - 1) >= 0) return endOf(bytes, size, place);
    }
    return endOf(disk.read(place.file), size, place);
  } catch (error) {
    return err(diskProblem(error, place.shown, storeWords('while-register-read')));
  }
}

/** @param bytes the last of the file, from some line's beginning or before */
function endOf(bytes: Buffer, size: number, place: EndPlace): Result<RegisterEnd> {
  const end = bytes.lastIndexOf(0x0a);
  const torn = bytes.subarray(end + 1);
  const whole = { bytes: size - torn.length, ...(torn.length > 0 ? { torn } : {}) };
  if (end < 0) return ok({ n: 0, ...whole });
  const line = checkLine(bytes.subarray(bytes.lastIndexOf(0x0a, end - 1) + 1, end).toString('utf8'));
  return line.whole
    ? ok({ n: line.event.n, hash: line.event.hash, entry: line.event, ...whole })
    : err(storeProblem('register.damaged/last', {}, { file: place.shown }));
}

/** How far a bench's register has come; undefined if there is none, or if it cannot be read. */
export function registerHeadOf(disk: Disk, root: string, bench: string): RegisterHead | undefined {
  const { n = 0, hash } = endOfBench(disk, root, bench) ?? {};
  return hash === undefined ? undefined : { bench, n, hash };
}

/** Undefined if the bench has no register, or it cannot be read. */
export function endOfBench(disk: Disk, root: string, bench: string): RegisterEnd | undefined {
  const place = benchPlace(root, bench);
  const end = place.ok ? readEnd(disk, place.value) : place;
  return end.ok ? end.value : undefined;
}

/** Of every bench. */
export const registerHeads = (disk: Disk, root: string): RegisterHead[] =>
  registered(disk, root).flatMap((bench) => registerHeadOf(disk, root, bench) ?? []);
