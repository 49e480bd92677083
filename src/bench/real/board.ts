/** The board: every unit of every job, and where it stands. Journals are read when they changed, and only then. */
import { boardRow } from '../../build/board.js';
import { fold } from '../../build/fold.js';
import type { UnitState } from '../../build/types.js';
import type { Problem } from '../../ground/problem.js';
import type { Disk } from '../../store/disk.js';
import { readEvents } from '../../store/journal.js';
import { journalPlace } from '../../store/paths.js';
import type { Workshop } from '../../store/workshop.js';
import { sentenceOf } from '../../window/handing.js';
import type { Layout, Unit } from '../../window/types.js';
import type { BoardRow } from '../ports.js';
import { builtFromFrozen, builtFromNow, planOf } from './plan.js';

export interface Board {
  readonly rows: readonly BoardRow[];
  /** Jobs that cannot be read, journals that are damaged. */
  readonly problems: readonly Problem[];
}

/** What was found out about a begun unit, and for which state of its journal. */
interface Known {
  readonly mark: string;
  readonly row: BoardRow;
}

export class BoardReader {
  readonly #known = new Map<string, Known>();
  readonly #disk: Disk;
  readonly #root: string;
  constructor(disk: Disk, root: string) {
    this.#disk = disk;
    this.#root = root;
  }

  read(workshop: Workshop, now: string): Board {
    const rows: BoardRow[] = [];
    const problems: Problem[] = [];
    for (const name of workshop.jobs.names) {
      const job = workshop.jobs.get(name);
      if (!job.ok) {
        problems.push(...job.problems);
        continue;
      }
      for (const unit of job.value.value.units) rows.push(this.#row(workshop, name, unit, now, problems));
    }
    return { rows, problems };
  }

  /** The row of a unit whose state is at hand. */
  static row(unit: Unit, state: UnitState): BoardRow {
    return {
      ...blank(unit),
      standing: state.standing,
      done: state.done,
      total: state.steps.size,
      where: boardRow(state).where,
    };
  }

  #row(workshop: Workshop, job: string, unit: Unit, now: string, problems: Problem[]): BoardRow {
    const place = journalPlace(this.#root, job, unit.id);
    if (!place.ok) return blank(unit);
    const stat = this.#disk.stat(place.value.file);
    if (stat === undefined || stat.size === 0) return blank(unit);
    const mark = `${stat.id}/${stat.size}/${stat.modifiedMs}`;
    const key = `${job}/${unit.id}`;
    const known = this.#known.get(key);
    if (known?.mark === mark) return known.row;
    const events = readEvents(this.#disk, this.#root, job, unit.id);
    if (!events.ok) {
      problems.push(...events.problems);
      return { ...blank(unit), standing: 'refused', where: 'journal damaged: run pinchrod verify' };
    }
    const opened = events.value.find((event) => event.kind === 'opened');
    const from = opened ? builtFromFrozen(this.#disk, this.#root, opened) : builtFromNow(workshop, job);
    const plan = from.ok ? planOf(from.value, unit.id) : from;
    if (!plan.ok) {
      problems.push(...plan.problems);
      return { ...blank(unit), standing: 'refused', where: plan.problems[0]?.text ?? '' };
    }
    const { route, setOut } = plan.value;
    const state = fold(route, events.value, { problems: setOut.problems, now });
    const row = BoardReader.row(unit, state);
    // What is curing changes with the clock alone; it is worked out each time.
    if (state.timers.length === 0) this.#known.set(key, { mark, row });
    return row;
  }
}

function blank(unit: Unit): BoardRow {
  return {
    unit: unit.id,
    job: unit.job,
    standing: 'not-started',
    done: 0,
    total: 0,
    size: `${unit.width} x ${unit.height}`,
    sentence: lightsOf(unit.layout).join('; '),
    where: '',
  };
}

function lightsOf(layout: Layout): readonly string[] {
  return layout.type === 'light' ? [sentenceOf(layout.kind, layout.hinge)] : layout.parts.flatMap(lightsOf);
}
