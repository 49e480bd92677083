/** Figures over the units of a workshop: one characteristic, or all that is measured with yields, causes and times. */
import { nearest } from '../base/knownkeys.js';
import { err, ok, type Result } from '../base/problem.js';
import { sanitize } from '../base/text.js';
import { localDay } from '../base/wallclock.js';

import type { FrozenChart } from '../figures/charts.js';
import { figuresProblem } from '../figures/messages.js';
import { type KindOfLimit, type Series, type SeriesReading, seriesOf } from '../figures/readings.js';
import { type SeriesFigures, seriesFigures } from '../figures/series.js';
import { causesOf, failuresOf, timesOf, type Yields, yieldsOf } from '../figures/yields.js';
import { figuresDocument } from '../record/figuresdocument.js';
import { type OverviewRow, overviewCsv, overviewDocument, seriesName } from '../record/overviewdocument.js';
import { tellingOf } from '../record/telling.js';
import { realDisk } from '../store/disk.js';
import { openWorkshop, type Workshop } from '../store/workshop.js';
import { stillCounting } from '../unit/daybook.js';
import type { UnitState } from '../unit/unitstate.js';
import { makerOf } from './basisload.js';
import { daybookOf, unitsOf } from './books.js';
import { languageProblem } from './documents.js';
import type { FiguresWish } from './figureswish.js';
import { asJson, EXIT, fail, type Io } from './io.js';
import { putDocument } from './putdocument.js';
import { madeOf, pointsCsv } from './tablefigures.js';

export async function shopFigures(check: string | undefined, wish: FiguresWish, io: Io): Promise<number> {
  const unspoken = await languageProblem(wish.language);
  if (unspoken) return fail(io, [unspoken], EXIT.badInput);
  const opened = openWorkshop(io.workshop, realDisk, { back: true });
  if (!opened.ok) return fail(io, opened.problems);
  const workshop = opened.value;
  const made = madeOf(wish);
  const states = statesOf(workshop, wish.job, made.at);
  if (!states.ok) return fail(io, states.problems);
  const units = states.value.filter((state) => isWanted(state, wish));
  const all = seriesOf(units, kindIn(workshop));
  const books = frozenIn(workshop);
  if (!books.ok) return fail(io, books.problems);
  const over = sanitize(makerOf(workshop).name);
  if (check === undefined) {
    const rows = [...all.values()].map((series): OverviewRow => {
      const kept = { ...series, readings: series.readings.filter((each) => counts(each, wish)) };
      const found = figuresIn(kept, wish, books.value.get(series.key));
      return { series: kept, figures: found.ok ? found.value : undefined };
    });
    const facts = {
      made,
      over,
      units: units.length,
      yields: yieldsOf(units),
      failures: failuresOf(units),
      causes: causesOf(units),
      times: timesOf(units),
    };
    const shown = rows.filter(({ series }) => series.readings.length > 0);
    return putDocument(
      overviewDocument(shown, facts),
      wish,
      { json: () => asJson(overviewData(shown, facts), 2), csv: () => overviewCsv(shown) },
      io,
    );
  }
  const series = namedIn(all, check);
  if (!series.ok) return fail(io, series.problems, EXIT.badInput);
  const readings = series.value.readings.filter((each) => counts(each, wish));
  const frozen = books.value.get(series.value.key);
  const figures = figuresIn({ ...series.value, readings }, wish, frozen);
  if (!figures.ok) return fail(io, figures.problems, EXIT.badInput);
  const limits = limitsOf(readings, wish);
  const greatest = readings.reduce((most, { uncertainty = 0 }) => Math.max(most, uncertainty), 0);
  const document = figuresDocument(
    figures.value,
    {
      made,
      over,
      what: seriesName(series.value, tellingOf(made).say),
      unit: series.value.unit,
      limits,
      first: wish.first,
      ...(frozen ? { frozen: { who: sanitize(frozen.by), day: localDay(frozen.at, workshop.zone) } } : {}),
      ...(greatest > 0 ? { uncertainty: `${Number(greatest.toPrecision(2))} ${series.value.unit}` } : {}),
      labels: labelsOf(readings, workshop),
    },
    wish.format !== 'text',
  );
  const { key, unit, against } = series.value;
  return putDocument(
    document,
    wish,
    {
      json: () =>
        asJson(
          {
            check: key,
            unit,
            against,
            ...figures.value,
            ...(frozen ? { frozen } : {}),
            readings: readings.map(({ lots: _, ...each }) => each),
          },
          2,
        ),
      csv: () => pointsCsv(figures.value),
    },
    io,
  );
}

