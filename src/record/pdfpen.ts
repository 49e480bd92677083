/** A cursor on a PDF page, with basic text and line drawing. Points; y goes down; equal margins. */
import * as pdfkit from 'pdfkit';
import type { Look } from './blocks.js';

/** Points. */
export interface PageForm {
  readonly width: number;
  readonly height: number;
  readonly margin: number;
  /** Above the margin at the foot, for the line that says whose page it is. */
  readonly foot: number;
  /** No text is smaller. */
  readonly least: number;
}

const A4 = { width: 595.28, height: 841.89 };
/** As documents were drawn before they were arranged in layers. */
export const FORMER_SHEET: PageForm = { ...A4, margin: 40, foot: 20, least: 0 };
const LAYERED = { margin: 32, foot: 12, least: 8 };
export const SHEETS: Readonly<Record<'a4' | 'letter', PageForm>> = {
  a4: { ...A4, ...LAYERED },
  letter: { width: 612, height: 792, ...LAYERED },
};

/** Font files and colour profile, read by whichever caller has disk access. */
export interface PdfAssets {
  readonly regular: Uint8Array;
  readonly bold: Uint8Array;
  /** Faces of the workshop's own, for letters that these lack: the first that has one is taken. */
  readonly more?: readonly Uint8Array[];
  /** sRGB, as PDF/A requires. */
  readonly profile: Uint8Array;
}

/** The library expects its colour profile beside itself; bundled, that is this module's location. */
const PROFILE_PLACE = new URL('./data/sRGB_IEC61966_2_1.icc', import.meta.url).href;
const library = pdfkit as unknown as {
  readonly PDFDocument: new (options: PDFKit.PDFDocumentOptions) => PDFKit.PDFDocument;
  registerFile(path: string, data: Uint8Array): void;
};

export interface Style {
  readonly size: number;
  readonly bold: boolean;
  readonly colour: string;
}
export const INK = '#161616';
export const QUIET = '#4a4a4a';
const LINK = '#123f7d';
export const TONES = { good: '#14662f', bad: '#a01b1b', open: '#7a4a00' } as const;

function styleOf(look: Look | undefined, size: number): Style {
  switch (look) {
    case 'strong':
      return { size, bold: true, colour: INK };
    case 'quiet':
      return { size: size * 0.93, bold: false, colour: QUIET };
    case 'code':
      return { size: size * 0.9, bold: false, colour: INK };
    case undefined:
      return { size, bold: false, colour: INK };
    default:
      return { size, bold: true, colour: TONES[look] };
  }
}

interface Face {
  readonly ascent: number;
  readonly unitsPerEm: number;
  hasGlyphForCodePoint(code: number): boolean;
}

/** Further faces have no bold of their own. */
const fontName = (face: number, bold: boolean): string =>
  face > 0 ? `more-${face}` : bold ? 'bold' : 'regular';

/** Substitutes for characters missing from the embedded font. */
const SAID: Record<string, string> = {
  '\u2264': '<=',
  '\u2265': '>=',
  '\u2192': '->',
  '\u2190': '<-',
  '\u00a0': ' ',
  '\u202f': ' ',
};

/** The library writes title and author into XML unescaped, where an "&" would make all the metadata unreadable. */
function plainMetadata(doc: PDFKit.PDFDocument): void {
  const inner = doc as unknown as { info: Record<string, unknown>; _addInfo(): void };
  const addInfo = inner._addInfo.bind(doc);
  inner._addInfo = () => {
    const { info } = inner;
    const escaped = Object.entries(info).map(([key, value]) => [
      key,
      typeof value === 'string' ? inXml(value) : value,
    ]);
    inner.info = Object.fromEntries(escaped);
    addInfo();
    inner.info = info;
  };
}

const inXml = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');

/** A positioned line. The library measures text only for links and underlines, which this has none of. */
const PLACED = { lineBreak: false, textWidth: 0, wordCount: 1 } as PDFKit.Mixins.TextOptions;

export class Pen {
  readonly doc: PDFKit.PDFDocument;
  readonly tags: Tags;
  y: number;
  /** Characters that could not be shown; the document says at its end that there are some. */
  readonly lost = new Set<string>();
  readonly #widths = new Map<string, number>();
  /** Of each sign, which face has it; undefined: none. */
  readonly #faceOf = new Map<string, number | undefined>();
  readonly #faces: Face[] = [];
  readonly #more: number;

  constructor(
    options: PDFKit.PDFDocumentOptions,
    assets: PdfAssets,
    readonly sheet: PageForm = FORMER_SHEET,
  ) {
    this.y = sheet.margin;
    library.registerFile(PROFILE_PLACE, assets.profile);
    // No initial font: loading the library's default would be wasted.
    this.doc = new library.PDFDocument({ ...options, font: null as never });
    this.tags = new Tags(this.doc, options.tagged === true);
    plainMetadata(this.doc);
    this.doc.registerFont('regular', assets.regular as never);
    this.doc.registerFont('bold', assets.bold as never);
    for (const [i, face] of (assets.more ?? []).entries())
      this.doc.registerFont(`more-${i + 1}`, face as never);
    this.#more = assets.more?.length ?? 0;
    this.#opened(0);
  }

