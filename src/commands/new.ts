/** `new set|job|procedure|instrument NAME`: a commented file to begin with, which lints. */
import { join } from 'node:path';
import { type Problem, problemFactory } from '../base/problem.js';
import { name as nameSchema } from '../base/schemas.js';
import { sanitize } from '../base/text.js';
import { parseInstruments } from '../measure/instruments.js';
import type { Procedure } from '../procedure/model.js';
import { parseProcedure } from '../procedure/parse.js';
import { makeRoute } from '../procedure/route.js';
import { markProblems } from '../session/lintshop.js';
import { realDisk } from '../store/disk.js';
import { writeWhole } from '../store/files.js';
import { shippedFolder } from '../store/makeworkshop.js';
import { openWorkshop, type Workshop } from '../store/workshop.js';
import { contextsOf } from '../window/context.js';
import { beadFor, wholeThickness } from '../window/glass.js';
import { parseJob } from '../window/job.js';
import type { ProfileSet } from '../window/profileset.js';
import { setOut } from '../window/setout.js';
import { COMMAND_MESSAGES } from './catalogue.js';
import { HELP } from './help.js';
import { asJson, EXIT, fail, type Io, readOptions, saying, usageOf } from './io.js';
import { FIRST_SAYS } from './words/first.js';

const raise = problemFactory(COMMAND_MESSAGES);

const KINDS = {
  set: (name: string) => `shared/profile-sets/${name}.yaml`,
  job: (name: string) => `shared/jobs/${name}.yaml`,
  procedure: (name: string) => `procedures/${name}.yaml`,
  instrument: () => 'shared/instruments.yaml',
} as const;
type Kind = keyof typeof KINDS;
const isKind = (word: string | undefined): word is Kind => word !== undefined && Object.hasOwn(KINDS, word);

export async function run(args: string[], io: Io): Promise<number> {
  const read = readOptions(
    args,
    io,
    HELP.new,
    { json: { type: 'boolean' }, set: { type: 'string' }, procedure: { type: 'string' } },
    { least: 2, most: 2 },
  );
  if (typeof read === 'number') return read;
  const { values, positionals } = read;
  const [kind, name] = positionals as [string, string];
  if (!isKind(kind)) return fail(io, [raise('new.kind', { kind, usage: usageOf(HELP.new) })], EXIT.badInput);
  if (!nameSchema.max(20).safeParse(name).success)
    return fail(io, [raise('new.name', { name })], EXIT.badInput);
  const shipped = shippedFolder();
  if (!shipped.ok) return fail(io, shipped.problems);
  const workshop = openWorkshop(io.workshop, realDisk);
  if (!workshop.ok) return fail(io, workshop.problems);
  const file = KINDS[kind](name);
  const beginning = realDisk.read(join(shipped.value, `shared/beginnings/${kind}.yaml`)).toString();
  const first = realDisk.read(join(shipped.value, 'shared/beginnings/procedure.yaml')).toString();
  const used =
    kind === 'job' ? usedBy(workshop.value, name, { job: beginning, procedure: first }, values) : undefined;
  if (used && 'todo' in used) return fail(io, [used], EXIT.badInput);
  const mark = freeMark(workshop.value);
  const text = textOf(beginning, name, used && { ...used, mark });
  const made =
    kind === 'instrument' ? appended(io, workshop.value, file, name, text) : written(io, file, text);
  if (made) return fail(io, [made], EXIT.badInput);
  const procedure = used?.begun === undefined ? undefined : KINDS.procedure(used.procedure);
  const begun = procedure === undefined ? undefined : written(io, procedure, used!.begun!);
  if (begun) return fail(io, [begun], EXIT.badInput);
  const say = saying(io, FIRST_SAYS);
  const told = { file: sanitize(file), name: sanitize(name) };
  if (values.json) io.out(asJson({ made: file, ...(procedure !== undefined && { procedure }) }));
  else if (used) {
    if (procedure !== undefined)
      io.out(say('new-job-procedure', { file: sanitize(procedure), set: sanitize(used.set.name) }));
    io.out(
      say('new-job', {
        ...told,
        set: sanitize(used.set.name),
        procedure: sanitize(used.procedure),
        unit: `${mark}-1`,
      }),
    );
  } else io.out(say(`new-${kind as Exclude<Kind, 'job'>}`, told));
  return EXIT.done;
}

interface Used {
  readonly set: ProfileSet;
  readonly procedure: string;
  readonly glass: string | undefined;
  /** The text of the procedure, where none of the workshop builds the window and one is begun. */
  readonly begun?: string;
}

/**
 * What a job is made of: the set that is asked for, else the one of its name, else that of the workshop's first job; and of
 * the procedures asked for, of its name, of the set's name, of the set's jobs, the first that builds the window; where none
 * does, one that is begun under the set's name.
 */
