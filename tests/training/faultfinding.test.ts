/** The fault-finding drill: what shows where, and that it can be solved from what is shown. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { reopenedBy } from '../../src/procedure/route.js';
import {
  actFaults,
  beginFaults,
  type FaultAction,
  type FaultDrill,
  makers,
  offers,
  openStep,
  scoreFaults,
} from '../../src/training/faultfinding.js';
import { planFor } from './shop.js';

const units = ['P01-1', 'P02-1', 'P05-1'].map((id) => planFor(id).route);
const anyRoute = fc.constantFrom(...units);

function begin(route: (typeof units)[number], seed: number, faults = 3): FaultDrill {
  const made = beginFaults(route, { seed, faults });
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.value;
}
function act(drill: FaultDrill, action: FaultAction): { drill: FaultDrill; says: readonly string[] } {
  const acted = actFaults(drill, action);
  if ('problem' in acted) throw new Error(acted.problem.text);
  return acted;
}

/** Works back from what does not hold to the step whose own makers all hold; sees only what is said. */
function solve(start: FaultDrill): FaultDrill {
  let drill = start;
  const holds = (id: string): boolean => {
    const step = drill.route.steps.find((each) => each.id === id)!;
    if (step.checks.length === 0) return true;
    const acted = act(drill, { do: 'check', check: step.checks[0]!.id });
    drill = acted.drill;
    return /It holds\.$/.test(acted.says[0]!);
  };
  for (const { step } of drill.noticed) {
    if (drill.ended || holds(step)) continue;
    let at = drill.route.steps.find((each) => each.id === step)!;
    for (let deep = 0; deep < 100; deep++) {
      const before = makers(drill.route, at).find((id) => !holds(id));
      if (before === undefined) break;
      at = drill.route.steps.find((each) => each.id === before)!;
    }
    drill = act(drill, { do: 'name', step: at.id }).drill;
    const asked = openStep(drill);
    if (asked) drill = act(drill, { do: 'why', choice: offers(drill, asked).indexOf(asked.watch) + 1 }).drill;
    // There may be another behind the same late check.
    if (!drill.ended && !holds(step)) drill = solve({ ...drill, noticed: [{ step, check: '' }] });
  }
  return { ...drill, noticed: start.noticed };
}

describe('the fault-finding drill', () => {
  it('a fault shows in its own checks and in those of everything that rests on it, and nowhere else', () => {
    fc.assert(
      fc.property(anyRoute, fc.integer(), (route, seed) => {
        const drill = begin(route, seed);
        expect(drill.hidden.length).toBe(3);
        const reached = drill.hidden.map((id) => new Set([id, ...reopenedBy(route.steps, id)]));
        for (const step of route.steps) {
          const want = reached.filter((each) => each.has(step.id));
          const check = step.checks[0];
          if (!check) continue;
          const says = act(drill, { do: 'check', check: check.id }).says[0]!;
          expect(/It holds\.$/.test(says), step.id).toBe(want.length === 0);
        }
        for (const { step } of drill.noticed) expect(drill.shows.has(step)).toBe(true);
      }),
      { seed: 76, numRuns: 25 },
    );
  });

  it('can be solved from what is shown, with no wrong accusation', () => {
    fc.assert(
      fc.property(anyRoute, fc.integer(), (route, seed) => {
        const solved = solve(begin(route, seed));
        const score = scoreFaults(solved);
        expect([score.found, score.of]).toEqual([3, 3]);
        expect(solved.ended).toBe(true);
        expect(solved.log.some((entry) => entry.did === 'name' && !entry.right)).toBe(false);
      }),
      { seed: 77, numRuns: 40 },
    );
  });

  it('is the same for the same seed, and another for another', () => {
    const route = units[1]!;
    expect(begin(route, 5).hidden).toEqual(begin(route, 5).hidden);
    expect(
      new Set(Array.from({ length: 20 }, (_, seed) => begin(route, seed).hidden.join())).size,
    ).toBeGreaterThan(10);
  });

  it('a wrong accusation costs, an unknown cause costs less, giving up tells what is left', () => {
    const start = begin(units[1]!, 9, 1);
    const innocent = start.route.steps.find((step) => !start.shows.has(step.id))!;
    const blamed = act(start, { do: 'name', step: innocent.id });
    expect(blamed.says[0]).toMatch(/^No: /);
    const named = act(blamed.drill, { do: 'name', step: start.hidden[0]! }).drill;
    const step = openStep(named)!;
    const wrong = (offers(named, step).indexOf(step.watch) + 1) % 3;
    const over = act(named, { do: 'why', choice: wrong + 1 }).drill;
    expect(over.ended).toBe(true);
    expect(scoreFaults(over)).toMatchObject({ points: 85, found: 1, passed: true });
    const gaveUp = act(start, { do: 'give-up' });
    expect(gaveUp.says[0]).toContain(start.hidden[0]!);
    expect(scoreFaults(gaveUp.drill)).toMatchObject({ points: 0, passed: false });
  });

  it('refuses what is not there, with a way out', () => {
    const drill = begin(units[0]!, 1);
    for (const action of [
      { do: 'check', check: 'no/such' },
      { do: 'name', step: 'no.such' },
      { do: 'why', choice: 1 },
    ] as const)
      expect(actFaults(drill, action)).toHaveProperty('problem.todo');
  });
});
