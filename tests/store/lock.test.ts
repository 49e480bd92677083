/** One writer a unit: between processes, after a kill, over restarts, other machines and process numbers used again. */
import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'esbuild';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { type Disk, realDisk, type StoreError } from '../../src/store/disk.js';
import { readEvents } from '../../src/store/journal.js';
import { type Host, takeLock, thisHost } from '../../src/store/lock.js';
import { journalPlace } from '../../src/store/paths.js';
import { lockUnit, unitHolder, unitLock } from '../../src/store/unitlock.js';
import { CrashDisk } from './crashdisk.js';
import { noted, opened, stamp } from './samples.js';
import { prepare, ROOT } from './writers.js';

let root: string;
let program: string;
const children: ChildProcess[] = [];
beforeAll(async () => {
  root = mkdtempSync(join(tmpdir(), 'pinchrod-'));
  program = join(root, 'child.mjs');
  await build({
    entryPoints: [join(import.meta.dirname, 'child.ts')],
    outfile: program,
    bundle: true,
    platform: 'node',
    format: 'esm',
    logLevel: 'error',
    banner: {
      js: "import { createRequire as __c } from 'node:module'; const require = __c(import.meta.url);",
    },
  });
});
afterAll(() => {
  for (const child of children) child.kill('SIGKILL');
  rmSync(root, { recursive: true, force: true });
});
beforeEach(() => rmSync(join(root, 'logs'), { recursive: true, force: true }));

/** Starts the other process and waits for its first line. */
function start(
  ...args: string[]
): Promise<{ child: ChildProcess; says: string; ended: Promise<number | null> }> {
  const child = spawn(process.execPath, [program, root, ...args], { stdio: ['ignore', 'pipe', 'inherit'] });
  children.push(child);
  const ended = new Promise<number | null>((done) => child.once('close', (code) => done(code)));
  return new Promise((done) => {
    let text = '';
    child.stdout!.on('data', (data) => {
      text += data;
      if (text.includes('\n')) done({ child, says: text.trim(), ended });
    });
  });
}
const claim = (options: { takeOver?: boolean } = {}, host?: Host) =>
  lockUnit(realDisk, root, 'pier-house', 'P01-1', { bench: 'bench-1', who: 'jb', ...options }, host);
const lockFile = () => join(root, 'logs/pier-house/P01-1.lock');

describe('two processes', () => {
  it('the second is told who has the unit, may look, and gets it as soon as the first is killed', async () => {
    const { child, says, ended } = await start('hold');
    expect(says).toBe('have it');
    const refused = claim();
    expect(refused.ok).toBe(false);
    if (!refused.ok) {
      expect(refused.problems[0]).toMatchObject({
        id: 'lock.held',
        place: { file: 'logs/pier-house/P01-1.lock' },
      });
      expect(refused.problems[0]!.text).toContain(`ot at bench-2 (process ${child.pid}`);
    }
    expect(unitHolder(realDisk, root, 'pier-house', 'P01-1')).toMatchObject({
      bench: 'bench-2',
      who: 'ot',
      pid: child.pid,
    });
    expect(readEvents(realDisk, root, 'pier-house', 'P01-1')).toMatchObject({ ok: true, value: [] });
    child.kill('SIGKILL');
    await ended;
    expect(unitHolder(realDisk, root, 'pier-house', 'P01-1')).toBeUndefined();
    const taken = claim();
    expect(taken.ok).toBe(true);
    if (taken.ok) taken.value.release();
    expect(existsSync(lockFile())).toBe(false);
  });

  it('one that ends by itself leaves no lock', async () => {
    const { says, ended } = await start('exit');
    expect(says).toBe('have it');
    await ended;
    expect(existsSync(lockFile())).toBe(false);
  });

  it('three that take the unit in turns, as fast as they can, give one whole chain', async () => {
    const all = await Promise.all([1, 2, 3].map(() => start('turns', '15')));
    expect(await Promise.all(all.map(({ ended }) => ended))).toEqual([0, 0, 0]);
    const read = readEvents(realDisk, root, 'pier-house', 'P01-1');
    expect(read.ok && read.value.length).toBe(45);
  });
});

