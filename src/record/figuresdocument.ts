/** Figures over many readings as a document: what they are, what they are worth, and their charts. */
import { data, type Spoken } from '../base/words.js';
import type { Capability, Limits } from '../figures/capability.js';
import type { Chart } from '../figures/charts.js';
import type { Rule } from '../figures/rules.js';
import type { SeriesFigures } from '../figures/series.js';
import { type Block, type Document, type Figure, tableOr } from './blocks.js';
import { type ChartPicture, chartSigns, chartSvg, plainFigure } from './chartpicture.js';
import { figuresPage } from './figurespage.js';
import type { RecordView } from './schema.js';
import { type DocumentSay, joined, printedAt, tellingOf } from './telling.js';

export interface FiguresFacts {
  readonly made: RecordView['made'];
  /** The shop, or the file that the readings come from. */
  readonly over: Spoken;
  /** What was read. */
  readonly what: Spoken;
  /** "mm"; empty where nobody said. */
  readonly unit: string;
  readonly limits: Limits;
  readonly first?: number | undefined;
  readonly frozen?: { readonly who: Spoken; readonly day: string } | undefined;
  /** Of a single reading, with its unit. */
  readonly uncertainty?: string | undefined;
  /** Of what each point is: a unit, a group. Numbers where undefined. */
  readonly labels?: readonly string[] | undefined;
}

/** More points than this stand in the data alone. */
const MOST_POINTS = 120;
const MOST_SIGNALS = 6;

/** @param table with the points of each chart in a table, for who cannot see it */
export function figuresDocument(figures: SeriesFigures, facts: FiguresFacts, table: boolean): Document {
  const { made, over, what } = facts;
  const { say } = tellingOf(made);
  const signals = figures.charts.reduce((sum, chart) => sum + chart.signals.length, 0);
  return figuresPage(
    {
      title: say('doc-fig-title', { what }),
      under: say('doc-fig-under', { n: figures.n, time: printedAt(made) }),
      subject: say('doc-fig-subject', { n: figures.n, signals }),
      foot: say('doc-fig-foot', { what }),
      blocks: [
        ...figures.charts.map((chart) => chartBlock(chart, ofChart(chart, facts), say, table)),
        { kind: 'facts', caption: say('doc-fig-capability'), rows: numberRows(figures, facts, say) },
        ...capabilityBlocks(figures, facts, say),
        ...(table ? figures.charts.flatMap((chart) => pointTable(chart, ofChart(chart, facts), say)) : []),
      ],
    },
    made,
    over,
  );
}

/** A moving range belongs to the later of its two readings; a group of one reading has no range. */
function ofChart({ kind, points, places }: Chart, facts: FiguresFacts): FiguresFacts & Numbered {
  const at = places ?? points.map((_, i) => i + (kind === 'moving-range' ? 2 : 1));
  return { ...facts, at, labels: facts.labels && at.map((n) => facts.labels![n - 1] ?? '') };
}

interface Numbered {
  /** Number of the reading or group that each point belongs to. */
  readonly at: readonly number[];
}

function chartBlock(chart: Chart, facts: FiguresFacts & Numbered, say: DocumentSay, drawn: boolean): Block {
  const title = say(`doc-fig-chart-${chart.kind}`);
  const { lower, upper, centre } = chart;
  const limits =
    typeof lower === 'number' && typeof upper === 'number'
      ? say('doc-fig-limits', {
          centre: plainFigure(centre),
          lower: plainFigure(lower),
          upper: plainFigure(upper),
        })
      : say('doc-fig-limits-vary', { centre: plainFigure(centre) });
  const told = chart.signals
    .slice(0, MOST_SIGNALS)
    .map(({ at, rule }) =>
      say('doc-fig-signal', { at: nameOf(at, facts), rule: say(`doc-fig-rule-${rule}`) }),
    );
  const signals: readonly Spoken[] = [
    ...(told.length === 0 ? [say('doc-fig-calm')] : told),
    ...(chart.signals.length > MOST_SIGNALS
      ? [say('doc-fig-more-signals', { n: chart.signals.length - MOST_SIGNALS })]
      : []),
  ];
  const picture = pictureOf(chart, facts);
  const figure: Figure = {
    title: data(facts.unit === '' ? title : `${title}, ${isShare(chart) ? '1' : facts.unit}`),
    alt: say('doc-fig-alt', {
      chart: title,
      n: chart.points.length,
      limits,
      signals: joined(signals, ' '),
    }),
    svg: chartSvg(picture),
    text: [...chartSigns(picture), `${' '.repeat(9)} ${say('doc-fig-signs')}`],
    facts: [
      limits,
      ...(facts.frozen
        ? [say('doc-fig-frozen', { who: facts.frozen.who, day: facts.frozen.day })]
        : facts.first === undefined
          ? []
          : [say('doc-fig-first', { first: facts.first })]),
      ...signals,
      ...(drawn ? [say('doc-fig-lines')] : []),
    ],
  };
  return { kind: 'figures', figures: [figure], wide: true };
}

const isShare = ({ kind }: Chart): boolean => kind === 'p' || kind === 'laney';

const nameOf = (point: number, { at, labels }: FiguresFacts & Numbered): string => {
  const label = labels?.[point - 1];
  return label === undefined ? String(at[point - 1]) : `${at[point - 1]} (${label})`;
};

