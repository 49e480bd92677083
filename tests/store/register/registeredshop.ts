/** A workshop of two benches with registers, and with keys where wanted: units closed, left, and cut off by a kill. All data is invented. */
import { readdirSync, readFileSync, unlinkSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { problemText } from '../../../src/base/problem.js';
import { keepPractice, keepSignoff } from '../../../src/session/practicejournals.js';
import { proveSetups } from '../../../src/session/setups.js';
import type { RealPorts } from '../../../src/session/workshopports.js';
import { realDisk } from '../../../src/store/disk.js';
import { command } from '../../errors/museum.js';
import { type Clock, portsOf, smallWorkshop, startClock, work } from '../../tui/realbench.js';

/** Path under the workshop to content. */
export type Files = Map<string, Buffer>;

const job = (name: string, marks: readonly string[]): string => `format: pinchrod-job 1
name: ${name}
profile_set: w52
procedure: small
glass: 4-16-4
units:
${marks.map((mark) => `  - {mark: ${mark}, width: 900, height: 1200, layout: {light: fixed}}\n`).join('')}`;

export interface RegisteredShop {
  readonly root: string;
  readonly clock: Clock;
  /** Of every file, as it stood from time to time. */
  readonly before: readonly Files[];
  /** Printed records, by name. */
  readonly printed: Files;
}

export const [A, B] = ['bench-a', 'bench-b'];

/** Acts as one bench. */
export async function asBench<T>(bench: string, act: () => T | Promise<T>): Promise<T> {
  const before = process.env.PINCHROD_BENCH;
  process.env.PINCHROD_BENCH = bench;
  try {
    return await act();
  } finally {
    if (before === undefined) delete process.env.PINCHROD_BENCH;
    else process.env.PINCHROD_BENCH = before;
  }
}

export async function must(root: string, ...args: string[]): Promise<string> {
  const { code, text } = await command(root, args);
  if (code !== 0) throw new Error(`${args.join(' ')}: ${code}\n${text}`);
  return text;
}

export function filesIn(root: string, under = ''): Files {
  const files: Files = new Map();
  for (const entry of readdirSync(join(root, under), { withFileTypes: true })) {
    const name = under === '' ? entry.name : `${under}/${entry.name}`;
    if (entry.isDirectory()) for (const [each, bytes] of filesIn(root, name)) files.set(each, bytes);
    else if (!/\.(lock|gone|tmp)$/.test(name)) files.set(name, readFileSync(join(root, name)));
  }
  return files;
}

/** Builds a unit as far as `answers`, else to its end, and lets it go. */
export function build(root: string, clock: Clock, bench: string, unit: string, answers = Infinity): void {
  const ports = portsOf(root, clock, bench);
  proveSetups(ports);
  opened(ports, unit);
  let left = answers;
  work(ports, clock, () => left-- <= 0, `${bench}.jpg`);
  ports.close();
}

export function opened(ports: RealPorts, unit: string): void {
  const found = ports.open(unit);
  if (found.kind === 'failed') throw new Error(problemText(found.problem));
}

/** As a kill leaves it: what is written is there, and so is the lock, whose holder is gone. */
export function killed(root: string, unit: string): void {
  unlinkSync(join(root, `logs/${unit}.lock`));
}

export async function registeredShop(keys: boolean): Promise<RegisteredShop> {
  const root = smallWorkshop();
  const clock = startClock();
  writeFileSync(join(root, 'shared/jobs/row.yaml'), job('row', ['A1', 'A2', 'A3', 'A4']));
  writeFileSync(join(root, 'shared/jobs/done.yaml'), job('done', ['D1']));
  const before: Files[] = [];
  const snap = () => before.push(filesIn(root));
  if (keys) for (const bench of [A, B]) await asBench(bench, () => must(root, 'key', 'new'));
  snap();
  build(root, clock, A, 'row/A1-1');
  snap();
  build(root, clock, B, 'row/A2-1', 4);
  snap();
  build(root, clock, B, 'row/A2-1');
  build(root, clock, A, 'row/A3-1', 2);
  const at = new Date(clock.wall).toISOString();
  const place = { disk: realDisk, root, bench: A };
  for (const right of [true, false])
    keepPractice(place, 'ek', [{ kind: 'reviewed', card: 'c', print: 'p', right, seconds: 3 }], at);
  for (const text of ['sawed well', 'sawed well again'])
    keepSignoff(place, 'shop', { kind: 'observed', person: 'ek', stage: 'saw', text }, 'ot', at);
  snap();
  build(root, clock, A, 'row/A3-1', 1);
  build(root, clock, A, 'done/D1-1');
  await asBench(A, () => must(root, 'seal', 'done'));
  const printed: Files = new Map();
  for (const [name, of] of [
    ['A1.json', 'A1-1'],
    ['A1.txt', 'A1-1'],
    ['done.html', 'done'],
  ] as const) {
    const file = join(dirname(root), name);
    await asBench(A, () => must(root, 'record', of, '--out', file));
    printed.set(name, readFileSync(file));
  }
  snap();
  build(root, clock, B, 'row/A3-1', 1);
  // Killed within a minute of its last entry: some lines stand behind it.
  const ports = portsOf(root, clock, B);
  opened(ports, 'row/A4-1');
  for (const text of ['one', 'two', 'three', 'four']) {
    clock.wall += 1000;
    const acted = ports.act({ do: 'note', text }, { person: 'jb' });
    if (acted.kind !== 'done') throw new Error(JSON.stringify(acted));
  }
  killed(root, 'row/A4-1');
  return { root, clock, before, printed };
}
