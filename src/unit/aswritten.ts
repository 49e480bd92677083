import { type EventBody, FORMAT_VERSION, type JournalEvent } from './events.js';
import type { DecisionContext } from './types.js';
import type { UnitState } from './unitstate.js';

/** Events as the journal would hold them, unchained: for previewing the result of a decision. */
export function asIfWritten(
  state: Pick<UnitState, 'events'>,
  bodies: readonly EventBody[],
  by: string,
  context: Pick<DecisionContext, 'now' | 'bench'>,
): JournalEvent[] {
  const n = state.events.at(-1)?.n ?? 0;
  return bodies.map(
    (body, i) =>
      ({
        v: FORMAT_VERSION,
        n: n + 1 + i,
        at: context.now,
        by,
        bench: context.bench,
        prev: UNCHAINED,
        hash: UNCHAINED,
        ...body,
      }) as JournalEvent,
  );
}
const UNCHAINED = '0'.repeat(64);
