/** The wall clock held against a clock that goes on while the machine sleeps, and a quicker one that does not. */
import { expect, it } from 'vitest';
import { SteadyClock } from '../../src/bench/real/steadyclock.js';

const HOUR = 3_600_000;

function clocks() {
  const time = { wall: Date.UTC(2026, 2, 2, 8), quick: 0, steady: 500, asked: 0 };
  const steady = () => {
    time.asked += 1;
    return time.steady;
  };
  const clock = new SteadyClock(
    () => time.wall,
    steady,
    () => time.quick,
  );
  time.asked = 0;
  const work = (ms: number) => {
    time.wall += ms;
    time.quick += ms;
    time.steady += ms;
  };
  const sleep = (ms: number) => {
    time.wall += ms;
    time.steady += ms;
  };
  return { time, clock, work, sleep, now: () => clock.jump(time.wall) };
}

it('the slow clock is not asked while the quick one agrees with the wall clock', () => {
  const { time, clock, work, now } = clocks();
  for (let i = 0; i < 5; i++) {
    work(HOUR);
    expect(now()).toBeUndefined();
    clock.noted(time.wall);
  }
  expect(time.asked).toBe(0);
});

it('sleep is no jump, before and after something was noted', () => {
  const { time, clock, work, sleep, now } = clocks();
  work(HOUR);
  clock.noted(time.wall);
  sleep(8 * HOUR);
  expect(now()).toBeUndefined();
  clock.noted(time.wall);
  work(HOUR);
  expect(now()).toBeUndefined();
  expect(clock.unjumped(time.wall)).toBe(new Date(time.wall).toISOString());
});

it('a clock that was set is a jump, also over a sleep and after hours of quiet work', () => {
  const { time, clock, work, sleep, now } = clocks();
  work(HOUR);
  clock.noted(time.wall);
  work(HOUR);
  clock.noted(time.wall);
  sleep(8 * HOUR);
  const right = time.wall;
  time.wall += 2 * HOUR;
  const jump = { from: new Date(right).toISOString(), to: new Date(time.wall).toISOString() };
  expect(now()).toEqual(jump);
  expect(clock.unjumped(time.wall)).toBe(jump.from);
  clock.noted(time.wall);
  work(HOUR);
  expect(now()).toBeUndefined();
});
