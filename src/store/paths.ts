/** Where things are in a workshop. Names taken from files cannot lead outside it. */
import { join } from 'node:path';
import { err, ok, type Result } from '../base/problem.js';
import { isName } from '../base/text.js';

import { storeProblem } from './disk.js';

export const logsFolder = (root: string): string => join(root, 'logs');
/** First-offs of the workshop's set-ups, as problems and registers name it. */
export const SETUP_JOURNAL = 'logs/setups.jsonl';
export const DAYBOOK = 'logs/daybook.jsonl';
export const SIGNOFF_JOURNAL = 'practice/signoff.jsonl';
export const sourcesFolder = (root: string): string => join(root, 'logs', 'sources');
export const evidenceFolder = (root: string, job: string): string => join(root, 'logs', job, 'evidence');

/** Device names on Windows, whatever their extension. */
const DEVICE = /^(con|prn|aux|nul|com[0-9]|lpt[0-9])(\.|$)/i;
/** Folders under logs/ and logs/<job>/ that are not jobs or units. */
const RESERVED = new Set(['sources', 'evidence', 'index', 'names']);

/** Whether a text can be a job or unit name, and so a file or folder name on every system. */
export const isFileName = (text: string): boolean =>
  isName(text) && !DEVICE.test(text) && !text.endsWith('.') && !RESERVED.has(text.toLowerCase());

export interface JournalPlace {
  readonly job: string;
  readonly unit: string;
  /** logs/<job> */
  readonly folder: string;
  readonly file: string;
  readonly lock: string;
  /** The file as problems name it. */
  readonly shown: string;
}

/**
 * A branch, logs/<job>/<unit>~<N>.jsonl: what a bench gave on a unit that another had taken over meanwhile, whole, from the
 * unit's first line. It counts for nothing by itself. No unit's name holds the mark.
 */
const BRANCH = /^(.+)~([1-9][0-9]{0,5})$/;

/** "P02-1~1" as unit and number; undefined if it is no branch's name. */
export function branchNamed(name: string): { readonly unit: string; readonly number: number } | undefined {
  const [, unit, number] = BRANCH.exec(name) ?? [];
  return unit === undefined || !isFileName(unit) ? undefined : { unit, number: Number(number) };
}

export const branchName = (unit: string, number: number): string => `${unit}~${number}`;

/** @param unit the name of a unit, or of a branch of one */
export function journalPlace(root: string, job: string, unit: string): Result<JournalPlace> {
  for (const text of [job, branchNamed(unit)?.unit ?? unit])
    if (!isFileName(text)) return err(storeProblem('journal.name/cannot-name-file', { text }));
  const folder = join(logsFolder(root), job);
  return ok({
    job,
    unit,
    folder,
    file: join(folder, `${unit}.jsonl`),
    lock: join(folder, `${unit}.lock`),
    shown: `logs/${job}/${unit}.jsonl`,
  });
}
