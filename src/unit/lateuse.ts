/**
 * What a bench without a line could not know: that an instrument had been retired, or a set-up ended, when it gave an answer
 * with it.
 */
import { utcText } from '../base/wallclock.js';
import type { JournalEvent } from './events.js';
import { firstOffId } from './firstoff.js';
import { readingsGiven } from './trace.js';
import { unitSays } from './words.js';

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

/** What a bench gave to one check with it. */
export interface LateUse {
  readonly step: string;
  readonly check: string;
  /** Numbers of the answers and readings. */
  readonly lines: readonly number[];
}

/** What this bench gave with it afterwards, by check. */
export function lateUses(
  events: readonly JournalEvent[],
  bench: string,
  { kind, id, at }: UseEnded,
): readonly LateUse[] {
  const found = new Map<string, { step: string; check: string; lines: number[] }>();
  for (const event of events) {
    if (event.kind !== 'answered' && event.kind !== 'read') continue;
    if (event.bench !== bench || event.at <= at) continue;
    const isUse =
      kind === 'setup'
        ? event.kind === 'answered' && event.setup === id
        : readingsGiven(event).some(({ instrument }) => instrument === id);
    if (!isUse) continue;
    const { step, check, n } = event;
    const use = found.get(check) ?? { step, check, lines: [] };
    use.lines.push(n);
    found.set(check, use);
  }
  return [...found.values()];
}

/** How what is said of it begins; that is said once of each check. */
export const lateHead = ({ kind, id, at, by }: UseEnded): string =>
  unitSays(kind === 'setup' ? 'late-setup' : 'late-instrument', { id, by, at: utcText(at) });
