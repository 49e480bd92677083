/** A unit's sources, set-out and route. New units use the current workshop files, started ones their frozen sources. */
import { err, ok, problemFactory, type Result, type SourceText } from '../base/problem.js';
import { type LimitsFile, parseLimits } from '../measure/limits.js';
import { inLanguage, routeInLanguage } from '../procedure/inlanguage.js';
import type { Procedure } from '../procedure/model.js';
import { parseProcedure } from '../procedure/parse.js';
import { makeRoute } from '../procedure/route.js';
import type { Route } from '../procedure/types.js';
import { parseHouse } from '../store/company.js';
import type { Disk } from '../store/disk.js';
import { readSource } from '../store/hashed.js';
import { readEvents } from '../store/journal.js';
import { branchNamed } from '../store/paths.js';
import type { Workshop } from '../store/workshop.js';
import { sha256 } from '../unit/chain.js';
import { type EventBody, type Frozen, pinnedSources } from '../unit/events.js';
import { fold } from '../unit/fold.js';
import { replacedBy } from '../unit/replacement.js';
import { digestOf } from '../unit/summary.js';
import type { WorkshopRules } from '../unit/types.js';
import type { UnitState } from '../unit/unitstate.js';
import { contextsOf } from '../window/context.js';
import { type Job, parseJob } from '../window/job.js';
import { type ProfileSet, parseProfileSet } from '../window/profileset.js';
import { setOut } from '../window/setout.js';
import { frozenSetOut } from '../window/setoutjson.js';
import type { SetOut, Unit } from '../window/types.js';
import { lineOf, type ReadUnit } from './board.js';
import type { KeptUnit } from './index.js';
import { BENCH_MESSAGES } from './messages.js';
import type { BoardEntry, JobUnit, Words } from './ports.js';

const raise = problemFactory(BENCH_MESSAGES);

type DecisionRule = WorkshopRules['decisionRule'];

export interface BuiltFrom {
  readonly job: Job;
  readonly set: ProfileSet;
  readonly procedure: Procedure;
  readonly limits: LimitsFile;
  /** How readings are judged; absent: as the workshop judges now. */
  readonly decisionRule?: DecisionRule;
  /** Texts by kind, as frozen. */
  readonly texts: Readonly<Record<string, string>>;
}

export interface Plan {
  readonly unit: Unit;
  readonly from: BuiltFrom;
  readonly setOut: SetOut;
  readonly route: Route;
}

/** A job's sources from the current workshop files. */
export function builtFromNow(workshop: Workshop, jobName: string): Result<BuiltFrom> {
  const job = workshop.jobs.get(jobName);
  if (!job.ok) return job;
  const set = workshop.profileSets.get(job.value.value.profileSet);
  const procedure = workshop.procedures.get(job.value.value.procedure);
  if (!set.ok || !procedure.ok)
    return err(...[set, procedure].flatMap((each) => (each.ok ? [] : each.problems)));
  const texts = {
    job: job.value.source.text,
    profileSet: set.value.source.text,
    procedure: procedure.value.source.text,
    limits: workshop.sources.limits.text,
  };
  const from = {
    job: job.value.value,
    set: set.value.value,
    procedure: procedure.value.value,
    limits: workshop.limits,
    decisionRule: workshop.rules.decisionRule,
  };
  // Spares reparsing for units started with exactly these texts.
  keepOpened(workshop, jobName);
  keep('profileSet', sha256(texts.profileSet), from.set, texts.profileSet);
  keep('procedure', sha256(texts.procedure), from.procedure, texts.procedure);
  return ok({ ...from, texts });
}

/** Caches what opening the workshop and its job has parsed, for units that froze exactly these texts. */
export function keepOpened(workshop: Workshop, jobName: string): void {
  const { limits, sources } = workshop;
  keep('limits', sha256(sources.limits.text), limits, sources.limits.text);
  const job = workshop.jobs.get(jobName);
  if (job.ok) keep('job', sha256(job.value.source.text), job.value.value, job.value.source.text);
}

