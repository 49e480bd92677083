/** `figures` and `study` over units and over tables. */
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { Readable } from 'node:stream';
import { beforeAll, describe, expect, it, vi } from 'vitest';
import * as daybook from '../../src/commands/daybook.js';
import * as figures from '../../src/commands/figures.js';
import * as study from '../../src/commands/study.js';
import { mean, meanMovingRange, sd } from '../../src/measure/stats.js';
import { normals } from '../figures/normals.js';
import { ran } from './built.js';
import { type ManyUnits, manyUnits } from './manyunits.js';
import { troubledWorkshop } from './troubled.js';

vi.mock('node:os', async (real) => ({
  ...(await real<typeof import('node:os')>()),
  uptime: () => Date.now() / 1000,
}));

const COUNT = 36;
const DIAGONALS = 'square.frame/square:diagonals';
/** Of the frame's rising diagonal, seed 26; the thirtieth frame was racked by 2 mm. */
const OFF = normals(COUNT, 26).map((z, i) => Number((0.3 * z + (i === 29 ? 2 : 0)).toFixed(3)));

let shop: ManyUnits;
beforeAll(() => {
  shop = manyUnits(COUNT, (unit, check, key) =>
    check === 'square.frame/square' && key === 'bl_tr' ? OFF[unit - 1]! : 0,
  );
}, 120_000);

const told = async (module: typeof figures, root: string, ...args: string[]) => {
  const { code, out, err } = await ran(module, root, ...args);
  expect(code, err).toBe(0);
  return JSON.parse(out);
};

describe('over the units of a workshop', () => {
  it('has what was put in: falling diagonals the same, rising ones off, so the difference is their negative', async () => {
    const found = await told(figures, shop.root, DIAGONALS, '--json');
    const put = OFF.map((off) => -off);
    expect(found).toMatchObject({ check: DIAGONALS, unit: 'mm', against: 'difference', n: COUNT });
    expect(found.mean).toBeCloseTo(mean(put), 6);
    expect(found.sd).toBeCloseTo(sd(put), 6);
    expect(found.sdWithin).toBeCloseTo(meanMovingRange(put) / (2 / Math.sqrt(Math.PI)), 6);
    expect(found.charts[0].signals).toEqual([{ at: 30, rule: 'R1' }]);
    expect(found.readings[29]).toMatchObject({ unit: 'M1-30', low: -2, high: 2 });
    expect(found.capability).toMatchObject({ refused: 'unstable' });
  });

  it('takes readings by day, instrument and set', async () => {
    const first = await told(figures, shop.root, DIAGONALS, '--json', '--to', '2026-03-02');
    expect(first.n).toBeGreaterThan(5);
    expect(first.n).toBeLessThan(COUNT);
    const { instrument } = first.readings[0];
    expect((await told(figures, shop.root, DIAGONALS, '--json', '--instrument', instrument)).n).toBe(COUNT);
    expect((await ran(figures, shop.root, DIAGONALS, '--instrument', 'nobodys')).code).toBe(2);
    expect((await ran(figures, shop.root, DIAGONALS, '--set', 'another')).code).toBe(2);
  });

  it('groups readings by day, and steps that failed as shares', async () => {
    const byDay = await told(figures, shop.root, DIAGONALS, '--json', '--subgroup', 'day');
    expect(byDay).toMatchObject({ n: COUNT, estimator: 'sd' });
    expect(byDay.labels).toEqual(['2026-03-02', '2026-03-03']);
    const shares = await told(figures, shop.root, 'square.frame', '--json', '--chart', 'p');
    expect(shares.counts.reduce((sum: number, { of }: { of: number }) => sum + of, 0)).toBe(COUNT);
    expect(shares.charts[0]).toMatchObject({ kind: 'p', centre: 0 });
    expect((await ran(figures, shop.root, DIAGONALS, '--subgroup', 'moon')).code).toBe(2);
    expect((await ran(figures, shop.root, DIAGONALS, '--chart', 'mean')).code).toBe(2);
  });

  it('the first points give limits that judge the rest', async () => {
    const found = await told(figures, shop.root, DIAGONALS, '--json', '--first', '29');
    const put = OFF.map((off) => -off);
    expect(found.charts[0].centre).toBeCloseTo(mean(put.slice(0, 29)), 6);
    expect(found.charts[0].signals).toEqual([{ at: 30, rule: 'R1' }]);
  });

  it('frozen limits stay, with who froze them, until they are struck out', async () => {
    const errors: string[] = [];
    const io = (pin: string) => ({
      workshop: shop.root,
      out: () => undefined,
      err: (text: string) => void errors.push(text),
      input: Readable.from([`${pin}\n`]),
    });
    const args = ['chart', DIAGONALS, '--reason', 'press re-set', '--by', 'mv'];
    expect(await daybook.run(args, io('0000') as never)).toBe(1);
    expect(await daybook.run(args, io('4168') as never), errors.join('\n')).toBe(0);
    const found = await told(figures, shop.root, DIAGONALS, '--json', '--to', '2026-03-02');
    expect(found).toMatchObject({ estimator: 'frozen', frozen: { by: 'mv' } });
    expect(found.charts[0].centre).toBeCloseTo(-mean(OFF), 6);
    const { out } = await ran(figures, shop.root, DIAGONALS);
    expect(out).toMatch(/Limits were frozen by .* on \d{4}-\d\d-\d\d\./);
    const [entry] = JSON.parse((await ran(daybook, shop.root, '--json')).out).entries;
    expect(
      await daybook.run(
        ['strike', entry.hash.slice(0, 8), '--reason', 'x', '--by', 'mv'],
        io('4168') as never,
      ),
    ).toBe(0);
    expect((await told(figures, shop.root, DIAGONALS, '--json')).estimator).toBe('moving-range');
  });

  it('lists what is measured, what signals first, and how many units were right at once', async () => {
    const found = await told(figures, shop.root, '--json');
    expect(found.units).toBe(COUNT);
    expect(found.yields.units).toMatchObject({ right: COUNT, of: COUNT });
    // 36 of 36: the lower end is 0.025^(1/36).
    expect(found.yields.units.interval[0]).toBeCloseTo(0.025 ** (1 / COUNT), 6);
    const { out } = await ran(figures, shop.root);
    expect(out.indexOf(DIAGONALS)).toBeLessThan(out.indexOf('cut.frame/'));
    for (const line of out.split('\n')) expect([...line].length).toBeLessThan(80);
  });
});

