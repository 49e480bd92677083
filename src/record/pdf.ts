/**
 * Renders a document as PDF/A-2a on A4: embedded font, tagged text, an outline, and identical bytes for the same
 * record. Loaded only when a PDF is requested, because the library behind it is large.
 */
import { buffer } from 'node:stream/consumers';
import { sanitize } from '../base/text.js';
import { type Block, type Document, type Figure, linkSign, type Photograph } from './blocks.js';
import { FORMER_SHEET, INK, type PdfAssets, Pen, QUIET, SHEETS, TONES } from './pdfpen.js';
import { placeSvg } from './pdfsvg.js';
import { drawFacts, drawTable, tableRoom } from './pdftable.js';

export type { PdfAssets } from './pdfpen.js';

/** PDF info key that holds the document's proof. */
export const PDF_PROOF = 'PinchrodRecord';

/**
 * @param lost takes the characters that the font does not have
 * @returns the file's bytes. Throws only if the library does.
 */
export async function pdfOf(
  document: Document,
  assets: PdfAssets,
  lost: Set<string> = new Set(),
): Promise<Uint8Array> {
  const made = new Date(document.at);
  const sheet = document.layered ? SHEETS[document.paper ?? 'a4'] : FORMER_SHEET;
  const pen = new Pen(
    {
      size: document.paper === 'letter' ? 'LETTER' : 'A4',
      margins: { top: 0, bottom: 0, left: 0, right: 0 },
      pdfVersion: '1.7',
      subset: 'PDF/A-2a',
      tagged: true,
      lang: document.say.language === 'en' ? 'en-GB' : document.say.language,
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
        ...(document.proof === '' ? {} : ({ [PDF_PROOF]: document.proof } as object)),
      },
    },
    assets,
    sheet,
  );
  const file = buffer(pen.doc);
  drawBlocks(pen, document.blocks);
  for (const sign of pen.lost) lost.add(sign);
  if (pen.lost.size > 0) {
    pen.skip(8);
    pen.tagged('P', document.say('doc-unseen-letters'), pen.style('quiet', 8));
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
      drawHeading(pen, block, roomOf(pen, blocks.slice(i + 1)));
      if (targets.has(i)) pen.doc.addNamedDestination(`part-${i}`);
      const item = (block.level === 2 ? under : section).addItem(pen.shown(block.text));
      if (block.level === 2) section = item;
    } else if (block.kind === 'link') drawLink(pen, block, blocks.indexOf(headingOf(blocks, i, block.to)!));
    else drawBlock(pen, block);
  }
}

/** What must fit below a heading, so that it does not stand alone at the foot of a page. */
function roomOf(pen: Pen, [next, after]: readonly Block[]): number {
  const own = 34;
  if (next?.kind === 'figures') return next.small ? 200 : 290;
  if (pen.least === 0) return 90;
  if (next?.kind === 'table') return own + tableRoom(pen, next.columns, next.rows);
  if (next?.kind === 'text' && after?.kind === 'figures') return 190;
  if (next?.kind === 'text' && after?.kind === 'table')
    return own + 34 + tableRoom(pen, after.columns, after.rows);
  return 90;
}

const headingOf = (blocks: readonly Block[], from: number, to: string): Block | undefined =>
  blocks.slice(from).find((block) => block.kind === 'heading' && block.level === 2 && block.text === to);

/** A remark, all of whose text leads to a heading. */
function drawLink(pen: Pen, block: Block & { kind: 'link' }, target: number): void {
  const top = pen.y;
  drawItem(pen, block.text, linkSign(block));
  if (target >= 0 && pen.y > top) pen.doc.goTo(pen.margin, top, pen.inner, pen.y - top, `part-${target}`);
  pen.skip(5);
}

function drawTitle(pen: Pen, block: Block & { kind: 'title' }): void {
  if (block.newPage) pen.newPage();
  // With its verdict.
  else if (pen.least > 0) pen.need(130);
  pen.tagged('P', block.over, pen.style('quiet', 9));
  pen.tagged('H1', block.text, { size: 19, bold: true, colour: INK });
  if (block.under !== '') pen.tagged('P', block.under, { size: 9.5, bold: false, colour: QUIET });
  pen.skip(4);
  pen.rule(pen.margin, pen.inner, 1.6, INK);
  pen.skip(10);
}

/** Keeps a heading with its content: `room` is the minimum height that needs. */
function drawHeading(pen: Pen, { level, text }: Block & { kind: 'heading' }, room: number): void {
  pen.need(room);
  const dense = pen.least > 0;
  pen.skip(level === 2 ? (dense ? 7 : 10) : 4);
  pen.tagged(level === 2 ? 'H2' : 'H3', text, {
    size: level === 2 ? (dense ? 11 : 12) : 9.6,
    bold: true,
    colour: INK,
  });
  if (level === 2) {
    pen.skip(1);
    pen.rule(pen.margin, pen.inner, 0.6, '#8a8a8a');
  }
  pen.skip(4);
}

function drawBlock(pen: Pen, block: Exclude<Block, { kind: 'title' | 'heading' | 'link' }>): void {
  switch (block.kind) {
    case 'verdict':
      drawVerdict(pen, block);
      return;
    case 'text':
      pen.tagged('P', block.text, pen.style(block.look, 8.8));
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
      drawTable(pen, block);
      return;
    case 'photographs':
      drawPhotographs(pen, block.photographs);
      return;
    case 'figures':
      drawFigures(pen, block.figures, block.small ? 3 : block.wide ? 1 : 2);
      return;
  }
}

