/** A job file that cannot be read any more: what was begun of it stays on the board and can be taken up. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { BoardReader } from '../../src/session/board.js';
import { unitReader } from '../../src/session/plan.js';
import { realPorts } from '../../src/session/workshopports.js';
import { realDisk } from '../../src/store/disk.js';
import { openJobs } from '../../src/store/jobs.js';
import { must } from '../procedure/samples.js';
import { builtWorkshop, JOB } from './built.js';

it('stays in sight, says which file is at fault, and opens', () => {
  const root = builtWorkshop(false);
  const file = join(root, `shared/jobs/${JOB}.yaml`);
  writeFileSync(file, readFileSync(file, 'utf8').replace('width: 900', 'width: 900 mm'));
  const now = new Date().toISOString();
  const board = new BoardReader(realDisk, root).read(
    openJobs(root, realDisk),
    now,
    unitReader(realDisk, root),
  );
  const rows = board.rows.filter(({ job }) => job === JOB);
  expect(rows.map(({ unit, size }) => [unit, size])).toEqual([['Q1-1', '900 x 1200']]);
  expect(board.problems.map(({ place }) => place?.file)).toContain(`shared/jobs/${JOB}.yaml`);
  const ports = must(realPorts({ workshop: root, bench: 'bench-t' }));
  expect(ports.open(`${JOB}/Q1-1`).kind).toBe('open');
  ports.close();
}, 60_000);
