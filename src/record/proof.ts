/** What a document carries so that whoever has the journals can tell whether it still says the same. */
import { canonicalText, sha256 } from '../build/chain.js';
import type { Proof } from './proofread.js';
import type { CollectionView, RecordView } from './schema.js';

/** SHA-256, hex, over the RFC 8785 form of everything the record says; not of when and by which version it was made. */
export function factsHash({ made: _, ...facts }: RecordView): string {
  return sha256(canonicalText(facts));
}

export function proofOf(view: RecordView, sheet: 'unit' | 'particulars' = 'unit'): Proof {
  return { sheet, of: [standOf(view)], facts: factsHash(view), ...view.made };
}

export const collectionProofOf = (view: CollectionView): Proof => ({
  sheet: 'units',
  of: view.records.map(standOf),
  facts: sha256(canonicalText(view.records.map(factsHash))),
  ...view.made,
  asked: view.asked,
  notBegun: view.notBegun,
});

const standOf = ({ unit, seal }: RecordView): Proof['of'][number] => ({
  job: unit.job,
  unit: unit.id,
  lines: seal.lines,
  hash: seal.hash,
});

/** A proof as a text of letters, digits and `+/=` alone, which every format can hold; proofread.ts reads it back. */
export const proofText = (proof: Proof): string => Buffer.from(JSON.stringify(proof)).toString('base64');
