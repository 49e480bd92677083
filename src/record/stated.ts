/**
 * What a document of version 0.1.0 states of facts that no journal of its time keeps: the maker, names, and instruments with
 * their calibration, read from its own tables. The document is then made anew with them and compared whole.
 */
import type { Instrument } from '../measure/types.js';
import type { Told } from './basis.js';
import { CHARACTERISTICS, FIELDS, inFile, NO_PARTICULARS } from './particulars.js';
import { pdfTexts } from './pdfdiffer.js';
import type { RecordView } from './schema.js';
import { DOCUMENT_WORDS } from './words/en.js';

/** An instrument as a table shows it. */
interface Row {
  readonly id: string;
  readonly title: string;
  readonly kind: string;
  readonly class: string;
  readonly resolution: string;
  readonly calibrated: string;
  readonly due: string;
  readonly certificate: string;
}

/**
 * @param records made anew with ids in the place of names; they tell which rows there must be
 * @param orders ids of each record's people, as `peopleIn` gives them
 * @param today instruments as listed now, for what a table does not show
 * @returns undefined where the tables cannot be read
 */
export function toldBy(
  document: {
    readonly format: 'json' | 'html' | 'text' | 'pdf';
    readonly bytes: Buffer;
    readonly data?: unknown;
  },
  records: readonly RecordView[],
  orders: readonly (readonly string[])[],
  today: readonly Instrument[],
): Told[] | undefined {
  const { format, bytes } = document;
  if (format === 'json') {
    const views =
      'records' in (document.data as object)
        ? (document.data as { records: RecordView[] }).records
        : [document.data as RecordView];
    return views.map((view, i) =>
      told(records[i], orders[i] ?? [], view, view.workshop, today, view.drawing?.title),
    );
  }
  const { text, tokens } = read(format, bytes);
  let from = 0;
  const out: Told[] = [];
  for (const [i, record] of records.entries()) {
    const rows = readRows(tokens, from, record);
    const people = rows && readNames(tokens, rows.end, record);
    if (!rows || !people) return undefined;
    out.push(
      told(
        record,
        orders[i] ?? [],
        { people: people.found, instruments: rows.found },
        makerIn(format, text, tokens),
        today,
        tokens.find((each) => /meet at the/.test(each)),
      ),
    );
    from = people.end;
  }
  return out;
}

function read(format: 'html' | 'text' | 'pdf', bytes: Buffer) {
  const text = bytes.toString('utf8');
  const tokens = {
    html: () => htmlTokens(text),
    text: () => textTokens(text),
    pdf: () => pdfTexts(bytes),
  }[format]();
  return { text, tokens };
}

/** The maker's particulars as a sheet of them states them. */
export function particularsBy({
  format,
  bytes,
}: {
  readonly format: 'json' | 'html' | 'text' | 'pdf';
  readonly bytes: Buffer;
}): Told | undefined {
  if (format === 'json') return undefined;
  const { text, tokens } = read(format, bytes);
  // In a text, label and value stand in one line, two blanks apart.
  const cells = tokens.flatMap((each) => each.split(/ {2,}/));
  const from = cells.lastIndexOf('Particulars', cells.indexOf('Declared levels and classes'));
  const title = (key: (typeof FIELDS)[number]) => DOCUMENT_WORDS[`doc-field-${key}`].text as string;
  const labels = new Set([...FIELDS.map(title), ...CHARACTERISTICS.map(inFile)]);
  const values = new Map<string, string>();
  let label: string | undefined;
  const rows = cells.slice(from + 1, cells.lastIndexOf('The window'));
  for (let i = 0; i < rows.length; i++) {
    // A label may take more than one line.
    const taken = [1, 2, 3].find((k) => labels.has(rows.slice(i, i + k).join(' ')));
    if (taken !== undefined) {
      label = rows.slice(i, i + taken).join(' ');
      values.set(label, '');
      i += taken - 1;
    } else if (label !== undefined && rows[i] !== 'Declared levels and classes')
      values.set(label, `${values.get(label)} ${rows[i]}`.trim());
  }
  const named = FIELDS.map((key) => [key, values.get(title(key)) ?? ''] as const);
  const classes = CHARACTERISTICS.map(inFile).flatMap((name) => {
    const value = values.get(name);
    return value === undefined ? [] : [[name, value] as const];
  });
  const particulars = {
    ...NO_PARTICULARS,
    ...Object.fromEntries(named),
    classes: Object.fromEntries(classes),
  };
  return { maker: { name: makerIn(format, text, tokens), triangle: 'apex-at-hinge', particulars } };
}

