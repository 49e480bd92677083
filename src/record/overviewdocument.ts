/** All that is measured over units, in one table; what was right at once, what failed, and where time went. */
import { sanitize } from '../base/text.js';
import { data, type Spoken } from '../base/words.js';
import type { Series } from '../figures/overunits.js';
import type { SeriesFigures } from '../figures/series.js';
import type { Ranked, StepTime, Yields } from '../figures/yields.js';
import { type Block, type Document, tableOr } from './blocks.js';
import { plainFigure } from './chartpicture.js';
import { csvCell } from './csv.js';
import { figuresPage } from './figurespage.js';
import type { RecordView } from './schema.js';
import { type DocumentSay, printedAt, tellingOf } from './telling.js';

export interface OverviewRow {
  readonly series: Series;
  /** undefined where there are too few readings. */
  readonly figures: SeriesFigures | undefined;
}

export interface OverviewFacts {
  readonly made: RecordView['made'];
  readonly over: Spoken;
  readonly units: number;
  readonly yields: Yields;
  readonly failures: readonly Ranked[];
  readonly causes: readonly Ranked[];
  readonly times: readonly StepTime[];
}

/** `Square the frame: difference of diagonals, rising less falling`. */
export function seriesName({ step, place }: Series, say: DocumentSay): Spoken {
  if (place === undefined) return sanitize(step);
  const named =
    place === 'diagonals' || place === 'widths' || place === 'heights'
      ? say(`doc-fig-${place}`)
      : say.retell(place);
  return say('doc-fig-place', { step: sanitize(step), place: named });
}

/** More rows than these stand in the data alone. */
const MOST_ROWS = 12;

export function overviewDocument(rows: readonly OverviewRow[], facts: OverviewFacts): Document {
  const { made, over, units, yields, failures, causes, times } = facts;
  const { say } = tellingOf(made);
  const title = say('doc-fig-overview', { units });
  const signals = rows.reduce((sum, { figures }) => sum + signalCount(figures), 0);
  const n = rows.reduce((sum, { series }) => sum + series.readings.length, 0);
  const quiet = (text: Spoken): Block => ({ kind: 'text', text, look: 'quiet' });
  const blocks: Block[] = [
    ...measuredTable(
      rows.filter(({ figures }) => figures),
      say,
    ),
    ...(rows.every(({ figures }) => figures)
      ? []
      : [quiet(say('doc-fig-once', { n: rows.filter(({ figures }) => !figures).length }))]),
    ...yieldBlocks(yields, say),
    ...rankedTable(
      failures,
      say('doc-fig-failures'),
      say('doc-fig-no-failures'),
      say('doc-fig-col-check'),
      say,
    ),
    ...rankedTable(causes, say('doc-fig-causes'), say('doc-fig-no-causes'), say('doc-fig-col-cause'), say),
    ...tableOr(
      say('doc-fig-times'),
      say('doc-fig-no-times'),
      [say('doc-fig-col-step'), say('doc-fig-col-units'), say('doc-fig-col-work'), say('doc-fig-col-wait')],
      [5, 1.4, 1.8, 2.6],
      times
        .slice(0, MOST_ROWS)
        .map(({ title, units, work, waiting }) => [
          sanitize(title),
          data(String(units)),
          data(work.toFixed(1)),
          data(waiting.toFixed(0)),
        ]),
    ),
    ...(times.length === 0 ? [] : [quiet(say('doc-fig-times-how'))]),
    quiet(say('doc-fig-people')),
  ];
  return figuresPage(
    {
      title,
      under: say('doc-fig-under', { n, time: printedAt(made) }),
      subject: say('doc-fig-subject', { n, signals }),
      foot: title,
      blocks,
    },
    made,
    over,
  );
}

