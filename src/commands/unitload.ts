/** Reads units for documents and labels: which ones are meant, and each one's state by what it was built from. */
import { createHash } from 'node:crypto';
import { err, ok, type Problem, problemFactory, type Result } from '../base/problem.js';
import { readUnitCode } from '../record/codes.js';
import { RECORD_MESSAGES } from '../record/messages.js';
import { builtFromFrozen, builtFromNow, keepOpened, type Plan, planOf } from '../session/plan.js';
import type { Disk } from '../store/disk.js';
import { readEvents } from '../store/journal.js';
import { listJournals } from '../store/journals.js';
import type { Workshop } from '../store/workshop.js';
import { pinnedSources } from '../unit/events.js';
import { fold } from '../unit/fold.js';
import type { UnitState } from '../unit/unitstate.js';
import { setOutJson } from '../window/setouttext.js';

const raise = problemFactory(RECORD_MESSAGES);

export interface UnitName {
  readonly job: string;
  readonly unit: string;
}

export interface LoadedUnit extends UnitName {
  readonly plan: Plan;
  readonly state: UnitState;
  /** The set-out worked out now is the one that was frozen, or nothing was frozen. */
  readonly sameSetOut: boolean;
}

export type UnitOrJob =
  | { readonly kind: 'unit'; readonly name: UnitName }
  | { readonly kind: 'job'; readonly job: string; readonly units: readonly UnitName[] };

/** What a word means: a job, a unit, JOB/UNIT, or the code of a label. Not ok also with the problems of jobs that cannot be read. */
export function named(word: string, workshop: Workshop, disk: Disk): Result<UnitOrJob> {
  const code = readUnitCode(word);
  if (code.kind === 'wrong-check')
    return err(raise('record.wrong-check', `"${word}" was read or typed wrongly.`));
  const [job, unit] =
    code.kind === 'unit'
      ? [code.job, code.unit]
      : word.includes('/')
        ? word.split('/', 2)
        : [undefined, word];
  const { units, problems } = knownUnits(workshop, disk, job);
  const ofJob = units.filter((each) => each.job === word);
  if (ofJob.length > 0) return ok({ kind: 'job', job: word, units: ofJob });
  const found = units.filter((each) => same(each.unit, unit ?? ''));
  if (found.length === 1) return ok({ kind: 'unit', name: found[0]! });
  if (found.length === 0)
    return err(raise('record.unknown-unit', `There is no unit and no job "${word}".`), ...problems);
  const all = found.map((each) => `${each.job}/${each.unit}`).join(', ');
  return err(
    raise('record.ambiguous', `There is a unit "${word}" in several jobs.`, undefined, `Name one of ${all}.`),
    ...problems,
  );
}

/** Every unit of the workshop, or of a job: those its jobs list, then those that have a journal only. A job that cannot be read is a problem. */
export function knownUnits(
  workshop: Workshop,
  disk: Disk,
  ofJob?: string,
): { readonly units: readonly UnitName[]; readonly problems: readonly Problem[] } {
  // The files of other jobs are not looked into: a unit is found as soon among many as among few.
  const wanted = (job: string) => ofJob === undefined || same(job, ofJob);
  const units: UnitName[] = [];
  const problems: Problem[] = [];
  for (const name of workshop.jobs.names.filter(wanted)) {
    const job = workshop.jobs.get(name);
    if (job.ok) units.push(...job.value.value.units.map(({ id }) => ({ job: name, unit: id })));
    else problems.push(...job.problems);
  }
  const listed = new Set(units.map(({ job, unit }) => `${job}/${unit}`));
  const journals = listJournals(disk, workshop.root, wanted);
  units.push(...journals.filter(({ job, unit }) => !listed.has(`${job}/${unit}`)));
  return { units, problems };
}

const same = (a: string, b: string): boolean => a.toLowerCase() === b.toLowerCase();

/**
 * A begun unit by what its first event froze, another by the workshop's files as they are.
 *
 * @param lines only so many of the journal's lines: the unit as it stood then
 */
export function loadUnit(
  disk: Disk,
  workshop: Workshop,
  { job, unit }: UnitName,
  now: string,
  lines = Number.POSITIVE_INFINITY,
): Result<LoadedUnit> {
  const read = readEvents(disk, workshop.root, job, unit);
  if (!read.ok) return read;
  const events = read.value.slice(0, lines);
  const opened = pinnedSources(events);
  if (opened) keepOpened(workshop, job);
  const from = opened ? builtFromFrozen(disk, workshop.root, opened) : builtFromNow(workshop, job);
  const plan = from.ok ? planOf(from.value, unit) : from;
  if (!plan.ok) return plan;
  const { route, setOut } = plan.value;
  const frozen = opened?.sources.setout;
  return ok({
    job,
    unit,
    plan: plan.value,
    state: fold(route, events, { problems: setOut.problems, now }),
    sameSetOut: frozen === undefined || frozen === hashOf(`${JSON.stringify(setOutJson([setOut]))}\n`),
  });
}

const hashOf = (text: string): string => createHash('sha256').update(text).digest('hex');
