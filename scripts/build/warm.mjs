import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';

/** Commands that a script or a hurried person runs all day. The second time of some is another way through the program. */
const QUICK = [
  ['lint'],
  ['lint'],
  ['setout', 'pier-house'],
  ['setout', 'pier-house'],
  ['verify'],
  ['square', '--bl-tr', '1500', '--br-tl', '1501', '--nominal', '900x1200'],
  ['trace', '--person', 'ot'],
  ['board'],
  ['board'],
];

/**
 * The parts that the usual short commands run, except what the first time of a command needs that is answered again from
 * then on.
 */
export function quickParts(root, outdir) {
  return inWorkshop(root, (folder) => {
    const file = join(folder, 'parts');
    const runs = QUICK.map((args, i) => ({
      args,
      again: QUICK.findIndex((each) => `${each}` === `${args}`) < i,
    }));
    for (const { args, again } of runs) {
      const once = !again && runs.some((each) => each.again && `${each.args}` === `${args}`);
      run(outdir, folder, args, once ? {} : { PINCHROD_KEEP_PARTS: file });
    }
    return new Set(readFileSync(file, 'utf8').split('\n'));
  });
}

/**
 * Runs usual commands once, so that the code they use is kept in dist/code. A later run of a verb adds to what an earlier
 * one kept.
 */
export function warm(root, outdir) {
  return inWorkshop(root, async (folder) => {
    const longer = [
      ['setout', 'pier-house', '--json'],
      ['record', 'P02-1', '--format', 'html', '--out', join(folder, 'r.html')],
      ['record', 'P02-1', '--format', 'text'],
      ['feed', 'P02-1'],
    ];
    for (const args of [...QUICK, ...longer]) run(outdir, folder, args, { PINCHROD_KEEP_CODE: '1' });
    withBuiltUnit(outdir, (shop) => {
      for (const format of ['text', 'json', 'csv', 'html', 'pdf'])
        run(outdir, shop, ['record', 'P02-1', '--format', format, '--out', join(folder, 'r2')], {
          PINCHROD_KEEP_CODE: '1',
        });
    });
    await openOnce(folder, join(outdir, 'main.js'));
  });
}

/** With a workshop in which the unattended demonstration has built a unit to its end. */
function withBuiltUnit(outdir, work) {
  const { stdout } = run(outdir, outdir, ['demo', '--unattended', 'P02-1'], {}, 'pipe');
  const [, shop] = /^Workshop: (.+)$/m.exec(stdout?.toString() ?? '') ?? [];
  if (shop === undefined) return;
  try {
    work(shop);
  } finally {
    rmSync(dirname(shop), { recursive: true, force: true });
  }
}

function run(outdir, cwd, args, env, out = 'ignore') {
  return spawnSync(process.execPath, [join(outdir, 'main.js'), ...args], {
    cwd,
    stdio: ['ignore', out, 'ignore'],
    env: { ...process.env, ...env },
  });
}

/** In a copy of the demonstration workshop, removed afterwards. */
async function inWorkshop(root, work) {
  const folder = mkdtempSync(join(tmpdir(), 'pinchrod-build-'));
  try {
    for (const part of ['procedures', 'shared', 'logs'])
      cpSync(join(root, part), join(folder, part), {
        recursive: true,
        filter: (path) => part !== 'logs' || path.endsWith('logs') || path.endsWith('README.md'),
      });
    return await work(folder);
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
