/**
 * shared/limits.yaml: what is allowed, in bands by size where it depends on size, each limit with the source it comes
 * from.
 */
import * as z from 'zod';
import { bad, good, type Problem, type Result, raiser } from '../ground/problem.js';
import { name, source, text } from '../ground/schemas.js';
import type { SourceText } from '../ground/sourcetext.js';
import { readYaml } from '../ground/yamlfile.js';
import { type Limit, type LimitBand, type LimitsFile, limitSubjects } from './limits.js';
import { MEASURE_MESSAGES } from './messages.js';

const raise = raiser(MEASURE_MESSAGES);

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
      unit: z.enum(['mm', 'N', 'kg', 'deg', 'min', 'C']).default('mm'),
      ...allowed,
      bands: z
        .array(z.strictObject({ upto: z.number().positive().optional(), ...allowed }))
        .min(1)
        .optional(),
      // Optional here only so that a missing source gets a message of its own.
      source: limitSource.optional(),
      note: text(300).optional(),
    }),
  ),
});

type Allowed = {
  readonly [K in keyof typeof allowed]?: z.infer<(typeof allowed)[K]> | undefined;
};

/** Reads the file; every limit without a source is a problem. */
export function parseLimits(file: SourceText): Result<LimitsFile> {
  const read = readYaml(file, limitsSchema);
  if (!read.ok) return read;
  const { value, at } = read.value;
  const problems: Problem[] = [];
  const limits: Limit[] = [];
  for (const [id, given] of Object.entries(value.limits)) {
    const path = ['limits', id];
    if (given.source === undefined)
      problems.push(raise('measure.limit-no-source', `${id} has no source.`, at(path)));
    const bands = given.bands ?? [given];
    if (given.bands !== undefined && bounds(given) !== undefined)
      problems.push(raise('measure.limit-value', `${id} has bands and a value of its own.`, at(path)));
    const made: LimitBand[] = [];
    bands.forEach((band, i) => {
      const place = at(given.bands ? [...path, 'bands', i] : path);
      const found = bounds(band);
      if (found === undefined)
        problems.push(
          raise('measure.limit-value', `${id} does not say what is allowed, or says it twice.`, place),
        );
      const upto = 'upto' in band ? band.upto : undefined;
      const before = made.at(-1);
      if (before && (before.upto === undefined || (upto !== undefined && upto <= before.upto)))
        problems.push(raise('measure.limit-bands', `${id}: this band is out of order.`, place));
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
  if (problems.length > 0) return bad(...problems);
  return good({ limits, byId: new Map(limits.map((limit) => [limit.id, limit])) });
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
