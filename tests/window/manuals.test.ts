/** Manuals of jobs and profile sets: tables are what the schemas say, and every example is read and can be built. */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import {
  blocksOf,
  JOB_MANUAL,
  keyWords,
  MANUALS,
  MEASURING_MANUAL,
  SET_MANUAL,
  tablesOf,
  withTables,
} from '../../scripts/manuals.js';
import { problemText } from '../../src/base/problem.js';
import { whyLines } from '../../src/commands/whytext.js';
import { parseJob } from '../../src/window/job.js';
import { JOB_COLUMNS, LIGHT_COLUMNS, UNIT_COLUMNS } from '../../src/window/jobcsv.js';
import { setOut } from '../../src/window/setout.js';
import { why } from '../../src/window/why.js';
import { shipped, value, w52 } from './kit.js';

const read = (file: string): string => readFileSync(resolve(import.meta.dirname, '../..', file), 'utf8');

it('the table of quantities is current (npm run manuals)', () => {
  expect(read(MEASURING_MANUAL)).toBe(withTables(MEASURING_MANUAL, read));
  expect(read(MEASURING_MANUAL)).toMatch(/\| `torque` \|.*`Nm`/);
});

describe.each(MANUALS)('%s', (manual) => {
  const tables = tablesOf(manual, read);
  const rows = Object.values(tables).flat();

  it('has current tables (npm run manuals)', () => {
    expect(read(manual), 'npm run manuals').toBe(withTables(manual, read));
  });
  it('shows every table once', () => {
    const shown = [...read(manual).matchAll(/<!-- keys (\S+) -->/g)].map((match) => match[1]);
    expect(shown.sort()).toEqual(Object.keys(tables).sort());
  });
  it('tells and shows every key', () => {
    expect(rows.length).toBeGreaterThan(40);
    expect(rows.filter(({ words }) => words === '').map(({ key }) => key)).toEqual([]);
    expect(rows.filter(({ example }) => example === '').map(({ key }) => key)).toEqual([]);
  });
  it('tells no key that is gone', () => {
    const told = Object.keys(keyWords(read)[manual === JOB_MANUAL ? 'job' : 'set']).map((key) =>
      key.replace(/^\w+: /, ''),
    );
    const known = new Set(rows.map(({ key }) => key));
    expect(told.filter((key) => !known.has(key))).toEqual([]);
  });
});

describe('examples of the job manual', () => {
  const examples = (['yaml', 'csv'] as const).flatMap((language) =>
    blocksOf(read(JOB_MANUAL), language)
      // A block without a head shows a piece of a job.
      .filter((text) => language === 'csv' || text.startsWith('format:'))
      .map((text, i) => ({ file: `example-${i + 1}.${language}`, text })),
  );
  it('are there in both forms', () => {
    expect(examples.filter(({ file }) => file.endsWith('.yaml')).length).toBeGreaterThanOrEqual(2);
    expect(examples.filter(({ file }) => file.endsWith('.csv')).length).toBeGreaterThanOrEqual(3);
  });
  it.each(examples)('$file is read, and every unit can be built of w52', (source) => {
    const job = value(parseJob(source));
    expect(job.profileSet).toBe('w52');
    for (const unit of job.units) {
      const { refused, problems } = setOut(unit, w52);
      expect(problems.map(problemText), unit.id).toEqual([]);
      expect(refused).toBe(false);
    }
  });
  it('shows the same windows as YAML and as a table', () => {
    const [yaml, csv] = ['example-1.yaml', 'example-1.csv'].map((file) =>
      value(parseJob(examples.find((example) => example.file === file)!)),
    );
    const seen = (job: typeof yaml) =>
      job!.units
        .slice(0, 2)
        .map(({ id, width, height, layout, room }) => ({ id, width, height, layout, room }));
    expect(seen(csv)).toEqual(seen(yaml));
  });
  it('names every column of a table', () => {
    const told = [...read(JOB_MANUAL).matchAll(/^\| `(\w+)` \| [^|]+ \| [^|]+ \|$/gm)].map(
      (match) => match[1]!,
    );
    const columns = [...JOB_COLUMNS, ...UNIT_COLUMNS, ...LIGHT_COLUMNS.map((column) => `${column}_N`)];
    expect(columns.filter((column) => !told.includes(column))).toEqual([]);
  });
});

it('the sum in the profile set manual is the one that the program gives', () => {
  const block = blocksOf(read(SET_MANUAL), 'text').find((each) =>
    each.startsWith('$ pinchrod setout pier-house'),
  );
  const [command, ...shown] = block!.trimEnd().split('\n');
  const [, unitId, name] = /setout pier-house (\S+) --why (\S+)$/.exec(command!)!;
  const job = value(parseJob(shipped('shared/jobs/pier-house.yaml')));
  const trace = why(setOut(job.units.find(({ id }) => id === unitId)!, w52), name!);
  if ('todo' in trace) throw new Error(problemText(trace));
  expect(shown).toEqual(whyLines(trace));
});
