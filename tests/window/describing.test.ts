/**
 * A set of another build: parts that begin anywhere, ways of opening, articles by the thickness of the glass; and what would
 * be wrong in silence is refused, or named by lint.
 */
import { describe, expect, it } from 'vitest';
import { setOutText } from '../../src/commands/setouttext.js';
import { compileTemplate, fill, spaceFor } from '../../src/procedure/template.js';
import { lineOf } from '../../src/session/board.js';
import { contextsOf } from '../../src/window/context.js';
import { drawSvg, drawText } from '../../src/window/draw.js';
import { elevation } from '../../src/window/elevation.js';
import { lintProfileSet } from '../../src/window/lintset.js';
import { setOut } from '../../src/window/setout.js';
import type { SetOut } from '../../src/window/types.js';
import { at, fixed, marks, part, sideHung, split, topHung, unit, w52, w52With } from './kit.js';

type Edit = readonly [string | RegExp, string];
const ids = ({ problems }: SetOut): string[] => [...new Set(problems.map(({ id }) => id))];
const lint = (...edits: readonly Edit[]): string[] =>
  lintProfileSet(w52With(...edits)).map(
    ({ id, text, place }) => `${id} ${place?.line !== undefined} ${text}`,
  );

const SILL = 'side: bottom, length: frame.w, ends: [45, 45]';
const JAMB = 'side: left, length: frame.h, ends: [45, 45]';

describe('a part that does not fill its side', () => {
  const plain = setOut(unit(900, 1200, fixed()), w52);

  it('refuses the unit where the set does not say where it begins: its marks would be wrong', () => {
    const made = setOut(
      unit(900, 1200, fixed()),
      w52With([SILL, 'side: bottom, length: frame.w - 124, ends: [45, 45]']),
    );
    expect(made.problems.map(({ text }) => text)).toEqual([
      'frame-sill is 776 long on a side of 900, and the set does not say where it begins.',
    ]);
    expect(made.refused).toBe(true);
  });

  it.each([
    ['cut between the jambs', 62, 124],
    ['with horns', -50, -100],
    ['that fills its side and says so', 0, 0],
  ])('%s has its marks from its own end', (_, start, shorter) => {
    const edit = `side: bottom, start: ${start}.0, length: frame.w - ${shorter}.0, ends: [45, 45]`;
    const made = setOut(unit(900, 1200, fixed()), w52With([SILL, edit]));
    expect(made.problems).toEqual([]);
    for (const kind of ['drain-inner', 'drain-outer']) {
      const before = marks(plain, 'frame-sill', kind);
      expect(before.length).toBeGreaterThan(0);
      expect(marks(made, 'frame-sill', kind)).toEqual(before.map((place) => place - start));
    }
    expect(part(made, 'frame-sill').seat).toMatchObject({ from: start });
    // What stands on other parts stays.
    expect(part(made, 'frame-head').marks).toEqual(part(plain, 'frame-head').marks);
  });

  it('on a sub-sill: the lines of a transom on jambs that begin 40 up', () => {
    const levels = split('level', at(700), [fixed(), fixed()]);
    const before = setOut(unit(900, 1200, levels), w52);
    const made = setOut(
      unit(900, 1200, levels),
      w52With([JAMB, 'side: left, start: 40, length: frame.h - 40, ends: [45, 45]']),
    );
    expect(ids(made)).toEqual([]);
    const lines = marks(before, 'frame-left', 'divider-line');
    expect(lines).toEqual([700]);
    expect(marks(made, 'frame-left', 'divider-line')).toEqual([660]);
  });
});

