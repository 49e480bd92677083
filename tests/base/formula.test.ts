import { describe, expect, it } from 'vitest';
import { type Formula, FormulaSpace, type FormulaType, isProblem } from '../../src/base/formula.js';

const space = new FormulaSpace({
  unit: { width: 'double', lights: 'int', name: 'string' },
  set: 'map<string, double>',
  drains: 'list<double>',
});
const values = { unit: { width: 1000, lights: 2n, name: 'P' }, set: { a: 52 }, drains: [112, 500.5] };
const all: FormulaType[] = ['double', 'int', 'bool', 'string', 'list<double>'];
const compile = (text: string, want = all): Formula => {
  const made = space.compile(text, want);
  if (isProblem(made)) throw new Error(made.text);
  return made;
};

describe('formulas', () => {
  it.each([
    ['unit.width - 2 * set.a', 896],
    ['2*unit.width/3', 2000 / 3],
    ['unit.lights * 1.5', 3],
    ['unit.lights + 1', 3],
    ['unit.width == 1000 && unit.lights > 1', true],
    ['unit.width == 1000.0', true],
    ['ceil(unit.width / 300)', 4],
    ['max(2, unit.width)', 1000],
    ['mm(drains)', '112, 500.5 mm'],
    ['mm(unit.width)', '1000 mm'],
    ['wxh(unit.width, 700)', '1000 x 700 mm'],
    ['spread(drains)', 388.5],
    ['drains.map(d, d + set.a)', [164, 552.5]],
    ['unit.width % 300', 100],
  ])('%s', (text, result) => expect(compile(text).run(values)).toEqual(result));

  it('says which names it reads, and fills them with numbers', () => {
    const formula = compile('unit.width - 2*set.a');
    expect(formula.names).toEqual(['unit.width', 'set.a']);
    expect(formula.filled((name) => ({ 'unit.width': '1000', 'set.a': '52' })[name])).toBe('1000 - 2*52');
  });

  it.each([
    ['unit.width -', 'formula.syntax'],
    ['unit.widht - 2', 'formula.type'],
    ['unknown + 1', 'formula.type'],
    ['unit.name + 1', 'formula.type'],
  ])('refuses %s', (text, id) => {
    const made = space.compile(text, all, { file: 'f.yaml', line: 3, column: 10 });
    expect(isProblem(made) && made.id).toBe(id);
    expect(isProblem(made) && made.place).toMatchObject({ file: 'f.yaml', line: 3 });
  });

  it('refuses a result of the wrong kind', () => {
    const made = space.compile('unit.name', ['double']);
    expect(isProblem(made) && made.id).toBe('formula.result');
  });

  it('points at the column of the fault', () => {
    const made = space.compile('unit.width + unit.widht', all, { file: 'f.yaml', line: 3, column: 10 });
    expect(isProblem(made) && made.place!.column).toBe(10 + 'unit.width + unit.'.length);
  });
});
