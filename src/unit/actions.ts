/** Actions. The bench and `feed` send the same ones through the same decision, so neither can do more. */
import * as z from 'zod';
import { dispositions, setupEnds, severities } from './events.js';

const step = z.string();
const reason = z.string().min(1);
/** Evidence paths, relative to the workshop folder; "newest" is the newest file in its inbox folder. */
const files = z.array(z.string());
/** Seconds since the question stood on the screen. */
const stood = z.number().nonnegative().max(1e6);
/**
 * Who lets something pass that is otherwise refused; as `unsignedBy`, that the action closes the unit though the bench
 * cannot sign.
 */
const word = z.strictObject({ person: z.string(), pin: z.string().optional() });
/** The second person's own confirmation, asked once a stage: their PIN, or their code where they have none. */
const confirm = z.strictObject({ pin: z.string().optional(), code: z.string().optional() });

export const actionSchema = z.discriminatedUnion('do', [
  z.strictObject({ do: z.literal('person'), person: z.string(), pin: z.string().optional() }),
  /** Sets the instrument in hand, until another is picked. */
  z.strictObject({ do: z.literal('instrument'), instrument: z.string() }),
  /** `value` as typed ("1221,5", "yes", "no", "3", choice id, lot code); a square set: six by key. */
  z.strictObject({
    do: z.literal('answer'),
    check: z.string(),
    value: z.union([z.string(), z.record(z.string(), z.union([z.string(), z.array(z.string())]))]),
    /** The person was asked about a likely misread and confirms the value. */
    confirmed: z.boolean().optional(),
    second: z.string().optional(),
    confirm: confirm.optional(),
    /** The instrument of this reading, if not the one in hand. */
    with: z.string().optional(),
    expires: z.string().optional(),
    evidence: files.optional(),
    overdueAllowedBy: word.optional(),
    /** Who accepts a lot here that was not accepted at goods-in. */
    acceptedBy: word.optional(),
    stood: stood.optional(),
    unsignedBy: word.optional(),
  }),
  /**
   * One answer for all that one look answers at a step: all are right, or those before `not` are and that one is not.
   */
  z.strictObject({
    do: z.literal('look'),
    step,
    not: z.string().optional(),
    /** For the one of them that asks for a picture. */
    evidence: files.optional(),
    /** The person was asked about the picture and confirms it. */
    confirmed: z.boolean().optional(),
    stood: stood.optional(),
    second: z.string().optional(),
    confirm: confirm.optional(),
    unsignedBy: word.optional(),
  }),
  /** One reading of a set, by key; the last one settles it. `replaces`: in place of that one, counting from 1. */
  z.strictObject({
    do: z.literal('read'),
    check: z.string(),
    key: z.string(),
    value: z.string(),
    replaces: z.number().int().positive().optional(),
    stood: stood.optional(),
    confirmed: z.boolean().optional(),
    second: z.string().optional(),
    confirm: confirm.optional(),
    with: z.string().optional(),
    overdueAllowedBy: word.optional(),
    unsignedBy: word.optional(),
  }),
  /** Drops the readings of a set, which is read anew. */
  z.strictObject({ do: z.literal('begin-set'), check: z.string() }),
  z.strictObject({ do: z.literal('undo'), reason }),
  z.strictObject({
    do: z.literal('rework'),
    step,
    reason,
    second: z.string().optional(),
    confirm: confirm.optional(),
  }),
  z.strictObject({
    do: z.literal('release'),
    step,
    /** Further steps held by the same hold, released in the same walk. */
    also: z.array(step).max(50).optional(),
    pin: z.string().optional(),
    evidence: files.optional(),
    unsignedBy: word.optional(),
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
    /** concession: the limits waived, separated by commas. */
    limit: z.string().optional(),
    pin: z.string().optional(),
    /** scrap: the replacement unit if the job lists one; otherwise a new one is named, such as `P02-1R1`. */
    replacement: z.string().optional(),
    unsignedBy: word.optional(),
  }),
  z.strictObject({
    do: z.literal('close'),
    snag: z.number().int(),
    note: z.string().default(''),
    unsignedBy: word.optional(),
  }),
  /**
   * Takes over what stands of the facts that units share: at every step of the order, the lots, the shift and the set-ups
   * that can be done now; or at the step named, of a batch.
   */
  z.strictObject({ do: z.literal('cite'), step: step.optional() }),
  z.strictObject({ do: z.literal('park'), reason }),
  z.strictObject({ do: z.literal('resume'), unsignedBy: word.optional() }),
  z.strictObject({ do: z.literal('note'), text: z.string().min(1), step: step.optional() }),
  z.strictObject({ do: z.literal('override'), problem: z.string(), reason, pin: z.string().optional() }),
]);
export type Action = z.input<typeof actionSchema>;
export type Asked = z.output<typeof actionSchema>;

const setup = z.string();

/** Bench actions outside the state of one unit: set-ups, and which bench holds the unit. */
const workshopActionSchema = z.discriminatedUnion('do', [
  /** Prove a set-up on first-off pieces: all its checks at once, as typed, by id ("mitre" or "setup.saw/mitre"). */
  z.strictObject({
    do: z.literal('first-off'),
    setup,
    values: z.record(z.string(), z.string()),
    /** The instrument of each check, by id, where it is not the one in hand. */
    with: z.record(z.string(), z.string()).optional(),
    confirmed: z.boolean().optional(),
    note: z.string().optional(),
  }),
  z.strictObject({
    do: z.literal('end-setup'),
    setup,
    why: z.enum(setupEnds),
    note: z.string().optional(),
  }),
  /** After a failed first-off: raises a snag on every unit made since the last good one. */
  z.strictObject({ do: z.literal('snag-setup'), setup }),
  /** Takes the open unit from a bench that a person has verified is not in use. Journaled. */
  z.strictObject({ do: z.literal('take-over'), reason }),
]);
export type WorkshopAction = z.input<typeof workshopActionSchema>;

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

export const actionJsonSchema = (): object => ({
  title: 'pinchrod action 2',
  ...z.toJSONSchema(benchActionSchema, { io: 'input' }),
});
