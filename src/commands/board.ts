/** `board`: every unit of every job, and where it stands; by stage across units; and the hand-over page. */
import type { BoardRow } from '../bench/ports.js';
import { type Board, BoardReader, type ReadUnit } from '../bench/real/board.js';
import { handoverOf, SHIFT_MS, stagesOf, withBeginnings } from '../build/digests.js';
import { STANDING_WORDS } from '../build/standings.js';
import { plain } from '../ground/plain.js';
import { problemText } from '../ground/problem.js';
import { realDisk } from '../store/disk.js';
import { type JobsOnly, openJobs } from '../store/openjobs.js';
import { handoverText, stageText } from './boardpages.js';
import { HELP } from './help.js';
import { EXIT, type Io } from './io.js';
import { readOptions } from './options.js';

export async function run(args: string[], io: Io): Promise<number> {
  const read = readOptions(
    args,
    io,
    HELP.board,
    {
      json: { type: 'boolean' },
      by: { type: 'string' },
      'hand-over': { type: 'boolean' },
      since: { type: 'string' },
    },
    { most: 1 },
  );
  if (typeof read === 'number') return read;
  const { values, positionals } = read;
  const { by = 'unit', since } = values;
  const wrong =
    by !== 'unit' && by !== 'stage'
      ? `There is no board by "${plain(by)}".`
      : since !== undefined && Number.isNaN(Date.parse(since))
        ? `"${plain(since)}" is no time.`
        : undefined;
  if (wrong !== undefined) {
    io.err(`${wrong} [command.usage]\n  ${HELP.board.split('\n')[0]}`);
    return EXIT.badInput;
  }
  const now = new Date().toISOString();
  const files = openJobs(io.workshop, realDisk);
  const board = await readBoard(files, io.workshop, now);
  const job = positionals[0];
  const rows = board.rows.filter((row) => job === undefined || row.job === job);
  for (const problem of board.problems) io.err(problemText(problem));
  if (job !== undefined && rows.length === 0 && board.problems.length === 0) {
    io.err(`There is no job "${plain(job)}". [board.no-job]\n  Jobs are the files in shared/jobs.`);
    return EXIT.badInput;
  }
  const listed = new Set(rows.map((row) => `${row.job}/${row.unit}`));
  const units = board.units.filter((each) => listed.has(`${each.job}/${each.unit}`));
  if (values['hand-over']) {
    const from = new Date(since === undefined ? Date.parse(now) - SHIFT_MS : Date.parse(since)).toISOString();
    const page = handoverOf(units, now, from);
    io.out(values.json ? JSON.stringify({ ...page, since: from }) : handoverText(page, from).join('\n'));
  } else if (by === 'stage') {
    const { beginningsIn } = await import('../bench/real/beginnings.js');
    const stages = withBeginnings(stagesOf(units, now), beginningsIn(io.workshop, realDisk, files, rows));
    io.out(values.json ? JSON.stringify({ stages }) : stageText(stages).join('\n'));
  } else io.out(values.json ? JSON.stringify({ units: rows }) : boardText(rows).join('\n'));
  return board.problems.length > 0 ? EXIT.badInput : EXIT.done;
}

/** What reads journals is loaded only where one is not known as it stands. */
async function readBoard(files: JobsOnly, root: string, now: string): Promise<Board> {
  const reader = new BoardReader(realDisk, root);
  const readUnit: ReadUnit = reader.knowsAll(now)
    ? never
    : (await import('../bench/real/digest.js')).unitReader(realDisk, root);
  const board = reader.read(files, now, readUnit);
  reader.save();
  return board;
}

/** Nothing is to be read: every journal was known a moment before, and `read` goes by that look. */
const never: ReadUnit = () => {
  throw new Error('a journal was to be read that is known');
};

function boardText(rows: readonly BoardRow[]): string[] {
  if (rows.length === 0) return ['No units: put a job into shared/jobs.'];
  const wide = rows.reduce((most, { unit }) => Math.max(most, unit.length), 0);
  const size = rows.reduce((most, row) => Math.max(most, row.size.length), 0);
  const out: string[] = [];
  let job: string | undefined;
  for (const row of rows) {
    if (row.job !== job) out.push(...(job === undefined ? [] : ['']), plain(row.job));
    job = row.job;
    const { sign, word } = STANDING_WORDS[row.standing];
    const count = row.total > 0 ? `${row.done}/${row.total}` : '';
    const tail = row.where === '' || row.standing === 'finished' ? row.sentence : row.where;
    out.push(
      `  ${plain(row.unit).padEnd(wide)}  ${row.size.padEnd(size)}  ${sign} ${word.padEnd(11)} ${count.padStart(7)}  ${plain(tail)}${differsText(row)}`.trimEnd(),
    );
  }
  return out;
}

const differsText = ({ differs }: BoardRow): string =>
  differs === undefined
    ? ''
    : `  (built from another ${differs.map((kind) => WORDS[kind] ?? kind).join(', ')} than the files now)`;
const WORDS: Readonly<Record<string, string>> = { profileSet: 'profile set' };
