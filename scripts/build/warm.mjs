import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/**
 * Runs usual commands once, so that the code they use is kept in dist/code. The second run of a verb adds to what the
 * first one kept.
 */
export async function warm(root, outdir) {
  const folder = mkdtempSync(join(tmpdir(), 'pinchrod-build-'));
  const main = join(outdir, 'main.js');
  try {
    for (const part of ['procedures', 'shared'])
      cpSync(join(root, part), join(folder, part), { recursive: true });
    const runs = [
      ['lint'],
      ['setout', 'pier-house'],
      ['setout', 'pier-house', '--json'],
      ['record', 'P02-1', '--format', 'html', '--out', join(folder, 'r.html')],
      ['record', 'P02-1', '--format', 'text'],
      ['verify'],
      ['feed', 'P02-1'],
      ['square', '--bl-tr', '1500', '--br-tl', '1501', '--nominal', '900x1200'],
      ['board'],
      ['trace', '--person', 'ot'],
    ];
    for (const args of runs)
      spawnSync(process.execPath, [main, ...args], {
        cwd: folder,
        stdio: 'ignore',
        env: { ...process.env, PINCHROD_KEEP_CODE: '1' },
      });
    await openOnce(folder, main);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** The bench itself, in a terminal of its own: its first frame, a unit opened, and left again. */
async function openOnce(folder, main) {
  const pty = await import('@lydell/node-pty').catch(() => undefined);
  if (!pty) return;
  const env = { ...process.env, TERM: 'xterm-256color', PINCHROD_KEEP_CODE: '1' };
  delete env.CI;
  let child;
  try {
    child = pty.spawn(process.execPath, [main], { cwd: folder, cols: 100, rows: 30, env });
  } catch {
    return;
  }
  const ended = new Promise((done) => child.onExit(done));
  let seen = '';
  const keys = ['P02-1\r', '\u000f', '\u0018', '\u0018'];
  child.onData((data) => {
    seen += data;
  });
  const until = Date.now() + 20_000;
  while (!seen.includes('P07-1') && Date.now() < until) await pause(50);
  for (const key of keys) {
    child.write(key);
    await pause(300);
  }
  await Promise.race([ended, pause(3000)]);
  try {
    child.kill('SIGKILL');
  } catch {}
}

function pause(ms) {
  return new Promise((done) => setTimeout(done, ms));
}
