/**
 * A job as one plain ZIP file: its journals, evidence, seals, frozen sources, public keys, the format manual, documents
 * made for it, and MANIFEST, a hash list that `sha256sum -c` can check. The contents sit under the job's name, laid out
 * like a workshop, so an unpacked archive can be verified as one.
 */

import { join } from 'node:path';
import { unzipSync, type Zippable, zipSync } from 'fflate';
import { err, ok, type Result } from '../base/problem.js';
import type { Message } from '../base/words.js';
import { sha256 } from '../unit/chain.js';
import { type Evidence, type JournalEvent, textsNamed } from '../unit/events.js';
import { workshopJournals } from './benchjournals.js';
import { type Disk, diskProblem, StoreError, storeProblem } from './disk.js';
import { archivedName, hashNamed } from './evidencename.js';
import { evidencePath, namedInText } from './hashed.js';
import { isJobSeal } from './jobseal.js';
import { readEvents } from './journal.js';
import { listJournals } from './journals.js';
import { publicKeyFile, publicKeys } from './key.js';
import { namesFolder } from './names.js';
import { DAYBOOK, evidenceFolder, isFileName, logsFolder, SETUP_JOURNAL, sourcesFolder } from './paths.js';
import { readSetupLog } from './setups.js';
import { lockUnit, type UnitLock } from './unitlock.js';
import { storeWords } from './words.js';

/** A plain ZIP file tops out at 4 GB; memory runs out before that. */
export const LARGEST_ARCHIVE = 1_500_000_000;
const MOST_FILES = 60_000;
export const MANIFEST = 'MANIFEST';

/** In every archive, and never removed with a job. */
const isOfAllJobs = (file: string): boolean =>
  file === 'logs/README.md' ||
  file === SETUP_JOURNAL ||
  file === DAYBOOK ||
  /^benches\/[^/]+\/(setups|daybook)\.jsonl$/.test(file);

export type Files = Map<string, Uint8Array>;

/** All files the job's records depend on. Fails if a journal is damaged or a referenced file is missing. */
export function jobFiles(disk: Disk, root: string, job: string): Result<Files> {
  const files: Files = new Map();
  let size = 0;
  const take = (file: string, path: string): void => {
    const stat = disk.stat(path);
    if (stat?.kind !== 'file') throw new StoreError(storeProblem('archive.wanting', {}, { file }));
    size += stat.size;
    if (size > LARGEST_ARCHIVE || files.size >= MOST_FILES) throw new StoreError(tooLarge());
    files.set(file, disk.read(path));
  };
  try {
    const units = listJournals(disk, root).filter((each) => each.job === job);
    if (!isFileName(job) || units.length === 0) return err(storeProblem('archive.no-job', { job }));
    const sources = new Set<string>();
    const evidence = new Map<string, Evidence>();
    const keys = new Set<string>();
    for (const { unit } of units) {
      const read = readEvents(disk, root, job, unit);
      if (!read.ok) return read;
      named(read.value, sources, evidence, keys);
    }
    for (const name of disk.list(join(logsFolder(root), job))) {
      if (name === 'evidence' || /\.(lock|tmp|gone)$/.test(name)) continue;
      if (/\.jsonl(\.torn-\d+)?$/.test(name) || isJobSeal(name))
        take(`logs/${job}/${name}`, join(logsFolder(root), job, name));
    }
    for (const each of evidence.values())
      take(
        `logs/${job}/evidence/${archivedName(each)}`,
        evidencePath(disk, root, job, each.sha256) ?? join(evidenceFolder(root, job), each.sha256),
      );
    const names = new Set<string>();
    // A Set's iteration takes in what is added on the way.
    for (const hash of sources) {
      take(`logs/sources/${hash}`, join(sourcesFolder(root), hash));
      const inText = namedInText(files.get(`logs/sources/${hash}`)!);
      for (const each of inText.texts) sources.add(each);
      for (const each of inText.names) names.add(each.hash);
    }
    for (const hash of names) take(`logs/names/${hash}`, join(namesFolder(root), hash));
    // Include all of the workshop's public keys: the job may be sealed by a different bench than its units.
    for (const id of new Set([...keys, ...publicKeys(disk, root).keys.keys()]))
      if (disk.stat(join(root, publicKeyFile(id)))) take(publicKeyFile(id), join(root, publicKeyFile(id)));
    for (const name of [
      'logs/README.md',
      ...workshopJournals(disk, root, 'setups'),
      ...workshopJournals(disk, root, 'daybook'),
    ])
      if (disk.stat(join(root, ...name.split('/')))) take(name, join(root, ...name.split('/')));
    return ok(files);
  } catch (error) {
    return err(diskProblem(error, `logs/${job}`, storeWords('while-job-archived')));
  }
}

