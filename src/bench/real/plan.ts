/**
 * What a unit is built from, and what follows from it: its set-out and its route. A unit that is not begun takes the
 * workshop's files as they are; one that is begun takes those that its first event froze.
 */
import type { JournalEvent } from '../../build/events.js';
import { bad, good, type Problem, type Result, raiser } from '../../ground/problem.js';
import type { SourceText } from '../../ground/sourcetext.js';
import { type LimitsFile, parseLimits } from '../../measure/limits.js';
import type { Procedure } from '../../procedure/model.js';
import { parseProcedure } from '../../procedure/parse.js';
import { makeRoute } from '../../procedure/route.js';
import type { Route } from '../../procedure/types.js';
import type { Disk } from '../../store/disk.js';
import { readSource } from '../../store/sources.js';
import type { Workshop } from '../../store/workshop.js';
import { contextOf, dividerContext, lightContext } from '../../window/contextof.js';
import { type Job, parseJob } from '../../window/job.js';
import { type ProfileSet, parseProfileSet } from '../../window/profileset.js';
import { setOut } from '../../window/setout.js';
import type { SetOut, Unit } from '../../window/types.js';
import { BENCH_MESSAGES } from '../messages.js';

const raise = raiser(BENCH_MESSAGES);

export interface BuiltFrom {
  readonly job: Job;
  readonly set: ProfileSet;
  readonly procedure: Procedure;
  readonly limits: LimitsFile;
  /** Texts by kind, as they are frozen. */
  readonly texts: Readonly<Record<string, string>>;
}

export interface Plan {
  readonly unit: Unit;
  readonly from: BuiltFrom;
  readonly setOut: SetOut;
  readonly route: Route;
}

/** The workshop's files as they are now, for a job. */
export function builtFromNow(workshop: Workshop, jobName: string): Result<BuiltFrom> {
  const job = workshop.jobs.get(jobName);
  if (!job.ok) return job;
  const set = workshop.profileSets.get(job.value.value.profileSet);
  const procedure = workshop.procedures.get(job.value.value.procedure);
  if (!set.ok || !procedure.ok)
    return bad(...[set, procedure].flatMap((each) => (each.ok ? [] : each.problems)));
  return good({
    job: job.value.value,
    set: set.value.value,
    procedure: procedure.value.value,
    limits: workshop.limits,
    texts: {
      job: job.value.source.text,
      profileSet: set.value.source.text,
      procedure: procedure.value.source.text,
      limits: workshop.sources.limits.text,
    },
  });
}

/** What the unit's first event froze. */
export function builtFromFrozen(
  disk: Disk,
  root: string,
  opened: Extract<JournalEvent, { readonly kind: 'opened' }>,
): Result<BuiltFrom> {
  const texts: Record<string, string> = {};
  const problems: Problem[] = [];
  for (const kind of ['job', 'profileSet', 'procedure', 'limits']) {
    const hash = opened.sources[kind];
    const read = hash === undefined ? undefined : readSource(disk, root, hash);
    if (read?.ok) texts[kind] = read.value;
    else
      problems.push(
        ...(read?.problems ?? [
          raise('bench.not-frozen', `${opened.unit} does not say from which ${kind} it is built.`),
        ]),
      );
  }
  if (problems.length > 0) return bad(...problems);
  const named = (kind: string): SourceText => ({
    file: `logs/sources/${opened.sources[kind]}${kind === 'job' ? jobEnding(texts.job!) : ''}`,
    text: texts[kind]!,
  });
  const job = parseJob(named('job'));
  const set = parseProfileSet(named('profileSet'));
  const procedure = parseProcedure(named('procedure'));
  const limits = parseLimits(named('limits'));
  if (!job.ok || !set.ok || !procedure.ok || !limits.ok)
    return bad(...[job, set, procedure, limits].flatMap((each) => (each.ok ? [] : each.problems)));
  return good({ job: job.value, set: set.value, procedure: procedure.value, limits: limits.value, texts });
}

/** The unit's numbers and steps. Not ok where the job has no such unit, or the procedure asks for what the set has not. */
export function planOf(from: BuiltFrom, unitId: string): Result<Plan> {
  const unit = from.job.units.find(({ id }) => id === unitId);
  if (!unit) return bad(raise('bench.no-unit', `Job "${from.job.name}" has no unit "${unitId}".`));
  const made = setOut(unit, from.set);
  const route = makeRoute(from.procedure, {
    unit: contextOf(made),
    lights: made.lights.map(({ id }) => lightContext(made, id)),
    dividers: made.dividers.map(({ id }) => dividerContext(made, id)),
  });
  return route.ok ? good({ unit, from, setOut: made, route: route.value }, route.warnings) : route;
}

/** A frozen job keeps no name; a table does not begin as YAML does. */
const jobEnding = (text: string): string =>
  /^\s*(#|---|format\s*:)/m.test(text.slice(0, 500)) ? '.yaml' : '.csv';
