/** `record`: the quality record of a unit, of a job, or of every unit chosen by period, as a document. */
import { extname } from 'node:path';
import { plain } from '../ground/plain.js';
import { type Problem, problemText, raiser } from '../ground/problem.js';
import type { Document } from '../record/blocks.js';
import type { RecordContext } from '../record/context.js';
import { recordCsv } from '../record/csv.js';
import { declarationDocument } from '../record/declaration.js';
import { htmlOf } from '../record/html.js';
import { collectionDocument } from '../record/jobblocks.js';
import { type Chosen, collectionView } from '../record/jobview.js';
import { RECORD_MESSAGES } from '../record/messages.js';
import type { CollectionView, RecordView } from '../record/schema.js';
import { textOf } from '../record/text.js';
import { unitDocument } from '../record/unitblocks.js';
import { recordView } from '../record/view.js';
import { realDisk } from '../store/disk.js';
import { openWorkshop, type Workshop } from '../store/workshop.js';
import { documentAssets } from './assets.js';
import { EXIT, type Io } from './io.js';
import { readOptions } from './options.js';
import { writeDocument } from './outfile.js';
import { recordContextOf } from './recordcontext.js';
import { exitOf, knownUnits, type LoadedUnit, loadUnit, named, type UnitName } from './unitload.js';

const raise = raiser(RECORD_MESSAGES);

const FORMATS = ['text', 'html', 'json', 'csv', 'pdf'] as const;
type Format = (typeof FORMATS)[number];

const HELP = `pinchrod record [UNIT | JOB] [--format text|html|json|csv|pdf] [--out FILE] [--initials] [--declaration]
       [--since DATE] [--until DATE] [--job JOB] [--snagged] [--schema]

The quality record of a unit or of a whole job: first whether it is finished and what is missing, then everything that was
checked. Without a name, every unit that was worked on from --since to --until (dates, both included). --snagged keeps only
units with a snag. --initials puts initials in place of people's names. --declaration gives the sheet of particulars under
EN 14351-1 instead. --schema prints the JSON format's schema. Without --format, by the ending of --out; else text.

Examples:
  pinchrod record P02-1
  pinchrod record pier-house --format pdf --out pier-house.pdf --initials
  pinchrod record --since 2026-03-01 --until 2026-03-31 --snagged --format csv --out march.csv
Exit codes: 0 written (finished or not), 1 a journal or what a unit was built from does not hold, 2 used wrongly, 3 the disk failed.`;

const OPTIONS = {
  format: { type: 'string' },
  out: { type: 'string' },
  initials: { type: 'boolean' },
  declaration: { type: 'boolean' },
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
  readonly since: string | undefined;
  readonly until: string | undefined;
  readonly job: string | undefined;
  readonly snagged: boolean;
}

export async function run(args: string[], io: Io): Promise<number> {
  const read = readOptions(args, io, HELP, OPTIONS, { most: 1 });
  if (typeof read === 'number') return read;
  if (read.values.schema) return printSchema(io, read.positionals[0] === undefined);
  const wish = wishOf(read.values, read.positionals[0]);
  if ('id' in wish) return said(io, [wish]);
  const workshop = openWorkshop(io.workshop, realDisk);
  if (!workshop.ok) return said(io, workshop.problems);
  return produce(workshop.value, wish, io);
}

function wishOf(
  values: { readonly [K in keyof typeof OPTIONS]?: string | boolean | undefined },
  word: string | undefined,
): Wish | Problem {
  const option = (name: 'out' | 'since' | 'until' | 'job') => values[name] as string | undefined;
  const ending = extname(option('out') ?? '').slice(1);
  const asked = (values.format as string | undefined) ?? { txt: 'text', htm: 'html' }[ending] ?? ending;
  const format = FORMATS.find((each) => each === asked) ?? (values.format === undefined ? 'text' : undefined);
  if (!format)
    return raise(
      'record.option',
      `--format "${asked}" is not known.`,
      undefined,
      `Use one of ${FORMATS.join(', ')}.`,
    );
  for (const name of ['since', 'until'] as const)
    if (option(name) !== undefined && !/^\d{4}-\d\d-\d\d$/.test(option(name)!))
      return raise(
        'record.option',
        `--${name} "${option(name)}" is no date.`,
        undefined,
        'Write it as 2026-03-31.',
      );
  const period = option('since') ?? option('until') ?? option('job') ?? values.snagged;
  if (word === undefined && period === undefined)
    return raise(
      'record.option',
      'No unit, job or period is named.',
      undefined,
      'pinchrod record --help tells what it takes.',
    );
  return {
    word,
    format,
    out: option('out'),
    initials: values.initials === true,
    declaration: values.declaration === true,
    since: option('since'),
    until: option('until'),
    job: option('job'),
    snagged: values.snagged === true,
  };
}

