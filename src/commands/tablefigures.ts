/** Figures of a table that comes from elsewhere. */
import { basename, resolve } from 'node:path';
import { err, ok, type Problem, type Result } from '../base/problem.js';
import { sanitize } from '../base/text.js';
import { data } from '../base/words.js';
import type { Count } from '../figures/charts.js';
import { figuresProblem } from '../figures/messages.js';
import { type SeriesFigures, seriesFigures, shareFigures } from '../figures/series.js';
import { numberColumn, readTable, type Table, textColumn } from '../figures/table.js';
import { csvCell } from '../record/csv.js';
import { figuresDocument } from '../record/figuresdocument.js';
import type { RecordView } from '../record/schema.js';
import { DOCUMENT_LANGUAGE, wordsHash } from '../record/telling.js';
import { diskProblem, realDisk } from '../store/disk.js';
import { storeWords } from '../store/words.js';
import { languageProblem, programName } from './documents.js';
import type { FiguresWish, PutWish } from './figureswish.js';
import { asJson, EXIT, fail, type Io } from './io.js';
import { putDocument } from './putdocument.js';

export async function tableFigures(wish: FiguresWish, io: Io): Promise<number> {
  const unspoken = await languageProblem(wish.language);
  if (unspoken) return fail(io, [unspoken], EXIT.badInput);
  const over = overInput(wish.csv!, wish.out, io.workshop);
  if (over) return fail(io, [over], EXIT.badInput);
  const table = tableAt(wish.csv!, io.workshop);
  if (!table.ok) return fail(io, table.problems);
  const figures = figuresOf(table.value, wish);
  if (!figures.ok) return fail(io, figures.problems, EXIT.badInput);
  const { of, labels } = figures.value;
  const document = figuresDocument(
    of,
    {
      made: madeOf(wish),
      over: sanitize(basename(wish.csv!)),
      what: sanitize(wish.value!),
      unit: '',
      limits: wish.limits,
      first: wish.first,
      labels,
    },
    wish.format !== 'text',
  );
  return putDocument(document, wish, { json: () => asJson(of, 2), csv: () => pointsCsv(of) }, io);
}

/** How a document is made where no workshop takes part. */
export const madeOf = ({ language = DOCUMENT_LANGUAGE, paper }: PutWish): RecordView['made'] => ({
  at: new Date().toISOString(),
  program: programName(),
  initials: false,
  language,
  words: wordsHash(language),
  annex: false,
  ...(paper === undefined ? {} : { paper }),
});

/** What is written must not take the place of what is read. */
export const overInput = (file: string, out: string | undefined, workshop: string): Problem | undefined =>
  out !== undefined && [resolve(file), resolve(workshop, file)].includes(resolve(workshop, out))
    ? figuresProblem('figures.option/over', { file: sanitize(file) })
    : undefined;

/** A disk that fails keeps its exit code. */
export function tableAt(file: string, workshop: string): Result<Table> {
  const here = resolve(file);
  // As typed, or as a path inside the workshop.
  const path = realDisk.stat(here) ? here : resolve(workshop, file);
  const kind = realDisk.stat(path)?.kind;
  if (kind === undefined) return err(figuresProblem('figures.csv/gone', { file: sanitize(file) }));
  if (kind !== 'file') return err(figuresProblem('figures.csv/folder', { file: sanitize(file) }));
  try {
    return readTable(realDisk.read(path).toString('utf8'), sanitize(file));
  } catch (error) {
    return err(diskProblem(error, sanitize(file), storeWords('while-table-read')));
  }
}

interface Found {
  readonly of: SeriesFigures;
  readonly labels: readonly string[] | undefined;
}

