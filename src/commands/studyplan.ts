/** `study plan` draws the order of a study by lot; `study take` asks for its readings, one by one and blind. */
import { randomInt } from 'node:crypto';
import { resolve } from 'node:path';
import { createInterface } from 'node:readline';
import { EXIT, type Problem } from '../base/problem.js';
import { sanitize } from '../base/text.js';
import { figuresProblem } from '../figures/messages.js';
import { plannedOrder } from '../figures/studyplan.js';
import { readingIn } from '../figures/table.js';
import { csvCell } from '../record/csv.js';
import { realDisk } from '../store/disk.js';
import { writeWhole } from '../store/files.js';
import { writeDocument } from './documents.js';
import { fail, type Io, saying } from './io.js';
import { tableAt } from './tablefigures.js';
import { FIGURES_SAYS } from './words/figures.js';

const COLUMNS = ['part', 'person', 'trial', 'value'] as const;
/** Larger ones are not measured in a day. */
const MOST = { parts: 100, trials: 10, people: 10 };

export interface PlanWish {
  readonly parts: string | undefined;
  readonly trials: string | undefined;
  readonly people: readonly string[];
  readonly out: string | undefined;
}

export function plan({ parts = '10', trials = '3', people, out }: PlanWish, io: Io): number {
  const problem = planProblem({ parts, trials, people, out });
  if (problem) return fail(io, [problem], EXIT.badInput);
  const order = plannedOrder(Number(parts), people, Number(trials), randomInt);
  const text = csvOf(order.map(({ part, person, trial }) => [String(part), person, String(trial), '']));
  if (realDisk.stat(resolve(io.workshop, out!)))
    return fail(io, [figuresProblem('figures.option/there', { file: sanitize(out!) })], EXIT.badInput);
  const wrote = writeDocument(realDisk, io.workshop, out!, text);
  if (!wrote.ok) return fail(io, wrote.problems);
  const say = saying(io, FIGURES_SAYS);
  io.out(say('study-planned', { n: order.length, file: sanitize(out!) }));
  io.out(say('study-planned-next', { file: sanitize(out!), person: sanitize(people[0]!) }));
  return EXIT.done;
}

function planProblem({ parts, trials, people, out }: PlanWish): Problem | undefined {
  for (const [name, given, least, most] of [
    ['parts', parts!, 2, MOST.parts],
    ['trials', trials!, 2, MOST.trials],
  ] as const)
    if (!/^\d+$/.test(given) || Number(given) < least || Number(given) > most)
      return figuresProblem('figures.option/between', { name, given, least, most });
  if (new Set(people).size < 2 || people.length > MOST.people)
    return figuresProblem('figures.study/person', { person: people[0] ?? '-' });
  return out === undefined
    ? figuresProblem('figures.option/needs', { name: 'parts', needed: 'out' })
    : undefined;
}

/** Asks until the person has no reading left, or ends with an empty line; each is on disk before the next is asked. */
export async function take(file: string, by: string | undefined, io: Io): Promise<number> {
  const table = tableAt(file, io.workshop);
  if (!table.ok) return fail(io, table.problems);
  const at = COLUMNS.map((name) => table.value.columns.indexOf(name));
  const lacking = COLUMNS.find((_, i) => at[i]! < 0);
  if (lacking !== undefined)
    return fail(
      io,
      [figuresProblem('figures.column', { name: lacking, columns: table.value.columns.join(', ') })],
      EXIT.badInput,
    );
  const rows = table.value.rows.map(({ cells }) => at.map((i) => cells[i] ?? ''));
  const people = [...new Set(rows.map(([, person]) => person!))];
  if (by === undefined || !people.includes(by))
    return fail(io, [
      figuresProblem('figures.option', { name: 'by', given: by ?? '-', known: people.join(', ') }),
    ]);
  const say = saying(io, FIGURES_SAYS);
  const open = rows.filter(([, person, , value]) => person === by && value === '');
  if (open.length === 0) {
    io.out(say('study-taken-all', { person: sanitize(by) }));
    return EXIT.done;
  }
  const path = realDisk.stat(resolve(file)) ? resolve(file) : resolve(io.workshop, file);
  let next = 0;
  const ask = () =>
    io.out(say('study-part', { part: sanitize(open[next]![0]!), n: next + 1, of: open.length }));
  ask();
  for await (const line of createInterface({ input: io.input ?? process.stdin })) {
    if (line.trim() === '') break;
    const value = readingIn(line.trim(), line.includes(',') ? ',' : '.');
    if (!value.ok) {
      fail(io, [figuresProblem('figures.cell/typed', { cell: sanitize(line.trim()) })]);
      ask();
      continue;
    }
    open[next]![3] = String(value.value);
    writeWhole(realDisk, path, Buffer.from(csvOf(rows)));
    next += 1;
    if (next === open.length) break;
    ask();
  }
  const left = rows.filter(([, , , value]) => value === '').length;
  io.out(say('study-taken', { n: next, left }));
  if (left === 0) io.out(say('study-taken-done', { file: sanitize(file) }));
  return EXIT.done;
}

const csvOf = (rows: readonly (readonly string[])[]): string =>
  `${[COLUMNS, ...rows].map((row) => row.map((cell) => csvCell(cell)).join(',')).join('\r\n')}\r\n`;
