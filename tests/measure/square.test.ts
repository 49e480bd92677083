/** Squareness: published identities, the worked adjustment, an independent optimiser, and what fewer readings say. */
import fc from 'fast-check';
import { levenbergMarquardt } from 'ml-levenberg-marquardt';
import { determinant, Matrix } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import {
  anglesOf,
  type Corners,
  cayleyMenger,
  closingWeights,
  equalDiagonal,
  impliedLength,
  lengthsOf,
  placeCorners,
  rackingOf,
} from '../../src/measure/quadrilateral.js';
import { solveSquare } from '../../src/measure/square.js';
import { type Instrument, SQUARE_KEYS, type SquareKey, type SquareSet } from '../../src/measure/types.js';
import { normals, seeded, simulateMeasuring } from './simulation.js';

const each = (set: SquareSet): Record<SquareKey, number[]> =>
  Object.fromEntries(SQUARE_KEYS.map((key) => [key, [set[key]]])) as Record<SquareKey, number[]>;
const WORKED = { bottom: 1200, right: 1500.5, top: 1201, left: 1499.5, bl_tr: 1922, br_tl: 1919 };
const rectangle = (w: number, h: number): SquareSet => ({
  top: w,
  bottom: w,
  left: h,
  right: h,
  bl_tr: Math.hypot(w, h),
  br_tl: Math.hypot(w, h),
});

/** Any convex quadrilateral, far from a rectangle: corners scattered about those of one. */
function anyCorners(random: () => number): Corners {
  const w = 300 + 2000 * random();
  const h = 300 + 2000 * random();
  const off = () => (random() - 0.5) * 0.4 * Math.min(w, h);
  return {
    bl: { x: 0, y: 0 },
    br: { x: w + off(), y: 0 },
    tr: { x: w + off(), y: h + off() },
    tl: { x: off(), y: h + off() },
  };
}

describe('the worked adjustment (derived by two independent methods)', () => {
  const solved = solveSquare(each(WORKED));
  it('misses closing by what it should', () => {
    expect(solved.misclosure).toBeCloseTo(-1.4988, 4);
    expect(impliedLength('br_tl', WORKED)).toBeCloseTo(1920.4988, 4);
    expect(solved.closes).toBe(false);
  });
  it('gives residuals and adjusted lengths to 1e-3 mm', () => {
    const want = {
      bottom: 1199.7659,
      right: 1500.2077,
      top: 1200.7661,
      left: 1499.2075,
      bl_tr: 1922.3748,
      br_tl: 1919.3742,
    };
    const rests = {
      bottom: -0.2341,
      right: -0.2923,
      top: -0.2339,
      left: -0.2925,
      bl_tr: 0.3748,
      br_tl: 0.3742,
    };
    for (const key of SQUARE_KEYS) {
      expect(Math.abs(solved.adjusted![key] - want[key])).toBeLessThan(1e-3);
      expect(Math.abs(solved.residuals![key]! - rests[key])).toBeLessThan(1e-3);
    }
  });
  it('gives angles to 1e-4 degrees', () => {
    const want = { bl: 89.9512, br: 90.087, tr: 89.8654, tl: 90.0965 };
    for (const corner of ['bl', 'br', 'tr', 'tl'] as const)
      expect(Math.abs(solved.angles![corner] - want[corner])).toBeLessThan(1e-4);
  });
});

