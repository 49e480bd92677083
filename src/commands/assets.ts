/** The files that documents embed: beside the bundle, or in the source tree when run from there. */
import { readFileSync } from 'node:fs';
import type { PdfAssets } from '../record/pdfpen.js';

const FOLDERS = [new URL('./assets/', import.meta.url), new URL('../record/assets/', import.meta.url)];

/** Throws the disk's own error where a file cannot be read. */
export function documentAssets(): PdfAssets {
  return {
    regular: asset('NotoSans-Regular.ttf'),
    bold: asset('NotoSans-Bold.ttf'),
    profile: asset('sRGB_IEC61966_2_1.icc'),
  };
}

function asset(name: string): Uint8Array {
  let last: unknown;
  for (const folder of FOLDERS)
    try {
      return readFileSync(new URL(name, folder));
    } catch (error) {
      last = error;
    }
  throw last;
}
