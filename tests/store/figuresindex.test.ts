/** The index of figures: rows come back as they were, and are made anew when their journal or the limits change. */
import {
  appendFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { beforeEach, expect, it } from 'vitest';
import { packed, unpacked } from '../../src/figures/packed.js';
import type { UnitFigures } from '../../src/figures/unitfigures.js';
import { realDisk } from '../../src/store/disk.js';
import { figuresIndex } from '../../src/store/figuresindex.js';

const time = fc.integer({ min: 1.7e12, max: 1.8e12 }).map((ms) => new Date(ms).toISOString());
const text = fc.string({ maxLength: 12 });
const number = fc
  .double({ noNaN: true, noDefaultInfinity: true })
  .map((value) => (Object.is(value, -0) ? 0 : value));
const maybe = <T>(of: fc.Arbitrary<T>) => fc.option(of, { nil: undefined });
const figures: fc.Arbitrary<UnitFigures> = fc.record({
  job: text,
  unit: text,
  set: text,
  finished: fc.boolean(),
  whole: fc.boolean(),
  lots: fc.array(fc.record({ code: text, at: time }), { maxLength: 3 }),
  measured: fc.array(
    fc.record({
      kind: fc.record({
        key: text,
        step: text,
        place: maybe(text),
        unit: text,
        against: fc.constantFrom('deviation', 'value', 'difference'),
      }),
      item: maybe(text),
      at: time,
      value: number,
      low: maybe(number),
      high: maybe(number),
      uncertainty: maybe(number),
      instrument: maybe(text),
      setup: maybe(text),
    }),
    { maxLength: 4 },
  ),
  steps: fc.array(fc.record({ step: text, title: text, right: fc.boolean(), at: time }), { maxLength: 3 }),
  failures: fc.array(fc.record({ what: text, hours: maybe(number), parts: fc.nat(3) }), { maxLength: 3 }),
  causes: fc.array(fc.record({ what: text, hours: maybe(number), parts: fc.nat(3) }), { maxLength: 3 }),
  times: fc.array(fc.record({ step: text, title: text, work: number, waiting: number }), { maxLength: 3 }),
}) as fc.Arbitrary<UnitFigures>;

it('rows come back as they were, seed 26', () => {
  fc.assert(
    fc.property(fc.array(figures, { maxLength: 5 }), (units) => {
      expect(unpacked(JSON.parse(JSON.stringify(packed(units))))).toEqual(units);
    }),
    { seed: 26, numRuns: 200 },
  );
});

let root: string;
let folded: string[];
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'pinchrod-index-'));
  folded = [];
  mkdirSync(join(root, 'logs/row'), { recursive: true });
  for (const unit of ['A-1', 'A-2', 'A-3']) writeFileSync(join(root, `logs/row/${unit}.jsonl`), '{}\n');
});

const unit = (job: string, name: string): UnitFigures => ({
  ...{
    job,
    unit: name,
    set: 'w52',
    finished: true,
    whole: true,
    lots: [],
    steps: [],
    failures: [],
    causes: [],
    times: [],
  },
  measured: ['x', 'y'].map((key) => ({
    kind: { key, step: 's', place: undefined, unit: 'mm', against: 'value' as const },
    ...{ item: undefined, at: '2026-03-02T08:00:00.000Z', value: name.length, low: undefined, high: 2 },
    ...{ uncertainty: undefined, instrument: 'T1', setup: undefined },
  })),
});
const asked = (under = 'limits 1', wanted = (_key: string) => true, job?: string) =>
  figuresIndex(realDisk, root, {
    ...{ under, wanted, job, work: true },
    fold: (of, name) => {
      folded.push(name);
      return name === 'A-9' ? undefined : unit(of, name);
    },
    progress: () => undefined,
  });
const names = (units: readonly UnitFigures[]) => units.map((each) => each.unit).sort();

it('folds each journal once, and again only one that changed', () => {
  expect(names(asked())).toEqual(['A-1', 'A-2', 'A-3']);
  expect(names(asked())).toEqual(['A-1', 'A-2', 'A-3']);
  expect(folded.sort()).toEqual(['A-1', 'A-2', 'A-3']);
  folded = [];
  appendFileSync(join(root, 'logs/row/A-2.jsonl'), '{}\n');
  writeFileSync(join(root, 'logs/row/A-4.jsonl'), '{}\n');
  rmSync(join(root, 'logs/row/A-1.jsonl'));
  expect(names(asked())).toEqual(['A-2', 'A-3', 'A-4']);
  expect(folded.sort()).toEqual(['A-2', 'A-4']);
});

it('gives only the readings that are asked for, and keeps all', () => {
  asked();
  expect(asked('limits 1', (key) => key === 'y')[0]!.measured.map(({ kind }) => kind.key)).toEqual(['y']);
  expect(asked()[0]!.measured.map(({ kind }) => kind.key)).toEqual(['x', 'y']);
});

it('a unit that cannot be read is asked about again', () => {
  writeFileSync(join(root, 'logs/row/A-9.jsonl'), '{}\n');
  expect(names(asked())).toEqual(['A-1', 'A-2', 'A-3']);
  folded = [];
  asked();
  expect(folded).toEqual(['A-9']);
});

it('other limits, a damaged index or one of another hand make all of it anew', () => {
  asked();
  folded = [];
  asked('limits 2');
  expect(folded.length).toBe(3);
  const [file] = readdirSync(join(root, 'logs/index')).filter((name) => name.startsWith('figures'));
  const path = join(root, 'logs/index', file!);
  const before = readFileSync(path, 'utf8');
  writeFileSync(path, before.replace('"T1"', '"T2"'));
  folded = [];
  expect(asked('limits 2')[0]!.measured[0]!.instrument).toBe('T1');
  expect(folded.length).toBe(3);
  rmSync(path);
  expect(existsSync(path)).toBe(false);
  expect(names(asked('limits 2', undefined, 'row'))).toEqual(['A-1', 'A-2', 'A-3']);
});
