/** Listing journals and opening the jobs alone. */
import { join } from 'node:path';
import type { Problem } from '../base/problem.js';
import { type Job, parseJob } from '../window/job.js';
import type { Disk } from './disk.js';
import { type FileCollection, shelf } from './filecollection.js';
import { isFileName, logsFolder } from './paths.js';

/** Journals under logs/, of all jobs or of the `wanted` ones, sorted by job and unit. */
export function listJournals(
  disk: Disk,
  root: string,
  wanted: (job: string) => boolean = () => true,
): { readonly job: string; readonly unit: string }[] {
  return jobFolders(disk, root, wanted).flatMap((job) =>
    journalNames(disk, join(logsFolder(root), job)).flatMap((unit) =>
      isFileName(unit) ? [{ job, unit }] : [],
    ),
  );
}

/** Every non-empty journal in the same order, with a mark that changes on every write. Reads no journal. */
export function journalMarks(
  disk: Disk,
  root: string,
): { readonly job: string; readonly unit: string; readonly mark: string }[] {
  return jobFolders(disk, root, () => true).flatMap((job) => {
    const folder = join(logsFolder(root), job);
    return journalNames(disk, folder).flatMap((unit) => {
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
const journalNames = (disk: Disk, folder: string): string[] =>
  disk
    .list(folder)
    .filter((file) => file.endsWith(ENDING))
    .map((file) => file.slice(0, -ENDING.length))
    .sort();

// Only the jobs of a workshop, for callers that need no profile set, procedure or limits. The board reads nothing else.

export const jobShelf = (disk: Disk, root: string): FileCollection<Job> & { problems(): Problem[] } =>
  // Wrapped so that the job parser is loaded only when the first job is read.
  shelf(disk, root, 'shared/jobs', ['.yaml', '.yml', '.csv'], (source) => parseJob(source));

/** The workshop files that the board needs. */
export interface JobsOnly {
  readonly jobs: FileCollection<Job>;
  /** Source texts, to compare with those a started unit was built from. */
  readonly profileSets: Pick<FileCollection<unknown>, 'text'>;
  readonly procedures: Pick<FileCollection<unknown>, 'text'>;
}

/** Lists the jobs without reading any file. */
export function openJobs(root: string, disk: Disk): JobsOnly {
  return {
    jobs: jobShelf(disk, root),
    profileSets: shelf(disk, root, 'shared/profile-sets', YAML, never),
    procedures: shelf(disk, root, 'procedures', YAML, never),
  };
}

const YAML = ['.yaml', '.yml'];
const never = (): never => {
  throw new Error('only the text of this file was wanted');
};