function measuredTable(rows: readonly OverviewRow[], say: DocumentSay): Block[] {
  return tableOr(
    say('doc-fig-measured'),
    say('doc-fig-none'),
    [
      say('doc-fig-col-check'),
      say('doc-fig-col-n'),
      say('doc-fig-col-mean'),
      say('doc-fig-col-sd'),
      say('doc-fig-col-signals'),
      say('doc-fig-col-ppk'),
    ],
    [6, 0.8, 1.3, 1.3, 1.3, 1.6],
    [...rows]
      .sort((a, b) => worth(a) - worth(b))
      .map(({ series, figures }) => {
        const { capability } = figures ?? {};
        const signals = signalCount(figures);
        return [
          [{ text: seriesName(series, say) }, { text: data(series.key), look: 'code' }],
          data(String(series.readings.length)),
          data(figures ? `${plainFigure(figures.mean)} ${series.unit}` : ''),
          data(figures ? plainFigure(figures.sd) : ''),
          data(signals === 0 ? '' : String(signals)),
          capability == null
            ? say('doc-fig-why-few-readings')
            : capability.refused === null && capability.ppk !== null
              ? data(capability.ppk.toFixed(2))
              : say(`doc-fig-why-${capability.refused ?? 'no-limits'}`),
        ];
      }),
  );
}

/** Of the readings themselves; their moving ranges stand below their own chart. */
const signalCount = (figures: SeriesFigures | undefined): number => figures?.charts[0]?.signals.length ?? 0;

/** What signals stands first, then by Ppk; the rest as the procedure has it. */
const worth = ({ figures }: OverviewRow): number =>
  -1000 * Math.sign(signalCount(figures)) +
  (figures?.capability?.refused === null ? (figures.capability.ppk ?? 999) : 999);

const percent = (share: number): string => (100 * share).toFixed(0);

function yieldBlocks({ steps, units, rolled }: Yields, say: DocumentSay): Block[] {
  const failed = steps.filter(({ right, of }) => right < of).sort((a, b) => a.right / a.of - b.right / b.of);
  return [
    { kind: 'heading', level: 2, text: say('doc-fig-yields') },
    ...(units
      ? [
          {
            kind: 'text' as const,
            look: 'strong' as const,
            text: say('doc-fig-units-right', {
              right: units.right,
              of: units.of,
              low: percent(units.interval[0]),
              high: percent(units.interval[1]),
            }),
          },
        ]
      : []),
    ...(rolled === undefined
      ? []
      : [{ kind: 'text' as const, text: say('doc-fig-rolled', { percent: (100 * rolled).toFixed(1) }) }]),
    ...(failed.length === 0
      ? []
      : tableOr(
          say('doc-fig-yields'),
          data(''),
          [say('doc-fig-col-step'), say('doc-fig-col-right'), say('doc-fig-col-share')],
          [5, 2, 3],
          failed
            .slice(0, MOST_ROWS)
            .map(({ title, right, of, interval: [low, high] }) => [
              sanitize(title),
              say('doc-study-share', { agree: right, of }),
              say('doc-fig-share', { percent: percent(right / of), low: percent(low), high: percent(high) }),
            ]),
        ).slice(1)),
  ];
}

const rankedTable = (
  ranked: readonly Ranked[],
  title: Spoken,
  none: Spoken,
  first: Spoken,
  say: DocumentSay,
): Block[] =>
  tableOr(
    title,
    none,
    [first, say('doc-fig-col-times'), say('doc-fig-col-hours'), say('doc-fig-col-parts')],
    [5, 1.4, 2.6, 1.8],
    ranked
      .slice(0, MOST_ROWS)
      .map(({ what, count, hours, parts }) => [
        sanitize(what),
        data(String(count)),
        data(hours === undefined ? '' : hours.toFixed(1)),
        data(parts === 0 ? '' : String(parts)),
      ]),
  );

/** One line for each thing measured. */
export function overviewCsv(rows: readonly OverviewRow[]): string {
  const lines = rows.map(({ series, figures }) => [
    series.key,
    series.unit,
    series.against,
    series.readings.length,
    figures?.mean ?? '',
    figures?.sd ?? '',
    figures ? signalCount(figures) : '',
    figures?.capability?.ppk ?? '',
    figures?.capability?.refused ?? '',
  ]);
  return [['check', 'unit', 'against', 'n', 'mean', 'sd', 'signals', 'ppk', 'refused'], ...lines]
    .map((row) => row.map((cell) => csvCell(String(cell))).join(','))
    .join('\r\n')
    .concat('\r\n');
}
