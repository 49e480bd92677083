/**
 * Facts of the trade, held against the shipped procedure and the set-outs of the demonstration job and of a three-light
 * window. Common practice where no source stands beside a check.
 */
import { describe, expect, it } from 'vitest';
import { mmText } from '../../src/base/formula.js';
import { whyLines } from '../../src/commands/whytext.js';
import { parseInstruments } from '../../src/measure/instruments.js';
import { bandFor, parseLimits } from '../../src/measure/limits.js';
import { makeRoute } from '../../src/procedure/route.js';
import type { Route, RouteStep } from '../../src/procedure/types.js';
import { markProblems } from '../../src/session/lintshop.js';
import { claimedMarks } from '../../src/window/claims.js';
import { contextsOf } from '../../src/window/context.js';
import { parseJob } from '../../src/window/job.js';
import { setOut } from '../../src/window/setout.js';
import type { Mark, SetOut, Trace, Unit } from '../../src/window/types.js';
import { why } from '../../src/window/why.js';
import { at, fixed, k70, marks, sideHung, split, topHung, unit, w52 } from '../window/kit.js';
import { casement, must, sourceOf } from './samples.js';

const job = must(parseJob(sourceOf('shared/jobs/pier-house.yaml'))).units;
const limits = must(parseLimits(sourceOf('shared/limits.yaml'))).limits;
const threeLights = unit(
  1400,
  1500,
  split('level', at(1050), [topHung(), split('upright', at(800), [fixed(), fixed()])], 'ported'),
);

interface Built {
  readonly made: SetOut;
  readonly route: Route;
  step(id: string): RouteStep;
}
function built(of: Unit | string, set = w52): Built {
  const made = setOut(typeof of === 'string' ? job.find(({ id }) => id === of)! : of, set);
  const route = must(makeRoute(casement, contextsOf(made)));
  return {
    made,
    route,
    step: (id) => {
      const found = route.steps.find((step) => step.id === id);
      if (!found) throw new Error(`${made.unit.id} has no ${id}`);
      return found;
    },
  };
}
const said = ({ title, do: does, checks }: RouteStep): string =>
  [
    title,
    ...does,
    ...checks.flatMap(({ ask, points = [] }) => [ask, ...points.map(({ text }) => text)]),
  ].join(' ');
const expects = (step: RouteStep, check: string): number[] =>
  step.checks
    .filter(({ id }) => id === `${step.id}/${check}`)
    .flatMap(({ expect: one, points }) => points?.map((point) => point.expect!) ?? [one!]);
const markOf = ({ made }: Built, part: string, kind: string): Mark[] =>
  made.parts.find(({ id }) => id === part)!.marks.filter((mark) => mark.kind === kind);
const indexOf = ({ route }: Built, id: string): number => route.steps.findIndex((step) => step.id === id);

