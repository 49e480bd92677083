/** Levels that became others while a unit was built: they may be signed off, or raised for one release. */
import type { JournalEvent } from '../unit/events.js';
import type { RecordBasis } from './basis.js';
import type { Namer } from './initials.js';
import { listed } from './words.js';

/** @param from the first line that is looked at */
export const levelRemarks = (
  events: readonly JournalEvent[],
  basis: RecordBasis,
  named: Namer,
  from = 1,
): string[] =>
  [...new Set(events.map(({ by }) => by))].flatMap((id) => {
    const changes = basis.levelChanges(id).filter(({ n }) => n >= from);
    return changes.map(
      ({ n, was, is }) =>
        `From line ${n} on, other levels counted for ${named(id)}: ${listed(is)}; before, ${listed(was)} (see People).`,
    );
  });
