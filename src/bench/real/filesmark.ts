/** Tells whether any file that a workshop owns was changed, without reading one. */
import { join } from 'node:path';
import type { Disk } from '../../store/disk.js';

const FOLDERS = ['shared', 'shared/jobs', 'shared/profile-sets', 'procedures'];

/** A text that is another one when a workshop file was added, removed or written. */
export function filesMark(disk: Disk, root: string): string {
  const marks: string[] = [];
  for (const folder of FOLDERS) {
    try {
      for (const name of disk.list(join(root, folder))) {
        const stat = disk.stat(join(root, folder, name));
        if (stat?.kind === 'file') marks.push(`${folder}/${name} ${stat.id} ${stat.size} ${stat.modifiedMs}`);
      }
    } catch {
      // A folder that is not there holds nothing that could change; opening the workshop says what is missing.
      marks.push(`${folder} -`);
    }
  }
  return marks.join('\n');
}
