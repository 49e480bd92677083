/** Profile sets that leave out what W52 has, or have what it leaves out: nothing throws, nothing is lost in silence. */
import { describe, expect, it } from 'vitest';
import { dividerContext } from '../../src/window/context.js';
import { lintProfileSet } from '../../src/window/lintset.js';
import { setOut } from '../../src/window/setout.js';
import type { Rect, SetOut } from '../../src/window/types.js';
import { at, fixed, marks, part, sideHung, split, topHung, unit, w52, w52With } from './kit.js';

const ids = ({ problems }: SetOut): string[] => problems.map(({ id }) => id);
const said = ({ problems }: SetOut): string => problems.map(({ text }) => text).join('\n');
const levels = split('level', at(700), [fixed(), fixed()], 'cleated');
const edges = (made: SetOut, edge: string): number[] =>
  made.lights[0]!.packers.filter((packer) => packer.edge === edge).map(({ centre }) => centre);

describe('parts', () => {
  const set = w52With(
    [
      '  divider:\n    - {role: divider, says: divider,',
      '    - {role: sub-sill, says: sub-sill, profile: X1, length: frame.w}\n  divider:\n    - {role: divider, says: divider,',
    ],
    [
      'kg_per_m: kg_divider}\n',
      'kg_per_m: kg_divider}\n    - {role: cover, says: divider cover, profile: X2, length: divider.length, when: level}\n',
    ],
  );
  it('may be loose: they are cut, and lie nowhere in the drawing', () => {
    expect(part(setOut(unit(1000, 1500, levels), set), 'sub-sill')).toMatchObject({
      length: 1000,
      seat: null,
      light: null,
      marks: [],
    });
  });
  it('of a divider are several: the first has its id, the others their role after it, each where its condition holds', () => {
    const partIds = (made: SetOut) => made.parts.map(({ id }) => id).filter((id) => id.startsWith('D1'));
    expect(partIds(setOut(unit(1000, 1500, levels), set))).toEqual(['D1', 'D1.cover']);
    expect(part(setOut(unit(1000, 1500, levels), set), 'D1.cover')).toMatchObject({
      length: 939,
      seat: null,
      marks: [],
    });
    const upright = split('upright', at(480), [fixed(), fixed()]);
    expect(partIds(setOut(unit(1000, 1500, upright), set))).toEqual(['D1']);
  });
  it('that a set does not have are named by what would mark them, and what is left is marked as before', () => {
    const bare = w52With(
      [/ {4}- \{role: frame-left,[^\n]*\n/, ''],
      [/ {4}- \{role: frame-sill,[^\n]*\n/, ''],
      [/ {2}divider:\n {4}- \{role: divider,[^\n]*\n/, '  divider: []\n'],
    );
    const [whole, less] = [w52, bare].map((each) => setOut(unit(1000, 1500, levels), each)) as [
      SetOut,
      SetOut,
    ];
    expect(new Set(less.problems.map(({ id }) => id))).toEqual(new Set(['setout.no-part']));
    expect(less.refused).toBe(true);
    const gone = ['frame-left', 'frame-sill', 'D1'];
    expect(less.parts.map(({ id }) => id)).toEqual(
      whole.parts.map(({ id }) => id).filter((id) => !gone.includes(id)),
    );
    for (const { id, marks: found } of less.parts) expect(found, id).toEqual(part(whole, id).marks);
    // Packers stand by their plan where there is no part for them to give way on.
    expect(less.lights[1]!.packers.map(({ edge, centre }) => [edge, centre])).toContainEqual([
      'bottom',
      232.5,
    ]);
  });
});

describe('masses', () => {
  it('of a sash are its glass alone where the set has nothing else that hangs', () => {
    const set = w52With([/ {2}- \{per: opening, of: sash[^\n]*\n/g, ''], [/, of: sash\}/g, '}']);
    const { sash, glass } = setOut(unit(1000, 700, topHung()), set).lights[0]!;
    expect(sash!.mass_kg).toBe(glass!.mass_kg);
    expect(glass!.mass_kg).toBeCloseTo(8.47448, 6);
  });
  it('are nothing, and say so, where no light fits and no part has any', () => {
    const set = w52With([/masses:\n( {2}-[^\n]*\n)+/, ''], ['kg_frame: {value: 1.35', 'kg_frame: {value: 0']);
    const apart = split('upright', { by: 'sight-size', sizes: [300, 300] }, [fixed(), fixed()]);
    const made = setOut(unit(900, 1200, apart), set);
    expect(ids(made)).toEqual(['layout.room']);
    expect(made.mass_kg).toBe(0);
    expect(made.numbers.get('unit.mass')).toMatchObject({ value: 0, formula: '0', filled: '0', of: [] });
  });
});

describe('marks', () => {
  const EQUALISER = '{kind: equaliser, per: light, on: top, along: sight, ';
  it('without "along" are measured between sight lines', () => {
    const made = setOut(
      unit(900, 1200, fixed()),
      w52With([EQUALISER, EQUALISER.replace('along: sight, ', '')]),
    );
    expect(made.parts).toEqual(setOut(unit(900, 1200, fixed()), w52).parts);
  });
  it('on the handle side of every light are made on those that have one', () => {
    const two = split('upright', at(700), [fixed(), sideHung('right')]);
    const made = setOut(
      unit(1350, 1200, two),
      w52With([
        /\{kind: handle, per: opening[^\n]*/,
        '{kind: handle, per: light, on: handle, rule: {at: [100]}}',
      ]),
    );
    // A light hinged right has its handle left: on the divider. The fixed one has none.
    expect(
      made.parts.flatMap(({ id, marks: all }) =>
        all.filter(({ kind }) => kind === 'handle').map(({ item }) => [id, item]),
      ),
    ).toEqual([['D1', 'L2']]);
    expect(marks(made, 'D1', 'handle')).toEqual([100 + 21.5]);
  });
  it('whose condition is no plain sum are made where it holds', () => {
    // "==" of two numbers is left to the expression library.
    const set = w52With([EQUALISER, `${EQUALISER}when: panes.count == 2.0, `]);
    const equalisers = (glass: string) =>
      marks(setOut(unit(900, 1200, fixed(glass)), set), 'frame-head', 'equaliser');
    expect(equalisers('4-16-4')).toEqual([112, 788]);
    expect(equalisers('24')).toEqual([]);
  });
  it('whose condition is settled by constants are made for every unit or for none', () => {
    const equalisers = (condition: string) =>
      marks(
        setOut(unit(900, 1200, fixed()), w52With([EQUALISER, `${EQUALISER}when: ${condition}, `])),
        'frame-head',
        'equaliser',
      );
    expect(equalisers('port_spacing > 5')).toEqual([112, 788]);
    expect(equalisers('port_spacing < 5')).toEqual([]);
  });
  it('that follow a row which this light does not have are none', () => {
    const made = setOut(
      unit(1000, 700, topHung()),
      w52With([
        'per: light, on: bottom, along: sight, wall: rebate, rule: {spaced',
        'per: fixed, on: bottom, along: sight, wall: rebate, rule: {spaced',
      ]),
    );
    expect(made.problems).toEqual([]);
    for (const id of ['frame-sill', 'L1.addon-bottom'])
      for (const kind of ['drain-inner', 'drain-outer'])
        expect(marks(made, id, kind), `${id} ${kind}`).toEqual([]);
    expect(marks(made, 'L1.sash-bottom', 'drain-inner')).toEqual([124, 413.5, 788]);
  });
  it('of two parts that follow one another are all made', () => {
    // Drains go from the frame to the add-on frame, and a peg the other way.
    const set = w52With(
      ['features:\n', 'features:\n  peg: {title: peg}\n'],
      [
        'marks:\n',
        'marks:\n  - {kind: peg, per: opening, on: addon.bottom, rule: {at: [300]}}\n  - {kind: peg, per: opening, on: bottom, rule: {same_as: {kind: peg, on: addon.bottom}}}\n',
      ],
    );
    const made = setOut(unit(1000, 700, topHung()), set);
    expect(made.problems).toEqual([]);
    expect(marks(made, 'L1.addon-bottom', 'peg')).toEqual([300]);
    expect(marks(made, 'frame-sill', 'peg')).toEqual([330.5]);
    for (const id of ['frame-sill', 'L1.addon-bottom'])
      for (const kind of ['drain-inner', 'fixing'])
        expect(marks(made, id, kind)).toEqual(marks(setOut(unit(1000, 700, topHung()), w52), id, kind));
  });
  it('that follow one another on one part are all made', () => {
    const set = w52With(
      ['features:\n', 'features:\n  peg: {title: peg}\n  pin: {title: pin}\n'],
      [
        'marks:\n',
        'marks:\n  - {kind: stay, per: fixed, on: left, rule: {at: [200]}}\n  - {kind: peg, per: fixed, on: left, rule: {beside: {kind: stay, on: left, by: 30}}}\n  - {kind: pin, per: fixed, on: left, rule: {beside: {kind: peg, on: left, by: 40}}}\n',
      ],
    );
    const made = setOut(unit(900, 1200, fixed()), set);
    expect(part(made, 'frame-left').marks.map(({ kind, at: place }) => [kind, place])).toEqual([
      ['stay', 252],
      ['peg', 282],
      ['pin', 322],
    ]);
  });
  it('in a row of one stand in the middle, and say why', () => {
    const set = w52With(
      ['pitch: drain_pitch, least: 2', 'pitch: drain_pitch, least: 1'],
      ['drain_end: {value: 60', 'drain_end: {value: 150'],
    );
    const made = setOut(unit(400, 1200, fixed()), set);
    expect(marks(made, 'frame-sill', 'drain-inner')).toEqual([200]);
    expect(made.numbers.get('mark.frame-sill.drain-inner.1')).toMatchObject({
      value: 200,
      formula: 'place.L1.sight.x - datum.frame-sill + place.L1.sight.w / 2',
      filled: '52 - 0 + 296 / 2',
    });
  });
  it('on a part that begins outside the frame are measured from its end, and say why', () => {
    // A rebate deeper than the frame is wide.
    const set = w52With(
      [
        'kind: bead, profile: {by_thickness: bead}, length: bead.level, quantity: 2, kg_per_m: kg_bead}\n    - {role: bead-upright, says: bead left and right, kind: bead, profile: {by_thickness: bead}, length: bead.upright, quantity: 2, kg_per_m: kg_bead}\n    - {role: gasket-glazing, says: outer glazing gasket, kind: gasket, profile: W52-G1, length: 2 * (sight.w + 2 * lip_glazing',
        'kind: bead, profile: {by_thickness: bead}, box: outside, side: top, length: sight.w + 160, quantity: 2, kg_per_m: kg_bead}\n    - {role: bead-upright, says: bead left and right, kind: bead, profile: {by_thickness: bead}, length: bead.upright, quantity: 2, kg_per_m: kg_bead}\n    - {role: gasket-glazing, says: outer glazing gasket, kind: gasket, profile: W52-G1, length: 2 * (sight.w + 2 * lip_glazing',
      ],
      [
        '    rebate: {x: 0 - upstand, y: 0 - upstand, w: rebate.w, h: rebate.h}\n',
        '    outside: {x: 0.0 - 80, y: 0.0 - 80, w: sight.w + 160, h: sight.h + 160}\n',
      ],
      [EQUALISER, `{kind: stay, per: fixed, on: outside.top, rule: {at: [10]}}\n  - ${EQUALISER}`],
    );
    const made = setOut(unit(900, 1200, fixed()), set);
    expect(part(made, 'L1.bead-level').seat).toMatchObject({ from: 52 - 80 });
    expect(made.numbers.get('mark.L1.bead-level.stay.1')).toMatchObject({
      value: 10,
      formula: 'place.L1.outside.x + rule.L1.stay.outside.top.1 - datum.L1.bead-level',
      filled: '(-28) + 10 - (-28)',
    });
  });
  it('know the cams of the gear only in a rule for each of them', () => {
    const set = w52With([
      'on: addon.left, wall: rebate, rule: {at: [addon.h - (upstand - addon_clearance + stay_first)]}}',
      'on: addon.left, wall: rebate, rule: {at: [lock]}}',
    ]);
    const made = setOut(unit(1000, 700, topHung()), set);
    expect(said(made)).toBe('rule.L1.stay.addon.left.1 gives no usable number for T1-1.');
    expect(made.numbers.get('rule.L1.stay.addon.left.1')!.filled).toBe('lock');
  });
  it('of a divider that no light fits beside are none, and so are its holes', () => {
    const made = setOut(unit(900, 1200, split('upright', at(40), [fixed(), fixed()])), w52);
    expect(ids(made)).toContain('layout.room');
    expect(dividerContext(made, 'D1')).toMatchObject({ divider: { id: 'D1', holes: [] } });
  });
});

describe('packers', () => {
  // A pane 330 wide: quarter points at 82.5, where the slots at 77 from its corners are.
  const narrow = unit(400, 1200, fixed());
  const PACKER = '  packer: {title: packer, moves: true, made: loose}\n';
  it('give way to slots where they may', () => {
    const made = setOut(narrow, w52);
    expect(edges(made, 'bottom')).toEqual([124.5, 205.5]);
    expect(marks(made, 'frame-sill', 'drain-inner')).toEqual([112, 288]);
  });
  it('stand where they may not, and the slots give way', () => {
    const made = setOut(narrow, w52With([PACKER, '  packer: {title: packer, made: loose}\n']));
    expect(made.problems).toEqual([]);
    expect(edges(made, 'bottom')).toEqual([82.5, 247.5]);
    // 10 from the packer's edge: 30 + 5 + 82.5 + 25 + 10 + 12.5 from the frame's outer edge.
    expect(marks(made, 'frame-sill', 'drain-inner')).toEqual([165, 235]);
  });
  it('stand by their plan where the set does not mark them', () => {
    const made = setOut(narrow, w52With([PACKER, ''], [/ {2}- \{between: \[[^\]]*packer[^\n]*\n/g, '']));
    expect(made.problems).toEqual([]);
    expect(edges(made, 'bottom')).toEqual([82.5, 247.5]);
    expect(marks(made, 'frame-sill', 'drain-inner')).toEqual([112, 288]);
  });
});

describe('hardware', () => {
  it('whose chart has no stay for a kind of sash says so', () => {
    const made = setOut(unit(650, 1150, sideHung('left')), w52With([/, side-hung: \{[^}]*\}/g, '']));
    expect(said(made)).toMatch(
      /no stay takes a side-hung sash .* \(the chart has none for side-hung; invented:/,
    );
  });
  it.each([
    ['manual', '; Maker 12, page 3).'],
    ['published', '; Maker 12, page 3).'],
    ['house-rule', '; house rule: Maker 12, page 3).'],
  ])('from a source of kind %s is cited as what it is', (kind, cited) => {
    const set = w52With([
      /chart: \{kind: invented, text: [^}]*\}/,
      `chart: {kind: ${kind}, text: 'Maker 12, page 3'}`,
    ]);
    const made = setOut(unit(700, 1450, sideHung('left')), set);
    expect(made.problems.find(({ id }) => id === 'order.stay')!.text.endsWith(cited)).toBe(true);
  });
});

describe('formulas', () => {
  it.each([
    ['a division by nothing', 'frame.w / (frame.h - frame.h)'],
    ['a whole number by nothing', '1 / (2 - 2)'],
    ['a value whose kind shows only when it is run', `'dyn("x")'`],
  ])('that give no number refuse the unit: %s', (_, formula) => {
    const set = w52With(['frame.diagonal: hypot(frame.w, frame.h)', `frame.diagonal: ${formula}`]);
    const made = setOut(unit(900, 1200, fixed()), set);
    expect(made.refused).toBe(true);
    expect(made.problems.map(({ id, text }) => [id, text])).toContainEqual([
      'set.number',
      'frame.diagonal gives no usable number for T1-1.',
    ]);
  });
  it('may give a light a size in a group of the unit, and each is told by its own name', () => {
    const set = w52With([
      '    addon.w: rebate.w',
      '    frame.share: frame.w / 4\n    frame.rest: frame.w - frame.share\n    addon.w: rebate.w',
    ]);
    const made = setOut(unit(1000, 700, topHung()), set);
    const rest = made.numbers.get('frame.L1.rest')!;
    expect(rest).toMatchObject({ value: 750, filled: '1000 - 250' });
    expect(rest.of.map(({ name }) => name)).toEqual(['frame.w', 'frame.L1.share']);
    expect(made.frame.w).toBe(1000);
  });
});

describe('splits', () => {
  it('take sight sizes that fill the space exactly, and work out the rest where one is left open', () => {
    const sizes = (list: (number | 'rest')[]) =>
      split(
        'upright',
        { by: 'sight-size', sizes: list },
        list.map(() => fixed()),
      );
    const exact = setOut(unit(900, 1200, sizes([300, 420])), w52);
    expect(exact.problems).toEqual([]);
    expect(exact.lights.map(({ sight }) => sight.w)).toEqual([300, 420]);
    const open = setOut(unit(1500, 1200, sizes([300, 'rest', 420])), w52);
    expect(open.lights.map(({ sight }) => sight.w)).toEqual([300, 524, 420]);
    expect(open.numbers.get('split.D1.size_2')).toMatchObject({
      value: 524,
      formula: 'split.D1.space - (split.D1.size_1 + split.D1.size_3)',
      filled: '1244 - (300 + 420)',
    });
  });
  const equal = (...glass: string[]) =>
    split(
      'upright',
      { by: 'equal-glass' },
      glass.map((each) => fixed(each)),
    );
  it('of equal glass are refused where the glass does not grow with its light', () => {
    const set = w52With(['    glass.w: rebate.w - 2 * edge_clearance', '    glass.w: 500.0']);
    const made = setOut(unit(1400, 1000, equal('4-16-4', '4-16-4')), set);
    expect(ids(made)).toEqual(['layout.equal-glass']);
    expect(said(made)).toContain('does not grow with the sight size');
  });
  it('of equal glass are placed though a glass is not known, which is a problem of its own', () => {
    const made = setOut(unit(1400, 1000, equal('milk', '4-16-4')), w52);
    expect(ids(made)).toEqual(['job.glass']);
    expect(made.lights.map(({ sight }) => sight.w)).toEqual([610, 610]);
  });
});

describe('the sums across a window', () => {
  it('take no cut through a strip that is only the tail of a fraction', () => {
    // Two dividers at one height, worked out in two ways that differ in the last digit.
    const [h, third] = [1297.3, (1297.3 - 104 - 2 * 76) / 3];
    const left = split('level', { by: 'equal-sight' }, [fixed(), fixed(), fixed()]);
    const right = split('level', at(h - 52 - third - 38, 52 + third + 38), [fixed(), fixed(), fixed()]);
    const made = setOut(unit(1500, h, split('upright', at(700), [left, right])), w52);
    const edgesOf = (id: string): number[] =>
      made.lights
        .filter((light) => light.id === id)
        .flatMap(({ box }: { box: Rect }) => [box.y, box.y + box.h]);
    const all = made.lights.flatMap(({ id }) => edgesOf(id));
    expect(new Set(all).size).toBeGreaterThan(new Set(all.map((y) => y.toFixed(6))).size);
    expect(made.sums.filter(({ direction }) => direction === 'level')).toHaveLength(5);
    for (const { error } of made.sums) expect(Math.abs(error)).toBeLessThan(1e-9);
  });
  it('refuse a set whose lights would run into one another', () => {
    const set = w52With(['divider_face: {value: 76', 'divider_face: {value: -6']);
    const made = setOut(unit(900, 1200, split('upright', at(450), [fixed(), fixed()])), set);
    expect(made.refused).toBe(true);
    expect(said(made)).toBe('Across the upright cut at 450 the sizes miss the frame by 1096.');
  });
});

describe('lint', () => {
  const FIRST = '  - {kind: divider-line, per: divider, on: ends, rule: {at: [0]}}\n';
  it.each([
    [
      FIRST.replace('at: [0]', 'spaced: {end: 60, pitch: 600}'),
      'Mark divider-line of dividers is never made: its rule is not "at".',
    ],
    [
      FIRST.replace('at: [0]', 'each: locks, at: 10'),
      'Mark divider-line of dividers is never made: its rule is not "at".',
    ],
    [
      FIRST.replace('per: divider', 'per: light'),
      'Mark divider-line on ends is never made: only a divider has such a place.',
    ],
    [
      FIRST.replace('per: divider, on: ends', 'per: opening, on: addon.self'),
      'Mark divider-line on addon.self is never made: only a divider has such a place.',
    ],
    [
      FIRST.replace('per: divider, on: ends', 'per: fixed, on: hinge'),
      'Mark divider-line on hinge is never made: a fixed light has no hinge and no handle side.',
    ],
  ])('finds a mark that no window gets (%#)', (rule, text) => {
    const set = w52With([FIRST, rule]);
    const found = lintProfileSet(set);
    expect(found.map((problem) => [problem.id, problem.text])).toEqual([['set.unused', text]]);
    expect(found[0]!.place!.line).toBeGreaterThan(1);
    const two = unit(1350, 1200, split('upright', at(700), [fixed(), sideHung('left')]));
    expect(
      setOut(two, set).parts.flatMap((each) => each.marks.filter(({ kind }) => kind === 'divider-line')),
    ).toEqual([]);
  });
  it.each(['edge: hinge, near: both', 'edge: top, near: handle'])(
    'finds a packer that no fixed light gets: %s',
    (words) => {
      const set = w52With(['{use: location, edge: top, near: both,', `{use: location, ${words},`]);
      expect(lintProfileSet(set).map(({ text }) => text)).toEqual([
        'Packer 4 of fixed lights is never placed: a fixed light has no hinge and no handle side.',
      ]);
      expect(edges(setOut(unit(900, 1200, fixed()), set), 'top')).toEqual([]);
    },
  );
});
