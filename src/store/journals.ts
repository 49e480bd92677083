/** Which journals there are. */
import { join } from 'node:path';
import type { Problem } from '../base/problem.js';
import { type Disk, diskProblem, isFileError } from './disk.js';
import { branchNamed, isFileName, logsFolder } from './paths.js';
import { storeWords } from './words.js';

/**
 * Journals under logs/, of all jobs or of the `wanted` ones, sorted by job and unit.
 * @param troubles takes folders that cannot be read, which then stop only themselves; without it the error is thrown
 */
export function listJournals(
  disk: Disk,
  root: string,
  wanted: (job: string) => boolean = () => true,
  troubles?: Problem[],
): { readonly job: string; readonly unit: string }[] {
  return jobFolders(disk, root, wanted).flatMap((job) =>
    journalNames(disk, root, job, troubles).flatMap((unit) => (isFileName(unit) ? [{ job, unit }] : [])),
  );
}

/** Every non-empty journal of a unit in the same order, with a mark that changes on every write. Reads no journal. */
export function journalMarks(
  disk: Disk,
  root: string,
  troubles?: Problem[],
): { readonly job: string; readonly unit: string; readonly mark: string }[] {
  return jobFolders(disk, root, () => true).flatMap((job) => {
    const folder = join(logsFolder(root), job);
    return journalNames(disk, root, job, troubles).flatMap((unit) => {
      if (branchNamed(unit)) return [];
      const stat = disk.stat(`${folder}/${unit}${ENDING}`);
      if (stat?.kind !== 'file' || stat.size === 0) return [];
      return [{ job, unit, mark: `${stat.id}/${stat.size}/${stat.modifiedMs}` }];
    });
  });
}

const ENDING = '.jsonl';

function jobFolders(disk: Disk, root: string, wanted: (job: string) => boolean): string[] {
  const logs = logsFolder(root);
  if (disk.stat(logs)?.kind !== 'folder') return [];
  return disk
    .list(logs)
    .filter((name) => isFileName(name) && wanted(name) && disk.stat(join(logs, name))?.kind === 'folder');
}

/** Sorted by unit, not by file name: "P1" comes before "P1-1". */
function journalNames(
  disk: Disk,
  root: string,
  job: string,
  troubles: Problem[] | undefined,
): readonly string[] {
  let files: readonly string[];
  try {
    files = disk.list(join(logsFolder(root), job));
  } catch (error) {
    if (!troubles || !isFileError(error)) throw error;
    troubles.push(diskProblem(error, `logs/${job}`, storeWords('while-journals-listed')));
    return [];
  }
  return files
    .filter((file) => file.endsWith(ENDING))
    .map((file) => file.slice(0, -ENDING.length))
    .sort();
}
