/**
 * Every message by a case that gives it, run through the verbs themselves. `MUSEUM_UPDATE=1` writes what a case gives into
 * its case.yaml and the table anew: read the difference before it is kept.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { dump } from 'js-yaml';
import { afterAll, beforeEach, describe, expect, it, vi } from 'vitest';
import { allMessages } from '../../src/commands/messages.js';
import { ELSEWHERE } from './elsewhere.js';
import { type Case, extract, ids, MUSEUM, type Outcome, readCase, runCase } from './museum.js';
import { tableText } from './table.js';

const UPDATE = process.env.MUSEUM_UPDATE === '1';
const catalogue = new Map(allMessages());

// The demonstration's dates of calibration and of sign-off are of this time.
const NOW = Date.parse('2026-11-24T08:00:00Z');
beforeEach(() => {
  vi.useFakeTimers({ toFake: ['Date'], now: NOW });
});
afterAll(() => {
  vi.useRealTimers();
});
const pass = (minutes: number): void => {
  vi.setSystemTime(Date.now() + minutes * 60_000);
};

describe.each(ids())('%s', (id) => {
  it('is given by its case, with its exit code and a way out', async () => {
    const each = readCase(id);
    const outcome = await runCase(id, each, pass);
    if (UPDATE) update(id, each, outcome);
    const { exit, says } = readCase(id);
    expect(catalogue.has(id), `${id} is in no catalogue`).toBe(true);
    expect(outcome.text).toContain(says);
    expect(says).toContain(id);
    expect(outcome.code, outcome.text).toBe(exit);
    clean(outcome.text);
    expect(outcome.changed, 'files of the workshop that the run changed').toEqual([]);
  });
});

it('every message has a case, or a test named that covers it, with the reason', () => {
  const shown = new Set([...ids(), ...Object.keys(ELSEWHERE)]);
  expect([...catalogue.keys()].filter((id) => !shown.has(id))).toEqual([]);
  expect(Object.keys(ELSEWHERE).filter((id) => ids().includes(id))).toEqual([]);
  expect(Object.keys(ELSEWHERE).filter((id) => !catalogue.has(id))).toEqual([]);
  for (const [id, { test }] of Object.entries(ELSEWHERE))
    expect(readFileSync(join(MUSEUM, '../..', test), 'utf8'), `${test} says nothing of ${id}`).toContain(id);
});

it('TABLE.md is current', () => {
  const text = tableText();
  if (UPDATE) writeFileSync(join(MUSEUM, 'TABLE.md'), text);
  expect(readFileSync(join(MUSEUM, 'TABLE.md'), 'utf8')).toBe(text);
});

/** No control character reaches a terminal, and nobody is shown where in the code it went wrong. */
function clean(text: string): void {
  expect(text.replaceAll('\n', '')).not.toMatch(
    /[\u0000-\u001f\u007f-\u009f\u200e\u200f\u202a-\u202e\u2066-\u2069]/,
  );
  expect(text).not.toMatch(/^\s+at .+:\d+:\d+\)?$/m);
  expect(text).not.toMatch(/\[object Object\]|undefined|\bNaN\b|(Type|Range|Reference|Syntax)Error/);
}

function update(id: string, each: Case, outcome: Outcome): void {
  const says = extract(id, outcome.text);
  if (says === undefined)
    throw new Error(`no ${id} in (exit ${outcome.code}):\n${outcome.text.slice(0, 1500)}`);
  writeFileSync(
    join(MUSEUM, id, 'case.yaml'),
    dump({ ...each, exit: outcome.code, says }, { lineWidth: 120, noRefs: true }),
  );
}
