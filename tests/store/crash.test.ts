/**
 * Power cuts and kills over a model of a disk. The laws: what was acknowledged is recovered, once; what is recovered is a
 * beginning of what was written; recovery twice gives the same bytes; a crash inside recovery changes nothing. Each law's
 * test is also run over lowdb's own file adapter, which must fail it: a test that it passes would prove nothing.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Disk } from '../../src/store/disk.js';
import { makeFolders } from '../../src/store/files.js';
import { type Host, takeLock } from '../../src/store/lock.js';
import { journalPlace } from '../../src/store/paths.js';
import { type Chooser, CrashDisk } from './crashdisk.js';
import { Crash, faulty } from './faultdisk.js';
import { type OpenWriter, ours, prepare, ROOT, registering, stock } from './writers.js';

const SCRIPT: readonly (readonly string[])[] = [['opened', 'a'], ['b'], ['c', 'd'], ['e']];

/** What a program had acknowledged, and what it had asked to be written, when it died. */
interface Told {
  readonly acknowledged: readonly string[];
  readonly attempted: readonly string[];
}

describe('every power cut of a short run', () => {
  it('loses nothing of our journal', () => {
    const { states, bad } = everyCut(ours);
    expect(states).toBeGreaterThan(700);
    expect(bad).toEqual([]);
  });

  it('loses no entry of the register, and leaves none ahead of its journal', () => {
    const { states, bad } = everyCut(registering, { ways: (disk) => someWays(disk, 25) });
    expect(states).toBeGreaterThan(700);
    expect(bad).toEqual([]);
  });

  it('would leave entries ahead of the journal if that were not flushed', () => {
    const unflushed: OpenWriter = (disk) => registering(without(disk, 'flush'));
    expect(everyCut(unflushed, { ways: (disk) => someWays(disk, 25) }).bad.length).toBeGreaterThan(10);
  });

  it('loses acknowledged events of the adapter that lowdb brings', () => {
    const { states, bad } = everyCut(stock, { ways: (disk) => everyWay(disk, 60) });
    expect(states).toBeGreaterThan(100);
    expect(bad.length).toBeGreaterThan(states / 10);
  });

  it('would lose events if the folder were not flushed', () => {
    const unflushed: OpenWriter = (disk) => ours(without(disk, 'flushFolder'));
    expect(everyCut(unflushed, { ways: (disk) => everyWay(disk, 60) }).bad.length).toBeGreaterThan(10);
  });

  it('would lose events if the file were not flushed', () => {
    const unflushed: OpenWriter = (disk) => ours(without(disk, 'flush'));
    expect(everyCut(unflushed, { ways: (disk) => everyWay(disk, 60) }).bad.length).toBeGreaterThan(10);
  });
});

it('a lock that a power cut leaves is whole, so that whoever comes next can take it over', () => {
  const place = journalPlace(ROOT, 'pier-house', 'P01-1');
  if (!place.ok) throw new Error('no place');
  const host = (pid: number): Host => ({
    host: 'h',
    machine: 'm',
    boot: 'b',
    pid,
    token: `t${pid}`,
    started: (asked) => (asked === pid ? 's' : undefined),
  });
  const take = (disk: Disk, pid: number) =>
    takeLock(disk, place.value, host(pid), { bench: 'bench-1', who: '' });
  let states = 0;
  for (let nth = 1, reached = true; reached; nth++) {
    const disk = new CrashDisk();
    prepare(disk);
    makeFolders(disk, ROOT, ['logs', 'pier-house']);
    const dying = faulty(disk, nth, { kind: 'crash-before' });
    try {
      take(dying, 1);
    } catch (error) {
      if (!(error instanceof Crash)) throw error;
    }
    reached = dying.struck();
    for (const cut of everyWay(disk, 10)) {
      states++;
      expect(take(cut, 2).ok, `call ${nth}`).toBe(true);
    }
  }
  expect(states).toBeGreaterThan(10);
});

