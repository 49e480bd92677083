/**
 * Practice and sign-off events. Same envelope and chain as a unit's journal, but in separate files under practice/: one
 * per person (`people/<id>.jsonl`) and one for sign-offs (`signoff.jsonl`). None of it is under logs/.
 */
import * as z from 'zod';
import { text as plainText } from '../base/schemas.js';
import { type Envelope, envelope } from '../unit/events.js';

const text = plainText(2000).min(1);
const level = z.number().int().min(0).max(5);

/** Whose journal this is. Always the first event, so that a renamed file is noticed. */
const opened = { of: z.string(), program: z.string() };

const practice = {
  'practice-opened': opened,
  /** One drill, finished or given up. */
  drilled: {
    drill: z.enum(['squaring', 'setout', 'faults']),
    seed: z.number().int(),
    level: z.number().int().optional(),
    unit: z.string().optional(),
    points: z.number().min(0).max(100),
    passed: z.boolean(),
    /** One word. */
    ended: z.string(),
    decisions: z.number().int().optional(),
    readings: z.number().int().optional(),
  },
  /** One memory question, answered. */
  reviewed: {
    card: z.string(),
    print: z.string(),
    right: z.boolean(),
    seconds: z.number().min(0),
  },
  'walk-began': {
    unit: z.string(),
    job: z.string(),
    procedure: z.strictObject({ name: z.string(), version: z.string() }),
    steps: z.number().int(),
  },
  'walk-answered': {
    step: z.string(),
    check: z.string(),
    value: z.string(),
    outcome: z.enum(['pass', 'fail', 'not-proven']),
  },
  'walk-asked': { step: z.string(), answer: z.number().int(), right: z.boolean() },
  'walk-ended': {
    steps: z.number().int(),
    checks: z.number().int(),
    /** Checks passed on the first answer; `questionsRight` likewise counts only first answers. */
    firstPass: z.number().int(),
    questions: z.number().int(),
    questionsRight: z.number().int(),
    complete: z.boolean(),
  },
} as const;

const evidence = z.strictObject({
  units: z.array(
    z.strictObject({
      unit: z.string(),
      checks: z.number().int(),
      firstPass: z.number().int(),
      last: z.string(),
    }),
  ),
  drills: z.array(
    z.strictObject({ drill: z.string(), seed: z.number().int(), points: z.number(), at: z.string() }),
  ),
  /** Numbers of `observed` events in this journal. */
  notes: z.array(z.number().int()),
});
export type SignoffEvidence = z.infer<typeof evidence>;

/** Profile set concerned; absent means all. A crimped corner is not a pinned one. */
const profileSet = z.string().optional();

const signoff = {
  'signoff-opened': opened,
  /** Somebody who does the stage alone has watched this person do it. */
  observed: { person: z.string(), stage: z.string(), profileSet, text, unit: z.string().optional() },
  'signed-off': {
    person: z.string(),
    stage: z.string(),
    profileSet,
    level,
    evidence,
    procedure: z.strictObject({ name: z.string(), version: z.string() }),
    /** Fingerprint of the stage when signed; the sign-off lapses when it changes. */
    stagePrint: envelope.hash,
    note: plainText(2000).optional(),
    /** Missing evidence, and why the assessor signed anyway. */
    waived: z.strictObject({ missing: z.array(z.string()), reason: text }).optional(),
  },
  withdrawn: { person: z.string(), stage: z.string(), profileSet, reason: text },
} as const;

type BodyOf<B extends Record<string, z.ZodRawShape>> = {
  [K in keyof B & string]: z.infer<z.ZodObject<B[K]>> & { readonly kind: K };
}[keyof B & string];

export type PracticeBody = BodyOf<typeof practice>;
export type PracticeEvent = Envelope & PracticeBody;
export type SignoffBody = BodyOf<typeof signoff>;
export type SignoffEvent = Envelope & SignoffBody;

const union = (bodies: Record<string, z.ZodRawShape>) =>
  z.discriminatedUnion(
    'kind',
    Object.entries(bodies).map(([kind, shape]) =>
      z.strictObject({ ...envelope, kind: z.literal(kind), ...shape }),
    ) as never,
  );
export const practiceSchema = union(practice) as unknown as z.ZodType<PracticeEvent>;
export const signoffSchema = union(signoff) as unknown as z.ZodType<SignoffEvent>;
