/** Workshop files of one kind, by name. Each is read on first use and cached. */

import { isUtf8 } from 'node:buffer';
import { join, relative, sep } from 'node:path';
import { nearest } from '../base/knownkeys.js';
import { err, ok, type Problem, type Result, type SourceText } from '../base/problem.js';
import { type Disk, diskProblem, storeProblem } from './disk.js';
import { storeWords } from './words.js';

/** A parsed file with its original text (the text that gets frozen). */
export interface Loaded<T> {
  readonly value: T;
  readonly source: SourceText;
}

export interface FileCollection<T> {
  /** In order; a file's name must match the name inside it. */
  readonly names: readonly string[];
  /** Reads and parses on first use. */
  get(name: string): Result<Loaded<T>>;
  /** Current text on disk, unparsed. */
  text(name: string): Result<SourceText>;
}

export function load<T>(
  disk: Disk,
  root: string,
  file: string,
  parse: (source: SourceText) => Result<T>,
): Result<Loaded<T>> {
  const read = readWorkshopFile(disk, root, file);
  if (!read.ok) return read;
  const parsed = parse(read.value);
  return parsed.ok ? ok({ value: parsed.value, source: read.value }, parsed.warnings) : parsed;
}

export function shelf<T extends { readonly name: string }>(
  disk: Disk,
  root: string,
  folder: string,
  endings: readonly string[],
  parse: (source: SourceText) => Result<T>,
  exclude: (name: string) => boolean = () => false,
): FileCollection<T> & { problems(): Problem[] } {
  const listed = listWorkshopFiles(disk, root, folder, endings);
  const files = new Map<string, string>();
  const twice: Problem[] = [];
  for (const { name, file } of listed.files) {
    if (exclude(name)) continue;
    const other = files.get(name);
    if (other !== undefined) twice.push(storeProblem('workshop.twice/have', { file, other }, { file }));
    else files.set(name, file);
  }
  const kept = new Map<string, Result<Loaded<T>>>();
  const unknown = (name: string): Result<never> => {
    const near = nearest(name, [...files.keys()]);
    return err(
      files.size === 0
        ? storeProblem('workshop.unknown/none', { name, folder }, { file: folder })
        : near === undefined
          ? storeProblem('workshop.unknown', { name, folder, known: [...files.keys()] }, { file: folder })
          : storeProblem(
              'workshop.unknown/near',
              { name, folder, near, known: [...files.keys()] },
              { file: folder },
            ),
    );
  };
  const text = (name: string): Result<SourceText> => {
    const file = files.get(name);
    return file === undefined ? unknown(name) : readWorkshopFile(disk, root, file);
  };
  const read = (name: string): Result<Loaded<T>> => {
    const file = files.get(name);
    if (file === undefined) return unknown(name);
    const loaded = load(disk, root, file, parse);
    if (loaded.ok && loaded.value.value.name !== name)
      return err(
        storeProblem(
          'workshop.name',
          { loaded: loaded.value.value.name, name },
          {
            file,
          },
        ),
      );
    return loaded;
  };
  const get = (name: string): Result<Loaded<T>> => {
    const before = kept.get(name);
    if (before) return before;
    const loaded = read(name);
    kept.set(name, loaded);
    return loaded;
  };
  const problems = (): Problem[] => [
    ...(listed.problem ? [listed.problem] : []),
    ...twice,
    ...[...files.keys()].flatMap((name) => {
      const result = get(name);
      return result.ok ? result.warnings : result.problems;
    }),
  ];
  return { names: [...files.keys()], get, text, problems };
}

// Reading files that people edit: only regular text files inside the workshop, with a size check before reading.

const LARGEST_FILE = 2_000_000;

/** Reads one workshop file; `file` is relative to the root, with "/" separators. */
export function readWorkshopFile(disk: Disk, root: string, file: string): Result<SourceText> {
  const path = join(root, ...file.split('/'));
  try {
    if (disk.stat(path) === undefined) return err(storeProblem('workshop.missing', {}, { file }));
    const real = disk.real(path);
    if (!inside(disk.real(root), real)) return err(storeProblem('workshop.outside', {}, { file }));
    const stat = disk.stat(real)!;
    if (stat.kind !== 'file') return err(storeProblem('workshop.not-a-file', {}, { file }));
    if (stat.size > LARGEST_FILE)
      return err(
        storeProblem(
          'workshop.too-large',
          { stat: stat.size, largestFile: LARGEST_FILE },
          {
            file,
          },
        ),
      );
    const bytes = disk.read(real);
    const text = textIn(file, bytes);
    return text === undefined ? err(storeProblem('workshop.not-text', {}, { file })) : ok({ file, text });
  } catch (error) {
    return err(diskProblem(error, file, storeWords('while-read')));
  }
}

/**
 * The text of a workshop file, in UTF-8; of a table also as spreadsheets save it under Windows. Undefined where it is none.
 */
export function textIn(file: string, bytes: Buffer): string | undefined {
  if (bytes.includes(0)) return undefined;
  if (isUtf8(bytes)) return bytes.toString('utf8').replace(/^\ufeff/, '');
  return file.toLowerCase().endsWith('.csv') ? new TextDecoder('windows-1252').decode(bytes) : undefined;
}

/** Names (without extension) of a folder's files with one of the endings; none if the folder is missing. */
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
    return { files: [], problem: diskProblem(error, folder, storeWords('while-files-listed')) };
  }
}

function inside(root: string, path: string): boolean {
  const way = relative(root, path);
  return way === '' || (way !== '..' && !way.startsWith(`..${sep}`) && !/^[A-Za-z]:|^[\\/]/.test(way));
}
