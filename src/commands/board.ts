/** `board`: every unit of every job and its status; the steps open across units; and the hand-over page. */
import { join } from 'node:path';
import { problemFactory, problemTold } from '../base/problem.js';
import { sanitize } from '../base/text.js';
import { momentOf, utcText } from '../base/wallclock.js';
import { data, type Filling, type Spoken } from '../base/words.js';
import { type TitleReader, titleReader } from '../procedure/titles.js';
import { type Board, BoardReader, type ReadUnit } from '../session/board.js';
import type { BoardEntry } from '../session/ports.js';
import { realDisk, storeProblem } from '../store/disk.js';
import { type JobsOnly, openJobs } from '../store/jobs.js';
import { type Handover, type HandoverLine, STANDING_WORDS, type StageRow } from '../unit/board.js';
import { HANDOVER_TITLES, handoverOf, SHIFT_MS, stagesOf, withBeginnings } from '../unit/summary.js';
import { COMMAND_MESSAGES } from './catalogue.js';
import { HELP } from './help.js';
import {
  asJson,
  asLines,
  EXIT,
  fail,
  type Io,
  indented,
  readOptions,
  retold,
  saying,
  usageOf,
} from './io.js';
import { withTitles } from './titles.js';
import { byTheWall, zoneHere } from './wall.js';
import { BOARD_SAYS } from './words/board.js';

const raise = problemFactory(COMMAND_MESSAGES);