describe('a lock that is lost', () => {
  const taken = (bench: string) => {
    const made = lockUnit(realDisk, root, 'pier-house', 'P01-1', { bench, who: 'jb' });
    if (!made.ok) throw new Error('cannot claim');
    return made.value;
  };
  const wrong = (run: () => unknown): string | undefined => {
    try {
      run();
      return undefined;
    } catch (error) {
      return (error as StoreError).problem.id;
    }
  };

  it('lets no answer more through', () => {
    const mine = taken('bench-1');
    mine.journal.append([opened()], stamp());
    rmSync(lockFile());
    expect(wrong(() => mine.journal.append([noted('a')], stamp(1)))).toBe('journal.let-go');
    mine.release();
    const again = taken('bench-1');
    again.journal.append([noted('b')], stamp(2));
    const other = taken.bind(undefined, 'bench-2');
    rmSync(lockFile());
    const theirs = other();
    expect(wrong(() => again.journal.append([noted('c')], stamp(3)))).toBe('journal.let-go');
    expect(wrong(() => theirs.journal.append([noted('d')], stamp(4)))).toBeUndefined();
    const read = readEvents(realDisk, root, 'pier-house', 'P01-1');
    expect(read.ok && read.value.map((event) => event.kind === 'noted' && event.text)).toEqual([
      false,
      'b',
      'd',
    ]);
    for (const each of [again, theirs]) each.release();
  });
});

describe('a lock that was left behind', () => {
  const here = thisHost();
  const leave = (change: object): void => {
    const made = claim();
    if (!made.ok) throw new Error('cannot claim');
    const holder = JSON.parse(readFileSync(lockFile(), 'utf8'));
    made.value.release();
    writeFileSync(lockFile(), JSON.stringify({ ...holder, token: 'another', ...change }));
  };
  const outcome = (options: { takeOver?: boolean } = {}, host?: Host): string => {
    const made = claim(options, host);
    if (!made.ok) return made.problems[0]!.id;
    made.value.release();
    return 'taken';
  };

  it('by a process that is no more is taken over', () => {
    leave({ pid: 4_194_303 });
    expect(outcome()).toBe('taken');
  });

  it('by a process whose number another has now is taken over', () => {
    leave({ pid: process.ppid, started: '1' });
    expect(outcome()).toBe('taken');
    leave({ started: '1' });
    expect(outcome()).toBe('taken');
  });

  it('by a process that lives is honoured', () => {
    leave({ pid: process.ppid, started: here.started(process.ppid) });
    expect(outcome()).toBe('lock.held');
    expect(outcome({ takeOver: true })).toBe('lock.held');
    rmSync(lockFile());
  });

  it('before the machine was started anew is taken over', () => {
    leave({ pid: process.ppid, started: here.started(process.ppid), boot: 'an earlier one' });
    expect(outcome()).toBe('taken');
  });

  it('by another machine is honoured until a person takes it over', () => {
    for (const other of [{ host: 'shop-two' }, { machine: 'x' }]) {
      leave({ ...other, boot: 'theirs' });
      expect(outcome()).toBe('lock.other-machine');
      expect(outcome({ takeOver: true })).toBe('taken');
    }
  });

  it('that cannot be read is named, not guessed at, until a person takes it over', () => {
    for (const text of ['', '{', '{"pid":1}']) {
      leave({});
      writeFileSync(lockFile(), text);
      expect(outcome()).toBe('lock.unreadable');
      expect(outcome({ takeOver: true })).toBe('taken');
    }
    // What no bench can have made is left to be deleted by hand.
    leave({});
    writeFileSync(lockFile(), 'x'.repeat(20_000));
    expect(outcome({ takeOver: true })).toBe('lock.unreadable');
    rmSync(lockFile());
  });

  it('says since when it stands, and whether its holder surely runs', () => {
    leave({ host: 'shop-two' });
    const seen = unitLock(realDisk, root, 'pier-house', 'P01-1', here);
    expect(seen).toMatchObject({ holder: { host: 'shop-two' }, runs: false });
    expect(Math.abs(seen!.sinceMs - statSync(lockFile()).mtimeMs)).toBeLessThan(1);
    rmSync(lockFile());
    leave({ pid: process.ppid, started: here.started(process.ppid) });
    expect(unitLock(realDisk, root, 'pier-house', 'P01-1', here)?.runs).toBe(true);
    rmSync(lockFile());
    leave({ pid: 4_194_303 });
    expect(unitLock(realDisk, root, 'pier-house', 'P01-1', here)).toBeUndefined();
    rmSync(lockFile());
  });

  it('on a system that knows processes by number alone is judged by that', () => {
    const plainHost: Host = {
      ...here,
      boot: '',
      token: 'mine',
      started: (pid) => (pid === 77 ? '' : undefined),
    };
    leave({ pid: 77, boot: '', started: '' });
    expect(outcome({}, plainHost)).toBe('lock.held');
    // Its number may be another's by now, which nobody but a person can know.
    expect(outcome({ takeOver: true }, plainHost)).toBe('taken');
    leave({ pid: 78, boot: '', started: '' });
    expect(outcome({}, plainHost)).toBe('taken');
    // Our own number, and another token: whoever had the number before us is no more.
    leave({ boot: '', started: '' });
    expect(outcome({}, plainHost)).toBe('taken');
  });
});