function usedBy(
  workshop: Workshop,
  name: string,
  beginning: { readonly job: string; readonly procedure: string },
  asked: { readonly set?: string | undefined; readonly procedure?: string | undefined },
): Used | Problem {
  const { profileSets, procedures, jobs } = workshop;
  const known = procedures.names;
  if (asked.procedure !== undefined && !known.includes(asked.procedure))
    return raise('new.unknown/procedure', { name: asked.procedure, known: [...known] });
  const there = jobs.names.flatMap((each) => {
    const job = jobs.get(each);
    return job.ok ? [job.value.value] : [];
  });
  const wanted =
    asked.set ??
    (profileSets.names.includes(name) ? name : (there[0]?.profileSet ?? profileSets.names[0] ?? ''));
  const read = profileSets.names.includes(wanted) ? profileSets.get(wanted) : undefined;
  if (!read) return raise('new.unknown', { name: wanted, known: [...profileSets.names] });
  if (!read.ok) return read.problems[0]!;
  const set = read.value.value;
  const used = (procedure: string): Used => ({ set, procedure, glass: glassOf(set) });
  if (asked.procedure !== undefined) return used(asked.procedure);
  const ofSet = there.filter(({ profileSet }) => profileSet === set.name).map(({ procedure }) => procedure);
  const likely = [name, set.name, ...ofSet, ...known].filter((each) => known.includes(each));
  const procedureOf = (each: string) => {
    const loaded = procedures.get(each);
    return loaded.ok ? loaded.value.value : undefined;
  };
  const able = likely.find((each) => builds(procedureOf(each), used(each), beginning.job));
  if (able !== undefined) return used(able);
  const begun = textOf(beginning.procedure, set.name, undefined);
  const own = parseProcedure({ file: KINDS.procedure(set.name), text: begun });
  return !known.includes(set.name) && own.ok && builds(own.value, used(set.name), beginning.job)
    ? { ...used(set.name), begun }
    : used(likely[0] ?? '');
}

/** Whether the window of the new job can be made of this set by this procedure, with every mark in a step. */
function builds(procedure: Procedure | undefined, used: Used, beginning: string): boolean {
  const job = parseJob({ file: 'new.yaml', text: textOf(beginning, 'new', used) });
  if (!job.ok || !procedure) return false;
  const made = setOut(job.value.units[0]!, used.set);
  const route = makeRoute(procedure, contextsOf(made));
  const kinds = new Set(used.set.file.marks.flatMap(({ kind, wall }) => (wall ? [kind] : [])));
  return route.ok && markProblems(made, route.value, kinds).length === 0;
}

/** The first glass that a bead of the set holds. */
const glassOf = (set: ProfileSet): string | undefined =>
  Object.entries(set.file.glass?.makeups ?? {}).find(([, makeup]) =>
    beadFor(set, wholeThickness(makeup)),
  )?.[0];

/** A mark that no job of the workshop has, so that its units are named by themselves at the bench: W1, W2 … */
function freeMark({ jobs }: Workshop): string {
  const taken = new Set(
    jobs.names.flatMap((each) => {
      const job = jobs.get(each);
      return job.ok ? job.value.value.units.map(({ mark }) => mark.toUpperCase()) : [];
    }),
  );
  let n = 1;
  while (taken.has(`W${n}`)) n++;
  return `W${n}`;
}

function textOf(
  beginning: string,
  name: string,
  used: (Used & { readonly mark?: string }) | undefined,
): string {
  const named = beginning.replaceAll(/\bNAME\b/g, () => name);
  if (!used) return named;
  const { set, procedure, glass, mark = 'W1' } = used;
  return named
    .replaceAll(/\bW1\b/g, () => mark)
    .replace(/\bSET\b/, () => set.name)
    .replace(/\bPROCEDURE\b/, () => procedure)
    .replace(/^glass: .*\n/m, () => (glass === undefined ? '' : `glass: ${glass}\n`));
}

function written(io: Io, file: string, text: string): Problem | undefined {
  if (realDisk.stat(join(io.workshop, file))) return raise('new.there', { file });
  writeWhole(realDisk, join(io.workshop, file), Buffer.from(text));
  return undefined;
}

/** At the end of the list, if that is where the file ends. */
function appended(io: Io, workshop: Workshop, file: string, name: string, text: string): Problem | undefined {
  if (workshop.instruments.some(({ id }) => id.toLowerCase() === name.toLowerCase()))
    return raise('new.there/instrument', { name, file });
  const path = join(io.workshop, file);
  const before = realDisk.read(path).toString();
  const open = before.replace(/^instruments: \[\]\s*$/m, 'instruments:\n');
  const after = `${open.trimEnd()}\n${text}`;
  const read = parseInstruments({ file, text: after });
  if (!read.ok || read.value.length !== workshop.instruments.length + 1)
    return raise('new.by-hand', { file, text: text.trim().split('\n').at(-1)!.trim() });
  writeWhole(realDisk, path, Buffer.from(after));
  return undefined;
}
