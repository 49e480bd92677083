/** PDF tables: rows stay whole, headers repeat, a row taller than a page is split between lines. */
import type { Spoken } from '../base/words.js';
import { type Block, type Cell, type Column, lines } from './blocks.js';
import { givenRoom } from './columns.js';
import { INK, type PdfElement, type Pen, QUIET, type Style } from './pdfpen.js';

const GAP = 6;
const PAD = 2.4;
/** Between rows of tables: those of layers are read in lines. */
const padFor = ({ least }: Pen): number => (least === 0 ? PAD : 1.1);

interface Laid {
  readonly text: string;
  readonly style: Style;
  readonly to?: string | undefined;
}

/** Points; a former document had smaller type. */
const sizeFor = ({ least }: Pen): number => Math.max(7.6, least);

/** In points; tables of layers have columns that hold their longest words, where the others have room to spare. */
function widthsOf(pen: Pen, columns: readonly Column[], rows: readonly (readonly Cell[])[]): number[] {
  const shares = columns.reduce((sum, { share }) => sum + share, 0);
  const widths = columns.map(({ share }) => (pen.inner * share) / shares);
  if (pen.least === 0) return widths;
  const size = sizeFor(pen);
  return givenRoom(
    widths,
    columns.map(({ title }, i) => {
      const texts = [{ text: title, look: 'strong' as const }, ...rows.flatMap((cells) => lines(cells[i]!))];
      const words = texts.flatMap(({ text, look }) => {
        const style = pen.style(look, size);
        return text.split(' ').map((word) => pen.width(pen.shown(word), style));
      });
      return Math.min(LONGEST_WORD, Math.ceil(Math.max(...words))) + GAP;
    }),
  );
}

/** Points; a longer one, such as a hash, is broken. */
const LONGEST_WORD = 110;

/** The height of a table's head and its first row. */
export function tableRoom(pen: Pen, columns: readonly Column[], rows: readonly (readonly Cell[])[]): number {
  const [first = []] = rows;
  const widths = widthsOf(pen, columns, rows);
  const height = (cells: readonly Cell[]) =>
    tallest(
      pen,
      cells.map((cell, i) => lay(pen, cell, sizeFor(pen), widths[i]! - GAP)),
    ) +
    3 * padFor(pen);
  const head = columns.map(({ title }): Cell => [{ text: title, look: 'strong' }]);
  return height(head) + Math.min(400, height(first));
}

export function drawTable(
  pen: Pen,
  { columns, rows, marks }: Pick<Block & { kind: 'table' }, 'columns' | 'rows' | 'marks'>,
): void {
  const size = sizeFor(pen);
  const widths = widthsOf(pen, columns, rows);
  const table = pen.tags.open('Table');
  /** Repeated headers on later pages are for sighted readers only, so they are not tagged. */
  const head = (parts: readonly PdfElement[] = []): void => {
    const cells = columns.map(({ title }, i) =>
      lay(pen, [{ text: title, look: 'strong' }], size, widths[i]! - GAP),
    );
    drawLines(pen, cells, widths, tallest(pen, cells), parts);
    pen.rule(pen.margin, pen.inner, 0.8, INK);
    pen.skip(padFor(pen));
  };
  const laid = rows.map((row) => row.map((cell, i) => lay(pen, cell, size, widths[i]! - GAP)));
  pen.need(pen.least === 0 ? 40 + Math.min(120, tallest(pen, laid[0] ?? [])) : tableRoom(pen, columns, rows));
  head(rowParts(pen, table, columns.length, () => ({ tag: 'TH', scope: 'Column' })));
  for (const [i, cells] of laid.entries()) {
    const parts = rowParts(pen, table, cells.length, firstNames);
    const height = tallest(pen, cells);
    if (height + 2 * padFor(pen) > pen.left) {
      pen.newPage();
      head();
    }
    if (marks) pen.doc.addNamedDestination(marks[i]!, 'XYZ', null, pen.y - padFor(pen), null);
    cutRow(pen, cells, widths, parts, head);
    pen.skip(padFor(pen));
    pen.rule(pen.margin, pen.inner, 0.4, '#c4c4c4');
    pen.skip(padFor(pen));
  }
  pen.skip(6);
}