function named(
  events: readonly JournalEvent[],
  sources: Set<string>,
  evidence: Map<string, Evidence>,
  keys: Set<string>,
): void {
  for (const event of events) {
    for (const hash of textsNamed(event)) sources.add(hash);
    const kept = 'evidence' in event ? event.evidence : undefined;
    for (const each of kept ?? []) if (!evidence.has(each.sha256)) evidence.set(each.sha256, each);
    if (event.kind === 'sealed') keys.add(event.key);
  }
}

/** Builds the ZIP file including the manifest. Deterministic: same files, same bytes. */
export function packFiles(job: string, files: Files): Uint8Array {
  const all: [string, Uint8Array][] = [...files].sort(([a], [b]) => (a < b ? -1 : 1));
  const manifest = all.map(([name, bytes]) => `${sha256(bytes)}  ${name}\n`).join('');
  all.push([MANIFEST, Buffer.from(manifest)]);
  const tree: Zippable = {};
  for (const [name, bytes] of all) tree[`${job}/${name}`] = [bytes, { mtime: EPOCH, level: 6 }];
  return zipSync(tree);
}

/** Earliest timestamp a ZIP file can hold; ZIP timestamps are local time. */
const EPOCH = new Date(1980, 0, 1);

/**
 * Unpacks an archive and checks its manifest; paths are relative to the workshop. Path traversal, duplicate names and
 * oversized content are refused before anything is unpacked.
 */
export function unpackFiles(bytes: Uint8Array): Result<{ readonly job: string; readonly files: Files }> {
  const wrong = (fault: Message) => err(storeProblem('archive.damaged', { fault }));
  const seen = new Set<string>();
  let size = 0;
  let refused: Message | undefined;
  let unpacked: Record<string, Uint8Array>;
  try {
    unpacked = unzipSync(bytes, {
      filter: ({ name, originalSize }) => {
        size += originalSize;
        if (refused === undefined && !isInside(name)) refused = storeWords('archive-outside', { file: name });
        if (refused === undefined && seen.has(name)) refused = storeWords('archive-twice', { file: name });
        seen.add(name);
        if (refused === undefined && (size > mostOf(bytes) || seen.size > MOST_FILES))
          refused = storeWords('archive-more');
        return refused === undefined && !name.endsWith('/');
      },
    });
  } catch {
    return wrong(storeWords('archive-no-zip'));
  }
  if (refused !== undefined) return wrong(refused);
  const names = Object.keys(unpacked);
  const job = names[0]?.split('/')[0] ?? '';
  if (!isFileName(job) || names.some((name) => !name.startsWith(`${job}/`)))
    return wrong(storeWords('archive-no-job'));
  const files: Files = new Map(names.map((name) => [name.slice(job.length + 1), unpacked[name]!]));
  const problem = manifestProblem(files);
  return problem === undefined ? ok({ job, files }) : wrong(problem);
}

/** Zip-bomb limit. Journals compress about sixfold and pictures hardly at all, so far higher ratios are hostile. */
const mostOf = (packed: Uint8Array): number => Math.min(LARGEST_ARCHIVE, 10_000_000 + 30 * packed.length);

/** Plain relative names only. `__proto__` is refused because it cannot be an ordinary key of the result object. */
const isInside = (name: string): boolean =>
  !name.includes('\\') &&
  !name.includes('\0') &&
  !/^([a-zA-Z]:|\/)/.test(name) &&
  name
    .replace(/\/$/, '')
    .split('/')
    .every((part) => part !== '' && part !== '.' && part !== '..' && part !== '__proto__');

function manifestProblem(files: Files): Message | undefined {
  const manifest = files.get(MANIFEST);
  if (!manifest) return storeWords('archive-lacks', { file: MANIFEST });
  const listed = new Map<string, string>();
  for (const line of Buffer.from(manifest).toString('utf8').split('\n').slice(0, -1)) {
    const parts = /^([0-9a-f]{64}) {2}(.+)$/.exec(line);
    if (!parts) return storeWords('archive-unreadable', { file: MANIFEST });
    listed.set(parts[2]!, parts[1]!);
  }
  for (const [name, hash] of listed) {
    const content = files.get(name);
    if (!content) return storeWords('archive-not-there', { file: name, manifest: MANIFEST });
    if (sha256(content) !== hash) return storeWords('archive-other', { file: name, manifest: MANIFEST });
  }
  const extra = [...files.keys()].find((name) => name !== MANIFEST && !listed.has(name));
  return extra === undefined ? undefined : storeWords('archive-extra', { file: extra, manifest: MANIFEST });
}