describe('random runs of appends, kills, power cuts and crashes inside recovery', () => {
  const step = fc.oneof(
    {
      weight: 4,
      arbitrary: fc.record({ do: fc.constant('append' as const), count: fc.integer({ min: 1, max: 3 }) }),
    },
    {
      weight: 2,
      arbitrary: fc.record({
        do: fc.constant('die' as const),
        at: fc.integer({ min: 1, max: 14 }),
        after: fc.boolean(),
        power: fc.boolean(),
      }),
    },
    {
      weight: 1,
      arbitrary: fc.record({ do: fc.constant('cut' as const), at: fc.integer({ min: 0, max: 12 }) }),
    },
  );
  const run = fc.tuple(
    fc.array(step, { minLength: 1, maxLength: 14 }),
    fc.array(fc.nat(10_000), { minLength: 8, maxLength: 60 }),
  );

  const property = (open: OpenWriter) =>
    fc.property(run, ([steps, choices]) => {
      let at = 0;
      const choose: Chooser = (most) => choices[at++ % choices.length]! % (most + 1);
      let disk = new CrashDisk();
      prepare(disk);
      let told: Told = { acknowledged: [], attempted: [] };
      let writer: Writer | undefined;
      let word = 0;
      const appendTo = (target: ReturnType<OpenWriter>, count: number): void => {
        const texts = Array.from({ length: count }, () => `w${word++}`);
        if (target.texts.length === 0) texts[0] = 'opened';
        told = { acknowledged: target.texts, attempted: [...target.texts, ...texts] };
        target.append(texts);
        told = { acknowledged: target.texts, attempted: target.texts };
      };
      const reopen = (): ReturnType<OpenWriter> => {
        const opened = open(disk);
        held(told, opened.texts);
        told = { acknowledged: opened.texts, attempted: opened.texts };
        return opened;
      };
      for (const each of steps) {
        if (each.do === 'append') {
          writer ??= reopen();
          appendTo(writer, each.count);
        } else if (each.do === 'die') {
          // The program dies at a call of opening or of the append after it; then the power fails or does not.
          writer = undefined;
          try {
            const dying = open(faulty(disk, each.at, { kind: each.after ? 'crash-after' : 'crash-before' }));
            held(told, dying.texts);
            told = { acknowledged: dying.texts, attempted: dying.texts };
            appendTo(dying, 2);
          } catch (error) {
            if (!(error instanceof Crash) && !String(error).includes('dead')) throw error;
          }
          if (each.power) disk = disk.powerCut(choose);
        } else {
          writer = undefined;
          disk = disk.powerCut(choose);
          // A crash inside recovery, then recovery again: as if there had been no crash.
          const untouched = disk.powerCut(() => 0);
          const without_ = untouched;
          const expected = open(without_).texts;
          try {
            open(faulty(disk, each.at, { kind: 'crash-before' }));
          } catch (error) {
            if (!(error instanceof Crash)) throw error;
          }
          disk = disk.powerCut(choose);
          writer = reopen();
          expect(writer.texts).toEqual(expected);
          const bytes = disk.files();
          writer.close();
          writer = reopen();
          expect(disk.files()).toEqual(bytes);
        }
      }
      writer = undefined;
      disk = disk.powerCut(choose);
      reopen();
    });
  type Writer = ReturnType<OpenWriter>;

  it('hold the laws with our journal', () => {
    fc.assert(property(ours), { seed: 20260302, numRuns: 400 });
  });

  it('hold the laws with the register beside it', () => {
    fc.assert(property(registering), { seed: 20260302, numRuns: 40 });
  });

  it('break them with the adapter that lowdb brings', () => {
    expect(fc.check(property(stock), { seed: 20260302, numRuns: 400 }).failed).toBe(true);
  });
});

/** Runs the script, dies at every call, and tries every way in which the power cut can go. */
function everyCut(
  open: OpenWriter,
  {
    ways = (disk: CrashDisk) => everyWay(disk, 5),
  }: { readonly ways?: (disk: CrashDisk) => Iterable<CrashDisk> } = {},
): { states: number; bad: string[] } {
  let states = 0;
  const bad: string[] = [];
  for (let nth = 1; ; nth++) {
    const disk = new CrashDisk();
    prepare(disk);
    const dying = faulty(disk, nth, { kind: 'crash-before' });
    const told = runScript(open, dying);
    for (const cut of ways(disk)) {
      states++;
      try {
        held(told, open(cut).texts);
      } catch (error) {
        bad.push(`call ${nth}: ${(error as Error).message.split('\n')[0]}`);
      }
    }
    if (!dying.struck()) return { states, bad };
  }
}

function runScript(open: OpenWriter, disk: Disk): Told {
  let told: Told = { acknowledged: [], attempted: [] };
  try {
    const writer = open(disk);
    for (const texts of SCRIPT) {
      told = { acknowledged: writer.texts.slice(), attempted: [...writer.texts, ...texts] };
      writer.append(texts);
      told = { acknowledged: writer.texts.slice(), attempted: writer.texts.slice() };
    }
  } catch (error) {
    if (!(error instanceof Crash)) throw error;
  }
  return told;
}

/** Nothing of what was not flushed, all of it, and random ways between: where every one would be too many. */
function* someWays(disk: CrashDisk, count: number): Generator<CrashDisk> {
  yield disk.powerCut(() => 0);
  yield disk.powerCut((most) => most);
  let state = 20260302;
  for (let i = 0; i < count; i++)
    yield disk.powerCut((most) => {
      state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
      return Math.floor((state / 2 ** 32) * (most + 1));
    });
}

/** Every combination of choices; of byte positions the first, the last, and some between. */
function* everyWay(disk: CrashDisk, every: number): Generator<CrashDisk> {
  const path: { most: number; at: number }[] = [];
  for (;;) {
    let depth = 0;
    const choose: Chooser = (most) => {
      const step = path[depth] ?? { most: points(most, every).length - 1, at: 0 };
      path[depth++] = step;
      return points(most, every)[step.at]!;
    };
    yield disk.powerCut(choose);
    path.length = depth;
    while (path.length > 0 && path.at(-1)!.at === path.at(-1)!.most) path.pop();
    if (path.length === 0) return;
    path.at(-1)!.at++;
  }
}

const points = (most: number, every: number): number[] =>
  Array.from({ length: most + 1 }, (_, i) => i).filter(
    (i) => most <= 8 || i % every === 0 || i === 1 || i >= most - 2,
  );

function held(told: Told, recovered: readonly string[]): void {
  if (recovered.length < told.acknowledged.length)
    throw new Error(`${told.acknowledged.length - recovered.length} acknowledged lost`);
  expect(recovered).toEqual(told.attempted.slice(0, recovered.length));
}

/** A disk on which one kind of call does nothing. */
function without(disk: Disk, call: keyof Disk): Disk {
  return new Proxy(disk, {
    get: (target, name) => {
      if (name === call) return () => undefined;
      const value = Reflect.get(target, name) as unknown;
      return typeof value === 'function' ? value.bind(target) : value;
    },
  });
}
