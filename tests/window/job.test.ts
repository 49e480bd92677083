/** Job files, as YAML and as a table from a spreadsheet: what they may say, and what is said when they are wrong. */
import { describe, expect, it } from 'vitest';
import { parseJob } from '../../src/window/job.js';
import { setOut } from '../../src/window/setout.js';
import { shipped, value, w52 } from './kit.js';

const HEAD = 'format: pinchrod-job 1\nname: j\nprofile_set: w52\nprocedure: casement\nglass: 4-16-4\n';
const job = (units: string) => ({ file: 'shared/jobs/j.yaml', text: `${HEAD}units:\n${units}` });
const one = (layout: string) => job(`  - {mark: A1, width: 900, height: 1200, layout: ${layout}}\n`);
const problems = (source: { file: string; text: string }) => {
  const read = parseJob(source);
  return read.ok ? [] : read.problems;
};
const hinge = (layout: string) => {
  const { layout: made } = value(parseJob(one(layout))).units[0]!;
  return made.type === 'light' ? made.hinge : undefined;
};

describe('handing', () => {
  it('is flipped where it was looked at from inside', () => {
    expect(hinge('{light: side-hung, hinge: left, viewed_from: outside, opens: out}')).toBe('left');
    expect(hinge('{light: side-hung, hinge: right, viewed_from: inside, opens: out}')).toBe('left');
    expect(hinge('{light: side-hung, hinge: left, viewed_from: inside, opens: out}')).toBe('right');
    expect(hinge('{light: top-hung}')).toBe('top');
  });
  it.each([
    ['{light: side-hung, hinge: left, opens: out}', /does not say from which side/],
    ['{light: side-hung, viewed_from: outside, opens: out}', /needs hinge/],
    ['{light: side-hung, hinge: left, viewed_from: outside}', /opens out or in/],
    ['{light: top-hung, hinge: left}', /top-hung light is hinged left/],
    ['{light: fixed, hinge: left}', /fixed light has a hinge/],
  ])('%s is asked about', (layout, text) => {
    const [problem] = problems(one(layout));
    expect(problem).toMatchObject({ id: 'job.handing', place: { file: 'shared/jobs/j.yaml', line: 7 } });
    expect(problem!.text).toMatch(text);
    expect(problem!.todo).not.toBe('');
  });
});

describe('layouts', () => {
  const positions = (keys: string) => {
    const made = value(
      parseJob(one(`{split: ${keys}, parts: [{light: fixed}, {light: fixed}, {light: fixed}]}`)),
    ).units[0]!.layout;
    return made.type === 'split' ? made.positions : undefined;
  };
  it('take centre lines from any side, in any order', () => {
    expect(positions('upright, at: [600, 300]')).toEqual({ by: 'centre-line', at: [300, 600] });
    expect(positions('upright, at: [300, 500], from: right')).toEqual({ by: 'centre-line', at: [400, 600] });
    // Parts stand from the top down, level centre lines are measured from the bottom.
    expect(positions('level, at: [300, 800]')).toEqual({ by: 'centre-line', at: [800, 300] });
    expect(positions('level, at: [300, 800], from: top')).toEqual({ by: 'centre-line', at: [900, 400] });
  });
  it('take sight sizes, ratios and both kinds of equal', () => {
    expect(positions('upright, sight: [200, rest, 200]')).toEqual({
      by: 'sight-size',
      sizes: [200, 'rest', 200],
    });
    expect(positions('upright, ratio: [1, 2, 1]')).toEqual({ by: 'ratio', ratio: [1, 2, 1] });
    expect(positions('upright, equal: sight')).toEqual({ by: 'equal-sight' });
    expect(positions('upright, equal: glass')).toEqual({ by: 'equal-glass' });
  });
  it.each([
    ['{split: upright, parts: [{light: fixed}, {light: fixed}]}', 'job.layout'],
    ['{split: upright, at: [300], equal: sight, parts: [{light: fixed}, {light: fixed}]}', 'job.layout'],
    ['{split: upright, at: [300, 600], parts: [{light: fixed}, {light: fixed}]}', 'layout.count'],
    ['{split: upright, at: [300], from: top, parts: [{light: fixed}, {light: fixed}]}', 'job.layout'],
    ['{split: upright, ratio: [1, 2, 3], parts: [{light: fixed}, {light: fixed}]}', 'layout.count'],
    ['{split: upright, sight: [rest, rest], parts: [{light: fixed}, {light: fixed}]}', 'layout.count'],
    ['{split: upright, equal: sight, from: left, parts: [{light: fixed}, {light: fixed}]}', 'job.layout'],
    ['{split: upright, equal: sight, parts: [{light: fixed}]}', 'file.schema'],
    ['{split: sideways, equal: sight, parts: [{light: fixed}, {light: fixed}]}', 'file.schema'],
    ['{light: revolving}', 'file.schema'],
  ])('%s is a problem with its place', (layout, id) => {
    const [problem] = problems(one(layout));
    expect(problem).toMatchObject({ id, place: { line: 7 } });
    expect(problem!.place!.column).toBeGreaterThan(1);
  });
});

