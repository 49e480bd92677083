/** A forger's journal: every answer moved to another person, and the chain written anew. */
import { chainHash, chainLine, FIRST_PREV } from '../../src/unit/chain.js';
import type { Signer } from '../../src/unit/sealing.js';

/** @param signer signs the end with a key of the forger's own; without it the old signature is left there */
export function rewritten(genuine: string, signer?: Signer): string {
  let prev = FIRST_PREV;
  const lines = genuine
    .trimEnd()
    .split('\n')
    .map((text) => {
      const event = { ...JSON.parse(text), prev };
      if (event.kind === 'answered') event.by = 'ek';
      if (event.kind === 'sealed')
        Object.assign(event, { head: prev }, signer && { key: signer.id, signature: signer.sign(prev) });
      event.hash = chainHash(event);
      prev = event.hash;
      return chainLine(event);
    });
  return `${lines.join('\n')}\n`;
}
