/** The jobs of a workshop alone, for callers that need no profile set, procedure or limits. The board reads nothing else. */
import type { Problem } from '../base/problem.js';
import { type Job, parseJob } from '../window/job.js';
import type { Disk } from './disk.js';
import { type FileCollection, shelf } from './filecollection.js';

export const jobShelf = (disk: Disk, root: string): FileCollection<Job> & { problems(): Problem[] } =>
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

// Only the jobs of a workshop, for callers that need no profile set, procedure or limits. The board reads nothing else.
const YAML = ['.yaml', '.yml'];

// Only the jobs of a workshop, for callers that need no profile set, procedure or limits. The board reads nothing else.
const never = (): never => {
  throw new Error('only the text of this file was wanted');
};
