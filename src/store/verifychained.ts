/** What is wrong in a file of chained lines, as `verify` names it. */
import { type Problem, problemFactory } from '../base/problem.js';
import type { Message } from '../base/words.js';
import type { ChainedFault } from './chained.js';
import { VERIFY_MESSAGES } from './verifymessages.js';

const raise = problemFactory(VERIFY_MESSAGES);

/** Ids whose words are the fault's own. */
export type VerifyFault =
  | 'verify.changed-line'
  | 'verify.missing-line'
  | 'verify.re-ordered-line'
  | 'verify.repeated-line'
  | 'verify.broken-chain'
  | 'verify.unknown-event'
  | 'verify.newer-format'
  | 'verify.not-opened'
  | 'verify.wrong-unit'
  | 'verify.torn-end'
  | 'verify.not-a-file/found'
  | 'verify.unreadable';
const IDS: Record<ChainedFault['kind'], VerifyFault> = {
  changed: 'verify.changed-line',
  missing: 'verify.missing-line',
  're-ordered': 'verify.re-ordered-line',
  repeated: 'verify.repeated-line',
  broken: 'verify.broken-chain',
  unknown: 'verify.unknown-event',
  torn: 'verify.torn-end',
  'not-a-file': 'verify.not-a-file/found',
  unreadable: 'verify.unreadable',
};

/** @param wayOut where it is not that of a unit's journal */
export const chainProblems = (faults: readonly ChainedFault[], file: string, wayOut?: Message): Problem[] =>
  faults.map(({ kind, line, text }) => {
    const problem = raise(IDS[kind], { fault: text }, line === undefined ? { file } : { file, line });
    return wayOut === undefined ? problem : { ...problem, wayOut, todo: String(wayOut) };
  });
