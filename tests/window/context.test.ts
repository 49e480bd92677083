/** The numbers that procedures may ask for, and the answers to "why". */
import { describe, expect, it } from 'vitest';
import { FormulaSpace, isProblem, type Names } from '../../src/base/formula.js';
import { whyLines } from '../../src/commands/whytext.js';
import {
  CONTEXT_NAMES,
  contextOf,
  DIVIDER_NAMES,
  dividerContext,
  LIGHT_NAMES,
  lightContext,
} from '../../src/window/context.js';
import { parseJob } from '../../src/window/job.js';
import { setOut } from '../../src/window/setout.js';
import { setOutJson } from '../../src/window/setoutjson.js';
import { why } from '../../src/window/why.js';
import { SETS, shipped, topHung, unit, value, w52 } from './kit.js';

const job = value(parseJob(shipped('shared/jobs/pier-house.yaml')));
const made = job.units.map((each) => setOut(each, w52));

/** Every dotted name of a nest, with its type. */
const flat = (names: Names, lead = ''): [string, string][] =>
  Object.entries(names).flatMap(([name, type]) =>
    typeof type === 'string' ? [[lead + name, type] as [string, string]] : flat(type, `${lead}${name}.`),
  );
const WANT = ['double', 'int', 'bool', 'string', 'list<double>', 'list<string>'] as const;

describe('context', () => {
  it.each([
    ['a step', CONTEXT_NAMES, (s: (typeof made)[number]) => [contextOf(s)]],
    [
      'a step for each light',
      { ...CONTEXT_NAMES, ...LIGHT_NAMES },
      (s: (typeof made)[number]) => s.lights.map(({ id }) => lightContext(s, id)),
    ],
    [
      'a step for each divider',
      { ...CONTEXT_NAMES, ...DIVIDER_NAMES },
      (s: (typeof made)[number]) => s.dividers.map(({ id }) => dividerContext(s, id)),
    ],
  ])('has a value of the right kind for every name of %s', (_, names, contexts) => {
    const space = new FormulaSpace(names);
    for (const [name, type] of flat(names)) {
      if (type.startsWith('map')) continue;
      const formula = space.compile(name, WANT);
      if (isProblem(formula)) throw new Error(formula.text);
      for (const setOutOf of made)
        for (const values of contexts(setOutOf)) {
          const found = formula.run(values);
          if (type === 'double' || type === 'int') expect(found, name).toBeTypeOf('number');
          else if (type === 'string') expect(found, name).toBeTypeOf('string');
          else if (type === 'bool') expect(found, name).toBeTypeOf('boolean');
          else expect(Array.isArray(found), name).toBe(true);
        }
    }
  });
  it('reads figures of the set by name', () => {
    const space = new FormulaSpace(CONTEXT_NAMES);
    const run = (text: string) => {
      const formula = space.compile(text, WANT);
      if (isProblem(formula)) throw new Error(formula.text);
      return formula.run(contextOf(made[0]!));
    };
    expect(run('figure["port.screw.d"]')).toBe(4.8);
    expect(run('"central-seal.rings" in figure && !("no.such" in figure)')).toBe(true);
    expect(run('mm(frame.drains_inner)')).toBe('112, 450, 788 mm');
    expect(run('unit.sentence')).toBe('L1 fixed light');
  });
  it('gives the holes of a divider, and drains of a light over a divider', () => {
    const p05 = made.find((each) => each.unit.mark === 'P05')!;
    expect(dividerContext(p05, 'D1')).toMatchObject({
      divider: { id: 'D1', joint: 'ported', centre: 980, holes: [971, 989] },
    });
    const p06 = made.find((each) => each.unit.mark === 'P06')!;
    expect(lightContext(p06, 'L1')).toMatchObject({
      light: { handle_side: 'bottom', drains: { inner: [81.5, 519.5, 957.5] } },
    });
    expect(lightContext(p06, 'L2')).toMatchObject({
      light: { drains: { inner: [112, 550, 988] }, packer_count: 8n },
    });
  });
});

