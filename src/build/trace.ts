/** Recall: every unit and step that a lot, instrument, person, set-up or procedure version reached. */
import type { JournalEvent } from './events.js';

export interface TracedUnit {
  readonly unit: string;
  readonly job: string;
  readonly events: readonly JournalEvent[];
}

/** What to look for; all that are given must fit. */
export interface TraceQuery {
  readonly lot?: string;
  readonly instrument?: string;
  readonly person?: string;
  readonly setup?: string;
  readonly procedureVersion?: string;
}

export interface TraceRow {
  readonly job: string;
  readonly unit: string;
  readonly step: string | null;
  readonly check: string | null;
  readonly n: number;
  readonly at: string;
  readonly by: string;
  /** `answered`, `read`, `released` … */
  readonly kind: JournalEvent['kind'];
  /** In words, what ties it to the query: "lot S-2601 (sealant)". */
  readonly what: string;
  /** False where it was corrected since or the step was made again: it was still reached. */
  readonly counts: boolean;
}

/** Rows in the units' order, each unit's in the journal's. Codes are compared without regard to case. */
export function traceUnits(units: readonly TracedUnit[], query: TraceQuery): TraceRow[] {
  const wanted = Object.entries(query).filter(
    (entry): entry is [keyof TraceQuery, string] => entry[1] !== undefined,
  );
  if (wanted.length === 0) return [];
  return units.flatMap(({ unit, job, events }) => {
    const opened = events.find((event) => event.kind === 'opened');
    const version = opened?.kind === 'opened' ? opened.procedure.version : undefined;
    if (query.procedureVersion !== undefined && query.procedureVersion !== version) return [];
    const others = wanted.filter(([key]) => key !== 'procedureVersion');
    if (others.length === 0)
      return opened ? [row(unit, job, opened, `procedure version ${version}`, true)] : [];
    const dead = noLongerCounts(events);
    return events.flatMap((event) => {
      const found = others.map(([key, code]) => FINDS[key](event, code.toLowerCase()));
      if (found.some((what) => what === undefined)) return [];
      return [row(unit, job, event, found.join(', '), !dead.has(event.n))];
    });
  });
}

type Finder = (event: JournalEvent, code: string) => string | undefined;
const same = (value: string | undefined, code: string): boolean => value?.toLowerCase() === code;

const FINDS: Readonly<Record<keyof TraceQuery, Finder>> = {
  lot: (event, code) => {
    if (event.kind === 'answered' && same(event.lot?.code, code))
      return `lot ${event.lot!.code} (${event.lot!.material})`;
    if (event.kind === 'snag-raised' && same(event.touches.lot, code))
      return `snag on lot ${event.touches.lot}`;
    return undefined;
  },
  instrument: (event, code) => {
    const used = readingsOf(event).find((each) => same(each.instrument, code));
    return used && `instrument ${used.instrument}`;
  },
  person: (event, code) => {
    if (same(event.by, code)) return `by ${event.by}`;
    if ('second' in event && same(event.second, code)) return `second name ${event.second}`;
    if (event.kind === 'answered' && same(event.overdueAllowedBy, code))
      return `overdue instrument allowed by ${event.overdueAllowedBy}`;
    return undefined;
  },
  setup: (event, code) => {
    if (event.kind === 'answered' && same(event.setup, code)) return `set-up ${event.setup}`;
    if (event.kind === 'snag-raised' && same(event.touches.setup, code))
      return `snag on set-up ${event.touches.setup}`;
    return undefined;
  },
  procedureVersion: () => undefined,
};

function readingsOf(event: JournalEvent): { readonly instrument?: string | undefined }[] {
  if (event.kind === 'read') return [event.reading];
  if (event.kind !== 'answered') return [];
  if (event.answer.kind === 'number') return event.answer.readings;
  return event.answer.kind === 'square' ? Object.values(event.answer.readings).flat() : [];
}

/** Numbers of events that were corrected, or whose step was made again after them. */
function noLongerCounts(events: readonly JournalEvent[]): Set<number> {
  const dead = new Set<number>();
  const remade = new Map<string, number>();
  for (const event of events.toReversed()) {
    if (event.kind === 'corrected') dead.add(event.of);
    if (event.kind === 'reworked' || event.kind === 'began')
      remade.set(event.step, remade.get(event.step) ?? event.n);
    if (event.kind === 'answered' && event.n < (remade.get(event.step) ?? 0)) dead.add(event.n);
  }
  return dead;
}

const row = (unit: string, job: string, event: JournalEvent, what: string, counts: boolean): TraceRow => ({
  job,
  unit,
  step: 'step' in event && event.step !== undefined ? event.step : null,
  check: 'check' in event && event.check !== undefined ? event.check : null,
  n: event.n,
  at: event.at,
  by: event.by,
  kind: event.kind,
  what,
  counts,
});
