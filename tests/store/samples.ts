/** Small invented events for the store's tests, valid by the record format. */
import { chainEvent } from '../../src/unit/chain.js';
import type { EventBody, JournalEvent } from '../../src/unit/events.js';

export const HASH = 'a'.repeat(64);

export const opened = (
  unit = 'P01-1',
  job = 'pier-house',
  sources: Record<string, string> = { limits: HASH },
): EventBody => ({
  kind: 'opened',
  unit,
  job,
  sources,
  procedure: { name: 'casement', version: '1' },
  profileSet: 'w52',
  program: '0.1.0',
});

export const noted = (text: string): EventBody => ({ kind: 'noted', text });

export const measured = (value: number): EventBody => ({
  kind: 'answered',
  step: 'frame.square',
  check: 'frame.square/diagonals',
  answer: {
    kind: 'square',
    readings: {
      top: [{ raw: '900', value: 900, instrument: 'T2' }],
      bl_tr: [{ raw: String(value), value, instrument: 'T2', confirmed: true }],
    },
  },
  verdict: {
    outcome: 'pass',
    value: 0.5,
    unit: 'mm',
    rules: [
      {
        limit: 'frame.diagonals',
        title: 'Diagonals',
        says: 'difference of diagonals at most 2 mm',
        high: 2,
        sourceKind: 'house-rule',
        source: 'invented for this test: "ünï", 日本, \u007f',
        outcome: 'pass',
      },
    ],
    notes: [],
  },
});

export const stamp = (second = 0) => ({
  by: 'jb',
  bench: 'bench-1',
  at: new Date(Date.UTC(2026, 2, 2, 9, 0, second)).toISOString(),
});

/** A journal of invented events. */
export function journal(
  count: number,
  body: (i: number) => EventBody = (i) => (i % 3 ? noted(`n ${i}`) : measured(1220.5 + i)),
): JournalEvent[] {
  const events: JournalEvent[] = [];
  for (let i = 0; i < count; i++) {
    const last = events.at(-1);
    const made = i === 0 ? opened() : body(i);
    events.push(chainEvent(made, stamp(i % 60), last));
  }
  return events;
}
