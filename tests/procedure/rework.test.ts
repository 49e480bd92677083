/**
 * What has to be repeated after rework, as common practice has it (no source), compared with what the features of the
 * demonstration procedure say. `opens` must be re-opened, `leaves` must not; stages by id, or single steps. A unit that
 * was already packed is wrapped and loaded again after any of these: label.protect and dispatch are not named.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { reopenedBy, restsOf } from '../../src/procedure/route.js';
import type { Route } from '../../src/procedure/types.js';
import { route, routes } from './samples.js';

interface Rework {
  readonly what: string;
  readonly unit: string;
  readonly step: string;
  /** Ids of stages or steps. */
  readonly opens: string;
  readonly leaves: string;
}

const SASH_BRANCH = 'sash sash-square sash-seals hardware.holes@L2 hardware.stays@L2';
const REWORKS: readonly Rework[] = [
  {
    what: 'replace one frame member',
    unit: 'upright',
    step: 'cut.frame',
    opens:
      'machine.frame-cleats machine.frame-lines machine.frame-slots machine.frame-clean frame frame-square dividers addon.fit@L2 addon.opening@L2 addon.seal@L2 addon.outer-gasket@L2 hang.sash@L2 hang.keeps@L2 hang.gaps@L2 glaze.drains-fixed@L1 glaze.pack@L1 glaze.beads@L1 glaze.wedge@L1 adjust final',
    leaves: `${SASH_BRANCH} glass cut.sash@L2 machine-sash machine.divider-rout@D1 machine.addon-holes@L2 label.match`,
  },
  {
    what: 'replace a frame member of a unit without dividers: opening lights keep their packers',
    unit: 'top-hung',
    step: 'cut.frame',
    opens: 'frame frame-square addon.fit@L1 hang.sash@L1 adjust final',
    leaves: 'glass sash sash-square glaze.drains-sash@L1 glaze.gasket@L1',
  },
  {
    what: 'square the frame again before it cures',
    unit: 'mixed',
    step: 'square.frame',
    opens: 'dividers.position@D1 dividers.position@D2 dividers.recheck addon.fit@L2 addon.fit@L3',
    leaves: 'frame machine-frame levels sash sash-square glass',
  },
  {
    what: 'open a cured corner',
    unit: 'upright',
    step: 'frame.seal',
    opens: 'frame.close frame-square dividers addon.fit@L2 hang.sash@L2 glaze.pack@L1 adjust final',
    leaves: 'machine-frame sash sash-square sash-seals glass',
  },
  {
    what: 'move or replace an upright divider',
    unit: 'upright',
    step: 'dividers.port@D1',
    opens:
      'dividers.position@D1 dividers.recheck addon.fit@L2 addon.opening@L2 glaze.size@L1 glaze.size@L2 glaze.set@L1 glaze.set@L2 glaze.pack@L1 glaze.pack@L2 hang.sash@L2 adjust final',
    leaves: 'frame sash sash-square sash-seals glass',
  },
  {
    what: 'move or replace a level divider',
    unit: 'level',
    step: 'levels.seat@D1',
    opens:
      'dividers.position@D1 dividers.recheck addon.fit@L1 glaze.size@L1 glaze.size@L2 glaze.pack@L1 hang.sash@L1 adjust final',
    leaves: 'sash sash-square sash-seals glass machine-frame',
  },
  {
    what: 'cut a divider anew',
    unit: 'upright',
    step: 'cut.divider@D1',
    opens: 'machine.divider-rout@D1 machine.divider-clean@D1 dividers final',
    leaves: 'frame frame-square machine.frame-clean sash glass',
  },
  {
    what: 'new sash member',
    unit: 'upright',
    step: 'cut.sash@L2',
    opens:
      'machine-sash sash sash-square sash-seals hardware hang glaze.drains-sash@L2 glaze.pack@L2 adjust final',
    leaves:
      'cut-frame machine-frame frame frame-square dividers addon glass glaze.pack@L1 glaze.drains-fixed@L1',
  },
  {
    what: 'set a keep again',
    unit: 'top-hung',
    step: 'hang.keeps@L1',
    opens: 'hang.gaps@L1 adjust final',
    leaves: 'frame addon sash hardware glaze.pack@L1 hang.sash@L1',
  },
  {
    what: 'change the stays',
    unit: 'top-hung',
    step: 'hardware.stays@L1',
    opens: 'hang.sash@L1 hang.keeps@L1 hang.gaps@L1 adjust final',
    leaves: 'frame addon sash glaze.pack@L1 glass',
  },
  {
    what: 'change the glass',
    unit: 'upright',
    step: 'glass.look@L1',
    opens: 'glaze.drains-fixed@L1 glaze.set@L1 glaze.pack@L1 glaze.beads@L1 glaze.wedge@L1 label.match final',
    leaves: 'frame dividers addon sash hardware hang glaze.pack@L2',
  },
  {
    what: 'pack again',
    unit: 'side-left',
    step: 'glaze.pack@L1',
    opens: 'glaze.beads@L1 glaze.brace@L1 adjust final',
    leaves: 'frame addon sash hardware hang glaze.drains-sash@L1 glaze.set@L1 label.match',
  },
  {
    what: 'change an outer gasket of the sash',
    unit: 'top-hung',
    step: 'seals.outer@L1',
    opens: 'hang.gasket@L1 adjust.stays@L1 final',
    leaves: 'frame addon sash hardware hang.sash@L1 hang.keeps@L1 glaze.pack@L1 label.match',
  },
  {
    what: 'change the inner glazing gasket',
    unit: 'fixed',
    step: 'glaze.wedge@L1',
    opens: 'final',
    leaves: 'frame glaze.pack@L1 glaze.beads@L1 label.match',
  },
  {
    what: 'touch up',
    unit: 'mixed',
    step: 'final.look',
    opens: 'final.release',
    leaves: 'order cut-frame frame sash addon hang glaze adjust final.size label.match',
  },
  {
    what: 'size or hand changed by the customer',
    unit: 'mixed',
    step: 'order.papers',
    opens:
      'order.freeze stock.profile pack glass saw cut-frame cut-sash machine-frame machine-sash levels frame frame-square dividers addon sash sash-square sash-seals hardware hang glaze adjust final label dispatch',
    leaves: 'stock.tools',
  },
];

