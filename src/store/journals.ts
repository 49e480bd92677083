/** Which journals there are. */
import { join } from 'node:path';
import type { Disk } from './disk.js';
import { isFileName, logsFolder } from './paths.js';

/** Every unit's journal under logs/, by job and unit, in the order of their names. */
export function listJournals(disk: Disk, root: string): { readonly job: string; readonly unit: string }[] {
  const logs = logsFolder(root);
  if (disk.stat(logs)?.kind !== 'folder') return [];
  return disk
    .list(logs)
    .filter((job) => isFileName(job) && disk.stat(join(logs, job))?.kind === 'folder')
    .sort()
    .flatMap((job) =>
      disk
        .list(join(logs, job))
        .flatMap((file) => {
          const unit = /^(.+)\.jsonl$/.exec(file)?.[1];
          return unit !== undefined && isFileName(unit) ? [{ job, unit }] : [];
        })
        .sort((a, b) => (a.unit < b.unit ? -1 : 1)),
    );
}

/** Every journal with something in it, and a mark that is another one once it was written: nothing is read. */
export function journalMarks(
  disk: Disk,
  root: string,
): { readonly job: string; readonly unit: string; readonly mark: string }[] {
  const logs = logsFolder(root);
  if (disk.stat(logs)?.kind !== 'folder') return [];
  return disk.list(logs).flatMap((job) => {
    const folder = join(logs, job);
    if (!isFileName(job) || disk.stat(folder)?.kind !== 'folder') return [];
    return disk.list(folder).flatMap((file) => {
      if (!file.endsWith('.jsonl')) return [];
      const stat = disk.stat(`${folder}/${file}`);
      if (stat?.kind !== 'file' || stat.size === 0) return [];
      return [
        { job, unit: file.slice(0, -'.jsonl'.length), mark: `${stat.id}/${stat.size}/${stat.modifiedMs}` },
      ];
    });
  });
}