describe('positions', () => {
  it('a transom that ends on a mullion is marked on each member from that member’s own end', () => {
    const unit = built('P07-1');
    expect(marks(unit.made, 'D1', 'divider-line')).toEqual([789.5]);
    const lines = unit.step('machine.divider-lines@D2');
    expect(expects(lines, 'lines')).toEqual([789.5, 820]);
    expect(said(lines)).toContain('mullion D1');
    expect(said(lines)).not.toContain('left jamb');
    expect(expects(unit.step('machine.port-holes@D2'), 'line')).toEqual([789.5, 820]);
  });

  it('the end screw of an add-on frame stands clear of the slot beside it', () => {
    for (const { id } of job) {
      const { made } = built(id);
      for (const part of made.parts.filter(({ role }) => role.startsWith('addon-')))
        for (const screw of part.marks.filter(({ kind }) => kind === 'fixing'))
          for (const slot of part.marks.filter(({ kind }) => kind === 'drain-inner' || kind === 'equaliser'))
            expect(Math.abs(screw.at - slot.at) - 12.5, `${id} ${part.id}`).toBeGreaterThanOrEqual(15);
    }
  });

  it('no drain of a top-hung sash lies in its gearbox slot', () => {
    for (const [id, light] of [
      ['P02-1', 'L1'],
      ['P06-1', 'L1'],
      ['P07-1', 'L2'],
    ] as const) {
      const each = built(id);
      const [slot] = markOf(each, `${light}.sash-bottom`, 'handle');
      for (const kind of ['drain-inner', 'drain-outer'])
        for (const drain of markOf(each, `${light}.sash-bottom`, kind))
          expect(Math.abs(drain.at - slot!.at), id).toBeGreaterThanOrEqual(30 + 12.5);
    }
  });

  it('no water finds a way straight through a transom', () => {
    for (const id of ['P06-1', 'P07-1']) {
      const { made } = built(id);
      for (const part of made.parts.filter(({ role }) => role === 'divider'))
        for (const pressure of part.marks.filter(({ kind }) => kind === 'equaliser'))
          for (const drain of part.marks.filter(({ kind }) => kind.startsWith('drain-')))
            expect(Math.abs(pressure.at - drain.at), `${id} ${part.id}`).toBeGreaterThanOrEqual(50);
    }
  });

  it('outer slots of a narrow sash stand apart, and keeps clear of the neighbouring member', () => {
    const { made } = built(unit(456, 900, topHung()));
    const outer = marks(made, 'L1.sash-bottom', 'drain-outer');
    expect(outer.length).toBeGreaterThanOrEqual(2);
    expect(Math.abs(outer[1]! - outer[0]!) - 25).toBeGreaterThanOrEqual(15);
    for (const { id } of job)
      for (const part of built(id).made.parts)
        for (const { at } of part.marks.filter(({ kind }) => kind === 'keep'))
          expect(Math.min(at, part.length - at), part.id).toBeGreaterThanOrEqual(37);
  });

  it('a loose packer gives way to a punched slot, and nothing moves or changes side without a reason', () => {
    const { made } = built(threeLights);
    expect(made.refused).toBe(false);
    expect(marks(made, 'D1', 'drain-outer')).toContain(729.5);
    for (const part of made.parts)
      for (const mark of part.marks)
        if (mark.moved_from !== null && Math.abs(mark.moved_from - mark.at) > 1e-6) {
          expect(mark.reason, `${part.id} ${mark.kind} ${mark.at}`).toMatch(/\S/);
          expect(mark.reason, `${part.id} ${mark.kind} ${mark.at}`).not.toContain('packer');
        }
  });

  it('stays and brackets have the place of their first hole, on both parts', () => {
    const top = built('P02-1');
    const addon = top.made.parts.find(({ id }) => id === 'L1.addon-left')!;
    expect(addon.length - marks(top.made, 'L1.addon-left', 'stay')[0]!).toBeCloseTo(38.5, 6);
    const sash = top.made.parts.find(({ id }) => id === 'L1.sash-left')!;
    expect(sash.length - marks(top.made, 'L1.sash-left', 'bracket')[0]!).toBeCloseTo(40, 6);
    expect(said(top.step('hardware.stays@L1'))).toContain('first hole of the stay bracket');
    expect(said(top.step('hang.sash@L1'))).toContain('first hole of the stay: ');
  });

  it('every mark is made by exactly one step, and every count asked there is the set-out’s', () => {
    for (const set of [w52, k70])
      for (const each of [...job, threeLights]) {
        const made = setOut(each, set);
        const route = must(makeRoute(casement, contextsOf(made)));
        const kinds = new Set(made.parts.flatMap(({ marks }) => marks.map(({ kind }) => kind)));
        for (const loose of ['packer', 'gearbox']) kinds.delete(loose);
        expect(markProblems(made, route, kinds).map(({ text }) => text)).toEqual([]);
        for (const step of route.steps) {
          const claimed = claimedMarks(made, step.marks ?? [], step.item).length;
          for (const check of step.checks)
            if (check.kind === 'count' && /^How many .*(hole|slot|keep)/.test(check.ask) && claimed > 0)
              expect(check.expect, `${each.id} ${check.id}`).toBe(claimed);
        }
      }
  });

  it('locks stand near both ends of a stile, whatever its length', () => {
    for (let height = 620; height <= 2380; height += 40) {
      const { made } = built(unit(700, height, sideHung('left')));
      const stile = made.parts.find(({ id }) => id === 'L1.addon-right')!;
      const keeps = marks(made, stile.id, 'keep').sort((a, b) => a - b);
      const spans = [
        keeps[0]!,
        ...keeps.slice(1).map((at, i) => at - keeps[i]!),
        stile.length - keeps.at(-1)!,
      ];
      expect(Math.max(...spans), `${height}`).toBeLessThanOrEqual(780);
    }
  });

  it('every part that is sawn is cut by a step that says its length', () => {
    for (const set of [w52, k70])
      for (const each of [...job, threeLights]) {
        const made = setOut(each, set);
        const route = must(makeRoute(casement, contextsOf(made)));
        const cuts = route.steps.filter(({ base }) => base.startsWith('cut.')).flatMap((step) => step.do);
        for (const { id, kind, length } of made.parts)
          if (kind !== 'gasket')
            expect(cuts.join(' '), `${each.id} ${id}`).toMatch(new RegExp(`\\b${mmText(length)} mm`));
      }
  });

  it('the kit has the packers of the plan', () => {
    for (const each of job) {
      const made = setOut(each, w52);
      for (const light of made.lights) {
        const kit = made.extras.filter(({ name, item }) => item === light.id && /packer/.test(name));
        expect(
          kit.reduce((sum, { quantity }) => sum + quantity, 0),
          `${each.id} ${light.id}`,
        ).toBe(light.packers.length);
      }
    }
  });

  it('a moved mark says why, in its sum', () => {
    const made = setOut(threeLights, w52);
    const part = made.parts.find(({ id }) => id === 'D1')!;
    const moved = part.marks.find(({ moved_from }) => moved_from !== null)!;
    expect(whyLines(why(made, moved.name!) as Trace)[0]).toContain(`(${moved.reason})`);
  });

  it('an add-on frame and a sash have their cleats, chevrons, cover beads and every gasket of the steps', () => {
    const { made, route } = built('P02-1');
    const count = (name: string, place: string) =>
      made.extras
        .filter((each) => each.name === name && each.place.startsWith(place))
        .map((each) => each.quantity);
    expect(count('alignment chevron', 'add-on')).toEqual([4]);
    expect([...count('frame corner cleat', 'add-on'), ...count('sash corner cleat', 'add-on')]).toEqual([
      4, 4,
    ]);
    expect(count('sash corner cleat', 'sash')).toEqual([8]);
    expect(count('alignment chevron', 'sash')).toEqual([8]);
    for (const role of ['gasket-addon-outer', 'gasket-sash-inner', 'gasket-central', 'cover-level'])
      expect(
        made.parts.some((part) => part.role === role),
        role,
      ).toBe(true);
    for (const step of route.steps.filter(({ title }) => /gasket|seal round/.test(title)))
      if (step.base !== 'hang.gasket' && step.base !== 'stock.seals')
        expect(step.do.join(' '), step.id).toMatch(/\d mm/);
  });
});

