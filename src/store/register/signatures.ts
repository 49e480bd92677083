/** Signatures in journals, held against which keys count and what the registers knew. */
import { type Place, type Problem, problemFactory } from '../../base/problem.js';
import { VERIFY_MESSAGES } from '../verifymessages.js';
import type { KnownHeads } from './heads.js';
import { type CountedKeys, type KeyStanding, keyOfBench } from './keys.js';

const raise = problemFactory(VERIFY_MESSAGES);

/** A unit that a bench closed which signs, and no signature is there: it was cut off, or the bench never closed it. */
export const unsignedFaults = (
  ends: readonly (readonly [bench: string, line: number])[],
  file: string,
  { introduced }: Pick<CountedKeys, 'introduced'>,
  known: Pick<KnownHeads, 'knewUnsigned'>,
): Problem[] =>
  ends.flatMap(([bench, line]) =>
    keyOfBench(introduced, bench) && !known.knewUnsigned(file, line, bench)
      ? [
          raise(
            'verify.signature-missing',
            { line, bench },
            {
              file,
              line,
            },
          ),
        ]
      : [],
  );

/** A signature that its key made after it was withdrawn. */
export const lateSignature = (
  standing: KeyStanding | undefined,
  key: string,
  known: Pick<KnownHeads, 'knewBy'>,
  place: Place,
  sha256?: string,
): Problem[] => {
  if (!standing || 'not' in standing || !standing.withdrawn) return [];
  const { line } = place;
  const what = { ...(line === undefined ? {} : { line }), ...(sha256 === undefined ? {} : { sha256 }) };
  return known.knewBy(standing.withdrawn, place.file, what)
    ? []
    : [raise('verify.key-withdrawn/key', { key }, place)];
};
