/** Recall: every unit and step affected by a lot, instrument, person, set-up or procedure version. */
import type { Answer, JournalEvent } from './events.js';
import { unitSays } from './words.js';

export interface TracedUnit {
  readonly unit: string;
  readonly job: string;
  readonly events: readonly JournalEvent[];
}

/** All given fields must match. */
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
  /** What links it to the query, in words: "lot S-2601 (sealant)". */
  readonly what: string;
  /** False if it was corrected since, or the step was redone: it was affected all the same. */
  readonly counts: boolean;
}

/** Rows in unit order, then journal order. Codes are compared case-insensitively. */
export function traceUnits(units: readonly TracedUnit[], query: TraceQuery): TraceRow[] {
  const wanted = Object.entries(query).filter(
    (entry): entry is [keyof TraceQuery, string] => entry[1] !== undefined,
  );
  if (wanted.length === 0) return [];
  const others = wanted.filter(([key]) => key !== 'procedureVersion');
  return units.flatMap(({ unit, job, events }) => {
    const dead = noLongerCounts(events);
    let version: string | undefined;
    return events.flatMap((event) => {
      const begins = versionFrom(event);
      version = begins ?? version;
      if (query.procedureVersion !== undefined && !same(version, query.procedureVersion)) return [];
      // A version alone matches the events where the unit was opened with it or revised to it.
      if (others.length === 0)
        return begins === undefined
          ? []
          : [row(unit, job, event, unitSays('trace-version', { version: begins }), true)];
      const found = others.map(([key, code]) =>
        REACHES[key](event).find(([each]) => same(each, code))?.[1](),
      );
      if (found.some((what) => what === undefined)) return [];
      return [row(unit, job, event, found.join(', '), !dead.has(event.n))];
    });
  });
}

/** Index keys: every code `traceUnits` could find in the events, by kind, lower case, each once. */
export function reachesOf(events: readonly JournalEvent[]): Record<keyof TraceQuery, string[]> {
  const of = (key: keyof TraceQuery): string[] => [
    ...new Set(events.flatMap((event) => REACHES[key](event).flatMap(([code]) => code?.toLowerCase() ?? []))),
  ];
  return {
    lot: of('lot'),
    instrument: of('instrument'),
    person: of('person'),
    setup: of('setup'),
    procedureVersion: of('procedureVersion'),
  };
}

/** Whether a unit with these codes can match the query. */
export const mayHold = (
  reaches: Readonly<Record<keyof TraceQuery, readonly string[]>>,
  query: TraceQuery,
): boolean =>
  Object.entries(query).every(
    ([key, code]) => code === undefined || reaches[key as keyof TraceQuery].includes(code.toLowerCase()),
  );

type Reaches = (event: JournalEvent) => readonly (readonly [code: string | undefined, words: () => string])[];
const same = (value: string | undefined, code: string): boolean =>
  value?.toLowerCase() === code.toLowerCase();

const REACHES: Readonly<Record<keyof TraceQuery, Reaches>> = {
  lot: (event) => {
    if (event.kind === 'answered' && event.lot) {
      const { code: lot, material } = event.lot;
      return [[lot, () => unitSays('trace-lot', { lot, material })]];
    }
    if (event.kind === 'snag-raised')
      return [[event.touches.lot, () => unitSays('trace-snag-lot', { lot: event.touches.lot ?? '' })]];
    return [];
  },
  instrument: (event) =>
    readingsGiven(event).map((each) => [
      each.instrument,
      () => unitSays('trace-instrument', { instrument: each.instrument ?? '' }),
    ]),
  person: (event) => [
    [event.by, () => unitSays('trace-by', { by: event.by })],
    ...('cited' in event && event.cited
      ? [
          [
            event.cited.by,
            () => unitSays('trace-cited', { unit: event.cited!.unit, by: event.cited!.by }),
          ] as const,
        ]
      : []),
    ...('second' in event
      ? [[event.second, () => unitSays('trace-second', { by: event.second ?? '' })] as const]
      : []),
    ...(event.kind === 'answered' || event.kind === 'read'
      ? [
          [
            event.overdueAllowedBy,
            () => unitSays('trace-overdue', { by: event.overdueAllowedBy ?? '' }),
          ] as const,
        ]
      : []),
    ...('unsigned' in event && event.unsigned
      ? [[event.unsigned.by, () => unitSays('trace-unsigned', { by: event.unsigned!.by })] as const]
      : []),
  ],
  setup: (event) => {
    if (event.kind === 'answered')
      return [[event.setup, () => unitSays('trace-setup', { setup: event.setup ?? '' })]];
    if (event.kind === 'snag-raised')
      return [
        [event.touches.setup, () => unitSays('trace-snag-setup', { setup: event.touches.setup ?? '' })],
      ];
    return [];
  },
  procedureVersion: (event) => {
    const version = versionFrom(event);
    return version === undefined
      ? []
      : [[version, () => unitSays('trace-version', { version: version ?? '' })]];
  },
};

/** The procedure version the unit is built to from this event on. */
const versionFrom = (event: JournalEvent): string | undefined =>
  event.kind === 'opened' || event.kind === 'revised' ? event.procedure?.version : undefined;

export function readingsGiven(event: JournalEvent): { readonly instrument?: string | undefined }[] {
  if (event.kind === 'read') return [event.reading];
  return event.kind === 'answered' ? readingsOfAnswer(event.answer) : [];
}

export function readingsOfAnswer(answer: Answer): { readonly instrument?: string | undefined }[] {
  if (answer.kind === 'number') return answer.readings;
  return 'readings' in answer ? Object.values(answer.readings).flat() : [];
}

/** Events that were corrected, or whose step was redone later. */
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

/** Uses of each set-up: one per step and unit. */
export function usesOf(units: readonly TracedUnit[]): Map<string, number> {
  const steps = new Set<string>();
  const out = new Map<string, number>();
  for (const { unit, job, events } of units)
    for (const event of events) {
      if (event.kind !== 'answered' || event.setup === undefined) continue;
      const key = JSON.stringify([job, unit, event.step, event.setup]);
      if (steps.has(key)) continue;
      steps.add(key);
      out.set(event.setup, (out.get(event.setup) ?? 0) + 1);
    }
  return out;
}
