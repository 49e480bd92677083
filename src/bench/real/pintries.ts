/** Wrong PINs are counted per person, so that one cannot be found by trying. */
import type { Action } from '../../build/actions.js';
import type { Problem } from '../../ground/problem.js';

const TRIES = 5;
const LOCKED_MS = 5 * 60_000;

export class PinTries {
  readonly #wrong = new Map<string, { count: number; last: number }>();

  /** Person ids that must wait. */
  locked(now: number): readonly string[] {
    return [...this.#wrong]
      .filter(([, { count, last }]) => count >= TRIES && Math.abs(now - last) < LOCKED_MS)
      .map(([person]) => person);
  }

  note(problem: Problem, action: Action, person: string | undefined, now: number): void {
    const whose = pinOwner(action, person);
    if (problem.id !== 'build.pin-wrong' || whose === undefined) return;
    const before = this.#wrong.get(whose);
    const fresh = before === undefined || Math.abs(now - before.last) >= LOCKED_MS;
    this.#wrong.set(whose, { count: fresh ? 1 : before.count + 1, last: now });
  }

  right(action: Action, person: string | undefined): void {
    const whose = pinOwner(action, person);
    if (whose !== undefined && ('pin' in action || 'overdueAllowedBy' in action)) this.#wrong.delete(whose);
  }
}

const pinOwner = (action: Action, person: string | undefined): string | undefined =>
  (action.do === 'answer' || action.do === 'read') && action.overdueAllowedBy
    ? action.overdueAllowedBy.person
    : person;
