/** How large the bundle and the installed program are. */
import { atMost, type Row, type Setting } from './rows.js';
import { distSizes, MOST } from './sizes.js';

export const title = 'Size of the bundle';

const WORDS: Record<keyof typeof MOST, string> = {
  quick: 'what every start may load (quick.cjs)',
  work: 'verbs and store (work.cjs)',
  screens: 'the bench (screens.cjs)',
  libraries: "documents' libraries (lib-*.cjs)",
  code: 'compiled code kept for the starts (code/)',
  all: 'dist/ as installed, fonts and licences too',
};

export async function measure({ root }: Setting): Promise<Row[]> {
  return Object.entries(distSizes(root)).map(([part, bytes]) =>
    atMost(WORDS[part as keyof typeof MOST], bytes / 1e6, MOST[part as keyof typeof MOST] / 1e6, 'MB'),
  );
}
