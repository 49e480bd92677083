/** Jobs as a table, one unit per line. Formula-like cells stay text. Every problem names line and column. */
import { type CsvError, parse } from 'csv-parse/sync';
import { nearest } from '../base/knownkeys.js';
import {
  err,
  ok,
  type Place,
  type Problem,
  problemFactory,
  type Result,
  type SourceText,
} from '../base/problem.js';
import { valueFault } from '../base/schemafault.js';
import { cellWord, headingOf } from './jobheadings.js';
import { type JobFile, jobSchema } from './jobschema.js';
import { WINDOW_MESSAGES } from './messages.js';

const raise = problemFactory(WINDOW_MESSAGES);
const MOST_LIGHTS = 6;
const LARGEST = 2_000_000;

/** Job-wide columns: taken from the first line; if repeated, the values must match. */
export const JOB_COLUMNS = ['job', 'title', 'customer', 'profile_set', 'procedure', 'revision'] as const;
export const UNIT_COLUMNS = [
  'mark',
  'quantity',
  'width',
  'height',
  'room',
  'note',
  'colour',
  'outside_colour',
  'inside_colour',
  'glass',
  'escape',
  'restrictor',
  'safety_glass',
  'fittings',
  'split',
  'joint',
  'at',
  'from',
  'sight',
  'ratio',
  'equal',
] as const;
export const LIGHT_COLUMNS = ['light', 'hinge', 'viewed_from', 'opens', 'handle_at', 'glass_of'] as const;
const KNOWN = new Set<string>([
  ...JOB_COLUMNS,
  ...UNIT_COLUMNS,
  ...Array.from({ length: MOST_LIGHTS }, (_, i) =>
    LIGHT_COLUMNS.map((column) => `${column}_${i + 1}`),
  ).flat(),
]);

/** As the manual writes them. */
const KNOWN_SHORT: readonly string[] = [
  ...JOB_COLUMNS,
  ...UNIT_COLUMNS,
  ...LIGHT_COLUMNS.map((column) => `${column}_1`),
];

export interface JobTable {
  readonly job: JobFile;
  at(path: readonly PropertyKey[]): Place;
}

type Row = { readonly line: number; readonly cells: ReadonlyMap<string, string> };

export function readJobTable(source: SourceText): Result<JobTable> {
  const { file, text } = source;
  if (text.length > LARGEST)
    return err(raise('job.csv/large', { count: text.length, largest: LARGEST }, { file }));
  // Spreadsheets of some countries name the delimiter in a line of its own.
  const named = /^\ufeff?sep=(.)[ \t]*\r?\n/i.exec(text)?.[1];
  const delimiter = named ?? delimiterOf(text);
  const rows = readRows(source, delimiter, named === undefined ? 1 : 2);
  if (!rows.ok) return rows;
  const { head, body } = rows.value;
  const column = (name: string): number | undefined => {
    const i = head.indexOf(name);
    return i < 0 ? undefined : i + 1;
  };
  const placeOf = (row: Row, name: string): Place => {
    const c = column(name);
    return { file, line: row.line, ...(c !== undefined && { column: c }) };
  };

  const problems: Problem[] = [];
  const decimalComma = delimiter !== ',';
  const raw = {
    format: 'pinchrod-job 1',
    ...jobKeys(body, file, problems, placeOf),
    units: body.map((row) => unitKeys(row, decimalComma, problems, placeOf)),
  };
  if (problems.length > 0) return err(...problems);
  const at = (path: readonly PropertyKey[]): Place => {
    // An empty table was refused on reading, and units are its lines in order.
    return placeOf(body[path[0] === 'units' ? Number(path[1]) : 0]!, columnOf(path));
  };
  const parsed = jobSchema.safeParse(raw, { reportInput: true });
  if (!parsed.success)
    return err(
      ...parsed.error.issues
        .slice(0, 20)
        .map((issue) =>
          raise('job.csv/column', { path: columnOf(issue.path), issue: valueFault(issue) }, at(issue.path)),
        ),
    );
  return ok({ job: parsed.data, at });
}

