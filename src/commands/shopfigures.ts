/** Figures over the units of a workshop: one characteristic, or all that is measured with yields, causes and times. */
import { nearest } from '../base/knownkeys.js';
import { err, ok, type Problem, type Result } from '../base/problem.js';
import { sanitize } from '../base/text.js';
import { localDay } from '../base/wallclock.js';

import type { Limits } from '../figures/capability.js';
import type { FrozenChart } from '../figures/charts.js';
import { figuresProblem } from '../figures/messages.js';
import { commonLimits, lotsBy, type Series, type SeriesReading, seriesOf } from '../figures/overunits.js';
import type { KindOfLimit, UnitReading } from '../figures/readings.js';
import { type SeriesFigures, seriesFigures, shareFigures } from '../figures/series.js';
import { type UnitFigures, unitFigures } from '../figures/unitfigures.js';
import { causesOf, failuresOf, timesOf, type Yields, yieldsOf } from '../figures/yields.js';
import { figuresDocument } from '../record/figuresdocument.js';
import { type OverviewRow, overviewCsv, overviewDocument, seriesName } from '../record/overviewdocument.js';
import { tellingOf } from '../record/telling.js';
import { realDisk } from '../store/disk.js';
import { figuresIndex } from '../store/figuresindex.js';
import { openWorkshop, type Workshop } from '../store/workshop.js';
import { sha256 } from '../unit/chain.js';
import { stillCounting } from '../unit/daybook.js';
import { findPerson } from '../unit/people.js';
import { makerOf } from './basisload.js';
import { daybookOf } from './books.js';
import { COMMAND_WORDS } from './catalogue.js';
import { languageProblem, programName } from './documents.js';
import type { FiguresWish } from './figureswish.js';
import { asJson, EXIT, fail, type Io, saying } from './io.js';
import { putDocument } from './putdocument.js';
import { madeOf, pointsCsv } from './tablefigures.js';
import { loadUnit } from './unitload.js';

export async function shopFigures(check: string | undefined, wish: FiguresWish, io: Io): Promise<number> {
  const unspoken = await languageProblem(wish.language);
  if (unspoken) return fail(io, [unspoken], EXIT.badInput);
  const opened = openWorkshop(io.workshop, realDisk, { back: true });
  if (!opened.ok) return fail(io, opened.problems);
  const workshop = opened.value;
  const at = new Date().toISOString();
  const shares = wish.chart === 'p' || wish.chart === 'laney';
  // Steps stand beside what is measured, whichever of that is asked for.
  const found = unitsFor(workshop, { job: wish.job, at, check: shares ? '' : check }, io);
  if (!found.ok) return fail(io, found.problems);
  const units = found.value.filter(({ set }) => wish.set === undefined || set === wish.set);
  if (shares) return stepShares(check, units, workshop, wish, io);
  const all = seriesOf(units, (measured, unit) => counts(measured, unit, wish));
  const frozen = frozenIn(workshop);
  if (!frozen.ok) return fail(io, frozen.problems);
  if (check === undefined) {
    // Yields and times are those of the units that have a reading of what was chosen.
    const had = new Set(
      [...all.values()].flatMap(({ readings }) => readings.map(({ job, unit }) => `${job}/${unit}`)),
    );
    const chosen = chosenBy(wish) === '' ? units : units.filter(({ job, unit }) => had.has(`${job}/${unit}`));
    if (chosen.length === 0 && chosenBy(wish) !== '') return fail(io, [nothingLeft(wish)], EXIT.badInput);
    return overview(all, chosen, frozen.value, workshop, wish, io);
  }
  const series = namedIn(all, check);
  if (series.ok) return oneSeries(series.value, frozen.value.get(series.value.key), workshop, wish, io);
  // Whether there is none at all, or none that was asked for.
  const every = unitsFor(workshop, { job: undefined, at, check: undefined }, undefined);
  const known = namedIn(every.ok ? seriesOf(every.value) : all, check);
  return fail(io, known.ok ? [nothingLeft(wish)] : known.problems, EXIT.badInput);
}

/** What was chosen, as it was typed. */
const chosenBy = (wish: FiguresWish): string =>
  (['job', 'set', 'from', 'to', 'instrument', 'lot', 'setup'] as const)
    .flatMap((key) => (wish[key] === undefined ? [] : [`--${key} ${wish[key]}`]))
    .join(' ');

const nothingLeft = (wish: FiguresWish): Problem =>
  figuresProblem('figures.few/none', { chosen: chosenBy(wish) });

