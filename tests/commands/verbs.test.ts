/** What the verbs print and end with, as the README says: on a fresh workshop, in this process; a few by the built program. */
import { execFileSync, spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { realDisk } from '../../src/store/disk.js';
import { makeWorkshop } from '../../src/store/makeworkshop.js';
import { command, snapshot } from '../errors/museum.js';
import { MAIN } from '../tui/terminal.js';

const ROOT = join(import.meta.dirname, '../..');
const folder = mkdtempSync(join(tmpdir(), 'pinchrod-verbs-'));
const shop = join(folder, 'shop');
const made = makeWorkshop(realDisk, ROOT, shop);
if (!made.ok) throw new Error(JSON.stringify(made.problems));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const source = readFileSync(join(ROOT, 'src/cli.ts'), 'utf8');
const VERBS = [...source.matchAll(/load: \(\) => import\('\.\/commands\/(\w+)\.js'\)/g)].map(
  ([, verb]) => verb!,
);

describe.each(VERBS)('%s', (verb) => {
  it('ends with 0 and has an example that begins like a command line', () => {
    const {
      status,
      stdout: out,
      stderr,
    } = spawnSync(process.execPath, [MAIN, verb, '--help'], {
      encoding: 'utf8',
    });
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
    expect(out).toMatch(/Examples?:/);
    expect(out).toMatch(/^pinchrod /);
    for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(140);
  });

  it('an option that is not known ends with 2 and says how it is used', async () => {
    if (verb === 'feed' || verb === 'square') return;
    const { code, out, err } = await command(shop, [verb, '--no-such-option']);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toMatch(/\[[a-z]+\.[a-z-]+\]\n {2}\S/);
  });
});

it('has every verb in the help of the program', () => {
  expect(VERBS.length).toBeGreaterThan(15);
});

describe("the README's commands", () => {
  const readme = readFileSync(join(ROOT, 'README.md'), 'utf8');
  const block = /## Commands\n\n```text\n([\s\S]*?)```/.exec(readme)![1]!;
  const lines = block
    .split('\n')
    .filter((line) => line.startsWith('pinchrod'))
    .map((line) => line.split(/ {2,}/)[0]!);

  // On a workshop where nothing is begun, these say so; init asks at a terminal, and the drill is tried in its own tests.
  const ENDS: Record<string, number> = {
    init: 2,
    shop: 2,
    seal: 1,
    person: 2,
    archive: 2,
    revise: 1,
    trace: 1,
  };
  it.each(lines.filter((line) => !line.startsWith('pinchrod train')))('%s', async (line) => {
    const own = mkdtempSync(join(folder, 'own-'));
    cpSync(shop, own, { recursive: true });
    const [, verb = 'bench', ...args] = line.split(' ');
    const words = args.map((arg) =>
      arg === 'OLD' || arg === 'NEW'
        ? 'procedures/casement.yaml'
        : arg === 'DIR'
          ? join(own, '../another')
          : /\.(html|zip|svg|pdf)$/.test(arg)
            ? join(own, '..', arg)
            : arg,
    );
    const { code, err } = await command(own, [verb, ...words]);
    expect(code, err).toBe(ENDS[verb] ?? 0);
    if (code !== 0 && verb !== 'trace') expect(err).toMatch(/\[[a-z]+\.[a-z-]+\]\n {2}\S/);
    if (verb !== 'key' && verb !== 'new') expect(snapshot(own)).toEqual(snapshot(shop));
  });
});

it('board says where there is no workshop', async () => {
  const { code, err } = await command(join(folder, 'nowhere'), ['board']);
  expect(code).toBe(2);
  expect(err).toContain('[workshop.missing]');
});

it.each([
  ['board', '--json'],
  ['setout', 'pier-house', 'P02-1', '--json'],
  ['lint', '--json'],
  ['verify', '--json'],
  ['record', 'P02-1', '--format', 'json'],
  ['messages', '--json'],
  ['square', '--bl-tr', '1500', '--br-tl', '1501', '--nominal', '900x1200', '--json'],
  ['compare', 'procedures/casement.yaml', 'procedures/casement.yaml', '--json'],
])('%s %s %s %s: what is printed is JSON, and nothing beside it', async (...words) => {
  const { code, out, err } = await command(shop, words);
  expect({ code, err }).toEqual({ code: 0, err: '' });
  expect(() => JSON.parse(out)).not.toThrow();
});

describe('the built program without a terminal', () => {
  const run = (...args: string[]) =>
    spawnSync(process.execPath, [MAIN, '--workshop', shop, ...args], { input: '', encoding: 'utf8' });

  it('prints the board and one line, and ends with 0', () => {
    const { status, stdout, stderr } = run();
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
    expect(stdout).toContain('P01-1');
    expect(stdout.trimEnd().split('\n').at(-1)).toBe(
      'This is no terminal. To open the bench, run pinchrod in one.',
    );
    expect(stdout).not.toContain('\u001b');
  });

  it('ends with 2 on a word that is no verb, and says the way out', () => {
    const { status, stdout, stderr } = run('dance\u001b[2J');
    expect({ status, stdout }).toEqual({ status: 2, stdout: '' });
    expect(stderr).toContain('[main.usage]\n  Run pinchrod --help');
    expect(stderr).not.toContain('\u001b');
  });

  it('ends with 0 where the reader of its output leaves early', () => {
    const sh = process.platform === 'win32' ? undefined : '/bin/sh';
    if (sh === undefined) return;
    const told = execFileSync(sh, ['-c', `"${process.execPath}" "${MAIN}" messages | head -n 1`], {
      encoding: 'utf8',
    });
    expect(told.split('\n').length).toBe(2);
  });

  it('left no file behind in the workshop', () => {
    expect(readdirSync(shop).sort()).toEqual(['inbox', 'keys', 'logs', 'procedures', 'shared']);
  });
});
