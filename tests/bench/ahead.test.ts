/**
 * Two benches that do the same at the same moments, one told ahead what might be answered and one not: whatever lies
 * between the telling and the answer, both say the same and write the same bytes.
 */
import { appendFileSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Hand } from '../../src/bench/ports.js';
import type { RealPorts } from '../../src/bench/ports-real.js';
import { Ahead } from '../../src/bench/real/ahead.js';
import type { Action } from '../../src/build/actions.js';
import { decide } from '../../src/build/decide.js';
import { nextMove } from '../../src/build/driver.js';
import type { Surroundings } from '../../src/build/types.js';
import { realDisk } from '../../src/store/disk.js';
import {
  benchOf,
  type Clock,
  PINS,
  pass,
  portsOf,
  RIGHT,
  remove,
  smallWorkshop,
  startClock,
} from './realbench.js';

const roots = [smallWorkshop(), smallWorkshop()] as const;
for (const root of roots) {
  writeFileSync(join(root, 'photo.jpg'), 'picture');
  // Answered within twenty seconds, a step is marked as a burst.
  const file = join(root, 'procedures/small.yaml');
  writeFileSync(file, readFileSync(file, 'utf8').replaceAll(/^( +)why:/gm, '$1leastSeconds: 20\n$1why:'));
}
afterAll(() => roots.forEach(remove));
afterEach(() => vi.restoreAllMocks());

const UNIT = 'S01-1';
const KEPT = { sha256: 'a'.repeat(64), name: 'photo.jpg', bytes: 7 };
const CHANGED = ['people', 'instruments'] as const;
const FILES = CHANGED.map((name) => readFileSync(join(roots[0], `shared/${name}.yaml`), 'utf8'));
/** The workshop as it was, with nothing begun. */
function anew(root: string): void {
  for (const folder of ['logs/small', 'practice'])
    rmSync(join(root, folder), { recursive: true, force: true });
  CHANGED.forEach((name, i) => {
    writeFileSync(join(root, `shared/${name}.yaml`), FILES[i]!);
  });
}
const journalOf = (root: string) => readFileSync(join(root, `logs/small/${UNIT}.jsonl`), 'utf8');

const move = fc.record({
  what: fc.oneof(
    { weight: 12, arbitrary: fc.constant('go on' as const) },
    { weight: 3, arbitrary: fc.constantFrom('fail' as const, 'rework' as const, 'undo' as const) },
  ),
  /** What happens between the telling and the answer. */
  between: fc.oneof(
    { weight: 8, arbitrary: fc.constant('nothing' as const) },
    {
      weight: 6,
      arbitrary: fc.constantFrom(
        ...(['a moment', 'seconds', 'seconds', 'the clock is set', 'the clock is set a little'] as const),
        ...(['a note', 'another person', 'another instrument', 'somebody is signed off'] as const),
        ...(['it is let go', 'people change', 'instruments change', 'it is answered'] as const),
      ),
    },
  ),
  seconds: fc.integer({ min: 0, max: 40 }),
  pause: fc.integer({ min: 0, max: 6 }),
});
type Move = typeof move extends fc.Arbitrary<infer T> ? T : never;

class Pair {
  readonly clock: Clock = startClock();
  readonly ports: readonly RealPorts[];
  person = 'jb';
  tape = 'T2';

  constructor() {
    roots.forEach(anew);
    this.ports = roots.map((root) => portsOf(root, this.clock));
    this.both((ports) => ports.open(UNIT, 'jb'));
  }

  both<T>(run: (ports: RealPorts) => T): T {
    const [told, untold] = this.ports.map(run);
    expect(told).toEqual(untold);
    return told!;
  }

  hand(): Hand {
    return { person: this.person, inHand: { tape: this.tape, feeler: 'F1' } };
  }

