/**
 * Every disk call of every operation that writes, besides a unit's journal (tests/store/faults.test.ts): it fails in turn, in
 * every way. Afterwards what was there is as before or as after, nothing is half, `verify` finds no fault, and the same
 * operation goes through once the cause is gone.
 */
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Result } from '../../src/base/problem.js';
import { loadIndex, saveIndex } from '../../src/session/index.js';
import { jobFiles, removeJob } from '../../src/store/archive.js';
import { appendChainLog } from '../../src/store/chainlog.js';
import { type Disk, StoreError } from '../../src/store/disk.js';
import { pinSources } from '../../src/store/hashed.js';
import { makeJobSeal, readJobSeal, writeJobSeal } from '../../src/store/jobseal.js';
import { Journal, readEvents } from '../../src/store/journal.js';
import { benchKey, newBenchKey, publicKeys } from '../../src/store/key.js';
import { makeWorkshop } from '../../src/store/makeworkshop.js';
import { enter, headNow } from '../../src/store/register/enter.js';
import { countedKeys } from '../../src/store/register/keys.js';
import { readRegisters } from '../../src/store/register/registers.js';
import { appendSetupLog, readSetupLog } from '../../src/store/setups.js';
import { verifyTree } from '../../src/store/verify.js';
import { CrashDisk } from '../store/crashdisk.js';
import { Crash, type Fault, faulty } from '../store/faultdisk.js';
import { keepEvidence } from '../store/keepevidence.js';
import { noted, opened, stamp } from '../store/samples.js';
import { prepare, ROOT } from '../store/writers.js';

const FAULTS: Fault[] = [
  ...(['EIO', 'ENOSPC', 'EROFS', 'EACCES', 'EMFILE'] as const).map(
    (code) => ({ kind: 'error', code }) as const,
  ),
  { kind: 'short' },
  { kind: 'crash-before' },
  { kind: 'crash-after' },
];
const nameOf = (fault: Fault): string => (fault.kind === 'error' ? fault.code : fault.kind);
const JOB = 'pier-house';
const PHOTO = `${ROOT}/photo.jpg`;

interface Operation {
  /** Makes what must be there before, on a sound disk. */
  before?(disk: Disk): void;
  run(disk: Disk): Result<unknown>;
  /** Throws where what is found is neither as before nor as after. `done`: the operation said so, on a disk that went on. */
  check(disk: Disk, done: boolean): void;
}

const put = (disk: Disk, path: string, text: string): void => {
  const handle = disk.open(path, 'new');
  disk.write(handle, Buffer.from(text), 0);
  disk.flush(handle);
  disk.close(handle);
};

/** A job of one closed unit, with evidence and what it was built from. */
function closedJob(disk: Disk): void {
  const sources = pinSources(disk, ROOT, { limits: 'format: x\n', job: 'y\n' });
  const made = Journal.open(disk, ROOT, JOB, 'P01-1');
  if (!made.ok) throw new Error(made.problems[0]!.text);
  made.value.append([opened('P01-1', JOB, sources), noted('a')], stamp());
  made.value.close();
}

const firstOff = (setup: string) =>
  ({ kind: 'setup-ended', setup, why: 'tool-changed' }) as unknown as Parameters<
    typeof appendSetupLog
  >[2][number];

const CLOSED = `logs/${JOB}/P01-1.jsonl`;
const entered = (disk: Disk): Result<unknown> => {
  const head = headNow(disk, ROOT, CLOSED);
  if (!head) return { ok: false, problems: [] };
  return enter(disk, ROOT, stamp(), [{ kind: 'heads', on: 'left', heads: [head] }]);
};
function isEntered(disk: Disk, done: boolean): void {
  const { expected } = readRegisters(disk, ROOT, countedKeys(disk, ROOT));
  for (const head of expected.get(CLOSED) ?? []) expect(head.events).toBe(2);
  if (done) expect(expected.get(CLOSED)?.length).toBeGreaterThan(0);
}

