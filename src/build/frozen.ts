/** From which frozen sources a unit is built: those of its first event, or of the last revision under way. */
import type { JournalEvent } from './events.js';

export interface Frozen {
  readonly unit: string;
  /** SHA-256 by kind. */
  readonly sources: Readonly<Record<string, string>>;
}

/** Undefined where the unit is not begun. */
export function frozenIn(events: readonly JournalEvent[]): Frozen | undefined {
  let found: Frozen | undefined;
  for (const event of events) {
    if (event.kind === 'opened') found = { unit: event.unit, sources: event.sources };
    else if (event.kind === 'revised' && found)
      found = { unit: found.unit, sources: { ...found.sources, ...event.sources } };
  }
  return found;
}
