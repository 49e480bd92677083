/** Shape of a profile set file; shared/profile-sets/README.md explains each key. */

import * as z from 'zod';
import { nearest } from '../base/knownkeys.js';
import { longText, name, source, text } from '../base/schemas.js';

const formula = z.union([z.string().min(1).max(500), z.number()]).transform(String);
const unitOfMeasure = z.enum(['mm', 'kg', 'm2', 'deg', 'count', 'kg/m', 'none']);
const identifier = z
  .string()
  .regex(/^[a-z][a-z0-9_]*$/, 'small letters, digits and "_", beginning with a letter');
const sizeName = z
  .string()
  .regex(/^[a-z][a-z0-9_]*\.[a-z][a-z0-9_]*$/, 'two names with a point between, like glass.w');
const sourceName = z.string().max(60);

const size = z.union([
  formula.transform((f) => ({ formula: f, unit: 'mm' as const, says: '' })),
  z.strictObject({ formula, unit: unitOfMeasure.default('mm'), says: text(300).default('') }),
]);
const sizes = z.record(sizeName, size).default({});

const box = z.strictObject({ x: formula, y: formula, w: formula, h: formula });
const boxes = z.record(identifier, box).default({});

const side = z.enum(['top', 'bottom', 'left', 'right']);
const LIGHT_SCOPES = ['fixed', 'opening', 'top-hung', 'side-hung'] as const;
const lightScope = z.enum(LIGHT_SCOPES);

const part = z.strictObject({
  role: name,
  says: text(100),
  /** Its article, or which column of the table of beads names it by the thickness of the glass. */
  profile: z.union([text(60), z.strictObject({ by_thickness: z.enum(['bead', 'gasket']) })]),
  kind: z.enum(['bar', 'bead', 'gasket']).default('bar'),
  /** The light's box (or `frame`) the part lies on, and which side: marks are placed by these. */
  box: identifier.optional(),
  side: side.optional(),
  /** Where it begins: from the left or the bottom of its box, or of its divider. A horn begins before it. */
  start: formula.optional(),
  length: formula,
  quantity: formula.default('1'),
  /** Added to a gasket's net length. */
  allowance: formula.optional(),
  ends: z.tuple([z.number().min(15).max(90), z.number().min(15).max(90)]).default([90, 90]),
  kg_per_m: formula.default('0.0'),
  /** `sash` if its mass hangs on the stays. */
  of: z.enum(['unit', 'sash']).default('unit'),
  when: formula.optional(),
});

const extra = z.strictObject({
  name: text(100),
  place: text(100).default(''),
  quantity: formula,
  /** Multiplied by the number of marks of this kind on the light, divider or frame. */
  marks: name.optional(),
  when: formula.optional(),
});

const perScope = <T extends z.ZodType>(item: T) =>
  z
    .strictObject({
      unit: z.array(item).default([]),
      divider: z.array(item).default([]),
      fixed: z.array(item).default([]),
      opening: z.array(item).default([]),
    })
    .prefault({});

const rule = z.union([
  z.strictObject({
    spaced: z.strictObject({
      end: formula,
      pitch: formula,
      least: z.number().int().min(1).max(20).default(2),
      /** Nearest and farthest the first and last marks may be from the end, if nothing else works. */
      end_range: z.tuple([formula, formula]).optional(),
      more: z.number().int().min(0).max(4).default(2),
    }),
  }),
  z.strictObject({
    both_ends: z.strictObject({ end: formula, range: z.tuple([formula, formula]).optional() }),
  }),
  z.strictObject({
    at: z.array(formula).min(1),
    /** How far each may go either way, if nothing else works. */
    range: formula.optional(),
  }),
  z.strictObject({ each: z.enum(['locks', 'hinges']), at: formula }),
  z.strictObject({
    beside: z.strictObject({
      kind: name,
      on: name,
      by: formula,
      range: z.tuple([formula, formula]).optional(),
    }),
  }),
  z.strictObject({ same_as: z.strictObject({ kind: name, on: name }) }),
]);

/** Walls of a part: the one towards its light, the one away from it, a face of the window, or all through. */
const WALLS = ['rebate', 'back', 'outside', 'inside', 'through'] as const;
export type Wall = (typeof WALLS)[number];

