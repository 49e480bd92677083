/** What no shop could make, lay or hear: refused, or told, instead of numbers that look right. */
import { describe, expect, it } from 'vitest';
import { setOutText } from '../../src/commands/setouttext.js';
import { lintProfileSet } from '../../src/window/lintset.js';
import { setOut } from '../../src/window/setout.js';
import { setOutJson } from '../../src/window/setoutjson.js';
import type { SetOut } from '../../src/window/types.js';
import { workRows } from '../../src/window/worklists.js';
import { at, fixed, k70, marks, part, sideHung, split, topHung, unit, w52, w52With } from './kit.js';

type Edit = readonly [string | RegExp, string];
const said = ({ problems }: SetOut): string[] => problems.map(({ id, text }) => `${id} ${text}`);
const levels = split('level', at(700), [fixed(), fixed()], 'cleated');

describe('a part that cannot fit', () => {
  const JAMB = 'side: left, length: frame.h, ends: [45, 45]';
  it('a jamb as long as its side that begins 54 up', () => {
    const made = setOut(
      unit(900, 1200, fixed()),
      w52With([JAMB, 'side: left, start: 54.0, length: frame.h, ends: [90, 90]']),
    );
    expect(said(made)).toEqual([
      'setout.sticks-out frame-left begins 54 inside its side of 1200 and sticks out 54 at the other end.',
    ]);
    expect(made.refused).toBe(true);
  });
  it('a jamb that begins before its side and ends short of it', () => {
    const made = setOut(
      unit(900, 1200, fixed()),
      w52With([JAMB, 'side: left, start: 0.0 - 54, length: frame.h, ends: [90, 90]']),
    );
    expect(said(made)).toEqual([
      'setout.sticks-out frame-left begins 54 before its side of 1200 and ends 54 short of the other end.',
    ]);
  });
  it('not: horns at both ends, or at one', () => {
    for (const part of ['start: 0.0 - 40, length: frame.h + 80', 'start: 0, length: frame.h + 40'])
      expect(
        said(setOut(unit(900, 1200, fixed()), w52With([JAMB, `side: left, ${part}, ends: [90, 90]`]))),
      ).toEqual([]);
  });
  it('a rail longer than its sash, that carries no marks', () => {
    const rail = 'box: sash, side: top, length: sash.w, ';
    const made = setOut(unit(1000, 700, topHung()), w52With([rail, `${rail.slice(0, -2)} + 20, `]));
    expect(said(made)).toEqual([
      expect.stringMatching(/^setout\.part-start L1\.sash-top is [\d.]+ long on a side of [\d.]+, /),
    ]);
  });
  it('a divider longer than there is room between the rebate floors', () => {
    const longer: Edit = ['divider.length: divider.span - 2 * end_pad', 'divider.length: divider.span + 6'];
    const made = setOut(unit(1000, 1500, levels), w52With(longer));
    expect(said(made)).toEqual([
      'setout.sticks-out D1 is 946 long; between the rebate floors there are 940.',
    ]);
  });
  it('a divider that laps over its neighbours says where it begins, and its marks follow', () => {
    const set = w52With(
      ['divider.length: divider.span - 2 * end_pad', 'divider.length: divider.span + 20'],
      ['says: divider, profile:', 'says: divider, start: 0.0 - 8, profile:'],
      ['\nmarks:\n', '\nmarks:\n  - {kind: divider-line, per: divider, on: self, rule: {at: [30]}}\n'],
    );
    const made = setOut(unit(1000, 1500, levels), set);
    expect(said(made)).toEqual([]);
    expect(part(made, 'D1')).toMatchObject({ length: 960, seat: { from: 30 - 8 } });
    expect(marks(made, 'D1', 'divider-line')).toEqual([30]);
  });
  it('a bead longer than any side of its light, and beads that add up to more than goes around it', () => {
    const longer = (by: number) =>
      setOut(
        unit(900, 1200, fixed()),
        w52With(['bead.upright: rebate.h - 2 * bead_height', `bead.upright: rebate.h + ${by}.0`]),
      );
    expect(said(longer(100))).toEqual([
      expect.stringMatching(
        /^setout\.sticks-out L1\.bead-upright is [\d.]+ long; no side of its light is longer than [\d.]+\.$/,
      ),
    ]);
    const level = setOut(
      unit(900, 1200, fixed()),
      w52With(['bead.level: rebate.w - bead_clearance', 'bead.level: rebate.w + 90']),
    );
    expect(said(level)).toEqual([
      expect.stringMatching(
        /^setout\.sticks-out L1: its beads are [\d.]+ long together; around the light there are [\d.]+\.$/,
      ),
    ]);
  });
});

it('more pieces of one kind than any unit has', () => {
  const many = (from: string, to: string) => said(setOut(unit(900, 1200, fixed()), w52With([from, to])));
  expect(many('length: bead.level, quantity: 2', 'length: bead.level, quantity: 1000000000')).toContain(
    'setout.below-none L1.bead-level.quantity is 1000000000; no unit has more than 10000.',
  );
  expect(
    many(
      "place: 'frame corners, both chambers', quantity: 8",
      "place: 'frame corners, both chambers', quantity: 1000000000",
    ),
  ).toEqual(['setout.below-none frame corner cleat.quantity is 1000000000; no unit has more than 10000.']);
});

