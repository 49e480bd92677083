/** The clash solver against trying every position. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { HAIR, type LineProblem, STEP } from '../../src/window/clash/model.js';
import { solveLine } from '../../src/window/clash/solve.js';

/** A shift of a punched slot outweighs any of a drilled hole, and that any of a loose packer. */
const weighed = (steps: number, made: 0 | 1 | 2): number => Math.abs(steps) * 1000 ** made;

/** Every combination of positions; the least shift by class, or undefined where no combination holds. */
function bruteForce(problem: LineProblem): number | undefined {
  const { movables, standing, links, apart } = problem;
  let best: number | undefined;
  const at: number[] = [];
  const visit = (i: number, total: number): void => {
    if (best !== undefined && total >= best - HAIR) return;
    const movable = movables[i];
    if (!movable) {
      best = total;
      return;
    }
    const low = Math.ceil((movable.low - movable.nominal) / STEP - HAIR);
    const high = Math.floor((movable.high - movable.nominal) / STEP + HAIR);
    for (let k = low; k <= high; k++) {
      const here = movable.nominal + k * STEP;
      at[i] = here;
      if (standing.some((fixed) => Math.abs(fixed.at - here) < apart(movable, fixed) - HAIR)) continue;
      if (movables.slice(0, i).some((other, j) => Math.abs(at[j]! - here) < apart(other, movable) - HAIR))
        continue;
      const broken = links.some(({ first, second, least, most }) => {
        if (Math.max(first, second) !== i) return false;
        const gap = at[second]! - at[first]!;
        return gap < least - HAIR || gap > most + HAIR;
      });
      if (!broken) visit(i + 1, total + weighed(k, movable.made));
    }
  };
  visit(0, 0);
  return best;
}

const kinds = ['a', 'b', 'c'] as const;
const place = fc.integer({ min: 0, max: 160 }).map((n) => n / 4);
const smallProblem: fc.Arbitrary<LineProblem> = fc
  .record({
    movables: fc.array(
      fc.record({
        nominal: place,
        back: fc.integer({ min: 0, max: 6 }),
        on: fc.integer({ min: 0, max: 6 }),
        kind: fc.constantFrom(...kinds),
        face: fc.constantFrom(-1 as const, 0 as const, 1 as const),
        half: fc.constantFrom(0, 1.5),
        made: fc.constantFrom(0 as const, 1 as const, 2 as const),
        rank: fc.integer({ min: 0, max: 3 }),
      }),
      { minLength: 1, maxLength: 4 },
    ),
    standing: fc.array(
      fc.record({
        at: place,
        kind: fc.constantFrom(...kinds),
        face: fc.constantFrom(-1 as const, 0 as const, 1 as const),
        half: fc.constantFrom(0, 1.5),
      }),
      { maxLength: 3 },
    ),
    links: fc.array(
      fc.record({
        pair: fc.nat(2),
        least: fc.integer({ min: -2, max: 3 }),
        span: fc.integer({ min: 0, max: 20 }),
      }),
      { maxLength: 3 },
    ),
    least: fc.array(fc.integer({ min: 0, max: 5 }), { minLength: 9, maxLength: 9 }),
    tie: fc.constantFrom(1 as const, -1 as const),
  })
  .map(({ movables, standing, links, least, tie }) => ({
    movables: movables.map(({ back, on, ...m }) => ({
      ...m,
      low: m.nominal - back / 2,
      high: m.nominal + on / 2,
    })),
    standing,
    links: links.flatMap(({ pair, least: gap, span }) =>
      pair + 1 < movables.length ? [{ first: pair, second: pair + 1, least: gap, most: gap + span }] : [],
    ),
    apart: (a, b) => {
      const [i, j] = [kinds.indexOf(a.kind as 'a'), kinds.indexOf(b.kind as 'a')];
      if (a.face * b.face < 0) return 0;
      return (least[Math.min(i, j) * 3 + Math.max(i, j)] ?? 0) + (i === j ? 0 : a.half + b.half);
    },
    tie,
  }));

