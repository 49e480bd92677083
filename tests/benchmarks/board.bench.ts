/** The board of large workshops: whole runs of `pinchrod board` with every unit begun, the cache cold and warm. */
import { spawnSync } from 'node:child_process';
import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { fillIndex, JOBS, makeMany } from './manyunits.js';
import { atMost, median, ms, type Row, type Setting } from './rows.js';

export const title = 'Board of many units, whole process';
const ROUNDS = Number(process.env.ROUNDS ?? 7);

export async function measure({ root, scratch }: Setting): Promise<Row[]> {
  const rows: Row[] = [];
  for (const [count, bar] of [
    [100, undefined],
    [2000, 500],
    [20_000, 1000],
  ] as const) {
    const folder = join(scratch, `board-${count}`);
    makeMany(root, folder, count);
    if (count === 100) rows.push({ what: 'board of 100 units, no cache', figure: ms(timed(root, folder)) });
    // The same as reading all of them would leave: each unit's own mark, with the digest of one that was read.
    fillIndex(folder);
    // The first run keeps what it learns of the jobs.
    timed(root, folder);
    const warm = median(Array.from({ length: ROUNDS }, () => timed(root, folder)));
    const what = `board of ${count.toLocaleString('en')} units in ${JOBS} jobs, warm`;
    rows.push(bar === undefined ? { what, figure: ms(warm) } : atMost(what, warm, bar, 'ms'));
    const stages = median(Array.from({ length: ROUNDS }, () => timed(root, folder, '--by', 'stage')));
    rows.push({ what: `the same by stage`, figure: ms(stages) });
    rmSync(folder, { recursive: true, force: true });
  }
  return rows;
}

function timed(root: string, folder: string, ...args: string[]): number {
  const from = performance.now();
  const done = spawnSync(process.execPath, [join(root, 'dist/main.js'), 'board', ...args], {
    cwd: folder,
    stdio: ['ignore', 'ignore', 'pipe'],
  });
  if (done.status !== 0) throw new Error(String(done.stderr));
  return performance.now() - from;
}
