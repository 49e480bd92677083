/** What `figures` and `study` are asked for: options, checked. */

import { isDay } from '../base/dates.js';
import { err, ok, type Problem, problemFactory, type Result } from '../base/problem.js';
import { CHART_KINDS, type ChartKind } from '../figures/charts.js';
import { figuresProblem } from '../figures/messages.js';
import { RULES, type Rule } from '../figures/rules.js';
import { RECORD_MESSAGES } from '../record/messages.js';
import { FORMATS, type Format, formatOf } from './documents.js';

const raise = problemFactory(RECORD_MESSAGES);

export const FIGURES_OPTIONS = {
  csv: { type: 'string' },
  value: { type: 'string' },
  subgroup: { type: 'string' },
  of: { type: 'string' },
  low: { type: 'string' },
  high: { type: 'string' },
  chart: { type: 'string' },
  rules: { type: 'string' },
  first: { type: 'string' },
  job: { type: 'string' },
  from: { type: 'string' },
  to: { type: 'string' },
  set: { type: 'string' },
  instrument: { type: 'string' },
  lot: { type: 'string' },
  setup: { type: 'string' },
  format: { type: 'string' },
  out: { type: 'string' },
  json: { type: 'boolean' },
  paper: { type: 'string' },
  language: { type: 'string' },
} as const;
/** `--low -2` is `--low=-2`: otherwise a sign would be taken for another option. */
export const withSigns = (args: readonly string[]): string[] => {
  const out: string[] = [];
  for (let i = 0; i < args.length; i++) {
    const [arg, next] = [args[i]!, args[i + 1]];
    if (/^--(low|high|first|reference)$/.test(arg) && next !== undefined && /^-\.?\d/.test(next)) {
      out.push(`${arg}=${next}`);
      i += 1;
    } else out.push(arg);
  }
  return out;
};

export type FiguresValues = { readonly [K in keyof typeof FIGURES_OPTIONS]?: string | boolean | undefined };

export interface PutWish {
  readonly format: Format;
  readonly out: string | undefined;
  readonly paper: 'letter' | undefined;
  readonly language: string | undefined;
}

export interface FiguresWish extends PutWish {
  readonly csv: string | undefined;
  readonly value: string | undefined;
  readonly subgroup: string | undefined;
  readonly of: string | undefined;
  readonly limits: { readonly low: number | undefined; readonly high: number | undefined };
  readonly chart: ChartKind | undefined;
  readonly rules: readonly Rule[];
  readonly first: number | undefined;
  readonly job: string | undefined;
  readonly from: string | undefined;
  readonly to: string | undefined;
  readonly set: string | undefined;
  readonly instrument: string | undefined;
  readonly lot: string | undefined;
  readonly setup: string | undefined;
}

export function figuresWish(values: FiguresValues, check: string | undefined): Result<FiguresWish> {
  const option = (key: keyof FiguresValues) => values[key] as string | undefined;
  const put = putWish(values, FORMATS);
  const problems: Problem[] = put.ok ? [] : [...put.problems];
  const number = (key: 'low' | 'high' | 'first'): number | undefined => {
    const given = option(key);
    if (given === undefined) return undefined;
    const value = given.trim() === '' ? Number.NaN : Number(given);
    if (Number.isFinite(value) && (key !== 'first' || Number.isInteger(value))) return value;
    problems.push(figuresProblem('figures.option/number', { name: key, given }));
    return undefined;
  };
  const [low, high, first] = [number('low'), number('high'), number('first')];
  if (first !== undefined && first < 2)
    problems.push(figuresProblem('figures.option/number', { name: 'first', given: String(first) }));
  if (low !== undefined && high !== undefined && low >= high)
    problems.push(figuresProblem('figures.option/turned', { low: String(low), high: String(high) }));
  const chart = option('chart')?.toLowerCase();
  if (chart !== undefined && !isChart(chart))
    problems.push(
      figuresProblem('figures.option', { name: 'chart', given: chart, known: CHART_KINDS.join(', ') }),
    );
  const rules = (option('rules') ?? 'R1')
    .toUpperCase()
    .split(',')
    .map((each) => each.trim());
  const named = rules.includes('ALL') ? RULES : RULES.filter((rule) => rules.includes(rule));
  const odd = rules.find((rule) => rule !== 'ALL' && !RULES.some((each) => each === rule));
  if (odd !== undefined)
    problems.push(
      figuresProblem('figures.option', { name: 'rules', given: odd, known: [...RULES, 'all'].join(', ') }),
    );
  for (const key of ['from', 'to'] as const)
    if (option(key) !== undefined && !isDay(option(key)!))
      problems.push(raise('record.option/date', { name: key, name2: option(key)! }));
  const [from, to] = [option('from'), option('to')];
  if (from !== undefined && to !== undefined && from > to)
    problems.push(raise('record.option/turned', { from, to }));
  if (option('csv') !== undefined && option('value') === undefined)
    problems.push(figuresProblem('figures.option/needs', { name: 'csv', needed: 'value' }));
  const passedOver = idle(values, check);
  if (passedOver) problems.push(passedOver);
  if (!put.ok || problems.length > 0) return err(...problems);
  return ok({
    ...put.value,
    csv: option('csv'),
    value: option('value'),
    subgroup: option('subgroup'),
    of: option('of'),
    limits: { low, high },
    chart: chart as ChartKind | undefined,
    rules: named,
    first,
    job: option('job'),
    from,
    to,
    set: option('set'),
    instrument: option('instrument'),
    lot: option('lot'),
    setup: option('setup'),
  });
}

