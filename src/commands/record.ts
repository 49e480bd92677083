/** `record`: the quality record of a unit, of a job, or of all units in a period, as a document. */
import { isDay } from '../base/dates.js';
import { err, type Problem, problemFactory, problemTold, type Result } from '../base/problem.js';
import { sanitize } from '../base/text.js';
import { data } from '../base/words.js';
import { RECORD_MESSAGES } from '../record/messages.js';
import type { JobFilter } from '../record/schema.js';
import { realDisk } from '../store/disk.js';
import { findIndex } from '../store/findindex.js';
import { listJournals } from '../store/journals.js';
import { HOUSE_FILE, openWorkshop, type Workshop } from '../store/workshop.js';
import { answersTo } from '../unit/summary.js';
import { tellLost } from './catalogue.js';
import {
  byTheClock,
  type Drawable,
  drawn,
  FORMATS,
  type Format,
  formatOf,
  languageProblem,
  madeNow,
  ofUnit,
  ofUnits,
  writeDocument,
} from './documents.js';
import { HELP } from './help.js';
import { asJson, EXIT, fail, type Io, readOptions, tellOf } from './io.js';
import { type LoadedUnit, loadUnit, loadUnits, named, type UnitName } from './unitload.js';

const raise = problemFactory(RECORD_MESSAGES);

const OPTIONS = {
  format: { type: 'string' },
  out: { type: 'string' },
  initials: { type: 'boolean' },
  declaration: { type: 'boolean' },
  credential: { type: 'boolean' },
  annex: { type: 'boolean' },
  paper: { type: 'string' },
  language: { type: 'string' },
  since: { type: 'string' },
  until: { type: 'string' },
  job: { type: 'string' },
  snagged: { type: 'boolean' },
  schema: { type: 'boolean' },
} as const;

interface Wish {
  readonly word: string | undefined;
  readonly format: Format;
  readonly out: string | undefined;
  readonly initials: boolean;
  readonly declaration: boolean;
  readonly credential: boolean;
  readonly annex: boolean;
  readonly paper: 'letter' | undefined;
  readonly language: string | undefined;
  readonly since: string | undefined;
  readonly until: string | undefined;
  readonly job: string | undefined;
  readonly snagged: boolean;
}

export async function run(args: string[], io: Io): Promise<number> {
  const read = readOptions(args, io, HELP.record, OPTIONS, { most: 1 });
  if (typeof read === 'number') return read;
  if (read.values.schema) return printSchema(io, read.positionals[0] === undefined);
  const options = wishOf(read.values, read.positionals[0]);
  if ('id' in options) return said(io, [options]);
  const unspoken = await languageProblem(options.language);
  if (unspoken) return said(io, [unspoken]);
  const workshop = openWorkshop(io.workshop, realDisk, { back: true });
  if (!workshop.ok) return said(io, workshop.problems);
  return produce(workshop.value, options, io);
}

function wishOf(
  values: { readonly [K in keyof typeof OPTIONS]?: string | boolean | undefined },
  word: string | undefined,
): Wish | Problem {
  const option = (name: 'out' | 'since' | 'until' | 'job' | 'paper' | 'language') =>
    values[name] as string | undefined;
  const format = formatOf(
    (values.format as string | undefined) ?? (values.credential === true ? 'json' : undefined),
    option('out'),
    FORMATS,
  );
  if (typeof format !== 'string') return format;
  for (const name of ['since', 'until'] as const)
    if (option(name) !== undefined && !isDay(option(name)!))
      return raise('record.option/date', { name, name2: option(name)! });
  const [since, until] = [option('since'), option('until')];
  if (since !== undefined && until !== undefined && since > until)
    return raise('record.option/turned', { from: since, to: until });
  const paper = option('paper')?.toLowerCase();
  if (paper !== undefined && paper !== 'a4' && paper !== 'letter')
    return raise('record.option/paper', { paper });
  const period = option('since') ?? option('until') ?? option('job') ?? values.snagged;
  if (
    values.credential === true &&
    (format !== 'json' || values.declaration === true || word === undefined || period !== undefined)
  )
    return raise('record.option/credential');
  if (values.declaration === true && (format === 'csv' || format === 'json'))
    return raise('record.option/declaration', { format });
  if (word === undefined && period === undefined) return raise('record.option/unit');
  return {
    word,
    format,
    out: option('out'),
    initials: values.initials === true,
    declaration: values.declaration === true,
    credential: values.credential === true,
    annex: values.annex === true,
    paper: paper === 'letter' ? paper : undefined,
    // A table of figures is read by programs.
    language: format === 'csv' ? undefined : option('language')?.toLowerCase(),
    since: option('since'),
    until: option('until'),
    job: option('job'),
    snagged: values.snagged === true,
  };
}

