/** Questions that one look answers: they stand together on the screen and take one answer. */
import type { RouteCheck } from '../procedure/types.js';
import type { StepState } from './types.js';

/**
 * The questions from the one asked now on that one look answers; none where it is asked alone. Each is a yes or a tick with
 * no picture, rests on nothing of its own and is not about somebody's safety, and the procedure does not set it apart.
 */
export function lookAt({ step, checks }: StepState): readonly RouteCheck[] {
  const from = checks.findIndex(({ holds }) => !holds);
  const open = from < 0 ? [] : checks.slice(from);
  const ends = open.findIndex(
    ({ holds, answered }, i) => holds || answered !== undefined || !isPlain(step.checks[from + i]!),
  );
  const found = step.checks.slice(from, from + Math.min(ends < 0 ? open.length : ends, MOST));
  return from < 0 || found.length < 2 ? [] : found;
}

/** As many as one look takes in, and a small screen shows in full. */
const MOST = 5;

const isPlain = ({ kind, evidence, safety, rests, alone }: RouteCheck): boolean =>
  (kind === 'tick' || kind === 'go-no-go') && !evidence && !safety && !alone && rests.length === 0;
