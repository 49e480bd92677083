/** Profile set files: every formula type-checked with its place, nothing unused, nothing unknown. */
import { describe, expect, it } from 'vitest';
import { lintProfileSet } from '../../src/window/lintset.js';
import { parseProfileSet } from '../../src/window/profileset.js';
import { k70, shipped, value, w52 } from './kit.js';

const { text } = shipped('shared/profile-sets/w52.yaml');
const changed = (from: string, to: string) => {
  expect(text).toContain(from);
  return parseProfileSet({ file: 'w52.yaml', text: text.replace(from, to) });
};
const first = (from: string, to: string) => {
  const read = changed(from, to);
  if (read.ok) throw new Error('it should have been refused');
  return read.problems[0]!;
};
const lineOf = (needle: string): number => text.slice(0, text.indexOf(needle)).split('\n').length;

describe('shipped sets', () => {
  it('are clean, and marked as invented', () => {
    for (const set of [w52, k70]) {
      expect(lintProfileSet(set)).toEqual([]);
      expect(set.invented).toBe(true);
    }
  });
  it('hold the same figures for procedures, and more', () => {
    for (const name of Object.keys(w52.figures)) expect(Object.keys(k70.figures)).toContain(name);
  });
});

describe('a broken set', () => {
  it.each([
    [
      'glass.w: rebate.w - 2 * edge_clearance',
      'glass.w: rebate.w - 2 * edge_clearence',
      'formula.type',
      /edge_clearence/,
    ],
    ['glass.w: rebate.w - 2 * edge_clearance', 'glass.w: rebate.w - 2 *', 'formula.syntax', /./],
    [
      'glass.w: rebate.w - 2 * edge_clearance',
      'glass.w: rebate.w > 2 * edge_clearance',
      'formula.result',
      /bool/,
    ],
    ['when: ported, rule', 'when: port_spacing, rule', 'formula.result', /bool is wanted/],
    ['sash.floor: sash_face - upstand', 'sash.floor: sash_rebate.w - upstand', 'set.circular', /in a ring/],
    ['    glass.area: {formula: glass.w * glass.h / 1000000, unit: m2}\n', '', 'set.missing', /glass\.area/],
    [
      "frame_face: {value: 52, says: 'frame face, outer edge to sight line', source: set}",
      'frame_face: {value: 52, says: x, source: nowhere}',
      'set.unknown',
      /nowhere/,
    ],
    ['between: [fixing, keep]', 'between: [fixing, kepe]', 'set.unknown', /kepe/],
    [
      'on: addon.bottom, wall: rebate, rule: {same_as',
      'on: adon.bottom, wall: rebate, rule: {same_as',
      'set.unknown',
      /adon/,
    ],
    ['{kind: drain-inner, on: bottom}}}', '{kind: drain-midle, on: bottom}}}', 'set.unknown', /drain-midle/],
    ['invented: true', 'invnted: true', 'file.schema', /invnted/],
    ['value: 52, says', 'value: fifty-two, says', 'file.schema', /value/],
  ])('is refused with its place: %s', (from, to, id, said) => {
    const problem = first(from, to);
    expect(problem).toMatchObject({ id, place: { file: 'w52.yaml' } });
    expect(problem.text).toMatch(said);
    expect(problem.todo).not.toBe('');
    // Where something is missing, the place is where it should have stood.
    if (to !== '') expect(problem.place!.line).toBeGreaterThanOrEqual(1);
  });
  it('names the line of the formula', () => {
    const needle = 'addon.w: rebate.w - 2 * addon_clearance';
    expect(first(needle, 'addon.w: rebate.w - 2 * nothing').place!.line).toBe(lineOf(needle));
  });
});

describe('lint', () => {
  it('finds what is used nowhere', () => {
    const set = value(
      changed('constants:\n', "constants:\n  idle: {value: 3, says: 'nobody reads it', source: set}\n"),
    );
    expect(lintProfileSet(set).map(({ id, text: said }) => [id, said])).toEqual([
      ['set.unused', 'Constant idle is used nowhere.'],
    ]);
  });
  it('finds a whole number divided by a whole number', () => {
    const set = value(changed('frame.w: unit.width', 'frame.w: unit.width + 1 / 2'));
    expect(lintProfileSet(set).map(({ id }) => id)).toEqual(['set.number']);
  });
  it('finds a feature no mark is made of, and a source nobody cites', () => {
    const set = value(
      parseProfileSet({
        file: 'w52.yaml',
        text: text
          .replace('features:\n', 'features:\n  spare: {title: spare}\n')
          .replace('sources:\n', 'sources:\n  other: {kind: memory, text: x}\n'),
      }),
    );
    expect(lintProfileSet(set).map(({ text: said }) => said)).toEqual([
      'Feature spare has no mark.',
      'Source other is cited nowhere.',
    ]);
  });
});
