/** The procedure file format, `pinchrod-procedure 1`; see procedures/README.md. */
import * as z from 'zod';
import { name, text } from '../base/schemas.js';
import { instrumentKinds } from '../measure/instruments.js';
import { QUANTITIES } from '../measure/types.js';
import { FIGURE_UNITS } from '../measure/units.js';
import { CLAIM } from '../window/claims.js';
import { SPOTS } from '../window/types.js';
import { LIST_CLAIM } from '../window/worklists.js';
import { RHYTHMS } from './rhythm.js';

/** A sentence or two for the person doing the work; may contain {formulas}. */
export const sentenceSchema = text(400);
/** CEL source; checked when the procedure is parsed. */
const formula = z.union([text(400).min(1), z.number()]).transform(String);
const condition = text(400).min(1);

const EACH = ['unit', 'light', 'sash', 'fixed', 'divider'] as const;
export type Each = (typeof EACH)[number];

const HAZARDS = ['machine', 'lifting', 'glass', 'chemical'] as const;
export type Hazard = (typeof HAZARDS)[number];

const checkSchema = z.strictObject({
  id: name,
  kind: z.enum(['tick', 'go-no-go', 'number', 'square', 'points', 'count', 'choice', 'text', 'computed']),
  ask: sentenceSchema,
  how: sentenceSchema.optional(),
  when: condition.optional(),
  /** How often it is due; as its step's where left out. */
  rhythm: z.enum(RHYTHMS).optional(),
  /** Of rhythm nth: on each of so many units it is asked once. */
  nth: z.number().int().min(2).max(1000).optional(),
  /** computed: what the program works out; a person is asked only where it does not hold. */
  holds: condition.optional(),
  expect: formula.optional(),
  nominal: z.strictObject({ w: formula, h: formula }).optional(),
  plausible: formula.optional(),
  /** For banded limits: the size that selects the band, if not `expect`. */
  size: formula.optional(),
  unit: z.enum(FIGURE_UNITS).optional(),
  /** What is measured: an instrument in hand that does not measure it is refused. */
  quantity: z.enum(QUANTITIES).optional(),
  /** points: the readings, in the order in which they are taken. */
  points: z
    .array(
      z.strictObject({
        id: name,
        text: sentenceSchema,
        expect: formula.optional(),
        spot: z.enum(SPOTS).optional(),
        /** Limits of this reading alone, beside those of the set. */
        limits: z.array(name).optional(),
        explains: text(100).optional(),
      }),
    )
    .min(2)
    .max(24)
    .optional(),
  /** points: ids of two that lie opposite each other. */
  pairs: z.array(z.tuple([name, name])).optional(),
  limits: z.array(name).default([]),
  against: z.enum(['deviation', 'value']).optional(),
  choices: z
    .array(z.strictObject({ id: name, text: sentenceSchema, pass: z.boolean() }))
    .min(2)
    .optional(),
  instruments: z.array(z.enum(instrumentKinds)).default([]),
  rests: z.array(name).default([]),
  spot: z.enum(SPOTS).optional(),
  lot: name.optional(),
  /** text with a lot: it is accepted here, at goods-in. */
  accepts: z.boolean().optional(),
  /** text with a lot: each piece has its own number, which is used once. */
  serial: z.boolean().optional(),
  /** text with a lot: it is taken only with its date. */
  dated: z.boolean().optional(),
  evidence: z.boolean().default(false),
  safety: z.boolean().default(false),
  /** Asked by itself, never together with its neighbours. */
  alone: z.boolean().default(false),
  explains: text(100).optional(),
});

/** Of several features, the first that a step of the unit makes. */
const timer = z.strictObject({ feature: z.union([name, z.array(name).min(1)]), minutes: formula });

const stepSchema = z.strictObject({
  id: name,
  each: z.enum(EACH).default('unit'),
  when: condition.optional(),
  title: text(70).min(1),
  do: z.array(sentenceSchema).min(1),
  why: sentenceSchema.default(''),
  watch: sentenceSchema.default(''),
  hazards: z.array(z.enum(HAZARDS)).default([]),
  caution: sentenceSchema.optional(),
  tools: z.array(sentenceSchema).default([]),
  spot: z.enum(SPOTS).default('whole'),
  makes: z.array(name).default([]),
  /** Marks of the set-out that this step makes: `frame/drain-inner`, `addon.top/fixing`, `ends/divider-hole`. */
  marks: z
    .array(z.string().max(60).regex(CLAIM, 'a place and a kind of mark, such as frame/drain-inner'))
    .default([]),
  /** What it makes of the unit's lists: `cutting/frame`, `kit/piece`, `glass`, `packers`, `hardware/stay`. */
  list: z
    .array(z.string().max(60).regex(LIST_CLAIM, 'a list and what it makes of it, such as cutting/frame'))
    .default([]),
  /** `everything`: all features made before this step. */
  rests: z.array(name).default([]),
  hold: name.optional(),
  /** How often its checks are due, where they do not say otherwise. */
  rhythm: z.enum(RHYTHMS).default('unit'),
  checks: z.array(checkSchema).min(1),
  leastSeconds: z.number().int().positive().optional(),
  notBefore: timer.optional(),
  notAfter: timer.optional(),
  setup: name.optional(),
  question: z
    .strictObject({
      ask: sentenceSchema,
      answers: z.array(sentenceSchema).min(2).max(5),
      right: z.number().int().min(1),
    })
    .refine((q) => q.right <= q.answers.length, 'right: counts the answers from 1; there is no such answer')
    .optional(),
});

export const procedureSchema = z.strictObject({
  format: z.literal('pinchrod-procedure 1'),
  name,
  version: text(20).min(1),
  title: text(100).min(1),
  language: text(10).default('en'),
  /** Appended to every caution: whose instructions take precedence over this file. */
  deferral: sentenceSchema.default(''),
  features: z.record(name, text(100)),
  holds: z
    .record(
      name,
      z.strictObject({
        title: text(100).min(1),
        /** The person who did the step may not release it. */
        notSamePerson: z.boolean().default(true),
        /** Requires a picture or file on release. */
        evidence: z.boolean().default(false),
        /** Released by a named person, or by its own checks: work stops there all the same. */
        release: z.enum(['person', 'checks']).default('person'),
        /** How often a person releases it. */
        rhythm: z.enum(RHYTHMS).default('unit'),
      }),
    )
    .default({}),
  stages: z
    .array(
      z.strictObject({
        id: name,
        title: text(60).min(1),
        branch: name.default('all'),
        after: z.array(name).default([]),
        steps: z.array(stepSchema).min(1),
      }),
    )
    .min(1),
});
export type ProcedureFile = z.output<typeof procedureSchema>;
export type StepFile = z.output<typeof stepSchema>;
export type CheckFile = z.output<typeof checkSchema>;