describe('geometry', () => {
  it('Cayley-Menger is zero for 3, 4, 3, 4, 5, 5, and agrees with the 5 x 5 determinant elsewhere', () => {
    expect(cayleyMenger({ bottom: 3, right: 4, top: 3, left: 4, bl_tr: 5, br_tl: 5 })).toBe(0);
    const random = seeded(1);
    for (let i = 0; i < 50; i++) {
      const set = Object.fromEntries(SQUARE_KEYS.map((key) => [key, 1 + random()])) as Record<
        SquareKey,
        number
      >;
      const [a, b, c, d, p, q] = (['bottom', 'right', 'top', 'left', 'bl_tr', 'br_tl'] as const).map(
        (k) => set[k] ** 2,
      ) as [number, number, number, number, number, number];
      const full = determinant(
        new Matrix([
          [0, 1, 1, 1, 1],
          [1, 0, a, p, d],
          [1, a, 0, b, q],
          [1, p, b, 0, c],
          [1, d, q, c, 0],
        ]),
      );
      expect(Math.abs(cayleyMenger(set) - full)).toBeLessThan(1e-9 * Math.max(1, Math.abs(full)));
    }
  });
  it('the top pushed k mm sideways gives the derived diagonals, and the racking is k', () => {
    for (const [k, long, short, error] of [
      [1, 1921.5619, 1920.3125, undefined],
      [4, 1923.4344, 1918.4369, 0.15279],
    ] as const) {
      const y = Math.sqrt(1500 ** 2 - k * k);
      const corners = { bl: { x: 0, y: 0 }, br: { x: 1200, y: 0 }, tr: { x: 1200 + k, y }, tl: { x: k, y } };
      const lengths = lengthsOf(corners);
      expect(lengths.bl_tr).toBeCloseTo(long, 3);
      expect(lengths.br_tl).toBeCloseTo(short, 3);
      expect(rackingOf(corners).racking).toBeCloseTo(k, 9);
      if (error) expect(90 - anglesOf(corners).bl).toBeCloseTo(error, 4);
      // Parallelogram law, and d1² - d2² = 4·W·H·cos A.
      expect(lengths.bl_tr ** 2 + lengths.br_tl ** 2).toBeCloseTo(2 * (1200 ** 2 + 1500 ** 2), 4);
      expect((lengths.bl_tr ** 2 - lengths.br_tl ** 2) / (4 * 1200 * 1500)).toBeCloseTo(
        Math.cos((anglesOf(corners).bl * Math.PI) / 180),
        9,
      );
      expect(equalDiagonal(lengths)).toBeCloseTo(Math.hypot(1200, 1500), 6);
    }
  });
  it('a trapezoid 902 / 898 over 1200 has equal diagonals, no racking and a taper', () => {
    const set = lengthsOf({
      bl: { x: 0, y: 0 },
      br: { x: 898, y: 0 },
      tr: { x: 900, y: 1200 },
      tl: { x: -2, y: 1200 },
    });
    expect(set.bl_tr).toBeCloseTo(set.br_tl, 9);
    const solved = solveSquare(each(set));
    expect(solved.racking).toBeCloseTo(0, 6);
    expect(solved.taper!.width).toBeCloseTo(4, 6);
    expect(solved.angles!.bl).toBeGreaterThan(90.09);
  });
  it('a corner lifted 10 mm changes a 1500 diagonal by 0.03 mm: diagonals do not see it', () => {
    expect(Math.hypot(1500, 10) - 1500).toBeCloseTo(0.033, 3);
  });
  it('each of six lengths follows from the other five, in any convex figure', () => {
    const random = seeded(2);
    for (let i = 0; i < 300; i++) {
      const set = lengthsOf(anyCorners(random));
      for (const key of SQUARE_KEYS) expect(impliedLength(key, set)).toBeCloseTo(set[key], 6);
      const placed = placeCorners(set)!;
      for (const key of SQUARE_KEYS) expect(lengthsOf(placed)[key]).toBeCloseTo(set[key], 6);
      expect(Object.values(anglesOf(placed)).reduce((a, b) => a + b, 0)).toBeCloseTo(360, 8);
    }
  });
  it('closing weights are the derivatives of the misclosure', () => {
    const random = seeded(3);
    for (let i = 0; i < 100; i++) {
      const corners = anyCorners(random);
      const set = lengthsOf(corners);
      const weights = closingWeights(corners);
      for (const key of SQUARE_KEYS) {
        const miss = (d: number) => {
          const moved = { ...set, [key]: set[key] + d };
          return moved.br_tl - impliedLength('br_tl', moved)!;
        };
        expect((miss(1e-3) - miss(-1e-3)) / 2e-3).toBeCloseTo(weights[key], 4);
      }
    }
  });
});