function figuresOf(table: Table, wish: FiguresWish): Result<Found> {
  const { chart, rules, limits, first, subgroup } = wish;
  const values = numberColumn(table, wish.value!);
  if (!values.ok) return values;
  const basis = { first };
  if (chart === 'p' || chart === 'laney') {
    const counts = countsOf(table, values.value, wish);
    if (!counts.ok) return counts;
    const of = shareFigures(counts.value.counts, chart, { rules, basis });
    return of.ok ? ok({ of: of.value, labels: counts.value.labels }) : of;
  }
  if (subgroup === undefined) {
    if (chart === 'mean' || chart === 'range' || chart === 'sd')
      return err(figuresProblem('figures.option/needs', { name: `chart ${chart}`, needed: 'subgroup' }));
    const of = seriesFigures(
      values.value.map((value) => [value]),
      false,
      { chart, rules, limits, basis },
    );
    return of.ok ? ok({ of: of.value, labels: undefined }) : of;
  }
  if (chart === 'individuals' || chart === 'moving-range')
    return err(figuresProblem('figures.option/groups', { given: chart }));
  const names = textColumn(table, subgroup);
  if (!names.ok) return names;
  const groups = grouped(names.value, values.value);
  const of = seriesFigures([...groups.values()], true, { chart, rules, limits, basis });
  return of.ok ? ok({ of: of.value, labels: [...groups.keys()].map((name) => sanitize(name)) }) : of;
}

/** In the order in which groups first stand. */
function grouped<T>(names: readonly string[], values: readonly T[]): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const [i, name] of names.entries()) {
    const group = groups.get(name);
    if (group) group.push(values[i]!);
    else groups.set(name, [values[i]!]);
  }
  return groups;
}

/** A count of each line where `--of` says how many there were; else of each group, where a line is 0 or 1. */
function countsOf(
  table: Table,
  values: readonly number[],
  { of, subgroup, chart }: FiguresWish,
): Result<{ readonly counts: readonly Count[]; readonly labels: readonly string[] | undefined }> {
  if (of === undefined && subgroup === undefined)
    return err(figuresProblem('figures.option/needs', { name: `chart ${chart}`, needed: 'of' }));
  const labels = subgroup === undefined ? undefined : textColumn(table, subgroup);
  if (labels && !labels.ok) return labels;
  const problems: Problem[] = [];
  const place = (i: number) => ({ file: table.file, line: table.rows[i]!.line });
  if (of !== undefined) {
    const sizes = numberColumn(table, of);
    if (!sizes.ok) return sizes;
    const counts = values.map((failed, i): Count => {
      const size = sizes.value[i]!;
      const whole = Number.isInteger(failed) && Number.isInteger(size) && size > 0;
      if (!whole || failed < 0 || failed > size)
        problems.push(
          figuresProblem('figures.cell/count', { failed: String(failed), of: String(size) }, place(i)),
        );
      return { failed, of: size };
    });
    return problems.length > 0
      ? err(...problems.slice(0, 12))
      : ok({ counts, labels: labels?.value.map((name) => sanitize(name)) });
  }
  for (const [i, value] of values.entries())
    if (value !== 0 && value !== 1)
      problems.push(figuresProblem('figures.cell/share', { cell: String(value) }, place(i)));
  if (problems.length > 0) return err(...problems.slice(0, 12));
  const groups = grouped(labels!.value, values);
  return ok({
    counts: [...groups.values()].map((group) => ({
      failed: group.filter((value) => value === 1).length,
      of: group.length,
    })),
    labels: [...groups.keys()].map((name) => sanitize(name)),
  });
}

/** One line a point of each chart. */
export function pointsCsv({ charts }: SeriesFigures): string {
  const lines = charts.flatMap(({ kind, centre, lower, upper, points, signals }) =>
    points.map((value, i) => {
      const limit = (of: number | readonly number[]) => (typeof of === 'number' ? of : of[i]!);
      const rules = signals.filter(({ at }) => at === i + 1).map(({ rule }) => rule);
      return [kind, i + 1, value, centre, limit(lower), limit(upper), rules.join(' ')];
    }),
  );
  return [['chart', 'point', 'value', 'centre', 'lower', 'upper', 'signals'], ...lines]
    .map((row) => row.map((cell) => csvCell(data(String(cell)))).join(','))
    .join('\r\n')
    .concat('\r\n');
}
