/**
 * A workshop as version 0.1.0 left it (tests/data/workshop-0.1.0.zip; its people, job and figures are invented): two units built to
 * their ends, one with rework and a pause, signed and sealed, with documents in every format and an archive.
 */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { unzipSync } from 'fflate';
import { afterAll, expect, it } from 'vitest';
import { realPorts } from '../../src/session/workshopports.js';
import { command } from '../errors/museum.js';

const root = mkdtempSync(join(tmpdir(), 'pinchrod-earlier-'));
const files = unzipSync(readFileSync(join(import.meta.dirname, '../data/workshop-0.1.0.zip')));
for (const [name, bytes] of Object.entries(files)) {
  if (name.endsWith('/')) continue;
  mkdirSync(dirname(join(root, name)), { recursive: true });
  writeFileSync(join(root, name), bytes);
}
afterAll(() => rmSync(root, { recursive: true, force: true }));
const DOCUMENTS = Object.keys(files).filter((name) => /^documents\/.+/.test(name));

it('verifies: journals, sources, evidence and seals', async () => {
  const { code, out } = await command(root, ['verify']);
  expect(out).toContain(
    '2 journals, 547 events, 6 sources, 1 evidence file, 3 seals: all whole and unaltered.',
  );
  expect(code).toBe(0);
});

it.each(DOCUMENTS)('%s verifies', async (name) => {
  const { code, text } = await command(root, ['verify', join(root, name)]);
  expect({ code, text }).toMatchObject({ code: 0, text: expect.not.stringContaining('does not hold') });
});

it('has the documents of every format', () => {
  expect(DOCUMENTS.length).toBe(12);
});

it('a document made now of an old unit says what the old one says, but for when it was printed', async () => {
  const { code, out } = await command(root, ['record', 'B02-1', '--format', 'text']);
  expect(code).toBe(0);
  // The proof at the end holds the moment of printing, too.
  const lines = (text: string) =>
    text
      .replace(/For pinchrod verify \([^)]*\)/, '')
      .trimEnd()
      .split('\n')
      .filter((line) => !/^ +printed /.test(line));
  const before = lines(readFileSync(join(root, 'documents/B02-1.txt'), 'utf8'));
  expect(before.length).toBeGreaterThan(1000);
  expect(lines(out)).toEqual(before);
});

it('its units are shown at the bench as they were left', () => {
  const made = realPorts({ workshop: root, bench: 'bench-1' });
  if (!made.ok) throw new Error(made.problems[0]!.text);
  for (const unit of ['B01-1', 'B02-1']) {
    expect(made.value.open(unit)).toEqual({ kind: 'open' });
    expect(made.value.world().open?.state.finished).toBe(true);
  }
  made.value.close();
});
