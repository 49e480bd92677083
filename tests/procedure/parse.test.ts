import { describe, expect, it } from 'vitest';
import type { Problem } from '../../src/base/problem.js';
import { parseProcedure } from '../../src/procedure/parse.js';
import { must, small } from './samples.js';

const problems = (change: (text: string) => string): readonly Problem[] => {
  const read = parseProcedure(small(change));
  return read.ok ? [] : read.problems;
};

/** The line and column at which a piece of the sample stands, counted from 1. */
function placeOf(text: string, piece: string): { line: number; column: number } {
  const before = text.slice(0, text.indexOf(piece));
  return { line: before.split('\n').length, column: before.length - before.lastIndexOf('\n') };
}

describe('reading a procedure', () => {
  it('reads the small sample', () => {
    const procedure = must(parseProcedure(small()));
    expect(procedure.stages.map(({ id }) => id)).toEqual(['cut', 'make']);
  });

  it('lets a step that makes nothing by name be rested on by its own id', () => {
    const procedure = must(
      parseProcedure(small((t) => t.replace('rests: [frame.made]', 'rests: [make.sash]'))),
    );
    expect(procedure.stages[1]!.steps[1]!.makes).toEqual(['make.sash']);
  });

  it.each([
    ['an unknown key', 'watch: One is short.', 'wach: One is short.', 'file.schema', 'wach'],
    ['a wrong kind of check', 'kind: tick', 'kind: guess', 'file.schema', 'guess'],
    ['an unknown name in a text', '{mm(frame.w)}', '{mm(frame.width)}', 'formula.type', 'frame.width'],
    ['a broken formula in a text', '{mm(frame.w)}', '{mm(frame.w}', 'formula.syntax', undefined],
    [
      'a name of a light in a step for the unit',
      'expect: frame.w',
      'expect: light.sash.w',
      'formula.type',
      undefined,
    ],
    ['an expectation that is a text', 'expect: frame.w', 'expect: unit.id', 'formula.result', 'unit.id'],
    [
      'a list without unit words',
      '{mm(frame.w)}',
      '{frame.drains_inner}',
      'formula.result',
      'frame.drains_inner',
    ],
    [
      'an open brace',
      'Cut two pieces at {mm(frame.w)}.',
      'Cut at {mm(frame.w).',
      'procedure.brace',
      '{mm(frame.w).',
    ],
    ['a stray closing brace', 'Put it together.', 'Put it} together.', 'procedure.brace', '} together'],
    ['two steps with one id', 'id: make.end', 'id: make.sash', 'procedure.twice', undefined],
    ['a stage after an unknown stage', 'after: [cut]', 'after: [cur]', 'procedure.stage-unknown', undefined],
    [
      'a feature that is not listed',
      'rests: [frame.cut]',
      'rests: [frame.cud]',
      'procedure.feature-unknown',
      undefined,
    ],
    ['a hold that is not listed', 'hold: H1', 'hold: H2', 'procedure.hold-unknown', undefined],
    ['a number check without its unit', '            unit: mm\n', '', 'procedure.check-keys', undefined],
    [
      'a tick with a limit',
      'ask: Hung.',
      'ask: Hung.\n            limits: [cut.length]',
      'procedure.check-keys',
      undefined,
    ],
    ['a control character', 'title: Two steps', 'title: "Two\\u001b steps"', 'file.control', undefined],
  ])('refuses %s', (_, was, becomes, id, at) => {
    const change = (text: string) => text.replace(was, becomes);
    const found = problems(change);
    expect(found.map((problem) => problem.id)).toContain(id);
    const problem = found.find((p) => p.id === id)!;
    expect(problem.place?.file).toBe('procedures/small.yaml');
    expect(problem.place?.line).toBeGreaterThan(0);
    expect(problem.todo).not.toBe('');
    if (at !== undefined) {
      const place = placeOf(small(change).text, at);
      expect(problem.place?.line).toBe(place.line);
      if (id === 'procedure.brace' || id === 'formula.result')
        expect(problem.place?.column).toBe(place.column);
    }
  });

  it('gives the column of a formula inside folded and quoted text', () => {
    const folded = (text: string) =>
      text.replace(
        '- Cut two pieces at {mm(frame.w)}.',
        '- >-\n            Cut two\n            pieces at {mm(frame.ww)}.',
      );
    expect(problems(folded)[0]?.place).toMatchObject(placeOf(small(folded).text, 'ww)'));
    const quoted = (text: string) =>
      text.replace('Cut two pieces at {mm(frame.w)}.', "'Cut at {mm(frame.ww)}.'");
    expect(problems(quoted)[0]?.place).toMatchObject(placeOf(small(quoted).text, 'ww)'));
  });

  it('refuses stages in a ring and stages in the wrong order', () => {
    expect(
      problems((t) => t.replace('title: Cut\n', 'title: Cut\n    after: [make]\n')).map(({ id }) => id),
    ).toContain('procedure.stage-cycle');
    const turned = (t: string) =>
      t.replace('    after: [cut]\n', '').replace('title: Cut\n', 'title: Cut\n    after: [make]\n');
    expect(problems(turned).map(({ id }) => id)).toEqual(['procedure.stage-order']);
  });

  it('never throws, whatever is cut off', () => {
    const { text } = small();
    for (let end = 0; end < text.length; end += 37)
      expect(() => parseProcedure({ file: 'cut.yaml', text: text.slice(0, end) })).not.toThrow();
  });
});
