/** Shape of a job file; shared/jobs/README.md explains each key. */
import * as z from 'zod';
import { length, name, text } from '../base/schemas.js';
import { FITTINGS } from './types.js';

const viewed = z.enum(['outside', 'inside']);

/** Exported for the manual's tables: a layout, parsed as one branch or the other, has no schema of its own. */
export const lightSchema = z.strictObject({
  light: z.enum(['fixed', 'top-hung', 'side-hung']),
  glass: text(60).optional(),
  hinge: z.enum(['left', 'right', 'top']).optional(),
  viewed_from: viewed.optional(),
  opens: z.enum(['out', 'in']).optional(),
  /** Handle centre from the sash's bottom edge (side-hung), or from its left edge seen from outside (top-hung). */
  handle_at: length.optional(),
});

export interface SplitInput {
  split: 'upright' | 'level';
  joint?: 'ported' | 'cleated' | undefined;
  at?: number[] | undefined;
  from?: 'left' | 'right' | 'bottom' | 'top' | undefined;
  sight?: (number | 'rest')[] | undefined;
  ratio?: number[] | undefined;
  equal?: 'sight' | 'glass' | undefined;
  parts: LayoutInput[];
}
export type LightInput = z.output<typeof lightSchema>;
export type LayoutInput = LightInput | SplitInput;

export const splitSchema: z.ZodType<SplitInput> = z.lazy(() =>
  z.strictObject({
    split: z.enum(['upright', 'level']),
    joint: z.enum(['ported', 'cleated']).optional(),
    at: z.array(length).min(1).max(20).optional(),
    from: z.enum(['left', 'right', 'bottom', 'top']).optional(),
    sight: z
      .array(z.union([length, z.literal('rest')]))
      .min(2)
      .max(20)
      .optional(),
    ratio: z.array(z.number().positive()).min(2).max(20).optional(),
    equal: z.enum(['sight', 'glass']).optional(),
    parts: z.array(layoutSchema).min(2).max(20),
  }),
);

// A plain union would report errors from every branch; one key tells which branch is meant.
const layoutSchema: z.ZodType<LayoutInput> = z.lazy(() =>
  z.unknown().transform((value, context): LayoutInput => {
    const isSplit = typeof value === 'object' && value !== null && 'split' in value;
    const read = (isSplit ? splitSchema : lightSchema).safeParse(value);
    if (read.success) return read.data;
    const at = (path: readonly PropertyKey[]): unknown =>
      path.reduce<unknown>((inner, key) => (inner as Record<PropertyKey, unknown> | undefined)?.[key], value);
    context.issues.push(...read.error.issues.map((issue) => ({ ...issue, input: at(issue.path) }) as never));
    return z.NEVER;
  }),
);

const yesNo = z.boolean().default(false);

const unitSchema = z.strictObject({
  mark: name,
  quantity: z.number().int().min(1).max(500).default(1),
  width: length,
  height: length,
  room: text(100).default(''),
  note: text(500).default(''),
  colour: text(60).optional(),
  outside_colour: text(60).optional(),
  inside_colour: text(60).optional(),
  /** Default glass for lights that name none. */
  glass: text(60).optional(),
  needs: z.strictObject({ escape: yesNo, restrictor: yesNo, safety_glass: yesNo }).prefault({}),
  fittings: z.array(z.enum(FITTINGS)).default([]),
  layout: layoutSchema,
});

export const jobSchema = z.strictObject({
  format: z.literal('pinchrod-job 1'),
  name,
  title: text(200).default(''),
  customer: text(200).default(''),
  profile_set: name,
  procedure: name,
  revision: z.union([text(40), z.number().transform(String)]).default(''),
  colour: text(60).default(''),
  outside_colour: text(60).optional(),
  inside_colour: text(60).optional(),
  glass: text(60).optional(),
  glasses: z
    .record(
      name,
      z.strictObject({
        panes: z.array(z.number().positive().max(100)).min(1).max(6),
        gaps: z.array(z.number().positive().max(100)).default([]),
        title: text(100).default(''),
        safety: z.boolean().default(false),
      }),
    )
    .default({}),
  units: z.array(unitSchema).min(1).max(5000),
});
export type JobFile = z.output<typeof jobSchema>;
