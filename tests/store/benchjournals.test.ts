/** In a shop each bench has first-offs, sign-offs and practice in journals of its own; together they are read as one. */
import { existsSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import {
  keepPractice,
  keepSignoff,
  practised,
  readPractice,
  readSignoffs,
} from '../../src/session/practicejournals.js';
import { practiceJournals, workshopJournals } from '../../src/store/benchjournals.js';
import { writeCard } from '../../src/store/card.js';
import { realDisk } from '../../src/store/disk.js';
import { appendSetupLog, readSetupLog } from '../../src/store/setups.js';
import { verifyTree } from '../../src/store/verify.js';
import type { EventBody } from '../../src/unit/events.js';
import { setupStandings } from '../../src/unit/setups.js';

let root: string;
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'pinchrod-benchjournals-'));
  mkdirSync(join(root, 'logs'));
});
afterEach(() => rmSync(root, { recursive: true, force: true }));

const firstOff: EventBody = { kind: 'first-off', setup: 'saw', checks: [], passed: true };
const on = (bench: string, at: string, body: EventBody = firstOff): void => {
  const wrote = appendSetupLog(realDisk, root, [body], { by: 'jb', at: `2026-12-01T${at}:00.000Z`, bench });
  if (!wrote.ok) throw new Error(wrote.problems[0]!.text);
};
const takePart = (): void => {
  const card = {
    format: 'pinchrod-shop 1',
    shop: 's',
    name: 'S',
    bench: 'bench-1',
    folder: 'f',
    lies: 'l',
  } as const;
  expect(writeCard(realDisk, root, card).ok).toBe(true);
};
const standing = () => {
  const events = readSetupLog(realDisk, root);
  if (!events.ok) throw new Error(events.problems[0]!.text);
  const [saw] = setupStandings(
    [{ id: 'saw', title: 'Saw', checks: [] }],
    events.value,
    new Map(),
    '2026-12-01T12:00:00.000Z',
  );
  return { id: saw!.id, valid: saw!.valid };
};

it('first-offs of all benches are one history, by their times, and each id names its bench', () => {
  on('bench-1', '06:00');
  expect(standing()).toEqual({ id: 'saw-1', valid: true });
  takePart();
  on('bench-2', '07:00');
  expect(standing()).toEqual({ id: 'saw-bench-2-1', valid: true });
  on('bench-1', '08:00', { kind: 'setup-ended', setup: 'saw', why: 'knock' });
  expect(standing()).toEqual({ id: 'saw-bench-2-1', valid: false });
  on('bench-1', '09:00');
  expect(standing()).toEqual({ id: 'saw-bench-1-2', valid: true });
  expect(workshopJournals(realDisk, root, 'setups')).toEqual([
    'logs/setups.jsonl',
    'benches/bench-1/setups.jsonl',
    'benches/bench-2/setups.jsonl',
  ]);
  const report = verifyTree(realDisk, root);
  expect(report.faults).toEqual([]);
  expect(report.journals).toBe(3);
});

it('practice and sign-offs too, and a bench by itself has no such folder', () => {
  const place = (bench: string) => ({ disk: realDisk, root, bench });
  const drilled = { kind: 'walk-asked', step: 's', answer: 1, right: true } as const;
  const note = { kind: 'observed', person: 'tf', stage: 'saw', text: 'well' } as const;
  const keep = (bench: string, at: string) => {
    expect(keepPractice(place(bench), 'tf', [drilled], at).ok).toBe(true);
    expect(keepSignoff(place(bench), 'S', note, 'ot', at).ok).toBe(true);
  };
  keep('bench-1', '2026-12-01T06:00:00.000Z');
  expect(existsSync(join(root, 'benches'))).toBe(false);
  takePart();
  keep('bench-2', '2026-12-01T08:00:00.000Z');
  keep('bench-1', '2026-12-01T07:00:00.000Z');
  const benches = (read: ReturnType<typeof readPractice> | ReturnType<typeof readSignoffs>) =>
    read.ok ? read.value.map(({ bench, at }) => `${bench} ${at.slice(11, 13)}`) : read.problems;
  const order = ['bench-1 06', 'bench-1 06', 'bench-1 07', 'bench-1 07', 'bench-2 08', 'bench-2 08'];
  expect(benches(readPractice(realDisk, root, 'tf'))).toEqual(order);
  expect(benches(readSignoffs(realDisk, root))).toEqual(order);
  expect(practised(realDisk, root)).toEqual(['tf']);
  expect(practiceJournals(realDisk, root, 'tf')).toHaveLength(3);
});
