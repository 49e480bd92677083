/** Photos and other files that belong to an answer, kept by content as logs/<job>/evidence/<sha256>. */
import { basename, join } from 'node:path';
import type { Evidence } from '../build/events.js';
import { plain } from '../ground/plain.js';
import { bad, good, type Result } from '../ground/problem.js';
import type { Disk } from './disk.js';
import { diskProblem, raise } from './diskproblem.js';
import { hashBytes, makeFolders, writeWhole } from './files.js';
import { evidenceFolder, isFileName } from './paths.js';

export const LARGEST_EVIDENCE = 50_000_000;

/** Copies a file beside the job's journals, durable when it returns, and gives what the event holds of it: hash, name, bytes. */
export function keepEvidence(disk: Disk, root: string, job: string, path: string): Result<Evidence> {
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
    const sha256 = hashBytes(bytes);
    const kept = join(makeFolders(disk, root, ['logs', job, 'evidence']), sha256);
    if (disk.stat(kept)?.kind === 'file' && hashBytes(disk.read(kept)) === sha256)
      disk.flushFolder(evidenceFolder(root, job));
    else writeWhole(disk, kept, bytes);
    return good({ sha256, name: plain(basename(path)).slice(0, 200), bytes: bytes.length });
  } catch (error) {
    return bad(diskProblem(error, path, 'the evidence was kept'));
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
