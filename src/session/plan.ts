/**
 * What a unit is built from, and what follows from it: its set-out and its route. A unit that is not begun takes the
 * workshop's files as they are; one that is begun takes those that its first event froze.
 */
import { err, ok, problemFactory, type Result, type SourceText } from '../base/problem.js';
import { type LimitsFile, parseLimits } from '../measure/limits.js';
import { inLanguage, routeInLanguage } from '../procedure/inlanguage.js';
import type { Procedure } from '../procedure/model.js';
import { parseProcedure } from '../procedure/parse.js';
import { makeRoute } from '../procedure/route.js';
import type { Route } from '../procedure/types.js';
import type { Disk } from '../store/disk.js';
import { readSource } from '../store/hashed.js';
import type { Workshop } from '../store/workshop.js';
import { sha256 } from '../unit/chain.js';
import type { EventBody, Frozen } from '../unit/events.js';
import { replacedBy } from '../unit/revision.js';
import { contextsOf } from '../window/context.js';
import { type Job, parseJob } from '../window/job.js';
import { type ProfileSet, parseProfileSet } from '../window/profileset.js';
import { setOut } from '../window/setout.js';
import { setOutJson } from '../window/setouttext.js';
import type { SetOut, Unit } from '../window/types.js';
import { BENCH_MESSAGES } from './messages.js';
import type { Words } from './ports.js';

const raise = problemFactory(BENCH_MESSAGES);

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
  };
  // Units begun with these very texts need not have them parsed again.
  keepOpened(workshop, jobName);
  keep('profileSet', sha256(texts.profileSet), from.set, texts.profileSet);
  keep('procedure', sha256(texts.procedure), from.procedure, texts.procedure);
  return ok({ ...from, texts });
}

/** What opening the workshop and its job has parsed, for units that froze these very texts. */
export function keepOpened(workshop: Workshop, jobName: string): void {
  const { limits, sources } = workshop;
  keep('limits', sha256(sources.limits.text), limits, sources.limits.text);
  const job = workshop.jobs.get(jobName);
  if (job.ok) keep('job', sha256(job.value.source.text), job.value.value, job.value.source.text);
}

/** What the unit's first event, or a revision since, froze. A text that was read before under the same hash is not read again. */
export function builtFromFrozen(disk: Disk, root: string, opened: Frozen): Result<BuiltFrom> {
  const frozen = <T>(kind: string, parse: (source: SourceText) => Result<T>): Result<Parsed<T>> => {
    const hash = opened.sources[kind];
    if (hash === undefined)
      return err(raise('bench.not-frozen', `${opened.unit} does not say from which ${kind} it is built.`));
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
  if (!job.ok || !set.ok || !procedure.ok || !limits.ok)
    return err(...[job, set, procedure, limits].flatMap((each) => (each.ok ? [] : each.problems)));
  return ok({
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

/** Parsed texts by kind and content: most units of a workshop are built from the same few. */
const parsed = new Map<string, Parsed<unknown>>();

function keep<T>(kind: string, hash: string, value: T, text: string): Parsed<T> {
  const made = { value, text };
  parsed.set(`${kind} ${hash}`, made);
  return made;
}

/** The unit's numbers and steps. Not ok where the job has no such unit, or the procedure asks for what the set has not. */
export function planOf(from: BuiltFrom, unitId: string): Result<Plan> {
  const unit = unitOf(from.job, unitId);
  if (!unit) return err(raise('bench.no-unit', `Job "${from.job.name}" has no unit "${unitId}".`));
  const made = setOut(unit, from.set);
  const route = makeRoute(from.procedure, contextsOf(made));
  return route.ok ? ok({ unit, from, setOut: made, route: route.value }, route.warnings) : route;
}

/** The job's unit of this id, or the one that it is built in place of, under its own id. */
function unitOf(job: Job, id: string): Unit | undefined {
  const unit = job.units.find((each) => each.id === id);
  if (unit) return unit;
  const listed = job.units.find((each) => each.id === replacedBy(id)?.listed);
  return listed && { ...listed, id };
}

/** A frozen job keeps no name; a table does not begin as YAML does. */
const jobEnding = (text: string): string =>
  /^\s*(#|---|format\s*:)/m.test(text.slice(0, 500)) ? '.yaml' : '.csv';

// A unit's first event, and the texts that it freezes.

declare const PINCHROD_VERSION: string;

/** Texts by kind: the workshop files as they were, and the set-out that followed from them. */
export function frozenTexts({ from, setOut }: Plan): Readonly<Record<string, string>> {
  return { ...from.texts, setout: `${JSON.stringify(setOutJson([setOut]))}\n` };
}

/** `sources` are the hashes of those texts, as the store gave them. */
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

// The open unit's steps in the languages that the workshop translated its procedure into.

/** The same answer as long as unit and workshop are the same. */
export function wordsOf(plan: Plan, workshop: Workshop): Words {
  const before = made.get(plan);
  if (before?.workshop === workshop) return before.words;
  const { procedure } = plan.from;
  const routes = new Map<string, Route | undefined>();
  const words: Words = {
    own: procedure.language,
    others: workshop.translations.names
      .filter((each) => each.procedure === procedure.name && each.language !== procedure.language)
      .map(({ language }) => language),
    route(language) {
      if (!routes.has(language)) routes.set(language, told(plan, workshop, language));
      return routes.get(language);
    },
  };
  made.set(plan, { workshop, words });
  return words;
}

const made = new WeakMap<Plan, { readonly workshop: Workshop; readonly words: Words }>();

/** Undefined where there is no translation that can be used: `lint` says what is wrong with it. */
function told({ from, setOut, route }: Plan, workshop: Workshop, language: string): Route | undefined {
  const current = workshop.procedures.get(from.procedure.name);
  if (!current.ok) return undefined;
  const translated = workshop.translations.of(current.value.value, language);
  if (!translated?.ok) return undefined;
  const procedure = inLanguage(from.procedure, current.value.value, translated.value);
  const worded = routeInLanguage(route, procedure, contextsOf(setOut));
  return worded.ok ? worded.value : undefined;
}