/** What a chart's readings give now: what `daybook chart` freezes. */
export function chartNow(
  workshop: Workshop,
  check: string,
  at: string,
): Result<{
  readonly check: string;
  readonly centre: number;
  readonly sd: number;
  readonly readings: number;
}> {
  const states = statesOf(workshop, undefined, at);
  if (!states.ok) return states;
  const series = namedIn(seriesOf(states.value, kindIn(workshop)), check);
  if (!series.ok) return series;
  const figures = seriesFigures(
    series.value.readings.map(({ value }) => [value]),
    false,
    { rules: ['R1'], limits: {} },
  );
  if (!figures.ok) return figures;
  const { mean, sdWithin, n } = figures.value;
  if (!sdWithin) return err(figuresProblem('figures.few/alike', { check: series.value.key }));
  return ok({ check: series.value.key, centre: mean, sd: sdWithin, readings: n });
}

function statesOf(workshop: Workshop, job: string | undefined, at: string): Result<readonly UnitState[]> {
  const units = unitsOf(workshop, job, at);
  return units.ok ? ok(units.value.map(({ state }) => state)) : units;
}

/** What each limit is of, as today's file says it. */
const kindIn =
  ({ limits }: Workshop): KindOfLimit =>
  (id) =>
    limits.byId.get(id)?.of;

interface FrozenBy extends FrozenChart {
  readonly by: string;
  readonly at: string;
}

/** The limits of charts that count, by check: the last that somebody froze. */
function frozenIn(workshop: Workshop): Result<ReadonlyMap<string, FrozenBy>> {
  const read = daybookOf(workshop);
  if (!read.ok) return read;
  return ok(
    new Map(
      stillCounting(read.value).flatMap((entry) =>
        entry.kind === 'chart'
          ? [[entry.check, { centre: entry.centre, sd: entry.sd, by: entry.by, at: entry.at }] as const]
          : [],
      ),
    ),
  );
}

function isWanted({ route, events }: UnitState, { set }: FiguresWish): boolean {
  if (set === undefined) return true;
  const opened = events.find((event) => event.kind === 'opened');
  return route !== undefined && opened?.kind === 'opened' && opened.profileSet === set;
}

const counts = (reading: SeriesReading, { from, to, instrument, lot, setup }: FiguresWish): boolean =>
  (from === undefined || reading.at.slice(0, 10) >= from) &&
  (to === undefined || reading.at.slice(0, 10) <= to) &&
  (instrument === undefined || reading.instrument === instrument) &&
  (lot === undefined || reading.lots.includes(lot)) &&
  (setup === undefined || reading.setup === setup);

function namedIn(all: ReadonlyMap<string, Series>, check: string): Result<Series> {
  const exact = all.get(check);
  if (exact) return ok(exact);
  const begins = [...all.values()].filter(({ key }) => key.startsWith(check));
  if (begins.length === 1) return ok(begins[0]!);
  const known = begins.length > 1 ? begins.map(({ key }) => key) : [...all.keys()];
  const near = begins.length > 1 ? undefined : nearest(check, known);
  return err(
    near === undefined
      ? figuresProblem('figures.check', { check, known: known.slice(0, 12).join(', ') || '-' })
      : figuresProblem('figures.check/near', { check, near }),
  );
}

function figuresIn(
  { readings }: Pick<Series, 'readings'>,
  wish: FiguresWish,
  frozen: FrozenBy | undefined,
): Result<SeriesFigures> {
  return seriesFigures(
    readings.map(({ value }) => [value]),
    false,
    {
      chart: wish.chart,
      rules: wish.rules,
      limits: limitsOf(readings, wish),
      basis: { first: wish.first, ...(frozen && wish.first === undefined ? { frozen } : {}) },
    },
  );
}

/** As asked for; else those of the last reading, if all had the same. */
function limitsOf(
  readings: readonly SeriesReading[],
  { limits }: FiguresWish,
): { readonly low: number | undefined; readonly high: number | undefined } {
  if (limits.low !== undefined || limits.high !== undefined) return limits;
  const last = readings.at(-1);
  if (last === undefined || !readings.every(({ low, high }) => low === last.low && high === last.high))
    return { low: undefined, high: undefined };
  return { low: last.low, high: last.high };
}

const labelsOf = (readings: readonly SeriesReading[], { zone }: Workshop): readonly string[] =>
  readings.map(({ job, unit, item, at }) =>
    sanitize(`${job}/${unit}${item === undefined ? '' : ` ${item}`}, ${localDay(at, zone)}`),
  );

function overviewData(
  rows: readonly OverviewRow[],
  facts: {
    readonly units: number;
    readonly yields: Yields;
    readonly failures: ReturnType<typeof failuresOf>;
    readonly causes: ReturnType<typeof causesOf>;
    readonly times: ReturnType<typeof timesOf>;
  },
): object {
  const { units, yields, failures, causes, times } = facts;
  return {
    units,
    measured: rows.map(({ series, figures }) => ({
      check: series.key,
      unit: series.unit,
      against: series.against,
      n: series.readings.length,
      mean: figures?.mean ?? null,
      sd: figures?.sd ?? null,
      signals:
        figures?.charts.flatMap(({ kind, signals }) => signals.map((each) => ({ kind, ...each }))) ?? [],
      capability: figures?.capability ?? null,
    })),
    yields: { ...yields, level: 0.95 },
    failures,
    causes,
    times,
  };
}
