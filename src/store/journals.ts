/** Which journals there are. */
import { join } from 'node:path';
import type { Problem } from '../base/problem.js';
import { type Job, parseJob } from '../window/job.js';
import type { Disk } from './disk.js';
import { type FileCollection, shelf } from './filecollection.js';
import { isFileName, logsFolder } from './paths.js';

/** Every unit's journal under logs/, or those of some jobs, by job and unit, in the order of their names. */
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

/** Every journal with something in it, in the same order, and a mark that is another one once it was written: nothing is read. */
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

/** In the order of units, which is not that of their files: "P1" stands before "P1-1". */
const journalNames = (disk: Disk, folder: string): string[] =>
  disk
    .list(folder)
    .filter((file) => file.endsWith(ENDING))
    .map((file) => file.slice(0, -ENDING.length))
    .sort();

// The jobs of a workshop alone, for what needs no profile set, procedure or limits: the board reads nothing else of
// it.

export const jobShelf = (disk: Disk, root: string): FileCollection<Job> & { problems(): Problem[] } =>
  // Not named itself, so that what reads a job is loaded with the first that is read.
  shelf(disk, root, 'shared/jobs', ['.yaml', '.yml', '.csv'], (source) => parseJob(source));

/** What the board needs of a workshop's files. */
export interface JobsOnly {
  readonly jobs: FileCollection<Job>;
  /** Texts of what a job is built from, for telling whether they are those of a begun unit. */
  readonly profileSets: Pick<FileCollection<unknown>, 'text'>;
  readonly procedures: Pick<FileCollection<unknown>, 'text'>;
}

/** Opens the jobs without reading one; nothing of the workshop is looked into. */
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
