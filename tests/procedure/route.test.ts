import { describe, expect, it } from 'vitest';
import { parseProcedure } from '../../src/procedure/parse.js';
import { makeRoute, restsOf } from '../../src/procedure/route.js';
import { comesAfter } from '../../src/procedure/stageorder.js';
import { casement, idsOf, must, route, routes, small, stepOf, units } from './samples.js';

describe('a route', () => {
  it('for a fixed light says nothing of hinges, sashes, handles or stays', () => {
    const said = JSON.stringify(route('fixed')).toLowerCase();
    // "add-on" and "keep" are left out: the words "keep" (clean) and "add" are also verbs.
    for (const word of ['hinge', 'sash', 'handle', 'stay ', 'stays', 'gearbox', 'cams', 'lock rod', 'add-on'])
      expect(said, word).not.toContain(word);
  });

  it('takes only the steps that the unit needs', () => {
    const bases = (kind: string) => new Set(route(kind).steps.map(({ base }) => base));
    expect(bases('top-hung')).not.toContain('dividers.port');
    expect(bases('top-hung')).not.toContain('glaze.brace');
    expect(bases('side-left')).toContain('glaze.brace');
    expect(bases('upright')).toContain('dividers.port');
    expect(bases('upright')).not.toContain('levels.seat');
    expect(bases('level')).toContain('levels.seat');
    expect(bases('level')).not.toContain('dividers.port');
    expect(bases('side-left')).toContain('hang.opening');
    expect(bases('top-hung')).not.toContain('hang.opening');
    expect(stepOf('fixed-safety', 'glaze.set@L1').checks.map(({ id }) => id)).toContain('glaze.set@L1/mark');
  });

  it('thins stages, and looks through those that fall away', () => {
    const stages = new Map(route('fixed').stages.map((stage) => [stage.id, stage.after]));
    expect(stages.has('hang')).toBe(false);
    expect(stages.get('final')).toEqual(['glaze']);
    expect(stages.get('frame')).toEqual(['machine-frame']);
    for (const [kind, { stages: all }] of routes)
      for (const stage of all)
        for (const before of stage.after)
          expect(
            all.some(({ id }) => id === before),
            `${kind} ${stage.id}`,
          ).toBe(true);
  });

  it('walks light by light inside a stage', () => {
    const sash = route('mixed').stages.find(({ id }) => id === 'sash')!.steps;
    expect(sash).toEqual([
      'sash.dry-fit@L2',
      'sash.seal@L2',
      'sash.close@L2',
      'sash.dry-fit@L3',
      'sash.seal@L3',
      'sash.close@L3',
    ]);
  });

  it('fills numbers of its own light and divider', () => {
    expect(stepOf('mixed', 'square.sash@L2').checks[0]).toMatchObject({
      id: 'square.sash@L2/square',
      kind: 'square',
      unit: 'mm',
      nominal: { w: 516, h: 916 },
      explains: 'sash.L2.diagonal',
    });
    expect(stepOf('upright', 'dividers.position@D1').checks[0]!.points![0]!.expect).toBe(600);
    expect(stepOf('side-left', 'hardware.gearbox@L1').title).toBe('Fit gearbox and handle of L1');
  });

  it('qualifies features by item and rests on all of them where the step is for the unit', () => {
    expect(stepOf('mixed', 'square.sash@L2').makes).toEqual(['sash.geometry@L2']);
    expect(stepOf('mixed', 'square.sash@L3').rests).toEqual(['sash.corners@L3']);
    expect(stepOf('mixed', 'final.size').rests).toEqual(
      expect.arrayContaining([
        'divider.position@D1',
        'divider.position@D2',
        'glass.packed@L1',
        'glass.packed@L3',
      ]),
    );
    // A step for a light rests on every divider: the route does not know which ones border it.
    expect(stepOf('mixed', 'glaze.size@L1').rests).toEqual(
      expect.arrayContaining(['divider.position@D1', 'divider.position@D2']),
    );
  });

  it('lets "everything" stand for all that was made before', () => {
    for (const { steps } of routes.values()) {
      const at = steps.findIndex(({ id }) => id === 'final.release');
      expect(new Set(steps[at]!.rests)).toEqual(new Set(steps.slice(0, at).flatMap(({ makes }) => makes)));
    }
  });

  it('sets the deferral behind every caution', () => {
    for (const { steps } of routes.values())
      for (const { caution } of steps) if (caution) expect(caution).toContain(casement.deferral.text);
  });

  it('says which figure a profile set lacks, and in which step', () => {
    const unit = units.get('top-hung')!;
    const bare = { ...unit, unit: { ...unit.unit, figure: {} } };
    const made = makeRoute(casement, bare);
    expect(idsOf(made)).toContain('procedure.value');
    expect(made.ok ? '' : made.problems.map(({ text }) => text).join()).toContain(
      'No such key: adhesive.open',
    );
  });

  it('refuses to walk to a feature that is made later', () => {
    const ahead = must(
      parseProcedure(
        small((t) =>
          t.replace(
            '        makes: [frame.cut]\n',
            '        makes: [frame.cut]\n        rests: [make.end]\n',
          ),
        ),
      ),
    );
    expect(idsOf(makeRoute(ahead, units.get('fixed')!))).toContain('procedure.rests-ahead');
  });

  it('leaves out a step of which the unit gets no check, for nobody could ever say that it is done', () => {
    const onSquare = (when: string) =>
      must(
        parseProcedure(
          small((text) => text.replace('          - id: square\n', `$&            when: ${when}\n`)),
        ),
      );
    const steps = (when: string) => {
      const made = must(makeRoute(onSquare(when), units.get('fixed')!));
      return made.steps.map(({ id, rests, checks }) => [id, rests, checks.length]);
    };
    expect(steps('unit.lights == 1')).toEqual([
      ['cut.frame', [], 1],
      ['make.frame', ['frame.cut'], 1],
      ['make.end', ['frame.made'], 1],
    ]);
    expect(steps('unit.lights > 9')).toEqual([
      ['cut.frame', [], 1],
      ['make.end', [], 1],
    ]);
    expect(idsOf(makeRoute(onSquare('figure["none"] > 1.0'), units.get('fixed')!))).toEqual([
      'procedure.value',
    ]);
  });

  it('refuses a unit for which nothing is done', () => {
    const never = must(
      parseProcedure(
        small((text) => text.replace(/^( {6}- id: .*\n)/gm, '$1        when: unit.lights > 9\n')),
      ),
    );
    expect(idsOf(makeRoute(never, units.get('fixed')!))).toEqual(['procedure.empty']);
  });
});

