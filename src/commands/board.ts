/** `board`: every unit of every job and its status; the steps open across units; and the hand-over page. */
import { join } from 'node:path';
import { problemFactory, problemTold } from '../base/problem.js';
import { sanitize } from '../base/text.js';
import { utcText } from '../base/wallclock.js';
import { type Board, BoardReader, type ReadUnit } from '../session/board.js';
import type { BoardEntry } from '../session/ports.js';
import { realDisk, storeProblem } from '../store/disk.js';
import { type JobsOnly, openJobs } from '../store/jobs.js';
import { type Handover, type HandoverLine, STANDING_WORDS, type StageRow } from '../unit/board.js';
import { HANDOVER_TITLES, handoverOf, SHIFT_MS, stagesOf, withBeginnings } from '../unit/summary.js';
import { COMMAND_MESSAGES } from './catalogue.js';
import { HELP } from './help.js';
import { EXIT, fail, type Io, readOptions, usageOf } from './io.js';
import { byTheWall } from './wall.js';

const raise = problemFactory(COMMAND_MESSAGES);

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
      ? raise('command.usage/board-by', { by, usage: usageOf(HELP.board) })
      : since !== undefined && Number.isNaN(Date.parse(since))
        ? raise('command.usage/board-since', { since, usage: usageOf(HELP.board) })
        : undefined;
  if (wrong !== undefined) return fail(io, [wrong], EXIT.badInput);
  const now = new Date().toISOString();
  const files = openJobs(io.workshop, realDisk);
  const board = await readBoard(files, io.workshop, now);
  const job = positionals[0];
  const rows = board.rows.filter((row) => job === undefined || row.job === job);
  for (const problem of board.problems) io.err(problemTold(problem, io.reader?.tell));
  if (job !== undefined && rows.length === 0 && board.problems.length === 0)
    return fail(io, [raise('board.no-job', { job })], EXIT.badInput);
  if (rows.length === 0 && realDisk.stat(join(io.workshop, 'shared')) === undefined)
    return fail(io, [storeProblem('workshop.missing', {}, { file: 'shared' })], EXIT.badInput);
  const print = async (data: object, lines: readonly string[]) =>
    io.out(values.json ? JSON.stringify(data) : (await byTheWall(io, lines)).join('\n'));
  const listed = new Set(rows.map((row) => `${row.job}/${row.unit}`));
  const units = board.units.filter((each) => listed.has(`${each.job}/${each.unit}`));
  if (values['hand-over']) {
    const from = new Date(since === undefined ? Date.parse(now) - SHIFT_MS : Date.parse(since)).toISOString();
    const page = handoverOf(units, now, from);
    await print({ ...page, since: from }, handoverText(page, from));
  } else if (by === 'stage') {
    const { beginningsIn } = await import('../session/boardcache.js');
    const stages = withBeginnings(stagesOf(units, now), beginningsIn(io.workshop, realDisk, files, rows));
    await print({ stages }, stageText(stages));
  } else await print({ units: rows }, boardText(rows));
  return board.problems.length > 0 ? EXIT.badInput : EXIT.done;
}

/** Loads the journal-reading code only if some journal is not in the board's cache. */
async function readBoard(files: JobsOnly, root: string, now: string): Promise<Board> {
  const reader = new BoardReader(realDisk, root);
  const readUnit: ReadUnit = reader.knowsAll(now)
    ? never
    : (await import('../session/plan.js')).unitReader(realDisk, root);
  const board = reader.read(files, now, readUnit);
  reader.save();
  return board;
}

/** Never called: every journal was known a moment ago, and `read` reuses that check. */
const never: ReadUnit = () => {
  throw new Error('a journal was to be read that is known');
};

function boardText(rows: readonly BoardEntry[]): string[] {
  if (rows.length === 0) return ['No units: put a job into shared/jobs.'];
  const wide = rows.reduce((most, { unit }) => Math.max(most, unit.length), 0);
  const size = rows.reduce((most, row) => Math.max(most, row.size.length), 0);
  const out: string[] = [];
  let job: string | undefined;
  for (const row of rows) {
    if (row.job !== job) out.push(...(job === undefined ? [] : ['']), sanitize(row.job));
    job = row.job;
    const { sign, word } = STANDING_WORDS[row.standing];
    const count = row.total > 0 ? `${row.done}/${row.total}` : '';
    const tail = row.where === '' || row.standing === 'finished' ? row.sentence : row.where;
    out.push(
      `  ${sanitize(row.unit).padEnd(wide)}  ${row.size.padEnd(size)}  ${sign} ${word.padEnd(11)} ${count.padStart(7)}  ${sanitize(tail)}${differsText(row)}`.trimEnd(),
    );
  }
  return out;
}

const differsText = ({ differs }: BoardEntry): string =>
  differs === undefined
    ? ''
    : `  (built from another ${differs.map((kind) => WORDS[kind] ?? kind).join(', ')} than the files now)`;
const WORDS: Readonly<Record<string, string>> = { profileSet: 'profile set' };

// The board by stage and the hand-over page, as text.

export function stageText(stages: readonly StageRow[]): string[] {
  const out: string[] = [];
  let stage: string | undefined;
  const wide = stages.reduce((most, { title }) => Math.max(most, title.length), 0);
  for (const row of stages) {
    if (row.stage !== stage) out.push(...(stage === undefined ? [] : ['']), sanitize(row.stage));
    stage = row.stage;
    const { notStarted = [] } = row;
    const places = [
      ...(row.open.length === 0 ? [] : [`> ${row.open.length} open: ${names(row.open)}`]),
      ...(row.held.length === 0 ? [] : [`H ${row.held.length} held: ${names(row.held)}`]),
      ...(notStarted.length === 0 ? [] : [`. ${notStarted.length} not started: ${names(notStarted)}`]),
    ];
    out.push(`  ${sanitize(row.title).padEnd(wide)}  ${places.join('  ')}`);
  }
  return stages.length === 0 ? ['No step is open or held in any unit.'] : out;
}

/** Maximum units named per row, so that one row does not fill a screen. */
const NAMED = 12;
function names(units: readonly { readonly job: string; readonly unit: string }[]): string {
  const shown = units.slice(0, NAMED).map(({ job, unit }) => sanitize(`${job}/${unit}`));
  return [...shown, ...(units.length > NAMED ? [`and ${units.length - NAMED} more`] : [])].join(', ');
}

export function handoverText(page: Handover, since: string): string[] {
  const out = [`Hand-over at ${utcText(page.at)}; notes since ${utcText(since)}`];
  for (const [heading, title] of HANDOVER_TITLES) {
    const lines: readonly HandoverLine[] = page[heading];
    if (lines.length === 0) continue;
    out.push(
      '',
      title,
      ...lines.map(({ job, unit, text }) => `  ${sanitize(`${job}/${unit}`)}  ${sanitize(text)}`),
    );
  }
  if (out.length === 1) out.push('', 'Nothing is half done, held, curing, snagged or parked.');
  return out;
}
