/** Where the workshop that comes with the program stands: the folder of its package. */
import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { bad, good, type Result } from '../ground/problem.js';
import { raise } from './diskproblem.js';

/** The package's folder, whether the program runs bundled from dist/ or from src/. */
export function shippedFolder(from: string = dirname(fileURLToPath(import.meta.url))): Result<string> {
  for (let folder = from; ; folder = dirname(folder)) {
    if (packageName(folder) === 'pinchrod') return good(folder);
    if (dirname(folder) === folder)
      return bad(raise('init.no-source', 'The folder of the program holds no workshop.'));
  }
}

function packageName(folder: string): unknown {
  try {
    return (JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')) as { name?: unknown }).name;
  } catch {
    return undefined;
  }
}
