/** Scrap ends a unit and begins the one in its place: on the board, at the bench, in the journal, and once more. */
import { afterEach, beforeEach, expect, it } from 'vitest';
import { BoardReader } from '../../src/session/board.js';
import { unitReader } from '../../src/session/plan.js';
import { realDisk } from '../../src/store/disk.js';
import { openJobs } from '../../src/store/jobs.js';
import { replacedBy, replacementOf } from '../../src/unit/replacement.js';
import { type Bench, type Clock, freshBench, leaveBench } from './realbench.js';

let root: string;
let clock: Clock;
let bench: Bench;
beforeEach(() => {
  ({ root, clock, bench } = freshBench());
});
afterEach(() => leaveBench(bench, root));

const hand = { person: 'ot' };
function scrap(unit: string, replacement?: string): void {
  expect(bench.ports.open(unit)).toEqual({ kind: 'open' });
  expect(bench.ports.act({ do: 'snag', cause: 'other', text: 'bent' }, hand).kind).toBe('done');
  const snag = bench.ports.world().open!.state.snags[0]!.n;
  const named = replacement === undefined ? {} : { replacement };
  const acted = bench.ports.act({ do: 'decide', snag, disposition: 'scrap', reason: 'bent', ...named }, hand);
  expect(acted.kind).toBe('done');
}
const rows = () =>
  bench.ports
    .world()
    .board.filter(({ unit }) => unit.startsWith('P02-1'))
    .map(({ unit, standing, size }) => `${unit} ${standing} ${size}`);

it('the replacement stands on the board after the scrapped one, with its size, and is built from the same line', () => {
  scrap('P02-1');
  expect(rows()).toEqual(['P02-1 scrapped 1000 x 700', 'P02-1R1 not-started 1000 x 700']);
  expect(bench.ports.open('P02-1R1')).toEqual({ kind: 'open' });
  const open = bench.ports.world().open!;
  expect(open.setOut.unit).toMatchObject({ id: 'P02-1R1', width: 1000, height: 700 });
  bench.ports.act({ do: 'answer', check: 'order.papers/revision', value: 'yes' }, hand);
  const first = bench.ports.world().open!.state.events[0];
  expect(first).toMatchObject({ kind: 'opened', unit: 'P02-1R1', replaces: 'P02-1' });
  bench.ports.refresh();
  // Built from what the files say now: nothing differs.
  expect(bench.ports.world().board.find(({ unit }) => unit === 'P02-1R1')).toMatchObject({
    standing: 'under-way',
  });
  expect(bench.ports.world().board.find(({ unit }) => unit === 'P02-1R1')?.differs).toBeUndefined();
  scrap('P02-1R1');
  expect(rows().slice(1)).toEqual(['P02-1R1 scrapped 1000 x 700', 'P02-1R2 not-started 1000 x 700']);
  // The same from disk alone, with the index and without it.
  bench.ports.close();
  const now = new Date(clock.wall).toISOString();
  const again = new BoardReader(realDisk, root).read(
    openJobs(root, realDisk),
    now,
    unitReader(realDisk, root),
  );
  expect(again.rows.map(({ unit }) => unit)).toContain('P02-1R2');
});

it('a unit that the job lists may be named instead, and has its own row only', () => {
  scrap('P02-1', 'P02-2');
  const ofJob = bench.ports.world().board.filter(({ job }) => job === 'pier-house');
  expect(ofJob.map(({ unit }) => unit)).toEqual([
    'P01-1',
    'P02-1',
    'P02-2',
    'P03-1',
    'P04-1',
    'P05-1',
    'P06-1',
    'P07-1',
    'P08-1',
  ]);
});

it('names of replacements go up, and are told from those of a job', () => {
  expect(['P02-1', 'P02-1R1', 'P02-1R9'].map(replacementOf)).toEqual(['P02-1R1', 'P02-1R2', 'P02-1R10']);
  expect(replacedBy('P02-1R1')).toEqual({ listed: 'P02-1', replaces: 'P02-1' });
  expect(replacedBy('P02-1R3')).toEqual({ listed: 'P02-1', replaces: 'P02-1R2' });
  for (const other of ['P02-1', 'BAR1', 'R1', 'P02-1R0', 'P02-1R']) expect(replacedBy(other)).toBeUndefined();
});