function told(
  anew: RecordView | undefined,
  order: readonly string[],
  {
    people,
    instruments,
  }: { readonly people: readonly { readonly name: string }[]; readonly instruments: readonly Row[] },
  maker: string,
  today: readonly Instrument[],
  drawing: string | undefined,
): Told {
  const ids: string[] = anew?.people.map(({ name }) => name) ?? [];
  const triangle = /at the handle/.test(drawing ?? '') ? 'apex-at-handle' : 'apex-at-hinge';
  return {
    maker: { name: maker, triangle, particulars: NO_PARTICULARS },
    people: order.map((id) => people[ids.indexOf(id)]?.name ?? ''),
    instruments: instruments.flatMap(
      (row) =>
        instrumentOf(
          row,
          today.find(({ id }) => id === row.id),
        ) ?? [],
    ),
  };
}

/** The row's facts; what a row does not show is taken from the list of today. */
function instrumentOf(row: Row, listed: Instrument | undefined): Instrument | undefined {
  const [size = '', unit = ''] = row.resolution.split(' ');
  if (size === '') return undefined;
  const { class: _c, calibrated: _a, due: _d, certificate: _e, ...rest } = listed ?? BARE;
  const kind = row.kind === '' ? (unit === 'N' ? 'spring-balance' : rest.kind) : row.kind;
  return {
    ...rest,
    id: row.id,
    kind: kind as Instrument['kind'],
    title: row.title,
    resolution: Number(size),
    ...(row.class === '' ? {} : { class: row.class as NonNullable<Instrument['class']> }),
    ...(row.calibrated === '' ? {} : { calibrated: row.calibrated }),
    ...(row.due === '' ? {} : { due: row.due }),
    ...(row.certificate === '' ? {} : { certificate: row.certificate }),
  };
}

const BARE: Instrument = {
  id: '',
  kind: 'gauge',
  title: '',
  measures: [],
  resolution: 1,
  offset: 0,
  hook: false,
};

// The cells of a document's tables as a list of texts, cell by cell.

const HEADS = ['Instrument', 'What', 'Reads to', 'Calibrated', 'Due', 'Certificate', 'Used overdue'];
const NO_ROWS = 'No reading was taken with an instrument.';

function readRows(
  tokens: readonly string[],
  from: number,
  { instruments }: RecordView,
): { readonly found: Row[]; readonly end: number } | undefined {
  if (instruments.length === 0) {
    const at = tokens.indexOf(NO_ROWS, from);
    return at < 0 ? undefined : { found: [], end: at + 1 };
  }
  const head = tokens.findIndex((_, i) => i >= from && HEADS.every((title, k) => tokens[i + k] === title));
  if (head < 0) return undefined;
  const found: Row[] = [];
  let at = head + HEADS.length;
  for (const [i, { id }] of instruments.entries()) {
    at = tokens.indexOf(id, at);
    if (at < 0) return undefined;
    const next = instruments[i + 1]?.id;
    let end = next === undefined ? namesAt(tokens, at) : tokens.indexOf(next, at + 1);
    if (end < 0) end = tokens.length;
    const row = rowOf(
      id,
      tokens.slice(at + 1, end).filter((each) => !HEADS.includes(each)),
    );
    if (!row) return undefined;
    found.push(row);
    at = end;
  }
  return { found, end: at };
}

const namesAt = (tokens: readonly string[], from: number): number =>
  tokens.findIndex((each, i) => i >= from && each === 'Name' && tokens[i + 1] === 'Did');

