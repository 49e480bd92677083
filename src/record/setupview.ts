/** First-offs of the set-ups under which a unit was made, and who confirmed standing by. */
import { sanitize } from '../base/text.js';
import type { JournalEvent } from '../unit/events.js';
import type { UnitState } from '../unit/unitstate.js';
import type { Namer } from './initials.js';
import { checksOf } from './materialview.js';
import type { RecordView, StageView } from './schema.js';
import { answerSays, OUTCOME_WORDS } from './words.js';

/** A first-off in the workshop's journal of set-ups. */
export interface SetupTold {
  readonly id: string;
  readonly event: JournalEvent & { readonly kind: 'first-off' };
}

export function setupViews(
  stages: readonly StageView[],
  setups: readonly SetupTold[],
  named: Namer,
): RecordView['setups'] {
  const used = new Set(checksOf(stages).flatMap(({ answer }) => answer?.setup ?? []));
  return setups
    .filter(({ id }) => used.has(sanitize(id)))
    .map(({ id, event }) => ({
      id: sanitize(id),
      at: event.at,
      by: named(event.by),
      // By id: how the workshop words the question may change, what was answered may not.
      checks: event.checks.map(({ check, answer, verdict }) => ({
        asks: sanitize(check.slice(check.indexOf('/') + 1)),
        says: answerSays(answer, undefined) + withTool(answer),
        outcome: OUTCOME_WORDS[verdict.outcome] ?? verdict.outcome,
      })),
    }));
}

function withTool(answer: SetupTold['event']['checks'][number]['answer']): string {
  const tool = answer.kind === 'number' ? answer.readings[0]?.instrument : undefined;
  return tool === undefined ? '' : ` with ${sanitize(tool)}`;
}

export const supervisedViews = ({ events, route }: UnitState, named: Namer): RecordView['supervised'] =>
  events.flatMap((event) =>
    event.kind === 'second-confirmed'
      ? [
          {
            line: event.n,
            at: event.at,
            by: named(event.by),
            second: named(event.second),
            stage: sanitize(route.stages.find(({ id }) => id === event.stage)?.title ?? event.stage),
            pin: event.pin,
          },
        ]
      : [],
  );
