/** `new set|job|procedure|instrument NAME`: a commented file to begin with, which lints. */
import { join } from 'node:path';
import { type Problem, problemFactory } from '../base/problem.js';
import { name as nameSchema } from '../base/schemas.js';
import { sanitize } from '../base/text.js';
import { data } from '../base/words.js';
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
import { askAll, canAsk } from './asking.js';
import { COMMAND_MESSAGES } from './catalogue.js';
import { HELP } from './help.js';
import { asJson, EXIT, fail, type Io, readOptions, saying, usageOf } from './io.js';
import {
  SECTION_OPTIONS,
  type Section,
  type SectionFlags,
  sectionGiven,
  sectionQuestions,
  withSection,
} from './section.js';
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
    { json: { type: 'boolean' }, set: { type: 'string' }, procedure: { type: 'string' }, ...SECTION_OPTIONS },
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
  const beginning = (of: Kind) =>
    realDisk.read(join(shipped.value, `shared/beginnings/${of}.yaml`)).toString();
  const say = saying(io, FIRST_SAYS);
  const file = KINDS[kind](name);
  const told = { file: sanitize(file), name: sanitize(name) };
  if (kind === 'job') {
    const begun = beginJob(io, workshop.value, name, beginning, values);
    if ('todo' in begun) return fail(io, [begun], EXIT.badInput);
    tellJob(io, begun, values.json === true);
    return EXIT.done;
  }
  if (kind === 'set') {
    const section = await sectionFor(name, file, values, io);
    if (section === 'left') {
      io.out(say('first-nothing'));
      return EXIT.doesNotHold;
    }
    if (section && 'todo' in section) return fail(io, [section], EXIT.badInput);
    const text = textOf(beginning(kind), name, undefined);
    const made = written(io, file, section ? withSection(text, section) : text);
    if (made) return fail(io, [made], EXIT.badInput);
    if (section) return firstWindow(io, name, file, section, beginning, values.json === true);
  } else {
    const text = textOf(beginning(kind), name, undefined);
    const made =
      kind === 'instrument' ? appended(io, workshop.value, file, name, text) : written(io, file, text);
    if (made) return fail(io, [made], EXIT.badInput);
  }
  if (values.json) io.out(asJson({ made: file }));
  else io.out(say(`new-${kind}`, told));
  return EXIT.done;
}

/** From options, or asked for at a terminal; undefined where the made-up figures are to stand. */
async function sectionFor(
  name: string,
  file: string,
  flags: SectionFlags,
  io: Io,
): Promise<Section | Problem | 'left' | undefined> {
  const given = sectionGiven(flags);
  if (given || !canAsk(io) || realDisk.stat(join(io.workshop, file))) return given;
  const talk = sectionQuestions(sanitize(name), io);
  await askAll(talk, io);
  return talk.answers() ?? 'left';
}

/** A job and, where there is none, a procedure for the window to try; and a sum that can be done by hand. */
function firstWindow(
  io: Io,
  name: string,
  file: string,
  section: Section,
  beginning: (of: Kind) => string,
  json: boolean,
): number {
  const workshop = openWorkshop(io.workshop, realDisk);
  if (!workshop.ok) return fail(io, workshop.problems);
  const begun = beginJob(io, workshop.value, name, beginning, { set: name }, section);
  if ('todo' in begun) return fail(io, [begun], EXIT.badInput);
  if (json) io.out(asJson({ made: file, job: begun.file, ...procedureIn(begun) }));
  else {
    const say = saying(io, FIRST_SAYS);
    const files = [
      [file, say('section-set')],
      ...(begun.procedure === undefined ? [] : [[begun.procedure, say('section-procedure')] as const]),
      [begun.file, say('section-job')],
    ] as const;
    for (const [name, what] of files) io.out(data(sanitize(name).padEnd(32) + what));
    const { face, cover, width, height } = section;
    const glass = (side: number) => Math.round((side - 2 * face + 2 * cover) * 100) / 100;
    const sum = { width, face, cover, w: glass(width), h: glass(height) };
    io.out(say('section-made', { ...sum, unit: `${begun.mark}-1` }));
  }
  return EXIT.done;
}

interface Begun {
  readonly used: Used;
  readonly name: string;
  readonly file: string;
  readonly mark: string;
  /** A procedure that was begun with it. */
  readonly procedure?: string;
}

/** Writes a job of one window, and a procedure where none of the workshop builds it. @param size of the window, overall */
function beginJob(
  io: Io,
  workshop: Workshop,
  name: string,
  beginning: (of: Kind) => string,
  asked: { readonly set?: string | undefined; readonly procedure?: string | undefined },
  size?: Pick<Section, 'width' | 'height'>,
): Begun | Problem {
  const texts = { job: beginning('job'), procedure: beginning('procedure') };
  const used = usedBy(workshop, name, texts, asked);
  if ('todo' in used) return used;
  const mark = freeMark(workshop);
  const file = KINDS.job(name);
  const text = textOf(texts.job, name, { ...used, mark });
  const sized = size
    ? text.replace('width: 900', `width: ${size.width}`).replace('height: 1200', `height: ${size.height}`)
    : text;
  const procedure = used.begun === undefined ? undefined : KINDS.procedure(used.procedure);
  const made =
    written(io, file, sized) ?? (procedure === undefined ? undefined : written(io, procedure, used.begun!));
  return made ?? { used, name, file, mark, ...(procedure === undefined ? {} : { procedure }) };
}

const procedureIn = ({ procedure }: Begun) => (procedure === undefined ? {} : { procedure });

function tellJob(io: Io, begun: Begun, json: boolean): void {
  const { used, name, file, mark, procedure } = begun;
  if (json) {
    io.out(asJson({ made: file, ...procedureIn(begun) }));
    return;
  }
  const say = saying(io, FIRST_SAYS);
  const set = sanitize(used.set.name);
  if (procedure !== undefined) io.out(say('new-job-procedure', { file: sanitize(procedure), set }));
  io.out(
    say('new-job', {
      file: sanitize(file),
      name: sanitize(name),
      set,
      procedure: sanitize(used.procedure),
      unit: `${mark}-1`,
    }),
  );
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
