/** Limits by size. A verdict freezes the limit it used: later changes to shared/limits.yaml never re-judge old work. */
import * as z from 'zod';
import { err, ok, type Problem, problemFactory, type Result, type SourceText } from '../base/problem.js';
import { name, type Source, source, text } from '../base/schemas.js';
import type { Message } from '../base/words.js';
import { readYaml } from '../base/yaml.js';
import { MEASURE_MESSAGES } from './messages.js';
import { FIGURE_UNITS } from './units.js';
import { measureSays } from './words.js';

/**
 * What is compared with a limit. `deviation`: reading minus expected (in a squareness check, each side minus its
 * nominal). `value`: the reading itself. Squareness checks only: `diagonals`, their difference; `opposite-sides`, the
 * larger difference between two opposite sides; `corner-angle`, the largest departure from 90 degrees. Checks of several
 * points only: `spread`, largest minus smallest; `pairs`, the larger difference of two opposite points; `rise`, first
 * minus second; `area`, first times second, m2. Readings of unlike nominal sizes are compared by how far each is off.
 */
const limitSubjects = [
  'deviation',
  'value',
  'diagonals',
  'opposite-sides',
  'corner-angle',
  'spread',
  'pairs',
  'rise',
  'area',
] as const;
export const POINT_SUBJECTS: ReadonlySet<string> = new Set([
  'spread',
  'pairs',
  'rise',
  'area',
] satisfies LimitSubject[]);
export const SQUARE_SUBJECTS: ReadonlySet<string> = new Set([
  'diagonals',
  'opposite-sides',
  'corner-angle',
] satisfies LimitSubject[]);
type LimitSubject = (typeof limitSubjects)[number];

export interface LimitBand {
  /** The band covers sizes up to and including this, mm; if absent, all sizes. */
  readonly upto?: number;
  readonly low?: number;
  readonly high?: number;
}

export interface Limit {
  readonly id: string;
  readonly title: string;
  readonly of: LimitSubject;
  readonly unit: string;
  /** Smallest to largest. */
  readonly bands: readonly LimitBand[];
  readonly source: Source;
  readonly note?: string;
}

export interface LimitsFile {
  readonly limits: readonly Limit[];
  readonly byId: ReadonlyMap<string, Limit>;
}

/** Undefined if the limit does not reach this size. Without a size, only an unbanded limit applies. */
export function bandFor(limit: Limit, size: number | undefined): LimitBand | undefined {
  if (size === undefined)
    return limit.bands.length === 1 && limit.bands[0]!.upto === undefined ? limit.bands[0] : undefined;
  return limit.bands.find((band) => band.upto === undefined || size <= band.upto + 1e-6);
}

/** "within ±1.5 mm", "at most 4 mm", "at least 3 mm", "from -0.5 to 0 mm". */
export function boundsText(band: LimitBand, unit: string): string {
  const { low, high } = band;
  if (low !== undefined && high !== undefined)
    return low === -high
      ? measureSays('bounds-within', { high: String(high), unit })
      : measureSays('bounds-from', { low: String(low), high: String(high), unit });
  return high !== undefined
    ? measureSays('bounds-most', { high: String(high), unit })
    : measureSays('bounds-least', { low: String(low), unit });
}

/** A figure and the bounds that it is held against. */
export function saysText(figure: string | Message, { low, high }: LimitBand, unit: string): string {
  if (low !== undefined && high !== undefined)
    return low === -high
      ? measureSays('says-within', { figure, high: String(high), unit })
      : measureSays('says-between', { figure, low: String(low), high: String(high), unit });
  return high !== undefined
    ? measureSays('says-most', { figure, high: String(high), unit })
    : measureSays('says-least', { figure, low: String(low), unit });
}

// shared/limits.yaml: size bands where the limit depends on size; every limit has a source.

const raise = problemFactory(MEASURE_MESSAGES);

const allowed = {
  within: z.number().positive().optional(),
  most: z.number().optional(),
  least: z.number().optional(),
  between: z.tuple([z.number(), z.number()]).optional(),
};

const limitSource = source.extend({
  kind: z.enum(['published', 'manual', 'house-rule', 'common-practice', 'memory']),
  text: text(300).min(3),
});

export const limitsSchema = z.strictObject({
  format: z.literal('pinchrod-limits 1'),
  note: text(600).optional(),
  limits: z.record(
    name,
    z.strictObject({
      title: text(120),
      of: z.enum(limitSubjects),
      unit: z.enum([...FIGURE_UNITS, 'm2']).default('mm'),
      ...allowed,
      bands: z
        .array(z.strictObject({ upto: z.number().positive().optional(), ...allowed }))
        .min(1)
        .optional(),
      // Optional in the schema only so that a missing source gets its own message.
      source: limitSource.optional(),
      note: text(300).optional(),
    }),
  ),
});

type Allowed = {
  readonly [K in keyof typeof allowed]?: z.infer<(typeof allowed)[K]> | undefined;
};

export function parseLimits(file: SourceText): Result<LimitsFile> {
  const read = readYaml(file, limitsSchema);
  if (!read.ok) return read;
  const { value, at } = read.value;
  const problems: Problem[] = [];
  const limits: Limit[] = [];
  for (const [id, given] of Object.entries(value.limits)) {
    const path = ['limits', id];
    if (given.source === undefined) problems.push(raise('measure.limit-no-source', { id }, at(path)));
    const bands = given.bands ?? [given];
    if (given.bands !== undefined && bounds(given) !== undefined)
      problems.push(raise('measure.limit-value', { id }, at(path)));
    const made: LimitBand[] = [];
    bands.forEach((band, i) => {
      const place = at(given.bands ? [...path, 'bands', i] : path);
      const found = bounds(band);
      if (found === undefined) problems.push(raise('measure.limit-value/does', { id }, place));
      const upto = 'upto' in band ? band.upto : undefined;
      const before = made.at(-1);
      if (before && (before.upto === undefined || (upto !== undefined && upto <= before.upto)))
        problems.push(raise('measure.limit-bands', { id }, place));
      made.push({ ...(upto === undefined ? {} : { upto }), ...found });
    });
    if (given.source)
      limits.push({
        id,
        title: given.title,
        of: given.of,
        unit: given.unit,
        bands: made,
        source: given.source,
        ...(given.note === undefined ? {} : { note: given.note }),
      });
  }
  if (problems.length > 0) return err(...problems);
  return ok({ limits, byId: new Map(limits.map((limit) => [limit.id, limit])) });
}

function bounds(given: Allowed): { low?: number; high?: number } | undefined {
  const { within, most, least, between } = given;
  if ([within, most, least, between].filter((x) => x !== undefined).length !== 1) return undefined;
  if (within !== undefined) return { low: -within, high: within };
  if (most !== undefined) return { high: most };
  if (least !== undefined) return { low: least };
  const [low, high] = between!;
  return low < high ? { low, high } : undefined;
}
