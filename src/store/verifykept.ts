/** What journals name and what is kept by content, held against one another: frozen sources and evidence. */
import { join } from 'node:path';
import { type Place, type Problem, raiser } from '../base/problem.js';
import type { Evidence } from '../unit/events.js';
import type { Disk } from './disk.js';
import { diskProblem } from './diskproblem.js';
import { hashBytes } from './files.js';
import { VERIFY_MESSAGES } from './messages.js';
import { evidenceFolder, sourcesFolder } from './paths.js';

const raise = raiser(VERIFY_MESSAGES);

/** What journals name, with the places that name it, for the checks that follow. */
export interface Named {
  readonly sources: Map<string, Place>;
  /** Job, then hash. */
  readonly evidence: Map<string, Map<string, { readonly evidence: Evidence; readonly place: Place }>>;
}

/** @param whole also say what nobody names; gives how many were looked at */
export function verifySources(
  disk: Disk,
  root: string,
  named: Named,
  found: Problem[],
  whole: boolean,
): number {
  const folder = sourcesFolder(root);
  const there = new Set(disk.stat(folder) === undefined ? [] : entries(disk, folder, 'logs/sources', found));
  for (const [hash, place] of named.sources) {
    const file = `logs/sources/${hash}`;
    if (!there.has(hash)) {
      found.push(raise('verify.source-missing', `${file} is not there.`, place));
      continue;
    }
    const bytes = readOrdinary(disk, join(folder, hash), file, found);
    if (bytes !== undefined && hashBytes(bytes) !== hash)
      found.push(raise('verify.source-changed', 'The content is not what the name says.', { file }));
  }
  if (whole)
    for (const name of there)
      if (!named.sources.has(name) && !name.endsWith('.tmp'))
        found.push(
          raise('verify.source-unknown', 'No journal names this file.', { file: `logs/sources/${name}` }),
        );
  return named.sources.size;
}

/** Of one job; the same. */
export function verifyEvidence(
  disk: Disk,
  root: string,
  job: string,
  named: Named,
  found: Problem[],
  whole: boolean,
): number {
  const folder = evidenceFolder(root, job);
  const shown = `logs/${job}/evidence`;
  const there = new Set(disk.stat(folder) === undefined ? [] : entries(disk, folder, shown, found));
  const ofJob = named.evidence.get(job) ?? new Map<string, { evidence: Evidence; place: Place }>();
  for (const [hash, { evidence, place }] of ofJob) {
    if (!there.has(hash)) {
      found.push(raise('verify.evidence-missing', `"${evidence.name}" (${hash}) is not there.`, place));
      continue;
    }
    const bytes = readOrdinary(disk, join(folder, hash), `${shown}/${hash}`, found);
    if (bytes !== undefined && hashBytes(bytes) !== hash)
      found.push(
        raise('verify.evidence-changed', `"${evidence.name}" is not what its name says.`, {
          file: `${shown}/${hash}`,
        }),
      );
  }
  if (whole)
    for (const name of there)
      if (!ofJob.has(name) && !name.endsWith('.tmp'))
        found.push(
          raise('verify.evidence-unknown', 'No journal names this file.', { file: `${shown}/${name}` }),
        );
  return ofJob.size;
}

/** Reading for `verify`: what cannot be read is a finding like any other. */

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