describe('a mark that has no part', () => {
  it('refuses the unit, with the rule that wants it: nothing is left out in silence', () => {
    const set = w52With([/ {4}- \{role: addon-left,[^\n]*\n/, '']);
    const made = setOut(unit(650, 1150, sideHung('right')), set);
    expect(ids(made)).toEqual(['setout.no-part']);
    expect(made.problems.map(({ text }) => text)).toContain(
      'L1: marks of keep centre stand on "addon.handle", and there is no such part.',
    );
    expect(made.problems[0]!.place?.line).toBeGreaterThan(1);
  });
});

describe('a set without an add-on frame', () => {
  const set = w52With(
    [/ {4}- \{role: addon-[^\n]*\n/g, ''],
    [/on: addon\./g, 'on: '],
    [
      / {2}- \{kind: (?:drain-inner|drain-outer|equaliser|fixing|stay), per: (?:opening|top-hung|side-hung)[^\n]*on: (?!sash)[^\n]*\n/g,
      '',
    ],
  );
  const made = setOut(unit(650, 1150, sideHung('left')), set);

  it('has its keeps on the frame, and no figure of a frame that is not there', () => {
    const [light] = made.lights;
    expect(light!.addon).toBeNull();
    expect(light!.handle!.on_addon).toBeNull();
    expect(light!.keeps).toEqual(marks(made, 'frame-right', 'keep'));
    expect(light!.keeps.length).toBeGreaterThan(0);
    const text = setOutText(made, { ascii: true }).join('\n');
    expect(text).not.toContain('add-on');
    expect(text).toMatch(/keeps +[\d., ]+ on the frame \(espagnolette/);
  });

  it('gives a procedure that asks for it nothing to cut: the step is named', () => {
    const { unit: all, lights } = contextsOf(made);
    const { template } = compileTemplate('Cut at {mm(light.addon.w)}.', spaceFor('light'), { file: 'x' });
    expect(() => fill(template, { ...all, ...lights[0] })).toThrow();
  });
});

describe('a light that opens inwards', () => {
  const set = w52With(['opens: [out]', 'opens: [out, in]']);
  const inwards = unit(650, 1150, sideHung('left', { opensIn: true }));
  const outwards = unit(650, 1150, sideHung('left'));

  it('is called so on the board as by the set-out', () => {
    const made = setOut(inwards, set);
    expect(ids(made)).toEqual([]);
    expect(made.lights[0]!.sentence).toBe('hinged left, seen from outside, opens in');
    expect(lineOf(inwards).sentence).toBe(made.lights[0]!.sentence);
  });

  // Whole lines towards whoever looks at it, broken ones away: common practice in elevations.
  it('is drawn with broken lines, one that opens outwards with whole ones', () => {
    const drawn = (of: typeof inwards) => elevation(setOut(of, set));
    const slopes = (svg: string) =>
      svg.split('\n').filter((line) => line.startsWith('<line') && /stroke-dasharray/.test(line));
    const svg = (of: typeof inwards) => drawSvg(drawn(of), { triangles: 'apex-at-hinge' });
    expect(slopes(svg(inwards))).toHaveLength(2);
    expect(slopes(svg(outwards))).toHaveLength(0);
    const strokes = (of: typeof inwards) =>
      drawText(drawn(of), { columns: 50, rows: 20, ascii: true, triangles: 'apex-at-hinge' })
        .join('')
        .replace(/[^/\\]/g, '').length;
    expect(strokes(inwards)).toBeGreaterThan(2);
    expect(strokes(inwards)).toBeLessThan(strokes(outwards) * 0.7);
  });

  it('is known to formulas of the set and of procedures', () => {
    const lap = w52With(
      ['opens: [out]', 'opens: [out, in]'],
      ['overlap: {value: 8', 'plain_lap: {value: 8'],
      [
        /sash\.w: sight\.w \+ 2 \* overlap/,
        'overlap.all: "opens_in ? plain_lap + 2 : plain_lap"\n    sash.w: sight.w + 2 * overlap.all',
      ],
      [/sash\.h: sight\.h \+ 2 \* overlap/, 'sash.h: sight.h + 2 * overlap.all'],
      [/0 - overlap/g, '0 - overlap.all'],
      [/(?<![\w.])overlap(?!\.all|\w|:)/g, 'plain_lap'],
    );
    const [inside, outside] = [inwards, outwards].map((of) => setOut(of, lap).lights[0]!.sash!.w) as [
      number,
      number,
    ];
    expect(inside - outside).toBe(4);
    expect(contextsOf(setOut(inwards, set)).lights[0]!.light).toMatchObject({ opens_in: true });
  });
});

describe('beads and wedges', () => {
  const TABLE = '- {from: 23.5, to: 24.5, bead: W52-B24, gasket: W52-G2}';
  const two = [TABLE, `${TABLE}\n    - {from: 27.5, to: 28.5, bead: W52-B28, gasket: W52-G8}`] as const;

  it('go by the thickness of the glass', () => {
    const set = w52With(two);
    const bead = (glass: string) => part(setOut(unit(900, 1200, fixed(glass)), set), 'L1.bead-level').profile;
    expect(bead('4-16-4')).toBe('W52-B24');
    expect(bead('4-20-4')).toBe('W52-B28');
  });

  it('that no part can have are named by lint; an empty column refuses the unit', () => {
    expect(lint(two)).toEqual([
      expect.stringMatching(
        /^set\.bead-fixed true Glass of 27\.5 to 28\.5 takes W52-G8, and no part goes by that table/,
      ),
    ]);
    const gasket = [/profile: W52-G2,/g, 'profile: {by_thickness: gasket},'] as const;
    expect(lint(two, gasket)).toEqual([]);
    const empty = w52With([TABLE, '- {from: 23.5, to: 24.5, bead: W52-B24}'], gasket);
    expect(ids(setOut(unit(900, 1200, fixed()), empty))).toEqual(['setout.no-article']);
  });
});

it('procedures read the sizes, parts, articles and gear of the set itself', () => {
  const made = setOut(
    unit(650, 1150, sideHung('left'), { fittings: ['sub-sill'] }),
    w52With(['{from: 23.5, to: 24.5, bead: W52-B24', '{from: 23.5, to: 24.5, bead: W52-B25']),
  );
  const { unit: all, lights } = contextsOf(made);
  const filled = (text: string) => {
    const { template, problems } = compileTemplate(text, spaceFor('light'), { file: 'x' });
    expect(problems).toEqual([]);
    return fill(template, { ...all, ...lights[0] });
  };
  expect(filled('{mm(unit.cut["sub-sill"])}, {unit.article["sub-sill"]}')).toBe('650 mm, W52-T');
  expect(filled('{unit.size["lugs.w"]} lugs')).toBe('2 lugs');
  expect(filled('{mm(light.size["sash_rebate.w"])}')).toBe(`${made.lights[0]!.sash!.rebate!.w} mm`);
  expect(filled('{light.article["bead-level"]}, {light.gear}')).toBe(`W52-B25, ${made.lights[0]!.gear}`);
  expect(() => filled('{mm(unit.cut["sub-cill"])}')).toThrow();
});

describe('faults of an author', () => {
  it.each([
    [
      'a role given twice',
      [['role: frame-left', 'role: frame-right']],
      /^set\.twice true The role frame-right is given twice under parts\.unit\.$/,
    ],
    [
      'kilograms added to millimetres',
      [['frame.w: unit.width', 'frame.w: unit.width + kg_frame_cleats']],
      /^set\.units true "unit\.width \+ kg_frame_cleats" adds or compares mm and kg\.$/,
    ],
    [
      'millimetres for square metres',
      [[/glass\.area: \{formula: [^,]+,/, 'glass.area: {formula: glass.w + glass.h,']],
      /^set\.units true .* m2 and mm\.$/,
    ],
    [
      'a mass held against a size',
      [['value: unit.width,', "value: 'unit.width > unit.mass ? 1.0 : 0.0',"]],
      /^set\.units true .* mm and kg\.$/,
    ],
  ] as const)('%s: one message at its line', (_, edits, said) => {
    expect(lint(...(edits as readonly Edit[]))).toEqual([expect.stringMatching(said)]);
  });

  it.each([
    ['a face below nothing', ['left: frame_face', 'left: 0.0 - 62'], 'layout.left is -62.'],
    [
      'a quantity below nothing',
      ['length: bead.level, quantity: 2', 'length: bead.level, quantity: 0 - 1'],
      'L1.bead-level.quantity is -1.',
    ],
    [
      'a part of no length',
      ['kind: gasket, profile: W52-G1, length: ', 'kind: gasket, profile: W52-G1, length: 0.0 * '],
      'L1.gasket-glazing.length is 0.',
    ],
  ] as const)('%s refuses the unit', (_, edit, said) => {
    const made = setOut(unit(900, 1200, fixed()), w52With(edit));
    expect(made.problems.map(({ text }) => text)).toContain(said);
    expect(made.refused).toBe(true);
  });

  it('are none in what is shipped, nor in a top-hung, a side-hung and a divided window of it', () => {
    expect(lintProfileSet(w52)).toEqual([]);
    for (const [width, height, layout] of [
      [1000, 700, topHung()],
      [650, 1150, sideHung('left')],
      [1600, 700, split('upright', at(600), [fixed(), topHung()])],
    ] as const)
      expect(ids(setOut(unit(width, height, layout), w52))).toEqual([]);
  });
});

describe('what a stranger’s own set got wrong in silence', () => {
  it('marks that cannot stand together: the rules at fault are named, and no other', () => {
    const stuck = (first: number, second: number) =>
      setOut(
        unit(900, 1200, fixed()),
        w52With(
          [
            '\nmarks:\n',
            `\nmarks:\n${['a', 'b', 'c'].map((kind, i) => `  - {kind: pin-${kind}, per: fixed, on: left, wall: inside, rule: {at: [${400 + 10 * i}]}}\n`).join('')}`,
          ],
          [
            '\nfeatures:\n',
            `\nfeatures:\n${['a', 'b', 'c'].map((kind) => `  pin-${kind}: {title: pin ${kind}}\n`).join('')}`,
          ],
          [
            '\nclearances:\n',
            `\nclearances:\n  - {between: [pin-a, pin-b], least: ${first}, source: house}\n  - {between: [pin-b, pin-c], least: ${second}, source: house}\n  - {between: [pin-a, pin-c], least: 5, source: house}\n`,
          ],
        ),
      ).problems.map(({ text }) => text.replace(/^.*cannot hold together: /, ''));
    expect(stuck(5, 5)).toEqual([]);
    expect(stuck(5, 30)).toEqual(['pin b at least 30 from pin c, between centres.']);
    // Either alone would refuse it: one is named, and the other once that is mended.
    expect(stuck(30, 30)).toEqual(['pin b at least 30 from pin c, between centres.']);
  });
  it('two marks of one kind, from the light on each side of a mullion', () => {
    const meeting = (wall: string, rule = '') =>
      lint(
        [
          '\nmarks:\n',
          `\nmarks:\n  - {kind: leaf, per: side-hung, on: hinge, wall: ${wall}, rule: {at: [200]}}\n`,
        ],
        ['\nfeatures:\n', '\nfeatures:\n  leaf: {title: hinge leaf}\n'],
        ...(rule === '' ? [] : [['\nclearances:\n', `\nclearances:\n${rule}`] as const]),
      ).filter((text) => text.includes('Two marks "hinge leaf"'));
    expect(meeting('inside')).toEqual([
      'set.no-clearance true Two marks "hinge leaf" can meet in one wall of a divider with a light on each side, and no clearance names both.',
    ]);
    expect(meeting('rebate')).toEqual([]);
    expect(meeting('inside', '  - {between: [leaf, leaf], least: 60, source: house}\n')).toEqual([]);
  });
  it('two parts on one side of the frame, of which one would take the marks of the other', () => {
    const set = w52With(['profile: W52-T, side: bottom,', 'profile: W52-T, box: frame, side: bottom,']);
    const made = setOut(unit(900, 1200, fixed(), { fittings: ['sub-sill'] }), set);
    expect(ids(made)).toEqual(['setout.same-side']);
  });
  it('pieces of less than none, and quantities that are no whole number', () => {
    const fault = (from: string, to: string) =>
      setOut(unit(900, 1200, fixed()), w52With([from, to])).problems.map(({ text }) => text);
    expect(
      fault(
        "place: 'frame corners, both chambers', quantity: 8",
        "place: 'frame corners, both chambers', quantity: 0 - 8",
      ),
    ).toEqual(['frame corner cleat.quantity is -8.']);
    expect(fault('length: bead.level, quantity: 2', 'length: bead.level, quantity: 1.0 * 3 / 2')).toContain(
      'L1.bead-level.quantity is 1.5.',
    );
  });
  it('rows of beads that hold the same thickness', () => {
    const row = '- {from: 23.5, to: 24.5, bead: W52-B24, gasket: W52-G2}';
    expect(
      lint([
        row,
        `- {from: 23.5, to: 34.5, bead: W52-B24, gasket: W52-G2}\n    - {from: 31.5, to: 32.5, bead: W52-B32}`,
      ]),
    ).toEqual(['set.beads-overlap true Glass of 31.5 to 32.5 is held by the bead of an earlier row, too.']);
  });
});