const stepsNamed = (of: Route, words: string): string[] =>
  words.split(' ').flatMap((word) => {
    const named = of.steps.filter((step) => step.id === word || step.stage === word).map(({ id }) => id);
    expect(named, `${of.unit} has no ${word}`).not.toEqual([]);
    return named;
  });

describe('rework re-opens what rests on it', () => {
  it.each(REWORKS.map((rework) => [rework.what, rework] as const))(
    '%s',
    (_, { unit, step, opens, leaves }) => {
      const opened = new Set(reopenedBy(route(unit).steps, step));
      expect(stepsNamed(route(unit), opens).filter((id) => id !== step && !opened.has(id))).toEqual([]);
      expect(stepsNamed(route(unit), leaves).filter((id) => opened.has(id))).toEqual([]);
    },
  );

  it('always opens the final release, whatever is made again before it', () => {
    for (const { steps } of routes.values()) {
      const release = steps.findIndex(({ id }) => id === 'final.release');
      for (const step of steps.slice(0, release))
        expect(reopenedBy(steps, step.id), step.id).toContain('final.release');
    }
  });

  it('opens exactly what is reached over the features, only later steps, and never itself', () => {
    const every = [...routes.values()].flatMap(({ steps }) => steps.map((_, at) => ({ steps, at })));
    fc.assert(
      fc.property(fc.constantFrom(...every), ({ steps, at }) => {
        const opened = reopenedBy(steps, steps[at]!.id);
        const index = new Map(steps.map(({ id }, i) => [id, i]));
        for (const id of opened) expect(index.get(id)!).toBeGreaterThan(at);
        // The same by another way: walk backwards from each step to what it rests on.
        const maker = new Map(steps.flatMap((s) => s.makes.map((f) => [f, s] as const)));
        const below = (id: string, seen = new Set<string>()): Set<string> => {
          for (const feature of restsOf(steps[index.get(id)!]!)) {
            const from = maker.get(feature)!.id;
            if (!seen.has(from)) {
              seen.add(from);
              below(from, seen);
            }
          }
          return seen;
        };
        for (const { id } of steps) expect(opened.includes(id), id).toBe(below(id).has(steps[at]!.id));
      }),
      { seed: 20, numRuns: 60 },
    );
  });
});