const OPERATIONS: Record<string, Operation> = {
  'keeping evidence': {
    before: (disk) => put(disk, PHOTO, 'picture'),
    run: (disk) => keepEvidence(disk, ROOT, JOB, PHOTO),
    check(disk, done) {
      const folder = `${ROOT}/logs/${JOB}/evidence`;
      const names = disk.stat(folder) ? disk.list(folder).filter((name) => !name.endsWith('.tmp')) : [];
      for (const name of names) expect(disk.read(join(folder, name)).toString()).toBe('picture');
      if (done) expect(names.length).toBe(1);
    },
  },
  'freezing sources': {
    run(disk) {
      try {
        return { ok: true, value: pinSources(disk, ROOT, { a: 'one', b: 'two' }), warnings: [] };
      } catch (error) {
        if (error instanceof StoreError) return { ok: false, problems: [error.problem] };
        throw error;
      }
    },
    check(disk, done) {
      const folder = `${ROOT}/logs/sources`;
      const names = disk.stat(folder) ? disk.list(folder).filter((name) => !name.endsWith('.tmp')) : [];
      for (const name of names) expect(['one', 'two']).toContain(disk.read(join(folder, name)).toString());
      if (done) expect(names.length).toBe(2);
    },
  },
  'making a key': {
    before: (disk) => {
      disk.mkdir(`${ROOT}/shared`);
    },
    run(disk) {
      const key = benchKey(disk, ROOT, 'bench-1');
      return key.ok && key.value ? key : newBenchKey(disk, ROOT, 'bench-1');
    },
    check(disk, done) {
      const own = benchKey(disk, ROOT, 'bench-1');
      expect(own.ok).toBe(true);
      // A private key is there only where its public part is.
      if (own.ok && own.value) expect(publicKeys(disk, ROOT).keys.has(own.value.id)).toBe(true);
      if (done) expect(own.ok && own.value).toBeTruthy();
    },
  },
  "entering a journal's head": {
    before: closedJob,
    run: (disk) => entered(disk),
    check: (disk, done) => isEntered(disk, done),
  },
  "entering a journal's head with a key": {
    before(disk) {
      closedJob(disk);
      disk.mkdir(`${ROOT}/shared`);
      expect(newBenchKey(disk, ROOT, 'bench-1').ok).toBe(true);
    },
    run: (disk) => entered(disk),
    check(disk, done) {
      isEntered(disk, done);
      if (done) expect(countedKeys(disk, ROOT).introduced).toMatchObject([{ of: 'bench-1' }]);
    },
  },
  'sealing a job that was sealed before': {
    before(disk) {
      closedJob(disk);
      const first = writeJobSeal(disk, ROOT, sealOf(1));
      expect(first.ok).toBe(true);
    },
    run: (disk) => writeJobSeal(disk, ROOT, sealOf(2)),
    check(disk, done) {
      const folder = `${ROOT}/logs/${JOB}`;
      const seals = disk.list(folder).filter((name) => /^job\.seal(\.\d+)?\.json$/.test(name));
      // The first seal is never lost, by whichever name.
      const lines = seals.map((name) => readJobSeal(disk.read(join(folder, name)))?.units[0]?.lines);
      expect(lines).toContain(1);
      for (const each of lines) expect([1, 2]).toContain(each);
      if (done) expect(lines.toSorted()).toEqual([1, 2]);
    },
  },
  'archiving and removing a job': {
    before: closedJob,
    run(disk) {
      const held = jobFiles(disk, ROOT, JOB);
      if (!held.ok)
        return held.problems[0]!.id === 'archive.no-job' ? { ok: true, value: 0, warnings: [] } : held;
      return removeJob(disk, ROOT, JOB, held.value);
    },
    check(disk, done) {
      const journal = readEvents(disk, ROOT, JOB, 'P01-1');
      // As long as the journal is there, so is everything that it names.
      if (journal.ok && journal.value.length > 0) expect(verifyTree(disk, ROOT).faults).toEqual([]);
      if (done) expect(journal.ok && journal.value).toEqual([]);
    },
  },
  'the board’s cache': {
    before: (disk) => closedJob(disk),
    run(disk) {
      saveIndex(disk, ROOT, { jobs: new Map(), titles: new Map(), units: new Map() });
      return { ok: true, value: undefined, warnings: [] };
    },
    check(disk) {
      // Costs nothing but time, whatever came of it.
      expect(loadIndex(disk, ROOT)).toEqual({ jobs: new Map(), titles: new Map(), units: new Map() });
      expect(readEvents(disk, ROOT, JOB, 'P01-1')).toMatchObject({ ok: true });
    },
  },
  'the journal of set-ups': {
    before: (disk) => sure(appendSetupLog(disk, ROOT, [firstOff('saw')], stamp())),
    run: (disk) => appendSetupLog(disk, ROOT, [firstOff('mill')], stamp(1)),
    check(disk, done) {
      const events = readSetupLog(disk, ROOT);
      if (!events.ok) throw new Error(events.problems[0]!.text);
      const setups = events.value.map((event) => (event as { setup?: string }).setup);
      expect(setups[0]).toBe('saw');
      expect(new Set(setups.slice(1)).size).toBeLessThanOrEqual(1);
      if (done) expect(setups).toContain('mill');
    },
  },
  'a journal of practice that has a torn end': {
    before(disk) {
      sure(practice(disk, 'one'));
      const handle = disk.open(`${ROOT}/practice/people/jb.jsonl`, 'append');
      disk.write(handle, Buffer.from('{"at":"20'), 0);
      disk.close(handle);
    },
    run: (disk) => practice(disk, 'two'),
    check(disk, done) {
      const text = disk.read(`${ROOT}/practice/people/jb.jsonl`).toString();
      expect(text).toContain('"text":"one"');
      if (done) expect(text.split('\n').slice(0, -1).length).toBeGreaterThanOrEqual(2);
    },
  },
};

