/** PDF tables: rows stay whole, headers repeat, a row taller than a page is split between lines. */
import type { Spoken } from '../base/words.js';
import { type Cell, type Column, lines } from './blocks.js';
import { INK, INNER, MARGIN, type PdfElement, type Pen, QUIET, type Style, styleOf } from './pdfpen.js';

const GAP = 6;
const PAD = 2.4;

interface Laid {
  readonly text: string;
  readonly style: Style;
}

export function drawTable(pen: Pen, columns: readonly Column[], rows: readonly (readonly Cell[])[]): void {
  const size = 7.6;
  const shares = columns.reduce((sum, { share }) => sum + share, 0);
  const widths = columns.map(({ share }) => (INNER * share) / shares);
  const table = pen.tags.open('Table');
  /** Repeated headers on later pages are for sighted readers only, so they are not tagged. */
  const head = (parts: readonly PdfElement[] = []): void => {
    const cells = columns.map(({ title }, i) =>
      lay(pen, [{ text: title, look: 'strong' }], size, widths[i]! - GAP),
    );
    drawLines(pen, cells, widths, tallest(pen, cells), parts);
    pen.rule(MARGIN, INNER, 0.8, INK);
    pen.skip(PAD);
  };
  const laid = rows.map((row) => row.map((cell, i) => lay(pen, cell, size, widths[i]! - GAP)));
  pen.need(40 + Math.min(120, tallest(pen, laid[0] ?? [])));
  head(rowParts(pen, table, columns.length, () => ({ tag: 'TH', scope: 'Column' })));
  for (const cells of laid) {
    const parts = rowParts(pen, table, cells.length, firstNames);
    const height = tallest(pen, cells);
    if (height + 2 * PAD > pen.left) {
      pen.newPage();
      head();
    }
    cutRow(pen, cells, widths, parts, head);
    pen.skip(PAD);
    pen.rule(MARGIN, INNER, 0.4, '#c4c4c4');
    pen.skip(PAD);
  }
  pen.skip(6);
}

export function drawFacts(pen: Pen, rows: readonly (readonly [Spoken, Cell])[], width = INNER): void {
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
    pen.rule(MARGIN, width, 0.3, '#dcdcdc');
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
  return lines(cell).flatMap(({ text, look }) => {
    const style = styleOf(look, size);
    return pen.wrap(text, style, width).map((line) => ({ text: line, style }));
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
  let x = MARGIN;
  cells.forEach((cell, i) => {
    let y = pen.y;
    pen.tags.within(parts[i], () => {
      for (const { text, style } of cell) {
        pen.put(text, x, y, style);
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
  while (tallest(pen, rest) + 2 * PAD > pen.left) {
    const fit = Math.max(1, Math.floor((pen.left - 2 * PAD) / pen.lineHeight(7.6)));
    const part = rest.map((cell) => cell.slice(0, fit));
    drawLines(pen, part, widths, tallest(pen, part), parts);
    rest = rest.map((cell) => cell.slice(fit));
    pen.newPage();
    head();
  }
  drawLines(pen, rest, widths, tallest(pen, rest), parts);
}
