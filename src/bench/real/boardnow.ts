/** The board of a running bench: read when it is asked for and then kept, with the open unit's own row brought up to date. */
import { boardRow, type StageRow } from '../../build/board.js';
import { handoverOf, SHIFT_MS, stagesOf, withBeginnings } from '../../build/digests.js';
import type { Handover } from '../../build/handover.js';
import type { UnitState } from '../../build/unitstate.js';
import type { Problem } from '../../ground/problem.js';
import type { Disk } from '../../store/disk.js';
import type { Workshop } from '../../store/workshop.js';
import type { BoardRow } from '../ports.js';
import { beginningsOf } from './beginnings.js';
import { type Board, BoardReader } from './board.js';
import { unitReader } from './digest.js';

export class BoardNow {
  readonly #reader: BoardReader;
  #kept: Board | undefined;
  #rows: readonly BoardRow[] = [];
  #stages: readonly StageRow[] | undefined;

  constructor(
    private readonly disk: Disk,
    private readonly root: string,
  ) {
    this.#reader = new BoardReader(disk, root);
  }

  rows(workshop: Workshop, now: string): readonly BoardRow[] {
    if (!this.#kept) {
      this.#kept = this.look(workshop, now);
      this.#rows = this.#kept.rows;
      this.#stages = undefined;
    }
    return this.#rows;
  }

  /** Steps open or held across units, and where those begin that are not started: as of when the board was read. */
  stages(workshop: Workshop, now: string): readonly StageRow[] {
    this.rows(workshop, now);
    this.#stages ??= withBeginnings(
      stagesOf(this.#kept!.units, now),
      beginningsOf(this.#kept!.rows, workshop),
    );
    return this.#stages;
  }

  /** As of now, from when the board was read. */
  handover(workshop: Workshop, now: string): Handover {
    this.rows(workshop, now);
    return handoverOf(this.#kept!.units, now, new Date(Date.parse(now) - SHIFT_MS).toISOString());
  }

  /** Jobs and journals that could not be read. */
  problems(): readonly Problem[] {
    return this.#kept?.problems ?? [];
  }

  /** Every unit as it is on disk now. */
  look(workshop: Workshop, now: string): Board {
    return this.#reader.read(workshop, now, unitReader(this.disk, this.root));
  }

  /** The next asking reads again. */
  forget(): void {
    this.#kept = undefined;
  }

  /** The open unit's row, after something was written. */
  update(job: string, unit: string, state: UnitState): void {
    if (!this.#kept) return;
    const { standing, done } = state;
    this.#rows = this.#rows.map((row) =>
      row.unit === unit && row.job === job
        ? { ...row, standing, done, total: state.steps.size, where: boardRow(state).where }
        : row,
    );
  }

  /** `unit` is an id, or JOB/UNIT where several jobs have one of that id. */
  find(unit: string, workshop: Workshop, now: string): BoardRow | undefined {
    const rows = this.rows(workshop, now);
    const exact = rows.find((row) => `${row.job}/${row.unit}` === unit);
    if (exact) return exact;
    const named = rows.filter((row) => row.unit === unit);
    return named.length === 1 ? named[0] : undefined;
  }

  /** Keeps what was found out for the next start. */
  save(): void {
    this.#reader.save();
  }
}