const isChart = (chart: string): chart is ChartKind => CHART_KINDS.some((each) => each === chart);

const PUT = ['format', 'out', 'json', 'paper', 'language'];
const CHART = ['chart', 'rules', 'first'];
const CHOICE = ['job', 'set', 'from', 'to'];
/** What counts in each way of asking. */
const OPTIONS_OF = {
  table: [...PUT, ...CHART, 'csv', 'value', 'subgroup', 'low', 'high'],
  shares: [...PUT, ...CHART, 'csv', 'value', 'subgroup', 'of'],
  overview: [...PUT, ...CHOICE, 'instrument', 'lot', 'setup', 'rules'],
  step: [...PUT, ...CHART, ...CHOICE, 'subgroup'],
  check: [...PUT, ...CHART, ...CHOICE, 'instrument', 'lot', 'setup', 'subgroup', 'low', 'high'],
} as const;

/** An option that would be passed over in silence. */
function idle(values: FiguresValues, check: string | undefined): Problem | undefined {
  const shares = ['p', 'laney'].includes(String(values.chart).toLowerCase());
  if (values.csv !== undefined && check !== undefined)
    return figuresProblem('figures.option/beside', { check });
  const way =
    values.csv === undefined
      ? check === undefined
        ? 'overview'
        : shares
          ? 'step'
          : 'check'
      : shares
        ? 'shares'
        : 'table';
  return idleProblem(values, OPTIONS_OF[way]);
}

/** @param used of all options, those that count */
export function idleProblem(
  values: Readonly<Record<string, string | boolean | undefined>>,
  used: readonly string[],
): Problem | undefined {
  const name = Object.keys(values).find((key) => values[key] !== undefined && !used.includes(key));
  if (name !== undefined) return figuresProblem('figures.option/idle', { name });
  if (values.json === true && values.format !== undefined && values.format !== 'json')
    return figuresProblem('figures.option/idle', { name: 'json' });
  return undefined;
}

/** Format, file, paper and language of what is written. */
export function putWish(
  values: Pick<FiguresValues, 'format' | 'out' | 'json' | 'paper' | 'language'>,
  formats: readonly Format[],
): Result<PutWish> {
  const option = (key: 'format' | 'out' | 'paper' | 'language') => values[key] as string | undefined;
  const format = formatOf(
    option('format') ?? (values.json === true ? 'json' : undefined),
    option('out'),
    formats,
  );
  if (typeof format !== 'string') return err(format);
  if (format === 'pdf' && option('out') === undefined) return err(raise('record.needs-out/pdf'));
  const paper = option('paper')?.toLowerCase();
  if (paper !== undefined && paper !== 'a4' && paper !== 'letter')
    return err(raise('record.option/paper', { paper }));
  return ok({
    format,
    out: option('out'),
    paper: paper === 'letter' ? paper : undefined,
    language: option('language')?.toLowerCase(),
  });
}
