/** Branches of units that there are in this folder. */
import type { Disk } from './disk.js';
import { branchNamed, journalPlace } from './paths.js';

const ENDING = '.jsonl';

/** Of one unit, by their numbers. */
export function branchesOf(disk: Disk, root: string, job: string, unit: string): number[] {
  const place = journalPlace(root, job, unit);
  if (!place.ok || disk.stat(place.value.folder)?.kind !== 'folder') return [];
  return disk
    .list(place.value.folder)
    .flatMap((file) => {
      const branch = file.endsWith(ENDING) ? branchNamed(file.slice(0, -ENDING.length)) : undefined;
      return branch?.unit === unit ? [branch.number] : [];
    })
    .sort((a, b) => a - b);
}

/** The first number that no branch of the unit has. */
export const nextBranch = (disk: Disk, root: string, job: string, unit: string): number =>
  (branchesOf(disk, root, job, unit).at(-1) ?? 0) + 1;
