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
      w52With([JAMB, 'side: left, start: 54.0, length: frame.h, ends: [45, 45]']),
    );
    expect(said(made)).toEqual([
      'setout.sticks-out frame-left begins 54 inside its side of 1200 and sticks out 54 at the other end.',
    ]);
    expect(made.refused).toBe(true);
  });
  it('a jamb that begins before its side and ends short of it', () => {
    const made = setOut(
      unit(900, 1200, fixed()),
      w52With([JAMB, 'side: left, start: 0.0 - 54, length: frame.h, ends: [45, 45]']),
    );
    expect(said(made)).toEqual([
      'setout.sticks-out frame-left begins 54 before its side of 1200 and ends 54 short of the other end.',
    ]);
  });
  it('not: horns at both ends, or at one', () => {
    for (const part of ['start: 0.0 - 40, length: frame.h + 80', 'start: 0, length: frame.h + 40'])
      expect(
        said(setOut(unit(900, 1200, fixed()), w52With([JAMB, `side: left, ${part}, ends: [45, 45]`]))),
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
      ['divider.length: divider.span - 2 * end_pad', 'divider.length: divider.span + 16'],
      ['says: divider, profile:', 'says: divider, start: 0.0 - 8, profile:'],
      ['\nmarks:\n', '\nmarks:\n  - {kind: divider-line, per: divider, on: self, rule: {at: [30]}}\n'],
    );
    const made = setOut(unit(1000, 1500, levels), set);
    expect(said(made)).toEqual([]);
    expect(part(made, 'D1')).toMatchObject({ length: 956, seat: { from: 30 - 8 } });
    expect(marks(made, 'D1', 'divider-line')).toEqual([30]);
  });
  it('a bead longer than the side that it lies on', () => {
    const longer = (by: number) =>
      setOut(
        unit(900, 1200, fixed()),
        w52With(['bead.upright: rebate.h - 2 * bead_height', `bead.upright: rebate.h + ${by}.0`]),
      );
    expect(said(longer(100))).toEqual([
      expect.stringMatching(
        /^setout\.sticks-out L1\.bead-upright is [\d.]+ long; the rebate there is [\d.]+\.$/,
      ),
    ]);
    // Of a light that is higher than wide only its own side tells a level bead that is too long.
    const swapped = setOut(
      unit(900, 1200, fixed()),
      w52With(
        ['bead.level: rebate.w - bead_clearance', 'bead.level: rebate.h - bead_clearance'],
        ['bead.upright: rebate.h - 2 * bead_height', 'bead.upright: rebate.w - 2 * bead_height'],
      ),
    );
    expect(said(swapped)).toEqual([
      'setout.sticks-out L1.bead-level is 1139.5 long; the rebate there is 840.',
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

describe('what a tired person mistypes', () => {
  const fixedWith = (...edits: Edit[]) => said(setOut(unit(900, 1200, fixed()), w52With(...edits)));
  const hungWith = (...edits: Edit[]) => said(setOut(unit(1000, 700, topHung()), w52With(...edits)));
  const dividedWith = (...edits: Edit[]) => said(setOut(unit(1000, 1500, levels), w52With(...edits)));
  const told = (...edits: Edit[]) => lintProfileSet(w52With(...edits)).map(({ id, text }) => `${id} ${text}`);

  it('a sill that ends unevenly, and a divider that laps unevenly', () => {
    expect(
      fixedWith(['side: bottom, length: frame.w, ', 'side: bottom, start: 55, length: frame.w - 158, ']),
    ).toEqual(['setout.sticks-out frame-sill ends 55 from one side and 103 from the other.']);
    expect(
      dividedWith(
        ['divider.length: divider.span - 2 * end_pad', 'divider.length: divider.span + 24'],
        ['says: divider, profile:', 'says: divider, start: 0.0 - 6, profile:'],
      ),
    ).toEqual(['setout.sticks-out D1 ends -6 from one side and -18 from the other.']);
  });
  it('a mitred member shorter than its side, though it carries no marks', () => {
    expect(hungWith(['side: top, length: sash.w, ', 'side: top, length: sash.h, '])).toContainEqual(
      expect.stringMatching(/^setout\.part-start L1\.sash-top is [\d.]+ long on a side of [\d.]+, /),
    );
  });
  it('an end cut at another angle than its neighbour', () => {
    expect(
      fixedWith([
        'side: bottom, length: frame.w, ends: [45, 45]',
        'side: bottom, length: frame.w, ends: [45, 90]',
      ]),
    ).toEqual(['setout.corner frame-sill is cut at 90 degrees where frame-right is cut at 45.']);
  });
  it('left and right changed over', () => {
    expect(
      fixedWith(
        [/(role: frame-left,[^\n]*)side: left/, '$1side: RIGHT'],
        [/(role: frame-right,[^\n]*)side: right/, '$1side: left'],
        ['side: RIGHT', 'side: right'],
      ).filter((text) => text.startsWith('setout.wrong-side')),
    ).toEqual([
      'setout.wrong-side frame-left lies on the right.',
      'setout.wrong-side frame-right lies on the left.',
    ]);
  });
  it('a bead that is no bead, or one of two', () => {
    expect(fixedWith(['length: bead.level, quantity: 2', 'length: bead.level, quantity: 1'])).toEqual([
      'setout.beads L1 has 1 level and 2 upright beads.',
    ]);
    expect(
      fixedWith([
        'kind: bead, profile: {by_thickness: bead}, length: bead.level',
        'profile: {by_thickness: bead}, length: bead.level',
      ]),
    ).toEqual(['setout.beads L1 has 0 level and 2 upright beads.']);
  });
  it('glass of the wrong mass or area, and a bar in grams', () => {
    const MASS = 'glass.mass: {formula: glass.area * panes.thickness / 1000 * glass_density';
    // 830 x 1130, two panes of 4: 0.9379 m2 x 8 x 2.5 = 18.8 kg.
    expect(fixedWith([MASS, MASS.replace('panes.thickness', 'glazing.thickness')])).toEqual([
      'setout.glass-mass L1: the glass would weigh 56.3 kg; 0.94 m2 of 8 mm of glass weigh about 18.8.',
    ]);
    expect(fixedWith(['glass.w * glass.h / 1000000', 'glass.w * glass.h / 1000'])[0]).toBe(
      'setout.glass-mass L1: the area of the glass would be 937.900 m2; its width times its height is 0.938.',
    );
    expect(fixedWith(['kg_frame: {value: 1.35', 'kg_frame: {value: 1350'])[0]).toBe(
      'setout.heavy frame-head would weigh 1350 kg a metre.',
    );
  });
  it('two marks of one row at one place', () => {
    expect(
      dividedWith([
        'rule: {at: [0 - cleat_spacing, cleat_spacing]}',
        'rule: {at: [cleat_spacing, cleat_spacing]}',
      ]),
    ).toContainEqual(
      expect.stringMatching(/^setout\.same-place frame-left has two marks of [a-z ]+ at [\d.]+\.$/),
    );
  });
  it('a sash or an add-on frame off its middle', () => {
    const SASH = 'sash: {x: 0 - overlap, y: 0 - overlap,';
    expect(hungWith([SASH, 'sash: {x: overlap, y: 0 - overlap,'])[0]).toMatch(
      /^setout\.box-place L1: sash would lie [\d.]+ off the middle of its light\.$/,
    );
    expect(hungWith([SASH, 'sash: {x: 0 - overlap, y: overlap,'])[0]).toMatch(
      /^setout\.box-place L1: sash would end [\d.]+ short of the sight line at one end and [\d.]+ past it at the other\.$/,
    );
  });
  it('keeps that are measured along the frame, setting packers that carry nothing, an end that an edge does not have', () => {
    expect(
      told(['along: sash, wall: rebate, rule: {each: locks', 'wall: rebate, rule: {each: locks']),
    ).toEqual([expect.stringMatching(/^set\.along Marks of keep on addon\.handle stand where locks are, /)]);
    const PACKER = '{use: setting, edge: bottom, near: both, at: packer.centre';
    expect(told([PACKER, PACKER.replace('bottom', 'top')])).toEqual([
      'set.setting Setting packer 1 of fixed lies on edge top.',
    ]);
    expect(told([PACKER, PACKER.replace('both', 'top')])).toEqual([
      'set.unused Packer 1 of fixed lies on edge bottom, which has no end at top.',
    ]);
  });
});
