/** An answer says for how long its question stood on the screen; looking something up in between takes nothing off. */
import { afterAll, expect, it } from 'vitest';
import { proveSetups } from '../../src/session/setups.js';
import { freshBench, leaveBench } from './realbench.js';

const { root, clock, bench } = freshBench();
afterAll(() => leaveBench(bench, root));
const RIGHT = '\u001b[C';
const last = () => bench.core.world().open!.state.events.at(-1)!;
const pass = (ms: number) => {
  clock.wall += ms;
  clock.steady += ms;
  bench.core.tick();
};

it('is counted from when it came up', () => {
  proveSetups(bench.ports);
  bench.press('P01-1\r', 'jb\r');
  const before = clock.wall;
  pass(7000);
  bench.press('\u001b[15~', '\u001b');
  pass(3000);
  bench.press(RIGHT);
  const event = last();
  if (event.kind !== 'answered') throw new Error(event.kind);
  expect(event.stood).toBeGreaterThanOrEqual(10);
  expect(event.stood).toBeLessThanOrEqual((clock.wall - before) / 1000 + 60);
  // The next question came up with this answer.
  const then = clock.wall;
  bench.press('frame\r');
  const next = last();
  expect(next.kind === 'answered' && next.stood! <= (clock.wall - then) / 1000 + 0.1).toBe(true);
});