const ON =
  'bottom, top, left, right, hinge, handle, ends or self; before it a box and a point, like sash.handle';
const SIDES_ON = ['bottom', 'top', 'left', 'right', 'hinge', 'handle', 'ends', 'self'];
/** `; "sash.bottom" is near` for sash.botom. */
function nearOn(given: string): string {
  const [side = '', box] = given.split('.').reverse();
  const near = nearest(side, SIDES_ON);
  return near === undefined ? '' : `; "${box === undefined ? near : `${box}.${near}`}" is near`;
}

const mark = z.strictObject({
  kind: name,
  /** `unit`, `divider`, or which lights it applies to. */
  per: z.enum(['unit', 'divider', ...LIGHT_SCOPES, 'light']),
  /**
   * bottom, top, left, right: the frame member or divider bounding the light; hinge, handle: that side of it; ends: the
   * two members a divider ends on; self: the divider. With a box: `addon.bottom`, `sash.handle`.
   */
  on: z.string().regex(/^([a-z][a-z0-9_]*\.)?(bottom|top|left|right|hinge|handle|ends|self)$/, {
    error: ({ input }) => `${ON}${nearOn(String(input))}`,
  }),
  /** The box whose length along the part is used: sight, sash, addon … */
  along: identifier.optional(),
  /** The wall it is made in: towards the light, away from it, or a face of the window. */
  wall: z.enum(WALLS).optional(),
  rule,
  when: formula.optional(),
});

const packer = z.strictObject({
  use: z.enum(['setting', 'location', 'bracing']),
  edge: z.enum(['bottom', 'top', 'left', 'right', 'hinge', 'handle']),
  near: z.enum(['both', 'bottom', 'top', 'left', 'right', 'hinge', 'handle']),
  /** Centre from the corner it is near. */
  at: formula,
  range: z.tuple([formula, formula]).optional(),
  length: formula,
  thickness: formula,
});
const packerPlan = z
  .strictObject({ packers: z.array(packer).default([]), says: text(300).default('') })
  .prefault({});

const range = z.strictObject({
  from: z.number().positive(),
  to: z.number().positive(),
  kg: z.number().positive(),
  /** Maximum of the other size: height of a side-hung sash, width of a top-hung one. */
  most_other: z.number().positive().optional(),
});

const glass = z.strictObject({
  makeups: z.record(
    name,
    z.strictObject({
      panes: z.array(z.number().positive()).min(1),
      gaps: z.array(z.number().positive()).default([]),
      title: text(100).default(''),
      safety: z.boolean().default(false),
    }),
  ),
  beads: z.array(
    z.strictObject({ from: z.number(), to: z.number(), bead: text(60), gasket: text(60).default('') }),
  ),
  bead_source: sourceName,
});

/** Each only where the set has it: without a handle there is no gear, without stays lights hang on hinges or not at all. */
const hardware = z.strictObject({
  handle: z.strictObject({ on_sash: formula, least: formula, most: formula, source: sourceName }).optional(),
  gears: z
    .strictObject({
      source: sourceName,
      /** Least distance of a locked cam from either end of the sash member. */
      end: formula.default('0.0'),
      list: z.array(
        z.strictObject({ name: text(40), from: z.number(), to: z.number(), locks: z.array(formula).max(8) }),
      ),
    })
    .optional(),
  stays: z
    .strictObject({
      source: sourceName,
      /** If several fit, the one whose length is within this range of the controlling size is chosen. */
      prefer: z.tuple([z.number().positive(), z.number().positive()]),
      near: z.number().min(0.5).max(1).default(0.95),
      chart: z
        .array(
          z.strictObject({
            name: text(40),
            length: z.number().positive(),
            'top-hung': range.optional(),
            'side-hung': range.optional(),
            /** Width lost to the open sash and its stay. If absent, the clear opening is unknown. */
            clear_loss: z.number().nonnegative().optional(),
          }),
        )
        .min(1),
    })
    .optional(),
  hinges: z
    .strictObject({
      source: sourceName,
      /** The first row that takes the sash is chosen; how many hinges it has is how many places it gives. */
      list: z
        .array(
          z.strictObject({
            name: text(40),
            /** Kind of light that it carries. */
            for: z.enum(['top-hung', 'side-hung']),
            /** Most that it carries, and the largest sash. */
            kg: z.number().positive(),
            width: z.number().positive().optional(),
            height: z.number().positive().optional(),
            at: z.array(formula).min(1).max(12),
          }),
        )
        .min(1),
    })
    .optional(),
});

