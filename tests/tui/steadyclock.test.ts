/** The wall clock held against a clock that goes on while the machine sleeps. */
import { expect, it } from 'vitest';
import { ClockJumpDetector } from '../../src/session/shop.js';

const HOUR = 3_600_000;

function clocks() {
  const time = { wall: Date.UTC(2026, 2, 2, 8), steady: 500 };
  const clock = new ClockJumpDetector(
    () => time.wall,
    () => time.steady,
  );
  const pass = (ms: number) => {
    time.wall += ms;
    time.steady += ms;
  };
  return { time, clock, pass, now: () => clock.jump(time.wall) };
}

it('hours of work or sleep are no jump, before and after something was noted', () => {
  const { time, clock, pass, now } = clocks();
  for (const ms of [HOUR, 8 * HOUR, HOUR]) {
    pass(ms);
    expect(now()).toBeUndefined();
    expect(clock.unjumped(time.wall)).toBe(new Date(time.wall).toISOString());
    clock.noted(time.wall);
  }
});

it('a clock that was set is a jump, until it is noted', () => {
  for (const set of [2 * HOUR, -2 * HOUR, 3000]) {
    const { time, clock, pass, now } = clocks();
    pass(HOUR);
    clock.noted(time.wall);
    pass(9 * HOUR);
    const right = time.wall;
    time.wall += set;
    const jump = { from: new Date(right).toISOString(), to: new Date(time.wall).toISOString() };
    expect(now()).toEqual(jump);
    expect(clock.unjumped(time.wall)).toBe(jump.from);
    clock.noted(time.wall);
    pass(HOUR);
    expect(now()).toBeUndefined();
  }
});

it('drift is no jump', () => {
  const { time, pass, now } = clocks();
  pass(HOUR);
  time.wall += 1500;
  expect(now()).toBeUndefined();
});
