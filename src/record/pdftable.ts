/** Tables on PDF pages: rows are kept whole, the head is repeated on each page, a row higher than a page is cut between lines. */
import { type Cell, type Column, lines } from './blocks.js';
import { INK, INNER, MARGIN, type Pen, QUIET, type Style, styleOf } from './pdfpen.js';

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
  const head = (): void => {
    const cells = columns.map(({ title }, i) =>
      lay(pen, [{ text: title, look: 'strong' }], size, widths[i]! - GAP),
    );
    drawLines(pen, cells, widths, 0, tallest(pen, cells));
    pen.rule(MARGIN, INNER, 0.8, INK);
    pen.skip(PAD);
  };
  const laid = rows.map((row) => row.map((cell, i) => lay(pen, cell, size, widths[i]! - GAP)));
  pen.need(40 + Math.min(120, tallest(pen, laid[0] ?? [])));
  head();
  for (const cells of laid) {
    const height = tallest(pen, cells);
    if (height + 2 * PAD > pen.left) {
      pen.newPage();
      head();
    }
    cutRow(pen, cells, widths, head);
    pen.skip(PAD);
    pen.rule(MARGIN, INNER, 0.4, '#c4c4c4');
    pen.skip(PAD);
  }
  pen.skip(6);
}

/** Two columns: what it is called, and what it is. */
export function drawFacts(pen: Pen, rows: readonly (readonly [string, Cell])[], width = INNER): void {
  const size = 8.6;
  const first = 104;
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
    drawLines(pen, cells, [first, width - first], 0, height);
    pen.skip(PAD);
    pen.rule(MARGIN, width, 0.3, '#dcdcdc');
    pen.skip(PAD);
  }
}

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
  from: number,
  height: number,
): void {
  let x = MARGIN;
  cells.forEach((cell, i) => {
    let y = pen.y;
    for (const { text, style } of cell.slice(from)) {
      pen.put(text, x, y, style);
      y += pen.lineHeight(style.size);
    }
    x += widths[i]!;
  });
  pen.skip(height);
}

/** Draws a row; where even an empty page is too short for it, as many lines a page as fit. */
function cutRow(
  pen: Pen,
  cells: readonly (readonly Laid[])[],
  widths: readonly number[],
  head: () => void,
): void {
  let rest = cells;
  while (tallest(pen, rest) + 2 * PAD > pen.left) {
    const fit = Math.max(1, Math.floor((pen.left - 2 * PAD) / pen.lineHeight(7.6)));
    const part = rest.map((cell) => cell.slice(0, fit));
    drawLines(pen, part, widths, 0, tallest(pen, part));
    rest = rest.map((cell) => cell.slice(fit));
    pen.newPage();
    head();
  }
  drawLines(pen, rest, widths, 0, tallest(pen, rest));
}
