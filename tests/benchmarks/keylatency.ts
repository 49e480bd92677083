/**
 * How long a key takes to its effect on the screen, measured in a real pseudo-terminal: from the write of one character to
 * the arrival of the frame that shows it.
 */
import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { spawn } from '@lydell/node-pty';
import { median, quantile } from './rows.js';

interface Options {
  /** The repository; its built program is run in a copy of the demonstration workshop. */
  readonly root: string;
  readonly columns?: number;
  readonly rows?: number;
  readonly keys?: number;
}

/** All in ms. */
export async function keyLatency(options: Options): Promise<{ readonly p50: number; readonly p99: number }> {
  const { root, columns = 100, rows = 30, keys = 200 } = options;
  const folder = workshop(root);
  const child = spawn(process.execPath, [join(root, 'dist', 'main.js')], {
    cols: columns,
    rows,
    cwd: folder,
    env: plainTerminal(),
  });
  let last = performance.now();
  let arrived: (() => void) | undefined;
  child.onData(() => {
    last = performance.now();
    arrived?.();
  });
  const still = async (ms: number) => {
    do await pause(20);
    while (performance.now() - last < ms);
  };
  const first = new Promise<void>((done) => {
    arrived = done;
  });
  await first;
  await still(500);
  child.write('P02-1\r');
  await pause(30);
  await still(250);
  const times: number[] = [];
  for (let index = 0; index < keys + 20; index += 1) {
    // Twenty characters, then as many backspaces: the line never grows long.
    const key = index % 40 < 20 ? String(index % 10) : '\x7f';
    const from = performance.now();
    const frame = new Promise<void>((done) => {
      arrived = done;
    });
    child.write(key);
    await frame;
    // The first keys warm the program up.
    if (index >= 20) times.push(last - from);
    await pause(15 + (index % 7));
  }
  child.kill('SIGKILL');
  rmSync(folder, { recursive: true, force: true });
  return { p50: median(times), p99: quantile(times, 0.99) };
}

/**
 * The longest time for which the screen says nothing while thousands of keys come at once, until a word typed after them
 * stands on it. All in ms.
 */
export async function floodSilence({
  root,
  columns = 80,
  rows = 24,
  keys = 10_000,
}: Options): Promise<{ readonly silent: number; readonly took: number; readonly keys: number }> {
  const folder = workshop(root);
  const child = spawn(process.execPath, [join(root, 'dist', 'main.js')], {
    cols: columns,
    rows,
    cwd: folder,
    env: plainTerminal(),
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
  const until = (text: string) =>
    new Promise<void>((done) => {
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

const pause = (ms: number) => new Promise((done) => setTimeout(done, ms));

/** Where nothing of this machine's settings bears on the program. */
function plainTerminal(): Record<string, string> {
  const env: Record<string, string | undefined> = { ...process.env, TERM: 'xterm-256color', LANG: 'C.UTF-8' };
  for (const name of ['CI', 'NODE_EXTRA_CA_CERTS', 'NODE_ENV']) delete env[name];
  return env as Record<string, string>;
}

function workshop(root: string): string {
  const folder = mkdtempSync(join(tmpdir(), 'pinchrod-keys-'));
  for (const part of ['procedures', 'shared', 'logs'])
    cpSync(join(root, part), join(folder, part), {
      recursive: true,
      filter: (path) => !/\.(jsonl|lock)$/.test(path),
    });
  return folder;
}
