/** Where units begin of which nothing is logged: what the stage view shows of them. */
import { byStep } from '../../build/board.js';
import type { Beginning } from '../../build/digests.js';
import { fold } from '../../build/fold.js';
import { type FirstStep, firstStep } from '../../procedure/firststep.js';
import type { Procedure } from '../../procedure/model.js';
import { parseProcedure } from '../../procedure/parse.js';
import type { Disk } from '../../store/disk.js';
import type { JobsOnly } from '../../store/openjobs.js';
import { openWorkshop, type Workshop } from '../../store/workshop.js';
import type { BoardRow } from '../ports.js';
import { type BuiltFrom, builtFromNow, planOf } from './plan.js';

/**
 * Where each unit that is not started begins. Mostly the procedure alone says so; where it does not, the unit's route is
 * worked out. Units whose job or procedure cannot be read are left out: the board says so elsewhere.
 */
export function beginningsOf(rows: readonly BoardRow[], workshop: Workshop): Beginning[] {
  const procedureOf = (name: string) => {
    const read = workshop.procedures.get(name);
    return read.ok ? read.value.value : undefined;
  };
  return beginnings(rows, workshop.jobs, procedureOf, () => workshop);
}

/** The same for a command that opened the jobs alone: the rest of the workshop is opened only where it must be. */
export function beginningsIn(
  root: string,
  disk: Disk,
  { jobs, procedures }: JobsOnly,
  rows: readonly BoardRow[],
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
  rows: readonly BoardRow[],
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
  // Not held against the order check: a refused unit, too, stands at its beginning.
  const row = byStep([fold(route, [])])[0];
  return row
    ? [{ job, unit, base: row.base, title: row.title, stage: row.stage, step: row.open[0]!.step }]
    : [];
}

function once<T>(kept: Map<string, T>, key: string, make: () => T): T {
  if (!kept.has(key)) kept.set(key, make());
  return kept.get(key)!;
}
