/**
 * Renders a document as PDF/A-2a on A4: embedded font, tagged text, an outline, and identical bytes for the same
 * record. Loaded only when a PDF is requested, because the library behind it is large.
 */
import { buffer } from 'node:stream/consumers';
import { sanitize } from '../base/text.js';
import { type Block, type Document, type Figure, linkSign } from './blocks.js';
import { INK, INNER, MARGIN, PAGE, type PdfAssets, Pen, QUIET, styleOf, TONES } from './pdfpen.js';
import { placeSvg } from './pdfsvg.js';
import { drawFacts, drawTable } from './pdftable.js';

export type { PdfAssets } from './pdfpen.js';

/** PDF info key that holds the document's proof. */
export const PDF_PROOF = 'PinchrodRecord';

/** @returns the file's bytes. Throws only if the library does. */
export async function pdfOf(document: Document, assets: PdfAssets): Promise<Uint8Array> {
  const made = new Date(document.at);
  const pen = new Pen(
    {
      size: 'A4',
      margins: { top: 0, bottom: 0, left: 0, right: 0 },
      pdfVersion: '1.7',
      subset: 'PDF/A-2a',
      tagged: true,
      lang: 'en-GB',
      displayTitle: true,
      bufferPages: true,
      info: {
        Title: sanitize(document.title),
        Author: sanitize(document.author),
        Subject: sanitize(document.subject),
        Creator: 'pinchrod',
        Producer: 'pinchrod',
        CreationDate: made,
        ModDate: made,
        ...({ [PDF_PROOF]: document.proof } as object),
      },
    },
    assets,
  );
  const file = buffer(pen.doc);
  drawBlocks(pen, document.blocks);
  if (pen.lost) {
    pen.skip(8);
    pen.tagged('P', document.say('doc-unseen-letters'), styleOf('quiet', 8));
  }
  foot(pen, document);
  pen.tags.end();
  pen.doc.end();
  return file;
}

type Outline = { addItem(title: string, options?: { expanded?: boolean }): Outline };

function drawBlocks(pen: Pen, blocks: readonly Block[]): void {
  const root = pen.doc.outline as unknown as Outline;
  const targets = new Set(
    blocks.flatMap((block, i) =>
      block.kind === 'link' ? [blocks.indexOf(headingOf(blocks, i, block.to)!)] : [],
    ),
  );
  let under: Outline = root;
  let section: Outline = root;
  for (const [i, block] of blocks.entries()) {
    if (block.kind === 'title') {
      drawTitle(pen, block);
      under = root.addItem(pen.shown(block.text), { expanded: true });
      section = under;
    } else if (block.kind === 'heading') {
      drawHeading(pen, block, blocks[i + 1]?.kind === 'figures' ? 290 : 90);
      if (targets.has(i)) pen.doc.addNamedDestination(`part-${i}`);
      const item = (block.level === 2 ? under : section).addItem(pen.shown(block.text));
      if (block.level === 2) section = item;
    } else if (block.kind === 'link') drawLink(pen, block, blocks.indexOf(headingOf(blocks, i, block.to)!));
    else drawBlock(pen, block);
  }
}

const headingOf = (blocks: readonly Block[], from: number, to: string): Block | undefined =>
  blocks.slice(from).find((block) => block.kind === 'heading' && block.level === 2 && block.text === to);

/** A remark, all of whose text leads to a heading. */
function drawLink(pen: Pen, block: Block & { kind: 'link' }, target: number): void {
  const top = pen.y;
  drawItem(pen, block.text, linkSign(block));
  if (target >= 0 && pen.y > top) pen.doc.goTo(MARGIN, top, INNER, pen.y - top, `part-${target}`);
  pen.skip(5);
}

function drawTitle(pen: Pen, block: Block & { kind: 'title' }): void {
  if (block.newPage) pen.newPage();
  pen.tagged('P', block.over, styleOf('quiet', 9));
  pen.tagged('H1', block.text, { size: 19, bold: true, colour: INK });
  if (block.under !== '') pen.tagged('P', block.under, { size: 9.5, bold: false, colour: QUIET });
  pen.skip(4);
  pen.rule(MARGIN, INNER, 1.6, INK);
  pen.skip(10);
}

/** Keeps a heading with its content: `room` is the minimum height that needs. */
function drawHeading(pen: Pen, { level, text }: Block & { kind: 'heading' }, room: number): void {
  pen.need(room);
  pen.skip(level === 2 ? 10 : 4);
  pen.tagged(level === 2 ? 'H2' : 'H3', text, { size: level === 2 ? 12 : 9.6, bold: true, colour: INK });
  if (level === 2) {
    pen.skip(1);
    pen.rule(MARGIN, INNER, 0.6, '#8a8a8a');
  }
  pen.skip(4);
}

