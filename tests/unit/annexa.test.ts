/**
 * What has to be repeated after a rework, row by row as common practice has it (no source), on whole units of the
 * demonstration job that were built, finished and then reworked. Only this table of the trade is kept by hand; what
 * re-opens follows from the procedure's features. `opens` and `leaves` are stages, or single steps.
 */
import { describe, expect, it } from 'vitest';
import { asIfWritten } from '../../src/unit/aswritten.js';
import { decide } from '../../src/unit/decide.js';
import { apply } from '../../src/unit/fold.js';
import { wouldReopen } from '../../src/unit/next.js';
import type { UnitState } from '../../src/unit/unitstate.js';
import { autobuild } from './autobuild.js';
import { later, OPTIONS, ROUTES, whole } from './demonstration.js';

interface Row {
  readonly rework: string;
  /** Picks the unit by the steps it has. */
  readonly has: readonly string[];
  readonly step: string;
  readonly opens: string;
  readonly leaves: string;
}
const ROWS: readonly Row[] = [
  {
    rework: 'replace one frame member',
    has: ['cut.sash', 'dividers.port'],
    step: 'cut.frame',
    opens:
      'machine.frame-slots machine.frame-clean frame frame-square dividers addon.fit addon.opening addon.seal hang.sash hang.keeps adjust final',
    leaves: 'glass cut-sash machine-sash sash sash-square sash-seals',
  },
  {
    rework: 're-square the frame before cure',
    has: ['cut.sash', 'dividers.port'],
    step: 'square.frame',
    opens: 'dividers.position addon.fit addon.opening final',
    leaves: 'cut-frame machine-frame frame sash sash-square glass',
  },
  {
    rework: 're-open a cured corner',
    has: ['cut.sash'],
    step: 'frame.seal',
    opens: 'frame.close frame-square addon.fit addon.seal hang.sash adjust final',
    leaves: 'cut-frame machine-frame sash sash-square glass',
  },
  {
    rework: 'move or replace a divider',
    has: ['cut.sash', 'dividers.port'],
    step: 'dividers.port',
    opens:
      'dividers.position dividers.recheck addon.fit addon.opening glaze.size glaze.pack hang.sash adjust final',
    leaves: 'frame sash sash-square glass',
  },
  {
    rework: 'new sash member',
    has: ['cut.sash'],
    step: 'cut.sash',
    opens: 'machine-sash sash sash-square sash-seals hardware hang glaze.pack adjust final',
    leaves: 'cut-frame machine-frame frame frame-square addon',
  },
  {
    rework: 're-drill a keep',
    has: ['cut.sash'],
    step: 'hang.keeps',
    opens: 'hang.gaps adjust final',
    leaves: 'frame addon sash hardware',
  },
  {
    rework: 'change the stays',
    has: ['cut.sash'],
    step: 'hardware.stays',
    opens: 'hang.sash adjust final',
    leaves: 'frame addon sash glass',
  },
  {
    rework: 'change the glass',
    has: ['cut.sash'],
    step: 'glass.look',
    opens: 'glaze.set glaze.pack glaze.beads label.match final',
    leaves: 'frame addon sash hardware hang',
  },
  {
    rework: 're-pack',
    has: ['cut.sash'],
    step: 'glaze.pack',
    opens: 'glaze.beads adjust final',
    leaves: 'frame addon sash hardware hang glaze.set',
  },
  {
    rework: 'change a gasket',
    has: ['cut.sash'],
    step: 'seals.outer',
    opens: 'hang.gasket adjust.stays final',
    leaves: 'frame addon sash hardware glaze.pack label.match',
  },
  {
    rework: 'touch-up',
    has: ['cut.sash'],
    step: 'final.look',
    opens: 'final.look final.release',
    leaves: 'frame sash addon hang glaze adjust label.match',
  },
  {
    rework: 'size or handing changed by the customer',
    has: ['cut.sash', 'dividers.port'],
    step: 'order.papers',
    opens:
      'order.freeze pack saw cut-frame cut-sash machine-frame machine-sash frame frame-square dividers addon sash sash-square sash-seals hardware hang glaze adjust final label dispatch',
    leaves: '',
  },
];

/** A unit with one opening light, where there is one, so that "the sash" means one thing. */
function unitWith(bases: readonly string[]): string {
  const fits = [...ROUTES].filter(([, { steps }]) =>
    bases.every((base) => steps.some((s) => s.base === base)),
  );
  const sashes = ([, { steps }]: (typeof fits)[number]) =>
    steps.filter(({ base }) => base === 'cut.sash').length;
  return fits.toSorted((a, b) => sashes(a) - sashes(b))[0]![0];
}

