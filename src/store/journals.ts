/** Which journals there are. */
import { join } from 'node:path';
import type { Disk } from './disk.js';
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
