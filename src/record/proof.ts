/** What a document carries so that anyone with the journals can tell whether it still says the same. */
import * as z from 'zod';
import { canonicalText, sha256 } from '../unit/chain.js';
import {
  askedSchema,
  type CollectionView,
  type RecordView,
  registersSchema,
  toldSchema,
  zoneSchema,
} from './schema.js';

/** SHA-256, hex, over the RFC 8785 form of the record, excluding when and by which version it was made. */
export function factsHash({ made: _, ...facts }: RecordView): string {
  return sha256(canonicalText(facts));
}

export function proofOf(view: RecordView, sheet: 'unit' | 'particulars' = 'unit'): Proof {
  return { sheet, of: [standOf(view)], facts: factsHash(view), ...view.made, ...toldIn([view]) };
}

export const collectionProofOf = (view: CollectionView): Proof => ({
  sheet: 'units',
  of: view.records.map(standOf),
  facts: sha256(canonicalText(view.records.map(factsHash))),
  ...view.made,
  ...toldIn(view.records),
  asked: view.asked,
  notBegun: view.notBegun,
});

/** How far the journal had come, with what came after the record was closed. */
const standOf = ({ unit, seal, after }: RecordView): Proof['of'][number] => ({
  job: unit.job,
  unit: unit.id,
  lines: (after ?? seal).lines,
  hash: (after ?? seal).hash,
});

const toldIn = (records: readonly RecordView[]): Pick<Proof, 'told'> =>
  records.some(({ told }) => told) ? { told: records.map(({ told = {} }) => told) } : {};

/** A proof as base64 (letters, digits, `+/=`), safe in every format; `readProof` reads it back. */
export const proofText = (proof: Proof): string => Buffer.from(JSON.stringify(proof)).toString('base64');

// The proof as read back from a document.

const proofSchema = z.strictObject({
  /** Document type: a unit's record, its sheet of particulars, or the records of several units. */
  sheet: z.enum(['unit', 'particulars', 'units']),
  /** Each unit in order, its journal's line count, and the hash of the last line. */
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
  registers: registersSchema.optional(),
  zone: zoneSchema.optional(),
  language: z.string().optional(),
  words: z.string().optional(),
  annex: z.boolean().optional(),
  paper: z.literal('letter').optional(),
  /** For several units: which were asked for, and which of those had no journal yet. */
  asked: askedSchema.optional(),
  notBegun: z.array(z.string()).optional(),
  /** Of each unit: facts that the document states and no journal keeps. */
  told: z.array(toldSchema).optional(),
});
export type Proof = z.infer<typeof proofSchema>;

/** Undefined if the text is not a proof. */
export function readProof(text: string | undefined): Proof | undefined {
  try {
    return proofSchema.parse(JSON.parse(Buffer.from(text ?? '', 'base64').toString('utf8')));
  } catch {
    return undefined;
  }
}
