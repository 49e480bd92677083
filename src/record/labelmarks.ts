/** A label before rendering: boxes, lines and words, positioned in mm with y downwards. */
import type { Spoken } from '../base/words.js';

export type LabelMark =
  | { readonly kind: 'box'; readonly x: number; readonly y: number; readonly w: number; readonly h: number }
  | {
      readonly kind: 'line';
      readonly x1: number;
      readonly y1: number;
      readonly x2: number;
      readonly y2: number;
      readonly width: number;
      readonly dashed?: boolean;
    }
  /** `y` is the baseline; `size` the type size in mm; `room` the maximum width. */
  | {
      readonly kind: 'words';
      readonly x: number;
      readonly y: number;
      readonly size: number;
      readonly text: Spoken;
      readonly bold: boolean;
      readonly room: number;
      readonly anchor?: 'start' | 'middle';
    };

export interface Label {
  readonly w: number;
  readonly h: number;
  readonly title: Spoken;
  readonly code: string;
  readonly marks: readonly LabelMark[];
  /** What was left out for lack of room, in words. */
  readonly left: readonly Spoken[];
}

/** A sheet or roll of labels, in mm; positions count left to right, then down. */
export interface Stock {
  readonly name: string;
  readonly title: string;
  readonly page: { readonly w: number; readonly h: number };
  readonly label: { readonly w: number; readonly h: number };
  readonly columns: number;
  readonly rows: number;
  /** Top left corner of the first label, and the pitch between labels. */
  readonly first: { readonly x: number; readonly y: number };
  readonly step: { readonly x: number; readonly y: number };
}

/** Sizes that stationers sell under many names; common practice, so measure a sheet before printing a stack. */
export const STOCKS: readonly Stock[] = [
  {
    name: 'roll-100x60',
    title: 'roll, 100 x 60 mm',
    page: { w: 100, h: 60 },
    label: { w: 100, h: 60 },
    columns: 1,
    rows: 1,
    first: { x: 0, y: 0 },
    step: { x: 100, y: 60 },
  },
  a4Sheet([2, 4], [99.1, 67.7], [4.65, 13.1], 101.6),
  a4Sheet([2, 7], [99.1, 38.1], [4.65, 15.15], 101.6),
  a4Sheet([3, 7], [63.5, 38.1], [7.25, 15.15], 66),
];

/** All in mm; rows of labels touch. */
function a4Sheet(
  [columns, rows]: readonly [number, number],
  [w, h]: readonly [number, number],
  [x, y]: readonly [number, number],
  step: number,
): Stock {
  const name = `a4-${columns * rows}`;
  const title = `A4 sheet of ${columns * rows}, ${w} x ${h} mm`;
  const page = { w: 210, h: 297 };
  return { name, title, page, label: { w, h }, columns, rows, first: { x, y }, step: { x: step, y: h } };
}

/** Labels in position, one array element per page. The first `skip` positions of the first sheet are already used. */
export function sheets(
  labels: readonly Label[],
  stock: Stock,
  skip = 0,
): readonly (readonly { readonly label: Label; readonly x: number; readonly y: number }[])[] {
  const perPage = stock.columns * stock.rows;
  const pages: { label: Label; x: number; y: number }[][] = [];
  labels.forEach((label, i) => {
    const at = i + skip;
    const page = Math.floor(at / perPage);
    const place = at % perPage;
    pages[page] ??= [];
    pages[page]!.push({
      label,
      x: stock.first.x + (place % stock.columns) * stock.step.x,
      y: stock.first.y + Math.floor(place / stock.columns) * stock.step.y,
    });
  });
  return pages.filter((page) => page !== undefined);
}