it('what failed is ranked with its hours, and people are not', async () => {
  const { root, first } = troubledWorkshop();
  const found = await told(figures, root, '--json');
  const [step, check] = first.failed.replace(/@[^/]*/, '').split('/');
  const failure = found.failures.find(({ what }: { what: string }) => what === `${step}/${check}`);
  expect(failure.count).toBeGreaterThanOrEqual(1);
  expect(found.yields.units.right).toBeLessThan(found.yields.units.of);
  expect(found.causes.length).toBeGreaterThan(0);
  const { out } = await ran(figures, root);
  for (const name of ['Joan', 'Bexley', 'jb', 'mv']) expect(out).not.toContain(name);
}, 120_000);

it('lines of a chart fit a terminal of 80 columns, in German too, and a signal lies beyond its limit', async () => {
  for (const language of ['en', 'de']) {
    const { out } = await ran(figures, shop.root, DIAGONALS, '--language', language);
    for (const line of out.split('\n')) expect([...line].length, line).toBeLessThan(80);
    const chart = out.split('\n');
    const signal = chart.findIndex((line) => /^ {9}\|.*X/.test(line));
    const limits = chart.flatMap((line, i) => (/\|-{20}/.test(line) ? [i] : []));
    expect(signal > limits[1]! || signal < limits[0]!).toBe(true);
  }
});

it('refuses what would be passed over in silence, or leaves nothing', async () => {
  const says = async (...args: string[]) => {
    const { code, err } = await ran(figures, shop.root, ...args);
    expect(code).toBe(2);
    return err;
  };
  expect(await says(DIAGONALS, '--of', 'x')).toContain('--of does nothing here.');
  expect(await says('--first', '5')).toContain('--first does nothing here.');
  expect(await says(DIAGONALS, '--json', '--format', 'csv')).toContain('--json does nothing here.');
  expect(await says('--set', 'w60')).toContain('No reading is left by what was chosen: --set w60.');
  expect(await says('--from', '2030-01-01')).toContain('--from 2030-01-01');
  expect(await says(DIAGONALS, '--instrument', 'nobodys')).toContain('--instrument nobodys');
  const csv = join(mkdtempSync(join(tmpdir(), 'pinchrod-over-')), 'own.csv');
  writeFileSync(csv, 'v\n1\n2\n');
  expect(await says('--csv', csv, '--value', 'v', '--format', 'csv', '--out', csv)).toContain(
    'would write over',
  );
  expect(readFileSync(csv, 'utf8')).toBe('v\n1\n2\n');
  expect(
    (await ran(figures, shop.root, '--csv', csv, '--value', 'v', '--low', '-2', '--high', '4')).code,
  ).toBe(0);
});