/** Sources frozen by the unit's first event or a later revision. Texts with a known hash are not parsed again. */
export function builtFromFrozen(disk: Disk, root: string, opened: Frozen): Result<BuiltFrom> {
  const frozen = <T>(kind: string, parse: (source: SourceText) => Result<T>): Result<Parsed<T>> => {
    const hash = opened.sources[kind];
    if (hash === undefined) return err(raise('bench.not-frozen', { unit: opened.unit, kind }));
    const before = parsed.get(`${kind} ${hash}`) as Parsed<T> | undefined;
    if (before) return ok(before);
    const read = readSource(disk, root, hash);
    if (!read.ok) return read;
    const ending = kind === 'job' ? jobEnding(read.value) : '';
    const result = parse({ file: `logs/sources/${hash}${ending}`, text: read.value });
    return result.ok ? ok(keep(kind, hash, result.value, read.value)) : result;
  };
  const job = frozen('job', parseJob);
  const set = frozen('profileSet', parseProfileSet);
  const procedure = frozen('procedure', parseProcedure);
  const limits = frozen('limits', parseLimits);
  const house = opened.sources.rules === undefined ? ok(undefined) : frozen('rules', parseHouse);
  if (!job.ok || !set.ok || !procedure.ok || !limits.ok || !house.ok)
    return err(...[job, set, procedure, limits, house].flatMap((each) => (each.ok ? [] : each.problems)));
  return ok({
    ...(house.value ? { decisionRule: house.value.value.rules.decisionRule } : {}),
    job: job.value.value,
    set: set.value.value,
    procedure: procedure.value.value,
    limits: limits.value.value,
    texts: {
      job: job.value.text,
      profileSet: set.value.text,
      procedure: procedure.value.text,
      limits: limits.value.text,
    },
  });
}

interface Parsed<T> {
  readonly value: T;
  readonly text: string;
}

/** Parsed texts by kind and hash: most units of a workshop share the same few. */
const parsed = new Map<string, Parsed<unknown>>();

function keep<T>(kind: string, hash: string, value: T, text: string): Parsed<T> {
  const made = { value, text };
  parsed.set(`${kind} ${hash}`, made);
  return made;
}

/** Set-out and route. Fails if the job has no such unit or the profile set lacks something the procedure needs. */
export function planOf(from: BuiltFrom, unitId: string): Result<Plan> {
  const unit = unitOf(from.job, unitId);
  if (!unit) return err(raise('bench.no-unit/job', { job: from.job.name, unitId }));
  const made = setOut(unit, from.set);
  const route = makeRoute(from.procedure, contextsOf(made));
  if (!route.ok) return route;
  const { revision } = from.job;
  const ofOrder = revision === '' ? route.value : { ...route.value, order: revision };
  return ok({ unit, from, setOut: made, route: ofOrder }, route.warnings);
}

/** The unit with this id, or the listed unit that it replaces, under its own id. */
function unitOf(job: Job, id: string): Unit | undefined {
  // A branch is of the unit whose name it begins with.
  const of = branchNamed(id)?.unit ?? id;
  const unit = job.units.find((each) => each.id === of);
  if (unit) return of === id ? unit : { ...unit, id };
  const listed = job.units.find((each) => each.id === replacedBy(id)?.listed);
  return listed && { ...listed, id };
}

