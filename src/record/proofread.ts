/** The proof that a document carries, as it is read back from one. */
import * as z from 'zod';
import { askedSchema } from './schema.js';

const proofSchema = z.strictObject({
  /** What the document is: a unit's record, its sheet of particulars, or the records of several units. */
  sheet: z.enum(['unit', 'particulars', 'units']),
  /** Each unit in order, how many lines its journal had, and the hash of the last. */
  of: z.array(
    z.strictObject({
      job: z.string(),
      unit: z.string(),
      lines: z.number().int().nonnegative(),
      hash: z.string(),
    }),
  ),
  facts: z.string(),
  at: z.string(),
  program: z.string(),
  initials: z.boolean(),
  /** Of several units: which were asked for, and which of them had no journal yet. */
  asked: askedSchema.optional(),
  notBegun: z.array(z.string()).optional(),
});
export type Proof = z.infer<typeof proofSchema>;

/** Undefined where the text is no proof. */
export function readProof(text: string | undefined): Proof | undefined {
  try {
    return proofSchema.parse(JSON.parse(Buffer.from(text ?? '', 'base64').toString('utf8')));
  } catch {
    return undefined;
  }
}