function columnOf(path: readonly PropertyKey[]): string {
  if (path[0] !== 'units') return path[0] === 'name' ? 'job' : String(path[0]);
  const [key, ...rest] = path.slice(2);
  // `needs` is parsed to yes, no or a problem before the schema sees it, so no path leads there.
  if (key !== 'layout') return String(key);
  const inPart = rest[0] === 'parts';
  const number = inPart ? Number(rest[1]) + 1 : 1;
  const field = inPart ? rest[2] : rest[0];
  if (!inPart && ['split', 'joint', 'at', 'from', 'sight', 'ratio', 'equal'].includes(String(field)))
    return String(field);
  const name = field === 'glass' ? 'glass_of' : String(field ?? 'light');
  return `${name}_${number}`;
}

function delimiterOf(text: string): string {
  const head = text.slice(0, text.search(/[\r\n]|$/));
  const counts = [',', ';', '\t'].map((d) => [d, head.split(d).length] as const);
  return counts.sort((a, b) => b[1] - a[1])[0]![0];
}

function readRows(
  { file, text }: SourceText,
  delimiter: string,
  headLine: number,
): Result<{ head: string[]; body: Row[] }> {
  let records: { record: string[]; info: { lines: number } }[];
  try {
    records = parse(text, {
      bom: true,
      delimiter,
      info: true,
      from_line: headLine,
      skip_empty_lines: true,
      relax_column_count: true,
      max_record_size: 100_000,
    }) as never;
  } catch (error) {
    const { message, lines } = error as CsvError & { lines?: number };
    return err(raise('job.csv', { fault: message }, { file, ...(lines !== undefined && { line: lines }) }));
  }
  const [first, ...rest] = records;
  if (!first) return err(raise('job.csv/table', {}, { file }));
  const head = first.record.map(headingOf);
  const problems: Problem[] = [];
  head.forEach((name, i) => {
    const place = { file, line: headLine, column: i + 1 };
    const written = first.record[i]!.trim();
    if (name !== '' && !KNOWN.has(name)) {
      const near = nearest(name, [...KNOWN]);
      problems.push(
        near === undefined
          ? raise('job.csv/column-known', { name: written, known: [...KNOWN_SHORT] }, place)
          : raise('job.csv/column-near', { name: written, near }, place),
      );
    }
    if (name !== '' && head.indexOf(name) !== i)
      problems.push(raise('job.csv/column-stands', { name: written }, place));
  });
  const body = rest
    .filter(({ record }) => record.some((cell) => cell.trim() !== ''))
    .map(({ record, info }): Row => {
      // A quoted cell may span lines; csv-parse reports the record's last line.
      const inner = record.reduce((sum, cell) => sum + (cell.match(/\r\n|\n|\r/g)?.length ?? 0), 0);
      const line = info.lines - inner;
      if (record.length > head.length)
        problems.push(
          raise(
            'job.csv/line',
            { count: record.length, count2: head.length },
            {
              file,
              line,
              column: head.length + 1,
            },
          ),
        );
      return { line, cells: new Map(head.map((name, i) => [name, (record[i] ?? '').trim()])) };
    });
  if (body.length === 0) problems.push(raise('job.csv/table-units', {}, { file, line: headLine }));
  return problems.length > 0 ? err(...problems) : ok({ head, body });
}

type PlaceOf = (row: Row, column: string) => Place;

function jobKeys(body: readonly Row[], file: string, problems: Problem[], placeOf: PlaceOf) {
  const out: Record<string, string> = {};
  for (const key of JOB_COLUMNS) {
    const first = body[0]?.cells.get(key) || undefined;
    for (const row of body) {
      const here = row.cells.get(key) || undefined;
      if (here !== undefined && here !== first)
        problems.push(raise('job.csv/column-says', { key, here, first: first ?? '' }, placeOf(row, key)));
    }
    if (first !== undefined) out[key === 'job' ? 'name' : key] = first;
  }
  out.name ??= file
    .split(/[\\/]/)
    .pop()!
    .replace(/\.csv$/i, '');
  return out;
}

