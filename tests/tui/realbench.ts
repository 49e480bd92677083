/** A bench over a workshop of its own on the real disk, with a clock that the test sets. All data is invented. */
import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { type Problem, problemText } from '../../src/base/problem.js';
import type { Acted, Hand } from '../../src/session/ports.js';
import { type RealPorts, realPorts } from '../../src/session/workshopports.js';
import { realDisk } from '../../src/store/disk.js';
import { makeWorkshop } from '../../src/store/makeworkshop.js';
import { type Core, makeCore } from '../../src/tui/loop.js';
import { listOf } from '../../src/tui/screens/screens.js';
import type { Action, BenchAction } from '../../src/unit/actions.js';
import { nextMove } from '../../src/unit/autopilot.js';
import { newPicture } from '../picture.js';

/** PINs of the demonstration's invented people, as shared/people.yaml says. */
export const PINS = { ot: '2705', mv: '4168' };
export const RIGHT = '\u001b[C';
export const LEFT = '\u001b[D';
/** Keys of the saw's form: its looks, then each reading with its instrument. */
export const sawReadings = (gap: string, length = '500'): readonly string[] => [
  ...Array<string>(7).fill(RIGHT),
  ...['F1', gap, 'F1', '0.05', 'A1', '45', 'R1', length].map((text) => `${text}\r`),
];
const UP = '\u001b[A';
export const DOWN = '\u001b[B';
export const ESC = '\u001b';
export const SETUPS = '\u0004';
export const OVERVIEW = '\u000f';

export interface Clock {
  /** The wall clock, ms. */
  wall: number;
  /** The clock that only goes forward, ms. */
  steady: number;
}
export const pass = (clock: Clock, ms: number): void => {
  clock.wall += ms;
  clock.steady += ms;
};

/** A workshop folder as `init` makes it. */
export function workshop(): string {
  const root = join(mkdtempSync(join(tmpdir(), 'pinchrod-')), 'shop');
  const made = makeWorkshop(realDisk, resolve(import.meta.dirname, '../..'), root);
  if (!made.ok) throw new Error(made.problems.map(problemText).join('\n'));
  return root;
}
export function freshBench(): { readonly root: string; readonly clock: Clock; readonly bench: Bench } {
  const root = workshop();
  const clock = startClock();
  return { root, clock, bench: benchOf(root, clock) };
}
export function leaveBench(bench: Bench, root: string): void {
  bench.ports.close();
  remove(root);
}
/** The same with the small job of the museum of errors: S01-1 is built in five steps, S02-1 is refused by its order check. */
export function smallWorkshop(): string {
  const root = workshop();
  const small = resolve(import.meta.dirname, '../errors/_small');
  cpSync(small, root, { recursive: true });
  return root;
}
export const remove = (root: string): void => rmSync(join(root, '..'), { recursive: true, force: true });

export function startClock(): Clock {
  return { wall: Date.UTC(2026, 2, 2, 8), steady: 1_000_000 };
}

export function portsOf(root: string, clock: Clock, bench = 'bench-t'): RealPorts {
  const made = realPorts({ workshop: root, clock: () => clock.wall, steady: () => clock.steady, bench });
  if (!made.ok) throw new Error(made.problems.map(problemText).join('\n'));
  ROOTS.set(made.value, root);
  return made.value;
}
/** The folder of each bench opened here. */
const ROOTS = new WeakMap<RealPorts, string>();

export interface Bench {
  readonly ports: RealPorts;
  /** Every action that the bench's keys came to. */
  readonly asked: readonly BenchAction[];
  readonly core: Core;
  /** Each chunk as a terminal sends it, so many ms after the one before. */
  press(...chunks: string[]): void;
  /** The list on the screen. */
  texts(): readonly string[];
  /** Marks the first item of the list that has this in it, and takes it. */
  choose(part: string): void;
}

export function benchOf(root: string, clock: Clock, bench?: string): Bench {
  const ports = portsOf(root, clock, bench);
  const asked: BenchAction[] = [];
  const core = makeCore({
    world: () => ports.world(),
    open: (unit, who) => ports.open(unit, who),
    act(action, hand) {
      asked.push(action);
      return ports.act(action, hand);
    },
    refresh: () => ports.refresh(),
    reread: (lookOnly) => ports.reread(lookOnly),
    close: () => ports.close(),
  });
  const press = (...chunks: string[]): void => {
    for (const chunk of chunks) {
      pass(clock, 20_000);
      core.feed(chunk);
      core.quiet();
    }
  };
  const texts = () => listOf(core.state(), core.world()).map(({ text }) => text);
  return {
    ports,
    asked,
    core,
    press,
    texts,
    choose(part) {
      const at = texts().findIndex((text) => text.includes(part));
      if (at === -1)
        throw new Error(
          `[${core.state().screen.name}; ${core.state().note?.text}] nothing with "${part}" in:\n${texts().join('\n')}`,
        );
      for (let i = 0; i <= 2 * texts().length; i += 1) {
        const { cursor } = core.state().screen;
        if (cursor.moved && cursor.at === at) break;
        press(cursor.at > at ? UP : DOWN);
      }
      press(RIGHT);
    },
  };
}

export interface Worked {
  readonly hand: Hand;
  readonly problem?: Problem;
  readonly action?: Action;
}

/** Works on the open unit, a minute an answer, until an action is not done, the next is one at which to stop, or nothing is left. */
export function work(
  ports: RealPorts,
  clock: Clock,
  stopAt: (action: Action) => boolean,
  evidence = 'photo.jpg',
): Worked {
  let person: string | undefined;
  let inHand: string | undefined;
  for (let i = 0; i < 3000; i += 1) {
    const { now, bench, rules, instruments, open } = ports.world();
    const context = { now, bench, person, inHand, workshop: rules, instruments };
    const move = nextMove(open!.state, context, { pins: PINS, evidence });
    if (move.kind === 'finished') return { hand: { person, inHand } };
    if (move.kind === 'stuck') throw new Error(move.why);
    if (move.kind === 'wait') {
      pass(clock, Date.parse(move.until) + 1000 - clock.wall);
      continue;
    }
    const { action } = move;
    if (action.do === 'person') person = action.person;
    else if (action.do === 'instrument') {
      const tool = instruments.find(({ id }) => id === action.instrument)!;
      inHand = tool.id;
    } else {
      if (stopAt(action)) return { hand: { person, inHand }, action };
      pass(clock, 60_000);
      if ('evidence' in action && action.evidence) newPicture(join(ROOTS.get(ports)!, evidence));
      const acted: Acted = ports.act(action, { person, inHand });
      if (acted.kind === 'refused') return { hand: { person, inHand }, problem: acted.problem, action };
      if (acted.kind !== 'done') throw new Error(JSON.stringify(acted));
    }
  }
  throw new Error('too long');
}
