/**
 * How long a key takes to its effect on the screen, measured in a real pseudo-terminal: from the write of one character to
 * the arrival of the frame that shows it. Run by itself it prints one line; scripts import `keyLatency`.
 *
 *   node tests/bench/keylatency.mjs [COLUMNSxROWS] [KEYS] [-- COMMAND ARGS...]
 */
import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { spawn } from '@lydell/node-pty';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');

/**
 * @param {{command?: string[], columns?: number, rows?: number, keys?: number, prepare?: string[], frame?: RegExp}} options
 * `prepare` is sent key by key first (each after the screen was still), `frame` tells the end of a frame.
 * @returns {Promise<{p50: number, p99: number, worst: number, keys: number}>} milliseconds
 */
export async function keyLatency(options = {}) {
  const { columns = 100, rows = 30, keys = 200, prepare = ['P02-1\r'] } = options;
  const folder = options.command ? undefined : workshop();
  const command = options.command ?? [process.execPath, join(root, 'dist', 'main.js')];
  const env = { ...process.env, TERM: 'xterm-256color', LANG: 'C.UTF-8' };
  for (const name of ['CI', 'NODE_EXTRA_CA_CERTS', 'NODE_ENV']) delete env[name];
  const child = spawn(command[0], command.slice(1), {
    cols: columns,
    rows,
    cwd: folder ?? process.cwd(),
    env,
  });
  let last = performance.now();
  let arrived;
  child.onData(() => {
    last = performance.now();
    arrived?.();
  });
  const still = async (ms) => {
    do await pause(20);
    while (performance.now() - last < ms);
  };
  const first = new Promise((done) => {
    arrived = done;
  });
  await first;
  await still(500);
  for (const text of prepare) {
    child.write(text);
    await pause(30);
    await still(250);
  }
  const times = [];
  for (let index = 0; index < keys + 20; index += 1) {
    // Twenty characters, then as many backspaces: the line never grows long.
    const key = index % 40 < 20 ? String(index % 10) : '\x7f';
    const from = performance.now();
    const frame = new Promise((done) => {
      arrived = done;
    });
    child.write(key);
    await frame;
    // The first keys warm the program up.
    if (index >= 20) times.push(last - from);
    await pause(15 + (index % 7));
  }
  child.kill('SIGKILL');
  if (folder) rmSync(folder, { recursive: true, force: true });
  times.sort((a, b) => a - b);
  const at = (part) => times[Math.min(times.length - 1, Math.floor(times.length * part))];
  return { p50: at(0.5), p99: at(0.99), worst: times.at(-1), keys: times.length };
}

/**
 * The longest time for which the screen says nothing while thousands of keys come at once, until a word typed after them
 * stands on it.
 * @returns {Promise<{silent: number, took: number, keys: number}>} milliseconds
 */
export async function floodSilence({ columns = 80, rows = 24, keys = 10_000 } = {}) {
  const folder = workshop();
  const env = { ...process.env, TERM: 'xterm-256color', LANG: 'C.UTF-8' };
  for (const name of ['CI', 'NODE_EXTRA_CA_CERTS', 'NODE_ENV']) delete env[name];
  const child = spawn(process.execPath, [join(root, 'dist', 'main.js')], {
    cols: columns,
    rows,
    cwd: folder,
    env,
  });
  let seen = '';
  let last = performance.now();
  let silent = 0;
  let flooding = false;
  let look = () => {};
  child.onData((data) => {
    seen = (seen + data).slice(-100_000);
    const now = performance.now();
    if (flooding) silent = Math.max(silent, now - last);
    last = now;
    look();
  });
  const until = (text) =>
    new Promise((done) => {
      look = () => {
        if (seen.includes(text)) done();
      };
      look();
    });
  await until('P02-1');
  child.write('P02-1\r');
  await until('nobody signs');
  await pause(500);
  seen = '';
  flooding = true;
  const from = performance.now();
  last = from;
  // Typed, taken back, moved about: nothing of it answers.
  child.write(Array.from({ length: keys }, (_, i) => ['1', '2', '\x7f', '\x1b[A', '\x7f'][i % 5]).join(''));
  child.write('\x1b\x7fqqqq');
  await until('qqqq');
  const took = performance.now() - from;
  child.kill('SIGKILL');
  rmSync(folder, { recursive: true, force: true });
  return { silent, took, keys };
}

const pause = (ms) => new Promise((done) => setTimeout(done, ms));

function workshop() {
  const folder = mkdtempSync(join(tmpdir(), 'pinchrod-keys-'));
  for (const part of ['procedures', 'shared', 'logs'])
    cpSync(join(root, part), join(folder, part), {
      recursive: true,
      filter: (path) => !/\.(jsonl|lock)$/.test(path),
    });
  return folder;
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  const dash = process.argv.indexOf('--');
  const own = process.argv.slice(2, dash === -1 ? undefined : dash);
  const [columns, rows] = (own[0] ?? '100x30').split('x').map(Number);
  const command = dash === -1 ? undefined : process.argv.slice(dash + 1);
  const result = await keyLatency({
    columns,
    rows,
    keys: Number(own[1] ?? 200),
    ...(command ? { command } : {}),
  });
  const ms = (value) => `${value.toFixed(1)} ms`;
  console.log(
    `${columns} x ${rows}, ${result.keys} keys: median ${ms(result.p50)}, 99th percentile ${ms(result.p99)}, worst ${ms(result.worst)}`,
  );
}
