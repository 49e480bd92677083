/** What a bench used after another had ended it. */
import { expect, it } from 'vitest';
import { FIRST_PREV } from '../../src/unit/chain.js';
import type { JournalEvent } from '../../src/unit/events.js';
import { lateUses, setupsEnded } from '../../src/unit/lateuse.js';

const on = (n: number, at: string, bench: string, body: object): JournalEvent =>
  ({
    v: 2,
    n,
    at: `2026-12-01T${at}:00.000Z`,
    by: 'jb',
    bench,
    prev: FIRST_PREV,
    hash: FIRST_PREV,
    ...body,
  }) as never;
const proven = (n: number, at: string, bench: string, passed = true) =>
  on(n, at, bench, { kind: 'first-off', setup: 'saw', checks: [], passed, own: bench });

it('a set-up that another bench ended or found wrong is ended; what this bench ended itself it knew', () => {
  const events = [
    proven(1, '06:00', 'bench-1'),
    on(1, '07:00', 'bench-2', { kind: 'setup-ended', setup: 'saw', why: 'knock' }),
    proven(2, '08:00', 'bench-2'),
    proven(3, '09:00', 'bench-3', false),
    proven(2, '10:00', 'bench-1'),
    on(3, '11:00', 'bench-1', { kind: 'setup-ended', setup: 'saw', why: 'shift-end' }),
  ];
  expect(setupsEnded(events, 'bench-1')).toEqual([
    { kind: 'setup', id: 'saw-bench-1-1', at: '2026-12-01T07:00:00.000Z', by: 'bench-2' },
    { kind: 'setup', id: 'saw-bench-2-2', at: '2026-12-01T09:00:00.000Z', by: 'bench-3' },
  ]);
});

it('names only what this bench gave with it, check by check, and only afterwards', () => {
  const answered = (n: number, at: string, bench: string, more: object) =>
    on(n, at, bench, {
      kind: 'answered',
      step: 's',
      check: 'c',
      answer: { kind: 'tick', done: true },
      ...more,
    });
  const events = [
    answered(1, '06:30', 'bench-1', { setup: 'saw-1' }),
    answered(2, '07:30', 'bench-1', { setup: 'saw-1' }),
    answered(3, '07:31', 'bench-2', { setup: 'saw-1' }),
    answered(4, '07:32', 'bench-1', { setup: 'saw-2' }),
    on(5, '07:33', 'bench-1', { kind: 'read', step: 's', check: 'd', reading: { instrument: 'T2' } }),
    on(6, '07:34', 'bench-1', { kind: 'read', step: 's', check: 'd', reading: { instrument: 'T2' } }),
    on(7, '07:35', 'bench-1', { kind: 'read', step: 's', check: 'e', reading: { instrument: 'T2' } }),
  ];
  const at = '2026-12-01T07:00:00.000Z';
  expect(lateUses(events, 'bench-1', { kind: 'setup', id: 'saw-1', at, by: 'bench-2' })).toEqual([
    { step: 's', check: 'c', lines: [2] },
  ]);
  expect(lateUses(events, 'bench-1', { kind: 'instrument', id: 'T2', at, by: 'the shop' })).toEqual([
    { step: 's', check: 'd', lines: [5, 6] },
    { step: 's', check: 'e', lines: [7] },
  ]);
});