describe('instructions', () => {
  const top = built('P02-1');
  const side = built('P05-1');
  const level = built('P06-1');

  it('a keep is pushed back to its stop with the sash shut, and screwed into the wall at the break and into aluminium', () => {
    const { do: does } = top.step('hang.keeps@L1');
    expect(does.join(' ')).toMatch(/Shut the sash, push each keep fully back and up to its stop/);
    expect(does.join(' ')).toMatch(/one screw into the wall at the thermal break and one into aluminium/);
    expect(does.join(' ')).not.toMatch(/lift/i);
  });
  it('the lip at a drain is cut at both ends and its flap taken out', () => {
    const step = top.step('hang.gasket@L1');
    expect(step.do.join(' ')).toMatch(/both ends of the slot.*Take out the flap/);
    expect(step.watch).not.toMatch(/flap/);
  });
  it('spacers lie on the frame side under the stays, when the sash is hung', () => {
    expect(said(top.step('hang.sash@L1'))).toContain('spacer of 3 mm on the add-on frame');
    expect(said(top.step('hardware.stays@L1'))).not.toContain('spacer');
  });
  it('the central seal sits on the frame side', () => {
    expect(said(top.step('seals.central@L1'))).toContain('groove of the frame side');
    expect(top.step('seals.central@L1').stage).toBe('addon');
  });
  it('the handle-side bead comes before the pane, packers before the other beads, the brace is measured twice', () => {
    for (const [each, light] of [
      [top, 'L1'],
      [side, 'L2'],
    ] as const) {
      expect(each.step(`glaze.set@${light}`).do.join(' ')).toContain('fit the bead at the handle side first');
      expect(indexOf(each, `glaze.set@${light}`)).toBeLessThan(indexOf(each, `glaze.pack@${light}`));
      expect(indexOf(each, `glaze.pack@${light}`)).toBeLessThan(indexOf(each, `glaze.beads@${light}`));
      expect(indexOf(each, `glaze.beads@${light}`)).toBeLessThan(indexOf(each, `glaze.wedge@${light}`));
    }
    // Hinged at the top, its handle side is the bottom: those packers lie before the pane comes.
    expect(top.step('glaze.set@L1').do.join(' ')).toContain('bottom packers behind it, before the pane');
    expect(side.step('glaze.pack@L2').checks.map(({ id }) => id)).toContain('glaze.pack@L2/brace');
    expect(indexOf(side, 'glaze.brace@L2')).toBeGreaterThan(indexOf(side, 'glaze.wedge@L2'));
  });
  it('corner holes are countersunk, chevrons lie inside, upper screws go before lower ones, the jig lies flat', () => {
    expect(said(top.step('machine.addon-cleats@L1'))).toMatch(/Countersink the corner holes.*flush/);
    for (const id of ['frame.dry-fit', 'addon.close@L1', 'sash.dry-fit@L1'])
      expect(said(top.step(id)), id).toMatch(/alignment chevrons? on the inside/);
    for (const id of ['frame.close', 'addon.close@L1', 'sash.close@L1'])
      expect(said(top.step(id)), id).toMatch(/upper (screws|pair of screws) before (the )?lower/);
    expect(said(top.step('machine.sash-cleats@L1'))).toContain('four corner holes');
    expect(said(top.step('hardware.holes@L1'))).toMatch(/jig flat.*three holes/);
    const cleated = built(job.find(({ layout }) => JSON.stringify(layout).includes('cleated'))!.id);
    expect(said(cleated.step('levels.seat@D1'))).toContain('two small set screws at each end, from below');
  });
  it('both ends of a divider are routed on the outside face, to a depth and a length', () => {
    const step = level.step('machine.divider-rout@D1');
    expect(step.do[0]).toMatch(/shoulder to 21.5 mm from the end.*depth to 12 mm from the outside face/);
    expect(step.do.join(' ')).toContain('with the same face up');
    expect(step.watch).toContain('both belong on the outside face');
  });
  it('the member whose leg is ground off is named, with the length', () => {
    expect(level.step('machine.addon-relief@L1').do.join(' ')).toMatch(
      /[Aa]dd-on (head|sill|left jamb|right jamb), (mullion|transom) D\d: [\d.]+ - [\d.]+ mm from the (left|bottom) end/,
    );
  });
  it('whether the cleat of a sash has a hand is the profile set’s to say', () => {
    expect(said(built('P02-1', w52).step('machine.addon-cleats@L1'))).toContain('it fits either way');
    expect(said(built('P02-1', w52).step('machine.sash-cleats@L1'))).toContain('no hand');
    expect(said(built('P02-1', k70).step('machine.addon-cleats@L1'))).not.toContain('either way');
    expect(said(built('P02-1', k70).step('machine.sash-cleats@L1'))).toContain('the other way round');
  });
  it('a machining hold says which holes come later', () => {
    const how = (id: string) => top.step(id).checks.find((check) => check.id === `${id}/list`)!.how;
    expect(how('machine.addon-clean@L1')).toMatch(/stays and keeps come when the sash is hung/);
    expect(how('machine.sash-clean@L1')).toMatch(/Handle holes and stay holes come later/);
  });
  it('corners cure from their closing, or from the injection where that comes later', () => {
    expect(top.step('addon.close@L1').notBefore?.feature).toBe('frame.corners');
    expect(built('P08-1').step('addon.close@L1').notBefore?.feature).toBe('frame.injected');
    // Whatever is done first on a frame or a sash after its corners waits for them.
    expect(built('P01-1').step('glaze.drains-fixed@L1').notBefore?.feature).toBe('frame.corners');
    for (const id of ['seals.outer@L1', 'seals.inner@L1'])
      expect(top.step(id).notBefore?.feature, id).toBe('sash.corners@L1');
    for (const id of ['dividers.port@D1', 'dividers.position@D1'])
      expect(built('P05-1').step(id).notBefore?.feature, id).toBe('frame.corners');
  });
  it('an add-on frame is squared within its open time, and cures before it is laid in', () => {
    expect(top.step('addon.square@L1').notAfter?.feature).toBe('addon.ring@L1');
    for (const id of ['addon.gasket@L1', 'addon.fit@L1'])
      expect(top.step(id).notBefore?.feature, id).toBe('addon.ring@L1');
    // A cleated divider is sealed before the corners are: they follow within the open time.
    const cleated = job.find(({ layout }) => JSON.stringify(layout).includes('cleated'))!.id;
    expect(built(cleated).step('frame.seal').notAfter?.feature).toMatch(/^level.seated/);
  });
  it('the temperature is read where adhesive and sealant are used, each with its own limit', () => {
    const held = (id: string) =>
      top
        .step(id)
        .checks.find((check) => check.id.endsWith('/temperature'))
        ?.limits.map((limit) => limit);
    expect(held('frame.seal')).toEqual(['temperature.adhesive']);
    expect(held('addon.seal@L1')).toEqual(['temperature.sealing']);
    // The figure of a shift is held to both, so that either may cite it.
    expect(held('stock.tools')).toEqual(['temperature.adhesive', 'temperature.sealing']);
  });
});

