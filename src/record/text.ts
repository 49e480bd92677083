/** Renders a document as plain text for a terminal, printer or email: 96 columns where it names no other width, visible characters only. */
import { sanitize } from '../base/text.js';
import { type Block, type Cell, type Document, type Figure, lines, linkSign } from './blocks.js';
import { LINE, wideEnough } from './columns.js';

/** Enclose the proof by which `pinchrod verify` finds the journals. */
export const PROOF_LINE = 'For pinchrod verify (';
export const PROOF_END = ')';

export function textOf(document: Document): string {
  const width = document.line ?? LINE;
  const out = document.blocks.flatMap((block) => blockLines(block, width, document.layered));
  const foot = [
    ...(document.proof === '' ? [] : [PROOF_LINE, ...wrapText(document.proof, width), PROOF_END, '']),
    rule('=', width),
    ...wrapText(document.foot, width),
  ];
  return `${[...out, '', ...foot].map((line) => line.trimEnd()).join('\n')}\n`;
}

function blockLines(block: Block, width: number, layered = false): string[] {
  switch (block.kind) {
    case 'title':
      return [
        ...(block.newPage ? ['\n'.repeat(2)] : []),
        rule('=', width),
        ...wrapText(block.over, width),
        ...wrapText(block.text.toUpperCase(), width),
        ...wrapText(block.under, width),
        rule('=', width),
      ];
    case 'verdict':
      return ['', ...wrapText(`*** ${block.text} ***`, width), ...wrapText(block.under, width)];
    case 'heading':
      return block.level === 2
        ? ['', ...wrapText(block.text.toUpperCase(), width), rule('-', width)]
        : ['', ...wrapText(`== ${block.text} ==`, width)];
    case 'text':
      return ['', ...wrapText(block.text, width)];
    case 'list':
      return ['', ...block.items.flatMap((item) => hanging('- ', item, width))];
    case 'link':
      return ['', ...hanging(`${linkSign(block)} `, block.text, width)];
    case 'facts':
      return ['', ...factLines(block.rows, width)];
    case 'front':
      return [
        '',
        ...(block.figure ? [...figureLines(block.figure, width), ''] : []),
        ...factLines(block.rows, width),
      ];
    case 'photographs':
      return [];
    case 'figures':
      return block.figures.flatMap((figure) => ['', ...figureLines(figure, width)]);
    case 'table':
      return ['', ...tableLines(block.columns, block.rows, width, layered)];
  }
}

const rule = (sign: string, width: number) => sign.repeat(width);

function figureLines(figure: Figure, width: number): string[] {
  return [
    figure.title,
    ...figure.text.map(plainKeepingBlanks),
    ...figure.facts.flatMap((fact) => hanging('  ', fact, width)),
  ];
}

/** Spaces in a drawing matter; only unsafe characters are removed. */
const plainKeepingBlanks = (line: string) => sanitize(line);

function factLines(rows: readonly (readonly [string, Cell])[], width: number): string[] {
  const widest = Math.min(26, Math.max(0, ...rows.map(([label]) => label.length)));
  return rows.flatMap(([label, cell]) =>
    lines(cell).flatMap(({ text }, i) =>
      hanging(`${(i === 0 ? label : '').padEnd(widest)}  `, text, width, ' '.repeat(widest + 2)),
    ),
  );
}

type Columns = (Block & { kind: 'table' })['columns'];

/** @param layered whether columns are as wide as their words ask; documents of before had fixed ones */
function tableLines(
  columns: Columns,
  rows: readonly (readonly Cell[])[],
  width: number,
  layered: boolean,
): string[] {
  const widths = layered
    ? wideEnough(
        columns.map(({ share }) => share),
        columns.map(({ title }, i) => [
          title,
          ...rows.flatMap((cells) => lines(cells[i]!).map(({ text }) => text)),
        ]),
        width,
      )
    : columnWidths(columns, width);
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

function columnWidths(columns: Columns, width: number): number[] {
  const free = width - 2 * (columns.length - 1);
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
