/**
 * Two terminals on one folder, interleaved in any order: opening, answering, failing, reworking, leaving, dying and taking
 * over, through the real store. Whatever they do, the journal is one valid chain, nobody's entry is lost or written twice,
 * and both see the same unit.
 */

import { existsSync, readFileSync, rmSync, statSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, expect, it } from 'vitest';
import type { RealPorts } from '../../src/session/workshopports.js';
import { realDisk } from '../../src/store/disk.js';
import { readEvents } from '../../src/store/journal.js';
import { verifyTree } from '../../src/store/verify.js';
import type { Action } from '../../src/unit/actions.js';
import { nextMove } from '../../src/unit/autopilot.js';
import type { JournalEvent } from '../../src/unit/events.js';
import { newPicture } from '../picture.js';
import { withoutRegister } from '../registerless.js';
import { faults } from '../unit/oracle.js';
import { type Clock, PINS, pass, portsOf, remove, smallWorkshop, startClock } from './realbench.js';

/** One folder, its logs new for each run. */
const root = smallWorkshop();
newPicture(join(root, 'photo.jpg'));
afterAll(() => remove(root));

const move = fc.record({
  who: fc.constantFrom(0, 1),
  what: fc.oneof(
    { weight: 10, arbitrary: fc.constant('go on' as const) },
    { weight: 3, arbitrary: fc.constantFrom('open' as const, 'close' as const, 'look' as const) },
    {
      weight: 2,
      arbitrary: fc.constantFrom('fail' as const, 'rework' as const, 'undo' as const, 'note' as const),
    },
    { weight: 1, arbitrary: fc.constantFrom('die' as const, 'take over' as const, 'jump' as const) },
  ),
  /** How many times in a row. */
  times: fc.integer({ min: 1, max: 6 }),
});
type Move = typeof move extends fc.Arbitrary<infer T> ? T : never;

const PEOPLE = ['jb', 'mv'] as const;

class Terminals {
  readonly root = root;
  readonly clock: Clock = startClock();
  readonly ports: RealPorts[];
  /** What each entry that was acknowledged said of itself. */
  readonly told: JournalEvent[] = [];

  constructor() {
    rmSync(join(root, 'logs/small'), { recursive: true, force: true });
    withoutRegister(root);
    this.ports = [0, 1].map((i) => portsOf(this.root, this.clock, `bench-${i}`));
  }

  do({ who, what, times }: Move): void {
    const ports = this.ports[who]!;
    pass(this.clock, 60_000);
    switch (what) {
      case 'open':
        ports.open('S01-1', PEOPLE[who]);
        return;
      case 'close':
        ports.close();
        return;
      case 'look':
        ports.refresh();
        this.agree(ports);
        return;
      case 'jump':
        this.clock.wall += times % 2 === 0 ? 7_200_000 : -7_200_000;
        return;
      case 'die': {
        // The program is gone and its lock is left: a process that is no more has it.
        this.relock((holder) => ({ ...holder, pid: 4_194_303, token: 'dead' }), `bench-${who}`);
        this.ports[who] = portsOf(this.root, this.clock, `bench-${who}`);
        return;
      }
      case 'take over':
        this.takeOver(who);
        return;
      default:
        for (let i = 0; i < times; i += 1) this.act(who, what);
    }
  }

  /** As if the other terminal were on another machine: its lock is honoured until this one's person takes the unit over. */
  takeOver(who: number): void {
    const other = `bench-${1 - who}`;
    if (!this.relock((holder) => ({ ...holder, host: 'another', token: 'far' }), other)) return;
    const ports = this.ports[who]!;
    ports.open('S01-1', PEOPLE[who]);
    const acted = ports.act({ do: 'take-over', reason: 'left open' }, { person: PEOPLE[who] });
    if (acted.kind === 'done') this.told.push(...acted.events);
    expect(acted.kind).toBe('done');
  }

  /** Rewrites the lock where that bench has it, the file staying the one that it knows. */
  relock(change: (holder: object) => object, bench: string): boolean {
    const lock = join(this.root, 'logs/small/S01-1.lock');
    if (!existsSync(lock)) return false;
    const holder = JSON.parse(readFileSync(lock, 'utf8')) as { bench: string };
    if (holder.bench !== bench) return false;
    const { atimeMs, mtimeMs } = statSync(lock);
    writeFileSync(lock, `${JSON.stringify(change(holder))}\n`);
    utimesSync(lock, atimeMs / 1000, mtimeMs / 1000);
    return true;
  }