describe('measuring', () => {
  const side = built('P05-1');
  it('what stays visible of the frame is measured, with a rule and not with a gap gauge', () => {
    for (const id of ['hang.gaps@L2', 'adjust.gaps@L2']) {
      const check = side.step(id).checks.find((each) => each.id === `${id}/laps`)!;
      expect(check.quantity).toBe('length');
      expect(check.points!.length).toBe(8);
      expect(side.step(id).tools).toContain('long rule');
    }
  });
  it('what must be measured is asked as a figure: drain time, restrictor, sash rebate, screw sink, packers, last hole', () => {
    const restricted = built('P08-1');
    const kinds = (id: string) =>
      restricted.route.steps.flatMap(({ checks }) => checks).find((c) => c.id === id)?.kind;
    expect(kinds('glaze.drains-sash@L1/time')).toBe('number');
    expect(kinds('hang.opening@L1/held')).toBe('number');
    expect(kinds('glaze.size@L1/sash')).toBe('points');
    expect(kinds('machine.addon-holes@L1/sunk')).toBe('number');
    expect(kinds('glaze.pack@L1/clearance')).toBe('points');
    const { points } = restricted
      .step('machine.addon-holes@L1')
      .checks.find(({ id }) => id.endsWith('/ends'))!;
    expect(points!.map(({ id }) => id)).toEqual(['top-first', 'top-last', 'left-first', 'left-last']);
  });
  it('an escape opening is held to 450 mm each way and to 0.33 m2', () => {
    // Approved Document B volume 1 (England), 2.10: clear area at least 0.33 m2, at least 450 mm high and 450 mm wide.
    const clear = limits.filter(({ id }) => id.startsWith('opening.escape'));
    expect(clear.map(({ of }) => of)).toContain('area');
    const area = clear.find(({ of }) => of === 'area')!;
    expect(JSON.stringify(area)).toContain('0.33');
    expect(JSON.stringify(clear)).toContain('450');
  });
  it('the bow of a member is never looser than 1 mm, nor than 1 mm a metre', () => {
    const bow = limits.find(({ id }) => id === 'bow')!;
    for (const length of [500, 700, 999, 1500, 2400])
      expect(bandFor(bow, length)!.high, `${length}`).toBeLessThanOrEqual(Math.min(1, length / 1000));
  });
  it('a tape is no instrument for a coating, and a coating gauge is there', () => {
    const instruments = must(parseInstruments(sourceOf('shared/instruments.yaml')));
    expect(
      instruments.filter(({ measures }) => measures.includes('coating')).map(({ kind }) => kind),
    ).toEqual(['gauge']);
    const [check] = built('P08-1').step('stock.coating').checks;
    expect(check).toMatchObject({ quantity: 'coating', unit: 'µm' });
  });
});

