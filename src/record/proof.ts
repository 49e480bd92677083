/** What a record carries so that whoever has the journal can tell whether it still says the same. */
import * as z from 'zod';
import { canonicalText, sha256 } from '../build/chain.js';
import type { RecordView } from './schema.js';

export const proofSchema = z.strictObject({
  job: z.string(),
  unit: z.string(),
  /** How many lines the journal had, and the hash of the last. */
  lines: z.number().int().nonnegative(),
  hash: z.string(),
  facts: z.string(),
  at: z.string(),
  program: z.string(),
  initials: z.boolean(),
});
export type Proof = z.infer<typeof proofSchema>;

/** SHA-256, hex, over the RFC 8785 form of everything the record says; not of when and by which version it was made. */
export function factsHash({ made: _, ...facts }: RecordView): string {
  return sha256(canonicalText(facts));
}

export function proofOf(view: RecordView): Proof {
  const { unit, seal, made } = view;
  return {
    job: unit.job,
    unit: unit.id,
    lines: seal.lines,
    hash: seal.hash,
    facts: factsHash(view),
    at: made.at,
    program: made.program,
    initials: made.initials,
  };
}
