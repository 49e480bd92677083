/** The package as it is given away: only what runs, and a global install of it works in an empty folder, without a network. */
import { execFileSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';

const ROOT = join(import.meta.dirname, '..');
const folder = mkdtempSync(join(tmpdir(), 'pinchrod-pack-'));
const empty = join(folder, 'empty');
const prefix = join(folder, 'prefix');
const NPM = process.platform === 'win32' ? 'npm.cmd' : 'npm';
const ENV = {
  ...process.env,
  npm_config_update_notifier: 'false',
  npm_config_fund: 'false',
  npm_config_audit: 'false',
};
let files: string[] = [];

beforeAll(() => {
  // A copy, so that nobody's new build changes it while it is packed; scripts are left out, for dist is built already.
  const copy = join(folder, 'copy');
  for (const name of ['dist', 'procedures', 'shared', 'logs', 'package.json', 'README.md', 'LICENSE'])
    cpSync(join(ROOT, name), join(copy, name), { recursive: true });
  const told = execFileSync(NPM, ['pack', '--json', '--ignore-scripts', '--pack-destination', folder], {
    cwd: copy,
    env: ENV,
  });
  const [pack] = JSON.parse(told.toString()) as [{ filename: string; files: { path: string }[] }];
  files = pack.files.map(({ path }) => path);
  for (const each of [empty, prefix]) mkdirSync(each);
  execFileSync(
    NPM,
    ['install', '--global', '--prefix', prefix, '--offline', '--ignore-scripts', join(folder, pack.filename)],
    {
      cwd: empty,
      env: ENV,
      stdio: 'pipe',
    },
  );
}, 120_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const pinchrod = (...args: string[]): string => {
  const bin = process.platform === 'win32' ? join(prefix, 'pinchrod.cmd') : join(prefix, 'bin', 'pinchrod');
  return execFileSync(bin, args, {
    cwd: empty,
    env: ENV,
    input: '',
    shell: process.platform === 'win32',
  }).toString();
};

it('holds only what runs, and what a workshop begins with', () => {
  const strange = files.filter(
    (file) =>
      !/^(dist\/|procedures\/[\w.-]+\.(yaml|md)$|shared\/|logs\/(README|shop)\.md$|README\.md$|LICENSE$|package\.json$)/.test(
        file,
      ),
  );
  expect(strange).toEqual([]);
  expect(files).toEqual(
    expect.arrayContaining(['dist/main.js', 'dist/LICENCES.txt', 'LICENSE', 'procedures/casement.yaml']),
  );
  expect(files.filter((file) => /\.(ts|tsx|map|jsonl|lock|pem)$/.test(file))).toEqual([]);
  const { dependencies } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8')) as {
    dependencies?: object;
  };
  expect(dependencies).toBeUndefined();
});

it('installs into an empty folder and works there', () => {
  expect(pinchrod('--version')).toMatch(/^pinchrod \d/);
  expect(pinchrod('init', 'shop', '--demonstration')).toContain('shop is a workshop now');
  expect(pinchrod('--workshop', 'shop', 'board')).toContain('P07-1');
  expect(pinchrod('--workshop', 'shop', 'lint')).toContain('Nothing is wrong.');
  expect(
    pinchrod('--workshop', 'shop', 'record', 'P02-1', '--format', 'html', '--out', 'r.html'),
  ).toBeDefined();
  expect(readFileSync(join(empty, 'r.html'), 'utf8')).toContain('P02-1');
  expect(pinchrod('--workshop', 'shop')).toContain('This is no terminal.');
  writeFileSync(join(empty, 'x'), '');
  expect(readdirSync(empty).sort()).toEqual(['r.html', 'shop', 'x']);
});