  do({ what, between, seconds, pause }: Move): void {
    pass(this.clock, 250 * (seconds % 4) + 2000 * pause);
    const action = this.next(what);
    if (!action) return;
    const { check } = action as { check?: string };
    const others: Action[] =
      check === undefined ? [] : ['yes', 'no', '0.1'].map((value) => ({ do: 'answer', check, value }));
    this.ports[0]!.foresee([...others, action], this.hand());
    this.disturb(between, seconds, action);
    const acted = this.both((ports) => ports.act(action, this.hand()));
    if (acted.kind === 'refused' && between === 'it is let go') this.both((ports) => ports.open(UNIT, 'jb'));
  }

  /** The next answer as the driver has it; whoever and whatever it asks for is taken to hand first. */
  next(what: Move['what']): Action | undefined {
    const { open, now, rules, instruments, bench } = this.ports[1]!.world();
    if (!open) return undefined;
    if (what === 'fail') return { do: 'answer', check: 'seal/play', value: 'no' };
    if (what === 'rework') return { do: 'rework', step: 'seal', reason: 'again' };
    if (what === 'undo') return { do: 'undo', reason: 'typed wrongly' };
    for (let i = 0; i < 3; i += 1) {
      const around = { now, bench, ...this.hand(), workshop: rules, instruments };
      const next = nextMove(open.state, around, { pins: PINS, evidence: 'photo.jpg' });
      if (next.kind === 'wait') {
        pass(this.clock, Math.max(0, Date.parse(next.until) - this.clock.wall) + 1000);
        return undefined;
      }
      if (next.kind !== 'act') return undefined;
      if (next.action.do !== 'person') return next.action;
      this.person = next.action.person;
    }
    return undefined;
  }

  disturb(between: Move['between'], seconds: number, action: Action): void {
    switch (between) {
      case 'a moment':
        pass(this.clock, 20 * seconds);
        return;
      case 'seconds':
        pass(this.clock, 1000 * seconds);
        return;
      case 'the clock is set':
        this.clock.wall += seconds % 2 === 0 ? 3_600_000 : -3_600_000;
        return;
      case 'the clock is set a little':
        this.clock.wall -= 50 * seconds;
        return;
      case 'a note':
        this.both((ports) => ports.act({ do: 'note', text: 'seen' }, this.hand()));
        return;
      case 'another person':
        this.person = this.person === 'jb' ? 'mv' : 'jb';
        return;
      case 'another instrument':
        this.tape = this.tape === 'T2' ? 'T1' : 'T2';
        return;
      case 'somebody is signed off':
        for (const root of roots) {
          mkdirSync(join(root, 'practice'), { recursive: true });
          // Damaged: nobody can say any more who may do what.
          appendFileSync(join(root, 'practice/signoff.jsonl'), 'no event\n');
        }
        pass(this.clock, 1500);
        this.both((ports) => ports.act({ do: 'note', text: 'not now' }, this.hand()));
        for (const root of roots) rmSync(join(root, 'practice'), { recursive: true });
        pass(this.clock, 1500);
        return;
      case 'it is let go':
        this.both((ports) => ports.close());
        return;
      case 'it is answered':
        this.both((ports) => ports.act(action, this.hand()));
        return;
      case 'people change':
        this.change('people', 'levels: {all: 3, order: 4', 'levels: {all: 0, order: 0');
        return;
      case 'instruments change':
        this.change(
          'instruments',
          'half millimetres", resolution',
          'half millimetres", offset: 0.3, resolution',
        );
        return;
      default:
    }
  }

  /** One way, and the next time back again. */
  change(file: string, from: string, to: string): void {
    for (const root of roots) {
      const path = join(root, `shared/${file}.yaml`);
      const text = readFileSync(path, 'utf8');
      const changed = text.includes(from) ? text.replace(from, to) : text.replace(to, from);
      expect(changed).not.toBe(text);
      writeFileSync(path, changed);
    }
    this.both((ports) => ports.refresh());
  }
}

