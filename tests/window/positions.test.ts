/** 2,000 random windows of each set against the written rules of positions. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { setOut } from '../../src/window/setout.js';
import type { Layout, Unit } from '../../src/window/types.js';
import { GLASS, SETS, unit } from './kit.js';
import { faultsOf, RULES } from './oracle.js';

const SEED = 18;
const WINDOWS = 2000;

/** Windows that a customer might order: one to six lights, handles mostly in the middle. */
function ordered(glass: string): fc.Arbitrary<Unit> {
  const handle = fc.option(fc.integer({ min: 150, max: 700 }), { freq: 2, nil: undefined });
  const light: fc.Arbitrary<Layout> = fc.oneof(
    fc.constant<Layout>({ type: 'light', kind: 'fixed', glass }),
    handle.map(
      (handleAt): Layout => ({
        type: 'light',
        kind: 'top-hung',
        hinge: 'top',
        glass,
        ...(handleAt && { handleAt }),
      }),
    ),
    fc.tuple(fc.constantFrom('left' as const, 'right' as const), handle).map(
      ([hinge, handleAt]): Layout => ({
        type: 'light',
        kind: 'side-hung',
        hinge,
        glass,
        ...(handleAt && { handleAt }),
      }),
    ),
  );
  const split = (part: fc.Arbitrary<Layout>): fc.Arbitrary<Layout> =>
    fc
      .tuple(
        fc.constantFrom('upright' as const, 'level' as const),
        fc.constantFrom('ported' as const, 'cleated' as const),
        fc.array(part, { minLength: 2, maxLength: 3 }),
        fc.array(fc.integer({ min: 2, max: 4 }), { minLength: 3, maxLength: 3 }),
      )
      .map(
        ([direction, joint, parts, ratio]): Layout => ({
          type: 'split',
          direction,
          joint,
          positions: { by: 'ratio', ratio: ratio.slice(0, parts.length) },
          parts,
        }),
      );
  const tree = fc.oneof(light, split(light), split(fc.oneof(light, split(light))));
  return fc
    .tuple(fc.integer({ min: 900, max: 5600 }), fc.integer({ min: 900, max: 4800 }), tree)
    .map(([w, h, layout]) => unit(w / 2, h / 2, layout));
}

const byClearance = (id: string): boolean => id === 'setout.clash' || id === 'setout.off-part';

describe.each(['w52', 'k70'] as const)('random windows of %s', (name) => {
  it('break no written rule, and few are refused for want of room', { timeout: 600_000 }, () => {
    const faults: string[] = [];
    let built = 0;
    let refused = 0;
    const units = fc.sample(ordered(GLASS[name]), { seed: SEED, numRuns: WINDOWS * 12 });
    for (const each of units) {
      const made = setOut(each, SETS[name]);
      // What charts and limits refuse is no matter of positions.
      if (made.problems.some(({ id }) => !byClearance(id))) continue;
      if (made.refused) refused += 1;
      else {
        built += 1;
        for (const fault of faultsOf(made, RULES[name]))
          faults.push(`${each.width} x ${each.height}: ${fault}`);
      }
      if (built + refused === WINDOWS) break;
    }
    expect(built + refused, `seed ${SEED}`).toBe(WINDOWS);
    expect(faults.slice(0, 20), `seed ${SEED}: ${faults.length} faults`).toEqual([]);
    console.log(`${name}: ${built} windows without a fault, ${refused} refused by clearances`);
    expect(refused / WINDOWS).toBeLessThanOrEqual(0.03);
  });
});
