/** Ways back at the bench: Esc after a refusal, a filter that is left, a language that comes back with its person. */
import { afterEach, expect, it } from 'vitest';
import { asked, toolOffered } from '../../src/tui/currenttask.js';
import {
  type Bench,
  benchOf,
  DOWN,
  ESC,
  freshBench,
  leaveBench,
  RIGHT,
  remove,
  smallWorkshop,
  startClock,
} from './realbench.js';

const STEPS = '\u0014';
const AGAIN = '\u0012';
const leave: (() => void)[] = [];
afterEach(() => {
  for (const each of leave.splice(0)) each();
});

function small(): Bench {
  const root = smallWorkshop();
  const bench = benchOf(root, startClock());
  leave.push(() => {
    bench.ports.close();
    remove(root);
  });
  return bench;
}

it('Esc after a refusal leaves the unit at the second press, and what is measured next goes to the check', () => {
  const bench = small();
  bench.press('OT\r', 'T2\r', 'S01-1\r', 'nine\r');
  expect(bench.core.state()).toMatchObject({ screen: { name: 'step' }, entry: '', note: { tone: 'bad' } });
  bench.press(ESC);
  bench.core.quiet();
  expect(bench.core.state().screen.name).toBe('step');
  expect(bench.core.state().note).toBeUndefined();
  bench.press('900\r');
  expect(bench.core.world().open!.state.events.at(-1)).toMatchObject({
    kind: 'answered',
    answer: { kind: 'number' },
  });
  bench.press(ESC);
  bench.core.quiet();
  expect(bench.core.state().screen.name).toBe('units');
});

it('what was typed to find a step is not on the line of what opens from there', () => {
  const { bench, root } = freshBench();
  leave.push(() => leaveBench(bench, root));
  bench.press('jb\r', 'P01-1\r', RIGHT, STEPS, 'papers', DOWN, AGAIN);
  expect(bench.core.state().screen.name).toBe('form');
  expect(bench.core.state().entry).toBe('');
});

it('an instrument that does not reach so far is not offered, though it was used last', () => {
  const { bench, root } = freshBench();
  leave.push(() => leaveBench(bench, root));
  bench.press('jb\r', 'P01-1\r');
  const world = bench.core.world();
  const { check } = asked(bench.core.state(), world)!;
  const square = world
    .open!.state.route.steps.flatMap(({ checks }) => checks)
    .find(({ kind }) => kind === 'square')!;
  const last = { ...bench.core.state(), lastFor: { length: 'C1' } };
  expect(check).toBeDefined();
  expect(toolOffered(square, last, world)?.id).not.toBe('C1');
  // For what it reaches, it is.
  expect(toolOffered({ ...square, nominal: { w: 90, h: 60 } }, last, world)?.id).toBe('C1');
});