describe('least squares', () => {
  it('the misclosure of any rectangle has a standard deviation of exactly 2 u (derived)', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 200, max: 4000, noNaN: true }),
        fc.double({ min: 200, max: 4000, noNaN: true }),
        (w, h) => {
          const solved = solveSquare(each(rectangle(w, h)));
          expect(solved.misclosureSd! / solved.u.top!).toBeCloseTo(2, 9);
          expect(Math.abs(solved.misclosure!)).toBeLessThan(1e-6);
          expect(solved.closes).toBe(true);
        },
      ),
      { seed: 46, numRuns: 200 },
    );
  });

  it('closes to 1e-6 relative, and agrees with a general-purpose optimiser on 1000 random quadrilaterals', () => {
    const random = seeded(4);
    const normal = normals(random);
    let worst = 0;
    for (let i = 0; i < 1000; i++) {
      const corners = anyCorners(random);
      const truth = lengthsOf(corners);
      const measured = Object.fromEntries(SQUARE_KEYS.map((key) => [key, truth[key] + normal()])) as Record<
        SquareKey,
        number
      >;
      const { adjusted } = solveSquare(each(measured));
      const scale = Math.max(...Object.values(truth)) ** 6;
      expect(Math.abs(cayleyMenger(adjusted!)) / scale).toBeLessThan(1e-6);
      const at = (x: number[]): Corners => ({
        bl: { x: 0, y: 0 },
        br: { x: corners.br.x + x[0]! - 1, y: 0 },
        tr: { x: corners.tr.x + x[1]! - 1, y: corners.tr.y + x[2]! - 1 },
        tl: { x: corners.tl.x + x[3]! - 1, y: corners.tl.y + x[4]! - 1 },
      });
      const fit = levenbergMarquardt(
        { x: SQUARE_KEYS.map((_, n) => n), y: SQUARE_KEYS.map((key) => measured[key]) },
        (x: number[]) => {
          const lengths = lengthsOf(at(x));
          return (n: number) => lengths[SQUARE_KEYS[n]!];
        },
        {
          initialValues: [1, 1, 1, 1, 1],
          damping: 1e-3,
          gradientDifference: 1e-4,
          centralDifference: true,
          maxIterations: 6,
          errorTolerance: 0,
        },
      );
      const theirs = lengthsOf(at(fit.parameterValues));
      for (const key of SQUARE_KEYS) worst = Math.max(worst, Math.abs(theirs[key] - adjusted![key]));
    }
    expect(worst).toBeLessThan(1e-3);
  }, 120_000);

  it('weights a length by its repeats', () => {
    const once = solveSquare(each(WORKED));
    const often = solveSquare({ ...each(WORKED), bl_tr: [1921.4, 1922.6, 1921.5, 1922.5, 1922] });
    expect(often.measured.bl_tr).toBeCloseTo(1922, 9);
    expect(often.u.bl_tr!).toBeLessThan(once.u.bl_tr!);
    expect(Math.abs(often.residuals!.bl_tr!)).toBeLessThan(Math.abs(once.residuals!.bl_tr!));
  });

  it('says how uncertain angles and racking are: as a simulation scatters', () => {
    const random = seeded(5);
    const normal = normals(random);
    const truth = rectangle(1000, 700);
    const u = 0.3;
    const instrument: Instrument = {
      id: 'i',
      kind: 'tape',
      measures: ['length'],
      title: '',
      resolution: u * Math.sqrt(12),
      maxError: 0,
      offset: 0,
      hook: false,
    };
    const runs = Array.from({ length: 600 }, () =>
      solveSquare(
        each(Object.fromEntries(SQUARE_KEYS.map((key) => [key, truth[key] + u * normal()])) as SquareSet),
        { instrument },
      ),
    );
    const scatter = (values: number[]) =>
      Math.sqrt(values.reduce((total, x) => total + x * x, 0) / values.length);
    expect(scatter(runs.map((run) => run.racking!)) / runs[0]!.rackingU!).toBeCloseTo(1, 0.9);
    expect(scatter(runs.map((run) => run.angles!.tl - 90)) / runs[0]!.anglesU!.tl).toBeCloseTo(1, 0.9);
  });

  it('a wild misread still gives figures or says that there are none', () => {
    expect(solveSquare({ ...each(WORKED), top: [12010] }).kind).toMatch(/six|impossible/);
    expect(solveSquare({ ...each(WORKED), top: [12010] }).closes).toBe(false);
    expect(solveSquare({ ...each(WORKED), bl_tr: [19220] }).closes).toBe(false);
    expect(solveSquare({ ...each(WORKED), bl_tr: [0.1] }).closes).toBe(false);
  });
});

