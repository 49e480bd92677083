/** Workshop files of one kind, of which there may be many, by name: each is read when it is asked for, and once. */
import { bad, good, type Problem, type Result, type SourceText } from '../base/problem.js';
import type { Disk } from './disk.js';
import { raise } from './diskproblem.js';
import { listWorkshopFiles, readWorkshopFile } from './readfile.js';

/** A file read and checked, with its text as it stood (what is frozen). */
export interface Loaded<T> {
  readonly value: T;
  readonly source: SourceText;
}

/** One kind of workshop file of which there may be many, by name. */
export interface Shelf<T> {
  /** Names in order; a file's name is the name inside it. */
  readonly names: readonly string[];
  /** Read and checked when first asked for. */
  get(name: string): Result<Loaded<T>>;
  /** Its text as it stands on disk now, not looked into. */
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
  return parsed.ok ? good({ value: parsed.value, source: read.value }, parsed.warnings) : parsed;
}

export function shelf<T extends { readonly name: string }>(
  disk: Disk,
  root: string,
  folder: string,
  endings: readonly string[],
  parse: (source: SourceText) => Result<T>,
  passOver: (name: string) => boolean = () => false,
): Shelf<T> & { problems(): Problem[] } {
  const listed = listWorkshopFiles(disk, root, folder, endings);
  const files = new Map<string, string>();
  const twice: Problem[] = [];
  for (const { name, file } of listed.files) {
    if (passOver(name)) continue;
    const other = files.get(name);
    if (other !== undefined)
      twice.push(raise('workshop.twice', `${file} and ${other} have the same name.`, { file }));
    else files.set(name, file);
  }
  const kept = new Map<string, Result<Loaded<T>>>();
  const unknown = (name: string): Result<never> => {
    const known = files.size === 0 ? 'none' : [...files.keys()].join(', ');
    return bad(
      raise(
        'workshop.unknown',
        `There is no "${name}" in ${folder}.`,
        { file: folder },
        `There are: ${known}.`,
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
      return bad(
        raise('workshop.name', `The file holds "${loaded.value.value.name}", but is named for "${name}".`, {
          file,
        }),
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
