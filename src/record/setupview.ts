/** First-offs of the set-ups under which a unit was made, and who confirmed standing by. */
import { sanitize } from '../base/text.js';
import type { Spoken } from '../base/words.js';
import type { Instrument } from '../measure/types.js';
import type { JournalEvent } from '../unit/events.js';
import type { UnitState } from '../unit/unitstate.js';
import type { RecordBasis } from './basis.js';
import type { Namer } from './initials.js';
import { checksOf } from './materialview.js';
import type { RecordView, StageView } from './schema.js';
import { answerSays, type DocumentSay, outcomeWords } from './telling.js';

/** A first-off in the workshop's journal of set-ups. */
export interface SetupTold {
  readonly id: string;
  readonly event: JournalEvent & { readonly kind: 'first-off' };
}

/** As the unit keeps them. */
export function keptSetupViews(
  events: readonly JournalEvent[],
  basis: RecordBasis,
  named: Namer,
  say: DocumentSay,
): NonNullable<RecordView['setups']> {
  const seen = new Set<string>();
  return events.flatMap((event) => {
    if (event.kind !== 'answered' || event.setup === undefined) return [];
    const { setup } = event;
    const firstOff = basis.firstOff(setup, event);
    if (seen.has(`${setup} ${firstOff?.hash}`)) return [];
    seen.add(`${setup} ${firstOff?.hash}`);
    if (!firstOff) return [];
    const tool = (id: string) => basis.instrumentOf(firstOff, id);
    return [{ ...setupView({ id: setup, event: firstOff }, named, say, tool), hash: firstOff.hash }];
  });
}

/** As the journal of set-ups tells them now. */
export function setupViews(
  stages: readonly StageView[],
  setups: readonly SetupTold[],
  named: Namer,
  say: DocumentSay,
): NonNullable<RecordView['setups']> {
  const used = new Set(checksOf(stages).flatMap(({ answer }) => answer?.setup ?? []));
  return setups.filter(({ id }) => used.has(sanitize(id))).map((each) => setupView(each, named, say));
}

type FindTool = (id: string) => Instrument | undefined;

const setupView = (
  { id, event }: SetupTold,
  named: Namer,
  say: DocumentSay,
  tool: FindTool = () => undefined,
) => ({
  id: sanitize(id),
  at: event.at,
  by: named(event.by),
  // By id: how the workshop words the question may change, what was answered may not.
  checks: event.checks.map(({ check, answer, verdict }) => ({
    asks: sanitize(check.slice(check.indexOf('/') + 1)),
    says: withTool(answer, tool, say),
    outcome: outcomeWords(say, verdict.outcome),
  })),
});

function withTool(
  answer: SetupTold['event']['checks'][number]['answer'],
  find: FindTool,
  say: DocumentSay,
): Spoken {
  const says = answerSays(say, answer, undefined);
  const id = answer.kind === 'number' ? answer.readings[0]?.instrument : undefined;
  if (id === undefined) return says;
  const due = find(id)?.due;
  return due === undefined
    ? say('doc-says-with', { says, id: sanitize(id) })
    : say('doc-says-with-due', { says, id: sanitize(id), due: sanitize(due) });
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
