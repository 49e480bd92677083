/**
 * A workshop as version 0.1.0 left it (tests/data/workshop-0.1.0.zip; its people, job and figures are invented): two units built to
 * their ends, one with rework and a pause, signed and sealed, with documents in every format and an archive.
 */
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { unzipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
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

it("a document made now of an old unit has every check as it was, and shows today's facts as today's", async () => {
  const { code, out } = await command(root, ['record', 'B02-1', '--annex', '--format', 'text']);
  expect(code).toBe(0);
  const checks = (text: string) =>
    text
      .slice(text.indexOf('EVERY CHECK, STAGE BY STAGE'))
      .split(/^LOTS USED|^REGISTERS|^For pinchrod/m)[0]!
      .trimEnd()
      .split('\n');
  const before = checks(readFileSync(join(root, 'documents/B02-1.txt'), 'utf8'));
  expect(before.length).toBeGreaterThan(1000);
  expect(checks(out)).toEqual(before);
  expect(out.replaceAll(/\s+/g, ' ')).toMatch(/as they are listed on 20[\d-]{8}, the day of printing/);
  expect(out).toContain('as listed');
  expect(out).toContain('not kept');
});

describe('when instruments, names and the maker are listed otherwise since', () => {
  const later = mkdtempSync(join(tmpdir(), 'pinchrod-later-'));
  const change = (file: string, ...changes: (readonly [string | RegExp, string])[]) => {
    const path = join(later, file);
    let text = readFileSync(path, 'utf8');
    for (const [was, is] of changes) {
      const next = text.replace(was, is);
      expect(next, String(was)).not.toBe(text);
      text = next;
    }
    writeFileSync(path, text);
  };
  beforeAll(() => {
    cpSync(root, later, { recursive: true });
    change(
      'shared/instruments.yaml',
      [
        /calibrated: 2026-01-12, due: 2028-01-12, certificate: C-26-011/,
        'calibrated: 2028-02-01, due: 2030-02-01, certificate: C-28-1',
      ],
      [/^ {2}- \{id: C1,.*\n/m, ''],
    );
    change(
      'shared/people.yaml',
      ['name: Joan Bexley', 'name: Joan Hartley-Bexley'],
      [/ {2}- id: mv\n(?: {4}.*\n)+/, ''],
    );
    change(
      'shared/workshop.yaml',
      ['4 Larkspur Yard', '9 Larkspur Yard'],
      [/maker: .*/, 'maker: Another (invented)'],
    );
  });
  afterAll(() => rmSync(later, { recursive: true, force: true }));
  const CHECKED = DOCUMENTS.filter((name) => !name.endsWith('.zip'));

  it.each(CHECKED)('%s is judged by the facts that it states, with a note', async (name) => {
    const { code, text } = await command(later, ['verify', join(later, name)]);
    expect({ code, text }).toMatchObject({
      code: 0,
      text: expect.stringContaining('[verify.document-told]'),
    });
  });

  it.each(CHECKED.filter((name) => !name.endsWith('.pdf')))(
    '%s with one verdict changed is found false',
    async (name) => {
      const file = join(later, `false-${name.split('/')[1]}`);
      const text = readFileSync(join(later, name), 'utf8');
      const changed = text.replace(/\bpass\b/, 'fail');
      expect(changed).not.toBe(text);
      writeFileSync(file, changed);
      const { code, text: said } = await command(later, ['verify', file]);
      expect({ code, said }).toMatchObject({
        code: 1,
        said: expect.stringContaining('[verify.document-differs]'),
      });
    },
  );
});

it('an old unit goes on: its next line names what it rests on, and its own facts are kept from there', async () => {
  const made = realPorts({ workshop: root, bench: 'bench-1' });
  if (!made.ok) throw new Error(made.problems[0]!.text);
  expect(made.value.open('B02-1')).toEqual({ kind: 'open' });
  const acted = made.value.act({ do: 'note', text: 'The customer telephoned.' }, { person: 'jb' });
  made.value.close();
  expect(acted).toMatchObject({
    kind: 'done',
    events: [
      {
        v: 2,
        basis: { instruments: expect.any(String), team: expect.any(String), rules: expect.any(String) },
      },
    ],
  });
  expect(await command(root, ['verify'])).toMatchObject({ code: 0 });
  for (const name of DOCUMENTS.filter((each) => !each.endsWith('.zip')))
    expect(await command(root, ['verify', join(root, name)]), name).toMatchObject({ code: 0 });
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