/** A frozen job has no file name, so guess from the content: a table does not start like YAML. */
const jobEnding = (text: string): string =>
  /^\s*(#|---|format\s*:)/m.test(text.slice(0, 500)) ? '.yaml' : '.csv';

// A unit's first event and the texts it freezes.

/** Texts by kind: the workshop files as they were, and the resulting set-out. */
export function frozenTexts({ from, setOut }: Plan): Readonly<Record<string, string>> {
  return { ...from.texts, setout: frozenSetOut(setOut) };
}

/** @param sources hashes of those texts, as returned by the store */
export function openedBody({ unit, from }: Plan, sources: Readonly<Record<string, string>>): EventBody {
  const again = from.job.units.some(({ id }) => id === unit.id) ? undefined : replacedBy(unit.id);
  return {
    kind: 'opened',
    unit: unit.id,
    job: unit.job,
    sources: { ...sources },
    procedure: { name: from.procedure.name, version: from.procedure.version },
    profileSet: from.set.name,
    program: typeof PINCHROD_VERSION === 'undefined' ? 'source' : PINCHROD_VERSION,
    ...(again ? { replaces: again.replaces } : {}),
  };
}

// The open unit's steps in the languages that its procedure has been translated into.

export function wordsOf(plan: Plan, workshop: Workshop): Words {
  const { procedure } = plan.from;
  const routes = new Map<string, Route | undefined>();
  return {
    own: procedure.language,
    others: workshop.translations.names
      .filter((each) => each.procedure === procedure.name && each.language !== procedure.language)
      .map(({ language }) => language),
    route(language) {
      if (!routes.has(language)) routes.set(language, told(plan, workshop, language));
      return routes.get(language);
    },
  };
}

/** The unit's state with its steps in the words of a route in another language. */
export function stateWorded(state: UnitState, route: Route): UnitState {
  const words = new Map(route.steps.map((step) => [step.id, step]));
  const steps = new Map(
    [...state.steps].map(([id, each]) => [id, { ...each, step: words.get(id) ?? each.step }]),
  );
  return { ...state, route, steps };
}

/** Undefined if there is no usable translation; `lint` reports what is wrong with it. */
function told({ from, setOut, route }: Plan, workshop: Workshop, language: string): Route | undefined {
  const current = workshop.procedures.get(from.procedure.name);
  if (!current.ok) return undefined;
  const translated = workshop.translations.of(current.value.value, language);
  if (!translated?.ok) return undefined;
  const procedure = inLanguage(from.procedure, current.value.value, translated.value);
  const worded = routeInLanguage(route, procedure, contextsOf(setOut));
  return worded.ok ? worded.value : undefined;
}

/** A begun unit as its journal tells it. */
function begunUnit(disk: Disk, root: string, job: string, unit: string, now: string) {
  const events = readEvents(disk, root, job, unit);
  if (!events.ok) return events;
  const frozen = pinnedSources(events.value);
  if (!frozen) return err(raise('bench.not-frozen/does', { unit }));
  const from = builtFromFrozen(disk, root, frozen);
  const plan = from.ok ? planOf(from.value, unit) : from;
  if (!plan.ok) return plan;
  const { route, setOut } = plan.value;
  const state = fold(route, events.value, { problems: setOut.problems, now });
  return ok({ frozen, plan: plan.value, state });
}

export const unitReader =
  (disk: Disk, root: string): ReadUnit =>
  (job, unit, now): Result<Omit<KeptUnit, 'mark'>> => {
    const begun = begunUnit(disk, root, job, unit, now);
    if (!begun.ok) return begun;
    const { frozen, plan, state } = begun.value;
    const { print, size, sentence } = lineOf(plan.unit, plan.from.set.file.product?.light);
    return ok({ print, size, sentence, sources: frozen.sources, digest: digestOf(state, now) });
  };

/** A unit of the job: as begun, or as today's files would have it made. Undefined where neither can be read. */
export function unitOfJob(
  disk: Disk,
  root: string,
  workshop: Workshop,
  { job, unit, standing }: Pick<BoardEntry, 'job' | 'unit' | 'standing'>,
  now: string,
): JobUnit | undefined {
  if (standing === 'not-started') {
    const from = builtFromNow(workshop, job);
    const plan = from.ok ? planOf(from.value, unit) : from;
    return plan.ok ? { unit, setOut: plan.value.setOut } : undefined;
  }
  const begun = begunUnit(disk, root, job, unit, now);
  return begun.ok ? { unit, setOut: begun.value.plan.setOut, state: begun.value.state } : undefined;
}