const tooLarge = () =>
  storeProblem('archive.too-large', { largestArchive: LARGEST_ARCHIVE / 1e6, mostFiles: MOST_FILES });

// Removes a job from the workshop's logs once an archive holds identical copies.

/**
 * Removes the job's files under logs/ that `archived` holds byte for byte, and the frozen sources that no other journal
 * refers to. Removes nothing if a bench has one of the units open or if any file differs from the archive. Returns the
 * number of files removed.
 */
export function removeJob(disk: Disk, root: string, job: string, archived: Files): Result<number> {
  const claims: UnitLock[] = [];
  try {
    for (const { unit } of listJournals(disk, root).filter((each) => each.job === job)) {
      const claim = lockUnit(disk, root, job, unit, { bench: 'archive', who: '' });
      if (!claim.ok) return claim;
      claims.push(claim.value);
    }
    const now = jobFiles(disk, root, job);
    if (!now.ok) return now;
    const own = [...now.value].filter(([name]) => name.startsWith('logs/') && !isOfAllJobs(name));
    const other = own.find(([name, bytes]) => !holds(archived, name, bytes));
    if (other)
      return err(
        storeProblem(
          'archive.not-removed/file',
          {},
          {
            file: other[0],
          },
        ),
      );
    const kept = namedElsewhere(disk, root, job);
    if (!kept.ok) return kept;
    const gone = own.map(([name]) => name).filter((name) => !kept.value.has(name));
    // Seals first, then journals, so that whatever a crash leaves behind is still consistent.
    gone.sort((a, b) => rank(a) - rank(b));
    for (const name of gone) disk.unlink(pathOf(disk, root, job, name));
    for (const folder of new Set(gone.map((name) => name.slice(0, name.lastIndexOf('/')))))
      disk.flushFolder(join(root, ...folder.split('/')));
    return ok(gone.length);
  } catch (error) {
    return err(diskProblem(error, `logs/${job}`, storeWords('while-job-removed')));
  } finally {
    for (const claim of claims) claim.release();
  }
}

/** Where a file of the archive lies in the workshop. */
function pathOf(disk: Disk, root: string, job: string, name: string): string {
  const [, , folder, file] = name.split('/');
  const hash = folder === 'evidence' && file !== undefined ? hashNamed(file) : undefined;
  return (hash && evidencePath(disk, root, job, hash)) ?? join(root, ...name.split('/'));
}

function holds(archived: Files, name: string, bytes: Uint8Array): boolean {
  // Archives of earlier versions name evidence without an ending.
  const there = archived.get(name) ?? archived.get(name.replace(/(\/evidence\/[0-9a-f]{64})\..*$/, '$1'));
  return there !== undefined && Buffer.compare(there, bytes) === 0;
}

const rank = (name: string): number =>
  /job\.seal/.test(name) ? 0 : name.endsWith('.jsonl') ? 1 : /^logs\/(sources|names)\//.test(name) ? 3 : 2;

/** What other jobs and set-ups depend on. Fails if a journal cannot be read, so nothing is removed. */
function namedElsewhere(disk: Disk, root: string, job: string): Result<ReadonlySet<string>> {
  const texts = new Set<string>();
  const setups = readSetupLog(disk, root);
  if (!setups.ok) return setups;
  for (const event of setups.value) for (const hash of textsNamed(event)) texts.add(hash);
  for (const each of listJournals(disk, root)) {
    if (each.job === job) continue;
    const events = readEvents(disk, root, each.job, each.unit);
    if (!events.ok) return events;
    for (const event of events.value) for (const hash of textsNamed(event)) texts.add(hash);
  }
  const kept = new Set<string>();
  for (const hash of texts) {
    kept.add(`logs/sources/${hash}`);
    const path = join(sourcesFolder(root), hash);
    const inText = disk.stat(path)?.kind === 'file' ? namedInText(disk.read(path)) : undefined;
    for (const each of inText?.texts ?? []) texts.add(each);
    for (const each of inText?.names ?? []) kept.add(`logs/names/${each.hash}`);
  }
  return ok(kept);
}
