/**
 * What a command printed about the workshop's files, kept in logs/index/answers/, so that a script that asks again
 * before a file has changed does not wait for every file to be read, checked and worked out again.
 *
 * An answer is found by the SHA-256 of all that it can depend on: this build of the program, the command's words, and the
 * name and content of every file under procedures/ and shared/. So there is no moment at which an old one could be taken
 * for the new, and nothing to be said to make it go. It may be deleted at any time; journals and records never use it.
 */
import { createHash } from 'node:crypto';
import { existsSync } from 'node:fs';
import { join, resolve, sep } from 'node:path';
import { type Disk, realDisk } from '../store/disk.js';
import { attempt, hashBytes, makeFolders, writeWhole } from '../store/files.js';
import { EXIT, type Io } from './io.js';

declare const PINCHROD_BUILD: string;

const FORMAT = 'pinchrod-answer 1';
/** Where an answer's ground may stand. */
const ROOTS = ['procedures', 'shared'];
/** Above these it is quicker, or kinder to the disk, to work it out again. */
const MOST = { files: 2000, bytes: 32_000_000, answer: 4_000_000, answers: 64, depth: 6 };

interface Answer {
  readonly format: string;
  readonly code: number;
  readonly out: readonly string[];
  readonly err: readonly string[];
}

/** Without a build (the program run from its sources) nothing is kept. */
const thisBuild = (): string | undefined =>
  typeof PINCHROD_BUILD === 'undefined' ? undefined : PINCHROD_BUILD;

/**
 * Runs `work`, or says again what it said for the same words and files. `work` may depend on nothing else, and writes
 * nothing. Refusals (bad input, a failed disk) are not kept.
 */
export async function kept(
  io: Io,
  words: readonly string[],
  work: (io: Io) => Promise<number> | number,
  { disk = realDisk, build = thisBuild() }: { disk?: Disk; build?: string | undefined } = {},
): Promise<number> {
  const key = build === undefined ? undefined : keyOf(io.workshop, words, disk, build);
  if (key === undefined) return work(io);
  const folder = join(io.workshop, 'logs', 'index', 'answers');
  const file = join(folder, `${key}.json`);
  const known = recall(disk, file);
  if (known) {
    for (const text of known.out) io.out(text);
    for (const text of known.err) io.err(text);
    return known.code;
  }
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
  const lasts = code === EXIT.done || code === EXIT.doesNotHold;
  // A file changed meanwhile may have been read before or after.
  if (lasts && keyOf(io.workshop, words, disk, build!) === key)
    attempt(() => keep(disk, io.workshop, folder, file, { format: FORMAT, code, out, err }));
  return code;
}

/** Undefined where the answer may depend on more than the workshop's files, or on too much of them. */
function keyOf(workshop: string, words: readonly string[], disk: Disk, build: string): string | undefined {
  const inside = ROOTS.map((root) => join(workshop, root) + sep);
  // A word may be the path of a file elsewhere, or of one that is found before the workshop's of that name.
  const elsewhere = words
    .flatMap((word) => [resolve(word), resolve(workshop, word)])
    .some((path) => existsSync(path) && !inside.some((root) => path.startsWith(root)));
  if (elsewhere) return undefined;
  const files: [string, string][] = [];
  let bytes = 0;
  const add = (path: string, shown: string, depth: number): boolean =>
    disk.list(path).every((name) => {
      const stat = disk.stat(join(path, name));
      const next = `${shown}/${name}`;
      if (stat?.kind === 'folder') return depth < MOST.depth && add(join(path, name), next, depth + 1);
      if (stat?.kind !== 'file') return false;
      bytes += stat.size;
      if (bytes > MOST.bytes || files.length >= MOST.files) return false;
      files.push([next, hashBytes(disk.read(join(path, name)))]);
      return true;
    });
  let whole = false;
  attempt(() => {
    whole = ROOTS.every(
      (root) => disk.stat(join(workshop, root)) === undefined || add(join(workshop, root), root, 0),
    );
  });
  if (!whole) return undefined;
  const ground = JSON.stringify([FORMAT, build, words, files]);
  return createHash('sha256').update(ground).digest('hex');
}

function recall(disk: Disk, file: string): Answer | undefined {
  let answer: Answer | undefined;
  attempt(() => {
    if (disk.stat(file)?.kind !== 'file') return;
    const [sum, text] = disk
      .read(file)
      .toString('utf8')
      .split(/\n(.*)/s, 2);
    if (sum !== hashBytes(Buffer.from(text!))) return;
    const read = JSON.parse(text!) as Answer;
    if (read.format === FORMAT) answer = read;
  });
  return answer;
}

function keep(disk: Disk, workshop: string, folder: string, file: string, answer: Answer): void {
  const text = JSON.stringify(answer);
  if (text.length > MOST.answer || disk.stat(join(workshop, 'logs'))?.kind !== 'folder') return;
  makeFolders(disk, workshop, ['logs', 'index', 'answers']);
  const others = disk.list(folder).flatMap((name) => {
    const stat = disk.stat(join(folder, name));
    return stat?.kind === 'file' ? [{ path: join(folder, name), at: stat.modifiedMs }] : [];
  });
  others.sort((a, b) => b.at - a.at);
  for (const { path } of others.slice(MOST.answers - 1)) disk.unlink(path);
  writeWhole(disk, file, Buffer.from(`${hashBytes(Buffer.from(text))}\n${text}`));
}
