/**
 * What a person (or a script through `feed`) asks for. The bench and `feed` send the same actions through the same
 * decision, so neither can do what the other may not.
 */
import * as z from 'zod';
import { dispositions, severities } from './events.js';

const step = z.string();
const reason = z.string().min(1);

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
    evidence: z.array(z.string()).optional(),
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
  }),
  z.strictObject({ do: z.literal('undo'), reason }),
  z.strictObject({ do: z.literal('rework'), step, reason, second: z.string().optional() }),
  z.strictObject({
    do: z.literal('release'),
    step,
    pin: z.string().optional(),
    evidence: z.array(z.string()).optional(),
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
    /** scrap: the unit that replaces this one; made from this unit's id where absent. */
    replacement: z.string().optional(),
  }),
  z.strictObject({ do: z.literal('close'), snag: z.number().int(), note: z.string().default('') }),
  z.strictObject({ do: z.literal('park'), reason }),
  z.strictObject({ do: z.literal('resume') }),
  z.strictObject({ do: z.literal('note'), text: z.string().min(1), step: step.optional() }),
  z.strictObject({ do: z.literal('override'), problem: z.string(), reason, pin: z.string().optional() }),
]);
export type Action = z.input<typeof actionSchema>;