function unitKeys(
  row: Row,
  decimalComma: boolean,
  problems: Problem[],
  placeOf: PlaceOf,
): Record<string, unknown> {
  const cell = (name: string): string | undefined => row.cells.get(name) || undefined;
  const toNumber = (name: string, text: string): number | undefined => {
    // In a table with commas for decimals, a point before three figures is one or the other.
    if (decimalComma && /^\d{1,3}\.\d{3}$/.test(text)) {
      const [whole, part] = text.split('.') as [string, string];
      const ways = { column: name, given: text, whole: whole + part, part: `${whole},${part}` };
      problems.push(raise('job.csv/thousands', ways, placeOf(row, name)));
      return undefined;
    }
    const plain = decimalComma ? text.replace(',', '.') : text;
    if (/^[+-]?\d+(\.\d+)?$/.test(plain)) return Number(plain);
    problems.push(raise('job.csv/number', { column: name, given: text }, placeOf(row, name)));
    return undefined;
  };
  const number = (name: string): number | undefined => {
    const text = cell(name);
    return text === undefined ? undefined : toNumber(name, text);
  };
  const list = (name: string): (number | string | undefined)[] | undefined =>
    cell(name)
      ?.split(/[\s/|:]+/)
      .filter((item) => item !== '')
      .map((item) => (item.toLowerCase() === 'rest' ? 'rest' : toNumber(name, item)));
  const yes = (name: string): boolean | undefined => {
    const given = cell(name);
    if (given === undefined) return undefined;
    const text = cellWord(given);
    if (['yes', 'y', 'true', '1', 'x'].includes(text)) return true;
    if (['no', 'n', 'false', '0', '-'].includes(text)) return false;
    problems.push(raise('job.csv/yes', { column: name, given }, placeOf(row, name)));
    return undefined;
  };
  const word = (name: string): string | undefined => {
    const text = cell(name);
    return text === undefined ? undefined : cellWord(text);
  };

  const lights = Array.from({ length: MOST_LIGHTS }, (_, i) => i + 1)
    .filter((i) => LIGHT_COLUMNS.some((column) => cell(`${column}_${i}`) !== undefined))
    .map((i) =>
      given({
        light: word(`light_${i}`),
        hinge: word(`hinge_${i}`),
        viewed_from: word(`viewed_from_${i}`),
        opens: word(`opens_${i}`),
        handle_at: number(`handle_at_${i}`),
        glass: cell(`glass_of_${i}`),
      }),
    );
  const split = word('split');
  if (lights.length === 0) problems.push(raise('job.csv/no-light', {}, placeOf(row, 'light_1')));
  if (lights.length > 1 && split === undefined)
    problems.push(raise('job.csv/no-split', { count: lights.length }, placeOf(row, 'split')));
  return given({
    mark: cell('mark'),
    quantity: number('quantity'),
    width: number('width'),
    height: number('height'),
    room: cell('room'),
    note: cell('note'),
    colour: cell('colour'),
    outside_colour: cell('outside_colour'),
    inside_colour: cell('inside_colour'),
    glass: cell('glass'),
    needs: given({ escape: yes('escape'), restrictor: yes('restrictor'), safety_glass: yes('safety_glass') }),
    fittings: cell('fittings')
      ?.split(/[\s;,]+/)
      .filter((word) => word !== ''),
    layout:
      split === undefined
        ? (lights[0] ?? {})
        : given({
            split,
            joint: word('joint'),
            at: list('at'),
            from: word('from'),
            sight: list('sight'),
            ratio: list('ratio'),
            equal: word('equal'),
            parts: lights,
          }),
  });
}

const given = (record: Record<string, unknown>): Record<string, unknown> =>
  Object.fromEntries(Object.entries(record).filter(([, value]) => value !== undefined));
