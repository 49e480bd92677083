/** `study`: what an instrument, or those who judge, add to what is seen, from a table of readings. */
import { basename } from 'node:path';
import { err, ok, type Result } from '../base/problem.js';
import { sanitize } from '../base/text.js';
import { biasOf, linearityOf } from '../figures/bias.js';
import { gaugeStudy } from '../figures/gauge.js';
import { figuresProblem } from '../figures/messages.js';
import { agreementOf, crossedOf } from '../figures/study.js';
import { numberColumn, type Table, textColumn } from '../figures/table.js';
import { type StudyResult, studyDocument } from '../record/studydocument.js';
import { languageProblem } from './documents.js';
import { idleProblem, putWish, withSigns } from './figureswish.js';
import { HELP } from './help.js';
import { asJson, EXIT, fail, type Io, readOptions } from './io.js';
import { putDocument } from './putdocument.js';
import { plan, take } from './studyplan.js';
import { madeOf, overInput, tableAt } from './tablefigures.js';

const OPTIONS = {
  csv: { type: 'string' },
  part: { type: 'string' },
  person: { type: 'string', multiple: true },
  parts: { type: 'string' },
  trials: { type: 'string' },
  by: { type: 'string' },
  value: { type: 'string' },
  judgement: { type: 'string' },
  right: { type: 'string' },
  reference: { type: 'string' },
  format: { type: 'string' },
  out: { type: 'string' },
  json: { type: 'boolean' },
  paper: { type: 'string' },
  language: { type: 'string' },
} as const;

const PUT = ['csv', 'format', 'out', 'json', 'paper', 'language'];
const WAYS = {
  gauge: ['part', 'person', 'value'],
  reference: ['value', 'reference'],
  judgement: ['part', 'person', 'judgement', 'right'],
} as const;

/** Columns by what they hold; `reference` may be a number instead. */
type Columns = Readonly<
  Partial<Record<'part' | 'person' | 'value' | 'judgement' | 'right' | 'reference', string | undefined>>
>;

export async function run(args: string[], io: Io): Promise<number> {
  const read = readOptions(withSigns(args), io, HELP.study, OPTIONS, { most: 2 });
  if (typeof read === 'number') return read;
  const { person: people = [], ...single } = read.values;
  const [word, file, ...more] = read.positionals;
  if (word === 'plan' && file === undefined) {
    const idle = idleProblem(single, ['parts', 'trials', 'out']);
    const { parts, trials, out } = single;
    return idle ? fail(io, [idle], EXIT.badInput) : plan({ parts, trials, people, out }, io);
  }
  if (word === 'take' && file !== undefined && more.length === 0) {
    const idle = idleProblem({ ...single, person: people[0] }, ['by']);
    return idle ? fail(io, [idle], EXIT.badInput) : take(file, single.by, io);
  }
  if (word !== undefined)
    return fail(io, [figuresProblem('figures.study/word', { word: sanitize(word) })], EXIT.badInput);
  return ofTable({ ...single, person: people[0] }, io);
}

/** Of readings in a table. */
async function ofTable(
  values: Columns & Parameters<typeof putWish>[0] & { readonly csv?: string },
  io: Io,
): Promise<number> {
  const way =
    values.judgement !== undefined ? 'judgement' : values.reference !== undefined ? 'reference' : 'gauge';
  const passedOver = idleProblem(values, [...PUT, ...WAYS[way]]);
  if (passedOver) return fail(io, [passedOver], EXIT.badInput);
  const put = putWish(values, ['text', 'html', 'pdf', 'json']);
  if (!put.ok) return fail(io, put.problems, EXIT.badInput);
  const unspoken = await languageProblem(put.value.language);
  if (unspoken) return fail(io, [unspoken], EXIT.badInput);
  const { csv } = values;
  if (csv === undefined) return fail(io, [needs('study', 'csv')], EXIT.badInput);
  const over = overInput(csv, put.value.out, io.workshop);
  if (over) return fail(io, [over], EXIT.badInput);
  const table = tableAt(csv, io.workshop);
  if (!table.ok) return fail(io, table.problems);
  const result = studyOf(table.value, values);
  if (!result.ok) return fail(io, result.problems, EXIT.badInput);
  const document = studyDocument(result.value, {
    made: madeOf(put.value),
    over: sanitize(basename(csv)),
    what: sanitize(basename(csv)),
  });
  return putDocument(document, put.value, { json: () => asJson(dataOf(result.value), 2), csv: () => '' }, io);
}

