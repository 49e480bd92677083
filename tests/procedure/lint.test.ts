import { describe, expect, it } from 'vitest';
import { parseLimits } from '../../src/measure/limits.js';
import { type LintContext, lintProcedure } from '../../src/procedure/lint.js';
import { parseProcedure } from '../../src/procedure/parse.js';
import { casement, must, small, sourceOf } from './samples.js';

const limits = must(parseLimits(sourceOf('shared/limits.yaml')));

const found = (change: (text: string) => string, context: LintContext = { limits }) =>
  lintProcedure(must(parseProcedure(small(change))), context);
const ids = (change: (text: string) => string, context?: LintContext) =>
  found(change, context).map(({ id }) => id);

describe('lint', () => {
  it('finds nothing in the demonstration procedure', () => {
    const people = {
      persons: [
        { id: 'a', levels: { all: 4 } },
        { id: 'b', levels: { all: 3 } },
      ],
      solo: false,
    };
    expect(lintProcedure(casement, { limits, people })).toEqual([]);
  });

  it('finds nothing in the small sample', () => {
    expect(found((t) => t)).toEqual([]);
  });

  it.each([
    ['a step without a why', 'procedure.no-why', 'why: It opens.', 'why: ""'],
    ['a step without a watch', 'procedure.no-why', '        watch: It rubs.\n', ''],
    ['a machine step without a caution', 'procedure.no-caution', '        caution: Clamp the piece.\n', ''],
    ['cautions that defer to nobody', 'procedure.no-caution', 'deferral: Local rules come first.\n', ''],
    ['a number without a limit', 'procedure.no-limit', '            limits: [cut.length]\n', ''],
    ['a square without a limit', 'procedure.no-limit', '            limits: [frame.diagonals.house]\n', ''],
    ['an unknown limit', 'procedure.limit-unknown', 'limits: [cut.length]', 'limits: [cut.lenght]'],
    ['a deviation without an expectation', 'procedure.limit-kind', '            expect: frame.w\n', ''],
    [
      'a gap limit on a squareness set',
      'procedure.limit-kind',
      'limits: [frame.diagonals.house]',
      'limits: [mitre.gap.house]',
    ],
    [
      'a limit of diagonals on one number',
      'procedure.limit-kind',
      'limits: [cut.length]',
      'limits: [frame.diagonals.house]',
    ],
    ['a limit in another unit', 'procedure.limit-kind', 'limits: [cut.length]', 'limits: [handle.force]'],
    ['a typed figure', 'procedure.number-typed', 'Put it together.', 'Leave a gap of 3 mm.'],
    ['a typed figure after a sign', 'procedure.number-typed', 'Put it together.', 'Leave a gap of -0.5 mm.'],
    ['a number without its unit', 'procedure.number-bare', '{mm(frame.w)}', '{frame.w}'],
    ['a feature nobody rests on', 'procedure.feature-unused', '        rests: [frame.made]\n', ''],
    ['a feature nobody makes', 'procedure.feature-unmade', '        makes: [frame.cut]\n', ''],
    [
      'two makers of one feature',
      'procedure.two-makers',
      '        rests: [everything]\n',
      '        makes: [frame.made]\n',
    ],
    [
      'features in a ring',
      'procedure.feature-cycle',
      '        rests: [frame.cut]\n        hold',
      '        rests: [frame.cut, make.end]\n        hold',
    ],
    [
      'a step that rests on a later one',
      'procedure.rests-ahead',
      '        rests: [frame.cut]\n        hold',
      '        rests: [frame.cut, make.end]\n        hold',
    ],
    ['a step that rests on a stage beside it', 'procedure.rests-aside', '    after: [cut]\n', ''],
    [
      'a step that nobody gets',
      'procedure.unreachable',
      '        each: sash\n',
      '        each: sash\n        when: light.kind == "tilting"\n',
    ],
    [
      'a check that nobody gets',
      'procedure.unreachable',
      'ask: Hung.',
      'ask: Hung.\n            when: unit.fixed > unit.lights',
    ],
    ['a hold that nothing stops at', 'procedure.hold-unused', '        hold: H1\n', ''],
    [
      'a long sentence',
      'procedure.sentence',
      'It opens.',
      'One two three four five six seven eight nine ten one two three four five six seven eight nine ten more.',
    ],
    [
      'a long sentence inside a formula',
      'procedure.sentence',
      'It opens.',
      `'{unit.lights > 1 ? "One two three four five six seven eight nine ten one two three four five six seven eight nine ten more" : "x"}.'`,
    ],
  ])('finds %s', (_, id, was, becomes) => {
    expect(small().text).toContain(was);
    const problems = found((text) => text.replace(was, becomes));
    expect(problems.map((problem) => problem.id)).toContain(id);
    for (const problem of problems) {
      expect(problem.place?.line).toBeGreaterThan(0);
      expect(problem.todo).not.toBe('');
    }
  });

  it('takes twenty words, a lone 0, a size with its unit behind it, and names with digits', () => {
    const twenty =
      'One two three four five six seven eight nine ten one two three four five six seven eight nine ten.';
    const text = `Enter 0 here. Look at L2 and H3. Leave {frame.w} mm.`;
    expect(ids((t) => t.replace('It opens.', twenty).replace('Put it together.', text))).toEqual([]);
  });

  it('finds a limit without a source', () => {
    const bare = { limits: limits.limits.map(({ id, of, unit }) => ({ id, of, unit })) };
    expect(ids((t) => t, { limits: bare })).toContain('procedure.limit-unsourced');
  });

  it('finds figures that the profile set lacks, but not those it asks about first', () => {
    const asks = (t: string) =>
      t
        .replace('{mm(frame.w)}', '{mm(figure["slot"])}')
        .replace(
          '        each: sash\n',
          `        each: sash\n        when: '"ring" in figure && figure["ring"] > 0.0'\n`,
        );
    expect(ids(asks, { limits, figures: [] })).toEqual(['procedure.figure-unknown']);
    expect(ids(asks, { limits, figures: ['slot'] })).toEqual([]);
  });

  describe('holds', () => {
    const people = (levels: readonly Record<string, number>[], solo = false) => ({
      limits,
      people: { persons: levels.map((level, i) => ({ id: `p${i}`, levels: level })), solo },
    });
    it('need somebody of level 4 for the stage', () => {
      expect(ids((t) => t, people([{ all: 3 }, { cut: 5 }]))).toEqual(['procedure.hold-unreleasable']);
      expect(ids((t) => t, people([{ all: 3 }, { make: 4 }]))).toEqual([]);
      expect(ids((t) => t, people([{ all: 5, make: 2 }, { all: 3 }]))).toEqual([
        'procedure.hold-unreleasable',
      ]);
    });
    it('need a second person or the solo rule, unless the maker may release', () => {
      expect(ids((t) => t, people([{ all: 5 }]))).toEqual(['procedure.hold-unreleasable']);
      expect(ids((t) => t, people([{ all: 5 }], true))).toEqual([]);
      const own = (t: string) =>
        t.replace('{ title: Look at it }', '{ title: Look at it, notSamePerson: false }');
      expect(ids(own, people([{ all: 5 }]))).toEqual([]);
    });
  });

  it('gives problems in the order of the file', () => {
    const lines = found((t) => t.replaceAll(/why: .*/g, 'why: ""')).map(({ place }) => place!.line!);
    expect(lines).toEqual([...lines].sort((a, b) => a - b));
    expect(lines.length).toBe(4);
  });
});