  act(who: number, what: 'go on' | 'fail' | 'rework' | 'undo' | 'note'): void {
    const ports = this.ports[who]!;
    const { open, now, rules, instruments, bench } = ports.world();
    if (!open) return;
    let person: string = PEOPLE[who]!;
    let inHand = 'T2';
    let action: Action = { do: 'note', text: `seen from ${bench}` };
    if (what === 'fail') action = { do: 'answer', check: 'seal/play', value: 'no' };
    if (what === 'rework') action = { do: 'rework', step: 'seal', reason: 'again' };
    if (what === 'undo') action = { do: 'undo', reason: 'typed wrongly' };
    if (what === 'go on') {
      for (let i = 0; i < 4; i += 1) {
        const context = { now, bench, person, inHand, workshop: rules, instruments };
        const next = nextMove(open.state, context, { pins: PINS, evidence: 'photo.jpg' });
        if (next.kind === 'wait') {
          pass(this.clock, Math.max(0, Date.parse(next.until) - this.clock.wall) + 1000);
          return;
        }
        if (next.kind !== 'act') return;
        if (next.action.do === 'person') person = next.action.person;
        else if (next.action.do === 'instrument') inHand = next.action.instrument;
        else action = next.action;
      }
    }
    if ('evidence' in action && action.evidence) newPicture(join(this.root, 'photo.jpg'));
    const before = open.state.events.length;
    const acted = ports.act(action, { person, inHand });
    if (acted.kind === 'done') this.told.push(...acted.events);
    // Read only, or taken over: nothing came into this unit from here.
    else if (open.readOnly !== undefined) expect(ports.world().open!.state.events.length).toBe(before);
  }

  onDisk(): readonly JournalEvent[] {
    const read = readEvents(realDisk, this.root, 'small', 'S01-1');
    if (!read.ok) throw new Error(read.problems[0]!.text);
    return read.value;
  }

  /** What a terminal shows is what is on disk; one that only looks is at most a second behind. */
  agree(ports: RealPorts): void {
    pass(this.clock, 2000);
    const { open } = ports.world();
    if (open?.readOnly !== undefined) expect(open.state.events.length).toBe(this.onDisk().length);
  }

  check(): void {
    const events = this.onDisk();
    expect(events.map(({ n }) => n)).toEqual(events.map((_, i) => i + 1));
    const lines = new Set(events.map(({ hash }) => hash));
    expect(this.told.filter(({ hash }) => !lines.has(hash))).toEqual([]);
    expect(new Set(this.told.map(({ n }) => n)).size).toBe(this.told.length);
    if (events.length > 0)
      expect(verifyTree(realDisk, this.root)).toMatchObject({ holds: true, journals: 1 });
    for (const ports of this.ports) ports.close();
    const fresh = portsOf(this.root, this.clock, 'bench-2');
    this.relock((holder) => ({ ...holder, pid: 4_194_303, token: 'dead' }), 'bench-0');
    this.relock((holder) => ({ ...holder, pid: 4_194_303, token: 'dead' }), 'bench-1');
    expect(fresh.open('S01-1')).toEqual({ kind: 'open' });
    const { state } = fresh.world().open!;
    expect(state.events.length).toBe(events.length);
    if (state.finished) expect(faults(state.route, state.events)).toEqual([]);
    fresh.close();
  }
}

it('give one valid chain in any order', () => {
  let entries = 0;
  let finished = 0;
  fc.assert(
    fc.property(fc.array(move, { minLength: 20, maxLength: 70 }), (moves) => {
      const both = new Terminals();
      for (const each of moves) both.do(each);
      both.check();
      entries += both.told.length;
      finished += both.told.some(({ kind }) => kind === 'finished') ? 1 : 0;
    }),
    { seed: 20261125, numRuns: 15 },
  );
  // The moves really wrote, and some units were built to the end by both.
  expect(entries).toBeGreaterThan(100);
  expect(finished).toBeGreaterThan(0);
}, 60_000);