describe('units', () => {
  it('are expanded by quantity', () => {
    const read = value(
      parseJob(job('  - {mark: A1, quantity: 3, width: 900, height: 1200, layout: {light: fixed}}\n')),
    );
    expect(read.units.map(({ id, number }) => [id, number])).toEqual([
      ['A1-1', 1],
      ['A1-2', 2],
      ['A1-3', 3],
    ]);
  });
  it.each([
    ['  - {mark: A1, width: -900, height: 1200, layout: {light: fixed}}\n', 'file.schema', /width/],
    [
      '  - {mark: A1, width: 900, height: 1200, colour: "\\u001b[31m", layout: {light: fixed}}\n',
      'file.control',
      /colour/,
    ],
    ['  - {mark: A1, width: 900, height: 1200, wdith: 3, layout: {light: fixed}}\n', 'file.schema', /wdith/],
    ['  - {mark: ../x, width: 900, height: 1200, layout: {light: fixed}}\n', 'file.schema', /mark/],
    [
      '  - {mark: A1, width: 900, height: 1200, layout: {light: fixed}}\n  - {mark: A1, width: 800, height: 1200, layout: {light: fixed}}\n',
      'job.duplicate',
      /A1/,
    ],
    [
      '  - {mark: A1, quantity: 1, width: 900, height: 1200, layout: {light: fixed}}\n  - {mark: a1, width: 800, height: 1200, layout: {light: fixed}}\n',
      'job.duplicate',
      /A1/,
    ],
  ])('wrong ones are named: %s', (units, id, text) => {
    const found = problems(job(units));
    expect(found[0]).toMatchObject({ id, place: { file: 'shared/jobs/j.yaml' } });
    expect(found[0]!.text).toMatch(text);
  });
  it('need name no glass: whether it must have one, the profile set says', () => {
    const bare = value(
      parseJob({
        file: 'j.yaml',
        text: job('  - {mark: A1, width: 900, height: 1200, layout: {light: fixed}}\n').text.replace(
          'glass: 4-16-4\n',
          '',
        ),
      }),
    );
    const [problem] = setOut(bare.units[0]!, w52).problems;
    expect(problem!.text).toMatch(/^L1 names no glass, and neither does its unit or the job; W52/);
  });
});

