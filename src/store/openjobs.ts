/** The jobs of a workshop alone, for what needs no profile set, procedure or limits: the board reads nothing else of it. */
import type { Problem } from '../base/problem.js';
import { type Job, parseJob } from '../window/job.js';
import type { Disk } from './disk.js';
import { type Shelf, shelf } from './filecollection.js';

export const jobShelf = (disk: Disk, root: string): Shelf<Job> & { problems(): Problem[] } =>
  // Not named itself, so that what reads a job is loaded with the first that is read.
  shelf(disk, root, 'shared/jobs', ['.yaml', '.yml', '.csv'], (source) => parseJob(source));

/** What the board needs of a workshop's files. */
export interface JobsOnly {
  readonly jobs: Shelf<Job>;
  /** Texts of what a job is built from, for telling whether they are those of a begun unit. */
  readonly profileSets: Pick<Shelf<unknown>, 'text'>;
  readonly procedures: Pick<Shelf<unknown>, 'text'>;
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
