/** The record of one demonstration unit, built to its end: whole processes, in every format. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { atMost, median, type Row, type Setting } from './rows.js';

export const title = 'Record of one unit, whole process';
const ROUNDS = Number(process.env.ROUNDS ?? 9);
const BARS = { text: 400, html: 400, json: 400, csv: 400, pdf: 1000 } as const;
const UNIT = 'P02-1';

export async function measure({ root }: Setting): Promise<Row[]> {
  const main = join(root, 'dist', 'main.js');
  const built = spawnSync(process.execPath, [main, 'demo', '--unattended', UNIT], { encoding: 'utf8' });
  const [, workshop] = /^Workshop: (.+)$/m.exec(built.stdout) ?? [];
  if (workshop === undefined) throw new Error(built.stderr);
  const out = mkdtempSync(join(tmpdir(), 'pinchrod-record-'));
  const times = new Map<string, number[]>(Object.keys(BARS).map((format) => [format, []]));
  // Interleaved, so that a slow spell of the machine falls on all alike.
  for (let round = 0; round < ROUNDS; round++)
    for (const [format, list] of times) {
      const from = performance.now();
      const args = [
        main,
        '--workshop',
        workshop,
        'record',
        UNIT,
        '--format',
        format,
        '--out',
        join(out, 'r'),
      ];
      const done = spawnSync(process.execPath, args, { encoding: 'utf8' });
      if (done.status !== 0) throw new Error(done.stderr);
      list.push(performance.now() - from);
    }
  for (const folder of [out, join(workshop, '..')]) rmSync(folder, { recursive: true, force: true });
  return Object.entries(BARS).map(([format, bar]) =>
    atMost(`record ${UNIT} --format ${format}`, median(times.get(format)!), bar, 'ms'),
  );
}