describe('tables', () => {
  const CSV = [
    'job,customer,profile_set,procedure,mark,quantity,width,height,glass,split,at,light_1,light_2,hinge_2,viewed_from_2,opens_2,safety_glass,note',
    'sea-row,"Aldous, M.",w52,casement,A1,2,1600,1200,4-16-4,upright,980,fixed,side-hung,right,outside,out,no,"two',
    'lines"',
    ',,,,A2,1,900,1200,4-16-4,,,fixed,,,,,yes,=cmd|calc',
  ].join('\r\n');
  it('are jobs like any other', () => {
    const read = value(
      parseJob({ file: 'shared/jobs/sea-row.csv', text: `\ufeff${CSV.replace('"two\r\nlines"', 'x')}` }),
    );
    expect(read).toMatchObject({ name: 'sea-row', customer: 'Aldous, M.', profileSet: 'w52' });
    expect(read.units.map(({ id }) => id)).toEqual(['A1-1', 'A1-2', 'A2-1']);
    expect(read.units[0]!.layout).toEqual({
      type: 'split',
      direction: 'upright',
      joint: 'ported',
      jointFromSet: true,
      positions: { by: 'centre-line', at: [980] },
      parts: [
        { type: 'light', kind: 'fixed', glass: '4-16-4' },
        { type: 'light', kind: 'side-hung', hinge: 'right', glass: '4-16-4' },
      ],
    });
    expect(read.units[2]).toMatchObject({ note: '=cmd|calc', needs: { safetyGlass: true } });
  });
  it('take the name of the file, semicolons and decimal commas', () => {
    const text =
      'Mark;Width;Height;Glass;Light 1;profile set;procedure\nA1;900,5;1200;4-16-4;top-hung;w52;casement\n';
    const read = value(parseJob({ file: 'shared/jobs/hill.csv', text }));
    expect(read.name).toBe('hill');
    expect(read.units[0]).toMatchObject({ width: 900.5, height: 1200 });
  });
  const table = (head: string, ...lines: string[]) =>
    problems({
      file: 't.csv',
      text: [
        `job,profile_set,procedure,glass,${head}`,
        ...lines.map((line) => `t,w52,casement,4-16-4,${line}`),
      ].join('\n'),
    });
  it.each([
    [table('mark,width,height,light_1', 'A1,9oo,1200,fixed'), 'job.csv', 2, 6, /9oo/],
    [
      table('mark,width,height,light_1', 'A1,900,1200,fixed', 'A2,900,1.200.0,fixed'),
      'job.csv',
      3,
      7,
      /1\.200\.0/,
    ],
    [table('mark,width,height,lihgt_1', 'A1,900,1200,fixed'), 'job.csv', 1, 8, /lihgt_1/],
    [table('mark,width,width,light_1', 'A1,900,1200,fixed'), 'job.csv', 1, 7, /twice/],
    [table('mark,width,height,light_1', 'A1,900,1200,openable'), 'job.csv', 2, 8, /light_1/],
    [table('mark,width,height,light_1', 'A1,900,1200,fixed,more'), 'job.csv', 2, 9, /cells/],
    [
      table('mark,width,height,light_1,escape', 'A1,900,1200,fixed,perhaps'),
      'job.csv',
      2,
      9,
      /neither yes nor no/,
    ],
    [table('mark,width,height,light_1', 'A1,900,1200,'), 'job.csv', 2, 8, /no light/],
    [
      table('mark,width,height,light_1,light_2', 'A1,900,1200,fixed,fixed'),
      'job.csv',
      2,
      undefined,
      /no split/,
    ],
    [
      table('mark,width,height,light_1,hinge_1', 'A1,900,1200,side-hung,left'),
      'job.handing',
      2,
      8,
      /from which side/,
    ],
    [
      table('mark,width,height,light_1', 'A1,900,1200,fixed', 'A1,900,1200,fixed'),
      'job.duplicate',
      3,
      5,
      /twice/,
    ],
    [table('mark,width,height,light_1', 'A1,"900,1200,fixed'), 'job.csv', 2, undefined, /./],
  ])('name line and column of what is wrong (%#)', (found, id, line, column, text) => {
    expect(found[0]).toMatchObject({ id, place: { file: 't.csv', line } });
    if (column !== undefined) expect(found[0]!.place!.column).toBe(column);
    expect(found[0]!.text).toMatch(text);
  });
  it('never pass control characters on', () => {
    const found = table('mark,width,height,light_1,note', 'A1,900,1200,fixed,\u001b]0;x\u0007');
    expect(found[0]).toMatchObject({ id: 'job.csv', place: { line: 2, column: 9 } });
    for (const { text } of found) expect(text).not.toMatch(/\u001b/);
  });
});

it('the demonstration job reads without a problem', () => {
  expect(problems(shipped('shared/jobs/pier-house.yaml'))).toEqual([]);
});