describe('a box that is not where its thing is', () => {
  const BOX = /glass: \{x: ([^,]+), y: ([^,]+), w: glass\.w, h: glass\.h\}/;
  const glassAt = (text: string): string[] =>
    said(setOut(unit(900, 1200, fixed()), w52With([BOX, `glass: ${text}`])));
  it('glass that leaves the sight line open', () => {
    expect(glassAt('{x: glass.cover, y: 0 - glass.cover, w: glass.w, h: glass.h}')).toEqual([
      expect.stringMatching(
        /^setout\.glass-place L1: the glass would lie [\d.]+ off the middle of its light\.$/,
      ),
    ]);
    expect(glassAt('{x: 0 - glass.cover, y: glass.cover, w: glass.w, h: glass.h}')).toEqual([
      expect.stringMatching(
        /^setout\.glass-place L1: the glass would end [\d.]+ short of the sight line at the bottom\.$/,
      ),
    ]);
  });
  it('a box of another size than its glass', () => {
    expect(glassAt('{x: 0 - glass.cover, y: 0 - glass.cover, w: rebate.w, h: glass.h}')).toContainEqual(
      expect.stringMatching(
        /^setout\.box-size L1: box glass is [\d.]+ x [\d.]+, and its sizes say [\d.]+ x [\d.]+\.$/,
      ),
    );
  });
  it('glass that sticks out of its sash, and a sash box of another size', () => {
    const faults = (from: RegExp, to: string) =>
      said(setOut(unit(1000, 700, topHung()), w52With([from, to])));
    expect(
      faults(
        /sash: \{x: ([^,]+), y: ([^,]+), w: sash\.w, h: sash\.h\}/,
        'sash: {x: $1, y: $2, w: sash.w, h: sash.w}',
      ),
    ).toContainEqual(expect.stringMatching(/^setout\.box-size L1: box sash /));
    expect(
      faults(
        /(opening:[\s\S]*?boxes:[\s\S]*?opening:[\s\S]*?glass: \{x: [^,]+, y: )[^,]+,/,
        '$1sash.y - 300,',
      ),
    ).toContainEqual(
      expect.stringMatching(
        /^setout\.glass-place L1: the glass would stick out [\d.]+ of its sash at the bottom\.$/,
      ),
    );
  });
  it('none in the shipped sets', () => {
    expect(said(setOut(unit(1000, 1500, split('level', at(700), [topHung(), fixed()])), w52))).toEqual([]);
    expect(said(setOut(unit(700, 1200, sideHung('left', { glass: '4-20-4' })), k70))).toEqual([]);
  });
});

it.each([
  [
    'glass.area: {formula: glass.w * glass.h / 1000000, unit: m2}\n    glass.mass: {formula: glass.area * panes.thickness / 1000 * glass_density',
    'glass.area: {formula: glass.w * glass.h * (1 / 1000000), unit: m2}\n    glass.mass: {formula: glass.area * panes.thickness / 1000 * glass_density',
  ],
  ['length: bead.level, quantity: 2', 'length: bead.level, quantity: 2 + 1 / (1 + 1)'],
])('a whole number divided by a whole number is refused: %s', (from, to) => {
  const set = w52With([from, to]);
  expect(said(setOut(unit(900, 1200, fixed()), set))[0]).toMatch(/^set\.number "/);
  expect(lintProfileSet(set).map(({ id }) => id)).toEqual(['set.number']);
});

describe('a packer that gives way', () => {
  const moving = setOut(
    unit(900, 1200, fixed()),
    w52With(
      ['drain_end_most: {value: 150', 'drain_end_most: {value: 250'],
      ['drain_end: {value: 60', 'drain_end: {value: 190'],
    ),
  );
  it('says so in the text, in the list of packers, in JSON and in the sum of its place', () => {
    const moved = setOutJson([moving]).units[0] as {
      lights: { packers: { centre: number; moved_from?: number; reason?: string }[] }[];
    };
    const told = moved.lights[0]!.packers.filter(({ moved_from }) => moved_from !== undefined);
    expect(told.length).toBeGreaterThan(0);
    for (const { centre, moved_from, reason } of told) {
      expect(centre).not.toBe(moved_from);
      expect(reason).toMatch(/^moved [\d.]+ (left|right|up|down): /);
      expect(setOutText(moving, { ascii: true }).join('\n')).toContain(reason);
      expect(
        workRows('packers', moving)
          .map(({ text }) => text)
          .join('\n'),
      ).toContain(reason);
    }
    const name = [...moving.numbers.keys()].find((each) => /^packer\.L1\.\d+\.by_rule$/.test(each));
    expect(name).toBeDefined();
    expect(moving.numbers.get(name!.replace('.by_rule', ''))?.reason).toMatch(/^moved /);
  });
});