/** Steps that the words name, of the item that was reworked or of none. */
function named(state: UnitState, words: string, item: string | undefined): string[] {
  return words
    .split(' ')
    .filter(Boolean)
    .flatMap((word) => {
      const steps = state.route.steps.filter(({ base, stage }) => base === word || stage === word);
      expect(steps, `the procedure has no ${word}`).not.toEqual([]);
      return steps
        .filter(
          (step) =>
            item === undefined || step.item === undefined || step.item === item || step.item.startsWith('D'),
        )
        .map(({ id }) => id);
    });
}

describe('annex A: what must be repeated after rework', () => {
  it.each(ROWS)('$rework', ({ has, step: base, opens, leaves }) => {
    const built = whole(unitWith(has));
    const { state } = built;
    expect(state.finished).toBe(true);
    // For steps done light by light, the light that opens.
    const sash = state.route.steps.find((step) => step.base === 'cut.sash')!.item;
    const choices = state.route.steps.filter((step) => step.base === base);
    const { id, item } = choices.find((step) => step.item === sash) ?? choices[0]!;
    const light = item?.startsWith('L') ? item : sash;
    const foretold = wouldReopen(state, id);
    const world = later(built);
    const decision = decide(state, { do: 'rework', step: id, reason: 'annex A' }, world);
    if (decision.kind !== 'events') throw new Error(JSON.stringify(decision));
    const after = apply(state, ...asIfWritten(state, decision.events, decision.by, world));
    const open = [...after.steps.values()]
      .filter(({ status }) => status !== 'done')
      .map(({ step }) => step.id);

    expect(after.finished).toBe(false);
    expect(named(after, opens, light).filter((each) => !open.includes(each))).toEqual([]);
    expect(named(after, leaves, light).filter((each) => each !== id && open.includes(each))).toEqual([]);
    // What was shown before is what happened, each with a reason; and the readings are still in the record.
    for (const { step, why } of foretold) {
      expect(open).toContain(step);
      expect(why).toMatch(/rests on what is made at ".+"/);
    }
    expect(
      after.steps
        .get(id)!
        .checks.filter((_, i) => after.steps.get(id)!.step.checks[i]!.kind !== 'computed')
        .every(({ earlier }) => earlier.some(({ why }) => why === 'reworked')),
    ).toBe(true);
  });

  it('a skipped hold found later is never ticked late: see build.hold-skipped in the refusals', () => {
    const { state } = whole(unitWith(['cut.sash']));
    // Through legal actions no hold can be skipped: each was released before anything that rests on it was begun.
    for (const { step, released } of state.steps.values()) {
      if (!step.hold || step.hold.release === 'checks') continue;
      for (const above of state.steps.values())
        if (above.step.rests.some((feature) => step.makes.includes(feature)))
          expect(above.madeAt!, above.step.id).toBeGreaterThan(released!.n);
    }
  });

  it('a reworked unit is built to its end again', () => {
    const built = whole(unitWith(['cut.sash']));
    const world = later(built);
    const decision = decide(
      built.state,
      { do: 'rework', step: 'square.frame', reason: 'out of square' },
      world,
    );
    if (decision.kind !== 'events') throw new Error(JSON.stringify(decision));
    const after = apply(built.state, ...asIfWritten(built.state, decision.events, decision.by, world));
    // Squaring must follow sealing within the open time, so the refusal asks for the corners to be sealed anew.
    expect(after.steps.get('square.frame')!.because.join(' ')).toMatch(/ran out/);
    const early = decide(after, { do: 'answer', check: 'square.frame/square', value: {} }, world);
    expect(early.kind === 'refused' && early.problem).toMatchObject({
      id: 'build.open-time-over',
      todo: expect.stringContaining('Rework frame.seal'),
    });
    const seal = decide(after, { do: 'rework', step: 'frame.seal', reason: 'sealant set' }, world);
    if (seal.kind !== 'events') throw new Error(JSON.stringify(seal));
    const again = autobuild(apply(after, ...asIfWritten(after, seal.events, seal.by, world)), world, OPTIONS);
    expect(again.state.finished).toBe(true);
    expect(again.state.events.length).toBeGreaterThan(built.state.events.length);
  });

  it('a fixed light is built to its end too, with no step for what it does not have', () => {
    const fixed = [...ROUTES].find(([, { steps }]) => !steps.some(({ base }) => base === 'cut.sash'))![0];
    expect(whole(fixed).state.standing).toBe('finished');
  });
});
