/** The order check and clashes that nothing can settle: each problem with number, limit and source. */
import { describe, expect, it } from 'vitest';
import { setOut } from '../../src/window/setout.js';
import { at, fixed, marks, part, sideHung, split, topHung, unit, w52 } from './kit.js';

const ids = (made: ReturnType<typeof setOut>) => made.problems.map(({ id }) => id);
const only = (made: ReturnType<typeof setOut>) => {
  expect(made.problems).toHaveLength(1);
  return made.problems[0]!;
};

describe('order check', () => {
  it('refuses a sash that no stay takes, with every limit it breaks', () => {
    const made = setOut(unit(700, 1450, sideHung('left')), w52);
    const problem = made.problems.find(({ id }) => id === 'order.stay')!;
    expect(problem.text).toMatch(/300: width over 550, height over 1200/);
    expect(problem.text).toMatch(/400: height over 1250/);
    expect(problem.text).toMatch(/invented/);
    expect(made.refused).toBe(true);
  });
  it('refuses a side-hung sash wider than it is high', () => {
    expect(only(setOut(unit(650, 600, sideHung('left')), w52)).text).toMatch(
      /sash width to height is 1\.098; at most 1 .*common practice/,
    );
    // A top-hung sash may be.
    expect(setOut(unit(1000, 700, topHung()), w52).problems).toEqual([]);
  });
  it('refuses glass that no bead holds', () => {
    const problem = only(setOut(unit(900, 1200, fixed('4-20-4')), w52));
    expect(problem).toMatchObject({ id: 'order.glass-thickness' });
    expect(problem.text).toMatch(/28 thick.*23\.5–24\.5/);
  });
  it('refuses glass nobody knows, and glass that is not safety glass where that is asked for', () => {
    expect(ids(setOut(unit(900, 1200, fixed('milk')), w52))).toContain('job.glass');
    const needs = { escape: false, restrictor: false, safetyGlass: true };
    expect(ids(setOut(unit(900, 1200, fixed(), { needs }), w52))).toEqual(['order.safety-glass']);
    expect(ids(setOut(unit(900, 1200, fixed('4T-16-4T'), { needs }), w52))).toEqual([]);
  });
  it('refuses a handle out of range', () => {
    const problem = setOut(unit(650, 1150, sideHung('left', { handleAt: 100 })), w52).problems[0]!;
    expect(problem).toMatchObject({ id: 'order.limit' });
    expect(problem.text).toMatch(/handle at 100 is outside 150 to 912/);
  });
  it('refuses sizes outside the set, and what opens in', () => {
    expect(
      only(
        setOut(unit(3100, 1200, split('upright', { by: 'equal-sight' }, [fixed(), fixed(), fixed()])), w52),
      ).text,
    ).toMatch(/overall width is 3100 mm; at most 3000 mm/);
    expect(ids(setOut(unit(650, 1150, sideHung('left', { opensIn: true })), w52))).toEqual([
      'order.opens-in',
    ]);
  });
  it('lets a problem pass that a named person has overridden, and keeps it on the list', () => {
    const made = setOut(unit(900, 1200, fixed('4-20-4')), w52, { overridden: ['order.glass-thickness'] });
    expect(made.refused).toBe(false);
    expect(made.problems).toHaveLength(1);
  });
  it('says near the limit from 95 %, without refusing', () => {
    // 546 of 550 wide.
    const near = setOut(unit(634, 1200, sideHung('left')), w52);
    expect(near.lights[0]).toMatchObject({ stay: '300', near_limit: true });
    expect(near.warnings.map(({ id }) => id)).toEqual(['order.near-limit']);
    expect(near.refused).toBe(false);
    // 522 of 550 is 94.9 %.
    expect(setOut(unit(610, 1150, sideHung('left')), w52).lights[0]).toMatchObject({
      stay: '300',
      near_limit: false,
    });
  });
});