const DATE = /^\d{4}-\d\d-\d\d$/;

function rowOf(id: string, cells: readonly string[]): Row | undefined {
  const reads = cells.findLastIndex((each) => /^\d+(\.\d+)? (mm|N|kg|deg|C|min)$/.test(each));
  const last = cells.findLastIndex((each) => each === 'no' || /^\d{4}-\d\d-\d\d, "/.test(each));
  if (reads < 0 || last < reads) return undefined;
  const what = cells.slice(0, reads).join(' ');
  const [, title = what, grade = ''] = /^(.*), class (I{1,3})$/.exec(what) ?? [];
  const rest = cells.slice(reads + 1, last);
  const dates = rest.filter((each) => DATE.test(each));
  return {
    id,
    title,
    kind: '',
    class: grade,
    resolution: cells[reads]!,
    calibrated: dates[0] ?? '',
    due: dates[1] ?? '',
    certificate: rest.filter((each) => !DATE.test(each)).join(' '),
  };
}

function readNames(
  tokens: readonly string[],
  from: number,
  { people }: RecordView,
): { readonly found: { readonly name: string }[]; readonly end: number } | undefined {
  let at = namesAt(tokens, from) + 2;
  if (at < 2) return people.length === 0 ? { found: [], end: from } : undefined;
  const found: { readonly name: string }[] = [];
  for (const { did } of people) {
    // A name may take more than one line, and so may what its owner did.
    let split: { readonly name: string; readonly end: number } | undefined;
    for (let k = 1; k <= 4 && !split; k++)
      for (let m = 1; m <= 12 && !split; m++)
        if (tokens.slice(at + k, at + k + m).join(' ') === did)
          split = { name: tokens.slice(at, at + k).join(' '), end: at + k + m };
    if (!split) return undefined;
    found.push({ name: split.name });
    at = split.end;
  }
  return { found, end: at };
}

const ENTITIES: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', '#39': "'" };

const htmlTokens = (text: string): string[] =>
  [...text.matchAll(/>([^<]+)</g)]
    .map(([, cell]) => cell!.replace(/&(amp|lt|gt|quot|#39);/g, (_, name: string) => ENTITIES[name]!).trim())
    .filter((cell) => cell !== '');

/** Tables are cut at the columns that their rule of dashes shows. */
function textTokens(text: string): string[] {
  const out: string[] = [];
  const all = text.split('\n');
  for (let i = 0; i < all.length; i++) {
    const line = all[i]!;
    if (!/^-+( {2}-+)+$/.test(all[i + 1] ?? '')) {
      if (line.trim() !== '') out.push(line.trim());
      continue;
    }
    const columns = [...all[i + 1]!.matchAll(/-+/g)].map(
      ({ index, 0: dashes }) => [index, index + dashes.length] as const,
    );
    const cut = (of: string) => columns.map(([a, b]) => of.slice(a, b).trim());
    out.push(...cut(line));
    let row: string[][] = [];
    const flush = () => out.push(...row.flat().filter((cell) => cell !== ''));
    for (
      i += 2;
      i < all.length && !/^-{20,}$/.test(all[i + 1] ?? '') && !/^={20,}$/.test(all[i] ?? '');
      i++
    ) {
      const cells = cut(all[i]!);
      if (cells[0] !== '') {
        flush();
        row = columns.map(() => []);
      }
      for (const [k, cell] of cells.entries()) if (cell !== '') row[k]?.push(cell);
    }
    flush();
    i -= 1;
  }
  return out;
}

function makerIn(format: 'html' | 'text' | 'pdf', text: string, tokens: readonly string[]): string {
  if (format !== 'html') return (format === 'text' ? tokens[1] : tokens[0]) ?? '';
  const over = /<p class="over">([^<]*)<\/p>/.exec(text)?.[1] ?? '';
  return over.replace(/&(amp|lt|gt|quot|#39);/g, (_, name: string) => ENTITIES[name]!);
}