describe('why', () => {
  const p05 = made.find((each) => each.unit.mark === 'P05')!;
  it('leads from a number down to the job and the set', () => {
    const trace = why(p05, 'glass.L2.width');
    if ('todo' in trace) throw new Error(trace.text);
    expect(trace).toMatchObject({
      name: 'glass.L2.w',
      value: 452,
      formula: 'sash_rebate.w - 2 * edge_clearance',
      filled: '462 - 2 * 5',
    });
    const lines = whyLines(trace);
    expect(lines[0]).toBe('glass.L2.w = 452 mm = sash_rebate.w - 2 * edge_clearance = 462 - 2 * 5');
    expect(lines.join('\n')).toContain('divider.D1.centre = 980 mm  (job pier-house)');
    expect(lines.at(-1)).toBe('└─ edge_clearance = 5 mm  (invented: demonstration set W52, constants)');
    expect(whyLines(trace, { ascii: true }).join('')).not.toMatch(/[^\x20-\x7e]/);
  });
  it('explains a mark that moved', () => {
    const trace = why(p05, 'mark.L2.addon-left.fixing.3');
    if ('todo' in trace) throw new Error(trace.text);
    expect(trace).toMatchObject({ value: 589.5, filled: '569.5 + 20' });
    expect(trace.of[0]).toMatchObject({ name: 'mark.L2.addon-left.fixing.3.by_rule', value: 569.5 });
  });
  it('explains each keep by its own cam', () => {
    for (const n of [1, 2]) {
      const trace = why(p05, `rule.L2.keep.addon.handle.${n}`);
      if ('todo' in trace) throw new Error(trace.text);
      expect(trace.filled).toBe(n === 1 ? '556 + (-309)' : '556 + 309');
    }
  });
  it('knows every mark and every part by name', () => {
    for (const { parts, numbers } of made)
      for (const part of parts) {
        expect(numbers.has(`part.${part.id}.length`)).toBe(true);
        for (const mark of part.marks) expect(numbers.get(mark.name!)!.value).toBeCloseTo(mark.at, 6);
      }
  });
  it('has all numbers as a map, whichever way it is read', () => {
    const { numbers } = p05;
    const names = [...numbers.keys()];
    expect(names.length).toBe(numbers.size);
    expect(names.length).toBeGreaterThan(200);
    const pairs = names.map((name) => [name, numbers.get(name)]);
    expect([...numbers]).toEqual(pairs);
    expect([...numbers.entries()]).toEqual(pairs);
    expect([...numbers.values()]).toEqual(pairs.map(([, trace]) => trace));
    const each: unknown[] = [];
    numbers.forEach((trace, name, map) => {
      each.push([name, trace, map === numbers]);
    });
    expect(each).toEqual(pairs.map((pair) => [...pair, true]));
    expect(numbers.has('glass.L2.w')).toBe(true);
    expect(numbers.has('glass.L9.w')).toBe(false);
    expect(numbers.get('glass.L9.w')).toBeUndefined();
    // Constants of the set are found by name, though they are not the unit's own.
    expect(numbers.get('upstand')).toMatchObject({ value: 22, unit: 'mm' });
  });
  it('offers near names for one it does not know', () => {
    expect(why(p05, 'glass.L2.widht')).toMatchObject({
      id: 'why.unknown',
      todo: expect.stringContaining('glass.L2.w'),
    });
  });
});

describe('for scripts', () => {
  it('the keys of the contract are all there', () => {
    for (const set of Object.values(SETS)) {
      const { units } = JSON.parse(JSON.stringify(setOutJson([setOut(unit(1000, 700, topHung()), set)])));
      const [first] = units;
      expect(first).toMatchObject({
        unit: 'T1-1',
        refused: expect.any(Boolean),
        problems: expect.any(Array),
        frame: { diagonal: expect.any(Number) },
        mass_kg: expect.any(Number),
        dividers: [],
      });
      expect(first.lights[0]).toMatchObject({
        id: 'L1',
        kind: 'top-hung',
        sight: { w: expect.any(Number), h: expect.any(Number) },
        addon: { w: expect.any(Number), h: expect.any(Number) },
        sash: {
          w: expect.any(Number),
          h: expect.any(Number),
          diagonal: expect.any(Number),
          mass_kg: expect.any(Number),
        },
        glass: { w: expect.any(Number), h: expect.any(Number), mass_kg: expect.any(Number) },
        beads: [{ length: expect.any(Number), quantity: 2 }, expect.anything()],
        handle: { on_addon: expect.any(Number) },
        keeps: [expect.any(Number), expect.any(Number)],
        near_limit: false,
      });
      for (const part of first.parts) {
        expect(part).toMatchObject({
          id: expect.any(String),
          role: expect.any(String),
          profile: expect.any(String),
          length: expect.any(Number),
          quantity: expect.any(Number),
          ends: [expect.any(Number), expect.any(Number)],
        });
        for (const mark of part.marks)
          expect(Object.keys(mark)).toEqual(expect.arrayContaining(['kind', 'at', 'moved_from', 'reason']));
      }
    }
  });
  it('tells each problem by id and text', () => {
    const { units } = setOutJson([
      setOut(unit(900, 1200, { type: 'light', kind: 'fixed', glass: '4-20-4' }), w52),
    ]) as { units: { problems: object[] }[] };
    expect(units[0]!.problems).toEqual([
      { id: 'order.glass-thickness', text: expect.stringContaining('28 thick') },
    ]);
  });
});
