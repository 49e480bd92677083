/** Rarer mistakes in a fabricator's files: each is one plain problem at its place, and nothing throws. */
import { describe, expect, it } from 'vitest';
import type { Problem, Result } from '../../src/base/problem.js';
import { parseJob } from '../../src/window/job.js';
import { lintProfileSet } from '../../src/window/lintset.js';
import { parseProfileSet } from '../../src/window/profileset.js';
import { setOut } from '../../src/window/setout.js';
import { at, fixed, k70, shipped, sideHung, split, topHung, unit, value, w52 } from './kit.js';

const found = <T>(read: Result<T>): readonly Problem[] => (read.ok ? [] : read.problems);
const { text: SET } = shipped('shared/profile-sets/w52.yaml');
const set = (from: string, to: string) => {
  expect(SET).toContain(from);
  return parseProfileSet({ file: 'w52.yaml', text: SET.replace(from, to) });
};

describe('tables of a job', () => {
  const table = (text: string) => found(parseJob({ file: 'jobs/t.csv', text }));
  const HEAD = 'job,profile_set,procedure,glass,mark,width,height,light_1';
  const row = (more: string) => `t,w52,casement,4-16-4,${more}`;
  it.each([
    ['', /is empty/],
    [`${HEAD}\n`, /no units/],
    [
      `${HEAD}\n${row('A1,900,1200,fixed')}\nu,w52,casement,4-16-4,A2,900,1200,fixed`,
      /"u" here and "t" in the first/,
    ],
    [
      `${HEAD}\n,w52,casement,4-16-4,A1,900,1200,fixed\nu,w52,casement,4-16-4,A2,900,1200,fixed`,
      /"u" here and "" in the first/,
    ],
    [`${HEAD}\nt,,casement,4-16-4,A1,900,1200,fixed`, /Column profile_set/],
    [`${HEAD}\n${row('A1,,1200,fixed')}`, /Column width/],
    [`${HEAD}\n${row(',900,1200,fixed')}`, /Column mark/],
    [`${HEAD},split,at,light_2\n${row('A1,900,1200,fixed,sideways,300,fixed')}`, /Column split/],
    [
      `${HEAD.replace('job,', 'job,glass_of_1,')}\n${row('A1,900,1200,fixed').replace('t,', `t,${'x'.repeat(300)},`)}`,
      /Column glass_of_1/,
    ],
    [`${HEAD}\n${row('A1,900,1200,fixed').replace('t,', `${'t'.repeat(300)},`)}`, /Column job/],
    [`${HEAD},handle_at_1\n${row('A1,900,1200,side-hung,-5')}`, /Column handle_at_1/],
    [`${HEAD}\n${row('A1,900,1200,fixed').repeat(1)}\n${'x'.repeat(3_000_000)}`, /characters; \d+ are taken/],
  ])('say what is wrong (%#)', (text, said) => {
    const problems = table(text);
    expect(problems.map((each) => each.text).join('\n')).toMatch(said);
    for (const { place } of problems) expect(place?.file).toBe('jobs/t.csv');
  });
  it('take short lines as empty cells', () => {
    expect(table(`${HEAD},note\n${row('A1,900,1200,fixed')}`)).toEqual([]);
  });
});

describe('jobs', () => {
  const job = (units: string, glasses = '') =>
    found(
      parseJob({
        file: 'j.yaml',
        text: `format: pinchrod-job 1\nname: j\nprofile_set: w52\nprocedure: casement\nglass: 4-16-4\n${glasses}units:\n${units}`,
      }),
    );
  it('give one gap fewer than panes', () => {
    const problems = job(
      '  - {mark: A1, width: 900, height: 1200, layout: {light: fixed}}\n',
      'glasses: {odd: {panes: [4, 4], gaps: []}}\n',
    );
    expect(problems[0]).toMatchObject({ id: 'job.glass', text: 'Glass odd has 2 panes and 0 gaps.' });
  });
  it('are nested so deep and no deeper', () => {
    const nest = (depth: number): string =>
      depth === 0
        ? '{light: fixed}'
        : `{split: ${depth % 2 ? 'upright' : 'level'}, equal: sight, parts: [${nest(depth - 1)}, {light: fixed}]}`;
    const problems = job(`  - {mark: A1, width: 2900, height: 2200, layout: ${nest(9)}}\n`);
    expect(problems.some(({ text }) => /nested|deep/i.test(text))).toBe(true);
  });
  it('have as many sight sizes as parts, and open in where they say so', () => {
    expect(
      job(
        '  - {mark: A1, width: 900, height: 1200, layout: {split: upright, sight: [200, 300, 100], parts: [{light: fixed}, {light: fixed}]}}\n',
      )[0]!.id,
    ).toBe('layout.count');
    const inward = value(
      parseJob({
        file: 'j.yaml',
        text: 'format: pinchrod-job 1\nname: j\nprofile_set: w52\nprocedure: casement\nglass: 4-16-4\nunits:\n  - {mark: A1, width: 700, height: 1100, layout: {light: side-hung, hinge: left, viewed_from: outside, opens: in}}\n',
      }),
    );
    const made = setOut(inward.units[0]!, w52);
    expect(made.problems.map(({ text }) => text).join(' ')).toContain('opens in;');
  });
});