it('a lock that the disk then fails on is not left behind', () => {
  const made = journalPlace(root, 'pier-house', 'P01-1');
  if (!made.ok) throw new Error('no place');
  mkdirSync(made.value.folder, { recursive: true });
  const fails = (): never => {
    throw Object.assign(new Error('EIO'), { code: 'EIO' });
  };
  const options = { bench: 'bench-1', who: 'jb' };
  expect(() => takeLock({ ...realDisk, stat: fails }, made.value, thisHost(), options)).toThrow('EIO');
  expect(existsSync(lockFile())).toBe(false);
  const other = takeLock(realDisk, made.value, { ...thisHost(), token: 'other' }, options);
  expect(other.ok).toBe(true);
  if (other.ok) other.value.release();
});

it('a bench whose unit was taken over writes nothing more to it', () => {
  const first = claim();
  if (!first.ok) throw new Error('cannot claim');
  first.value.journal.append([opened()], stamp());
  rmSync(lockFile());
  const second = claim({}, { ...thisHost(), token: 'second' });
  if (!second.ok) throw new Error(JSON.stringify(second.problems));
  second.value.journal.append([noted('second')], stamp(1));
  expect(() => first.value.journal.append([noted('first')], stamp(2))).toThrow(/no longer this bench's/);
  first.value.release();
  expect(existsSync(lockFile())).toBe(true);
  second.value.journal.append([noted('still')], stamp(3));
  second.value.release();
  expect(existsSync(lockFile())).toBe(false);
});

it('of two that find a dead lock at once, whatever the order of their calls, one gets it', () => {
  const made = journalPlace(ROOT, 'pier-house', 'P01-1');
  if (!made.ok) throw new Error('no place');
  const place = made.value;
  const host = (token: string, pid: number): Host => ({
    host: 'h',
    machine: 'm',
    boot: 'b',
    pid,
    token,
    started: (p) => (p === 1 || p === 2 ? `s${p}` : undefined),
  });
  const take = (disk: Disk, token: string, pid: number) =>
    takeLock(disk, place, host(token, pid), { bench: token, who: '' });
  for (const left of ['dead', 'none'])
    for (let nth = 1, reached = true; reached; nth++) {
      const disk = new CrashDisk();
      prepare(disk);
      disk.mkdir(`${ROOT}/logs`);
      disk.mkdir(place.folder);
      if (left === 'dead') {
        const lock = disk.open(place.lock, 'new');
        disk.write(
          lock,
          Buffer.from(
            JSON.stringify({
              host: 'h',
              machine: 'm',
              boot: 'b',
              pid: 9,
              started: 's9',
              token: 'old',
              bench: 'x',
              who: '',
            }),
          ),
          0,
        );
      }
      let calls = 0;
      let other: ReturnType<typeof take> | undefined;
      const between = new Proxy(disk, {
        get: (target, name) => {
          const call = Reflect.get(target, name, target) as unknown;
          if (typeof call !== 'function') return call;
          return (...args: unknown[]) => {
            if (++calls === nth) other = take(disk, 'b', 2);
            return call.apply(target, args);
          };
        },
      });
      const first = take(between, 'a', 1);
      reached = other !== undefined;
      const having = [first, other].filter((each) => each?.ok && each.value.lost() === undefined);
      if (reached) expect(having.length, `${left}, call ${nth}`).toBe(1);
      expect(disk.list(place.folder)).toEqual(['P01-1.lock']);
      for (const each of [first, other]) if (each?.ok) each.value.release();
      expect(disk.list(place.folder)).toEqual([]);
    }
});