describe('lights that do not fit', () => {
  it.each([
    [split('upright', at(40), [fixed(), fixed()]), /outside its opening/],
    [
      split('upright', { by: 'sight-size', sizes: [300, 300] }, [fixed(), fixed()]),
      /add up to 600; there is room for 720/,
    ],
    [split('upright', { by: 'sight-size', sizes: [800, 'rest'] }, [fixed(), fixed()]), /leaves sight sizes/],
    [split('upright', at(300, 350), [fixed(), fixed(), fixed()]), /would be/],
  ])('are one plain problem and no noise (%#)', (layout, text) => {
    const made = setOut(unit(900, 1200, layout), w52);
    expect(made.refused).toBe(true);
    expect(made.problems.every(({ id }) => id === 'layout.room')).toBe(true);
    expect(made.problems[0]!.text).toMatch(text);
  });
});

describe('clashes', () => {
  it('add a screw where moving one cannot keep the pitch', () => {
    // Add-on jamb 749: three screws at 299.5, the middle one on the gearbox; four stand clear of gearbox and keeps.
    const made = setOut(unit(650, 810, sideHung('left')), w52);
    expect(part(made, 'L1.addon-right').length).toBe(749);
    const found = marks(made, 'L1.addon-right', 'fixing');
    expect(found).toHaveLength(4);
    expect(found[0]).toBe(75);
    expect(found[3]).toBe(674);
    expect(part(made, 'L1.addon-right').marks.find(({ kind }) => kind === 'fixing')!.reason).toMatch(
      /^1 more than the pitch asks/,
    );
    expect(marks(made, 'L1.addon-left', 'fixing')).toHaveLength(3);
    expect(made.problems).toEqual([]);
  });
  it('leave the ends where they belong unless nothing else works', () => {
    // The drain slot stands at 81.5, 25 long: the end screw at 75 cannot stay.
    const made = setOut(unit(634, 650, topHung()), w52);
    const [end] = part(made, 'L1.addon-bottom').marks.filter(({ kind }) => kind === 'fixing');
    expect(end).toMatchObject({ at: 54, moved_from: 75, reason: 'moved 21 left: inner drain slot at 81.5' });
    expect(made.problems).toEqual([]);
  });
  it('name the rules that cannot hold together', () => {
    // A light 51 wide has no room for two slots 60 from its ends.
    const made = setOut(
      unit(900, 1500, split('level', at(800), [split('upright', at(141), [fixed(), fixed()]), fixed()])),
      w52,
    );
    expect(made.refused).toBe(true);
    const clash = made.problems.find(({ id }) => id === 'setout.clash')!;
    expect(clash.text).toMatch(/^On D1 .* cannot hold together: .*the end distances of drain-inner/);
    expect(clash.todo).not.toBe('');
  });
  it('keep drains of a light above a divider clear of the screws of a divider below', () => {
    // Three drains above; the upright below stands right under the middle one.
    const layout = split('level', at(700), [fixed(), split('upright', at(480), [fixed(), fixed()])]);
    const made = setOut(unit(960, 1400, layout), w52);
    const holes = marks(made, 'D1', 'divider-hole');
    expect(holes).toEqual([471 - 30.5, 489 - 30.5]);
    const drains = part(made, 'D1').marks.filter(({ kind }) => kind === 'drain-inner');
    for (const { at: drain } of drains)
      for (const hole of holes) expect(Math.abs(drain - hole)).toBeGreaterThanOrEqual(12.5 + 15);
    expect(drains[1]!.reason).toMatch(/divider screw at/);
  });
});

it('cleated and ported dividers have marks, parts and pieces of their own', () => {
  const made = (joint: 'ported' | 'cleated') =>
    setOut(unit(1400, 1200, split('upright', at(700), [fixed(), fixed()], joint)), w52);
  const [ported, cleated] = [made('ported'), made('cleated')];
  expect(marks(ported, 'frame-sill', 'divider-hole')).toHaveLength(2);
  expect(marks(ported, 'frame-sill', 'cleat-hole')).toEqual([]);
  expect(marks(cleated, 'frame-sill', 'cleat-hole')).toHaveLength(2);
  expect(marks(cleated, 'D1', 'cleat-divider-hole')).toHaveLength(4);
  expect(ported.extras.find(({ name }) => name === 'port screw')!.quantity).toBe(4);
  expect(
    cleated.extras.filter(({ item }) => item === 'D1').map(({ name, quantity }) => [name, quantity]),
  ).toEqual([
    ['divider cleat', 2],
    ['cleat screw', 4],
    ['cleat screw', 4],
    ['end pad', 2],
  ]);
});
