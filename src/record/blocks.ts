/** A document before rendering. Every format renders these same blocks, so none omits what another shows. */
import type { Spoken } from '../base/words.js';
import type { DocumentSay } from './telling.js';
export type Look = 'strong' | 'quiet' | 'good' | 'bad' | 'open' | 'code';

export interface BlockLine {
  readonly text: Spoken;
  readonly look?: Look;
  /** Leads to the row of a table that has this mark. */
  readonly to?: string;
}
/** A table cell: one line, or several stacked. */
export type Cell = Spoken | readonly BlockLine[];

export interface Column {
  readonly title: Spoken;
  /** Relative column width. */
  readonly share: number;
}

export interface Figure {
  readonly title: Spoken;
  readonly alt: Spoken;
  readonly svg: string;
  readonly text: readonly string[];
  readonly facts: readonly Spoken[];
}

export interface Photograph {
  readonly title: Spoken;
  readonly alt: Spoken;
  /** Base64. */
  readonly png: string;
}

export type Block =
  /** Top of a document, or of one unit's part of it; `name` also goes into the outline. */
  | {
      readonly kind: 'title';
      readonly over: Spoken;
      readonly text: Spoken;
      readonly under: Spoken;
      readonly newPage: boolean;
    }
  | {
      readonly kind: 'verdict';
      readonly text: Spoken;
      readonly under: Spoken;
      readonly tone: 'good' | 'bad' | 'open';
    }
  | { readonly kind: 'heading'; readonly level: 2 | 3; readonly text: Spoken }
  | { readonly kind: 'text'; readonly text: Spoken; readonly look?: Look }
  | { readonly kind: 'list'; readonly items: readonly Spoken[]; readonly tone?: 'bad' | 'open' }
  /** A remark that leads to the next heading of that text; with `calm`, one that calls for nothing. */
  | { readonly kind: 'link'; readonly text: Spoken; readonly to: Spoken; readonly calm?: boolean }
  | { readonly kind: 'facts'; readonly caption: Spoken; readonly rows: readonly (readonly [Spoken, Cell])[] }
  /** First page: facts beside a drawing. */
  | {
      readonly kind: 'front';
      readonly caption: Spoken;
      readonly rows: readonly (readonly [Spoken, Cell])[];
      readonly figure: Figure | undefined;
    }
  | {
      readonly kind: 'table';
      readonly caption: Spoken;
      readonly columns: readonly Column[];
      /** The first cell of a row is its header. */
      readonly rows: readonly (readonly Cell[])[];
      /** Of each row, once in a document: where links lead to. */
      readonly marks?: readonly string[];
    }
  /** Small copies of photographs, side by side; a text leaves them out, and the files are listed beside them. */
  | { readonly kind: 'photographs'; readonly photographs: readonly Photograph[] }
  /** Two side by side; with `small` three, with `wide` one. */
  | {
      readonly kind: 'figures';
      readonly figures: readonly Figure[];
      readonly small?: boolean;
      readonly wide?: boolean;
    };

export interface Document {
  /** Columns of its text, where it is read on a terminal first; 96 if absent. */
  readonly line?: number;
  /** For the window title and PDF metadata. */
  readonly title: Spoken;
  readonly subject: Spoken;
  readonly foot: Spoken;
  readonly author: Spoken;
  /** UTC, ISO 8601. */
  readonly at: string;
  /** For what a format says of its own: numbers of pages. */
  readonly say: DocumentSay;
  /** Lets `verify` find the journals and regenerate the same document (proof.ts); empty: it is not verified. */
  readonly proof: string;
  /** Arranged and drawn in layers; false: as documents were that were printed before there were any. */
  readonly layered: boolean;
  /** A4 if absent. */
  readonly paper?: 'letter' | undefined;
  readonly blocks: readonly Block[];
}

export const lines = (cell: Cell): readonly BlockLine[] =>
  typeof cell === 'string' ? [{ text: cell }] : cell;

/** The sign before a remark. */
export const linkSign = ({ calm }: Block & { kind: 'link' }): string => (calm ? '-' : '!');

/** The number of the level 2 heading that a link leads to, counting from the link; 0 if there is none. */
export function headingsTo(blocks: readonly Block[], from: number, to: string): number {
  let count = 0;
  for (const block of blocks.slice(from)) {
    if (block.kind !== 'heading' || block.level !== 2) continue;
    count += 1;
    if (block.text === to) return count;
  }
  return 0;
}

/** A heading with its table, or with one sentence if there is nothing to list. */
export function tableOr(
  title: Spoken,
  none: Spoken,
  titles: readonly Spoken[],
  shares: readonly number[],
  rows: readonly (readonly Cell[])[],
): Block[] {
  return [
    { kind: 'heading', level: 2, text: title },
    rows.length === 0
      ? { kind: 'text', text: none }
      : {
          kind: 'table',
          caption: title,
          columns: titles.map((name, i) => ({ title: name, share: shares[i]! })),
          rows,
        },
  ];
}