function drawVerdict(pen: Pen, { text, under, tone }: Block & { kind: 'verdict' }): void {
  const big = { size: 14.5, bold: true, colour: INK };
  const small = { size: 8.8, bold: false, colour: INK };
  const [x, width] = [pen.margin + 20, pen.inner - 32];
  const height =
    pen.wrap(text, big, width).length * pen.lineHeight(big.size) +
    pen.wrap(under, small, width).length * pen.lineHeight(small.size) +
    14;
  pen.need(height);
  pen.tags.decoration(() => {
    pen.doc.rect(pen.margin, pen.y, pen.inner, height).lineWidth(1).strokeColor(TONES[tone]).stroke();
    pen.doc.rect(pen.margin, pen.y, 8, height).fillColor(TONES[tone]).fill();
  });
  const top = pen.y;
  pen.skip(6);
  pen.tagged('P', text, big, x, width);
  pen.tagged('P', under, small, x, width);
  pen.y = top + height + 8;
}

function drawItem(pen: Pen, text: string, sign: string): void {
  const style = pen.style(undefined, 9);
  pen.need(pen.lineHeight(style.size));
  pen.tags.as('LI', () => {
    pen.tags.as('Lbl', () => pen.put(sign, pen.margin + 4, pen.y, pen.style('strong', 9)));
    pen.tagged('LBody', text, style, pen.margin + 16, pen.inner - 16);
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
  const x = pen.sheet.width - pen.margin - beside;
  pen.tags.figure(figure.alt, () => {
    pen.y += placeSvg(pen, figure.svg, { x, y: top, w: beside, h: 230 }) + 4;
  });
  pen.tagged('P', figure.title, pen.style('strong', 8), x, beside);
  const drawn = pen.y;
  pen.y = top;
  drawFacts(pen, rows, pen.inner - beside - 14);
  const turned = pen.doc.bufferedPageRange().count > page;
  pen.y = (turned ? pen.y : Math.max(drawn, pen.y)) + 8;
}

function drawFigures(pen: Pen, figures: readonly Figure[], beside: 1 | 2 | 3): void {
  const width = (pen.inner - 20 * (beside - 1)) / beside;
  const height = { 1: 205, 2: 175, 3: 94 }[beside];
  for (let i = 0; i < figures.length; i += beside) {
    const pair = figures.slice(i, i + beside);
    const style = pen.style(undefined, 8);
    const words = Math.max(
      ...pair.map(({ facts }) => facts.reduce((n, fact) => n + pen.wrap(fact, style, width).length, 1)),
    );
    const picture = pair.some(({ svg }) => svg !== '') ? height : 0;
    pen.need(picture + words * pen.lineHeight(8) + 12);
    const top = pen.y;
    let lowest = top;
    pair.forEach((figure, k) => {
      const x = pen.margin + k * (width + 20);
      pen.y = top;
      if (figure.svg !== '')
        pen.tags.figure(figure.alt, () => {
          pen.y += placeSvg(pen, figure.svg, { x, y: top, w: width, h: picture - 10 }) + 4;
        });
      pen.tagged('P', figure.title, pen.style('strong', 8), x, width);
      for (const fact of figure.facts) pen.tagged('P', fact, style, x, width);
      lowest = Math.max(lowest, pen.y);
    });
    pen.y = lowest + 8;
  }
}

/** A picture that is read before it is placed; the library's types do not name it. */
type Pictures = { openImage(bytes: Buffer): { readonly width: number; readonly height: number } };

/** Nine side by side, in the order of the files listed above them. */
function drawPhotographs(pen: Pen, photographs: readonly Photograph[]): void {
  const [gap, beside] = [8, 9];
  const side = (pen.inner - gap * (beside - 1)) / beside;
  const pictures = pen.doc as unknown as Pictures;
  for (let i = 0; i < photographs.length; i += beside) {
    const row = photographs.slice(i, i + beside).map((each) => {
      const picture = pictures.openImage(Buffer.from(each.png, 'base64'));
      const scale = Math.min(1, side / Math.max(picture.width, picture.height));
      return { ...each, picture, width: picture.width * scale, height: picture.height * scale };
    });
    const tallest = Math.max(...row.map(({ height }) => height));
    pen.need(tallest);
    row.forEach(({ alt, picture, width, height }, k) => {
      const x = pen.margin + k * (side + gap);
      pen.tags.figure(alt, () => pen.doc.image(picture as unknown as Buffer, x, pen.y, { width, height }));
    });
    pen.y += tallest + 4;
  }
}

/** Footer: whose record, whether finished, short code, page number; so a loose page can be identified. */
function foot(pen: Pen, { foot: text, say }: Document): void {
  const { count } = pen.doc.bufferedPageRange();
  const style = pen.style('quiet', 8);
  for (let i = 0; i < count; i++) {
    pen.doc.switchToPage(i);
    pen.y = pen.sheet.height - pen.margin - 6;
    pen.rule(pen.margin, pen.inner, 0.5, '#8a8a8a');
    const page = say('doc-page', { n: i + 1, of: count });
    const room = pen.inner - pen.width(page, style) - 12;
    pen.tags.within(undefined, () => {
      pen.put(pen.wrap(text, style, room)[0]!, pen.margin, pen.y + 5, style);
      pen.put(page, pen.sheet.width - pen.margin - pen.width(page, style), pen.y + 5, style);
    });
  }
}