function pictureOf(chart: Chart, { limits, first, frozen, at }: FiguresFacts & Numbered): ChartPicture {
  const rules = new Map<number, Rule[]>();
  for (const { at, rule } of chart.signals) rules.set(at, [...(rules.get(at) ?? []), rule]);
  return {
    points: chart.points.map((value, i) => ({ value, signals: rules.get(i + 1) ?? [] })),
    centre: chart.centre,
    lower: chart.lower,
    upper: chart.upper,
    ...(chart.kind === 'individuals' ? { tolerance: limits } : {}),
    first: frozen ? undefined : first,
    from: at[0] ?? 1,
    ...(chart.centres ? { centres: chart.centres } : {}),
  };
}

/** All points of a short series; of a long one those that signal. */
function pointTable(chart: Chart, facts: FiguresFacts & Numbered, say: DocumentSay): Block[] {
  const title = say(`doc-fig-chart-${chart.kind}`);
  const rules = new Map<number, Rule[]>();
  for (const { at, rule } of chart.signals) rules.set(at, [...(rules.get(at) ?? []), rule]);
  const shown = chart.points
    .map((value, i) => ({ value, at: i + 1 }))
    .filter(({ at }) => chart.points.length <= MOST_POINTS || rules.has(at));
  if (shown.length === 0) return [];
  const limit = (of: number | readonly number[], at: number) =>
    plainFigure(typeof of === 'number' ? of : of[at - 1]!);
  return tableOr(
    joined([say('doc-fig-points'), title], ': '),
    data(''),
    [
      say('doc-fig-col-at'),
      say('doc-fig-col-of'),
      say('doc-fig-col-value'),
      say('doc-fig-col-limits'),
      say('doc-fig-col-signal'),
    ],
    [1, 2.4, 1.6, 2.4, 3.4],
    shown.slice(0, MOST_POINTS).map(({ value, at }) => [
      data(String(facts.at[at - 1])),
      data(facts.labels?.[at - 1] ?? ''),
      data(plainFigure(value)),
      say('doc-fig-from-to', { low: limit(chart.lower, at), high: limit(chart.upper, at) }),
      joined(
        (rules.get(at) ?? []).map((rule) => say(`doc-fig-rule-${rule}`)),
        '; ',
      ),
    ]),
  );
}

type Row = readonly [Spoken, Spoken];

function numberRows(figures: SeriesFigures, { limits, unit }: FiguresFacts, say: DocumentSay): Row[] {
  const with_ = (value: number) => (unit === '' ? plainFigure(value) : `${plainFigure(value)} ${unit}`);
  const { sdWithin, estimator, capability } = figures;
  const rows: Row[] = [
    [say('doc-fig-n'), data(String(figures.n))],
    [say('doc-fig-mean'), data(with_(figures.mean))],
  ];
  if (capability === null)
    return [
      [say('doc-fig-groups'), data(String(figures.n))],
      [say('doc-fig-share-mean'), data(plainFigure(figures.mean))],
    ];
  rows.push([say('doc-fig-sd'), data(with_(figures.sd))]);
  if (sdWithin !== null && estimator !== null)
    rows.push([say('doc-fig-within'), say(`doc-fig-by-${estimator}`, { sd: with_(sdWithin) })]);
  const { low, high } = limits;
  if (low !== undefined && high !== undefined)
    rows.push([say('doc-fig-tolerance'), say('doc-fig-from-to', { low: with_(low), high: with_(high) })]);
  else if (low !== undefined)
    rows.push([say('doc-fig-tolerance'), say('doc-fig-at-least', { low: with_(low) })]);
  else if (high !== undefined)
    rows.push([say('doc-fig-tolerance'), say('doc-fig-at-most', { high: with_(high) })]);
  if (capability.refused === null)
    for (const key of ['cp', 'cpk', 'pp', 'ppk'] as const) rows.push(...indexRow(key, capability, say));
  return rows;
}

const INDEX_NAMES = { cp: 'Cp', cpk: 'Cpk', pp: 'Pp', ppk: 'Ppk' } as const;

function indexRow(key: keyof typeof INDEX_NAMES, capability: Capability, say: DocumentSay): Row[] {
  const [value, interval] = [capability[key], capability.intervals[key]];
  if (value === null || !interval) return [];
  const [low, high] = interval;
  const shown = say('doc-fig-index', {
    value: value.toFixed(2),
    low: low.toFixed(2),
    high: high.toFixed(2),
  });
  return [[data(INDEX_NAMES[key]), shown]];
}

function capabilityBlocks(
  { capability, n }: SeriesFigures,
  { uncertainty }: FiguresFacts,
  say: DocumentSay,
): Block[] {
  if (capability === null) return [];
  const { refused, percentiles } = capability;
  const quiet = (text: Spoken): Block => ({ kind: 'text', text, look: 'quiet' });
  const index = (value: number | null) => (value === null ? '–' : value.toFixed(2));
  return [
    refused === null
      ? quiet(say('doc-fig-level'))
      : {
          kind: 'text',
          text: say('doc-fig-refused', {
            why:
              refused === 'few-readings'
                ? say('doc-fig-refused-few-readings', { n })
                : say(`doc-fig-refused-${refused}`),
          }),
        },
    ...(percentiles
      ? [
          quiet(
            say('doc-fig-percentiles', {
              low: plainFigure(percentiles.p0135),
              middle: plainFigure(percentiles.p50),
              high: plainFigure(percentiles.p99865),
              pp: index(percentiles.pp),
              ppk: index(percentiles.ppk),
            }),
          ),
        ]
      : []),
    ...(uncertainty === undefined ? [] : [quiet(say('doc-fig-uncertainty', { u: uncertainty }))]),
  ];
}