describe('sources', () => {
  it('an article is common practice; only a standard or a code is published', () => {
    for (const { id, source } of limits) {
      if (source.kind === 'published')
        expect(source.text, id).toMatch(/\b(BS|EN|ISO|DTU|CWCT|DIN|BCA|Approved Document|HSE|Directive)\b/);
      else expect(source.text, id).not.toMatch(/^(BS|EN|ISO) \d/);
    }
  });
  it('a superseded edition says so', () => {
    for (const { id, source } of limits)
      if (/BS 4873:2009/.test(source.text)) expect(source.text, id).toContain('superseded by BS 4873:2016');
  });
});

describe('pictures and cautions', () => {
  const all = ['P02-1', 'P05-1', 'P06-1', 'P07-1', 'P08-1'].map((id) => built(id));
  it('what is hidden for good comes with a picture', () => {
    for (const { route } of all)
      for (const step of route.steps) {
        const wanted = {
          'frame.seal': 'faces',
          'sash.seal': 'faces',
          'addon.close': 'sealed',
          'addon.seal': 'heads',
          'glaze.pack': 'pattern',
        }[step.base];
        if (wanted === undefined) continue;
        expect(step.checks.find(({ id }) => id === `${step.id}/${wanted}`)?.evidence, step.id).toBe(true);
      }
  });
  it('blades, cutters and drills ask for eyes and for bare hands; blades, cutters and dies for ears', () => {
    for (const { route } of all)
      for (const { id, base, caution, tools, setup } of route.steps) {
        const text = caution ?? '';
        if (base.startsWith('cut.') || base === 'saw.first-off') expect(text, id).toMatch(/eyes and ears/);
        if (setup === 'router') expect(text, id).toMatch(/No gloves; protect eyes and ears/);
        if (setup === 'punch') expect(text, id).toMatch(/eyes and ears/);
        if (setup === 'drill' || tools.includes('drill'))
          expect(text, id).toMatch(/(No|no) gloves at the drill/);
        if (setup === 'drill' || tools.includes('drill')) expect(text, id).toMatch(/eye/);
        if (base === 'machine.addon-relief')
          expect(text, id).toMatch(/disc that is made for aluminium, with its guard/);
        if (/sealant gun|adhesive gun/.test(tools.join())) expect(text, id).toMatch(/isocyanates/);
        if (base.startsWith('glass.')) expect(text, id).toMatch(/safety shoes/);
        if (base === 'glass.look') expect(text, id).toMatch(/broken glass/);
        if (/^(hang.sash|glaze.set|glaze.set|glaze.pack)$/.test(base)) expect(text, id).toMatch(/\d kg/);
      }
  });
  it('cautions defer to the assessment, local rules, machine and product', () => {
    expect(casement.deferral.text ?? casement.deferral).toMatch(
      /risk assessment, local rules and the instructions of machine and product/,
    );
  });
});