function overview(
  all: ReadonlyMap<string, Series>,
  units: readonly UnitFigures[],
  frozen: ReadonlyMap<string, FrozenBy>,
  workshop: Workshop,
  wish: FiguresWish,
  io: Io,
): Promise<number> {
  const shown = [...all.values()].map((series): OverviewRow => {
    const figures = figuresIn(series, wish, workshop, frozen.get(series.key));
    return { series, figures: figures.ok ? figures.value.of : undefined };
  });
  const facts = {
    made: madeOf(wish),
    over: sanitize(makerOf(workshop).name),
    units: units.length,
    yields: yieldsOf(units),
    failures: failuresOf(units),
    causes: causesOf(units),
    times: timesOf(units),
  };
  return putDocument(
    overviewDocument(shown, facts),
    wish,
    { json: () => asJson(overviewData(shown, facts), 2), csv: () => overviewCsv(shown) },
    io,
  );
}

async function oneSeries(
  series: Series,
  frozen: FrozenBy | undefined,
  workshop: Workshop,
  wish: FiguresWish,
  io: Io,
): Promise<number> {
  const { key, unit, against, readings } = series;
  const figures = figuresIn(series, wish, workshop, frozen);
  if (!figures.ok) return fail(io, figures.problems, EXIT.badInput);
  const { of, labels } = figures.value;
  const made = madeOf(wish);
  const greatest = readings.reduce((most, { uncertainty = 0 }) => Math.max(most, uncertainty), 0);
  const document = figuresDocument(
    of,
    {
      made,
      over: sanitize(makerOf(workshop).name),
      what: seriesName(series, tellingOf(made).say),
      unit,
      limits: limitsOf(readings, wish),
      first: wish.first,
      ...(of.estimator === 'frozen' && frozen
        ? {
            frozen: {
              who: sanitize(findPerson(workshop.rules, frozen.by)?.name ?? frozen.by),
              day: localDay(frozen.at, workshop.zone),
            },
          }
        : {}),
      ...(greatest > 0 ? { uncertainty: `${Number(greatest.toPrecision(2))} ${unit}` } : {}),
      labels,
    },
    wish.format !== 'text',
  );
  const data = { check: key, unit, against, ...of, ...(frozen ? { frozen } : {}), labels, readings };
  return putDocument(document, wish, { json: () => asJson(data, 2), csv: () => pointsCsv(of) }, io);
}

