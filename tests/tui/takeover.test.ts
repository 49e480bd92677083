/** A unit behind a lock that nobody may be behind: taken over at the bench and by feed, on purpose, with who and when, and logged. */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { realDisk } from '../../src/store/disk.js';
import { thisHost } from '../../src/store/lock.js';
import { verifyTree } from '../../src/store/verify.js';
import { headerLines } from '../../src/tui/parts/bars.js';
import { formLines } from '../../src/tui/screens/form.js';
import {
  type Bench,
  benchOf,
  type Clock,
  DOWN,
  freshBench,
  leaveBench,
  OVERVIEW,
  pass,
  RIGHT,
} from './realbench.js';

let root: string;
let clock: Clock;
let bench: Bench;
const lock = () => join(root, 'logs/pier-house/P01-1.lock');

/** A lock as another bench would have left it. */
function leave(change: object): void {
  const { host, machine, boot } = thisHost();
  mkdirSync(join(root, 'logs/pier-house'), { recursive: true });
  const holder = {
    host,
    machine,
    boot,
    pid: 4711,
    started: '1',
    token: 'theirs',
    bench: 'bench-2',
    who: 'mv',
  };
  writeFileSync(lock(), JSON.stringify({ ...holder, ...change }));
}
const shown = () => {
  const { screen } = bench.core.state();
  if (screen.name !== 'form') throw new Error(screen.name);
  return formLines(bench.core.state(), screen, bench.core.world(), 78, 60)
    .map((spans) => spans.map(({ text }) => text).join(''))
    .join('\n');
};

beforeEach(() => {
  ({ root, clock, bench } = freshBench());
});
afterEach(() => leaveBench(bench, root));

it('another machine had it: looked at first, taken over with a reason, written down, and then worked on', () => {
  bench.press('jb\r', 'P01-1\r', RIGHT);
  bench.ports.close();
  leave({ host: 'shop-two', machine: 'another' });
  bench.press('P01-1\r', 'frame\r');
  expect(bench.core.state().note).toMatchObject({
    tone: 'bad',
    todo: expect.stringContaining('F9 takes it over'),
  });
  bench.press(OVERVIEW);
  expect(bench.texts()[0]).toContain('take it over from mv at bench-2 (process 4711 on shop-two)');
  bench.choose('take it over');
  expect(shown()).toContain('mv at bench-2 (process 4711 on shop-two) has P01-1 since');
  expect(shown()).toContain('Its last entry is by jb, at 08:');
  bench.press(RIGHT);
  // Enter does nothing here; only the Right arrow does it.
  bench.press('\r');
  expect(bench.core.world().open?.readOnly).toBeDefined();
  bench.press(RIGHT);
  expect(bench.core.world().open?.readOnly).toBeUndefined();
  const last = bench.core.world().open!.state.events.at(-1)!;
  expect(last).toMatchObject({ kind: 'noted', by: 'jb', bench: 'bench-t' });
  expect(last.kind === 'noted' && last.text).toMatch(
    /^Taken over from mv at bench-2 \(process 4711 on shop-two\), who had it since .*: that bench is switched off$/,
  );
  bench.press(RIGHT);
  expect(JSON.parse(readFileSync(lock(), 'utf8'))).toMatchObject({ bench: 'bench-t', who: 'jb' });
  expect(verifyTree(realDisk, root).holds).toBe(true);
});

it('a lock that nobody can read is taken over too; a unit that is not begun begins with that', () => {
  leave({});
  writeFileSync(lock(), '');
  bench.press('jb\r', 'P01-1\r', OVERVIEW);
  bench.choose('take it over');
  expect(shown()).toContain('somebody whom the lock does not name has P01-1');
  bench.press(DOWN, RIGHT, RIGHT);
  expect(bench.core.world().open!.state.events.map(({ kind }) => kind)).toEqual(['opened', 'noted']);
});

it('a dead process, or another one under its number, keeps nobody out', () => {
  for (const change of [{ pid: 4_194_303 }, { pid: process.ppid, started: '1' }]) {
    leave(change);
    bench.press('P01-1\r');
    expect(bench.core.world().open?.readOnly).toBeUndefined();
    bench.ports.close();
  }
});

it('a bench that surely runs on this machine is not taken from, and nobody takes over for nobody', () => {
  const { started } = thisHost();
  leave({ pid: process.ppid, started: started(process.ppid) });
  bench.press('jb\r', 'P01-1\r', OVERVIEW);
  expect(bench.texts().some((text) => text.includes('take it over'))).toBe(false);
  const action = { do: 'take-over', reason: 'x' } as const;
  expect(bench.ports.act(action, { person: 'jb' })).toMatchObject({
    problem: { id: 'lock.held' },
  });
  expect(bench.ports.act(action, { person: undefined })).toMatchObject({
    problem: { id: 'build.nobody' },
  });
  bench.press('P02-1\r');
  expect(bench.ports.act(action, { person: 'jb' })).toMatchObject({
    problem: { id: 'bench.not-kept' },
  });
  bench.ports.close();
  expect(bench.ports.act(action, { person: 'jb' })).toMatchObject({
    problem: { id: 'bench.no-unit' },
  });
});

it('one who only looks is told when the unit is free again, and by whom else it is taken then', () => {
  const other = benchOf(root, clock, 'bench-2');
  const header = () =>
    headerLines(bench.core.state(), bench.core.world(), 78, { colours: 'none', ascii: true })
      .map((spans) => spans.map(({ text }) => text).join(''))
      .join('\n');
  other.press('ot\r', 'P01-1\r', RIGHT);
  bench.press('jb\r', 'P01-1\r');
  expect(header()).toContain('LOOKING ONLY');
  // A disk that cannot be read just then does not make the unit free.
  const broken = vi.spyOn(realDisk, 'stat').mockImplementation(() => {
    throw Object.assign(new Error('EIO'), { code: 'EIO' });
  });
  pass(clock, 1500);
  bench.core.tick();
  expect(broken).toHaveBeenCalled();
  broken.mockRestore();
  expect(header()).toContain('LOOKING ONLY');
  other.ports.close();
  bench.core.tick();
  pass(clock, 1500);
  bench.core.tick();
  expect(header()).toContain('FREE AGAIN: F2');
  bench.press('frame\r');
  expect(bench.core.state().note).toMatchObject({
    text: expect.stringContaining('nobody has P01-1 any more'),
    todo: 'Open it again here (F2).',
  });
  other.press('mv\r', 'P01-1\r');
  pass(clock, 1500);
  bench.core.tick();
  expect(header()).toContain('LOOKING ONLY');
  expect(String(bench.core.world().open!.keptBy!.who)).toContain('mv at bench-2');
  other.ports.close();
  bench.press('\u001bOQ', 'P01-1\r', 'frame\r');
  expect(bench.core.world().open!.readOnly).toBeUndefined();
  expect(bench.core.world().open!.state.events.at(-1)).toMatchObject({ kind: 'answered', by: 'jb' });
});
