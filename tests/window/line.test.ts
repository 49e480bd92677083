/** Marks of one part that get in one another's way, on W52 with rules of its own: what gives way, and what is said. */
import { describe, expect, it } from 'vitest';
import { solveLine } from '../../src/window/clash/solve.js';
import { setOut } from '../../src/window/setout.js';
import type { SetOut } from '../../src/window/types.js';
import { at, fixed, marks, part, sideHung, split, topHung, unit, w52, w52With } from './kit.js';

const told = ({ problems, warnings }: SetOut): string[] =>
  [...problems, ...warnings].map(({ id, text }) => `${id}: ${text}`);
const reasons = (made: SetOut, id: string, kind: string): (string | null)[] =>
  part(made, id)
    .marks.filter((mark) => mark.kind === kind)
    .map(({ reason }) => reason);

describe('a mark whose rule puts it where it cannot stay', () => {
  it('is brought into its range, and says so', () => {
    const set = w52With([
      /(equaliser, per: light.*both_ends: \{end: equaliser_end, range: )\[45, 200\]/,
      '$1[80, 200]',
    ]);
    const made = setOut(unit(900, 1200, fixed()), set);
    expect(made.problems).toEqual([]);
    expect(marks(made, 'frame-head', 'equaliser')).toEqual([132, 768]);
    expect(reasons(made, 'frame-head', 'equaliser')).toEqual([
      'moved 20 right: kept on the part and in its range',
      'moved 20 left: kept on the part and in its range',
    ]);
  });
  it('is brought onto its part, the inner ones left alone', () => {
    // Screws 20 long, 5 from the ends: the first and the last would hang over. On the hinge side nothing else is made.
    const set = w52With(
      ['fixing: {title: add-on screw, moves', 'fixing: {title: add-on screw, length: 20, moves'],
      [/(fixing, per: opening, on: addon.left, wall: rebate, rule: \{spaced: \{end: )fixing_end/, '$15'],
    );
    const made = setOut(unit(700, 1000, sideHung('left')), set);
    expect(made.problems).toEqual([]);
    expect(marks(made, 'L1.addon-left', 'fixing')).toEqual([50, 237.25, 469.5, 701.75, 889]);
    expect(reasons(made, 'L1.addon-left', 'fixing')).toEqual([
      'moved 45 up: kept on the part and in its range',
      null,
      null,
      null,
      'moved 45 down: kept on the part and in its range',
    ]);
  });
});

describe('a row without a range of its own', () => {
  const bare = (kind: string) =>
    [new RegExp(`(kind: ${kind}, per: light.*), range: \\[[^\\]]*\\]`), '$1'] as const;
  // Drains of the light above the divider and pressure slots of the one below it meet on it.
  const crossed = unit(1000, 1500, split('level', at(800), [topHung(), fixed()]));
  it('near both ends stands, and what it is in the way of is named', () => {
    const free = setOut(crossed, w52);
    expect(free.problems).toEqual([]);
    expect(marks(free, 'D1', 'equaliser')).toEqual([131.5, 807.5]);
    const made = setOut(crossed, w52With(bare('equaliser')));
    expect(marks(made, 'D1', 'equaliser')).toEqual([81.5, 857.5]);
    // The drains of the light above give way instead.
    for (const drain of marks(made, 'D1', 'drain-inner'))
      for (const slot of marks(made, 'D1', 'equaliser'))
        expect(Math.abs(drain - slot)).toBeGreaterThanOrEqual(50);
  });
  it.each([
    ['no range', bare('drain-outer')],
    [
      'a feature that may not move',
      ['outer drain slot, length: slot_length, moves: true,', 'outer drain slot, length: slot_length,'],
    ],
  ] as const)('beside another keeps its distance: %s', (_, edit) => {
    // A divider below, whose screws are where the middle outer slot would go.
    const layout = split('level', at(700), [fixed(), split('upright', at(760), [fixed(), fixed()])]);
    const offsets = (made: SetOut): number[] => {
      const outer = marks(made, 'D1', 'drain-outer');
      return marks(made, 'D1', 'drain-inner').map((inner) =>
        Math.min(...outer.map((each) => Math.abs(each - inner))),
      );
    };
    const free = setOut(unit(1400, 1400, layout), w52);
    const stands = setOut(unit(1400, 1400, layout), w52With(edit));
    expect(new Set(offsets(free))).not.toEqual(new Set([60]));
    expect(new Set(offsets(stands))).toEqual(new Set([60]));
  });
});

describe('rows that can keep clear of one another only with one mark more', () => {
  it('get it where the marks then move least', () => {
    // Three screws and three pins on a jamb 939 long, their middle ones in one place and no slack in either pitch.
    const set = w52With(
      ['features:\n', 'features:\n  stake: {title: stake}\n  pin: {title: pin, moves: true}\n'],
      [
        'clearances:\n',
        'clearances:\n  - {between: [fixing, pin], least: 20, source: house}\n  - {between: [pin, stake], least: 10, source: house}\n',
      ],
      [
        /fixing, per: opening, on: addon.left, wall: rebate, rule: [^\n]*/,
        'fixing, per: opening, on: addon.left, rule: {spaced: {end: 75, pitch: 395}}}\n  - {kind: pin, per: opening, on: addon.left, rule: {spaced: {end: 95, pitch: 375}}}\n  - {kind: stake, per: opening, on: addon.left, rule: {at: [345]}}',
      ],
    );
    const made = setOut(unit(700, 1000, sideHung('left')), set);
    expect(made.problems).toEqual([]);
    // A fourth pin would stand at 344.67, too near the stake; a fourth screw has room.
    expect(marks(made, 'L1.addon-left', 'pin')).toEqual([95, 469.5, 844]);
    expect(marks(made, 'L1.addon-left', 'fixing')).toEqual([75, 338, 601, 864]);
    expect(reasons(made, 'L1.addon-left', 'fixing')[0]).toBe(
      '1 more than the pitch asks, because moving alone could not keep every rule',
    );
  });
});

describe('rules that cannot hold together', () => {
  it('are named though nothing of them may move', () => {
    const near = '  - {between: [gearbox, keep], least: 300, source: house}\n';
    const made = setOut(unit(1000, 700, topHung()), w52With(['clearances:\n', `clearances:\n${near}`]));
    expect(told(made)).toEqual([
      'setout.clash: On L1.addon-bottom (add-on sill, 939 long) these rules cannot hold together: gearbox centre at least 300 from keep centre, between centres.',
    ]);
    // Marks stand where their rules put them, for whoever overrides it.
    expect(marks(made, 'L1.addon-bottom', 'gearbox')).toEqual([469.5]);
    expect(made.lights[0]!.keeps).toEqual([260.5, 678.5]);
  });
  it('are the pitch, the ends and the clearance, where any one of them would do', () => {
    const set = w52With([
      /(fixing, per: opening, on: addon.right, wall: rebate, rule: \{spaced: \{end: fixing_end, pitch: fixing_pitch), end_range: \[[^\]]*\]/,
      '$1, more: 0',
    ]);
    expect(told(setOut(unit(650, 810, sideHung('left')), set))).toEqual([
      'setout.clash: On L1.addon-right (add-on right jamb, 749 long) these rules cannot hold together: add-on screw at least 20 from gearbox centre, between centres; fixing pitch at most 300; the end distances of fixing.',
    ]);
  });
});

describe('a search that is cut short', () => {
  /** Nine marks of three kinds beside three stakes, each `apart` from every other, `from` to `to` from their stake. */
  const crowd = (from: number, to: number) => {
    const kinds = ['pin-a', 'pin-b', 'pin-c'];
    const pairs = kinds.flatMap((a, i) => kinds.slice(i).map((b) => `[${a}, ${b}]`));
    return w52With(
      [
        'features:\n',
        `features:\n  stake: {title: stake}\n${kinds.map((kind) => `  ${kind}: {title: ${kind}, moves: true}\n`).join('')}`,
      ],
      [
        'clearances:\n',
        `clearances:\n${pairs.map((pair) => `  - {between: ${pair}, least: 20, source: house}\n`).join('')}`,
      ],
      [
        'marks:\n',
        `marks:\n  - {kind: stake, per: fixed, on: left, rule: {at: [200, 204, 208]}}\n${kinds
          .map(
            (kind) =>
              `  - {kind: ${kind}, per: fixed, on: left, rule: {beside: {kind: stake, on: left, by: 100, range: [${from}, ${to}]}}}\n`,
          )
          .join('')}`,
      ],
    );
  };
  const pins = (made: SetOut) =>
    part(made, 'frame-left')
      .marks.filter(({ kind }) => kind.startsWith('pin'))
      .map(({ at: place }) => place);
  it('keeps every rule, and says that the least shift was not proven', () => {
    const made = setOut(unit(900, 1400, fixed()), crowd(0, 400));
    expect(told(made)).toEqual([
      'setout.clash-unproven: The least shift on frame-left was not proven within the search bound.',
    ]);
    expect(made.refused).toBe(false);
    const places = pins(made);
    expect(places).toHaveLength(9);
    places.slice(1).forEach((place, i) => {
      expect(place - places[i]!).toBeGreaterThanOrEqual(20);
    });
  });
  it('refuses, and says that it was not proven that nothing holds', () => {
    const made = setOut(unit(900, 1400, fixed()), crowd(40, 180));
    expect(made.refused).toBe(true);
    expect(told(made).map((text) => text.slice(0, 80))).toEqual([
      'setout.clash: On frame-left (frame left jamb, 1400 long) these rules cannot hold',
      'setout.clash-unproven: That nothing satisfies the rules on frame-left was not pr',
    ]);
    expect(new Set(pins(made))).toEqual(new Set([352, 356, 360]));
  });
  it('has each group of marks searched to the same bound', () => {
    const pair = (context: number) =>
      [context, context].map((nominal) => ({
        nominal,
        low: nominal - 50,
        high: nominal + 50,
        kind: nominal === context ? 'pin' : 'peg',
        face: 0 as const,
        half: 0,
        made: 2 as const,
        rank: 1,
      }));
    const problem = {
      movables: [...pair(100), ...pair(500)],
      standing: [],
      links: [],
      apart: () => 10,
      tie: 1 as const,
    };
    expect(solveLine(problem)).toMatchObject({ ok: true, total: 20, proven: true });
    // Three nodes settle a pair: the pair as it is, and which of the two comes first.
    expect(solveLine({ ...problem, nodes: 3 })).toMatchObject({ ok: true, total: 20, proven: true });
    expect(solveLine({ ...problem, nodes: 1 })).toMatchObject({
      ok: false,
      among: [0, 1, 2, 3],
      proven: false,
    });
  });
});
