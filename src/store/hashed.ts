/** Content-addressed files: the frozen sources that units are built from, and evidence. */
import { basename, join } from 'node:path';
import { err, ok, type Problem, type Result } from '../base/problem.js';
import { sanitize } from '../base/text.js';
import { type Evidence, textsNamed } from '../unit/events.js';
import { readFirstOff } from '../unit/firstoff.js';
import { readTeam } from '../unit/team.js';
import { type Disk, diskProblem, errorCode, StoreError, storeProblem } from './disk.js';
import { hashNamed } from './evidencename.js';
import { hashBytes, makeFolders, writeWhole } from './files.js';
import { evidenceFolder, isFileName, sourcesFolder } from './paths.js';
import { storeWords } from './words.js';

const HASH = /^[0-9a-f]{64}$/;

/** Freezes texts by kind (`procedure`, `job`, `limits` …); returns hashes for `opened`. Durable. Throws StoreError. */
export function pinSources(
  disk: Disk,
  root: string,
  texts: Readonly<Record<string, string>>,
): Record<string, string> {
  const hashes: Record<string, string> = {};
  let shown = 'logs/sources';
  try {
    const folder = makeFolders(disk, root, ['logs', 'sources']);
    for (const [kind, text] of Object.entries(texts)) {
      const bytes = Buffer.from(text, 'utf8');
      const hash = hashBytes(bytes);
      hashes[kind] = hash;
      shown = `logs/sources/${hash}`;
      if (!keptAlready(disk, join(folder, hash), hash)) writeWhole(disk, join(folder, hash), bytes);
    }
    disk.flushFolder(folder);
  } catch (error) {
    throw new StoreError(diskProblem(error, shown, storeWords('while-unit-built-frozen')));
  }
  return hashes;
}

/** A damaged copy does not count: we have the full text, and rewriting it repairs what `verify` would report. */
const keptAlready = (disk: Disk, path: string, hash: string): boolean =>
  disk.stat(path)?.kind === 'file' && hashBytes(disk.read(path)) === hash;

/** Reads one frozen text and checks it against its hash. */
export function readSource(disk: Disk, root: string, hash: string): Result<string> {
  const file = `logs/sources/${hash}`;
  try {
    const bytes = HASH.test(hash) ? readIfThere(disk, join(sourcesFolder(root), hash)) : undefined;
    if (bytes === undefined) return err(storeProblem('source.missing/other1', { file }, { file }));
    const problem = changed(bytes, hash, file);
    return problem ? err(problem) : ok(bytes.toString('utf8'));
  } catch (error) {
    return err(diskProblem(error, file, storeWords('while-frozen-source-read')));
  }
}

const readIfThere = (disk: Disk, path: string): Buffer | undefined =>
  disk.stat(path)?.kind === 'file' ? disk.read(path) : undefined;

const changed = (bytes: Buffer, hash: string, file: string): Problem | undefined =>
  hashBytes(bytes) === hash
    ? undefined
    : storeProblem(
        'source.changed',
        {},
        {
          file,
        },
      );

/** What a kept text names in turn: names of people, and of a first-off what it rests on. */
export interface NamedInText {
  readonly texts: readonly string[];
  /** Files of names, and whose. */
  readonly names: readonly { readonly id: string; readonly hash: string }[];
  /** The first-off of a set-up, as it stands in the set-ups' journal. */
  readonly firstOff?: { readonly n: number; readonly hash: string };
}

const NAMES_NOTHING: NamedInText = { texts: [], names: [] };
/** Larger texts are procedures, profile sets and set-outs. */
const LARGEST_LINE = 100_000;

export function namedInText(bytes: Uint8Array): NamedInText {
  if (bytes[0] !== OPENING_BRACE || bytes.length > LARGEST_LINE) return NAMES_NOTHING;
  const text = Buffer.from(bytes).toString('utf8');
  const team = readTeam(text);
  if (team) return { texts: [], names: team.people.map(({ id, name }) => ({ id, hash: name })) };
  const firstOff = readFirstOff(text);
  return firstOff
    ? { texts: textsNamed(firstOff), names: [], firstOff: { n: firstOff.n, hash: firstOff.hash } }
    : NAMES_NOTHING;
}