describe('clash solver', () => {
  it('finds the least shift, class by class, that trying everything finds, and is stuck where nothing holds', () => {
    let solved = 0;
    let stuck = 0;
    fc.assert(
      fc.property(smallProblem, (problem) => {
        const expected = bruteForce(problem);
        const found = solveLine(problem);
        expect(found.ok).toBe(expected !== undefined);
        if (found.ok) {
          const sum = found.shifts.reduce((all, k, i) => all + weighed(k, problem.movables[i]!.made), 0);
          expect(sum).toBe(expected);
          expect(found.proven).toBe(true);
          if (expected! > 0) solved++;
        } else stuck++;
      }),
      { seed: 20, numRuns: 1500 },
    );
    // The generator must reach both kinds, or the property says little.
    expect(solved).toBeGreaterThan(100);
    expect(stuck).toBeGreaterThan(100);
  });

  it('takes the tie upwards, and downwards when asked', () => {
    const problem = (tie: 1 | -1): LineProblem => ({
      movables: [{ nominal: 544.5, low: 400, high: 700, kind: 'fixing', face: 0, half: 0, made: 2, rank: 0 }],
      standing: [{ at: 544.5, kind: 'gearbox', face: 0, half: 0 }],
      links: [],
      apart: () => 20,
      tie,
    });
    expect(solveLine(problem(1))).toMatchObject({ ok: true, shifts: [40], total: 20 });
    expect(solveLine(problem(-1))).toMatchObject({ ok: true, shifts: [-40], total: 20 });
  });

  it('shares the shift along a row whose pitch is at its limit', () => {
    // Five at 298 apart with a pitch of at most 300: the middle one moves 20 and pulls its neighbours.
    const at = [75, 373, 671, 969, 1267];
    const found = solveLine({
      movables: at.map((nominal) => ({
        nominal,
        low: nominal - 25,
        high: nominal + 25,
        kind: 'fixing',
        face: 0,
        half: 0,
        made: 2,
        rank: 0,
      })),
      standing: [{ at: 671, kind: 'gearbox', face: 0, half: 0 }],
      links: [0, 1, 2, 3].map((first) => ({ first, second: first + 1, least: 0, most: 300 })),
      apart: (a, b) => (a.kind === b.kind ? 0 : 20),
      tie: 1,
    });
    expect(found).toMatchObject({ ok: true, total: 54, proven: true });
  });

  it('moves a loose packer any way before a punched slot moves at all', () => {
    const pair = (made: 0 | 1, most: number): LineProblem => ({
      movables: [
        { nominal: 669.5, low: 600, high: 700, kind: 'drain', face: 1, half: 12.5, made: 2, rank: 0 },
        { nominal: 650, low: 650 - most, high: 650 + most, kind: 'packer', face: 1, half: 25, made, rank: 3 },
      ],
      standing: [],
      links: [],
      apart: (a, b) => 10 + a.half + b.half,
      tie: 1,
    });
    expect(solveLine(pair(0, 200))).toMatchObject({ ok: true, shifts: [0, -56] });
    expect(solveLine(pair(1, 200))).toMatchObject({ ok: true, shifts: [0, -56] });
    // Only where the packer has no way left does the slot move.
    expect(solveLine(pair(0, 20))).toMatchObject({ ok: true, shifts: [16, -40] });
  });

  it('moves what yields first, where either of one class could move', () => {
    const found = solveLine({
      movables: [
        { nominal: 60, low: 30, high: 200, kind: 'drain', face: 1, half: 0, made: 2, rank: 2 },
        { nominal: 60, low: 30, high: 200, kind: 'equaliser', face: -1, half: 0, made: 2, rank: 0 },
      ],
      standing: [],
      links: [],
      apart: () => 50,
      tie: 1,
    });
    expect(found).toMatchObject({ ok: true, shifts: [0, 100], total: 50 });
  });
});
