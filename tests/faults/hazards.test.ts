/**
 * Named hazards put before whole processes: each ends soon with a problem that names the file, in less than 300 MB, and
 * changes nothing.
 */
import { spawnSync } from 'node:child_process';
import {
  cpSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  symlinkSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { zipSync } from 'fflate';
import { afterAll, describe, expect, it } from 'vitest';
import { freshWorkshop, MAIN, ROOT } from '../tui/terminal.js';

const MOST_MEMORY_KB = 300_000;
const base = mkdtempSync(join(tmpdir(), 'pinchrod-hazard-'));
afterAll(() => rmSync(base, { recursive: true, force: true }));
const fresh = freshWorkshop();
afterAll(() => fresh.remove());

const JOB = 'shared/jobs/hazard.yaml';
const job = readFileSync(join(ROOT, 'shared/jobs/pier-house.yaml'), 'utf8');
const named = (text: string): string => text.replace(/^name: .*$/m, 'name: hazard');
const mark = (text: string): string => named(job).replace('mark: P01', `mark: ${text}`);

/** What a file holds, by what is wrong with it; and the verb that meets it (`lint` where none is named). */
const TEXTS: Record<string, string | Buffer> = {
  'an alias that would grow without end': `a: &a [x]\nb: &b [*a, *a, *a, *a, *a, *a, *a, *a, *a]\nc: [*b, *b, *b, *b, *b, *b, *b, *b, *b]\n${named(job)}`,
  'a million brackets': '['.repeat(1_000_000),
  'a list in a list, 100,000 deep': `a: ${'['.repeat(100_000)}${']'.repeat(100_000)}`,
  'a map in a map, 5,000 deep': Array.from({ length: 1900 }, (_, i) => `${' '.repeat(i)}a:`).join('\n'),
  '200,000 flow maps without an end': `a: ${'{a: '.repeat(200_000)}`,
  'a number of 400 digits': named(job).replace(/width: \d+/, `width: ${'9'.repeat(400)}`),
  'a number beyond all numbers': named(job).replace(/width: \d+/, 'width: 1e999'),
  'NUL in it': `${named(job)}\u0000`,
  'a lone surrogate in its bytes': Buffer.concat([Buffer.from(named(job)), Buffer.from([0xed, 0xa0, 0x80])]),
  'a lone surrogate escaped': named(job).replace(/customer: .*/, 'customer: "\\ud83d"'),
  'UTF-16': Buffer.from(`\ufeff${named(job)}`, 'utf16le'),
  'an ESC sequence in a name': named(job).replace(/customer: .*/, 'customer: "a\\e[2Jb"'),
  'a bidi control in a name': named(job).replace(/customer: .*/, 'customer: "a\u202eb"'),
  'a mark that leads elsewhere': mark('"../../../etc/x"'),
  'a mark with a NUL': mark('"a\\0b"'),
  'a tag that would run code': `${named(job)}\nx: !!js/function "function () {}"`,
  'a key that is a prototype': `${named(job)}\n__proto__: {a: 1}`,
  '2.1 MB': `${named(job)}\n# ${'x'.repeat(2_100_000)}`,
  'a quote that never ends': `${named(job)}\nnote: "${'x '.repeat(500_000)}`,
};

describe('a job’s file with', () => {
  it.each(Object.keys(TEXTS))('%s', (what) => {
    const root = shop();
    put(root, JOB, TEXTS[what]!);
    refused(run(root, 'lint'), 2, /hazard\.yaml/);
  });

  it.each([
    ['a byte order mark', `\ufeff${named(job)}`],
    ['CRLF', named(job).replaceAll('\n', '\r\n')],
  ])('%s is read as it is meant', (_, text) => {
    const root = shop();
    put(root, JOB, text);
    const done = run(root, 'lint');
    expect(done.status, done.text).toBe(0);
  });

  it('100 MB, whatever the file', () => {
    for (const [file, verb, code, says] of [
      ['shared/jobs/hazard.yaml', ['lint'], 2, /hazard\.yaml/],
      ['shared/jobs/hazard.csv', ['lint'], 2, /hazard\.csv/],
      ['procedures/hazard.yaml', ['lint'], 2, /hazard\.yaml/],
      ['shared/profile-sets/hazard.yaml', ['lint'], 2, /hazard\.yaml/],
      ['shared/people.yaml', ['feed', 'P01-1'], 2, /people\.yaml/],
      ['shared/limits.yaml', ['feed', 'P01-1'], 2, /limits\.yaml/],
      ['logs/pier-house/P01-1.jsonl', ['verify'], 1, /P01-1\.jsonl/],
      ['logs/pier-house/P01-1.jsonl', ['feed', 'P01-1'], 1, /P01-1\.jsonl/],
      ['logs/setups.jsonl', ['verify'], 1, /setups\.jsonl/],
      ['logs/pier-house/job.seal.json', ['verify'], 1, /job\.seal\.json/],
      ['record.json', ['verify', 'record.json'], 2, /record\.json/],
      ['photo.jpg', ['feed', 'P01-1', '--person', 'jb'], 1, /100000000 bytes/],
    ] as const) {
      const root = shop();
      put(root, file, 'a');
      truncateSync(join(root, file), 100_000_000);
      const input =
        file === 'photo.jpg'
          ? JSON.stringify({ do: 'answer', check: 'x/y', value: 'yes', evidence: ['photo.jpg'] })
          : '';
      refused(run(root, ...verb, ...(input === '' ? [] : [{ input }])), code, says);
    }
  }, 120_000);
});

describe('names and links', () => {
  it('symbolic links out of the workshop are not followed', () => {
    const outside = join(base, 'outside.yaml');
    writeFileSync(outside, named(job));
    for (const [file, verb, code] of [
      ['shared/jobs/hazard.yaml', ['lint'], 2],
      ['procedures/hazard.yaml', ['lint'], 2],
      ['shared/people.yaml', ['feed', 'P01-1'], 2],
      ['logs/pier-house/P01-1.jsonl', ['verify'], 1],
      ['logs/pier-house/P01-1.jsonl', ['feed', 'P01-1'], 2],
      ['photo.jpg', ['feed', 'P01-1', '--person', 'jb'], 1],
    ] as const) {
      const root = shop();
      rmSync(join(root, file), { force: true });
      mkdirSync(dirname(join(root, file)), { recursive: true });
      symlinkSync(outside, join(root, file));
      const input =
        file === 'photo.jpg'
          ? JSON.stringify({ do: 'answer', check: 'x/y', value: 'yes', evidence: ['photo.jpg'] })
          : '';
      refused(
        run(root, ...verb, ...(input === '' ? [] : [{ input }])),
        code,
        /(hazard|people|P01-1|ordinary file)/,
      );
      expect(readFileSync(outside, 'utf8')).toBe(named(job));
    }
  }, 60_000);

  it('a unit, a job or a piece of evidence by a name that leads elsewhere', () => {
    const root = shop();
    for (const name of ['../../../etc/passwd', '..', '/etc/passwd', 'C:\\x', 'nul', 'a\u001b[2J']) {
      refused(run(root, 'feed', name), 2, /\S/);
      refused(run(root, 'record', name), 2, /\S/);
      refused(run(root, 'verify', 'pier-house', name), 2, /\S/);
    }
    const input = ['/dev/zero', '/dev/stdin', '/proc/self/environ', '.', '\0', '../'.repeat(50)]
      .map((name) => JSON.stringify({ do: 'answer', check: 'x/y', value: 'yes', evidence: [name] }))
      .join('\n');
    refused(run(root, 'feed', 'P01-1', '--person', 'jb', { input }), 1, /refused/);
  }, 60_000);
});

describe('a file handed in', () => {
  it('an archive with “..”, a bomb, one that is none, a document of nonsense', () => {
    const root = shop();
    const bomb = zipSync({ 'pier-house/logs/a': new Uint8Array(250_000_000) });
    for (const [name, bytes] of [
      ['up.zip', zipSync({ 'pier-house/../../up': new Uint8Array(1) })],
      ['bomb.zip', bomb],
      ['none.zip', new Uint8Array(100_000)],
      ['deep.json', Buffer.from(`${'{"a":'.repeat(200_000)}1`)],
      ['none.html', Buffer.from('<'.repeat(3_000_000))],
    ] as const) {
      put(root, name, Buffer.from(bytes));
      refused(run(root, 'verify', join(root, name)), 1, new RegExp(name));
    }
  }, 60_000);

  it('lines to feed that are none, too deep, or very long', () => {
    const root = shop();
    const input = [
      '{',
      '['.repeat(200_000),
      '{"do":"note","text":"\\ud800"}',
      '\u0000',
      JSON.stringify({ do: 'note', text: 'x'.repeat(2_000_000) }),
      '{"__proto__":{"do":"note"}}',
      '1e999',
      'null',
    ].join('\n');
    const done = run(root, 'feed', 'P01-1', '--person', 'jb', { input });
    refused(done, 2, /refused/);
    expect(done.text.split('\n').filter((line) => line.startsWith('{"ok":false')).length).toBe(8);
  });
});

interface Done {
  readonly status: number | null;
  readonly text: string;
  readonly kb: number;
}

/** A verb as a process of its own, in a workshop; what it printed, and the most memory it took. */
function run(root: string, ...words: readonly (string | { readonly input: string })[]): Done {
  const args = words.filter((word): word is string => typeof word === 'string');
  const input = words.find((word) => typeof word !== 'string')?.input ?? '';
  const told = join(base, 'memory');
  const { NODE_EXTRA_CA_CERTS: _certificates, ...env } = process.env;
  const done = spawnSync(process.execPath, [MAIN, '--workshop', root, ...args], {
    cwd: root,
    input,
    encoding: 'utf8',
    timeout: 30_000,
    env: {
      ...env,
      NODE_OPTIONS: `--import=${join(import.meta.dirname, 'memory.mjs')}`,
      TEST_MEMORY_FILE: told,
    },
  });
  return {
    status: done.status,
    text: `${done.stdout}${done.stderr}`,
    kb: Number(readFileSync(told, 'utf8')),
  };
}

function refused({ status, text, kb }: Done, code: number, says: RegExp): void {
  expect(status, text.slice(0, 2000)).toBe(code);
  expect(text.slice(0, 5000)).toMatch(says);
  expect(text).not.toMatch(/^\s+at .+:\d+:\d+\)?$/m);
  expect(text).not.toMatch(/unexpected|(Type|Range|Syntax|Reference)Error|heap/);
  expect(text.replaceAll('\n', '')).not.toMatch(/[\u0000-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/);
  expect(kb, text.slice(0, 500)).toBeLessThan(MOST_MEMORY_KB);
}

let shops = 0;
function shop(): string {
  const root = join(base, `shop-${shops++}`);
  cpSync(fresh.folder, root, { recursive: true });
  return root;
}

function put(root: string, file: string, content: string | Buffer): void {
  mkdirSync(dirname(join(root, file)), { recursive: true });
  writeFileSync(join(root, file), content);
}
