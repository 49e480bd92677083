/** The board: every unit and its standing. Reads only changed journals, through a reader that is passed in. */
import type { Problem, Result, SourceText } from '../base/problem.js';
import type { TitlesTold } from '../procedure/titles.js';
import type { Disk } from '../store/disk.js';
import { readWorkshopFile } from '../store/filecollection.js';
import { hashBytes } from '../store/files.js';
import type { JobsOnly } from '../store/jobs.js';
import { journalMarks } from '../store/journals.js';
import { translationText } from '../store/translationtext.js';
import { STANDING_WORDS } from '../unit/board.js';
import { replacedBy } from '../unit/replacement.js';
import { acrossUnits, type Digested, phaseAt, type UnitDigest } from '../unit/summary.js';
import { sentenceOf } from '../window/handing.js';
import type { Layout, Unit } from '../window/types.js';
import { type Index, type JobLine, type KeptJob, type KeptUnit, loadIndex, saveIndex } from './index.js';
import type { BoardEntry } from './ports.js';
import { sessionSays } from './words.js';

export interface Board {
  readonly rows: readonly BoardEntry[];
  /** Started units with their digests, including units that no job lists any more. */
  readonly units: readonly Digested[];
  /** Unreadable jobs and damaged journals. */
  readonly problems: readonly Problem[];
}

/** Reads a started unit's journal; see `unitReader`. */
export type ReadUnit = (job: string, unit: string, now: string) => Result<Omit<KeptUnit, 'mark'>>;

/** Reads the titles of a procedure in its own language and another; see `loadTitles`. */
export type LoadTitles = (procedure: SourceText, translation: SourceText) => TitlesTold | undefined;

interface Begun {
  readonly job: string;
  readonly unit: string;
  readonly mark: string;
}

export class BoardReader {
  readonly #disk: Disk;
  readonly #root: string;
  #index: Index | undefined;
  #changed = false;
  /** Journals as seen by `knowsAll`, for the `read` that follows. */
  #marks: readonly Begun[] | undefined;
  /** Folders that could not be read then. */
  #unread: Problem[] = [];
  constructor(disk: Disk, root: string) {
    this.#disk = disk;
    this.#root = root;
  }

  /** Whether every journal is cached in its current state; if so, `read` never calls its reader. */
  knowsAll(now: string): boolean {
    return this.#listJournals().every((each) => this.#known(each, now) !== undefined);
  }

