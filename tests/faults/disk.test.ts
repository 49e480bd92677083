/** Real disks that refuse: a small full one, a read-only one; the process killed at chosen system calls. Passed over where they cannot be made. */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it, type TestContext } from 'vitest';
import { realDisk } from '../../src/store/disk.js';
import { verifyTree } from '../../src/store/verify.js';
import { freshWorkshop, MAIN } from '../bench/terminal.js';

const folder = mkdtempSync(join(tmpdir(), 'pinchrod-disk-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const has = (name: string): boolean => spawnSync(name, ['--version']).error === undefined;
const inNamespace = spawnSync('unshare', ['-Urm', 'true']).status === 0;
const isBuilt = existsSync(MAIN);

function unless(context: TestContext, can: boolean, why: string): void {
  if (can) return;
  console.warn(`passed over: ${why}`);
  context.skip(why);
}

/** Runs a shell script in a mount namespace of its own; what it mounts is gone with it. */
const apart = (script: string) =>
  spawnSync('unshare', ['-Urm', '/bin/sh', '-c', script], { encoding: 'utf8' });

const NOTES = (count: number): string =>
  Array.from({ length: count }, (_, i) =>
    JSON.stringify({ do: 'note', text: `${i} ${'x'.repeat(1500)}` }),
  ).join('\n');

describe('a file system of 1 MB that fills up', () => {
  it('refuses with a problem, loses nothing acknowledged, and goes on when there is room', (context) => {
    unless(
      context,
      isBuilt && inNamespace,
      'no build, or no mount namespace can be made here (unshare -Urm)',
    );
    const { folder: shop, remove } = freshWorkshop();
    const at = join(folder, 'full');
    mkdirSync(at);
    writeFileSync(join(folder, 'notes'), NOTES(900));
    const feed = `"${process.execPath}" "${MAIN}" --workshop "${at}" feed P01-1 --person jb`;
    try {
      const { stdout, stderr } = apart(`
set -e
mount -t tmpfs -o size=1m tmpfs "${at}"
cp -r "${shop}/." "${at}/"
set +e
${feed} < "${folder}/notes" > "${folder}/answers"; echo "feed $?"
"${process.execPath}" "${MAIN}" --workshop "${at}" verify > "${folder}/verified"; echo "verify $?"
rm -r "${at}/shared/profile-sets/k70.yaml"
echo '{"do":"note","text":"room again"}' | ${feed} | tail -n 1 > "${folder}/again"; echo "again"
cp "${at}/logs/pier-house/P01-1.jsonl" "${folder}/journal"
`);
      expect(stderr).not.toMatch(/^\s+at /m);
      expect(stdout, stderr).toContain('feed 3');
      expect(stdout).toContain('verify 0');
      const answers = readFileSync(join(folder, 'answers'), 'utf8')
        .trim()
        .split('\n')
        .map((line) => JSON.parse(line));
      const refused = answers.filter(({ ok }) => !ok);
      expect(refused.length).toBeGreaterThan(0);
      expect(refused[0].refused).toMatchObject({ id: 'disk.full', todo: expect.stringMatching(/\S/) });
      const lines = new Set(
        readFileSync(join(folder, 'journal'), 'utf8')
          .trim()
          .split('\n')
          .map((line) => JSON.parse(line).hash),
      );
      for (const { hash } of answers.flatMap(({ events = [] }) => events)) expect(lines.has(hash)).toBe(true);
      expect(JSON.parse(readFileSync(join(folder, 'again'), 'utf8'))).toMatchObject({ ok: true });
    } finally {
      remove();
    }
  }, 120_000);
});

describe('a read-only file system', () => {
  it('may be looked at; an answer is refused with a problem and exit code 3', (context) => {
    unless(
      context,
      isBuilt && inNamespace,
      'no build, or no mount namespace can be made here (unshare -Urm)',
    );
    const { folder: shop, remove } = freshWorkshop();
    try {
      const { stdout, stderr } = apart(`
mount --bind "${shop}" "${shop}" && mount -o remount,bind,ro "${shop}" || echo cannot
"${process.execPath}" "${MAIN}" --workshop "${shop}" board; echo "board $?"
echo '{"do":"note","text":"x"}' | "${process.execPath}" "${MAIN}" --workshop "${shop}" feed P01-1 --person jb; echo "feed $?"
`);
      unless(context, !stdout.includes('cannot'), 'a folder cannot be mounted read-only here');
      expect(stdout).toContain('board 0');
      expect(`${stdout}${stderr}`).toContain('disk.read-only');
      expect(stdout).toContain('feed 3');
      expect(`${stdout}${stderr}`).not.toMatch(/^\s+at /m);
      expect(realDisk.stat(join(shop, 'logs', 'pier-house'))).toBeUndefined();
    } finally {
      remove();
    }
  }, 60_000);
});

describe('killed at a system call', () => {
  it('at each of the first writes, flushes and renames: the journal is as before or as after', (context) => {
    unless(context, isBuilt && has('strace'), 'no build, or strace is not installed');
    let killed = 0;
    for (const call of ['fsync', 'rename', 'openat'])
      for (let nth = 1; nth <= 3; nth++) {
        const { folder: shop, remove } = freshWorkshop();
        try {
          const argv = [MAIN, '--workshop', shop, 'feed', 'P01-1', '--person', 'jb'];
          const options = [
            '-f',
            '-qq',
            '-o',
            '/dev/null',
            '-e',
            `inject=${call}:signal=KILL:when=${nth}`,
            '-P',
            join(shop, 'logs'),
          ];
          const { stdout, signal, status } = spawnSync('strace', [...options, process.execPath, ...argv], {
            input: `${NOTES(3)}\n`,
            encoding: 'utf8',
          });
          if (signal === 'SIGKILL' || status === 137) killed += 1;
          const { faults } = verifyTree(realDisk, shop);
          expect(
            faults.filter(({ id }) => !/torn-end|no-line-end|stray/.test(id)),
            `${call} ${nth}`,
          ).toEqual([]);
          const told = stdout.split('\n').filter((line) => line.includes('"hash"')).length;
          const file = join(shop, 'logs', 'pier-house', 'P01-1.jsonl');
          const lines = existsSync(file) ? readFileSync(file, 'utf8').split('\n').length - 1 : 0;
          expect(lines, `${call} ${nth}`).toBeGreaterThanOrEqual(told);
        } finally {
          remove();
        }
      }
    console.log(`killed ${killed} times at a system call`);
    expect(killed).toBeGreaterThan(2);
  }, 120_000);
});
