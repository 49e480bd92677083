/** Readings in a plain table from elsewhere (CSV). Every problem names its line and column. */
import { type CsvError, parse } from 'csv-parse/sync';
import { nearest } from '../base/knownkeys.js';
import { err, ok, type Problem, type Result } from '../base/problem.js';
import { figuresProblem } from './messages.js';

export interface Table {
  readonly file: string;
  readonly columns: readonly string[];
  readonly rows: readonly { readonly line: number; readonly cells: readonly string[] }[];
  /** Sign of decimals: a comma only where columns are parted by semicolons. */
  readonly decimal: '.' | ',';
}

const LARGEST = 200_000_000;
/** More problems than this help nobody. */
const MOST_PROBLEMS = 12;

/** Columns parted by commas, semicolons or tabs, whichever the first line has most of. */
export function readTable(text: string, file: string): Result<Table> {
  if (text.length > LARGEST) return err(figuresProblem('figures.csv/large', {}, { file }));
  const head = text.replace(/^\uFEFF/, '').split(/\r\n|\n|\r/, 1)[0] ?? '';
  const delimiter = [',', ';', '\t'].reduce((best, each) =>
    head.split(each).length > head.split(best).length ? each : best,
  );
  let read: { record: string[]; info: { lines: number } }[];
  try {
    read = parse(text, {
      bom: true,
      delimiter,
      info: true,
      relaxColumnCount: true,
      skipEmptyLines: true,
    }) as unknown as typeof read;
  } catch (error) {
    const { lines } = error as CsvError & { lines?: number };
    return err(figuresProblem('figures.csv', {}, { file, ...(lines === undefined ? {} : { line: lines }) }));
  }
  const [first, ...rest] = read;
  if (!first || rest.length === 0) return err(figuresProblem('figures.csv/empty', {}, { file }));
  const columns = first.record.map((name) => name.trim());
  const twice = columns.find((name, i) => name !== '' && columns.indexOf(name) !== i);
  if (twice !== undefined)
    return err(figuresProblem('figures.csv/twice', { name: twice }, { file, line: 1 }));
  return ok({
    file,
    columns,
    rows: rest
      .filter(({ record }) => record.some((cell) => cell.trim() !== ''))
      .map(({ record, info }) => ({ line: info.lines, cells: record.map((cell) => cell.trim()) })),
    decimal: delimiter === ',' ? '.' : ',',
  });
}

/** Cells of one column as they stand; none may be missing. */
export function textColumn(table: Table, name: string): Result<readonly string[]> {
  const at = columnAt(table, name);
  if (!at.ok) return at;
  return collect(
    table,
    (cells) => {
      const cell = cells[at.value] ?? '';
      return cell === '' ? undefined : ok(cell);
    },
    at.value,
  );
}

/** Beyond these a square no longer fits a number. */
const [LEAST, GREATEST] = [1e-100, 1e100];

/** Numbers of one column: a decimal point; or a comma where columns are parted otherwise, but not both signs in one column. */
export function numberColumn(table: Table, name: string): Result<readonly number[]> {
  const at = columnAt(table, name);
  if (!at.ok) return at;
  const commas = table.decimal === ',' && table.rows.some(({ cells }) => cells[at.value]?.includes(','));
  return collect(
    table,
    (cells) => {
      const cell = cells[at.value] ?? '';
      if (cell === '') return undefined;
      if (commas && cell.includes('.')) return err(figuresProblem('figures.cell/signs', { cell }));
      return readingIn(cell, commas ? ',' : '.');
    },
    at.value,
  );
}

/** A plain number, not larger or smaller than can be squared. */
export function readingIn(cell: string, decimal: '.' | ','): Result<number> {
  const plain = decimal === ',' ? cell.replace(',', '.') : cell;
  const value = /^[+-]?(\d+(\.\d*)?|\.\d+)(e[+-]?\d+)?$/i.test(plain) ? Number(plain) : Number.NaN;
  if (Number.isNaN(value)) return err(figuresProblem('figures.cell', { cell }));
  const size = Math.abs(value);
  if (size > GREATEST || (size > 0 && size < LEAST))
    return err(figuresProblem('figures.cell/size', { cell }));
  return ok(value);
}

function columnAt({ columns, file }: Table, name: string): Result<number> {
  const exact = columns.indexOf(name);
  const at = exact >= 0 ? exact : columns.findIndex((each) => each.toLowerCase() === name.toLowerCase());
  if (at >= 0) return ok(at);
  const near = nearest(name, columns);
  return err(
    near === undefined
      ? figuresProblem('figures.column', { name, columns: columns.join(', ') }, { file, line: 1 })
      : figuresProblem('figures.column/near', { name, near }, { file, line: 1 }),
  );
}

/** @param of undefined: the cell is missing */
function collect<T>(
  { rows, file }: Table,
  of: (cells: readonly string[]) => Result<T> | undefined,
  at: number,
): Result<readonly T[]> {
  const values: T[] = [];
  const problems: Problem[] = [];
  for (const { line, cells } of rows) {
    const read = of(cells) ?? err(figuresProblem('figures.cell/missing', {}));
    if (read.ok) values.push(read.value);
    else problems.push(...read.problems.map((each) => ({ ...each, place: { file, line, column: at + 1 } })));
    if (problems.length >= MOST_PROBLEMS) break;
  }
  return problems.length > 0 ? err(...problems) : ok(values);
}