describe('over tables', () => {
  const folder = mkdtempSync(join(tmpdir(), 'pinchrod-tables-'));
  const file = (name: string, text: string) => {
    writeFileSync(join(folder, name), text);
    return join(folder, name);
  };

  it('prints the data that the manual names', async () => {
    const values = normals(40, 3).map((z) => (10 + 0.2 * z).toFixed(3));
    const found = await told(
      figures,
      folder,
      ...[
        '--csv',
        file('a.csv', `d\n${values.join('\n')}\n`),
        '--value',
        'd',
        '--low',
        '9',
        '--high',
        '11',
        '--json',
      ],
    );
    expect(Object.keys(found)).toEqual(['n', 'mean', 'sd', 'sdWithin', 'estimator', 'charts', 'capability']);
    expect(found.charts.map(({ kind }: { kind: string }) => kind)).toEqual(['individuals', 'moving-range']);
    const numbers = values.map(Number);
    expect(found.capability.pp).toBeCloseTo(2 / (6 * sd(numbers)), 9);
    expect(found.capability).toMatchObject({ refused: null, level: 0.95 });
    for (const [low, high] of Object.values(found.capability.intervals) as [number, number][])
      expect(low).toBeLessThan(high);
  });

  it('a table with semicolons has decimal commas', async () => {
    const path = file('de.csv', 'tag;maß\n1;1,5\n1;2,5\n2;1\n2;3\n');
    const found = await told(figures, folder, '--csv', path, '--value', 'maß', '--subgroup', 'tag', '--json');
    expect(found).toMatchObject({ n: 4, mean: 2, estimator: 'range' });
  });

  it('shares are counted from lines of 0 and 1, or from counts', async () => {
    const lines = Array.from({ length: 60 }, (_, i) => `${Math.floor(i / 10)},${i % 10 === 0 ? 1 : 0}`).join(
      '\n',
    );
    const one = await told(
      figures,
      folder,
      ...[
        '--csv',
        file('p.csv', `day,bad\n${lines}\n`),
        '--value',
        'bad',
        '--subgroup',
        'day',
        '--chart',
        'p',
        '--json',
      ],
    );
    const counts = Array.from({ length: 6 }, () => '1,10').join('\n');
    const other = await told(
      figures,
      folder,
      ...[
        '--csv',
        file('c.csv', `bad,of\n${counts}\n`),
        '--value',
        'bad',
        '--of',
        'of',
        '--chart',
        'p',
        '--json',
      ],
    );
    expect(one.charts).toEqual(other.charts);
    expect(one.charts[0]).toMatchObject({ kind: 'p', centre: 0.1 });
  });

  it('the published study by the verb, in every format', async () => {
    const csv = resolve(import.meta.dirname, '../figures/data/gauge-rr-10x3x3.csv');
    const asked = ['--csv', csv, '--part', 'part', '--person', 'appraiser', '--value', 'reading'];
    const found = await told(study as never, folder, ...asked, '--json');
    expect(found).toMatchObject({ used: 'pooled', parts: 10, people: 3, trials: 3 });
    expect(found.pooled.ndc.value).toBeCloseTo(4.86, 2);
    expect((await ran(study, folder, ...asked)).out).toContain('27.9 % of the study variation');
    for (const format of ['html', 'pdf']) {
      const out = join(folder, `study.${format}`);
      expect((await ran(study, folder, ...asked, '--out', out)).code).toBe(0);
      expect(readFileSync(out).length).toBeGreaterThan(2000);
    }
  });

  it('text from a table drives neither terminal nor document', async () => {
    const path = file(
      'evil.csv',
      'v\u001b[2J,g\u0007\n1,<script>a\n2,<script>a\n3,\u001b]0;x\u0007b\n4,\u001b]0;x\u0007b\n',
    );
    const { out } = await ran(
      figures,
      folder,
      '--csv',
      path,
      '--value',
      'v\u001b[2J',
      '--subgroup',
      'g\u0007',
      '--format',
      'html',
    );
    expect(out).not.toMatch(/[\u0007\u001b]/);
    expect(out).not.toContain('<script>a');
  });
});
