/**
 * Real disks that refuse: a small full one (the workshop's files and 300 kB), a read-only one. Passed over where they cannot be made. lowdb's stock adapter
 * fails both: what it refused stays in its memory, and is written, though refused, with what comes next.
 */
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it, type TestContext } from 'vitest';
import { realDisk } from '../../src/store/disk.js';
import { freshWorkshop, MAIN } from '../tui/terminal.js';

const folder = mkdtempSync(join(tmpdir(), 'pinchrod-disk-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const inNamespace = spawnSync('unshare', ['-Urm', 'true']).status === 0;

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

describe('a small file system that fills up', () => {
  it('refuses with a problem, loses nothing acknowledged, and goes on when there is room', (context) => {
    unless(context, inNamespace, 'no mount namespace can be made here (unshare -Urm)');
    const { folder: shop, remove } = freshWorkshop();
    const at = join(folder, 'full');
    mkdirSync(at);
    writeFileSync(join(folder, 'notes'), NOTES(900));
    const feed = `"${process.execPath}" "${MAIN}" --workshop "${at}" feed P01-1 --person jb`;
    try {
      const { stdout, stderr } = apart(`
set -e
mount -t tmpfs -o size=$(( $(du -sk "${shop}" | cut -f1) + 300 ))k tmpfs "${at}"
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
      // What was refused is not there, in this process or the next.
      const texts = readFileSync(join(folder, 'journal'), 'utf8');
      const notes = NOTES(900).split('\n');
      for (const [i, { ok }] of answers.entries())
        if (!ok) expect(texts).not.toContain((JSON.parse(notes[i]!) as { text: string }).text.slice(0, 12));
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

/** Each answer of a conversation with lowdb's adapter, and the numbers of the events that are in its file in the end. */
function stockSays(answers: string, file: string): { refused: number[]; kept: number[] } {
  const replies = readFileSync(answers, 'utf8').trim().split('\n');
  return {
    refused: replies
      .map((line) => JSON.parse(line) as { ok: boolean; n: number })
      .filter(({ ok }) => !ok)
      .map(({ n }) => n),
    kept: (JSON.parse(readFileSync(file, 'utf8')) as { n: number }[]).map(({ n }) => n),
  };
}

it('lowdb’s own adapter keeps what it refused on a full file system, and on a read-only one', (context) => {
  unless(context, inNamespace, 'no mount namespace can be made here (unshare -Urm)');
  const at = join(folder, 'stock');
  mkdirSync(at);
  writeFileSync(join(folder, 'notes'), NOTES(40));
  const program = `"${process.execPath}" "${join(import.meta.dirname, 'stock.mjs')}" "${at}"`;
  for (const [refuse, allow] of [
    [`head -c 10000000 /dev/zero > "${at}/filler" 2>/dev/null`, `rm "${at}/filler"`],
    [`mount -o remount,ro "${at}"`, `mount -o remount,rw "${at}"`],
  ]) {
    const { stderr } = apart(`
mount -t tmpfs -o size=200k tmpfs "${at}" || exit 1
mkfifo "${folder}/pipe"
# Emptied here: the program does so only once the pipe has a writer, and answers about the other disk would be counted.
: > "${folder}/answers"
${program} < "${folder}/pipe" > "${folder}/answers" &
exec 3> "${folder}/pipe"
wait_for() { until [ "$(wc -l < "${folder}/answers")" -ge "$1" ]; do sleep 0.02; done; }
echo '{"note":1}' >&3; wait_for 1
${refuse}
head -n 1 "${folder}/notes" >&3; wait_for 2
${allow}
echo '{"note":3}' >&3; wait_for 3
exec 3>&-
wait
cp "${at}/db.json" "${folder}/db.json"
rm "${folder}/pipe"
`);
    const { refused, kept } = stockSays(join(folder, 'answers'), join(folder, 'db.json'));
    expect(refused, stderr).toEqual([2]);
    expect(kept).toContain(2);
  }
}, 60_000);

describe('a read-only file system', () => {
  it('may be looked at; an answer is refused with a problem and exit code 3', (context) => {
    unless(context, inNamespace, 'no mount namespace can be made here (unshare -Urm)');
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
