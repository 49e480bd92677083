/** Loads units for documents and labels: resolves names, and rebuilds each unit's state from what it was built from. */
import { createHash } from 'node:crypto';
import { isDeepStrictEqual } from 'node:util';
import { err, ok, type Problem, problemFactory, type Result } from '../base/problem.js';
import type { KeptTexts } from '../record/basis.js';
import { readUnitCode } from '../record/codes.js';
import { RECORD_MESSAGES } from '../record/messages.js';
import { closingOf } from '../record/release.js';
import type { RegistersThen } from '../record/schema.js';
import { builtFromFrozen, builtFromNow, keepOpened, type Plan, planOf } from '../session/plan.js';
import { type Disk, realDisk } from '../store/disk.js';
import { readEvents } from '../store/journal.js';
import { listJournals } from '../store/journals.js';
import { branchName, branchNamed, journalPlace } from '../store/paths.js';
import { isUnpacked } from '../store/register/check.js';
import { headProblem, knownOf, RegisterTexts } from '../store/register/heads.js';
import { type CountedKeys, countedKeys } from '../store/register/keys.js';
import { registerHeads } from '../store/register/place.js';
import { lateSignature, unsignedFaults } from '../store/register/signatures.js';
import { unsignedEnds } from '../store/verifyjournal.js';
import { unitSealProblems } from '../store/verifykept.js';
import { VERIFY_NOTES } from '../store/verifymessages.js';
import type { Workshop } from '../store/workshop.js';
import { type JournalEvent, pinnedSources } from '../unit/events.js';
import { fold } from '../unit/fold.js';
import type { UnitState } from '../unit/unitstate.js';
import { frozenSetOut } from '../window/setoutjson.js';
import { keptTexts } from './basisload.js';

const raise = problemFactory(RECORD_MESSAGES);

export interface UnitName {
  readonly job: string;
  readonly unit: string;
}

export interface LoadedUnit extends UnitName {
  readonly plan: Plan;
  /** With all its lines. */
  readonly state: UnitState;
  /** As it was when its record was closed, where lines came after that. */
  readonly closed?: { readonly plan: Plan; readonly state: UnitState };
  /** What its lines rest on. */
  readonly kept: KeptTexts;
  /** The set-out computed now matches the frozen one, or nothing was frozen. */
  readonly sameSetOut: boolean;
}

export type UnitOrJob =
  | { readonly kind: 'unit'; readonly name: UnitName }
  | { readonly kind: 'job'; readonly job: string; readonly units: readonly UnitName[] };

/** Resolves a job, a unit, JOB/UNIT, or a label code. A failure includes the problems of unreadable jobs. */
export function named(word: string, workshop: Workshop, disk: Disk): Result<UnitOrJob> {
  const code = readUnitCode(word);
  if (code.kind === 'wrong-check') return err(raise('record.wrong-check', { word }));
  const [job, unit] =
    code.kind === 'unit'
      ? [code.job, code.unit]
      : word.includes('/')
        ? word.split('/', 2)
        : [undefined, word];
  const { units, problems } = knownUnits(workshop, disk, job);
  const ofJob = units.filter((each) => each.job === word);
  if (ofJob.length > 0) return ok({ kind: 'job', job: word, units: ofJob });
  const branch = branchNamed(unit ?? '');
  const found = units
    .filter((each) => same(each.unit, branch?.unit ?? unit ?? ''))
    .map((each) => (branch ? { ...each, unit: branchName(each.unit, branch.number) } : each))
    .filter((each) => !branch || isThere(disk, workshop.root, each));
  if (found.length === 1) return ok({ kind: 'unit', name: found[0]! });
  if (found.length === 0) return err(raise('record.unknown-unit/unit', { word }), ...problems);
  const all = found.map((each) => `${each.job}/${each.unit}`).join(', ');
  return err(raise('record.ambiguous', { word, all }), ...problems);
}

const isThere = (disk: Disk, root: string, { job, unit }: UnitName): boolean => {
  const place = journalPlace(root, job, unit);
  return place.ok && disk.stat(place.value.file)?.kind === 'file';
};

/** Units of the workshop or one job: from job files, then those with only a journal. An unreadable job is a problem. */
export function knownUnits(
  workshop: Workshop,
  disk: Disk,
  ofJob?: string,
): { readonly units: readonly UnitName[]; readonly problems: readonly Problem[] } {
  // Other jobs' files are not read, so finding a unit takes no longer in a workshop with many jobs.
  const wanted = (job: string) => ofJob === undefined || same(job, ofJob);
  const units: UnitName[] = [];
  const problems: Problem[] = [];
  for (const name of workshop.jobs.names.filter(wanted)) {
    const job = workshop.jobs.get(name);
    if (job.ok) units.push(...job.value.value.units.map(({ id }) => ({ job: name, unit: id })));
    else problems.push(...job.problems);
  }
  const listed = new Set(units.map(({ job, unit }) => `${job}/${unit}`));
  const journals = listJournals(disk, workshop.root, wanted, problems);
  units.push(...journals.filter(({ job, unit }) => !listed.has(`${job}/${unit}`)));
  return { units, problems };
}

const same = (a: string, b: string): boolean => a.toLowerCase() === b.toLowerCase();

