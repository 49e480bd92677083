/** What a unit is looked for by, from its events alone: the days on which it was worked on, and whether it had a snag. */
import type { JournalEvent } from './events.js';

export interface UnitSummary {
  /** UTC days with an event, each once, in the journal's order: `2026-03-04`. */
  readonly days: readonly string[];
  /** A snag was raised, whatever became of it. */
  readonly snagged: boolean;
}

export function summaryOf(events: readonly JournalEvent[]): UnitSummary {
  return {
    days: [...new Set(events.map(({ at }) => at.slice(0, 10)))],
    snagged: events.some(({ kind }) => kind === 'snag-raised'),
  };
}

/** Whether a unit answers to a question: worked on from a day to a day, both included, with a snag. */
export function answersTo(
  { days, snagged }: UnitSummary,
  asked: {
    readonly since?: string | undefined;
    readonly until?: string | undefined;
    readonly snagged?: boolean | undefined;
  },
): boolean {
  const { since, until } = asked;
  const worked = days.some(
    (day) => (since === undefined || day >= since) && (until === undefined || day <= until),
  );
  return worked && (asked.snagged !== true || snagged);
}