export function drawFacts(pen: Pen, rows: readonly (readonly [Spoken, Cell])[], width = pen.inner): void {
  const size = 8.6;
  const first = 104;
  const table = pen.tags.open('Table');
  for (const [label, cell] of rows) {
    const cells = [
      lay(pen, [{ text: label }], size, first - GAP).map((line) => ({
        ...line,
        style: { ...line.style, colour: QUIET },
      })),
      lay(pen, cell, size, width - first - GAP),
    ];
    const height = tallest(pen, cells);
    pen.need(height + 2 * PAD);
    drawLines(pen, cells, [first, width - first], height, rowParts(pen, table, 2, firstNames));
    pen.skip(PAD);
    pen.rule(pen.margin, width, 0.3, '#dcdcdc');
    pen.skip(PAD);
  }
}

/** Structure elements of a row and its cells, created before drawing: a cell may continue on the next page. */
function rowParts(
  pen: Pen,
  table: PdfElement,
  count: number,
  cellOf: (i: number) => { readonly tag: 'TH' | 'TD'; readonly scope?: 'Row' | 'Column' },
): PdfElement[] {
  const parts: PdfElement[] = [];
  pen.tags.within(table, () => {
    pen.tags.within(pen.tags.open('TR'), () => {
      for (let i = 0; i < count; i++) {
        const { tag, ...scope } = cellOf(i);
        parts.push(pen.tags.open(tag, scope));
      }
    });
  });
  return parts;
}

const firstNames = (i: number) =>
  i === 0 ? ({ tag: 'TH', scope: 'Row' } as const) : ({ tag: 'TD' } as const);

function lay(pen: Pen, cell: Cell, size: number, width: number): Laid[] {
  return lines(cell).flatMap(({ text, look, to }) => {
    const style = pen.style(look, size);
    return pen.wrap(text, style, width).map((line) => ({ text: line, style, to }));
  });
}

const heightOf = (pen: Pen, cell: readonly Laid[]): number =>
  cell.reduce((sum, { style }) => sum + pen.lineHeight(style.size), 0);
const tallest = (pen: Pen, cells: readonly (readonly Laid[])[]): number =>
  Math.max(0, ...cells.map((cell) => heightOf(pen, cell)));

function drawLines(
  pen: Pen,
  cells: readonly (readonly Laid[])[],
  widths: readonly number[],
  height: number,
  parts: readonly PdfElement[],
): void {
  let x = pen.margin;
  cells.forEach((cell, i) => {
    let y = pen.y;
    pen.tags.within(parts[i], () => {
      for (const { text, style, to } of cell) {
        if (to === undefined) pen.put(text, x, y, style);
        else pen.link(text, to, x, y, style);
        y += pen.lineHeight(style.size);
      }
    });
    x += widths[i]!;
  });
  pen.skip(height);
}

/** Draws a row; if it does not fit even on an empty page, puts as many lines on each page as fit. */
function cutRow(
  pen: Pen,
  cells: readonly (readonly Laid[])[],
  widths: readonly number[],
  parts: readonly PdfElement[],
  head: () => void,
): void {
  let rest = cells;
  while (tallest(pen, rest) + 2 * padFor(pen) > pen.left) {
    const fit = Math.max(1, Math.floor((pen.left - 2 * padFor(pen)) / pen.lineHeight(sizeFor(pen))));
    const part = rest.map((cell) => cell.slice(0, fit));
    drawLines(pen, part, widths, tallest(pen, part), parts);
    rest = rest.map((cell) => cell.slice(fit));
    pen.newPage();
    head();
  }
  drawLines(pen, rest, widths, tallest(pen, rest), parts);
}
