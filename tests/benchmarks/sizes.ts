/** How large the installed program is, part by part, and how large each part may be. */
import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';

/** Bytes. About a tenth above what they were when they were last looked at. */
export const MOST = {
  /** What every start may load. */
  quick: 510_000,
  /** Verbs and the store. */
  work: 1_210_000,
  /** The bench. */
  screens: 500_000,
  /** Documents' libraries: PDF, fonts, barcodes. */
  libraries: 3_000_000,
  /** Compiled code of verbs, so that they start soon. */
  code: 10_100_000,
  /** All of dist/, fonts and licences too. */
  all: 15_600_000,
} as const;

export function distSizes(root: string): Record<keyof typeof MOST, number> {
  const dist = join(root, 'dist');
  const size = (file: string): number => statSync(join(dist, file)).size;
  return {
    quick: size('quick.cjs'),
    work: size('work.cjs'),
    screens: size('screens.cjs'),
    libraries: readdirSync(dist)
      .filter((name) => name.startsWith('lib-'))
      .reduce((sum, name) => sum + size(name), 0),
    code: total(join(dist, 'code')),
    all: total(dist),
  };
}

function total(folder: string): number {
  return readdirSync(folder, { withFileTypes: true }).reduce(
    (sum, entry) =>
      sum + (entry.isDirectory() ? total(join(folder, entry.name)) : statSync(join(folder, entry.name)).size),
    0,
  );
}