async function produce(workshop: Workshop, options: Wish, io: Io): Promise<number> {
  const made = madeNow(workshop, options.initials, options);
  const { at } = made;
  // Times are then told in UTC, and the document says so.
  for (const trouble of workshop.troubles)
    if (trouble.place?.file === HOUSE_FILE) io.err(problemTold(trouble, io.reader?.tell));
  const told = (units: readonly LoadedUnit[]) => byTheClock(workshop, units, made, options.format);
  const asked = askedBy(options);
  if (options.word === undefined && options.job === undefined) {
    const chosen = loadUnits(realDisk, workshop, found(workshop, asked), at);
    return chosen.ok
      ? write(workshop, options, io, ofUnits(workshop, chosen.value, told(chosen.value), { asked }))
      : said(io, chosen.problems);
  }
  const one = named(options.word ?? options.job!, workshop, realDisk);
  if (!one.ok) return said(io, one.problems);
  if (one.value.kind === 'unit' && options.word === undefined)
    return said(io, [raise('record.unknown-unit', { job: options.job! })]);
  if (one.value.kind === 'unit') {
    const unit = loadUnit(realDisk, workshop, one.value.name, at);
    if (!unit.ok) return said(io, unit.problems);
    const product = unit.value.plan.setOut.product;
    if (options.declaration && product !== undefined)
      return said(io, [raise('record.no-declaration', { unit: unit.value.unit, product })]);
    return write(
      workshop,
      options,
      io,
      ofUnit(workshop, unit.value, told([unit.value]), options.declaration ? 'particulars' : 'unit'),
    );
  }
  const { job, units: names } = one.value;
  const begun = new Set(found(workshop, { ...asked, job }).map(({ unit }) => unit));
  const all = new Set(listJournals(realDisk, workshop.root, (each) => each === job).map(({ unit }) => unit));
  const chosen = loadUnits(
    realDisk,
    workshop,
    names.filter(({ unit }) => begun.has(unit)),
    at,
  );
  if (!chosen.ok) return said(io, chosen.problems);
  const ordered = [
    ...names.map(({ unit }) => unit),
    // One that was scrapped is made again under a name that the job does not list.
    ...chosen.value.flatMap(({ state }) => state.replacement ?? []),
  ];
  const notBegun = [...new Set(ordered)].filter((unit) => !all.has(unit));
  return write(
    workshop,
    options,
    io,
    ofUnits(workshop, chosen.value, told(chosen.value), { asked: { ...asked, job }, notBegun }),
  );
}

const askedBy = ({ job, since, until, snagged }: Wish): JobFilter => ({
  ...(job === undefined ? {} : { job }),
  ...(since === undefined ? {} : { since }),
  ...(until === undefined ? {} : { until }),
  ...(snagged ? { snagged } : {}),
});

/** Units with a journal that match the filter. Includes those with an unreadable journal, which are refused later. */
const found = ({ root }: Workshop, asked: JobFilter): UnitName[] =>
  findIndex(realDisk, root).filter(
    ({ job, kept }) => (asked.job === undefined || job === asked.job) && (!kept || answersTo(kept, asked)),
  );

/** Loaded when it is wanted. */
async function credentialOfUnit(
  workshop: Workshop,
  { records: [view, ...more] }: Drawable,
): Promise<Result<string>> {
  if (!view || more.length > 0) return err(raise('record.option/credential'));
  return (await import('./credential.js')).credentialText(workshop, view);
}

async function write(workshop: Workshop, options: Wish, io: Io, drawable: Drawable): Promise<number> {
  if (options.format === 'pdf' && options.out === undefined) return said(io, [raise('record.needs-out/pdf')]);
  const lost = new Set<string>();
  const credential = options.credential ? await credentialOfUnit(workshop, drawable) : undefined;
  if (credential && !credential.ok) return said(io, credential.problems);
  const content = credential?.value ?? (await drawn(options.format, drawable, lost));
  if (options.out === undefined) {
    io.out(data(String(content).trimEnd()));
    return EXIT.done;
  }
  const wrote = writeDocument(realDisk, io.workshop, options.out, content);
  if (!wrote.ok) return said(io, wrote.problems);
  io.out(data(`${sanitize(wrote.value)}: ${drawable.document.subject}`));
  if (lost.size > 0) io.err(tellOf(io)(tellLost(lost)));
  return EXIT.done;
}

async function printSchema(io: Io, both: boolean): Promise<number> {
  const { collectionJsonSchema, recordJsonSchema } = await import('../record/schema.js');
  io.out(
    asJson(both ? { record: recordJsonSchema(), records: collectionJsonSchema() } : recordJsonSchema(), 2),
  );
  return EXIT.done;
}

function said(io: Io, problems: readonly Problem[]): number {
  return fail(io, problems);
}
