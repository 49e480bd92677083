/** Reading for `verify`: what cannot be read is a finding like any other. */

import { type Problem, raiser } from '../ground/problem.js';
import type { Disk } from './disk.js';
import { diskProblem } from './diskproblem.js';
import { VERIFY_MESSAGES } from './verifymessages.js';

const raise = raiser(VERIFY_MESSAGES);

export function entries(disk: Disk, path: string, shown: string, found: Problem[]): string[] {
  try {
    return disk.stat(path) === undefined ? [] : disk.list(path);
  } catch (error) {
    found.push(unreadable(error, shown));
    return [];
  }
}

export function readOrdinary(
  disk: Disk,
  path: string,
  file: string,
  found: Problem[],
  largest = Number.POSITIVE_INFINITY,
): Buffer | undefined {
  try {
    const stat = disk.stat(path);
    if (stat?.kind === 'file' && stat.size <= largest) return disk.read(path);
    const text = stat?.kind === 'file' ? `The file has ${stat.size} bytes.` : 'This is no ordinary file.';
    found.push(raise('verify.not-a-file', text, { file }));
  } catch (error) {
    found.push(unreadable(error, file));
  }
  return undefined;
}

const unreadable = (error: unknown, file: string): Problem =>
  raise('verify.unreadable', diskProblem(error, file, 'it was verified').text, { file });
