/** What is wrong in a file of chained lines, as `verify` names it. */
import { type Problem, problemFactory } from '../base/problem.js';
import type { ChainedFault } from './chained.js';
import { VERIFY_MESSAGES } from './verifymessages.js';

const raise = problemFactory(VERIFY_MESSAGES);

const IDS: Record<ChainedFault['kind'], keyof typeof VERIFY_MESSAGES> = {
  changed: 'verify.changed-line',
  missing: 'verify.missing-line',
  're-ordered': 'verify.re-ordered-line',
  repeated: 'verify.repeated-line',
  broken: 'verify.broken-chain',
  unknown: 'verify.unknown-event',
  torn: 'verify.torn-end',
  'not-a-file': 'verify.not-a-file',
  unreadable: 'verify.unreadable',
};

/** @param todo the way out, where it is not that of a unit's journal */
export const chainProblems = (faults: readonly ChainedFault[], file: string, todo?: string): Problem[] =>
  faults.map(({ kind, line, text }) =>
    raise(IDS[kind], text, line === undefined ? { file } : { file, line }, todo),
  );
