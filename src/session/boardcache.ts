/** The board of a running bench: read on demand, then kept, with the open unit's row updated in place. */
import type { Problem } from '../base/problem.js';
import type { Procedure } from '../procedure/model.js';
import { parseProcedure } from '../procedure/parse.js';
import { type FirstStep, firstStep } from '../procedure/stageorder.js';
import { type TitleReader, titleReader } from '../procedure/titles.js';
import type { Disk } from '../store/disk.js';
import type { JobsOnly } from '../store/jobs.js';
import { openWorkshop, type Workshop } from '../store/workshop.js';
import { boardRow, byStep, type Handover, type StageRow } from '../unit/board.js';
import { fold } from '../unit/fold.js';
import { type Beginning, handoverOf, SHIFT_MS, stagesOf, withBeginnings } from '../unit/summary.js';
import type { UnitState } from '../unit/unitstate.js';
import { type Board, BoardReader } from './board.js';
import { type BuiltFrom, builtFromNow, planOf, unitReader } from './plan.js';
import type { BoardEntry } from './ports.js';
import { loadTitles } from './titles.js';

export class BoardCache {
  readonly #reader: BoardReader;
  #kept: Board | undefined;
  #rows: readonly BoardEntry[] = [];
  #stages: readonly StageRow[] | undefined;
  readonly #titles = new Map<string, TitleReader>();

  constructor(
    private readonly disk: Disk,
    private readonly root: string,
  ) {
    this.#reader = new BoardReader(disk, root);
  }

  rows(workshop: Workshop, now: string): readonly BoardEntry[] {
    if (!this.#kept) {
      this.#kept = this.look(workshop, now);
      this.#rows = this.#kept.rows;
      this.#stages = undefined;
    }
    return this.#rows;
  }

  /** Steps open or held across units, and where unstarted units begin, as of the last board read. */
  stages(workshop: Workshop, now: string): readonly StageRow[] {
    this.rows(workshop, now);
    this.#stages ??= withBeginnings(
      stagesOf(this.#kept!.units, now),
      beginningsOf(this.#kept!.rows, workshop),
    );
    return this.#stages;
  }

  /** For the current time, from the last board read. */
  handover(workshop: Workshop, now: string): Handover {
    this.rows(workshop, now);
    return handoverOf(this.#kept!.units, now, new Date(Date.parse(now) - SHIFT_MS).toISOString());
  }

  /** What titles of steps and holds are called in a language. */
  titles(workshop: Workshop, language: string, now: string): TitleReader {
    this.rows(workshop, now);
    const found = this.#titles.get(language);
    if (found) return found;
    const made = titleReader(this.#reader.titles(workshop, language, loadTitles));
    this.#titles.set(language, made);
    return made;
  }

  problems(): readonly Problem[] {
    return this.#kept?.problems ?? [];
  }

  look(workshop: Workshop, now: string): Board {
    return this.#reader.read(workshop, now, unitReader(this.disk, this.root));
  }

  forget(): void {
    this.#kept = undefined;
    this.#titles.clear();
  }

  /** Updates the open unit's row after a write. */
  update(job: string, unit: string, state: UnitState): void {
    if (!this.#kept) return;
    const { standing, done } = state;
    this.#rows = this.#rows.map((row) =>
      row.unit === unit && row.job === job
        ? { ...row, standing, done, total: state.steps.size, where: boardRow(state).where }
        : row,
    );
  }

  /** `unit` is an id, or JOB/UNIT if several jobs share that id. */
  find(unit: string, workshop: Workshop, now: string): BoardEntry | undefined {
    const rows = this.rows(workshop, now);
    const exact = rows.find((row) => `${row.job}/${row.unit}` === unit);
    if (exact) return exact;
    const named = rows.filter((row) => row.unit === unit);
    return named.length === 1 ? named[0] : undefined;
  }

  save(): void {
    this.#reader.save();
  }
}

// First steps of units with nothing logged yet, for the stage view.

/**
 * The first step of each unstarted unit. Usually the procedure alone tells; otherwise the unit's route is computed.
 * Units whose job or procedure cannot be read are left out: the board reports them elsewhere.
 */
function beginningsOf(rows: readonly BoardEntry[], workshop: Workshop): Beginning[] {
  const procedureOf = (name: string) => {
    const read = workshop.procedures.get(name);
    return read.ok ? read.value.value : undefined;
  };
  return beginnings(rows, workshop.jobs, procedureOf, () => workshop);
}

/** The same for a command that opened only the jobs; opens the full workshop only if it must. */
export function beginningsIn(
  root: string,
  disk: Disk,
  { jobs, procedures }: JobsOnly,
  rows: readonly BoardEntry[],
): Beginning[] {
  let opened: Workshop | undefined;
  const whole = (): Workshop | undefined => {
    const made = opened ? undefined : openWorkshop(root, disk);
    if (made?.ok) opened = made.value;
    return opened;
  };
  const procedureOf = (name: string) => {
    const source = procedures.text(name);
    const made = source.ok ? parseProcedure(source.value) : source;
    return made.ok ? made.value : undefined;
  };
  return beginnings(rows, jobs, procedureOf, whole);
}

function beginnings(
  rows: readonly BoardEntry[],
  jobs: JobsOnly['jobs'],
  procedureOf: (name: string) => Procedure | undefined,
  whole: () => Workshop | undefined,
): Beginning[] {
  const firsts = new Map<string, FirstStep | undefined>();
  const built = new Map<string, BuiltFrom | undefined>();
  return rows
    .filter(({ standing }) => standing === 'not-started')
    .flatMap(({ job, unit }) => {
      const first = once(firsts, job, () => {
        const read = jobs.get(job);
        const procedure = read.ok ? procedureOf(read.value.value.procedure) : undefined;
        return procedure && firstStep(procedure);
      });
      if (first) return [{ job, unit, ...first, step: first.base }];
      const from = once(built, job, () => {
        const workshop = whole();
        const made = workshop && builtFromNow(workshop, job);
        return made?.ok ? made.value : undefined;
      });
      return from ? beginningByRoute(from, job, unit) : [];
    });
}

function beginningByRoute(from: BuiltFrom, job: string, unit: string): Beginning[] {
  const plan = planOf(from, unit);
  if (!plan.ok) return [];
  const { route } = plan.value;
  // Ignores the order check: a refused unit also has a first step.
  const row = byStep([fold(route, [])])[0];
  return row
    ? [{ job, unit, base: row.base, title: row.title, stage: row.stage, step: row.open[0]!.step }]
    : [];
}

function once<T>(kept: Map<string, T>, key: string, make: () => T): T {
  if (!kept.has(key)) kept.set(key, make());
  return kept.get(key)!;
}