function drawBlock(pen: Pen, block: Exclude<Block, { kind: 'title' | 'heading' | 'link' }>): void {
  switch (block.kind) {
    case 'verdict':
      drawVerdict(pen, block);
      return;
    case 'text':
      pen.tagged('P', block.text, styleOf(block.look, 8.8));
      pen.skip(5);
      return;
    case 'list':
      pen.tags.as('L', () => {
        for (const item of block.items) drawItem(pen, item, block.tone === 'open' ? '!' : '\u2013');
      });
      pen.skip(5);
      return;
    case 'facts':
      drawFacts(pen, block.rows);
      pen.skip(6);
      return;
    case 'front':
      drawFront(pen, block);
      return;
    case 'table':
      drawTable(pen, block.columns, block.rows);
      return;
    case 'figures':
      drawFigures(pen, block.figures);
      return;
  }
}

function drawVerdict(pen: Pen, { text, under, tone }: Block & { kind: 'verdict' }): void {
  const big = { size: 14.5, bold: true, colour: INK };
  const small = { size: 8.8, bold: false, colour: INK };
  const [x, width] = [MARGIN + 20, INNER - 32];
  const height =
    pen.wrap(text, big, width).length * pen.lineHeight(big.size) +
    pen.wrap(under, small, width).length * pen.lineHeight(small.size) +
    14;
  pen.need(height);
  pen.tags.decoration(() => {
    pen.doc.rect(MARGIN, pen.y, INNER, height).lineWidth(1).strokeColor(TONES[tone]).stroke();
    pen.doc.rect(MARGIN, pen.y, 8, height).fillColor(TONES[tone]).fill();
  });
  const top = pen.y;
  pen.skip(6);
  pen.tagged('P', text, big, x, width);
  pen.tagged('P', under, small, x, width);
  pen.y = top + height + 8;
}

function drawItem(pen: Pen, text: string, sign: string): void {
  const style = styleOf(undefined, 9);
  pen.need(pen.lineHeight(style.size));
  pen.tags.as('LI', () => {
    pen.tags.as('Lbl', () => pen.put(sign, MARGIN + 4, pen.y, styleOf('strong', 9)));
    pen.tagged('LBody', text, style, MARGIN + 16, INNER - 16);
  });
  pen.skip(1.5);
}

function drawFront(pen: Pen, { rows, figure }: Block & { kind: 'front' }): void {
  if (!figure) {
    drawFacts(pen, rows);
    pen.skip(6);
    return;
  }
  // Draw the figure first: the facts beside it may run onto the next page, the figure may not.
  const beside = 190;
  pen.need(260);
  const top = pen.y;
  const page = pen.doc.bufferedPageRange().count;
  const x = PAGE.width - MARGIN - beside;
  pen.tags.figure(figure.alt, () => {
    pen.y += placeSvg(pen, figure.svg, { x, y: top, w: beside, h: 230 }) + 4;
  });
  pen.tagged('P', figure.title, styleOf('strong', 8), x, beside);
  const drawn = pen.y;
  pen.y = top;
  drawFacts(pen, rows, INNER - beside - 14);
  const turned = pen.doc.bufferedPageRange().count > page;
  pen.y = (turned ? pen.y : Math.max(drawn, pen.y)) + 8;
}

function drawFigures(pen: Pen, figures: readonly Figure[]): void {
  const width = (INNER - 20) / 2;
  for (let i = 0; i < figures.length; i += 2) {
    const pair = figures.slice(i, i + 2);
    const style = styleOf(undefined, 8);
    const words = Math.max(
      ...pair.map(({ facts }) => facts.reduce((n, fact) => n + pen.wrap(fact, style, width).length, 1)),
    );
    const picture = pair.some(({ svg }) => svg !== '') ? 175 : 0;
    pen.need(picture + words * pen.lineHeight(8) + 12);
    const top = pen.y;
    let lowest = top;
    pair.forEach((figure, k) => {
      const x = MARGIN + k * (width + 20);
      pen.y = top;
      if (figure.svg !== '')
        pen.tags.figure(figure.alt, () => {
          pen.y += placeSvg(pen, figure.svg, { x, y: top, w: width, h: picture - 10 }) + 4;
        });
      pen.tagged('P', figure.title, styleOf('strong', 8), x, width);
      for (const fact of figure.facts) pen.tagged('P', fact, style, x, width);
      lowest = Math.max(lowest, pen.y);
    });
    pen.y = lowest + 8;
  }
}

/** Footer: whose record, whether finished, short code, page number; so a loose page can be identified. */
function foot(pen: Pen, { foot: text, say }: Document): void {
  const { count } = pen.doc.bufferedPageRange();
  const style = styleOf('quiet', 8);
  for (let i = 0; i < count; i++) {
    pen.doc.switchToPage(i);
    pen.y = PAGE.height - MARGIN - 6;
    pen.rule(MARGIN, INNER, 0.5, '#8a8a8a');
    const page = say('doc-page', { n: i + 1, of: count });
    const room = INNER - pen.width(page, style) - 12;
    pen.tags.within(undefined, () => {
      pen.put(pen.wrap(text, style, room)[0]!, MARGIN, pen.y + 5, style);
      pen.put(page, PAGE.width - MARGIN - pen.width(page, style), pen.y + 5, style);
    });
  }
}
