/** Keeping what was practised, where a person is named. */
import { type Problem, problemText } from '../../ground/problem.js';
import type { PracticeBody } from '../../train/events.js';
import { EXIT, type Io } from '../io.js';
import type { TrainingShop } from './shop.js';

/** Appends to the person's practice journal. Gives the exit code where that failed. */
export function keep(
  shop: TrainingShop,
  person: string | undefined,
  bodies: readonly PracticeBody[],
  now: string,
  io: Io,
): number | undefined {
  if (bodies.length === 0) return undefined;
  if (person === undefined) {
    io.err('Not kept: nobody was named. Add --person ID to keep what is practised.');
    return undefined;
  }
  const kept = shop.keepPractice(person, bodies, now);
  return kept.ok ? undefined : failed(kept.problems, io);
}

/** Says the problems; a disk that fails is another code than bad input. */
export function failed(problems: readonly Problem[], io: Io): number {
  for (const problem of problems) io.err(problemText(problem));
  return problems.some((problem) => problem.id.startsWith('disk.')) ? EXIT.resource : EXIT.badInput;
}