describe.each(Object.keys(OPERATIONS))('%s', (name) => {
  it.each(FAULTS.map((fault) => [nameOf(fault), fault] as const))('%s at the n-th call', (_, fault) => {
    const operation = OPERATIONS[name]!;
    let nth = 1;
    for (let reached = true; reached; nth++) {
      const base = new CrashDisk();
      prepare(base);
      operation.before?.(base);
      const disk = faulty(base, nth, fault);
      const about = (): string => `call ${nth} (${disk.log.at(-1)})`;
      let done = false;
      try {
        const result = operation.run(disk);
        done = result.ok;
        if (!result.ok)
          for (const { id, text, todo } of result.problems) {
            expect(id, about()).toMatch(/^(disk|journal|archive)\./);
            expect(text !== '' && todo !== '', about()).toBe(true);
          }
      } catch (error) {
        if (!(error instanceof Crash)) throw new Error(`${about()}: ${(error as Error).stack}`);
      }
      reached = disk.struck();
      operation.check(base, done);
      if (fault.kind === 'error' || fault.kind === 'short') noTemporary(base, about());
      // A lock of a process that died is taken over (tests/store/lock.test.ts); this one lives.
      if (fault.kind.startsWith('crash'))
        for (const path of base.files().keys()) if (path.endsWith('.lock')) base.unlink(path);
      // Whoever comes next, on a disk that works.
      const again = operation.run(base);
      expect(
        again.ok || again.problems[0]!.id === 'archive.not-removed',
        `${about()}: ${JSON.stringify(again)}`,
      ).toBe(true);
      operation.check(base, again.ok);
    }
    expect(nth).toBeGreaterThan(3);
  });
});

it('a new workshop is made whole, or can be told from one', () => {
  for (const fault of FAULTS) {
    let nth = 1;
    for (let reached = true; reached; nth++) {
      const base = new CrashDisk();
      prepare(base);
      for (const folder of ['from', 'from/procedures', 'from/shared', 'from/logs'])
        base.mkdir(`${ROOT}/${folder}`);
      for (const file of ['procedures/a.yaml', 'shared/b.yaml', 'logs/README.md'])
        put(base, `${ROOT}/from/${file}`, file);
      const disk = faulty(base, nth, fault);
      let ok = false;
      try {
        ok = makeWorkshop(disk, `${ROOT}/from`, `${ROOT}/to`).ok;
      } catch (error) {
        if (!(error instanceof Crash)) throw error;
      }
      reached = disk.struck();
      for (const file of ['procedures/a.yaml', 'shared/b.yaml', 'logs/README.md']) {
        const there = base.stat(`${ROOT}/to/${file}`);
        if (there) expect(base.read(`${ROOT}/to/${file}`).toString()).toBe(file);
        if (ok) expect(there, `${nameOf(fault)}, call ${nth}`).toBeDefined();
      }
    }
    expect(nth).toBeGreaterThan(20);
  }
});

function sealOf(lines: number) {
  const hash = String(lines).repeat(64);
  return makeJobSeal(JOB, [{ unit: 'P01-1', lines, hash }], { at: stamp().at, bench: 'bench-1' });
}

function practice(disk: Disk, text: string): Result<unknown> {
  return appendChainLog(
    disk,
    ROOT,
    { path: ['practice', 'people', 'jb'], wrongWith: () => undefined },
    stamp(),
    () => [{ kind: 'noted', text } as never],
  );
}

function noTemporary(disk: CrashDisk, about: string): void {
  const left = [...disk.files().keys()].filter((path) => /\.(tmp|gone)$/.test(path));
  // A lock's own name may stay where removing it was the call that failed.
  expect(
    left.filter((path) => !path.includes('.lock.')),
    about,
  ).toEqual([]);
}

function sure<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
}