const LIGHT_KINDS = ['fixed', 'top-hung', 'side-hung'] as const;

export const profileSetSchema = z.strictObject({
  format: z.literal('pinchrod-profile-set 1'),
  name,
  title: text(100),
  invented: z.boolean().default(false),
  note: longText().default(''),
  /** What its units and their lights are called, where they are no windows. */
  product: z.strictObject({ unit: text(40), light: text(40).default('') }).optional(),
  lights: z
    .array(z.enum(LIGHT_KINDS))
    .min(1)
    .default([...LIGHT_KINDS]),
  opens: z
    .array(z.enum(['out', 'in']))
    .min(1)
    .default(['out']),
  /** None where it makes no dividers. */
  joints: z.array(z.enum(['ported', 'cleated'])).default(['ported']),
  sources: z.record(sourceName, source),
  constants: z.record(
    identifier,
    z.strictObject({
      value: z.number(),
      unit: unitOfMeasure.default('mm'),
      says: text(200),
      source: sourceName,
    }),
  ),
  /** Outer edge to sight line on each side, divider face between sight lines, sight line to rebate floor. */
  layout: z.strictObject({
    left: formula,
    right: formula,
    top: formula,
    bottom: formula,
    upright: formula.optional(),
    level: formula.optional(),
    floor: formula,
  }),
  sizes: z.strictObject({ unit: sizes, divider: sizes, fixed: sizes, opening: sizes }),
  /** x and y from the light's left and bottom sight lines, positive to the right and up. */
  boxes: z.strictObject({ fixed: boxes, opening: boxes }).prefault({}),
  parts: perScope(part),
  pieces: perScope(extra),
  masses: z
    .array(
      z.strictObject({
        per: z.enum(['unit', 'divider', 'fixed', 'opening']),
        of: z.enum(['unit', 'sash']).default('unit'),
        kg: formula,
        says: text(100),
      }),
    )
    .default([]),
  glass: glass.optional(),
  hardware: hardware.prefault({}),
  features: z.record(
    name,
    z.strictObject({
      title: text(80),
      /** Along the part. */
      length: formula.default('0.0'),
      moves: z.boolean().default(false),
      /** What is loose gives way before what is drilled, and that before what is punched or routed. */
      made: z.enum(['loose', 'drilled', 'punched']).default('punched'),
      /** Within its class, 0 yields first. */
      yields: z.number().int().min(0).max(3).default(1),
    }),
  ),
  clearances: z
    .array(
      z.strictObject({
        between: z.tuple([name, name]),
        least: formula,
        from: z.enum(['centres', 'edges']).default('centres'),
        faces: z.enum(['any', 'opposite', 'same']).default('any'),
        says: text(200).default(''),
        source: sourceName,
      }),
    )
    .default([]),
  marks: z.array(mark).default([]),
  packers: z
    .strictObject({ fixed: packerPlan, 'top-hung': packerPlan, 'side-hung': packerPlan })
    .prefault({}),
  escape: z
    .strictObject({
      width: formula,
      height: formula,
      least_side: z.number().positive(),
      least_area_m2: z.number().positive(),
      source: sourceName,
    })
    .optional(),
  checks: z
    .array(
      z.strictObject({
        name,
        per: z.enum(['unit', 'divider', 'light', ...LIGHT_SCOPES]),
        says: text(200),
        value: formula,
        unit: unitOfMeasure.default('mm'),
        least: formula.optional(),
        most: formula.optional(),
        source: sourceName,
      }),
    )
    .default([]),
  figures: z
    .record(
      name,
      z.strictObject({ value: z.union([z.number(), identifier]), says: text(200), source: sourceName }),
    )
    .default({}),
});
export type ProfileSetFile = z.output<typeof profileSetSchema>;
export type PartRule = z.output<typeof part>;
export type MarkRule = z.output<typeof mark>;
export type PackerRule = z.output<typeof packer>;
export type LightScope = z.output<typeof lightScope>;
