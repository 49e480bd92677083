/**
 * What a person has to do: the unattended build of each unit presses the bench's own keys and counts. Saved as PACE.md.
 * The batch is the whole job; its bar is for the eight units that it was set for, P08-1 is left out of it.
 */
import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Row, Setting } from './rows.js';

export const title = 'What a person has to do';

const UNITS = ['P01-1', 'P02-1', 'P02-2', 'P03-1', 'P04-1', 'P05-1', 'P06-1', 'P07-1'];
const BARS: Readonly<Record<string, readonly [confirmations: number, holds: number, keys: number]>> = {
  'P02-1': [95, 6, 440],
  'P05-1': [130, 7, 600],
};
const BATCH_BAR = 780;

interface Pace {
  readonly confirmations: number;
  readonly holds: number;
  readonly keys: number;
  readonly readings: number;
  readonly shared: number;
}

export async function measure({ root }: Setting): Promise<Row[]> {
  const run = (what: string): string => {
    const { stdout, stderr, status } = spawnSync(
      process.execPath,
      [join(root, 'dist', 'main.js'), 'demo', '--unattended', what],
      { encoding: 'utf8', maxBuffer: 1e8 },
    );
    if (status !== 0) throw new Error(`${what}: ${stderr}`);
    return stdout;
  };
  const table: string[] = [];
  const rows = UNITS.map((unit): Row => {
    const pace = paceOf(run(unit));
    table.push(lineOf(unit, pace));
    const bar = BARS[unit];
    const figure = `${pace.confirmations} confirmations, ${pace.holds} holds, ${pace.keys} keys`;
    if (!bar) return { what: unit, figure };
    const [confirmations, holds, keys] = bar;
    return {
      what: unit,
      figure,
      bar: `at most ${confirmations}, ${holds}, ${keys}`,
      holds: pace.confirmations <= confirmations && pace.holds <= holds && pace.keys <= keys,
    };
  });
  const batch = run('pier-house');
  const each = /^Confirmations of each: (.+)$/m.exec(batch)?.[1] ?? '';
  const counts = new Map(each.split('   ').map((one) => one.split(' ') as [string, string]));
  const eight = UNITS.reduce((sum, unit) => sum + Number(counts.get(unit) ?? Number.NaN), 0);
  table.push(lineOf('the job as a batch, nine units', paceOf(batch)));
  writeFileSync(
    join(root, 'tests', 'benchmarks', 'PACE.md'),
    [
      '# What a person has to do',
      '',
      'Made by `npm run benchmarks pace`. A confirmation is one act: an answer to one look, a set of readings, a scan, a picture or a release.',
      'Shared acts are due once for the order, a lot, a shift or a set-up. A scan, or a reading that its instrument sends, is one key.',
      '',
      '| unit | confirmations | holds | keys | readings | shared |',
      '|---|---|---|---|---|---|',
      ...table,
      '',
      `The batch without P08-1: ${eight} confirmations, releases included (${each}).`,
      '',
    ].join('\n'),
  );
  return [
    ...rows,
    {
      what: 'eight units as a batch, releases included',
      figure: `${eight} confirmations`,
      bar: `at most ${BATCH_BAR}`,
      holds: eight <= BATCH_BAR,
    },
  ];
}

function paceOf(said: string): Pace {
  const line = /^Confirmations: (\d+) +holds: (\d+) +keys: (\d+) +readings: (\d+) +shared: (\d+)$/m.exec(
    said,
  );
  if (!line) throw new Error('the build counted nothing');
  const [confirmations, holds, keys, readings, shared] = line.slice(1).map(Number) as [
    number,
    number,
    number,
    number,
    number,
  ];
  return { confirmations, holds, keys, readings, shared };
}

const lineOf = (unit: string, { confirmations, holds, keys, readings, shared }: Pace): string =>
  `| ${unit} | ${confirmations} | ${holds} | ${keys} | ${readings} | ${shared} |`;