export async function run(args: string[], from: Io): Promise<number> {
  const read = readOptions(
    args,
    from,
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
      : since !== undefined && Number.isNaN(momentOf(since, undefined))
        ? raise('command.usage/board-since', { since, usage: usageOf(HELP.board) })
        : undefined;
  if (wrong !== undefined) return fail(from, [wrong], EXIT.badInput);
  const now = new Date().toISOString();
  const files = openJobs(from.workshop, realDisk);
  const reader = new BoardReader(realDisk, from.workshop);
  const board = await readBoard(reader, files, from.workshop, now);
  const io = await withTitles(from, (language) => titlesIn(language, reader, files));
  reader.save();
  const job = positionals[0];
  const rows = board.rows.filter((row) => job === undefined || row.job === job);
  for (const problem of board.problems) io.err(problemTold(problem, io.reader?.tell));
  if (job !== undefined && rows.length === 0 && board.problems.length === 0)
    return fail(io, [raise('board.no-job', { job })], EXIT.badInput);
  if (rows.length === 0 && realDisk.stat(join(io.workshop, 'shared')) === undefined)
    return fail(io, [storeProblem('workshop.missing', {}, { file: 'shared' })], EXIT.badInput);
  const print = async (rowsOf: object, lines: () => readonly Spoken[]) =>
    io.out(values.json ? asJson(rowsOf) : asLines(await byTheWall(io, lines())));
  const listed = new Set(rows.map((row) => `${row.job}/${row.unit}`));
  const units = board.units.filter((each) => listed.has(`${each.job}/${each.unit}`));
  if (values['hand-over']) {
    const begins =
      since === undefined ? Date.parse(now) - SHIFT_MS : momentOf(since, (await zoneHere(io))?.zone ?? 'UTC');
    const start = new Date(begins).toISOString();
    const page = handoverOf(units, now, start);
    await print({ ...page, since: start }, () => handoverText(page, start, io));
  } else if (by === 'stage') {
    const { beginningsIn } = await import('../session/boardcache.js');
    const stages = withBeginnings(stagesOf(units, now), beginningsIn(io.workshop, realDisk, files, rows));
    await print({ stages }, () => stageText(stages, io));
  } else await print({ units: rows }, () => boardText(rows, io));
  return board.problems.length > 0 ? EXIT.badInput : EXIT.done;
}

/** Loads the journal-reading code only if some journal is not in the board's cache. */
async function readBoard(reader: BoardReader, files: JobsOnly, root: string, now: string): Promise<Board> {
  const readUnit: ReadUnit = reader.knowsAll(now)
    ? never
    : (await import('../session/plan.js')).unitReader(realDisk, root);
  return reader.read(files, now, readUnit);
}

/** Loads the procedure-reading code only if some titles are not in the board's cache. */
async function titlesIn(language: string, reader: BoardReader, files: JobsOnly): Promise<TitleReader> {
  let lacking = false;
  const kept = reader.titles(files, language, () => {
    lacking = true;
    return undefined;
  });
  if (!lacking) return titleReader(kept);
  const { loadTitles } = await import('../session/titles.js');
  return titleReader(reader.titles(files, language, loadTitles));
}

/** Never called: every journal was known a moment ago, and `read` reuses that check. */
const never: ReadUnit = () => {
  throw new Error('a journal was to be read that is known');
};

function boardText(rows: readonly BoardEntry[], io: Io): Spoken[] {
  const say = saying(io, BOARD_SAYS);
  if (rows.length === 0) return [say('board-none')];
  const most = (lengths: readonly number[]) => Math.max(0, ...lengths);
  const wide = most(rows.map(({ unit }) => unit.length));
  const size = most(rows.map((row) => row.size.length));
  const standing = (row: BoardEntry) => retold(io, STANDING_WORDS[row.standing].word);
  const stands = most([LONGEST_STANDING, ...rows.map((row) => standing(row).length)]);
  const out: Spoken[] = [];
  let job: string | undefined;
  for (const row of rows) {
    if (row.job !== job) out.push(...(job === undefined ? [] : [data('')]), sanitize(row.job));
    job = row.job;
    const { sign } = STANDING_WORDS[row.standing];
    const count = row.total > 0 ? `${row.done}/${row.total}` : '';
    const tail = row.where === '' || row.standing === 'finished' ? row.sentence : row.where;
    const differs = row.differs ? `  ${differsText(row.differs, io)}` : '';
    out.push(
      data(
        `  ${sanitize(row.unit).padEnd(wide)}  ${row.size.padEnd(size)}  ${sign} ${standing(row).padEnd(stands)} ${count.padStart(7)}  ${retold(io, tail)}${differs}`.trimEnd(),
      ),
    );
  }
  return out;
}

/** In English, so that the columns of two jobs stand below each other. */
const LONGEST_STANDING = 11;

function differsText(differs: readonly string[], io: Io): Spoken {
  const say = saying(io, BOARD_SAYS);
  const file = (kind: string) =>
    `board-file-${kind}` in BOARD_SAYS ? say(`board-file-${kind}` as 'board-file-job') : kind;
  return say('board-differs', { what: differs.map(file) });
}

// The board by stage and the hand-over page, as text.

export function stageText(stages: readonly StageRow[], io: Io): Spoken[] {
  const say = saying(io, BOARD_SAYS);
  const out: Spoken[] = [];
  let stage: string | undefined;
  const titles = new Map(stages.map(({ base, title }) => [base, retold(io, title)]));
  const wide = Math.max(0, ...[...titles.values()].map(({ length }) => length));
  for (const row of stages) {
    if (row.stage !== stage) out.push(...(stage === undefined ? [] : [data('')]), sanitize(row.stage));
    stage = row.stage;
    const { notStarted = [] } = row;
    const places = (
      [
        ['board-open', row.open],
        ['board-held', row.held],
        ['board-not-started', notStarted],
      ] as const
    ).flatMap(([id, units]) =>
      units.length === 0 ? [] : say(id, { n: units.length, units: names(units, io) }),
    );
    out.push(data(`  ${titles.get(row.base)!.padEnd(wide)}  ${places.join('  ')}`));
  }
  return stages.length === 0 ? [say('board-no-step')] : out;
}

/** Maximum units named per row, so that one row does not fill a screen. */
const NAMED = 12;
function names(units: readonly { readonly job: string; readonly unit: string }[], io: Io): Filling {
  const shown = units.slice(0, NAMED).map(({ job, unit }) => sanitize(`${job}/${unit}`));
  const n = units.length - shown.length;
  return n > 0 ? saying(io, BOARD_SAYS)('board-more', { units: shown, n }) : shown;
}

export function handoverText(page: Handover, since: string, io: Io): Spoken[] {
  const say = saying(io, BOARD_SAYS);
  const out = [say('board-handover', { at: utcText(page.at), since: utcText(since) })];
  for (const [heading, title] of HANDOVER_TITLES) {
    const lines: readonly HandoverLine[] = page[heading];
    if (lines.length === 0) continue;
    out.push(
      data(''),
      retold(io, title),
      ...lines.map(({ job, unit, text }) =>
        indented(data(`${sanitize(`${job}/${unit}`)}  ${retold(io, text)}`)),
      ),
    );
  }
  if (out.length === 1) out.push(data(''), say('board-quiet'));
  return out;
}
