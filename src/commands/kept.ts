/**
 * What a command printed about the workshop's files, kept in logs/index/answers/, so that a script that asks again
 * before a file has changed does not wait for every file to be read, checked and worked out again.
 *
 * An answer is found by the SHA-256 of all that it can depend on: this build of the program, the command's words, and the
 * name and content of every file that the command reads. So there is no moment at which an old one could be taken for the
 * new, and nothing to be said to make it go. It may be deleted at any time; journals and records never use it.
 */
import { createHash } from 'node:crypto';
import { existsSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { type Disk, realDisk } from '../store/disk.js';
import { attempt, hashBytes, makeFolders, writeSpare } from '../store/files.js';
import { EXIT, type Io } from './io.js';

declare const PINCHROD_BUILD: string;

const FORMAT = 'pinchrod-answer 1';
/** Above these it is quicker, or kinder to the disk, to work it out again. */
const MOST = { files: 2000, bytes: 32_000_000, answer: 4_000_000, answers: 64, depth: 6 };

interface Answer {
  readonly code: number;
  readonly out: readonly string[];
  readonly err: readonly string[];
}

/** Without a build (the program run from its sources) nothing is kept. */
const thisBuild = (): string | undefined =>
  typeof PINCHROD_BUILD === 'undefined' ? undefined : PINCHROD_BUILD;

/** The files on which an answer rests, and folders of them, from the workshop's root. */
export type Ground = readonly string[];

/** What the verbs rest on of which an answer is given again: all that they read, or an old one would be given. */
export const GROUNDS = {
  setout: ['shared/jobs', 'shared/profile-sets'],
  lint: ['procedures', 'shared'],
} as const satisfies Record<string, Ground>;

export interface Where {
  readonly disk?: Disk;
  readonly build?: string | undefined;
}

/**
 * Runs `work`, or says again what it said for the same words and ground. `work` may depend on nothing else, and writes
 * nothing. Refusals (bad input, a failed disk) are not kept.
 */
export async function kept(
  io: Io,
  words: readonly string[],
  ground: Ground,
  work: (io: Io) => Promise<number> | number,
  where: Where = {},
): Promise<number> {
  let said = false;
  const make = async () => {
    said = true;
    const out: string[] = [];
    const err: string[] = [];
    const code = await work({
      ...io,
      out: (text) => {
        out.push(text);
        io.out(text);
      },
      err: (text) => {
        err.push(text);
        io.err(text);
      },
    });
    return { value: { code, out, err }, lasts: code === EXIT.done || code === EXIT.doesNotHold };
  };
  const answer = await keptValue<Answer>(io.workshop, words, ground, make, where);
  if (!said) {
    for (const text of answer.out) io.out(text);
    for (const text of answer.err) io.err(text);
  }
  return answer.code;
}

/**
 * What `make` gives, or what it gave for the same words and ground, where that `lasts`. The value is kept as JSON, so it
 * holds nothing but data.
 */
export async function keptValue<T>(
  workshop: string,
  words: readonly string[],
  ground: Ground,
  make: () => Promise<{ readonly value: T; readonly lasts: boolean }>,
  { disk = realDisk, build = thisBuild() }: Where = {},
): Promise<T> {
  const keyNow = () => (build === undefined ? undefined : keyOf(workshop, words, ground, disk, build));
  const key = keyNow();
  if (key === undefined) return (await make()).value;
  const folder = join(workshop, 'logs', 'index', 'answers');
  const file = join(folder, `${key}.json`);
  const known = recall<T>(disk, file);
  if (known) return known.value;
  const { value, lasts } = await make();
  // A file changed meanwhile may have been read before or after.
  if (lasts && keyNow() === key)
    attempt(() => keep(disk, workshop, folder, file, JSON.stringify({ format: FORMAT, value })));
  return value;
}

/** Undefined where the answer may depend on more than its ground, or on too much of it. */
function keyOf(
  workshop: string,
  words: readonly string[],
  ground: Ground,
  disk: Disk,
  build: string,
): string | undefined {
  const files: [string, string][] = [];
  let bytes = 0;
  const add = (shown: string, depth: number): boolean => {
    const path = join(workshop, shown);
    const stat = disk.stat(path);
    if (stat === undefined) return true;
    if (stat.kind === 'folder')
      return depth < MOST.depth && disk.list(path).every((name) => add(`${shown}/${name}`, depth + 1));
    if (stat.kind !== 'file') return false;
    bytes += stat.size;
    if (bytes > MOST.bytes || files.length >= MOST.files) return false;
    files.push([shown, hashBytes(disk.read(path))]);
    return true;
  };
  let whole = false;
  attempt(() => {
    whole = ground.every((root) => add(root, 0));
  });
  if (!whole) return undefined;
  // A word may be the path of a file elsewhere, or of one that is found before the workshop's of that name.
  const own = new Set(files.map(([shown]) => resolve(workshop, shown)));
  const elsewhere = words
    .flatMap((word) => [resolve(word), resolve(workshop, word)])
    .some((path) => !own.has(path) && existsSync(path));
  if (elsewhere) return undefined;
  return createHash('sha256')
    .update(JSON.stringify([FORMAT, build, words, files]))
    .digest('hex');
}

function recall<T>(disk: Disk, file: string): { readonly value: T } | undefined {
  let found: { readonly value: T } | undefined;
  attempt(() => {
    if (disk.stat(file)?.kind !== 'file') return;
    const [sum, text] = disk
      .read(file)
      .toString('utf8')
      .split(/\n(.*)/s, 2);
    if (sum !== hashBytes(Buffer.from(text!))) return;
    const read = JSON.parse(text!) as { readonly format: string; readonly value: T };
    if (read.format === FORMAT) found = read;
  });
  return found;
}

function keep(disk: Disk, workshop: string, folder: string, file: string, text: string): void {
  if (text.length > MOST.answer || disk.stat(join(workshop, 'logs'))?.kind !== 'folder') return;
  makeFolders(disk, workshop, ['logs', 'index', 'answers']);
  const others = disk.list(folder).flatMap((name) => {
    const stat = disk.stat(join(folder, name));
    return stat?.kind === 'file' ? [{ path: join(folder, name), at: stat.modifiedMs }] : [];
  });
  others.sort((a, b) => b.at - a.at);
  for (const { path } of others.slice(MOST.answers - 1)) disk.unlink(path);
  writeSpare(disk, file, Buffer.from(`${hashBytes(Buffer.from(text))}\n${text}`));
}
