/** Levels that became others while a unit was built: they may be signed off, or raised for one release. */
import { sanitize } from '../base/text.js';
import type { Spoken } from '../base/words.js';
import type { JournalEvent } from '../unit/events.js';
import type { RecordBasis, StageLevel } from './basis.js';
import type { Namer } from './initials.js';
import { type DocumentSay, listed } from './telling.js';

/** @param from the first line that is looked at */
export const levelRemarks = (
  events: readonly JournalEvent[],
  basis: RecordBasis,
  named: Namer,
  say: DocumentSay,
  from = 1,
): Spoken[] =>
  [...new Set(events.map(({ by }) => by))].flatMap((id) => {
    const changes = basis.levelChanges(id).filter(({ n }) => n >= from);
    const levels = (of: readonly StageLevel[]) =>
      listed(
        say,
        of.map(({ stage, level }) =>
          level === undefined ? say('doc-level-not-given', { stage }) : sanitize(`${stage} ${level}`),
        ),
      );
    return changes.map(({ n, was, is }) =>
      say('doc-remark-levels', { n, name: named(id), is: levels(is), was: levels(was) }),
    );
  });
