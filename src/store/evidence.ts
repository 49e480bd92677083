/** Photos and other files that belong to an answer, kept by content as logs/<job>/evidence/<sha256>. */
import { basename, join } from 'node:path';
import { bad, good, type Result } from '../base/problem.js';
import { plain } from '../base/text.js';
import type { Evidence } from '../unit/events.js';
import type { Disk } from './disk.js';
import { diskProblem, errorCode, raise, StoreError } from './diskproblem.js';
import { hashBytes, makeFolders, writeWhole } from './files.js';
import { evidenceFolder, isFileName } from './paths.js';

export const LARGEST_EVIDENCE = 50_000_000;

export interface FoundEvidence {
  /** What the event holds of it. */
  readonly evidence: Evidence;
  readonly bytes: Buffer;
}

/** Reads a file that an answer names, so that the answer can be decided before anything is kept of it. */
export function findEvidence(disk: Disk, job: string, path: string): Result<FoundEvidence> {
  if (!isFileName(job)) return bad(raise('journal.name', `"${job}" cannot be the name of a file.`));
  const refuse = (why: string) => bad(raise('evidence.refused', `The file ${why}.`, { file: path }));
  if (path.includes('\0')) return refuse('has a name that no file can have');
  try {
    const stat = disk.stat(path);
    if (stat === undefined) return refuse('is not there');
    if (stat.kind !== 'file') return refuse('is not an ordinary file');
    if (stat.size === 0) return refuse('is empty');
    if (stat.size > LARGEST_EVIDENCE) return refuse(`has ${stat.size} bytes; ${LARGEST_EVIDENCE} are taken`);
    const bytes = disk.read(path);
    const name = plain(basename(path)).slice(0, 200);
    return good({ bytes, evidence: { sha256: hashBytes(bytes), name, bytes: bytes.length } });
  } catch (error) {
    return bad(diskProblem(error, path, 'the evidence was read'));
  }
}

/** Copies it beside the job's journals, durable when it returns. Throws StoreError. */
export function keepFound(disk: Disk, root: string, job: string, found: FoundEvidence): void {
  const { sha256, name } = found.evidence;
  try {
    const kept = join(makeFolders(disk, root, ['logs', job, 'evidence']), sha256);
    if (disk.stat(kept)?.kind === 'file' && hashBytes(disk.read(kept)) === sha256)
      disk.flushFolder(evidenceFolder(root, job));
    else writeWhole(disk, kept, found.bytes);
  } catch (error) {
    throw new StoreError(diskProblem(error, name, 'the evidence was kept'), errorCode(error));
  }
}

/** The bytes of an evidence file, held against its hash. */
export function readEvidence(disk: Disk, root: string, job: string, evidence: Evidence): Result<Buffer> {
  const file = `logs/${job}/evidence/${evidence.sha256}`;
  const path = join(evidenceFolder(root, job), evidence.sha256);
  try {
    if (!isFileName(job) || !/^[0-9a-f]{64}$/.test(evidence.sha256) || disk.stat(path)?.kind !== 'file')
      return bad(raise('evidence.missing', `"${evidence.name}" is not there.`, { file }));
    const bytes = disk.read(path);
    return hashBytes(bytes) === evidence.sha256
      ? good(bytes)
      : bad(raise('evidence.changed', `"${evidence.name}" is not what it was when it was kept.`, { file }));
  } catch (error) {
    return bad(diskProblem(error, file, 'the evidence was read'));
  }
}