const needs = (name: string, needed: string) => figuresProblem('figures.option/needs', { name, needed });

function studyOf(table: Table, columns: Columns): Result<StudyResult> {
  if (columns.judgement !== undefined) return agreementIn(table, columns.judgement, columns);
  if (columns.value === undefined) return err(needs('csv', 'value'));
  const values = numberColumn(table, columns.value);
  if (!values.ok) return values;
  if (columns.reference !== undefined) return biasIn(table, values.value, columns.reference);
  if (columns.part === undefined) return err(needs('value', 'part'));
  if (columns.person === undefined) return err(needs('part', 'person'));
  const [parts, people] = [textColumn(table, columns.part), textColumn(table, columns.person)];
  if (!parts.ok) return parts;
  if (!people.ok) return people;
  const readings = crossedOf(
    values.value.map((value, i) => ({ part: parts.value[i]!, person: people.value[i]!, value })),
  );
  if (!readings.ok)
    return err(...readings.problems.map((each) => ({ ...each, place: each.place ?? { file: table.file } })));
  return ok({
    kind: 'gauge',
    study: gaugeStudy(readings.value),
    parts: readings.value.length,
    people: readings.value[0]!.length,
    trials: readings.value[0]![0]!.length,
  });
}

/** One reference for all readings, or a column of them. */
function biasIn(table: Table, values: readonly number[], reference: string): Result<StudyResult> {
  const one = Number(reference);
  if (reference.trim() !== '' && Number.isFinite(one)) {
    if (values.length < 2) return err(figuresProblem('figures.few', { n: values.length }));
    return ok({ kind: 'bias', bias: biasOf(values, one) });
  }
  const references = numberColumn(table, reference);
  if (!references.ok) return references;
  if (new Set(references.value).size < 2) return err(figuresProblem('figures.study/references', {}));
  if (values.length < 3) return err(figuresProblem('figures.few', { n: values.length }));
  return ok({
    kind: 'linearity',
    linearity: linearityOf(values.map((value, i) => ({ value, reference: references.value[i]! }))),
  });
}

function agreementIn(table: Table, judgement: string, columns: Columns): Result<StudyResult> {
  if (columns.part === undefined) return err(needs('judgement', 'part'));
  if (columns.person === undefined) return err(needs('judgement', 'person'));
  const [judged, parts, people, right] = [
    textColumn(table, judgement),
    textColumn(table, columns.part),
    textColumn(table, columns.person),
    columns.right === undefined ? undefined : textColumn(table, columns.right),
  ];
  if (!judged.ok) return judged;
  if (!parts.ok) return parts;
  if (!people.ok) return people;
  if (right && !right.ok) return right;
  const truth = new Map(right ? parts.value.map((part, i) => [part, right.value[i]!] as const) : []);
  const found = agreementOf(
    judged.value.map((value, i) => ({ part: parts.value[i]!, person: people.value[i]!, value })),
    truth,
    columns.right ?? '',
  );
  if (!found.ok) return found;
  return ok({
    kind: 'agreement',
    agreement: found.value,
    parts: new Set(parts.value).size,
    people: new Set(people.value).size,
  });
}

/** As the manual of the data says. */
function dataOf(result: StudyResult): object {
  switch (result.kind) {
    case 'gauge': {
      const { anova, interaction, pooled, unpooled, used, byRanges } = result.study;
      const { parts, people, trials } = result;
      return {
        parts,
        people,
        trials,
        anova,
        interaction,
        pooled,
        unpooled,
        used,
        ndc: result.study[used].ndc,
        byRanges,
      };
    }
    case 'bias':
      return result.bias;
    case 'linearity':
      return result.linearity;
    case 'agreement':
      return { parts: result.parts, people: result.people, ...result.agreement };
  }
}