async function produce(workshop: Workshop, wish: Wish, io: Io): Promise<number> {
  const known = knownUnits(workshop, realDisk);
  const one = wish.word === undefined ? undefined : named(wish.word, known.units);
  if (one && !one.ok) return said(io, [...one.problems, ...known.problems]);
  const at = new Date().toISOString();
  const contextFor = (unit: LoadedUnit | undefined): RecordContext =>
    recordContextOf(workshop, unit, { at, initials: wish.initials });
  const view = (unit: LoadedUnit) => recordView(unit.state, unit.plan.setOut, contextFor(unit));

  if (one?.value.kind === 'unit') {
    const unit = loadUnit(realDisk, workshop, one.value.name, at);
    if (!unit.ok) return said(io, unit.problems);
    const record = view(unit.value);
    const document = wish.declaration
      ? declarationDocument(workshop.particulars, record)
      : unitDocument(record);
    return write(wish, io, document, record, [record]);
  }
  const jobName = one?.value.kind === 'job' ? one.value.job : wish.job;
  const names = one?.value.kind === 'job' ? one.value.units : known.units;
  const chosen = choose(workshop, names, { ...wish, job: jobName }, at);
  if (chosen.problems.length > 0) return said(io, chosen.problems);
  const records = chosen.units.map(view);
  const collection = collectionView(
    records,
    describe(wish, jobName, chosen.notBegun),
    contextFor(chosen.units[0]),
  );
  return write(wish, io, collectionDocument(collection), collection, records);
}

/** Units that answer to the wish, in the job's order. Units without a journal count as not begun where a whole job is asked for. */
function choose(workshop: Workshop, names: readonly UnitName[], wish: Wish, now: string) {
  const units: LoadedUnit[] = [];
  const notBegun: string[] = [];
  const problems: Problem[] = [];
  for (const name of names) {
    if (wish.job !== undefined && name.job !== wish.job) continue;
    const unit = loadUnit(realDisk, workshop, name, now);
    if (!unit.ok) {
      problems.push(...unit.problems);
      continue;
    }
    const { events, snags } = unit.value.state;
    if (events.length === 0) {
      notBegun.push(name.unit);
      continue;
    }
    const worked = events.some(
      ({ at }) =>
        (wish.since === undefined || at.slice(0, 10) >= wish.since) &&
        (wish.until === undefined || at.slice(0, 10) <= wish.until),
    );
    if (worked && (!wish.snagged || snags.length > 0)) units.push(unit.value);
  }
  return { units, notBegun, problems };
}

function describe(wish: Wish, job: string | undefined, notBegun: readonly string[]): Chosen {
  const filters = [
    ...(wish.since === undefined ? [] : [`from ${wish.since}`]),
    ...(wish.until === undefined ? [] : [`to ${wish.until}`]),
  ];
  const chosen = [
    ...(filters.length > 0 ? [`worked on ${filters.join(' ')}`] : []),
    ...(wish.snagged ? ['with a snag'] : []),
  ].join(', ');
  const only = chosen === '' ? '' : `only units ${chosen}`;
  return job === undefined
    ? { kind: 'period', title: filters.length > 0 ? `units ${filters.join(' ')}` : 'all units', chosen: only }
    : { kind: 'job', title: `job ${job}`, chosen: only, notBegun: only === '' ? notBegun : [] };
}

async function write(
  wish: Wish,
  io: Io,
  document: Document,
  view: RecordView | CollectionView,
  records: readonly RecordView[],
): Promise<number> {
  if (wish.format === 'pdf' && wish.out === undefined)
    return said(io, [raise('record.needs-out', 'A PDF cannot be printed into a terminal.')]);
  const content = await drawn(wish.format, document, view, records);
  if (wish.out === undefined) {
    io.out(String(content).trimEnd());
    return EXIT.done;
  }
  const wrote = writeDocument(realDisk, io.workshop, wish.out, content);
  if (!wrote.ok) return said(io, wrote.problems);
  io.out(`${plain(wrote.value)}: ${document.subject}`);
  return EXIT.done;
}

async function drawn(
  format: Format,
  document: Document,
  view: RecordView | CollectionView,
  records: readonly RecordView[],
): Promise<string | Uint8Array> {
  switch (format) {
    case 'text':
      return textOf(document);
    case 'html':
      return htmlOf(document);
    case 'csv':
      return recordCsv(records);
    case 'json':
      return (await import('../record/json.js')).recordJson(view);
    case 'pdf':
      return (await import('../record/pdf.js')).pdfOf(document, documentAssets());
  }
}

async function printSchema(io: Io, both: boolean): Promise<number> {
  const { collectionJsonSchema, recordJsonSchema } = await import('../record/json.js');
  io.out(
    JSON.stringify(
      both ? { record: recordJsonSchema(), records: collectionJsonSchema() } : recordJsonSchema(),
      null,
      2,
    ),
  );
  return EXIT.done;
}

function said(io: Io, problems: readonly Problem[]): number {
  for (const problem of problems) io.err(problemText(problem));
  return exitOf(problems);
}
