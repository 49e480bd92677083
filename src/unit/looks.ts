/** Questions that one look answers: they stand together on the screen and take one answer. */
import type { RouteCheck } from '../procedure/types.js';
import type { Answer } from './events.js';
import type { StepState } from './types.js';

/**
 * The questions from the one asked now on that one look answers; none where it is asked alone. Each is a yes or a tick, rests
 * on nothing of its own and is not about somebody's safety, and the procedure does not set it apart. One picture may show
 * what is looked at: it belongs to the question that asks for it.
 */
export function lookAt({ step, checks }: StepState): readonly RouteCheck[] {
  const from = checks.findIndex(({ holds }) => !holds);
  const open = from < 0 ? [] : checks.slice(from);
  const ends = open.findIndex(
    ({ holds, answered }, i) => holds || answered !== undefined || !isPlain(step.checks[from + i]!),
  );
  const plain = step.checks.slice(from, from + Math.min(ends < 0 ? open.length : ends, MOST));
  const second = plain.filter(({ evidence }) => evidence)[1];
  const found = second ? plain.slice(0, plain.indexOf(second)) : plain;
  return from < 0 || found.length < 2 ? [] : found;
}

/** Whether an answer says no more than that something was looked at. */
export const isLookedAt = ({ kind }: Pick<RouteCheck, 'kind'> | Pick<Answer, 'kind'>): boolean =>
  kind === 'tick' || kind === 'go-no-go';

/** As many as one look takes in, and a small screen shows in full. */
const MOST = 5;

const isPlain = (check: RouteCheck): boolean =>
  isLookedAt(check) && !check.safety && !check.alone && check.rests.length === 0;
