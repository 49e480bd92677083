/**
 * Large work as whole processes, in turn with an earlier build of the program: PINCHROD_BEFORE is a checkout of it with its
 * dist/. Without one there is nothing to compare with, and the section says so.
 */
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fillIndex, makeMany } from './manyunits.js';
import { wholeRun } from './processes.js';
import { atMost, median, ms, type Row, type Setting } from './rows.js';

export const title = 'Large work beside an earlier version';
const ROUNDS = Number(process.env.ROUNDS ?? 10);
const UNITS = 10_000;

export async function measure({ root, scratch }: Setting): Promise<Row[]> {
  const before = process.env.PINCHROD_BEFORE;
  if (before === undefined || !existsSync(join(before, 'dist/main.js')))
    return [{ what: 'no earlier version was given (PINCHROD_BEFORE)', figure: '' }];
  const mixed = join(scratch, 'mixed');
  const job = mixedJob(root, mixed);
  const mains = { now: join(root, 'dist/main.js'), earlier: join(before, 'dist/main.js') };
  const shops = { now: join(scratch, 'now'), earlier: join(scratch, 'earlier') };
  for (const folder of Object.values(shops)) makeMany(root, folder, UNITS);
  // Each keeps an index of its own making.
  fillIndex(shops.now);
  const home = join(scratch, 'home-of-scale');
  mkdirSync(home);
  const cases = [
    ['1,000 mixed units set out', ['setout', 'mixed', '--json'], { now: mixed, earlier: mixed }],
    ['board of 10,000 units', ['board'], shops],
    ['verify of 10,000 units', ['verify'], shops],
  ] as const;
  const rows: Row[] = [];
  for (const [what, args, folders] of cases) {
    const times = { now: [] as number[], earlier: [] as number[] };
    for (let round = -1; round < ROUNDS; round += 1)
      for (const which of ['now', 'earlier'] as const) {
        // An answer kept from before would be no work.
        if (args[0] === 'setout') writeFileSync(job, `${readFileSync(job, 'utf8').trimEnd()}\n# ${round}\n`);
        const took = wholeRun({
          node: process.execPath,
          args: [mains[which], ...args],
          cwd: folders[which],
          home,
        });
        if (round >= 0) times[which].push(took);
      }
    const [now, earlier] = [median(times.now), median(times.earlier)];
    rows.push(atMost(what, now / earlier, 1.15, 'x before', ` (${ms(now)} to ${ms(earlier)})`));
  }
  return rows;
}

/** The demonstration's units, a hundred and twenty-five times, no two of one size. */
function mixedJob(root: string, folder: string): string {
  makeMany(root, folder, 10);
  const text = readFileSync(join(root, 'shared/jobs/pier-house.yaml'), 'utf8');
  const [head, units] = text.split(/^units:\n/m) as [string, string];
  const blocks = units.split(/^(?= {2}- mark:)/m).filter((block) => /^ {2}- mark:/.test(block));
  const many: string[] = [];
  for (let i = 0; many.length < 1000; i += 1)
    many.push(
      blocks[i % blocks.length]!.replace(/mark: \w+/, `mark: M${i}`)
        .replace(/^ +quantity: .*\n/m, '')
        .replace(/width: (\d+)/, (_, w) => `width: ${Number(w) - (i % 37)}`)
        .replace(/height: (\d+)/, (_, h) => `height: ${Number(h) - (i % 41)}`),
    );
  const file = join(folder, 'shared/jobs/mixed.yaml');
  writeFileSync(file, `${head.replace(/^name: .*$/m, 'name: mixed')}units:\n${many.join('')}`);
  return file;
}