  #listJournals(): readonly Begun[] {
    this.#unread = [];
    this.#marks = journalMarks(this.#disk, this.#root, this.#unread);
    return this.#marks;
  }

  /** @param readUnit called for each started unit that is not cached in its current state */
  read(files: JobsOnly, now: string, readUnit: ReadUnit): Board {
    const marks = this.#marks ?? this.#listJournals();
    const problems: Problem[] = [...this.#unread];
    const troubles = new Map<string, readonly Problem[]>();
    const begun = new Map<string, UnitDigest>();
    this.#marks = undefined;
    for (const each of marks) {
      const key = `${each.job}/${each.unit}`;
      const known = this.#known(each, now) ?? this.#learn(each, now, readUnit, troubles);
      if (known) begun.set(key, known.digest);
    }
    const units = [...begun].map(([key, digest]) => {
      const [job = '', unit = ''] = key.split('/');
      return { job, unit, digest };
    });
    this.#forget(new Set(begun.keys()));
    const rows = files.jobs.names.flatMap((name) => {
      const job = this.#job(files, name, problems);
      // What is begun is what it was begun as, and stays in sight though the file cannot be read now.
      if (!job) return this.#begunOf(name, begun, now);
      const now_ = this.#sourcesNow(files, job);
      const row = (line: JobLine): BoardEntry => {
        const key = `${name}/${line.id}`;
        const trouble = troubles.get(key);
        if (trouble) return { ...blank(name, line), standing: 'refused' as const, where: wayOut(trouble) };
        const digest = begun.get(key);
        if (!digest) return blank(name, line);
        // A begun unit is what it was begun as, whatever the job file says now.
        const kept = this.#index!.units.get(key)!;
        const { size, sentence } = kept;
        return rowOf(name, { ...line, size, sentence }, digest, now, differences(kept, line, now_));
      };
      const listed = new Set(job.units.map(({ id }) => id));
      return job.units.flatMap((line) => replacementsOf(name, line, begun, listed).map(row));
    });
    problems.push(...[...troubles.values()].flat());
    return { rows, units, problems };
  }

  #begunOf(job: string, begun: ReadonlyMap<string, UnitDigest>, now: string): BoardEntry[] {
    return [...begun]
      .filter(([key]) => key.startsWith(`${job}/`))
      .map(([key, digest]) => {
        const { size, sentence } = this.#index!.units.get(key)!;
        return rowOf(job, { id: key.slice(job.length + 1), size, sentence }, digest, now);
      })
      .sort((a, b) => a.unit.localeCompare(b.unit, 'en', { numeric: true }));
  }

  /**
   * What the procedures of the jobs read call their titles in this language. Those that are not kept are read by `load`,
   * which gives nothing for what cannot be translated.
   */
  titles({ procedures }: JobsOnly, language: string, load: LoadTitles): readonly TitlesTold[] {
    const names = new Set([...this.#kept().jobs.values()].map(({ procedure }) => procedure));
    return [...names].flatMap((name) => {
      const own = procedures.text(name);
      const translation = translationText(this.#disk, this.#root, name, language);
      if (!own.ok || !translation) return [];
      const key = `${name}.${language}`;
      const of = hashOf(`${hashOf(own.value.text)}${hashOf(translation.text)}`);
      const kept = this.#kept().titles.get(key);
      if (kept?.of === of) return [kept.told];
      const told = load(own.value, translation);
      if (!told) return [];
      this.#kept().titles.set(key, { of, told });
      this.#changed = true;
      return [told];
    });
  }

  /** Saves the cache for the next start. */
  save(): void {
    if (!this.#changed || !this.#index) return;
    this.#changed = false;
    saveIndex(this.#disk, this.#root, this.#index);
  }

  #kept(): Index {
    this.#index ??= loadIndex(this.#disk, this.#root);
    return this.#index;
  }

  #known({ job, unit, mark }: Begun, now: string): KeptUnit | undefined {
    const kept = this.#kept().units.get(`${job}/${unit}`);
    return kept?.mark === mark && isKnown(kept.digest, now) ? kept : undefined;
  }

  #learn(
    { job, unit, mark }: Begun,
    now: string,
    readUnit: ReadUnit,
    troubles: Map<string, readonly Problem[]>,
  ): KeptUnit | undefined {
    const read = readUnit(job, unit, now);
    if (!read.ok) {
      troubles.set(`${job}/${unit}`, read.problems);
      return undefined;
    }
    const kept = { mark, ...read.value };
    this.#kept().units.set(`${job}/${unit}`, kept);
    this.#changed = true;
    return kept;
  }

  #forget(there: ReadonlySet<string>): void {
    const { units } = this.#kept();
    if (units.size === there.size) return;
    for (const key of units.keys())
      if (!there.has(key)) {
        units.delete(key);
        this.#changed = true;
      }
  }

  /** The job's units; reparses its file only if it has changed. */
  #job(files: JobsOnly, name: string, problems: Problem[]): KeptJob | undefined {
    const text = files.jobs.text(name);
    if (!text.ok) {
      problems.push(...text.problems);
      return undefined;
    }
    const called = (profileSet: string) => {
      const set = files.profileSets.text(profileSet);
      return set.ok ? lightCalled(set.value.text) : '';
    };
    const hash = (profileSet: string) => hashOf(`${called(profileSet)}\n${text.value.text}`);
    const kept = this.#kept().jobs.get(name);
    if (kept && kept.text === hash(kept.profileSet)) return kept;
    const job = files.jobs.get(name);
    if (!job.ok) {
      problems.push(...job.problems);
      return undefined;
    }
    const { profileSet, procedure } = job.value.value;
    const units = job.value.value.units.map((unit) => lineOf(unit, called(profileSet)));
    const made = { text: hash(profileSet), profileSet, procedure, units };
    this.#kept().jobs.set(name, made);
    this.#changed = true;
    return made;
  }

  /** Hashes of the files that a unit of this job would be built from today. */
  #sourcesNow(files: JobsOnly, { profileSet, procedure }: KeptJob): Readonly<Record<string, string>> {
    const texts = {
      profileSet: files.profileSets.text(profileSet),
      procedure: files.procedures.text(procedure),
      limits: readWorkshopFile(this.#disk, this.#root, 'shared/limits.yaml'),
    };
    return Object.fromEntries(
      Object.entries(texts).flatMap(([kind, text]) => (text.ok ? [[kind, hashOf(text.value.text)]] : [])),
    );
  }
}

