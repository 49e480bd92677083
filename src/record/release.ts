/** Where a unit's record was closed, and what came after: a release stays what it was, whatever follows it. */
import type { JournalEvent } from '../unit/events.js';

/**
 * How many lines belong to the first closing of a record: up to `finished` or `scrapped`, with the seal that follows it.
 * Undefined if it was never closed.
 */
export function closingOf(events: readonly JournalEvent[]): number | undefined {
  const at = events.findIndex(({ kind }) => kind === 'finished' || kind === 'scrapped');
  if (at < 0) return undefined;
  let end = at + 1;
  for (let i = end; i < events.length; i++) {
    const { kind } = events[i]!;
    if (kind === 'sealed') end = i + 1;
    else if (kind !== 'noted') break;
  }
  return end;
}