it('gives the same journal as a bench that was told nothing', () => {
  const asked = vi.spyOn(Ahead.prototype, 'of');
  const seen = { events: 0, finished: 0, bursts: 0 };
  fc.assert(
    fc.property(fc.array(move, { minLength: 20, maxLength: 60 }), (moves) => {
      const pair = new Pair();
      for (const each of moves) pair.do(each);
      pair.both((ports) => ports.close());
      const [told, untold] = roots.map((root) => journalOf(root));
      expect(told).toBe(untold);
      seen.events += told!.split('\n').length;
      seen.finished += told!.includes('"kind":"finished"') ? 1 : 0;
      seen.bursts += told!.split('"burst":true').length - 1;
    }),
    { seed: 20261129, numRuns: 25 },
  );
  const hits = asked.mock.results.filter(({ value }) => value !== undefined).length;
  const misses = asked.mock.results.length - hits;
  // Both happened, often: what was decided ahead, and what no longer counted.
  expect({ hits: hits > 100, misses: misses > 50 }).toEqual({ hits: true, misses: true });
  expect(seen.events).toBeGreaterThan(300);
  expect(seen.finished).toBeGreaterThan(0);
  expect(seen.bursts).toBeGreaterThan(0);
}, 60_000);

describe('a decision made ahead', () => {
  const clock = startClock();
  const hand = { person: 'jb', inHand: { tape: 'T2' } };
  const length: Action = { do: 'answer', check: 'cut/length', value: '900' };
  const none = { snagged: { lots: [], setups: [] }, lots: [] };
  let ports: RealPorts;
  beforeEach(() => {
    anew(roots[1]);
    ports = portsOf(roots[1], clock);
    ports.open(UNIT, 'jb');
    ports.act({ do: 'note', text: 'begun' }, hand);
  });
  afterEach(() => ports.close());
  const around = (more: object = {}): Surroundings => {
    const { now, rules, instruments, bench } = ports.world();
    return { now, bench, ...hand, workshop: rules, instruments, ...none, ...more };
  };
  const state = () => ports.world().open!.state;

  it('counts for the same answer, unit, hand, rules and a short while only', () => {
    const then = around();
    const ahead = new Ahead(state(), [length], then);
    const [decided] = ahead.all();
    expect(decided).toEqual(decide(state(), length, then));
    expect(ahead.of(state(), { ...length }, { ...then, inHand: { tape: 'T2' } })).toBe(decided);
    const at = (ms: number) => new Date(Date.parse(then.now) + ms).toISOString();
    const others: Partial<Surroundings>[] = [
      { person: 'mv' },
      { person: undefined },
      { workshop: { ...then.workshop } },
      { instruments: [...then.instruments] },
      { inHand: {} },
      { inHand: { tape: 'T1' } },
      { inHand: { tape: 'T2', feeler: 'F1' } },
      { now: at(-1) },
      { now: at(10_000) },
    ];
    for (const other of others)
      expect(ahead.of(state(), length, { ...then, ...other }), JSON.stringify(other)).toBeUndefined();
    expect(ahead.of(state(), length, { ...then, now: at(9999) })).toBe(decided);
    const actions: Action[] = [
      { ...length, value: '901' },
      { ...length, confirmed: true },
      { ...length, second: 'mv' },
      { ...length, check: 'cut/batch' },
      { do: 'note', text: 'x' },
    ];
    for (const action of actions)
      expect(ahead.of(state(), action, then), JSON.stringify(action)).toBeUndefined();
    expect(ahead.of({ ...state() }, length, then)).toBeUndefined();
  });

  it('is not kept where it rests on what is read from disk, refuses, or has parts', () => {
    expect(ports.act(length, hand).kind).toBe('done');
    const batch: Action = { do: 'answer', check: 'cut/batch', value: 'PR-77' };
    expect(new Ahead(state(), [batch], around()).all()).toEqual([]);
    expect(new Ahead(state(), [{ ...batch, value: '' }, length], around()).all()).toEqual([]);
    expect(new Ahead(state(), [{ do: 'note', text: 'x' }], around()).all()).toEqual([]);
    expect(ports.act({ ...batch, expires: '2027-01-01' }, hand).kind).toBe('done');
    const photo: Action = { do: 'answer', check: 'cut/photo', value: 'yes', evidence: ['photo.jpg'] };
    expect(new Ahead(state(), [photo], around({ evidence: { 'photo.jpg': KEPT } })).all()).toEqual([]);
  });

  it('is not kept where time may make another of it before it is looked at again', () => {
    for (const [check, value] of [
      ['cut/length', '900'],
      ['cut/batch', 'PR-77'],
    ] as const)
      expect(ports.act({ do: 'answer', check, value }, hand).kind).toBe('done');
    const photo: Action = { do: 'answer', check: 'cut/photo', value: 'yes', evidence: ['photo.jpg'] };
    expect(ports.act(photo, hand).kind).toBe('done');
    const gap: Action = { do: 'answer', check: 'seal/gap', value: '0.1' };
    const safe: Action = { do: 'answer', check: 'seal/safe', value: 'yes' };
    const play: Action = { do: 'answer', check: 'seal/play', value: 'yes' };
    const holding = { person: 'jb', inHand: { feeler: 'F1' } };
    for (const each of [gap, safe]) expect(ports.act(each, holding)).toMatchObject({ kind: 'done' });
    // The answer that completes the step, 0, 12 and 25 s after the step before it: a burst, a doubt, none.
    const kept = [0, 12, 13].map((seconds) => {
      pass(clock, 1000 * seconds);
      return new Ahead(state(), [play], around()).all().map(({ events }) => events.at(-1));
    });
    expect(kept).toMatchObject([[{ burst: true }], [], [{ kind: 'answered' }]]);
    expect(kept[2]![0]).not.toHaveProperty('burst');
  });
});