  get least(): number {
    return this.sheet.least;
  }
  get margin(): number {
    return this.sheet.margin;
  }
  /** Between the margins. */
  get inner(): number {
    return this.sheet.width - 2 * this.sheet.margin;
  }
  get bottom(): number {
    return this.sheet.height - this.margin - this.sheet.foot;
  }
  get left(): number {
    return this.bottom - this.y;
  }

  newPage(): void {
    this.doc.addPage();
    this.y = this.margin;
  }
  /** Starts a new page if less than `height` is free on this one. */
  need(height: number): void {
    if (this.left < height && this.y > this.margin) this.newPage();
  }
  skip(height: number): void {
    this.y += height;
  }

  style(look: Look | undefined, size: number): Style {
    const style = styleOf(look, size);
    return { ...style, size: Math.max(this.least, style.size) };
  }

  lineHeight(size: number): number {
    return size * (this.least === 0 ? 1.36 : 1.27);
  }

  /** Replaces characters the font cannot show. */
  shown(text: string): string {
    let out = '';
    for (const sign of text.normalize('NFC')) {
      const said = SAID[sign];
      if (said !== undefined) out += said;
      else if (this.#faceWith(sign) !== undefined) out += sign;
      else {
        out += '\ufffd';
        this.lost.add(sign);
      }
    }
    return out;
  }

  /** Its own first; another is opened when a letter is met that those before it lack. */
  #faceWith(sign: string): number | undefined {
    if (this.#faceOf.has(sign)) return this.#faceOf.get(sign);
    const code = sign.codePointAt(0)!;
    let found: number | undefined;
    for (let i = 0; found === undefined && i <= this.#more; i++)
      if (this.#opened(i).hasGlyphForCodePoint(code)) found = i;
    this.#faceOf.set(sign, found);
    return found;
  }

  #open(i: number): Face {
    this.doc.font(fontName(i, false));
    return (this.doc as unknown as { _font: { font: Face } })._font.font;
  }

  /** A file that is no font has no letters. */
  #tried(i: number): Face {
    try {
      return this.#open(i);
    } catch {
      return { ascent: 0, unitsPerEm: 1, hasGlyphForCodePoint: () => false };
    }
  }

  #opened(i: number): Face {
    const known = this.#faces[i];
    if (known) return known;
    const face = i === 0 ? this.#open(0) : this.#tried(i);
    this.#faces[i] = face;
    return face;
  }

  /** How much further down text of this face is put, points: faces differ in how high above the line theirs begins. */
  #lower(face: number, size: number): number {
    const above = ({ ascent, unitsPerEm }: Face) => (size * ascent) / unitsPerEm;
    return above(this.#opened(0)) - above(this.#opened(face));
  }