describe('profile sets', () => {
  it.each([
    ['{kind: equaliser, per: light, on: top,', '{kind: equalizer, per: light, on: top,', /equalizer/],
    [
      '{kind: drain-inner, per: light, on: bottom, along: sight,',
      '{kind: drain-inner, per: light, on: bottom, along: nowhere,',
      /Box "nowhere"/,
    ],
    ['profile: W52-F, box: frame, side: top', 'profile: W52-F, box: nowhere, side: top', /Box "nowhere"/],
    ['quantity: 1, marks: divider-hole,', 'quantity: 1, marks: nothing,', /nothing/],
    [
      '    glass: {x: edge_clearance - upstand, y: edge_clearance - upstand, w: glass.w, h: glass.h}\n',
      '',
      /boxes\.fixed gives no glass/,
    ],
  ])('name what is not there (%#)', (from, to, said) => {
    expect(
      found(set(from, to))
        .map(({ text }) => text)
        .join('\n'),
    ).toMatch(said);
  });
  it('are told of a size that nothing uses', () => {
    const made = value(
      set(
        '    glass.check_w: sight.w + 2 * glass.cover\n',
        '    glass.check_w: sight.w + 2 * glass.cover\n    glass.idle: sight.w\n',
      ),
    );
    expect(lintProfileSet(made).map(({ text }) => text)).toContain(
      'Size glass.idle of sizes.fixed is used nowhere.',
    );
  });
  it('are held to their two ways to the glass', () => {
    const made = value(
      set(
        '    glass.check_w: sight.w + 2 * glass.cover\n',
        '    glass.check_w: sight.w + 2 * glass.cover + 1\n',
      ),
    );
    const out = setOut(unit(900, 1200, fixed()), made);
    expect(out.problems.map(({ id }) => id)).toContain('setout.glass');
  });
  it('take only the joints they have', () => {
    const made = value(set('joints: [ported, cleated]', 'joints: [cleated]'));
    const out = setOut(unit(1500, 1000, split('upright', at(700), [fixed(), fixed()], 'ported')), made);
    expect(out.problems.map(({ text }) => text).join(' ')).toContain('are cleated, not ported');
  });
});

it('a set that opens in only says so of a light that opens out', () => {
  const made = value(set('opens: [out]', 'opens: [in]'));
  const out = setOut(unit(700, 1100, sideHung('left')), made);
  expect(out.problems.map(({ text }) => text).join(' ')).toMatch(/opens out; .* does not\./);
});

describe('orders', () => {
  const wanted = { needs: { escape: true, restrictor: false, safetyGlass: false } };
  const said = (made: ReturnType<typeof setOut>) => made.problems.map(({ text }) => text).join(' ');
  it('that ask for an escape opening need a light that opens far enough, and say so where that is unknown', () => {
    expect(said(setOut(unit(900, 1200, fixed(), wanted), w52))).toContain('no light of the unit opens');
    const mixed = split('upright', at(700), [topHung(), sideHung('left')]);
    const made = setOut(unit(1400, 800, mixed, wanted), w52);
    expect(said(made)).toMatch(/escape|Clear opening/);
  });
  it('that ask for an escape opening are told each light’s, as far as it is known, with the stay in its sum', () => {
    const glass = { glass: '4-20-4' };
    const mixed = split('upright', at(800), [topHung(glass), sideHung('left', glass)]);
    const made = setOut(unit(1300, 1000, mixed, wanted), k70);
    expect(said(made)).toMatch(/^Clear opening: L1 unknown; L2 332 x 865, 0\.287 m2; at least 450 each way/);
    const width = made.numbers.get('escape.L2.w')!;
    expect(width).toMatchObject({ value: 332, filled: '446 - 2 * 26 - 62' });
    expect(width.of.at(-1)).toMatchObject({
      name: 'stay.L2.clear_loss',
      value: 62,
      source: { kind: 'invented', text: 'example set K70, stay chart; not engineering data' },
    });
  });
  it('of centre lines that do not match the parts are a problem, from whoever made the unit', () => {
    const odd = split('upright', at(300, 600), [fixed(), fixed()]);
    expect(said(setOut(unit(900, 1200, odd), w52))).toContain('1 centre lines are needed, 2 given');
    const ratio = split('upright', { by: 'ratio', ratio: [1] }, [fixed(), fixed()]);
    expect(setOut(unit(900, 1200, ratio), w52).refused).toBe(true);
  });
});
