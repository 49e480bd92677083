/** The demonstration procedure: its size, its language, and that it covers the trade for each kind of unit. */
import { describe, expect, it } from 'vitest';
import { parseLimits } from '../../src/measure/limits.js';
import { coverageOf, coverageText } from '../../src/procedure/coverage.js';
import { stepsOf } from '../../src/procedure/model.js';
import { formulasIn } from '../../src/procedure/template.js';
import { casement, must, route, routes, sourceOf, stepOf } from './samples.js';

const steps = stepsOf(casement);

describe('the casement procedure', () => {
  it('has at least 45 steps and 70 checks', () => {
    expect(steps.length).toBeGreaterThanOrEqual(45);
    expect(steps.flatMap(({ checks }) => checks).length).toBeGreaterThanOrEqual(70);
  });

  it('gives even a fixed light a whole route, and an opening one more', () => {
    const count = (kind: string) => [
      route(kind).steps.length,
      route(kind).steps.flatMap((s) => s.checks).length,
    ];
    const [fixedSteps, fixedChecks] = count('fixed') as [number, number];
    const [topSteps, topChecks] = count('top-hung') as [number, number];
    expect(fixedSteps).toBeGreaterThanOrEqual(40);
    expect(fixedChecks).toBeGreaterThanOrEqual(100);
    expect(topSteps).toBeGreaterThan(fixedSteps + 30);
    expect(topChecks).toBeGreaterThan(fixedChecks + 80);
  });

  it('says why and what to watch on every step, and cautions where there is a hazard', () => {
    for (const step of steps) {
      expect(step.why.text, step.id).not.toBe('');
      expect(step.watch.text, step.id).not.toBe('');
      if (step.hazards.length > 0) expect(step.caution?.text, step.id).toBeTruthy();
    }
    expect(casement.deferral.text).toMatch(/risk assessment and local rules/);
  });

  it('treats every step with a saw, press, drill, router, glass or sealant as a hazard', () => {
    const hazardous = /\b(saw|press|drill|router|rout|punch|grind|sealant gun|adhesive|suction cups)\b/i;
    for (const step of steps) {
      const tools = [step.title.text, ...step.tools.map(({ text }) => text)].join(' ');
      if (hazardous.test(tools) && step.id !== 'pack.list') expect(step.hazards, step.id).not.toEqual([]);
    }
  });

  it('asks a question before every hold', () => {
    for (const step of steps) if (step.hold) expect(step.question, step.id).toBeDefined();
  });

  it('holds at every point of the list H1 to H12', () => {
    const held = new Set(
      [...routes.values()].flatMap((r) => r.steps.flatMap((s) => (s.hold ? [s.hold.id] : []))),
    );
    expect([...held].sort()).toEqual([
      'H1',
      'H10',
      'H11',
      'H12',
      'H2',
      'H3',
      'H4',
      'H5',
      'H6',
      'H7',
      'H8',
      'H9',
    ]);
  });

  it('judges every number by limits that suit it', () => {
    const { byId } = must(parseLimits(sourceOf('shared/limits.yaml')));
    for (const step of steps)
      for (const check of step.checks)
        for (const id of check.limits) expect(byId.has(id), `${step.id}/${check.id} ${id}`).toBe(true);
  });

  it('counts and measures what its units have', () => {
    expect(stepOf('top-hung', 'machine.addon-holes@L1').checks[0]).toMatchObject({
      kind: 'count',
      expect: 10,
    });
    expect(stepOf('level', 'stock.hardware').checks.find(({ id }) => id.endsWith('/stays'))).toMatchObject({
      expect: 2,
    });
    expect(stepOf('mixed', 'stock.hardware').checks.find(({ id }) => id.endsWith('/stays'))).toMatchObject({
      expect: 4,
    });
    // Sample figures are all 10: the opening is the add-on size less its height on both sides.
    expect(stepOf('top-hung', 'addon.opening@L1').checks[0]).toMatchObject({ nominal: { w: 523, h: 923 } });
  });

  it('makes every check that is asked for by name', () => {
    const named = (kind: string, id: string, check: string) =>
      expect(
        stepOf(kind, id).checks.map((c) => c.id.split('/')[1]),
        `${id}/${check}`,
      ).toContain(check);
    for (const corner of ['bottom-left', 'bottom-right', 'top-right', 'top-left'])
      for (const step of ['frame.mitres', 'addon.mitres@L1', 'sash.mitres@L1'])
        named('top-hung', step, corner);
    named('mixed', 'square.frame', 'square');
    for (const light of ['L2', 'L3']) named('mixed', `square.sash@${light}`, 'square');
    expect(() => stepOf('mixed', 'square.sash@L1')).toThrow();
    named('fixed', 'glaze.drains-fixed@L1', 'down');
    named('top-hung', 'glaze.drains-sash@L1', 'down');
    named('top-hung', 'sash.close@L1', 'heads');
    for (const step of ['addon.gasket@L1', 'seals.outer@L1', 'seals.inner@L1']) {
      const asks = stepOf('top-hung', step).checks.map(({ ask }) => ask);
      expect(asks.join(' '), step).toMatch(/joint/);
    }
    expect(
      stepOf('fixed', 'glaze.pack@L1')
        .checks.map(({ ask }) => ask)
        .join(' '),
    ).toMatch(/glass packers/);
  });

  it('tabulates which unit gets what', () => {
    const table = coverageOf(casement, [route('fixed'), route('mixed')]);
    const row = (step: string, check?: string) =>
      table.rows.find((r) => r.step === step && r.check === check)!;
    expect(row('square.sash').times).toEqual([0, 2]);
    expect(row('square.frame', 'square').times).toEqual([1, 1]);
    expect(row('dividers.port').times).toEqual([0, 1]);
    expect(table.steps).toEqual([route('fixed').steps.length, route('mixed').steps.length]);
    const text = coverageText(table);
    expect(text.length).toBe(table.rows.length + 3);
    expect(text.find((line) => line.startsWith('square.sash '))).toMatch(/\s\.\s+2$/);
  });

  it('asks only for figures that its head comment lists', () => {
    const head = sourceOf('procedures/casement.yaml').text.split('features:')[0]!;
    for (const step of steps)
      for (const text of [...step.do, ...step.checks.map(({ ask }) => ask)])
        for (const formula of formulasIn(text))
          for (const [, figure] of formula.text.matchAll(/figure\["([^"]+)"\]/g))
            expect(head).toContain(figure);
  });
});

/**
 * What a build has to cover, line by line, and the steps that cover it. `F` fixed light, `T` top-hung, `S` side-hung
 * (each way), `U` a unit with an upright ported divider, `C` one with a level cleated divider.
 */
const KIND = {
  F: ['fixed'],
  T: ['top-hung'],
  S: ['side-left', 'side-right'],
  U: ['upright'],
  C: ['level'],
} as const;
type K = keyof typeof KIND;
const all = 'FTSUC';
const opening = 'TSUC';
const LINES: readonly { line: string; steps: readonly [ids: string, kinds: string][] }[] = [
  {
    line: 'tools, materials and kit; drawing and cutting list; order; incoming profile, glass, hardware',
    steps: [
      ['stock.tools stock.kit stock.profile stock.seals stock.sealant', all],
      ['pack.list pack.labels order.papers order.hand order.needs order.freeze', all],
      ['glass.size glass.look', all],
      ['stock.hardware order.stay', opening],
    ],
  },
  {
    line: 'saw set-up and first-off; cutting; labels at the datum end',
    steps: [
      ['saw.setup saw.first-off cut.frame cut.beads', all],
      ['cut.addon cut.sash', opening],
      ['cut.divider', 'UC'],
    ],
  },
  {
    line: 'routing: sash bottom rails, both kinds of divider, the handle slot',
    steps: [
      ['machine.sash-slots machine.handle-slot', opening],
      ['machine.divider-rout', 'UC'],
    ],
  },
  {
    line: 'punching and drilling: cleat holes, drains, divider holes, jig holes, level cleats',
    steps: [
      ['machine.frame-cleats machine.frame-lines machine.frame-slots machine.frame-clean', all],
      ['machine.addon-cleats machine.sash-cleats machine.addon-slots machine.sash-clean', opening],
      ['machine.divider-lines machine.divider-punch machine.divider-clean', 'UC'],
      ['machine.port-holes', 'U'],
      ['machine.cleat-holes levels.cleats', 'C'],
    ],
  },
  { line: 'level dividers on before the frame; small set screws, right key', steps: [['levels.seat', 'C']] },
  {
    line: 'frame: chevrons and cleats, sealant, corners drawn up, wiped; ported divider on its lines',
    steps: [
      ['frame.dry-fit frame.seal frame.close frame.mitres square.frame square.frame-cure', all],
      ['dividers.port', 'U'],
      ['dividers.position dividers.recheck', 'UC'],
    ],
  },
  {
    line: 'add-on frame: holes, cleats, relief, sealant, heads flush, gaskets, drains, screws sealed, beads',
    steps: [
      ['machine.addon-holes addon.close addon.mitres addon.gasket addon.fit addon.seal', opening],
      ['addon.opening addon.beads addon.outer-gasket machine.addon-clean', opening],
      ['glaze.beads', all],
      ['machine.addon-relief', 'UC'],
    ],
  },
  {
    line: 'sash: slot first, cleats, sealant, heads flush, squareness, gaskets',
    steps: [
      ['sash.dry-fit sash.seal sash.close sash.mitres square.sash square.sash-cure', opening],
      ['seals.outer seals.inner', opening],
    ],
  },
  {
    line: 'glazing: drains proven, packers, identity, handle-side bead first, the rest',
    steps: [
      ['glaze.gasket glaze.size glaze.identity glaze.pack glaze.beads glaze.wedge glaze.look', all],
      ['glaze.drains-fixed', 'FUC'],
      ['glaze.drains-sash', opening],
      ['glaze.brace', 'SU'],
    ],
  },
  {
    line: 'hardware: handle, gearbox, rods, stays, sash in, gasket clear, keeps, last fixings, central seal',
    steps: [
      ['hardware.holes hardware.gearbox hardware.rods hardware.stays', opening],
      [
        'hang.sash hang.gasket hang.keeps hang.gaps adjust.gaps adjust.stays adjust.force seals.central',
        opening,
      ],
      ['hang.opening', 'S'],
    ],
  },
  {
    line: 'final inspection, label, protection, stillage, dispatch',
    steps: [
      ['final.clean final.size final.hand final.look final.release', all],
      ['label.match label.parts label.protect dispatch.stillage dispatch.note', all],
    ],
  },
];

describe('the trade is covered', () => {
  it.each(LINES.map(({ line, steps }, i) => [i + 1, line, steps] as const))('%i: %s', (_, __, rows) => {
    for (const [ids, kinds] of rows)
      for (const id of ids.split(' ')) {
        const wanted = new Set([...kinds].flatMap((k) => KIND[k as K]));
        for (const kind of Object.values(KIND).flat()) {
          const has = route(kind).steps.some(({ base }) => base === id);
          expect(has, `${id} for ${kind}`).toBe(wanted.has(kind as never));
        }
      }
  });

  it('and no step is left out of the list', () => {
    const listed = new Set(LINES.flatMap(({ steps: rows }) => rows.flatMap(([ids]) => ids.split(' '))));
    expect(steps.map(({ id }) => id).filter((id) => !listed.has(id))).toEqual(['machine.layout']);
  });

  it('a top-hung sash cuts no gasket short: the outer one starts at the bottom middle and is cut long', () => {
    const { do: sentences } = stepOf('top-hung', 'seals.outer@L1');
    expect(sentences.join(' ')).toMatch(/middle of the bottom rail.*10 mm long/);
  });
});
