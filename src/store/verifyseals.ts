/** Seals held against the journals: signatures of units, and the seals of jobs. */

import { type Place, type Problem, raiser } from '../base/problem.js';
import type { JournalEvent } from '../unit/events.js';
import { checkSignature, type SealedEvent, sealOver, unsealedEnd } from '../unit/sealing.js';
import type { JobSeal } from './jobseal.js';
import { VERIFY_MESSAGES } from './messages.js';

const raise = raiser(VERIFY_MESSAGES);
export type Keys = ReadonlyMap<string, string>;

/** Every seal of one journal whose chain holds, and whether a closed unit is signed. */
export function unitSealProblems(events: readonly JournalEvent[], file: string, keys: Keys): Problem[] {
  const problems: Problem[] = [];
  let good: number | undefined;
  for (const [i, event] of events.entries()) {
    if (event.kind !== 'sealed') continue;
    const problem = sealProblem(event, { file, line: i + 1 }, good, keys);
    if (problem) problems.push(problem);
    else good = i + 1;
  }
  const open = unsealedEnd(events);
  if (open && keys.size > 0)
    problems.push(
      raise('verify.not-signed', `The unit is closed by line ${open.n}, and no signature follows.`, {
        file,
        line: open.n,
      }),
    );
  return problems;
}

function sealProblem(
  event: SealedEvent,
  place: Place,
  lastGood: number | undefined,
  keys: Keys,
): Problem | undefined {
  if (event.head !== event.prev)
    return raise('verify.bad-signature', 'The seal is of another line than the one before it.', place);
  const from =
    lastGood === undefined ? 'some line' : `some line after ${lastGood}, where the last good seal stands,`;
  return signatureProblem(
    { hash: event.head, key: event.key, signature: event.signature },
    place,
    `Every line follows from the one before, but key ${event.key} did not sign them: they were written anew from ${from} on.`,
    keys,
  );
}

function signatureProblem(
  { hash, key, signature }: { readonly hash: string; readonly key: string; readonly signature: string },
  place: Place,
  forged: string,
  keys: Keys,
): Problem | undefined {
  const pem = keys.get(key);
  if (pem === undefined)
    return raise('verify.unknown-key', `Signed with key ${key}, which is not under shared/keys.`, place);
  switch (checkSignature(pem, hash, signature)) {
    case 'holds':
      return undefined;
    case 'malformed':
      return raise('verify.bad-signature', 'The signature is not 64 bytes in base64.', place);
    case 'other':
      return raise('verify.forged-chain', forged, place);
  }
}

/** What a job's seal says of a unit's journal: the hash of that line, and how many lines there are now. */
export interface Standing {
  readonly lines: number;
  /** Hash of each line, counted from 1, that a seal of the job is of, where the journal has that line. */
  readonly hashes: ReadonlyMap<number, string>;
}

/** @param standings of the units that were looked at; `only` one unit where just that was asked for */
export function jobSealProblems(
  seal: JobSeal | undefined,
  job: string,
  file: string,
  standings: ReadonlyMap<string, Standing>,
  keys: Keys,
  only?: string,
): Problem[] {
  const place = { file };
  if (!seal) return [raise('verify.job-seal', 'The file holds no seal of a job.', place)];
  const problems: Problem[] = [];
  if (seal.job !== job) problems.push(raise('verify.job-seal', `The seal is of job "${seal.job}".`, place));
  if (sealOver(seal.units.map(({ hash }) => hash)) !== seal.seal)
    problems.push(raise('verify.job-seal', 'The seal is not the one over the units that it lists.', place));
  if (seal.key !== undefined || seal.signature !== undefined) {
    // Half a signature is one that nobody made.
    const { key = '', signature = '' } = seal;
    const problem = signatureProblem(
      { hash: seal.seal, key, signature },
      place,
      `Key ${key} did not sign this seal: it, or the journals that it covers, were written anew.`,
      keys,
    );
    if (problem) problems.push(problem);
  }
  for (const { unit, lines, hash } of seal.units) {
    if (only !== undefined && unit !== only) continue;
    const now = standings.get(unit);
    if (!now) problems.push(raise('verify.job-seal', `The journal of ${unit} is not there.`, place));
    else if (now.lines < lines)
      problems.push(
        raise(
          'verify.job-seal',
          `${unit} had ${lines} lines when the job was sealed and has ${now.lines}.`,
          place,
        ),
      );
    else if (now.hashes.get(lines) !== hash)
      problems.push(
        raise('verify.job-seal', `Line ${lines} of ${unit} is not the one that was sealed.`, place),
      );
    else if (now.lines > lines)
      problems.push(
        raise(
          'verify.grown',
          `${unit} has ${now.lines - lines} more lines than when the job was sealed.`,
          place,
        ),
      );
  }
  return problems;
}
