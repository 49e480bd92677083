/**
 * The structure of a PDF as a screen reader walks it: every text belongs to a heading, a paragraph, a list item or a table
 * cell, a drawing has its description, and what only decorates is marked as that.
 */

export type Tag =
  | 'H1'
  | 'H2'
  | 'H3'
  | 'P'
  | 'L'
  | 'LI'
  | 'Lbl'
  | 'LBody'
  | 'Table'
  | 'TR'
  | 'TH'
  | 'TD'
  | 'Figure';
/** A part of the structure; `undefined` is decoration. */
export type Part = Element | undefined;

/** What is used of the library, whose types do not tell of it. */
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
  #part: Part;
  #tag = 'Document';
  readonly #tags = new WeakMap<Element, string>();
  /** Inside something that is marked as a whole. */
  #inside = false;

  /** @param on false: nothing is marked, for sheets that nobody reads from end to end */
  constructor(doc: PDFKit.PDFDocument, on: boolean) {
    this.#doc = doc as unknown as Tagged;
    if (!on) return;
    this.#root = this.#doc.struct('Document');
    this.#doc.addStructure(this.#root);
    this.#part = this.#root;
  }

  /** A new part of the one that is drawn now. */
  open(tag: Tag, options: { readonly alt?: string; readonly scope?: 'Row' | 'Column' } = {}): Part {
    if (!this.#root || !this.#part) return undefined;
    const part = this.#doc.struct(tag, options);
    this.#tags.set(part, tag);
    this.#part.add(part);
    return part;
  }

  /** What `draw` draws belongs to `part`. */
  within(part: Part, draw: () => void): void {
    const [before, tag] = [this.#part, this.#tag];
    this.#part = part;
    this.#tag = (part && this.#tags.get(part)) ?? 'Artifact';
    draw();
    this.#part = before;
    this.#tag = tag;
  }

  /** A new part, and in it what `draw` draws. */
  as(tag: Tag, draw: () => void): void {
    this.within(this.open(tag), draw);
  }

  /** A drawing as one whole, whatever lines and words it is made of. */
  figure(alt: string, draw: () => void): void {
    this.within(this.open('Figure', { alt }), () => this.content(draw));
  }

  /** One piece of text or drawing of the present part. */
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

  /** Lines and boxes that only decorate. */
  decoration(draw: () => void): void {
    this.within(undefined, () => this.content(draw));
  }

  end(): void {
    this.#root?.end();
  }
}
