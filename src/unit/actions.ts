/**
 * What a person (or a script through `feed`) asks for. The bench and `feed` send the same actions through the same
 * decision, so neither can do what the other may not.
 */
import * as z from 'zod';
import { dispositions, setupEnds, severities } from './events.js';

const step = z.string();
const reason = z.string().min(1);
/** Evidence: paths, from the workshop's folder; "newest" is the newest file in its inbox folder. */
const files = z.array(z.string());

export const actionSchema = z.discriminatedUnion('do', [
  /** Who is at the bench from here on. */
  z.strictObject({ do: z.literal('person'), person: z.string(), pin: z.string().optional() }),
  /** The instrument in hand, by kind, until another is picked. */
  z.strictObject({ do: z.literal('instrument'), instrument: z.string() }),
  /** Answer the check: `value` as typed ("1221,5", "yes", "no", "3", a choice id, a lot code); for a square set the six by key. */
  z.strictObject({
    do: z.literal('answer'),
    check: z.string(),
    value: z.union([z.string(), z.record(z.string(), z.union([z.string(), z.array(z.string())]))]),
    /** The person was asked about a likely misread and stands by it. */
    confirmed: z.boolean().optional(),
    second: z.string().optional(),
    expires: z.string().optional(),
    evidence: files.optional(),
    overdueAllowedBy: z.strictObject({ person: z.string(), pin: z.string().optional() }).optional(),
  }),
  /** One reading of a square set (`key` as in SQUARE_KEYS; the same key again is its repeat); `answer` completes the set. */
  z.strictObject({
    do: z.literal('read'),
    check: z.string(),
    key: z.string(),
    value: z.string(),
    confirmed: z.boolean().optional(),
    second: z.string().optional(),
    overdueAllowedBy: z.strictObject({ person: z.string(), pin: z.string().optional() }).optional(),
  }),
  z.strictObject({ do: z.literal('undo'), reason }),
  z.strictObject({ do: z.literal('rework'), step, reason, second: z.string().optional() }),
  z.strictObject({
    do: z.literal('release'),
    step,
    pin: z.string().optional(),
    evidence: files.optional(),
  }),
  z.strictObject({
    do: z.literal('snag'),
    step: step.optional(),
    check: z.string().optional(),
    severity: z.enum(severities).default('minor'),
    cause: z.string(),
    text: z.string().min(1),
    lot: z.string().optional(),
    setup: z.string().optional(),
    containment: z.string().optional(),
    park: z.boolean().default(false),
  }),
  z.strictObject({
    do: z.literal('decide'),
    snag: z.number().int(),
    disposition: z.enum(dispositions),
    reason,
    /** concession: the limit given way; several with commas between. */
    limit: z.string().optional(),
    pin: z.string().optional(),
    /** scrap: the unit that replaces this one, where the job lists one; else one more is made: `P02-1R1`. */
    replacement: z.string().optional(),
  }),
  z.strictObject({ do: z.literal('close'), snag: z.number().int(), note: z.string().default('') }),
  z.strictObject({ do: z.literal('park'), reason }),
  z.strictObject({ do: z.literal('resume') }),
  z.strictObject({ do: z.literal('note'), text: z.string().min(1), step: step.optional() }),
  z.strictObject({ do: z.literal('override'), problem: z.string(), reason, pin: z.string().optional() }),
]);
export type Action = z.input<typeof actionSchema>;
/** An action as it was read: what had not been said stands in it. */
export type Asked = z.output<typeof actionSchema>;

const setup = z.string();

/** What is asked for at the bench and does not belong to one unit's state: set-ups, and who has the unit. */
const workshopActionSchema = z.discriminatedUnion('do', [
  /** Prove a set-up on first-off pieces: all its checks at once, by id ("mitre" or "setup.saw/mitre"), as typed. */
  z.strictObject({
    do: z.literal('first-off'),
    setup,
    values: z.record(z.string(), z.string()),
    confirmed: z.boolean().optional(),
    note: z.string().optional(),
  }),
  /** From here on the set-up must be proven again. */
  z.strictObject({
    do: z.literal('end-setup'),
    setup,
    why: z.enum(setupEnds),
    note: z.string().optional(),
  }),
  /** After a failed first-off: a snag on every unit made since the last good one. */
  z.strictObject({ do: z.literal('snag-setup'), setup }),
  /** Takes the open unit from a bench that a person has made sure is not in use. It is written into the journal. */
  z.strictObject({ do: z.literal('take-over'), reason }),
]);
export type WorkshopAction = z.input<typeof workshopActionSchema>;

/** All that the bench and `feed` take. */
export const benchActionSchema = z.discriminatedUnion('do', [
  ...actionSchema.options,
  ...workshopActionSchema.options,
]);
export type BenchAction = Action | WorkshopAction;

const WORKSHOP: ReadonlySet<string> = new Set<WorkshopAction['do']>([
  'first-off',
  'end-setup',
  'snag-setup',
  'take-over',
]);
export const isWorkshopAction = (action: BenchAction): action is WorkshopAction => WORKSHOP.has(action.do);

/** JSON Schema (2020-12) of one action, for editors and other programs. */
export const actionJsonSchema = (): object => ({
  title: 'pinchrod action 1',
  ...z.toJSONSchema(benchActionSchema, { io: 'input' }),
});
