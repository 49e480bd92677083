/**
 * A fitter who does everything right, with nothing but what an apprentice sees: types lines, reads the sentences that
 * come back, and knows the drawing and the limits.
 */
import type { SquaringLimits } from '../../src/training/squaring/model.js';

export interface Bench {
  readonly task: readonly string[];
  readonly nominal: { readonly w: number; readonly h: number };
  readonly limits: SquaringLimits;
  type(line: string): readonly string[];
  minutesLeft(): number;
  over(): boolean;
}

const SIDES = ['top', 'bottom', 'left', 'right'] as const;
const OPPOSITE = { top: 'bottom', bottom: 'top', left: 'right', right: 'left' } as const;
type Side = (typeof SIDES)[number];
type Length = Side | 'bl-tr' | 'br-tl';

export function perfectPlayer(bench: Bench): void {
  // The tape against the bar first. A hook within its class is off by less than a millimetre here.
  const bar = average([read(bench, 'bar'), read(bench, 'bar')]) - 1000;
  let correction = bar;
  if (Math.abs(bar) > 0.85) {
    bench.type('say hook');
    bench.type('start 100');
    correction = average([read(bench, 'bar'), read(bench, 'bar')]) - 1000;
  }
  const measure = (length: Length): number => twice(bench, length) - correction;
  for (let round = 0; round < 4; round++) {
    const off = sidesOff(bench, measure);
    // One worn through: the worst side goes first, and the frame is put together anew.
    const worst = SIDES.map((side) => ({ side, off: off[side] })).sort(
      (a, b) => Math.abs(b.off) - Math.abs(a.off),
    )[0]!;
    if (Math.abs(worst.off) <= bench.limits.size * 0.85) break;
    const other = off[OPPOSITE[worst.side]];
    if (round === 0)
      bench.type(
        Math.abs(other) > bench.limits.size * 0.85 ? `say tapered ${worst.side}` : `say short ${worst.side}`,
      );
    bench.type(`recut ${worst.side} ${drawing(bench, worst.side)}`);
  }
  flatten(bench);
  square(bench, measure);
  flatten(bench);
  bench.type('done');
}

const drawing = (bench: Bench, side: Side): number =>
  side === 'top' || side === 'bottom' ? bench.nominal.w : bench.nominal.h;

function sidesOff(bench: Bench, measure: (length: Length) => number): Record<Side, number> {
  return Object.fromEntries(SIDES.map((side) => [side, measure(side) - drawing(bench, side)])) as Record<
    Side,
    number
  >;
}

/** Reads twice; where the two differ, one of them slipped, and a third tells which. */
function twice(bench: Bench, length: Length): number {
  const first = read(bench, length);
  const second = read(bench, length);
  if (Math.abs(first - second) <= 1.5) return average([first, second]);
  bench.type(`say slip ${length}`);
  const third = read(bench, length);
  return average([second, third]);
}

function square(bench: Bench, measure: (length: Length) => number): void {
  for (let push = 0; push < 5; push++) {
    const difference = measure('bl-tr') - measure('br-tl');
    if (push === 0 && Math.abs(difference) > 1.6 * bench.limits.diagonals) bench.type('say racked');
    if (Math.abs(difference) <= 0.5 * bench.limits.diagonals + 0.1) return;
    if (bench.minutesLeft() < 2) return;
    // Half the difference comes off the long one, and a little more because it springs back.
    bench.type(`push ${difference > 0 ? 'bl-tr' : 'br-tl'} ${((Math.abs(difference) / 2) * 1.2).toFixed(1)}`);
  }
}

function flatten(bench: Bench): void {
  for (let press = 0; press < 5; press++) {
    const gaps = numbers(bench.type('flat'));
    const corners = ['bl', 'br', 'tr', 'tl'] as const;
    const worst = corners.map((corner, i) => ({ corner, gap: gaps[i]! })).sort((a, b) => b.gap - a.gap)[0]!;
    if (worst.gap <= bench.limits.flat * 0.7) return;
    if (press === 0 && worst.gap > 1.6 * bench.limits.flat) bench.type('say twisted');
    bench.type(`press ${worst.corner} ${(worst.gap * 1.2).toFixed(1)}`);
  }
}

const read = (bench: Bench, what: Length | 'bar'): number => {
  const says = bench.type(what === 'bar' ? 'bar' : `read ${what}`)[0]!;
  return Number(/: (\d+\.\d)/.exec(says)![1]);
};
const numbers = (says: readonly string[]): number[] =>
  [...says[0]!.matchAll(/ (\d+(?:\.\d)?)(?=[,.])/g)].map((m) => Number(m[1]));
const average = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0) / values.length;
