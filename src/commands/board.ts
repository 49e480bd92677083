/** `board`: every unit of every job, and where it stands. */

import type { BoardRow } from '../bench/ports.js';
import { realPorts } from '../bench/ports-real.js';
import { STANDING_WORDS } from '../build/board.js';
import { plain } from '../ground/plain.js';
import { problemText } from '../ground/problem.js';
import { EXIT, type Io } from './io.js';
import { readOptions } from './options.js';

const HELP = `pinchrod board [JOB] [--json]

Lists units and where they stand, told apart by a sign and a word. Units of which nothing is logged are "not started".

Example: pinchrod board pier-house --json`;

export async function run(args: string[], io: Io): Promise<number> {
  const read = readOptions(args, io, HELP, { json: { type: 'boolean' } }, { most: 1 });
  if (typeof read === 'number') return read;
  const made = realPorts({ workshop: io.workshop });
  if (!made.ok) {
    for (const problem of made.problems) io.err(problemText(problem));
    return EXIT.badInput;
  }
  const job = read.positionals[0];
  const rows = made.value.world().board.filter((row) => job === undefined || row.job === job);
  const problems = made.value.warnings();
  for (const problem of problems) io.err(problemText(problem));
  if (job !== undefined && rows.length === 0 && problems.length === 0) {
    io.err(`There is no job "${plain(job)}". [board.no-job]\n  Jobs are the files in shared/jobs.`);
    return EXIT.badInput;
  }
  if (read.values.json) io.out(JSON.stringify({ units: rows }));
  else io.out(boardText(rows).join('\n'));
  return problems.length > 0 ? EXIT.badInput : EXIT.done;
}

function boardText(rows: readonly BoardRow[]): string[] {
  if (rows.length === 0) return ['No units: put a job into shared/jobs.'];
  const wide = Math.max(...rows.map((row) => row.unit.length));
  const size = Math.max(...rows.map((row) => row.size.length));
  const out: string[] = [];
  let job: string | undefined;
  for (const row of rows) {
    if (row.job !== job) out.push(...(job === undefined ? [] : ['']), plain(row.job));
    job = row.job;
    const { sign, word } = STANDING_WORDS[row.standing];
    const count = row.total > 0 ? `${row.done}/${row.total}` : '';
    const tail = row.where === '' || row.standing === 'finished' ? row.sentence : row.where;
    out.push(
      `  ${plain(row.unit).padEnd(wide)}  ${row.size.padEnd(size)}  ${sign} ${word.padEnd(11)} ${count.padStart(7)}  ${plain(tail)}`.trimEnd(),
    );
  }
  return out;
}