/** Of a step, which share of the units was not right at once, by day or by what else was asked. */
async function stepShares(
  step: string | undefined,
  units: readonly UnitFigures[],
  workshop: Workshop,
  wish: FiguresWish,
  io: Io,
): Promise<number> {
  const known = [...new Set(units.flatMap(({ steps }) => steps.map((each) => each.step)))];
  const name = step?.split('/')[0];
  if (name === undefined || !known.includes(name)) {
    const near = name === undefined ? undefined : nearest(name, known);
    return fail(
      io,
      [
        near === undefined
          ? figuresProblem('figures.check', {
              check: name ?? '',
              known: known.slice(0, 12).join(', ') || '-',
            })
          : figuresProblem('figures.check/near', { check: name ?? '', near }),
      ],
      EXIT.badInput,
    );
  }
  if (wish.subgroup !== undefined && wish.subgroup !== 'day' && wish.subgroup !== 'job')
    return fail(
      io,
      [
        figuresProblem('figures.option', {
          name: 'subgroup',
          given: wish.subgroup,
          known: ['day', 'job'].join(', '),
        }),
      ],
      EXIT.badInput,
    );
  const groups = new Map<string, { failed: number; of: number }>();
  let title = name;
  const done = units
    .flatMap((unit) => unit.steps.filter((each) => each.step === name).map((each) => ({ ...each, unit })))
    .filter(
      ({ at }) =>
        (wish.from === undefined || at.slice(0, 10) >= wish.from) &&
        (wish.to === undefined || at.slice(0, 10) <= wish.to),
    )
    .sort((a, b) => (a.at < b.at ? -1 : 1));
  for (const { at, right, unit, title: said } of done) {
    title = said;
    const group = wish.subgroup === 'job' ? unit.job : localDay(at, workshop.zone);
    const found = groups.get(group) ?? { failed: 0, of: 0 };
    groups.set(group, found);
    found.of += 1;
    if (!right) found.failed += 1;
  }
  const figures = shareFigures([...groups.values()], wish.chart as 'p' | 'laney', {
    rules: wish.rules,
    basis: { first: wish.first },
  });
  if (!figures.ok) return fail(io, figures.problems, EXIT.badInput);
  const labels = [...groups.keys()].map((group) => sanitize(group));
  const document = figuresDocument(
    figures.value,
    {
      made: madeOf(wish),
      over: sanitize(makerOf(workshop).name),
      what: sanitize(title),
      unit: '',
      limits: {},
      first: wish.first,
      labels,
    },
    wish.format !== 'text',
  );
  return putDocument(
    document,
    wish,
    {
      json: () => asJson({ step: name, ...figures.value, labels, counts: [...groups.values()] }, 2),
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
  const units = unitsFor(workshop, { job: undefined, at, check }, undefined);
  if (!units.ok) return units;
  const series = namedIn(seriesOf(units.value), check);
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

interface Asked {
  readonly job: string | undefined;
  /** Now. */
  readonly at: string;
  /** What is asked for, or how its name begins; everything where undefined. */
  readonly check: string | undefined;
}

/** Fails if a unit cannot be read. @param io told how far it has come, where it takes long */
function unitsFor(
  workshop: Workshop,
  { job, at, check }: Asked,
  io: Io | undefined,
): Result<readonly UnitFigures[]> {
  const problems: Problem[] = [];
  const kindOf = kindIn(workshop);
  let told = Date.now();
  const units = figuresIndex(realDisk, workshop.root, {
    under: sha256(`${programName()}\n${workshop.sources.limits.text}`),
    job,
    wanted: (key) => check === undefined || key.startsWith(check),
    work: check === undefined || check === '',
    fold: (job, unit) => {
      const loaded = loadUnit(realDisk, workshop, { job, unit }, at);
      if (loaded.ok) return unitFigures(loaded.value.state, kindOf);
      problems.push(...loaded.problems);
      return undefined;
    },
    progress: (done, of) => {
      if (io === undefined || Date.now() - told < TELL_EVERY) return;
      told = Date.now();
      io.err(saying(io, COMMAND_WORDS)('figures-reading', { done, of }));
    },
  });
  return problems.length > 0 ? err(...problems) : ok(units);
}

/** Milliseconds between two lines that say how far it has come. */
const TELL_EVERY = 3000;

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

const counts = ({ at, instrument, setup }: UnitReading, unit: UnitFigures, wish: FiguresWish): boolean =>
  (wish.from === undefined || at.slice(0, 10) >= wish.from) &&
  (wish.to === undefined || at.slice(0, 10) <= wish.to) &&
  (wish.instrument === undefined || instrument === wish.instrument) &&
  (wish.setup === undefined || setup === wish.setup) &&
  (wish.lot === undefined || lotsBy(unit, at).includes(wish.lot));

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

/** How readings of a workshop can be grouped. */
const GROUPS: Readonly<Record<string, (reading: SeriesReading, workshop: Workshop) => string>> = {
  day: ({ at }, { zone }) => localDay(at, zone),
  job: ({ job }) => job,
  unit: ({ job, unit }) => `${job}/${unit}`,
  setup: ({ setup }) => setup ?? '-',
  instrument: ({ instrument }) => instrument ?? '-',
};

/** With what each point is of. */
function figuresIn(
  { readings }: Pick<Series, 'readings'>,
  wish: FiguresWish,
  workshop: Workshop,
  frozen: FrozenBy | undefined,
): Result<{ readonly of: SeriesFigures; readonly labels: readonly string[] }> {
  const groupOf = wish.subgroup === undefined ? undefined : GROUPS[wish.subgroup];
  if (wish.subgroup !== undefined && !groupOf)
    return err(
      figuresProblem('figures.option', {
        name: 'subgroup',
        given: wish.subgroup,
        known: Object.keys(GROUPS).join(', '),
      }),
    );
  const single = wish.chart === 'individuals' || wish.chart === 'moving-range';
  if (groupOf && single) return err(figuresProblem('figures.option/groups', { given: wish.chart! }));
  if (!groupOf && wish.chart !== undefined && !single)
    return err(figuresProblem('figures.option/needs', { name: `chart ${wish.chart}`, needed: 'subgroup' }));
  const groups = new Map<string, number[]>();
  for (const [i, reading] of readings.entries()) {
    const name = groupOf ? groupOf(reading, workshop) : String(i);
    groups.set(name, [...(groups.get(name) ?? []), reading.value]);
  }
  const of = seriesFigures([...groups.values()], groupOf !== undefined, {
    chart: wish.chart,
    rules: wish.rules,
    limits: limitsOf(readings, wish),
    basis: { first: wish.first, ...(frozen && wish.first === undefined ? { frozen } : {}) },
  });
  if (!of.ok) return of;
  return ok({
    of: of.value,
    labels: groupOf ? [...groups.keys()].map((name) => sanitize(name)) : labelsOf(readings, workshop),
  });
}

/** As asked for; else those that the readings were held to. */
const limitsOf = (readings: readonly SeriesReading[], { limits }: FiguresWish): Limits =>
  limits.low !== undefined || limits.high !== undefined ? limits : commonLimits({ readings });

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
