/** Renders a document as plain text for a terminal, printer or email: 96 columns, visible characters only. */
import { sanitize } from '../base/text.js';
import { type Block, type Cell, type Document, type Figure, lines, linkSign } from './blocks.js';
import { LINE, wideEnough } from './columns.js';

const WIDTH = LINE;
/** Enclose the proof by which `pinchrod verify` finds the journals. */
export const PROOF_LINE = 'For pinchrod verify (';
export const PROOF_END = ')';

export function textOf(document: Document): string {
  const out = document.blocks.flatMap((block) => blockLines(block, document.layered));
  const foot = [
    ...(document.proof === '' ? [] : [PROOF_LINE, ...wrapText(document.proof, WIDTH), PROOF_END, '']),
    rule('='),
    ...wrapText(document.foot, WIDTH),
  ];
  return `${[...out, '', ...foot].map((line) => line.trimEnd()).join('\n')}\n`;
}

function blockLines(block: Block, layered = false): string[] {
  switch (block.kind) {
    case 'title':
      return [
        ...(block.newPage ? ['\n'.repeat(2)] : []),
        rule('='),
        ...wrapText(block.over, WIDTH),
        ...wrapText(block.text.toUpperCase(), WIDTH),
        ...wrapText(block.under, WIDTH),
        rule('='),
      ];
    case 'verdict':
      return ['', ...wrapText(`*** ${block.text} ***`, WIDTH), ...wrapText(block.under, WIDTH)];
    case 'heading':
      return block.level === 2
        ? ['', ...wrapText(block.text.toUpperCase(), WIDTH), rule('-')]
        : ['', ...wrapText(`== ${block.text} ==`, WIDTH)];
    case 'text':
      return ['', ...wrapText(block.text, WIDTH)];
    case 'list':
      return ['', ...block.items.flatMap((item) => hanging('- ', item, WIDTH))];
    case 'link':
      return ['', ...hanging(`${linkSign(block)} `, block.text, WIDTH)];
    case 'facts':
      return ['', ...factLines(block.rows)];
    case 'front':
      return ['', ...(block.figure ? [...figureLines(block.figure), ''] : []), ...factLines(block.rows)];
    case 'photographs':
      return [];
    case 'figures':
      return block.figures.flatMap((figure) => ['', ...figureLines(figure)]);
    case 'table':
      return ['', ...tableLines(block.columns, block.rows, layered)];
  }
}

const rule = (sign: string) => sign.repeat(WIDTH);

function figureLines(figure: Figure): string[] {
  return [
    figure.title,
    ...figure.text.map(plainKeepingBlanks),
    ...figure.facts.flatMap((fact) => hanging('  ', fact, WIDTH)),
  ];
}

/** Spaces in a drawing matter; only unsafe characters are removed. */
const plainKeepingBlanks = (line: string) => sanitize(line);

function factLines(rows: readonly (readonly [string, Cell])[]): string[] {
  const widest = Math.min(26, Math.max(0, ...rows.map(([label]) => label.length)));
  return rows.flatMap(([label, cell]) =>
    lines(cell).flatMap(({ text }, i) =>
      hanging(`${(i === 0 ? label : '').padEnd(widest)}  `, text, WIDTH, ' '.repeat(widest + 2)),
    ),
  );
}

type Columns = (Block & { kind: 'table' })['columns'];

/** @param layered whether columns are as wide as their words ask; documents of before had fixed ones */
function tableLines(columns: Columns, rows: readonly (readonly Cell[])[], layered: boolean): string[] {
  const widths = layered
    ? wideEnough(
        columns.map(({ share }) => share),
        columns.map(({ title }, i) => [
          title,
          ...rows.flatMap((cells) => lines(cells[i]!).map(({ text }) => text)),
        ]),
      )
    : columnWidths(columns);
  const out: string[] = [];
  const row = (cells: readonly (readonly string[])[]): void => {
    const height = Math.max(1, ...cells.map(({ length }) => length));
    for (let i = 0; i < height; i++)
      out.push(cells.map((cell, column) => padded(cell[i] ?? '', widths[column]!)).join('  '));
  };
  row(columns.map(({ title }, i) => wrapText(title, widths[i]!)));
  out.push(widths.map((width) => '-'.repeat(width)).join('  '));
  for (const [i, cells] of rows.entries()) {
    const texts = cells.map(lines);
    if (i > 0 && texts.some(({ length }) => length > 1)) out.push('');
    row(texts.map((cell, column) => cell.flatMap(({ text }) => wrapText(text, widths[column]!))));
  }
  return out;
}

function columnWidths(columns: Columns): number[] {
  const free = WIDTH - 2 * (columns.length - 1);
  const shares = columns.reduce((sum, { share }) => sum + share, 0);
  const widths = columns.map(({ share }) => Math.max(6, Math.floor((free * share) / shares)));
  widths[0]! += free - widths.reduce((sum, width) => sum + width, 0);
  return widths;
}

/** Length in code points, so that astral characters do not shift a column. */
const shown = (text: string) => (ASTRAL.test(text) ? [...text].length : text.length);
const ASTRAL = /[\ud800-\udfff]/;
const padded = (text: string, width: number) => text + ' '.repeat(Math.max(0, width - shown(text)));

function hanging(first: string, text: string, width: number, rest = ' '.repeat(first.length)): string[] {
  return wrapText(text, width - first.length).map((line, i) => (i === 0 ? first : rest) + line);
}

/** Breaks at spaces; splits a word longer than the line (a hash). Returns at least one line. */
export function wrapText(text: string, width: number): string[] {
  const safe = sanitize(text).replace(/ {2,}/g, ' ');
  if (safe.length <= width) return [safe];
  // By code point if the text has surrogate pairs.
  return ASTRAL.test(safe) ? broken([...safe], width).map((line) => line.join('')) : broken(safe, width);
}

/** @param of a text, or its code points */
function broken<T extends string | string[]>(of: T, width: number): T[] {
  const out: T[] = [];
  let from = 0;
  while (of.length - from > width) {
    const blank = of.lastIndexOf(' ', from + width);
    // Split a word that fills the line.
    const to = blank > from ? blank : from + width;
    out.push(of.slice(from, to) as T);
    from = blank > from ? blank + 1 : to;
  }
  out.push(of.slice(from) as T);
  return out;
}
