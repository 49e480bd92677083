/** Bars and squares of a code, as numbers: drawn by whoever draws the label. Made by a maintained library. */
// The default export: the name `raw` alone is taken by a kind of barcode.
import bwip, { type RawOptions } from 'bwip-js/node';

/** `size` squares a side, row by row. */
export interface Squares {
  readonly size: number;
  readonly dark: readonly boolean[];
}

/** QR code; level M corrects about 15 % of damage. */
export function qrSquares(text: string): Squares {
  const [code] = bwip.raw({ bcid: 'qrcode', text, eclevel: 'M' } as RawOptions);
  if (!code || !('pixs' in code)) throw new Error('the barcode library gave no squares');
  return { size: code.pixx, dark: Array.from(code.pixs, (pixel) => pixel === 1) };
}

/** Widths of bars and gaps in modules, beginning with a bar. */
export function code128Bars(text: string): readonly number[] {
  const [code] = bwip.raw({ bcid: 'code128', text });
  if (!code || !('sbs' in code)) throw new Error('the barcode library gave no bars');
  return Array.from(code.sbs);
}
