/**
 * What a bench without a line could not know: that an instrument had been retired, or a set-up ended, when it gave an answer
 * with it.
 */
import type { JournalEvent } from './events.js';
import { firstOffId } from './firstoff.js';
import { readingsGiven } from './trace.js';

/** Something that may not be used from a moment on. */
export interface UseEnded {
  readonly kind: 'instrument' | 'setup';
  readonly id: string;
  /** UTC. */
  readonly at: string;
  /** Who says so: a bench, or the edition of the workshop's files. */
  readonly by: string;
}

/** Set-ups that other benches ended, or found wrong, by their journals in the order of their times. */
export function setupsEnded(events: readonly JournalEvent[], bench: string): UseEnded[] {
  const proven = new Map<string, string>();
  const ended: UseEnded[] = [];
  for (const event of events) {
    if (event.kind !== 'first-off' && event.kind !== 'setup-ended') continue;
    const id = proven.get(event.setup);
    const isEnd = event.kind === 'setup-ended' || !event.passed;
    if (isEnd && id !== undefined && event.bench !== bench)
      ended.push({ kind: 'setup', id, at: event.at, by: event.bench });
    if (isEnd) proven.delete(event.setup);
    else proven.set(event.setup, firstOffId(event));
  }
  return ended;
}

/** Numbers of the answers and readings that this bench gave with it afterwards. */
export const lateUses = (
  events: readonly JournalEvent[],
  bench: string,
  { kind, id, at }: UseEnded,
): number[] =>
  events
    .filter((event) => event.bench === bench && event.at > at)
    .filter((event) =>
      kind === 'setup'
        ? event.kind === 'answered' && event.setup === id
        : readingsGiven(event).some(({ instrument }) => instrument === id),
    )
    .map(({ n }) => n);

/** How the snag about it begins; each is raised once. */
export const lateHead = ({ kind, id, at, by }: UseEnded): string =>
  `${kind === 'setup' ? 'Set-up' : 'Instrument'} ${id} had been ended by ${by} at ${at.slice(0, 16).replace('T', ' ')} UTC`;