  /** Pieces of one face each. A sign that no face has, and a blank, stay with what is before them. */
  #runs(text: string): { readonly face: number; readonly text: string }[] {
    if (this.#more === 0) return [{ face: 0, text }];
    const runs: { face: number; text: string }[] = [];
    for (const sign of text) {
      const last = runs.at(-1);
      const face = sign === ' ' ? (last?.face ?? 0) : (this.#faceWith(sign) ?? last?.face ?? 0);
      if (last?.face === face) last.text += sign;
      else runs.push({ face, text: sign });
    }
    return runs;
  }

  width(text: string, { size, bold }: Style): number {
    const key = `${bold ? 'b' : 'r'}${text}`;
    let em = this.#widths.get(key);
    if (em === undefined) {
      em = 0;
      for (const run of this.#runs(text)) {
        this.doc.font(fontName(run.face, bold)).fontSize(100);
        em += this.doc.widthOfString(run.text) / 100;
      }
      this.#widths.set(key, em);
    }
    return em * size;
  }

  /** Breaks at spaces so that each line fits; a word that is too long (a hash) is split. */
  wrap(text: string, style: Style, width: number): string[] {
    const out: string[] = [];
    const blank = this.width(' ', style);
    let line = '';
    let length = 0;
    for (const word of this.shown(text).split(' ')) {
      const w = this.width(word, style);
      if (line !== '' && length + blank + w > width) {
        out.push(line);
        line = '';
        length = 0;
      }
      if (w <= width) {
        length += (line === '' ? 0 : blank) + w;
        line += line === '' ? word : ` ${word}`;
        continue;
      }
      for (const sign of word) {
        const s = this.width(sign, style);
        if (length + s > width && line !== '') {
          out.push(line);
          line = '';
          length = 0;
        }
        line += sign;
        length += s;
      }
    }
    out.push(line);
    return out;
  }

  put(text: string, x: number, y: number, { size, bold, colour }: Style): void {
    if (text === '') return;
    this.tags.content(() => {
      let at = x;
      for (const run of this.#runs(text)) {
        this.doc
          .font(fontName(run.face, bold))
          .fontSize(size)
          .fillColor(colour)
          // Lines of all faces stand on the line of the first.
          .text(run.text, at, y + (run.face === 0 ? 0 : this.#lower(run.face, size)), PLACED);
        at += this.width(run.text, { size, bold, colour });
      }
    });
  }

  /** A paragraph from the current position, continuing onto new pages as needed. */
  paragraph(text: string, style: Style, x = this.margin, width = this.inner): void {
    const height = this.lineHeight(style.size);
    for (const line of this.wrap(text, style, width)) {
      this.need(height);
      this.put(line, x, this.y, style);
      this.y += height;
    }
  }

  /** A line of text that leads to a named place of the document. */
  link(text: string, to: string, x: number, y: number, style: Style): void {
    const part = this.tags.open('Link');
    this.tags.within(part, () => this.put(text, x, y, { ...style, colour: LINK }));
    const options = part ? { structParent: part, Contents: Object(text) } : {};
    this.doc.goTo(x, y, this.width(text, style), this.lineHeight(style.size), to, options as never);
  }

  tagged(tag: Tag, text: string, style: Style, x = this.margin, width = this.inner): void {
    this.tags.as(tag, () => this.paragraph(text, style, x, width));
  }

  rule(x: number, width: number, weight: number, colour: string): void {
    this.tags.decoration(() => {
      this.doc
        .moveTo(x, this.y)
        .lineTo(x + width, this.y)
        .lineWidth(weight)
        .strokeColor(colour)
        .stroke();
    });
  }
}

// Structure for screen readers: all text and drawings have an element; decoration is an artifact.

export type Tag =
  | 'H1'
  | 'H2'
  | 'H3'
  | 'P'
  | 'L'
  | 'LI'
  | 'Lbl'
  | 'LBody'
  | 'Link'
  | 'Table'
  | 'TR'
  | 'TH'
  | 'TD'
  | 'Figure';
/** A structure element; `undefined` is decoration. */
export type PdfElement = Element | undefined;

/** The parts of the library that its types do not declare. */
interface Element {
  add(child: unknown): Element;
  end(): void;
}
interface Tagged {
  struct(type: string, options?: object): Element;
  addStructure(element: Element): void;
  markStructureContent(tag: string): unknown;
  markContent(tag: string, options?: object): void;
  endMarkedContent(): void;
}

export class Tags {
  readonly #doc: Tagged;
  readonly #root: Element | undefined;
  #part: PdfElement;
  #tag = 'Document';
  readonly #tags = new WeakMap<Element, string>();
  /** Inside content that is already marked as a whole. */
  #inside = false;

  /** @param on false: no tagging, for sheets nobody reads from end to end */
  constructor(doc: PDFKit.PDFDocument, on: boolean) {
    this.#doc = doc as unknown as Tagged;
    if (!on) return;
    this.#root = this.#doc.struct('Document');
    this.#doc.addStructure(this.#root);
    this.#part = this.#root;
  }

  /** A new child of the current element. */
  open(tag: Tag, options: { readonly alt?: string; readonly scope?: 'Row' | 'Column' } = {}): PdfElement {
    if (!this.#root || !this.#part) return undefined;
    const part = this.#doc.struct(tag, options);
    this.#tags.set(part, tag);
    this.#part.add(part);
    return part;
  }

  /** Assigns what `draw` draws to `part`. */
  within(part: PdfElement, draw: () => void): void {
    const [before, tag] = [this.#part, this.#tag];
    this.#part = part;
    this.#tag = (part && this.#tags.get(part)) ?? 'Artifact';
    draw();
    this.#part = before;
    this.#tag = tag;
  }

  as(tag: Tag, draw: () => void): void {
    this.within(this.open(tag), draw);
  }

  /** A drawing as one element, whatever lines and words it contains. */
  figure(alt: string, draw: () => void): void {
    this.within(this.open('Figure', { alt }), () => this.content(draw));
  }

  /** One piece of text or drawing in the current element. */
  content(draw: () => void): void {
    if (!this.#root || this.#inside) {
      draw();
      return;
    }
    this.#inside = true;
    const content = this.#part && this.#doc.markStructureContent(this.#tag);
    if (!content) this.#doc.markContent('Artifact', { type: 'Layout' });
    draw();
    this.#doc.endMarkedContent();
    if (content) this.#part!.add(content);
    this.#inside = false;
  }

  decoration(draw: () => void): void {
    this.within(undefined, () => this.content(draw));
  }

  end(): void {
    this.#root?.end();
  }
}
