/**
 * Limits by size, and how they are said. A verdict freezes the limit it used, so that a later change of shared/limits.yaml
 * (limitsfile.ts) never judges old work again.
 */
import type { Source } from '../ground/schemas.js';

/**
 * What is held against a limit. `deviation`: reading less expected (in a squareness check: each side less its nominal).
 * `value`: the reading itself. Only in squareness checks: `diagonals`, their difference; `opposite-sides`, the larger
 * difference of two opposite sides; `corner-angle`, the largest departure from 90 degrees.
 */
export const limitSubjects = ['deviation', 'value', 'diagonals', 'opposite-sides', 'corner-angle'] as const;
type LimitSubject = (typeof limitSubjects)[number];

export interface LimitBand {
  /** The band holds sizes up to and with this, mm; without it, all sizes. */
  readonly upto?: number;
  readonly low?: number;
  readonly high?: number;
}

export interface Limit {
  readonly id: string;
  readonly title: string;
  readonly of: LimitSubject;
  readonly unit: string;
  /** From small to large. */
  readonly bands: readonly LimitBand[];
  readonly source: Source;
  readonly note?: string;
}

export interface LimitsFile {
  readonly limits: readonly Limit[];
  readonly byId: ReadonlyMap<string, Limit>;
}

/** The band that holds a size, or nothing where the limit does not reach so far. Without a size only an unbanded limit answers. */
export function bandFor(limit: Limit, size: number | undefined): LimitBand | undefined {
  if (size === undefined)
    return limit.bands.length === 1 && limit.bands[0]!.upto === undefined ? limit.bands[0] : undefined;
  return limit.bands.find((band) => band.upto === undefined || size <= band.upto + 1e-6);
}

/** "within ±1.5 mm", "at most 4 mm", "at least 3 mm", "from -0.5 to 0 mm". */
export function boundsText(band: LimitBand, unit: string): string {
  const { low, high } = band;
  if (low !== undefined && high !== undefined)
    return low === -high ? `within ±${high} ${unit}` : `from ${low} to ${high} ${unit}`;
  return high !== undefined ? `at most ${high} ${unit}` : `at least ${low} ${unit}`;
}