/** Loads a begun unit as its first event froze it, any other from the current files. @param lines ignore later lines */
export function loadUnit(
  disk: Disk,
  workshop: Workshop,
  { job, unit }: UnitName,
  now: string,
  lines = Number.POSITIVE_INFINITY,
): Result<LoadedUnit> {
  const read = readEvents(disk, workshop.root, job, unit);
  if (!read.ok) return read;
  // Before anything is said or signed on the strength of it.
  const wrong = notVouched(disk, workshop, { job, unit }, read.value);
  if (wrong.length > 0) return err(...wrong);
  const events = read.value.slice(0, lines);
  // What a unit does not keep is taken from today's files, and so these must be usable.
  if (events[0]?.basis === undefined && workshop.troubles.length > 0) return err(...workshop.troubles);
  const opened = pinnedSources(events);
  if (opened) keepOpened(workshop, job);
  const from = opened ? builtFromFrozen(disk, workshop.root, opened) : builtFromNow(workshop, job);
  const plan = from.ok ? planOf(from.value, unit) : from;
  if (!plan.ok) return plan;
  const stateOf = ({ route, setOut }: Plan, lines_: readonly JournalEvent[]) =>
    fold(route, lines_, { problems: setOut.problems, now });
  const end = closingOf(events) ?? events.length;
  let closed: LoadedUnit['closed'];
  if (end < events.length) {
    const then = pinnedSources(events.slice(0, end));
    const revised = then && !isDeepStrictEqual(then.sources, opened?.sources);
    const built = revised ? builtFromFrozen(disk, workshop.root, then) : undefined;
    const before = built?.ok ? planOf(built.value, unit) : built;
    if (before && !before.ok) return before;
    const planThen = before?.value ?? plan.value;
    closed = { plan: planThen, state: stateOf(planThen, events.slice(0, end)) };
  }
  const kept = keptTexts(disk, workshop, events);
  if (!kept.ok) return kept;
  const shown = (closed?.plan ?? plan.value).setOut;
  const frozen = (closed ? pinnedSources(closed.state.events) : opened)?.sources.setout;
  return ok({
    job,
    unit,
    plan: plan.value,
    state: stateOf(plan.value, events),
    ...(closed ? { closed } : {}),
    kept: kept.value,
    sameSetOut: frozen === undefined || frozen === hashOf(frozenSetOut(shown)),
  });
}

const counting = new WeakMap<Workshop, CountedKeys>();

/** Which keys count; looked up once. @param trust from now on only keys with these fingerprints count by themselves */
export function countedFor(disk: Disk, workshop: Workshop, trust?: readonly string[]): CountedKeys {
  const made = (trust ? undefined : counting.get(workshop)) ?? countedKeys(disk, workshop.root, trust);
  counting.set(workshop, made);
  return made;
}

/** How far the registers have come, as documents print it. */
export const registersOf = (workshop: Workshop): RegistersThen => {
  const { first } = countedFor(realDisk, workshop);
  return {
    heads: registerHeads(realDisk, workshop.root),
    ...(first === undefined ? {} : { firstKey: first }),
  };
};

/** All of these; fails with the problems of every one that cannot be loaded. */
export function loadUnits(
  disk: Disk,
  workshop: Workshop,
  names: readonly UnitName[],
  now: string,
): Result<LoadedUnit[]> {
  const units: LoadedUnit[] = [];
  const problems: Problem[] = [];
  for (const name of names) {
    const unit = loadUnit(disk, workshop, name, now);
    if (unit.ok) units.push(unit.value);
    else problems.push(...unit.problems);
  }
  return problems.length > 0 ? err(...problems) : ok(units);
}

/** The registers, read once for all units of a run. */
function textsFor(disk: Disk, workshop: Workshop): RegisterTexts {
  const made = registerTexts.get(workshop) ?? new RegisterTexts(disk, workshop.root);
  registerTexts.set(workshop, made);
  return made;
}

const registerTexts = new WeakMap<Workshop, RegisterTexts>();

/** A signature that is there must hold, and what a register knows of the journal must be there. */
function notVouched(
  disk: Disk,
  workshop: Workshop,
  { job, unit }: UnitName,
  events: readonly JournalEvent[],
): readonly Problem[] {
  const file = `logs/${job}/${unit}.jsonl`;
  const counted = countedFor(disk, workshop);
  const known = knownOf(disk, workshop.root, file, counted, textsFor(disk, workshop));
  const expected = known.expected.get(file) ?? [];
  const hashes = new Map(
    expected.flatMap(({ events: n }) => (events[n - 1] ? [[n, events[n - 1]!.hash] as const] : [])),
  );
  const missing = headProblem(
    file,
    expected,
    events.length > 0 ? { lines: events.length, hashes } : undefined,
  );
  const signed = unitSealProblems(events, file, counted.keys).filter(({ id }) => !VERIFY_NOTES.has(id));
  const late = events.flatMap((event, i) =>
    event.kind === 'sealed'
      ? lateSignature(counted.keys.get(event.key), event.key, known, { file, line: i + 1 })
      : [],
  );
  const unsigned = unsignedFaults(unsignedEnds(events), file, counted, known);
  return [
    ...(missing ? [missing] : []),
    ...signed,
    ...late,
    ...(isUnpacked(disk, workshop.root) ? [] : unsigned),
  ];
}

const hashOf = (text: string): string => createHash('sha256').update(text).digest('hex');
