/** `ledger`: registers over all units, as documents or as figures for a spreadsheet or a script. */
import { isDay } from '../base/dates.js';
import { type Problem, problemFactory, problemTold } from '../base/problem.js';
import { ledgerOf } from '../record/ledger.js';
import { LEDGERS, type LedgerName } from '../record/ledgercolumns.js';
import {
  type CsvForm,
  type LedgerFacts,
  ledgerCsv,
  ledgerDocument,
  ledgerJson,
} from '../record/ledgerdocument.js';
import { RECORD_MESSAGES } from '../record/messages.js';
import { realDisk } from '../store/disk.js';
import { HOUSE_FILE, openWorkshop } from '../store/workshop.js';
import { booksOf, unitsOf } from './books.js';
import {
  byTheClock,
  FORMATS,
  type Format,
  formatOf,
  languageProblem,
  madeNow,
  ofUnits,
} from './documents.js';
import { HELP } from './help.js';
import { EXIT, fail, type Io, readOptions } from './io.js';
import { putDocument } from './putdocument.js';
import { named } from './unitload.js';

const raise = problemFactory(RECORD_MESSAGES);

const OPTIONS = {
  from: { type: 'string' },
  to: { type: 'string' },
  job: { type: 'string' },
  format: { type: 'string' },
  out: { type: 'string' },
  initials: { type: 'boolean' },
  paper: { type: 'string' },
  language: { type: 'string' },
  separator: { type: 'string' },
  decimal: { type: 'string' },
  bom: { type: 'boolean' },
} as const;
type Values = { readonly [K in keyof typeof OPTIONS]?: string | boolean | undefined };

const SEPARATORS: Readonly<Record<string, CsvForm['separator']>> = {
  ',': ',',
  ';': ';',
  comma: ',',
  semicolon: ';',
  tab: '\t',
};

export async function run(args: string[], io: Io): Promise<number> {
  const read = readOptions(args, io, HELP.ledger, OPTIONS, { least: 1, most: 1 });
  if (typeof read === 'number') return read;
  const wish = wishOf(read.positionals[0]!, read.values);
  if ('todo' in wish) return fail(io, [wish], EXIT.badInput);
  const unspoken = await languageProblem(wish.language);
  if (unspoken) return fail(io, [unspoken], EXIT.badInput);
  const opened = openWorkshop(io.workshop, realDisk, { back: true });
  if (!opened.ok) return fail(io, opened.problems);
  const workshop = opened.value;
  for (const trouble of workshop.troubles)
    if (trouble.place?.file === HOUSE_FILE) io.err(problemTold(trouble, io.reader?.tell));
  const made = madeNow(workshop, wish.initials, { paper: wish.paper, language: wish.language });
  if (wish.job !== undefined) {
    const job = named(wish.job, workshop, realDisk);
    if (!job.ok) return fail(io, job.problems);
    if (job.value.kind === 'unit') return fail(io, [raise('record.unknown-unit', { job: wish.job })]);
  }
  const loaded = unitsOf(workshop, wish.job, made.at);
  if (!loaded.ok) return fail(io, loaded.problems);
  const { view, records } = ofUnits(
    workshop,
    loaded.value,
    byTheClock(workshop, loaded.value, made, 'html'),
    {
      asked: {},
    },
  );
  const { from, to } = wish;
  const books = booksOf(workshop, loaded.value, made, wish.job);
  if (!books.ok) return fail(io, books.problems);
  const facts: LedgerFacts = { made: view.made, workshop: view.workshop, units: records.length, from, to };
  const ledger = ledgerOf(wish.ledger, records, books.value, { from, to });
  return putDocument(
    ledgerDocument(ledger, facts),
    wish,
    { json: () => ledgerJson(ledger, facts), csv: () => ledgerCsv(ledger, wish.csv) },
    io,
  );
}

interface Wish {
  readonly ledger: LedgerName;
  readonly format: Format;
  readonly out: string | undefined;
  readonly initials: boolean;
  readonly from: string | undefined;
  readonly to: string | undefined;
  readonly job: string | undefined;
  readonly paper: 'letter' | undefined;
  readonly language: string | undefined;
  readonly csv: CsvForm;
}

function wishOf(name: string, values: Values): Wish | Problem {
  const option = (key: keyof Values) => values[key] as string | undefined;
  const ledger = LEDGERS.find((each) => each === name.toLowerCase());
  if (!ledger) return raise('record.ledger', { name, known: [...LEDGERS] });
  const format = formatOf(option('format'), option('out'), FORMATS);
  if (typeof format !== 'string') return format;
  const ofCsv = (['separator', 'decimal', 'bom'] as const).find((key) => values[key] !== undefined);
  if (ofCsv !== undefined && format !== 'csv') return raise('record.option/csv', { name: ofCsv });
  if (format === 'pdf' && option('out') === undefined) return raise('record.needs-out/pdf');
  for (const key of ['from', 'to'] as const)
    if (option(key) !== undefined && !isDay(option(key)!))
      return raise('record.option/date', { name: key, name2: option(key)! });
  const {
    from,
    to,
    paper,
    separator = ',',
    decimal = '.',
  } = {
    from: option('from'),
    to: option('to'),
    paper: option('paper')?.toLowerCase(),
    separator: option('separator'),
    decimal: option('decimal'),
  };
  if (from !== undefined && to !== undefined && from > to) return raise('record.option/turned', { from, to });
  if (paper !== undefined && paper !== 'a4' && paper !== 'letter')
    return raise('record.option/paper', { paper });
  const parts = SEPARATORS[separator];
  if (parts === undefined) return raise('record.option/separator', { separator });
  if (decimal !== '.' && decimal !== ',') return raise('record.option/decimal', { decimal });
  return {
    ledger,
    format,
    out: option('out'),
    initials: values.initials === true,
    from,
    to,
    job: option('job'),
    paper: paper === 'letter' ? paper : undefined,
    language: option('language')?.toLowerCase(),
    csv: { bom: values.bom === true, separator: parts, decimal },
  };
}
