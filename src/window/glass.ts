import type { ProfileSet } from './profileset.js';
import type { ProfileSetFile } from './setschema.js';
import type { Makeup } from './types.js';

type Bead = NonNullable<ProfileSetFile['glass']>['beads'][number];

/** Where there is none, or none that is known. */
export const NO_GLASS: Makeup = { panes: [], gaps: [], title: '', safety: false };

/** A glass of the job, of the set, or written out, in mm from outside to inside: `4-16-4` or `6.4-14-4`. */
export function makeupOf(
  glass: string,
  own: Readonly<Record<string, Makeup>>,
  set: ProfileSet,
): Makeup | undefined {
  if (Object.hasOwn(own, glass)) return own[glass];
  const makeups = set.file.glass?.makeups;
  if (makeups && Object.hasOwn(makeups, glass)) return makeups[glass];
  return writtenOut(glass);
}

/** An odd count of numbers joined by dashes: pane, gap, pane … */
export function writtenOut(glass: string): Makeup | undefined {
  if (!/^\d+(\.\d+)?(-\d+(\.\d+)?)*$/.test(glass)) return undefined;
  const numbers = glass.split('-').map(Number);
  if (numbers.length % 2 === 0 || numbers.length > 7 || numbers.some((n) => n <= 0 || n > 100))
    return undefined;
  return {
    panes: numbers.filter((_, i) => i % 2 === 0),
    gaps: numbers.filter((_, i) => i % 2 === 1),
    title: '',
    safety: false,
  };
}

/** The row of the table of beads for a glass of this thickness, mm; undefined where no bead holds it. */
export const beadFor = (set: ProfileSet, thickness: number): Bead | undefined =>
  set.file.glass?.beads.find(({ from, to }) => thickness >= from - 1e-9 && thickness <= to + 1e-9);

export const paneThickness = (makeup: Makeup): number => add(makeup.panes);

export const wholeThickness = (makeup: Makeup): number => add(makeup.panes) + add(makeup.gaps);

export const add = (numbers: readonly number[]): number => numbers.reduce((a, b) => a + b, 0);