describe('the bench', () => {
  const clock = startClock();

  const bench = () => {
    anew(roots[1]);
    return benchOf(roots[1], clock);
  };

  it('tells what each of its answering keys would send, and nothing changes by it', () => {
    const { ports, core, told, asked } = bench();
    const asking = vi.spyOn(Ahead.prototype, 'of');
    core.foresee();
    expect(told).toEqual([]);
    for (const keys of ['JB\r', 'T2\r', 'F1\r', `${UNIT}\r`, '900']) core.feed(keys);
    const before = { state: core.state(), version: core.version(), page: core.pageVersion() };
    core.foresee();
    expect(told).toEqual([[{ do: 'answer', check: 'cut/length', value: '900' }]]);
    expect({ state: core.state(), version: core.version(), page: core.pageVersion() }).toEqual(before);
    core.feed('\r');
    expect(asked).toEqual(told[0]);
    for (const keys of ['PR-77\r', '1\r', '0.1\r']) core.feed(keys);
    ports.act(
      { do: 'answer', check: 'cut/photo', value: 'yes', evidence: ['photo.jpg'] },
      { person: 'jb', inHand: {} },
    );
    core.tick();
    core.feed('0.1\r');
    core.foresee();
    expect(told[1]).toEqual(['yes', 'no'].map((value) => ({ do: 'answer', check: 'seal/safe', value })));
    core.feed(RIGHT);
    expect(asked.at(-1)).toEqual(told[1]![0]);
    expect(asking.mock.results.at(-1)!.value).toMatchObject({ kind: 'events', by: 'jb' });
    core.feed('?');
    core.feed('\u001bOP');
    core.foresee();
    expect(told.length).toBe(2);
    ports.close();
  });

  it('goes on where the disk cannot be read just then', () => {
    const { ports, core } = bench();
    core.feed('JB\r');
    core.feed(`${UNIT}\r`);
    pass(clock, 60_000);
    ports.act({ do: 'note', text: 'begun' }, { person: 'jb', inHand: {} });
    pass(clock, 60_000);
    const broken = vi.spyOn(realDisk, 'stat').mockImplementation(() => {
      throw Object.assign(new Error('EIO'), { code: 'EIO' });
    });
    expect(() =>
      ports.foresee([{ do: 'answer', check: 'cut/length', value: '900' }], { person: 'jb', inHand: {} }),
    ).not.toThrow();
    expect(() => ports.lookAround()).not.toThrow();
    expect(broken).toHaveBeenCalled();
    ports.close();
  });
});
