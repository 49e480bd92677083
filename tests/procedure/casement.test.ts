/** The demonstration procedure: its size, its language, and that it covers the trade for each kind of unit. */
import { describe, expect, it } from 'vitest';
import { parseLimits } from '../../src/measure/limits.js';
import { coverageOf, coverageText } from '../../src/procedure/coverage.js';
import { stepsOf } from '../../src/procedure/model.js';
import { formulasIn } from '../../src/procedure/template.js';
import { idsIn, isFor, LINES } from './lines.js';
import { casement, must, route, routes, sourceOf, stepOf, units } from './samples.js';

const steps = stepsOf(casement);
const countsOf = (kind: string) => units.get(kind)!.unit.unit as Parameters<typeof isFor>[1];

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
    expect(fixedSteps).toBeGreaterThanOrEqual(30);
    expect(fixedChecks).toBeGreaterThanOrEqual(100);
    expect(topSteps).toBeGreaterThan(fixedSteps + 25);
    expect(topChecks).toBeGreaterThan(fixedChecks + 80);
  });

  it('says why and what to watch on every step, and cautions where there is a hazard', () => {
    for (const step of steps) {
      expect(step.why.text, step.id).not.toBe('');
      expect(step.watch.text, step.id).not.toBe('');
      if (step.hazards.length > 0) expect(step.caution?.text, step.id).toBeTruthy();
    }
    expect(casement.deferral.text).toMatch(
      /risk assessment, local rules and the instructions of machine and product/,
    );
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

  it('asks and measures what its units have', () => {
    const kit = (kind: string) => stepOf(kind, 'stock.kit').checks.map(({ id }) => id.split('/')[1]);
    expect(kit('level')).toContain('stays');
    expect(kit('fixed')).not.toContain('stays');
    // Sample figures are all 10: the opening is the add-on size less its height on both sides.
    expect(stepOf('top-hung', 'addon.opening@L1').checks[0]).toMatchObject({ nominal: { w: 523, h: 923 } });
  });

  it('makes every check that is asked for by name', () => {
    const named = (kind: string, id: string, check: string) =>
      expect(
        stepOf(kind, id).checks.map((c) => c.id.split('/')[1]),
        `${id}/${check}`,
      ).toContain(check);
    for (const [step, check] of [
      ['square.frame', 'feel'],
      ['addon.mitres@L1', 'gaps'],
      ['square.sash@L1', 'feel'],
    ] as const)
      expect(
        stepOf('top-hung', step)
          .checks.find(({ id }) => id === `${step}/${check}`)
          ?.points?.map(({ id }) => id),
        step,
      ).toEqual(expect.arrayContaining(['bottom-left', 'bottom-right', 'top-right', 'top-left', 'step']));
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

describe('the trade is covered', () => {
  it.each(LINES.map((each, i) => [i + 1, each.line, each] as const))('%i: %s', (_, __, { covered }) => {
    for (const [ids, units] of covered)
      for (const id of idsIn(ids))
        for (const [kind, { steps: walked }] of routes) {
          const [base, check] = id.split('/');
          const found = walked.filter((step) => step.base === base);
          const has =
            check === undefined
              ? found.length > 0
              : found.some((step) => step.checks.some((each) => each.id === `${step.id}/${check}`));
          expect(has, `${id} for ${kind}`).toBe(isFor(units, countsOf(kind)));
        }
  });

  it('and no step is left out of the list', () => {
    const listed = new Set(
      LINES.flatMap(({ covered }) => covered.flatMap(([ids]) => idsIn(ids).map((id) => id.split('/')[0]))),
    );
    expect(steps.map(({ id }) => id).filter((id) => !listed.has(id))).toEqual([]);
  });

  it('a top-hung sash cuts no gasket short: the outer one starts at the bottom middle and is cut long', () => {
    const { do: sentences } = stepOf('top-hung', 'seals.outer@L1');
    expect(sentences.join(' ')).toMatch(/10 mm over.*middle of the bottom rail/);
  });
});
