/**
 * Journals by the name that the shop has for them: `job/unit` and `job/unit~1`, or the path of one that belongs to no unit.
 * A name that comes from the server leads nowhere else.
 */
import { join } from 'node:path';
import { err, ok, type Result } from '../base/problem.js';
import { benchJournals } from '../store/benchjournals.js';
import { type Disk, storeProblem } from '../store/disk.js';
import { isFileName, type JournalPlace, journalPlace, logsFolder } from '../store/paths.js';

export interface LocalJournal {
  readonly journal: string;
  readonly place: JournalPlace;
  readonly size: number;
}

const ENDING = '.jsonl';
/** Journals in logs/ that are no unit's. */
const OF_LOGS: ReadonlySet<string> = new Set(['setups.jsonl', 'daybook.jsonl']);

/** Where the journal of this name is; a name that is none is a problem. */
export function placeNamed(root: string, journal: string): Result<JournalPlace> {
  const parts = journal.split('/');
  const [job = '', name = ''] = parts;
  if (parts.length === 2 && !name.endsWith(ENDING)) return journalPlace(root, job, name);
  const last = parts.at(-1)!;
  const path = [...parts.slice(0, -1), last.slice(0, -ENDING.length)];
  if (!last.endsWith(ENDING) || !path.every(isFileName) || !isShared(parts))
    return err(storeProblem('journal.name', { journal }));
  const folder = join(root, ...path.slice(0, -1));
  const unit = path.at(-1)!;
  return ok({
    job: path[0]!,
    unit,
    folder,
    file: join(folder, last),
    lock: join(folder, `${unit}.lock`),
    shown: journal,
  });
}

/** The name of the journal with this path under the workshop; undefined if it is none that a shop shares. */
export function journalNamed(file: string): string | undefined {
  const parts = file.split('/');
  const [top, job, name] = parts;
  if (top === 'logs' && parts.length === 3 && name!.endsWith(ENDING))
    return `${job}/${name!.slice(0, -ENDING.length)}`;
  return file.endsWith(ENDING) && isShared(parts) ? file : undefined;
}

const isShared = ([top, second, ...rest]: readonly string[]): boolean =>
  (top === 'register' &&
    (second === 'keys.jsonl' ? rest.length === 0 : second === 'benches' && rest.length === 1)) ||
  (top === 'logs' && OF_LOGS.has(second!) && rest.length === 0) ||
  (top === 'practice' &&
    (second === 'signoff.jsonl' ? rest.length === 0 : second === 'people' && rest.length === 1)) ||
  (top === 'benches' && rest.length >= 1 && rest.length <= 2);

/** Every journal of the folder. A folder that cannot be read stops only itself. */
export function localJournals(disk: Disk, root: string): LocalJournal[] {
  const files = [
    ...inFolder(disk, root, ['logs'])
      .filter((name) => OF_LOGS.has(name))
      .map((name) => `logs/${name}`),
    ...jobs(disk, root).flatMap((job) =>
      inFolder(disk, root, ['logs', job]).map((name) => `logs/${job}/${name}`),
    ),
    ...inFolder(disk, root, ['register']).map((name) => `register/${name}`),
    ...inFolder(disk, root, ['register', 'benches']).map((name) => `register/benches/${name}`),
    ...inFolder(disk, root, ['practice']).map((name) => `practice/${name}`),
    ...inFolder(disk, root, ['practice', 'people']).map((name) => `practice/people/${name}`),
    ...benchJournals(disk, root),
  ];
  return files.flatMap((file) => {
    const journal = file.endsWith(ENDING) ? journalNamed(file) : undefined;
    const place = journal === undefined ? undefined : placeNamed(root, journal);
    if (journal === undefined || !place?.ok) return [];
    const stat = disk.stat(place.value.file);
    return stat?.kind === 'file' && stat.size > 0 ? [{ journal, place: place.value, size: stat.size }] : [];
  });
}

function jobs(disk: Disk, root: string): readonly string[] {
  const logs = logsFolder(root);
  return inFolder(disk, root, ['logs']).filter(
    (name) => isFileName(name) && disk.stat(join(logs, name))?.kind === 'folder',
  );
}

function inFolder(disk: Disk, root: string, path: readonly string[]): readonly string[] {
  const folder = join(root, ...path);
  try {
    return disk.stat(folder)?.kind === 'folder' ? disk.list(folder) : [];
  } catch {
    return [];
  }
}
