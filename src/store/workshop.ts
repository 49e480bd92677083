/** An open workshop. Profile sets, procedures and jobs load on demand, once each; a broken job blocks no other. */
import { err, ok, type Problem, type Result, type SourceText } from '../base/problem.js';
import { parseInstruments } from '../measure/instruments.js';
import { type LimitsFile, parseLimits } from '../measure/limits.js';
import type { Instrument } from '../measure/types.js';
import type { Procedure } from '../procedure/model.js';
import { parseProcedure } from '../procedure/parse.js';
import type { SetupRule } from '../unit/setups.js';
import type { Person, WorkshopRules } from '../unit/types.js';
import type { Job } from '../window/job.js';
import { type ProfileSet, parseProfileSet } from '../window/profileset.js';
import { type Card, readCard } from './card.js';
import {
  type CompanyParticulars,
  type House,
  parseHouse,
  parsePeople,
  type ShopRule,
  UNSTATED_PARTICULARS,
} from './company.js';
import type { Disk } from './disk.js';
import { type FileCollection, type Loaded, load, readWorkshopFile, shelf } from './filecollection.js';
import { jobShelf } from './jobs.js';
import { logsFolder } from './paths.js';
import { pinMatches, readPins, withPins } from './pins.js';
import { parseSetups } from './setups.js';
import { isTranslation, type ProcedureTranslations, translations } from './translations.js';

export interface Workshop {
  readonly root: string;
  readonly rules: WorkshopRules;
  readonly particulars: CompanyParticulars;
  /** Files that cannot be used, where that was let pass. */
  readonly troubles: readonly Problem[];
  /** Bench name: as the folder takes part in a shop, or from shared/workshop.yaml. */
  readonly bench: string;
  /** IANA name of the zone of the clock on the wall; undefined: that of the machine. */
  readonly zone?: string | undefined;
  /** The shop of several benches that the folder takes part in. */
  readonly card?: Card;
  readonly shop: ShopRule;
  readonly instruments: readonly Instrument[];
  readonly limits: LimitsFile;
  /** Set-ups proven on first-offs; absent if the workshop has no such file and so requires none. */
  readonly setups?: readonly SetupRule[];
  /** Texts as of opening the workshop. */
  readonly sources: {
    readonly limits: SourceText;
    readonly instruments: SourceText;
    readonly house: SourceText;
  };
  readonly profileSets: FileCollection<ProfileSet>;
  readonly procedures: FileCollection<Procedure>;
  readonly translations: ProcedureTranslations;
  readonly jobs: FileCollection<Job>;
  /** Reads every file of the workshop and returns all problems, for `lint`. */
  problems(): Problem[];
}

export const HOUSE_FILE = 'shared/workshop.yaml';
export const PEOPLE_FILE = 'shared/people.yaml';
const LIMITS_FILE = 'shared/limits.yaml';
const INSTRUMENTS_FILE = 'shared/instruments.yaml';
export const SETUPS_FILE = 'shared/setups.yaml';

/**
 * Fails if a mandatory file is unusable. `back`: for looking back, which needs today's files only for what units do not keep;
 * unusable ones are then `troubles`, with nothing in their place.
 */
export function openWorkshop(root: string, disk: Disk, { back = false } = {}): Result<Workshop> {
  const troubles: Problem[] = [];
  const opened = <T>(file: string, parse: (source: SourceText) => Result<T>, none: T): Result<Loaded<T>> => {
    const read = load(disk, root, file, parse);
    if (read.ok || !back) return read;
    troubles.push(...read.problems);
    return ok({ value: none, source: { file, text: '' } });
  };
  const house = opened(HOUSE_FILE, parseHouse, NO_HOUSE);
  const people = opened(PEOPLE_FILE, parsePeople, []);
  const limits = opened(LIMITS_FILE, parseLimits, { limits: [], byId: new Map() });
  const instruments = opened(INSTRUMENTS_FILE, parseInstruments, []);
  // Without journals there is nothing to look back on.
  if (troubles.length > 0 && disk.stat(logsFolder(root)) === undefined) return err(...troubles);
  if (!house.ok || !people.ok || !limits.ok || !instruments.ok)
    return err(...[house, people, limits, instruments].flatMap((each) => (each.ok ? [] : each.problems)));
  const card = readCard(disk, root);
  if (!card.ok && !back) return card;
  const setups = back
    ? ok(undefined)
    : optional(disk, root, SETUPS_FILE, (source) => parseSetups(source, limits.value.value));
  if (!setups.ok) return setups;
  const pins = back ? ok({}) : readPins(disk, root);
  if (!pins.ok) return pins;
  const team = withPins(people.value.value, pins.value, PEOPLE_FILE);
  const warnings = [house, people, limits, instruments].flatMap(({ warnings }) => warnings);
  const unsafe = [...pins.warnings, ...team.warnings];

  const yaml = ['.yaml', '.yml'];
  const profileSets = shelf(disk, root, 'shared/profile-sets', yaml, parseProfileSet);
  const procedures = shelf(disk, root, 'procedures', yaml, parseProcedure, isTranslation);
  const jobs = jobShelf(disk, root);
  return ok(
    {
      root,
      rules: rulesOf(house.value.value, team.people, limits.value.value),
      particulars: house.value.value.particulars,
      bench: (card.ok ? card.value?.bench : undefined) ?? house.value.value.bench,
      ...(card.ok && card.value ? { card: card.value } : {}),
      zone: house.value.value.zone,
      shop: house.value.value.shop,
      troubles,
      instruments: instruments.value.value,
      limits: limits.value.value,
      ...(setups.value ? { setups: setups.value } : {}),
      sources: {
        limits: limits.value.source,
        instruments: instruments.value.source,
        house: house.value.source,
      },
      profileSets,
      procedures,
      translations: translations(disk, root, yaml),
      jobs,
      problems: () => [...warnings, ...profileSets.problems(), ...procedures.problems(), ...jobs.problems()],
    },
    [...warnings, ...unsafe],
  );
}

/** A file that a workshop may lack. */
function optional<T>(
  disk: Disk,
  root: string,
  file: string,
  parse: (source: SourceText) => Result<T>,
): Result<T | undefined> {
  const read = readWorkshopFile(disk, root, file);
  if (read.ok) return parse(read.value);
  return read.problems[0]?.id === 'workshop.missing' ? ok(undefined) : read;
}

const NO_HOUSE: House = {
  bench: '',
  zone: undefined,
  shop: { ahead: 0, releaseUnseen: false },
  particulars: UNSTATED_PARTICULARS,
  rules: {
    name: '',
    units: 'mm',
    decisionRule: { kind: 'simple' },
    idleMinutes: 10,
    shiftMinutes: 600,
    openingTriangle: 'apex-at-hinge',
    dates: 'YYYY-MM-DD',
    leastPicture: [1, 1],
  },
};

function rulesOf(house: House, people: readonly Person[], limits: LimitsFile): WorkshopRules {
  return { ...house.rules, people, limits, pinMatches };
}