describe('every route of the demonstration procedure', () => {
  it.each([...routes])('%s: can be walked, and rests only on what is made', (_, { steps, stages }) => {
    const made = new Set<string>();
    for (const step of steps) {
      for (const feature of restsOf(step)) expect(made.has(feature), `${step.id} on ${feature}`).toBe(true);
      for (const feature of step.makes) {
        expect(made.has(feature), `${feature} made twice`).toBe(false);
        made.add(feature);
      }
      for (const timer of [step.notBefore, step.notAfter])
        if (timer) expect(made.has(timer.feature)).toBe(true);
    }
    const maker = new Map(steps.flatMap((step) => step.makes.map((feature) => [feature, step] as const)));
    for (const step of steps)
      for (const feature of restsOf(step)) {
        const from = maker.get(feature)!.stage;
        if (from !== step.stage)
          expect(comesAfter({ stages }, step.stage).has(from), `${step.id} ${from}`).toBe(true);
      }
    expect(new Set(steps.map(({ id }) => id)).size).toBe(steps.length);
    expect(stages.flatMap((stage) => stage.steps)).toEqual(steps.map(({ id }) => id));
    for (const step of steps) {
      expect(step.checks.length, step.id).toBeGreaterThan(0);
      for (const check of step.checks) expect(check.id.startsWith(`${step.id}/`)).toBe(true);
    }
  });
});