describe('from fewer readings', () => {
  const set = lengthsOf({
    bl: { x: 0, y: 0 },
    br: { x: 1000, y: 0 },
    tr: { x: 1002, y: 700 },
    tl: { x: 2, y: 700 },
  });
  const pick = (...keys: SquareKey[]) => Object.fromEntries(keys.map((key) => [key, [set[key]]]));
  it('five give the figure, whichever is left out, and check nothing', () => {
    for (const missing of SQUARE_KEYS) {
      const solved = solveSquare(pick(...SQUARE_KEYS.filter((key) => key !== missing)));
      expect(solved.kind).toBe('five');
      expect(solved.closes).toBeUndefined();
      expect(solved.adjusted![missing]).toBeCloseTo(set[missing], 6);
      expect(solved.racking).toBeCloseTo(2, 6);
      expect(solved.difference).toBeCloseTo(set.bl_tr - set.br_tl, 6);
    }
  });
  it('two diagonals and two sizes give racking and a closing check of their own', () => {
    const solved = solveSquare(pick('bottom', 'left', 'bl_tr', 'br_tl'));
    expect(solved).toMatchObject({ kind: 'sizes', closes: true });
    expect(solved.racking).toBeCloseTo(2, 2);
    expect(solveSquare({ ...pick('bottom', 'left', 'br_tl'), bl_tr: [set.bl_tr + 10] }).closes).toBe(false);
    expect(solveSquare({ top: [10], right: [10], bl_tr: [100], br_tl: [100] }).kind).toBe('impossible');
  });
  it('two diagonals give racking only where a width is known', () => {
    expect(solveSquare(pick('bl_tr', 'br_tl'))).toMatchObject({ kind: 'diagonals' });
    expect(solveSquare(pick('bl_tr', 'br_tl')).racking).toBeUndefined();
    expect(solveSquare(pick('bl_tr', 'br_tl'), { nominal: { w: 1000, h: 700 } }).racking).toBeCloseTo(2, 2);
    expect(solveSquare(pick('bl_tr', 'br_tl', 'right')).racking).toBeCloseTo(2, 2);
    expect(solveSquare(pick('bl_tr', 'br_tl', 'top', 'bottom')).taper).toEqual({
      width: expect.closeTo(0, 6),
    });
  });
  it('less is too few', () => {
    expect(solveSquare(pick('bl_tr')).kind).toBe('too-few');
    expect(solveSquare(pick('top', 'bottom', 'left', 'right')).kind).toBe('too-few');
    expect(solveSquare({}).kind).toBe('too-few');
  });
  it('lengths read with different instruments carry the instruments too', () => {
    const tape = (id: string): Instrument => ({
      id,
      kind: 'tape',
      measures: ['length'],
      title: '',
      resolution: 1,
      class: 'II',
      offset: 0,
      hook: false,
    });
    const one = solveSquare(pick('bl_tr', 'br_tl'), { instrument: tape('A') });
    const two = solveSquare(pick('bl_tr', 'br_tl'), { instruments: { bl_tr: tape('A'), br_tl: tape('B') } });
    expect(one.differenceU).toBeCloseTo(0.408, 3);
    expect(two.differenceU!).toBeGreaterThan(0.69);
  });
});

describe('simulation', () => {
  const result = simulateMeasuring();
  it('the misclosure alarm fires in 5 ± 1 % of honest sets', () => {
    expect(Math.abs(result.falseAlarms - 0.05)).toBeLessThan(0.01);
  });
  it('at least 99 % of single slips of 10 mm or more are found', () => {
    expect(result.foundByClosing).toBeGreaterThanOrEqual(0.99);
    expect(result.foundByBench).toBeGreaterThanOrEqual(0.999);
  });
  it('a guarded rule passes at most its stated share of bad frames', () => {
    for (const { share, stated } of result.badPassed) expect(share).toBeLessThanOrEqual(stated);
  });
});

// Without it, placing an instrument counts as exact, and readings that hands cannot better are doubted.
describe('the repeatability of an instrument with a fine scale', () => {
  const rule = (repeatability?: number): Instrument => ({
    id: 'R2',
    kind: 'rule',
    measures: ['length'],
    title: 'long rule',
    resolution: 0.1,
    maxError: 0.2,
    offset: 0,
    hook: false,
    ...(repeatability === undefined ? {} : { repeatability }),
  });
  const frame = {
    bottom: [939],
    top: [938.9],
    left: [639],
    right: [639.1],
    bl_tr: [1135.7, 1135.7],
    br_tl: [1135.7],
  };
  const slipped = { ...frame, br_tl: [1137.7] };

  it('lets six readings close as finely as hands place it, and finds a slip of 2 mm', () => {
    expect(solveSquare(frame, { instrument: rule(0.1) })).toMatchObject({ kind: 'six', closes: true });
    expect(solveSquare(slipped, { instrument: rule(0.1) })).toMatchObject({ closes: false });
    expect(solveSquare(frame, { instrument: rule() })).toMatchObject({ closes: false });
  });
});
