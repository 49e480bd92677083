/** Draws the SVG subset our own drawing code emits; anything else is skipped. */
import type { Pen } from './pdfpen.js';

type Attributes = Readonly<Record<string, string>>;

export interface SvgBox {
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
}

/** Draws the picture as large as fits the area; returns the height used. */
export function placeSvg(
  pen: Pen,
  svg: string,
  place: SvgBox = { x: pen.margin, y: pen.y, w: 200, h: 200 },
): number {
  const { doc } = pen;
  const tags = [...svg.matchAll(/<(\/?)([a-zA-Z]+)((?:\s+[\w:-]+="[^"]*")*)\s*(\/?)>([^<]*)/g)];
  const root = attributesOf(tags.find(([, , name]) => name === 'svg')?.[3] ?? '');
  const view = numbers(root.viewBox ?? `0 0 ${root.width ?? 100} ${root.height ?? 100}`);
  const [vx = 0, vy = 0, vw = 100, vh = 100] = view;
  const scale = Math.min(place.w / vw, place.h / vh);
  doc.save();
  doc
    .translate(place.x + (place.w - vw * scale) / 2, place.y)
    .scale(scale)
    .translate(-vx, -vy);
  const stack: Attributes[] = [{}];
  let quiet = 0;
  for (const [, closing, name = '', raw = '', selfClosing, text = ''] of tags) {
    const tag = name.toLowerCase();
    if (closing) {
      if (SILENT.has(tag)) quiet -= 1;
      else {
        stack.pop();
        doc.restore();
      }
      continue;
    }
    if (SILENT.has(tag)) {
      if (!selfClosing) quiet += 1;
      continue;
    }
    if (quiet > 0) continue;
    const own = attributesOf(raw);
    const all = { ...inherited(stack.at(-1)!), ...own };
    doc.save();
    if (tag !== 'svg') transform(doc, own.transform ?? '');
    drawElement(pen, tag, all, unescaped(text), pen.least / scale);
    if (selfClosing) doc.restore();
    else stack.push(all);
  }
  // Unclosed elements would leak graphics state onto the page.
  for (let i = 1; i < stack.length; i++) doc.restore();
  doc.restore();
  return vh * scale;
}

const SILENT = new Set(['title', 'desc', 'style', 'defs', 'metadata']);
const OWN_ONLY = new Set(['transform', 'x', 'y', 'width', 'height', 'd', 'points', 'id', 'class', 'viewBox']);

const inherited = (attributes: Attributes): Attributes =>
  Object.fromEntries(Object.entries(attributes).filter(([key]) => !OWN_ONLY.has(key)));

/** @param least size of text, in the drawing's own units */
function drawElement(pen: Pen, tag: string, a: Attributes, text: string, least: number): void {
  const { doc } = pen;
  const n = (key: string, otherwise = 0) => Number.parseFloat(a[key] ?? '') || otherwise;
  switch (tag) {
    case 'line':
      doc.moveTo(n('x1'), n('y1')).lineTo(n('x2'), n('y2'));
      paint(doc, { ...a, fill: 'none' });
      return;
    case 'rect':
      if (n('rx') > 0) doc.roundedRect(n('x'), n('y'), n('width'), n('height'), n('rx'));
      else doc.rect(n('x'), n('y'), n('width'), n('height'));
      paint(doc, a);
      return;
    case 'circle':
      doc.circle(n('cx'), n('cy'), n('r'));
      paint(doc, a);
      return;
    case 'polygon':
    case 'polyline': {
      const list = numbers(a.points ?? '');
      for (let i = 0; i + 1 < list.length; i += 2)
        if (i === 0) doc.moveTo(list[0]!, list[1]!);
        else doc.lineTo(list[i]!, list[i + 1]!);
      if (tag === 'polygon') doc.closePath();
      paint(doc, a);
      return;
    }
    case 'path':
      doc.path(a.d ?? '');
      paint(doc, a);
      return;
    case 'text':
    case 'tspan': {
      if (text.trim() === '') return;
      const size = Math.max(least, n('font-size', 11));
      const style = {
        size,
        bold: /bold|[6-9]00/.test(a['font-weight'] ?? ''),
        colour: colour(a.fill) ?? '#000000',
      };
      const shown = pen.shown(text.trim());
      const width = pen.width(shown, style);
      const before = { middle: width / 2, end: width }[a['text-anchor'] ?? ''] ?? 0;
      const middle = /middle|central/.test(a['dominant-baseline'] ?? '');
      pen.put(shown, n('x') + n('dx') - before, n('y') + n('dy') - size * (middle ? 0.68 : 1.069), style);
      return;
    }
  }
}

function paint(doc: PDFKit.PDFDocument, a: Attributes): void {
  const fill = colour(a.fill ?? '#000000');
  const stroke = colour(a.stroke);
  const opacity = Number(a['fill-opacity'] ?? 1);
  if (stroke) {
    doc.lineWidth(Number.parseFloat(a['stroke-width'] ?? '1')).strokeColor(stroke);
    const dash = numbers(a['stroke-dasharray'] ?? '');
    if (dash.length > 0) doc.dash(dash[0]!, { space: dash[1] ?? dash[0]! });
    if (a['stroke-linecap'] === 'round') doc.lineCap('round');
  }
  // No transparency: a faint fill is blended with white paper, which older printers and PDF/A readers show best.
  if (fill) doc.fillColor(opacity < 1 ? mixed(fill, opacity) : fill);
  if (fill && stroke) doc.fillAndStroke();
  else if (fill) doc.fill();
  else if (stroke) doc.stroke();
  else doc.path('M0 0');
}

const NAMED: Record<string, string> = {
  black: '#000000',
  white: '#ffffff',
  grey: '#808080',
  gray: '#808080',
  currentcolor: '#161616',
};

function colour(text: string | undefined): string | undefined {
  if (text === undefined || text === 'none') return undefined;
  const named = NAMED[text.toLowerCase()] ?? text;
  if (/^#[0-9a-f]{3}$/i.test(named)) return named.replace(/[0-9a-f]/gi, '$&$&');
  return /^#[0-9a-f]{6}$/i.test(named) ? named : '#000000';
}

function mixed(hex: string, share: number): string {
  const part = (i: number) =>
    Math.round(255 - (255 - Number.parseInt(hex.slice(i, i + 2), 16)) * share)
      .toString(16)
      .padStart(2, '0');
  return `#${part(1)}${part(3)}${part(5)}`;
}

function transform(doc: PDFKit.PDFDocument, text: string): void {
  for (const [, kind, list] of text.matchAll(/(\w+)\(([^)]*)\)/g)) {
    const [a = 0, b = 0, c = 0, d = 1, e = 0, f = 0] = numbers(list!);
    if (kind === 'translate') doc.translate(a, b);
    else if (kind === 'scale') doc.scale(a, numbers(list!).length > 1 ? b : a);
    else if (kind === 'rotate') doc.rotate(a, { origin: [b, c] });
    else if (kind === 'matrix') doc.transform(a, b, c, d, e, f);
  }
}

const numbers = (text: string): number[] => (text.match(/-?\d*\.?\d+(?:e-?\d+)?/gi) ?? []).map(Number);

const attributesOf = (raw: string): Attributes =>
  Object.fromEntries(
    [...raw.matchAll(/([\w:-]+)="([^"]*)"/g)].map(([, key, value]) => [key, unescaped(value!)]),
  );

const unescaped = (text: string): string =>
  text
    .replace(/&lt;/g, '<')
    .replace(/&gt;/g, '>')
    .replace(/&quot;/g, '"')
    .replace(/&#39;|&apos;/g, "'")
    .replace(/&#x([0-9a-f]+);/gi, (_, hex) => String.fromCodePoint(Number.parseInt(hex, 16)))
    .replace(/&amp;/g, '&');
