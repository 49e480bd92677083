/**
 * The workshop's day book: what belongs to no one unit and no file holds. Entries are events with the envelope and chain
 * of a unit's journal; one is never changed, only struck out by a later one.
 */
import * as z from 'zod';
import { longText, name, text } from '../base/schemas.js';
import { type Envelope, envelope } from './events.js';

const day = z.iso.date();
const words = text(300).min(1);
const unitName = z.strictObject({ job: name, unit: name });

const body = {
  /** Goods came in with a delivery note. */
  received: {
    supplier: words,
    note: words,
    on: day,
    lots: z.array(text(80).min(1)).min(1).max(200),
    certificate: words.optional(),
  },
  /** Units left with a delivery note. */
  sent: { customer: words, note: words, on: day, units: z.array(unitName).min(1).max(500) },
  /** The customer agreed to what was decided on a snag, or did not. */
  agreed: {
    unit: unitName,
    snag: z.number().int().positive(),
    agrees: z.boolean(),
    customer: words,
    how: words,
    on: day,
  },
  /** What the shop does so that a nonconformity does not come again. */
  action: { against: words, what: longText(1000).min(1), on: day },
  /** A named person stands for shared/limits.yaml as it is, and says why it changed. */
  limits: { sources: z.strictObject({ limits: envelope.hash }), reason: words },
  /** Limits of a control chart, as they were found from the readings until then; they judge what comes after. */
  chart: {
    check: text(200).min(1),
    centre: z.number(),
    sd: z.number().positive(),
    readings: z.number().int().min(2),
    reason: words,
  },
  /** The entry with this hash was wrong. */
  struck: { of: envelope.hash, reason: words },
} as const;

type Bodies = typeof body;
export type DaybookKind = keyof Bodies;
export type DaybookBody = {
  [K in DaybookKind]: z.infer<z.ZodObject<Bodies[K]>> & {
    readonly kind: K;
    /** Whether whoever wrote it typed a PIN. */
    readonly pin?: boolean | undefined;
  };
}[DaybookKind];
export type DaybookEntry = Envelope & DaybookBody;
export type DaybookOf<K extends DaybookKind> = Extract<DaybookEntry, { readonly kind: K }>;

const schema = z.discriminatedUnion(
  'kind',
  Object.entries(body).map(([kind, shape]) =>
    z.strictObject({ ...envelope, kind: z.literal(kind), pin: z.boolean().optional(), ...shape }),
  ) as never,
) as unknown as z.ZodType<DaybookEntry>;

/** Why the value is not an entry; undefined if it is one. */
export function daybookWrong(entry: unknown): string | undefined {
  const parsed = schema.safeParse(entry);
  if (parsed.success) return undefined;
  const issue = parsed.error.issues[0]!;
  return `${issue.path.map(String).join('.') || 'kind'}: ${issue.message}`;
}

/** Entries that still count, oldest first. */
export function stillCounting(entries: readonly DaybookEntry[]): readonly DaybookEntry[] {
  const struck = new Set(entries.flatMap((each) => (each.kind === 'struck' ? [each.of] : [])));
  return entries.filter(({ kind, hash }) => kind !== 'struck' && !struck.has(hash));
}