const OPENING_BRACE = 0x7b;

// Photos and other files attached to an answer, stored by content as logs/<job>/evidence/<sha256>.

export const LARGEST_EVIDENCE = 50_000_000;

export interface FoundEvidence {
  readonly evidence: Evidence;
  readonly bytes: Buffer;
}

/** Reads a file named by an answer, so the answer can be decided before any copy is kept. */
export function findEvidence(disk: Disk, job: string, path: string): Result<FoundEvidence> {
  if (!isFileName(job)) return err(storeProblem('journal.name/cannot-name', { job }));
  if (path.includes('\0')) return err(storeProblem('evidence.refused', {}, { file: path }));
  try {
    const stat = disk.stat(path);
    if (stat === undefined) return err(storeProblem('evidence.refused/gone', {}, { file: path }));
    if (stat.kind !== 'file') return err(storeProblem('evidence.refused/no-file', {}, { file: path }));
    if (stat.size === 0) return err(storeProblem('evidence.refused/empty', {}, { file: path }));
    if (stat.size > LARGEST_EVIDENCE)
      return err(
        storeProblem('evidence.refused/large', { bytes: stat.size, most: LARGEST_EVIDENCE }, { file: path }),
      );
    const bytes = disk.read(path);
    const name = sanitize(basename(path)).slice(0, 200);
    return ok({ bytes, evidence: { sha256: hashBytes(bytes), name, bytes: bytes.length } });
  } catch (error) {
    return err(diskProblem(error, path, storeWords('while-evidence-read')));
  }
}

/** Copies it next to the job's journals; durable on return. Throws StoreError. */
export function keepFound(disk: Disk, root: string, job: string, found: FoundEvidence): void {
  const { sha256, name } = found.evidence;
  try {
    const kept = join(makeFolders(disk, root, ['logs', job, 'evidence']), sha256);
    if (disk.stat(kept)?.kind === 'file' && hashBytes(disk.read(kept)) === sha256)
      disk.flushFolder(evidenceFolder(root, job));
    else writeWhole(disk, kept, found.bytes);
  } catch (error) {
    throw new StoreError(diskProblem(error, name, storeWords('while-evidence-kept')), errorCode(error));
  }
}

/** The file with that hash: by the hash alone, or with the ending that an unpacked archive gives it. */
export function evidencePath(disk: Disk, root: string, job: string, hash: string): string | undefined {
  const folder = evidenceFolder(root, job);
  if (disk.stat(join(folder, hash))?.kind === 'file') return join(folder, hash);
  if (disk.stat(folder)?.kind !== 'folder') return undefined;
  const named = disk.list(folder).find((name) => hashNamed(name) === hash);
  return named !== undefined && disk.stat(join(folder, named))?.kind === 'file'
    ? join(folder, named)
    : undefined;
}

/** Reads an evidence file and checks it against its hash. */
export function readEvidence(disk: Disk, root: string, job: string, evidence: Evidence): Result<Buffer> {
  const file = `logs/${job}/evidence/${evidence.sha256}`;
  try {
    const path =
      isFileName(job) && HASH.test(evidence.sha256)
        ? evidencePath(disk, root, job, evidence.sha256)
        : undefined;
    if (path === undefined)
      return err(storeProblem('evidence.missing', { evidence: evidence.name }, { file }));
    const bytes = disk.read(path);
    return hashBytes(bytes) === evidence.sha256
      ? ok(bytes)
      : err(
          storeProblem(
            'evidence.changed',
            { evidence: evidence.name },
            {
              file,
            },
          ),
        );
  } catch (error) {
    return err(diskProblem(error, file, storeWords('while-evidence-read')));
  }
}
