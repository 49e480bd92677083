/**
 * A workshop folder opened: the house rules, people, limits and instruments at once; profile sets, procedures and jobs
 * when they are asked for, each once. A broken job does not keep the bench from the others.
 */
import type { Person, WorkshopRules } from '../build/workshop.js';
import { bad, good, type Problem, type Result } from '../ground/problem.js';
import type { SourceText } from '../ground/sourcetext.js';
import { parseInstruments } from '../measure/instruments.js';
import { type LimitsFile, parseLimits } from '../measure/limits.js';
import type { Instrument } from '../measure/types.js';
import type { Procedure } from '../procedure/model.js';
import { parseProcedure } from '../procedure/parse.js';
import { type Job, parseJob } from '../window/job.js';
import { type ProfileSet, parseProfileSet } from '../window/profileset.js';
import type { Disk } from './disk.js';
import { raise } from './diskproblem.js';
import { type House, type Particulars, parseHouse } from './house.js';
import { parsePeople } from './people.js';
import { pinMatches } from './pin.js';
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
}

export interface Workshop {
  readonly root: string;
  readonly rules: WorkshopRules;
  readonly particulars: Particulars;
  /** Name of the bench by shared/workshop.yaml. */
  readonly bench: string;
  readonly instruments: readonly Instrument[];
  readonly limits: LimitsFile;
  /** Texts as they stood when the workshop was opened. */
  readonly sources: { readonly limits: SourceText; readonly instruments: SourceText };
  readonly profileSets: Shelf<ProfileSet>;
  readonly procedures: Shelf<Procedure>;
  readonly jobs: Shelf<Job>;
  /** Reads every file of the workshop and gives every problem, for `lint`. */
  problems(): Problem[];
}

export const HOUSE_FILE = 'shared/workshop.yaml';
export const PEOPLE_FILE = 'shared/people.yaml';
export const LIMITS_FILE = 'shared/limits.yaml';
export const INSTRUMENTS_FILE = 'shared/instruments.yaml';

/** Opens a workshop. Not ok where one of the four files that every workshop has cannot be used; then all their problems. */
export function openWorkshop(root: string, disk: Disk): Result<Workshop> {
  const house = load(disk, root, HOUSE_FILE, parseHouse);
  const people = load(disk, root, PEOPLE_FILE, parsePeople);
  const limits = load(disk, root, LIMITS_FILE, parseLimits);
  const instruments = load(disk, root, INSTRUMENTS_FILE, parseInstruments);
  if (!house.ok || !people.ok || !limits.ok || !instruments.ok)
    return bad(...[house, people, limits, instruments].flatMap((each) => (each.ok ? [] : each.problems)));
  const warnings = [house, people, limits, instruments].flatMap(({ warnings }) => warnings);

  const yaml = ['.yaml', '.yml'];
  const profileSets = shelf(disk, root, 'shared/profile-sets', yaml, parseProfileSet);
  const procedures = shelf(disk, root, 'procedures', yaml, parseProcedure, isTranslation);
  const jobs = shelf(disk, root, 'shared/jobs', [...yaml, '.csv'], parseJob);
  return good(
    {
      root,
      rules: rulesOf(house.value.value, people.value.value, limits.value.value),
      particulars: house.value.value.particulars,
      bench: house.value.value.bench,
      instruments: instruments.value.value,
      limits: limits.value.value,
      sources: { limits: limits.value.source, instruments: instruments.value.source },
      profileSets,
      procedures,
      jobs,
      problems: () => [...warnings, ...profileSets.problems(), ...procedures.problems(), ...jobs.problems()],
    },
    warnings,
  );
}

function rulesOf(house: House, people: readonly Person[], limits: LimitsFile): WorkshopRules {
  return { ...house.rules, people, limits, pinMatches };
}

function load<T>(
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

/** Second languages stand beside a procedure and are read with it: `casement.cy.yaml`. */
const isTranslation = (name: string): boolean => /\.[a-z]{2,3}$/.test(name);

function shelf<T extends { readonly name: string }>(
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
  const read = (name: string): Result<Loaded<T>> => {
    const file = files.get(name);
    if (file === undefined) {
      const known = files.size === 0 ? 'none' : [...files.keys()].join(', ');
      return bad(
        raise(
          'workshop.unknown',
          `There is no "${name}" in ${folder}.`,
          { file: folder },
          `There are: ${known}.`,
        ),
      );
    }
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
  return { names: [...files.keys()], get, problems };
}
