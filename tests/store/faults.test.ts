/**
 * Every disk call fails in turn, in every way. Afterwards the journal is as before or as after, `verify` finds nothing
 * worse than a torn end, the problem says what happened and what to do, and the same append goes through once the cause
 * is gone.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { type Disk, realDisk, StoreError } from '../../src/store/disk.js';
import { testLogsFolder, writeWhole } from '../../src/store/files.js';
import { pinSources } from '../../src/store/hashed.js';
import { Journal, readEvents } from '../../src/store/journal.js';
import { lockUnit } from '../../src/store/unitlock.js';
import { verifyTree } from '../../src/store/verify.js';
import type { JournalEvent } from '../../src/unit/events.js';
import { CrashDisk } from './crashdisk.js';
import { Crash, type Fault, faulty } from './faultdisk.js';
import { noted, opened, stamp } from './samples.js';
import { prepare, ROOT } from './writers.js';

const CODES = ['EIO', 'ENOSPC', 'EROFS', 'EACCES', 'EMFILE'] as const;
const FAULTS: Fault[] = [
  ...CODES.map((code) => ({ kind: 'error', code }) as const),
  { kind: 'short' },
  { kind: 'crash-before' },
  { kind: 'crash-after' },
];
// One kind on the real disk; the others, which take the same way through the program, on the model.
const REAL = new Set(['EIO']);
const faultName = (fault: Fault): string => (fault.kind === 'error' ? fault.code : fault.kind);

const roots: string[] = [];
const fresh = (): string => {
  const root = mkdtempSync(join(tmpdir(), 'pinchrod-'));
  roots.push(root);
  return root;
};
afterEach(() => {
  for (const root of roots.splice(0)) rmSync(root, { recursive: true, force: true });
});

const fieldFor = (fault: Fault): { base: Disk; root: string } => {
  if (REAL.has(faultName(fault))) return { base: realDisk, root: fresh() };
  const base = new CrashDisk();
  prepare(base);
  return { base, root: ROOT };
};

const kinds = (events: readonly JournalEvent[]): string[] =>
  events.map((event) => (event.kind === 'noted' ? event.text : event.kind));

describe.each(FAULTS.map((fault) => [faultName(fault), fault] as const))(
  '%s at the n-th call',
  (_, fault) => {
    it('of freezing, opening and appending leaves the journal as before or as after', () => {
      let reached = true;
      let nth = 1;
      for (; reached; nth++) {
        const { base, root } = fieldFor(fault);
        const disk = faulty(base, nth, fault);
        const seen = work(disk, root);
        reached = disk.struck();
        const after = readEvents(base, root, 'pier-house', 'P01-1');
        if (!after.ok) throw new Error(`call ${nth} (${disk.log.at(-1)}): ${JSON.stringify(after.problems)}`);
        const written = kinds(after.value);
        // Acknowledged is there; what is there is a beginning of what was asked for.
        expect(written.slice(0, seen.acknowledged.length)).toEqual(seen.acknowledged);
        expect(seen.attempted.slice(0, written.length)).toEqual(written);
        if (fault.kind === 'error') expect(written).toEqual(seen.acknowledged);
        const report = verifyTree(base, root);
        const worse = report.faults.filter(({ id }) => !/torn-end|no-line-end/.test(id));
        expect(worse).toEqual([]);
        if (fault.kind !== 'crash-before' && fault.kind !== 'crash-after') expect(report.faults).toEqual([]);
        // A new process goes on where this one stood.
        const again = Journal.open(base, root, 'pier-house', 'P01-1');
        if (!again.ok) throw new Error(JSON.stringify(again.problems));
        again.value.append([again.value.events.length === 0 ? opened() : noted('later')], stamp(9));
        again.value.close();
        expect(verifyTree(base, root).faults.filter(({ id }) => id !== 'verify.source-missing')).toEqual([]);
      }
      expect(nth).toBeGreaterThan(20);
    });

    it('of writing a whole file leaves the old one or the new one, and no other file', () => {
      let reached = true;
      for (let nth = 1; reached; nth++) {
        const { base, root } = fieldFor(fault);
        const path = join(root, 'file');
        writeWhole(base, path, Buffer.from('old'));
        const disk = faulty(base, nth, fault);
        let done = false;
        try {
          writeWhole(disk, path, Buffer.from('new and longer'));
          done = true;
        } catch (error) {
          if (!(error instanceof Crash) && (error as NodeJS.ErrnoException).code === undefined) throw error;
        }
        reached = disk.struck();
        const now = base.read(path).toString();
        if (done) expect(now).toBe('new and longer');
        else expect(['old', 'new and longer']).toContain(now);
        if (!fault.kind.startsWith('crash')) expect(base.list(root)).toEqual(['file']);
      }
    });

    it('of testing the logs folder is a problem, or passes', () => {
      let reached = true;
      for (let nth = 1; reached; nth++) {
        const { base, root } = fieldFor(fault);
        const disk = faulty(base, nth, fault);
        try {
          const problem = testLogsFolder(disk, root);
          if (problem) expect(problem.id).toMatch(/^disk\./);
          else if (fault.kind === 'error')
            expect(['close', 'unlink', undefined]).toContain(disk.struck() ? disk.log[nth - 1] : undefined);
        } catch (error) {
          if (!(error instanceof Crash)) throw error;
        }
        reached = disk.struck();
      }
    });
  },
);

it('says of each kind of failure what happened and what to do, and takes the answer when the cause is gone', () => {
  const says: Record<string, string> = {
    EIO: 'disk.fault',
    ENOSPC: 'disk.full',
    EROFS: 'disk.read-only',
    EACCES: 'disk.no-right',
    EMFILE: 'disk.too-many-open',
    EWHATEVER: 'disk.failed',
  };
  for (const [code, id] of Object.entries(says)) {
    const root = fresh();
    const disk = faulty(realDisk, 2, { kind: 'error', code }, new Set(['flush']));
    const made = Journal.open(disk, root, 'pier-house', 'P01-1');
    if (!made.ok) throw new Error(JSON.stringify(made.problems));
    const journal = made.value;
    journal.append([opened()], stamp());
    const before = journal.events;
    let problem: StoreError | undefined;
    try {
      journal.append([noted('kept on the screen')], stamp(1));
    } catch (error) {
      problem = error as StoreError;
    }
    expect(problem).toBeInstanceOf(StoreError);
    expect(problem!.problem).toMatchObject({ id, place: { file: 'logs/pier-house/P01-1.jsonl' } });
    expect(problem!.problem.text).toContain(code);
    expect(problem!.problem.todo).not.toBe('');
    expect(problem!.code).toBe(code);
    expect(journal.events).toBe(before);
    journal.append([noted('kept on the screen')], stamp(2));
    expect(kinds(journal.events)).toEqual(['opened', 'kept on the screen']);
    journal.close();
    const back = readEvents(realDisk, root, 'pier-house', 'P01-1');
    expect(back.ok && back.value).toEqual(journal.events);
  }
});

it('never uses a handle again after its flush failed', () => {
  const root = fresh();
  const used: string[] = [];
  const watched: Disk = new Proxy(realDisk, {
    get:
      (target, name: keyof Disk) =>
      (...args: unknown[]) => {
        const result = (target[name] as (...given: unknown[]) => unknown)(...args);
        if (name === 'open') used.push(`open ${result}`);
        else if (name === 'write' || name === 'flush' || name === 'close') used.push(`${name} ${args[0]}`);
        return result;
      },
  });
  const disk = faulty(watched, 2, { kind: 'error', code: 'EIO' }, new Set(['flush']));
  const made = Journal.open(disk, root, 'pier-house', 'P01-1');
  if (!made.ok) throw new Error('cannot open');
  made.value.append([opened()], stamp());
  used.length = 0;
  expect(() => made.value.append([noted('a')], stamp(1))).toThrow(StoreError);
  // The write, then no flush of it that was reported as done; closed, and everything after on another opening.
  expect(used[0]).toMatch(/^write/);
  expect(used[1]).toBe(used[0]!.replace('write', 'close'));
  expect(used[2]).toMatch(/^open/);
  made.value.append([noted('a')], stamp(2));
  made.value.close();
  expect(verifyTree(realDisk, root).events).toBe(2);
});

it('a disk that takes nothing more without saying why is told, and nothing is left of the event', () => {
  const root = fresh();
  let full = false;
  const disk: Disk = { ...realDisk, write: (...args) => (full ? 0 : realDisk.write(...args)) };
  const made = Journal.open(disk, root, 'pier-house', 'P01-1');
  if (!made.ok) throw new Error('cannot open');
  made.value.append([opened()], stamp());
  const before = realDisk.read(made.value.place.file);
  full = true;
  try {
    made.value.append([noted('a')], stamp(1));
    throw new Error('was taken');
  } catch (error) {
    expect(error).toBeInstanceOf(StoreError);
    const { problem, code } = error as StoreError;
    expect(problem).toMatchObject({ id: 'disk.short', text: expect.stringMatching(/took 0 of \d+ bytes/) });
    expect(code).toBe('ENOSPC');
  }
  expect(realDisk.read(made.value.place.file).equals(before)).toBe(true);
});

it('a folder that another bench makes at the same moment is as good as one made here', () => {
  const root = fresh();
  const late: Disk = {
    ...realDisk,
    mkdir: (path) => {
      realDisk.mkdir(path);
      realDisk.mkdir(path);
    },
  };
  expect(pinSources(late, root, { limits: 'x' }).limits).toMatch(/^[0-9a-f]{64}$/);
  expect(realDisk.list(join(root, 'logs'))).toEqual(['sources']);
});

it('stops when something else wrote into the journal, and leaves what it wrote', () => {
  const root = fresh();
  const made = Journal.open(realDisk, root, 'pier-house', 'P01-1');
  if (!made.ok) throw new Error('cannot open');
  made.value.append([opened()], stamp());
  const path = join(root, 'logs/pier-house/P01-1.jsonl');
  const handle = realDisk.open(path, 'append');
  realDisk.write(handle, Buffer.from('mine\n'), 0);
  realDisk.close(handle);
  const before = realDisk.read(path);
  expect(() => made.value.append([noted('a')], stamp(1))).toThrow(/something else wrote/);
  expect(realDisk.read(path).equals(before)).toBe(true);
});

it('refuses what no line can hold, before anything is written', () => {
  const root = fresh();
  const made = Journal.open(realDisk, root, 'pier-house', 'P01-1');
  if (!made.ok) throw new Error('cannot open');
  made.value.append([opened()], stamp());
  for (const body of [
    noted('half \ud83d a face'),
    { ...noted('x'), more: Number.NaN },
    { ...noted('x'), more: 1 },
    { kind: 'noted' },
  ])
    try {
      made.value.append([body as never], stamp(1));
      throw new Error('was taken');
    } catch (error) {
      expect((error as StoreError).problem?.id).toBe('journal.cannot-hold');
    }
  expect(made.value.events.length).toBe(1);
});

/** Freezes, claims, appends three times; goes on after an error as a person would, by giving the answer again once. */
function work(disk: Disk, root: string): { acknowledged: string[]; attempted: string[] } {
  let acknowledged: string[] = [];
  const attempted = ['opened', 'a', 'b', 'c', 'd'];
  try {
    const sources = again(() => pinSources(disk, root, { limits: 'format: x\n' }));
    const claim = again(() => {
      const made = lockUnit(disk, root, 'pier-house', 'P01-1', { bench: 'bench-1', who: 'jb' });
      if (made.ok) return made.value;
      const [problem] = made.problems;
      expect(problem!.id).toMatch(/^disk\./);
      throw new StoreError(problem!);
    });
    const { journal } = claim;
    for (const bodies of [
      [opened('P01-1', 'pier-house', sources), noted('a')],
      [noted('b'), noted('c')],
      [noted('d')],
    ]) {
      again(() => journal.append(bodies, stamp()));
      acknowledged = kinds(journal.events);
    }
    claim.release();
  } catch (error) {
    if (!(error instanceof Crash)) throw error;
  }
  return { acknowledged, attempted };
}

function again<T>(run: () => T): T {
  try {
    return run();
  } catch (error) {
    if (error instanceof Crash) throw error;
    expect(error).toBeInstanceOf(StoreError);
    return run();
  }
}
