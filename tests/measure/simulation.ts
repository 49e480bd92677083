/**
 * The measuring room's promises as figures: how often the misclosure alarm fires on honest readings, how many slips are
 * found, how many bad frames a guarded rule lets pass. Seeded, so that every run gives the same figures; the tests hold
 * them to their bars, and the bench figures print them.
 */
import { assess } from '../../src/measure/decision.js';
import { lookForSquareMisread } from '../../src/measure/misread.js';
import { lengthsOf } from '../../src/measure/quadrilateral.js';
import { solveSquare } from '../../src/measure/square.js';
import { type Instrument, SQUARE_KEYS, type SquareKey } from '../../src/measure/types.js';

export interface SimulationResult {
  readonly u: number;
  readonly honestSets: number;
  /** Share of honest sets at which the alarm fires; 5 % is what its setting says. */
  readonly falseAlarms: number;
  readonly slips: number;
  /** Share of single slips of 10 mm or more found by the misclosure alone. */
  readonly foundByClosing: number;
  /** The same, with the window about the nominal size beside it: what the bench asks about. */
  readonly foundByBench: number;
  /** Share of frames that lie exactly on the limit (the worst bad ones) that pass, by width of the guard band. */
  readonly badPassed: readonly { readonly rule: string; readonly stated: number; readonly share: number }[];
}

/** Uniform numbers in [0, 1), from a seed (mulberry32). */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** Standard normal numbers (Box-Muller). */
export const normals = (random: () => number) => (): number =>
  Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());

/** A frame near its nominal: racked by up to 3 mm, every side off by up to 1 mm. */
function someFrame(random: () => number): {
  nominal: { w: number; h: number };
  true: Record<SquareKey, number>;
} {
  const w = Math.round(500 + 1500 * random());
  const h = Math.round(500 + 1500 * random());
  const off = (most: number) => (2 * random() - 1) * most;
  const rack = off(3);
  const lengths = lengthsOf({
    bl: { x: 0, y: 0 },
    br: { x: w + off(1), y: 0 },
    tr: { x: w + rack + off(1), y: h + off(1) },
    tl: { x: rack, y: h + off(1) },
  });
  return { nominal: { w, h }, true: { ...lengths } };
}

/** Sets are drawn at a standard uncertainty of `u` mm a reading, normal errors. */
export function simulateMeasuring({
  seed = 4711,
  sets = 4000,
  slips = 3000,
  u = 0.289,
} = {}): SimulationResult {
  const random = seeded(seed);
  const normal = normals(random);
  const instrument: Instrument = {
    id: 'sim',
    kind: 'tape',
    measures: ['length'],
    title: 'simulated',
    resolution: u * Math.sqrt(12),
    maxError: 0,
    offset: 0,
    hook: false,
  };
  const take = (lengths: Record<SquareKey, number>): Record<SquareKey, number[]> =>
    Object.fromEntries(SQUARE_KEYS.map((key) => [key, [lengths[key] + u * normal()]])) as Record<
      SquareKey,
      number[]
    >;

  let alarms = 0;
  for (let i = 0; i < sets; i++)
    if (solveSquare(take(someFrame(random).true), { instrument }).closes === false) alarms++;

  let byClosing = 0;
  let byBench = 0;
  for (let i = 0; i < slips; i++) {
    const frame = someFrame(random);
    const key = SQUARE_KEYS[Math.floor(random() * 6)]!;
    const slip = (random() < 0.5 ? -1 : 1) * (10 + 90 * random());
    const readings = take({ ...frame.true, [key]: frame.true[key] + slip });
    const solution = solveSquare(readings, { instrument, nominal: frame.nominal });
    if (solution.closes === false) byClosing++;
    const typed = Object.fromEntries(
      SQUARE_KEYS.map((name) => [name, readings[name].map((value) => ({ value }))]),
    );
    if (lookForSquareMisread({ solution, readings: typed, nominal: frame.nominal, instrument })) byBench++;
  }

  const limit = 4;
  const uDifference = Math.SQRT2 * u;
  const tries = 40_000;
  const badPassed = [
    { rule: 'w = U', factor: 1, stated: 0.025 },
    { rule: 'w = 0.83 U', factor: 0.83, stated: 0.05 },
  ].map(({ rule, factor, stated }) => {
    let passed = 0;
    for (let i = 0; i < tries; i++)
      if (
        assess(
          Math.abs(limit + uDifference * normal()),
          2 * uDifference,
          { high: limit },
          { kind: 'guarded', factor },
        ) === 'pass'
      )
        passed++;
    return { rule, stated, share: passed / tries };
  });
  return {
    u,
    honestSets: sets,
    falseAlarms: alarms / sets,
    slips,
    foundByClosing: byClosing / slips,
    foundByBench: byBench / slips,
    badPassed,
  };
}