/** A unit of the job, followed by the replacements built for it after scrapping. */
function replacementsOf(
  job: string,
  line: JobLine,
  begun: ReadonlyMap<string, UnitDigest>,
  listed: ReadonlySet<string>,
): JobLine[] {
  const out = [line];
  const seen = new Set([line.id]);
  for (let at = line.id; ; ) {
    const id = begun.get(`${job}/${at}`)?.replacement;
    // A replacement listed in the job has its own row.
    if (id === undefined || listed.has(id) || seen.has(id) || !replacedBy(id)) return out;
    out.push({ ...line, id });
    seen.add(id);
    at = id;
  }
}

function rowOf(
  job: string,
  line: Omit<JobLine, 'print'>,
  digest: UnitDigest,
  now: string,
  differs: readonly string[] = [],
): BoardEntry {
  const phase = phaseAt(digest, now) ?? digest.phases[0]!;
  const { standing, done, total, where } = phase;
  const over = standing === 'finished' || standing === 'scrapped';
  return {
    ...blank(job, line),
    standing,
    done,
    total,
    where,
    ...(differs.length === 0 || over ? {} : { differs }),
  };
}

const blank = (job: string, { id, size, sentence }: Omit<JobLine, 'print'>): BoardEntry => ({
  unit: id,
  job,
  standing: 'not-started',
  done: 0,
  total: 0,
  size,
  sentence,
  where: '',
});

/** Kinds of sources in which a started unit differs from the current workshop files. */
function differences(
  { print, sources }: KeptUnit,
  line: JobLine,
  now: Readonly<Record<string, string>>,
): readonly string[] {
  const others = Object.keys(now).filter(
    (kind) => sources[kind] !== undefined && sources[kind] !== now[kind],
  );
  return [...(print === line.print ? [] : ['job']), ...others];
}

const isKnown = (digest: UnitDigest, now: string): boolean => {
  const phase = phaseAt(digest, now);
  return phase !== undefined && Object.hasOwn(STANDING_WORDS, phase.standing);
};

const wayOut = (problems: readonly Problem[]): string =>
  problems[0]?.id.startsWith('journal.') ? sessionSays('run-verify') : (problems[0]?.text ?? '');

const hashOf = (text: string): string => hashBytes(Buffer.from(text));

export const materialsOf = (board: Board) => acrossUnits(board.units);

// Reads a started unit's journal for the board. Only this part needs the set-out, the procedure and the rules.

// A job's units as shown on the board.

/**
 * What a profile set calls a light, where its product is no window. Found in its text and not read with the rest of it: the
 * board opens before any set is parsed.
 */
function lightCalled(set: string): string {
  const product = /^product:[^\n]*(?:\n[ \t]+[^\n]*)*/m.exec(set)?.[0] ?? '';
  return /\blight:\s*(['"]?)([^,}'"\n#]+)\1/.exec(product)?.[2]?.trim() ?? '';
}

/** @param called what its profile set calls a light, where it is none of a window */
export function lineOf(unit: Unit, called = ''): JobLine {
  return {
    id: unit.id,
    size: `${unit.width} x ${unit.height}`,
    sentence: lightsOf(unit.layout, called).join('; '),
    print: printOf(unit),
  };
}

/**
 * Changes whenever the job says something different about this unit, but not for another unit's line or the job's
 * title. A replacement for a scrapped unit has the same print as the unit it replaces.
 */
const printOf = (unit: Unit): string =>
  hashBytes(Buffer.from(JSON.stringify({ ...unit, id: replacedBy(unit.id)?.listed ?? unit.id })));

function lightsOf(layout: Layout, called: string): readonly string[] {
  return layout.type === 'light'
    ? [sentenceOf(layout.kind, layout.hinge, layout.opensIn, called)]
    : layout.parts.flatMap((part) => lightsOf(part, called));
}
