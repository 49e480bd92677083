/** The record and label commands on the demonstration workshop's own files, in a folder of their own. */
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { run as label } from '../../src/commands/label.js';
import { run as record } from '../../src/commands/record.js';

const ROOT = resolve(import.meta.dirname, '../..');
let folder: string;
let workshop: string;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'pinchrod-record-'));
  workshop = join(folder, 'workshop');
  for (const part of ['procedures', 'shared'])
    cpSync(join(ROOT, part), join(workshop, part), { recursive: true });
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function call(command: typeof record, ...args: string[]) {
  const out: string[] = [];
  const err: string[] = [];
  const code = await command(args, { out: (s) => out.push(s), err: (s) => err.push(s), workshop });
  return { code, out: out.join('\n'), err: err.join('\n') };
}

describe('record', () => {
  it('says of a unit that is not begun that it is not', async () => {
    const { code, out } = await call(record, 'P02-1');
    expect(code).toBe(0);
    expect(out).toMatch(/\*\*\* NOT FINISHED: not begun, 0 of \d+ steps done \*\*\*/);
    expect(out).toContain('1000 x 700 mm');
  });

  it('takes JOB/UNIT and what a scanned label says, and notices a wrong sign in it', async () => {
    const code = JSON.parse((await call(label, 'P02-1', '--json')).out)[0].code as string;
    expect((await call(record, code)).out).toContain('P02-1');
    expect((await call(record, 'pier-house/P02-1')).code).toBe(0);
    const wrong = await call(record, code.replace('P02', 'P03'));
    expect(wrong.code).toBe(2);
    expect(wrong.err).toContain('[record.wrong-check]');
  });

  it('writes a whole job in the format of the ending', async () => {
    const file = join(folder, 'out', 'job.html');
    mkdirSync(join(folder, 'out'), { recursive: true });
    const { code, out } = await call(record, 'pier-house', '--out', file);
    expect(code).toBe(0);
    expect(out).toContain('job.html: NOT FINISHED: 0 of');
    expect(readFileSync(file, 'utf8')).toMatch(/^<!DOCTYPE html>[\s\S]*Units not begun: P01-1, P02-1, P02-2/);
  });

  it('does not depend on the set-ups of today', async () => {
    const file = join(workshop, 'shared/setups.yaml');
    const before = readFileSync(file);
    writeFileSync(file, 'format: nonsense\n');
    expect((await call(record, 'P02-1')).code).toBe(0);
    expect((await call(label, 'P02-1')).code).toBe(2);
    writeFileSync(file, before);
  });

  it('refuses, each with a way out', async () => {
    const cases: [string[], number, string][] = [
      [['nobody'], 2, 'record.unknown-unit'],
      [['P02-1', '--format', 'docx'], 2, 'record.option'],
      [['P02-1', '--format', 'pdf'], 2, 'record.needs-out'],
      [['--since', 'yesterday'], 2, 'record.option'],
      [[], 2, 'record.option'],
      [['P02-1', '--nonsense'], 2, 'command.usage'],
      [
        ['P02-1', '--format', 'text', '--out', join(workshop, 'shared', 'limits.yaml')],
        2,
        'record.out-place',
      ],
    ];
    const limits = readFileSync(join(workshop, 'shared', 'limits.yaml'), 'utf8');
    for (const [args, code, id] of cases) {
      const said = await call(record, ...args);
      expect([said.code, said.out], args.join(' ')).toEqual([code, '']);
      expect(said.err).toContain(`[${id}]`);
      expect(said.err.split('\n').length).toBeGreaterThan(1);
    }
    expect(readFileSync(join(workshop, 'shared', 'limits.yaml'), 'utf8')).toBe(limits);
    expect(existsSync(join(workshop, 'logs'))).toBe(false);
  });

  it('prints the sheet of particulars, and its schema', async () => {
    expect((await call(record, 'P02-1', '--declaration')).out).toContain('does not decide conformity');
    expect(JSON.parse((await call(record, '--schema')).out)).toHaveProperty('record.properties.verdict');
  });

  it('finds nothing in a period without work, and says so', async () => {
    const { code, out } = await call(record, '--since', '2020-01-01', '--until', '2020-12-31');
    expect(code).toBe(0);
    expect(out).toContain('No unit answers to what was asked for');
  });
});

it('a file whose ending names no format is refused, not filled with another', async () => {
  for (const verb of [record, label]) {
    const refused = await call(verb, 'P02-1', '--out', join(folder, 'x.docx'));
    expect(refused).toMatchObject({ code: 2, err: expect.stringContaining('".docx" at the end of --out') });
    expect(existsSync(join(folder, 'x.docx'))).toBe(false);
  }
  expect((await call(label, 'P02-1', '--out', join(folder, 'X.PDF'))).code).toBe(0);
  expect(readFileSync(join(folder, 'X.PDF'), 'latin1')).toMatch(/^%PDF/);
  expect((await call(label, 'P02-1', '--out', join(folder, 'x'))).code).toBe(0);
  expect(readFileSync(join(folder, 'x'), 'utf8')).toMatch(/^<svg/);
});

describe('label', () => {
  it('writes a sheet of a whole job as PDF, and one unit as SVG on standard output', async () => {
    const file = join(folder, 'labels.pdf');
    expect((await call(label, 'pier-house', '--stock', 'a4-8', '--out', file)).code).toBe(0);
    expect(readFileSync(file).subarray(0, 5).toString()).toBe('%PDF-');
    expect((await call(label, 'P02-1')).out).toMatch(/^<svg/);
  });

  it('writes one PNG a part label', async () => {
    const file = join(folder, 'part.png');
    const { code, out } = await call(label, 'P01-1', '--parts', '--dpi', '203', '--out', file);
    expect(code).toBe(0);
    expect(out.split('\n').length).toBeGreaterThan(4);
    expect(existsSync(join(folder, 'part-1.png'))).toBe(true);
  });

  it('refuses an unknown stock, format, place or resolution', async () => {
    for (const args of [
      ['--stock', 'x'],
      ['--format', 'gif'],
      ['--skip', '99'],
      ['--dpi', '7'],
    ]) {
      const said = await call(label, 'P02-1', ...args);
      expect(said.code).toBe(2);
      expect(said.err).toContain('[record.option]');
    }
    expect((await call(label)).code).toBe(2);
  });
});
