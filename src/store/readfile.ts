/** Reading the files that people edit: only ordinary text files inside the workshop, refused by size before they are read. */
import { isUtf8 } from 'node:buffer';
import { join, relative, sep } from 'node:path';
import { bad, good, type Problem, type Result, type SourceText } from '../base/problem.js';
import type { Disk } from './disk.js';
import { diskProblem, raise } from './diskproblem.js';

const LARGEST_FILE = 2_000_000;

/** Reads one workshop file, `file` relative to the root with "/" between folders. */
export function readWorkshopFile(disk: Disk, root: string, file: string): Result<SourceText> {
  const path = join(root, ...file.split('/'));
  try {
    if (disk.stat(path) === undefined)
      return bad(raise('workshop.missing', `${file} is not there.`, { file }));
    const real = disk.real(path);
    if (!inside(disk.real(root), real))
      return bad(raise('workshop.outside', 'The file lies outside the workshop folder.', { file }));
    const stat = disk.stat(real)!;
    if (stat.kind !== 'file') return bad(raise('workshop.not-a-file', 'This is no ordinary file.', { file }));
    if (stat.size > LARGEST_FILE)
      return bad(
        raise('workshop.too-large', `The file has ${stat.size} bytes; ${LARGEST_FILE} are taken.`, { file }),
      );
    const bytes = disk.read(real);
    if (!isUtf8(bytes) || bytes.includes(0))
      return bad(raise('workshop.not-text', 'The file is not text in UTF-8.', { file }));
    return good({ file, text: bytes.toString('utf8').replace(/^\ufeff/, '') });
  } catch (error) {
    return bad(diskProblem(error, file, 'it was read'));
  }
}

/** Names of files with one of the endings in a folder of the workshop, without the ending; a folder that is not there has none. */
export function listWorkshopFiles(
  disk: Disk,
  root: string,
  folder: string,
  endings: readonly string[],
): {
  readonly files: readonly { readonly name: string; readonly file: string }[];
  readonly problem?: Problem;
} {
  const path = join(root, ...folder.split('/'));
  try {
    if (disk.stat(path) === undefined) return { files: [] };
    const files = disk.list(path).flatMap((entry) => {
      const ending = endings.find((each) => entry.toLowerCase().endsWith(each));
      if (ending === undefined || entry.startsWith('.')) return [];
      return [{ name: entry.slice(0, -ending.length), file: `${folder}/${entry}` }];
    });
    return { files };
  } catch (error) {
    return { files: [], problem: diskProblem(error, folder, 'its files were listed') };
  }
}

function inside(root: string, path: string): boolean {
  const way = relative(root, path);
  return way === '' || (way !== '..' && !way.startsWith(`..${sep}`) && !/^[A-Za-z]:|^[\\/]/.test(way));
}
