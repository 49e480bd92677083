/**
 * Events of practice and of sign-off. They carry the same envelope and chain as a unit's journal, in files of their own
 * under practice/: one a person (`people/<id>.jsonl`), and one of sign-offs (`signoff.jsonl`). Nothing of this is under logs/.
 */
import * as z from 'zod';
import { text as plainText } from '../base/schemas.js';
import { type Envelope, envelope } from '../unit/events.js';

const text = plainText(2000).min(1);
const level = z.number().int().min(0).max(5);

/** Whose journal it is; always the first event, so that a file that was renamed is noticed. */
const opened = { of: z.string(), program: z.string() };

const practice = {
  'practice-opened': opened,
  /** One drill played to its end (or given up). */
  drilled: {
    drill: z.enum(['squaring', 'setout', 'faults']),
    seed: z.number().int(),
    level: z.number().int().optional(),
    unit: z.string().optional(),
    points: z.number().min(0).max(100),
    passed: z.boolean(),
    /** How it ended, in one word. */
    ended: z.string(),
    decisions: z.number().int().optional(),
    readings: z.number().int().optional(),
  },
  /** One question of the memory, answered. */
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
    /** Checks that passed at their first answer; questions answered right at once. */
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
  /** Numbers of the `observed` events in this journal. */
  notes: z.array(z.number().int()),
});
export type SignoffEvidence = z.infer<typeof evidence>;

/** The profile set that it is about; absent for every one. A crimped corner is not a pinned one. */
const profileSet = z.string().optional();

const signoff = {
  'signoff-opened': opened,
  /** Somebody who does the stage alone saw this person at it. */
  observed: { person: z.string(), stage: z.string(), profileSet, text, unit: z.string().optional() },
  'signed-off': {
    person: z.string(),
    stage: z.string(),
    profileSet,
    level,
    evidence,
    procedure: z.strictObject({ name: z.string(), version: z.string() }),
    /** Fingerprint of the stage as it was: another one, and the sign-off runs out. */
    stagePrint: envelope.hash,
    note: plainText(2000).optional(),
    /** What was missing of the evidence, and why the assessor signed all the same. */
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
/** One line of a person's practice journal, strictly. */
export const practiceSchema = union(practice) as unknown as z.ZodType<PracticeEvent>;
/** One line of the sign-off journal, strictly. */
export const signoffSchema = union(signoff) as unknown as z.ZodType<SignoffEvent>;
