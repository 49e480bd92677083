import type { SourceKind } from '../base/schemas.js';
import { type Message, quoted, Several } from '../base/words.js';
import { assess, conformance, decisionText, figure, guard, signed, worst } from './decision.js';
import { measuresIt, supportedBy, type Wanted } from './fitness.js';
import { instrumentText, isOverdue } from './instruments.js';
import { bandFor, type Limit, type LimitBand, type LimitsFile, saysText } from './limits.js';
import { mean } from './stats.js';
import { between, outcomeBetween, stepsText } from './steps.js';
import type { DecisionRule, Instrument, Outcome, RuleUsed, Verdict } from './types.js';
import {
  expectedU,
  readingUncertainty,
  type Temperature,
  temperatureCorrection,
  type Uncertainty,
} from './uncertainty.js';
import { figureUnit, tidy } from './units.js';
import { MEASURE_WORDS, measureSays, measureWords } from './words.js';

export interface NumberQuestion {
  /** The reading, or its repeats, whose mean is judged. mm or the check's own unit, offset applied. */
  readonly value: number | readonly number[];
  readonly expect?: number | undefined;
  /** `deviation`: the reading minus `expect` is compared with the limits; `value`: the reading itself. */
  readonly against: 'deviation' | 'value';
  /** Ids in the limits file. If empty, the number is recorded and passes. */
  readonly limits: readonly string[];
  /** Size that selects the band; defaults to `expect`. A banded limit with neither is not proven. */
  readonly size?: number | undefined;
  readonly unit?: string | undefined;
  readonly instrument?: Instrument | undefined;
  /** False if the check needs no instrument: the figure is judged as it is, and says so. Default true. */
  readonly instrumentWanted?: boolean | undefined;
  readonly rule: DecisionRule;
  readonly confirmed?: boolean | undefined;
  readonly temperature?: Temperature | undefined;
  /** The workshop's instruments and what the check asks of one, for advising which would settle a figure. */
  readonly instruments?: readonly Instrument[] | undefined;
  readonly wanted?: Wanted | undefined;
  /** The day, or a moment in UTC, to exclude overdue instruments from that advice. */
  readonly now?: string | undefined;
}

/** Total: never throws. An unknown limit or a size beyond its bands is not proven, and the notes say what to do. */
export function judgeNumber(question: NumberQuestion, file: LimitsFile): Verdict {
  const repeats = typeof question.value === 'number' ? [question.value] : question.value;
  const { instrument, against, expect = 0, temperature } = question;
  const unit = question.unit ?? 'mm';
  const read = mean(repeats);
  const correction = temperature && unit === 'mm' ? temperatureCorrection(read, temperature.celsius) : 0;
  const less = against === 'deviation' ? expect : 0;
  const judged = tidy(read + correction - less);
  const stepped = instrument?.steps && between(instrument, read);
  const uncertainty =
    instrument && !stepped ? readingUncertainty(instrument, read, repeats, temperature) : undefined;
  const rule: DecisionRule =
    instrument === undefined && question.instrumentWanted === false ? { kind: 'simple' } : question.rule;
  const size = question.size ?? question.expect;
  const bound = bind(question.limits, file, size);
  const rules = bound.found.map(({ limit, band }) =>
    ruleUsed(
      limit,
      band,
      stepped
        ? outcomeBetween({ low: stepped.low - less, high: stepped.high - less }, band)
        : assess(judged, uncertainty?.U, band, rule),
      says(against, limit, band, judged),
    ),
  );
  const outcome = worst([
    ...rules.map((used) => used.outcome),
    ...bound.missing.map((): Outcome => 'not-proven'),
  ]);
  const notes = [
    ...(repeats.length > 1
      ? [measureSays('mean-of', { n: repeats.length, figure: figure(read), unit })]
      : []),
    ...(correction === 0
      ? []
      : [measureSays('corrected', { by: signed(correction), celsius: String(temperature!.celsius) })]),
    ...bound.missing,
    ...(question.limits.length === 0
      ? [measureSays('no-limit')]
      : [stepped ? stepsText(stepped, unit) : decisionText(rule, uncertainty?.U, unit)]),
    ...confirmedNote(question.confirmed),
    ...instrumentNote(question, rule),
    ...(outcome === 'pass' && uncertainty
      ? coarseNote(uncertainty.U, unit, bound.found, rule, question, (other) => expectedU(other, read, 1))
      : []),
    ...(outcome === 'fail'
      ? []
      : unsettled(question, bound.found, rules, judged, uncertainty, repeats.length, read)),
  ];
  return {
    outcome,
    value: judged,
    unit,
    ...(uncertainty ? { uncertainty: uncertainty.U } : {}),
    rules,
    notes,
  };
}

export interface Bound {
  readonly found: readonly { readonly limit: Limit; readonly band: LimitBand }[];
  readonly missing: readonly string[];
}

export function bind(ids: readonly string[], file: LimitsFile, size: number | undefined): Bound {
  const found: { limit: Limit; band: LimitBand }[] = [];
  const missing: string[] = [];
  for (const id of ids) {
    const limit = file.byId.get(id);
    const band = limit && bandFor(limit, size);
    if (limit && band) found.push({ limit, band });
    else if (limit)
      missing.push(
        size === undefined
          ? measureSays('limit-no-size', { id })
          : measureSays('limit-no-band', { id, size: figure(size) }),
      );
    else missing.push(measureSays('limit-unknown', { id }));
  }
  return { found, missing };
}

export const ruleUsed = (limit: Limit, band: LimitBand, outcome: Outcome, sentence: string): RuleUsed => ({
  limit: limit.id,
  title: limit.title,
  says: sentence,
  ...(band.low === undefined ? {} : { low: band.low }),
  ...(band.high === undefined ? {} : { high: band.high }),
  sourceKind: limit.source.kind,
  source: limit.source.text,
  outcome,
});

export const confirmedNote = (confirmed: boolean | undefined): string[] =>
  confirmed ? [measureSays('confirmed')] : [];

export function sourceMessage({
  sourceKind,
  source,
}: {
  readonly sourceKind: string;
  readonly source: string;
}): Message {
  const id = `source-${sourceKind}`;
  return id in MEASURE_WORDS
    ? measureWords(id as `source-${SourceKind}`, { source })
    : quoted(id, `${sourceKind}: ${source}`);
}

/** A limit's source as shown on screen and in documents: "published: BS 4873:2009, 6.2". */
export function sourceText(rule: { readonly sourceKind: string; readonly source: string }): string {
  return String(sourceMessage(rule));
}

function says(against: 'deviation' | 'value', limit: Limit, band: LimitBand, judged: number): string {
  const { unit } = limit;
  return saysText(
    against === 'deviation'
      ? measureWords('says-deviation', { off: signed(judged), unit })
      : `${figure(judged)} ${unit}`,
    band,
    unit,
  );
}

function instrumentNote(question: NumberQuestion, rule: DecisionRule): string[] {
  if (question.instrument || question.limits.length === 0) return [];
  return rule.kind === 'guarded' ? [measureSays('unnamed-guarded')] : [measureSays('unnamed')];
}

/** Says of a pass that the instrument cannot support it, and which one could. */
export function coarseNote(
  U: number,
  unit: string,
  found: Bound['found'],
  rule: DecisionRule,
  { instruments = [], wanted, now }: Pick<NumberQuestion, 'instruments' | 'wanted' | 'now'>,
  expected: (instrument: Instrument) => number,
): string[] {
  const coarse = found.filter(({ band }) => !supportedBy(U, band, rule));
  if (coarse.length === 0) return [];
  const able = instruments.filter(
    (each) =>
      wanted !== undefined &&
      measuresIt(each, wanted) &&
      !(now !== undefined && isOverdue(each, now)) &&
      coarse.every(({ band }) => supportedBy(expected(each), band, rule)),
  );
  const wide = { U: figure(U), unit };
  return [
    able.length > 0
      ? measureSays('coarse-take', { ...wide, better: able.map(({ id }) => id) })
      : measureSays('coarse-none', wide),
  ];
}

function unsettled(
  question: NumberQuestion,
  found: Bound['found'],
  rules: readonly RuleUsed[],
  judged: number,
  uncertainty: Uncertainty | undefined,
  taken: number,
  read: number,
): string[] {
  const { rule, instrument } = question;
  const i = rules.findIndex((used) => used.outcome === 'not-proven');
  if (i < 0 || rule.kind !== 'guarded' || !instrument || !uncertainty) return [];
  return howToResolve({
    value: judged,
    band: found[i]!.band,
    rule,
    unit: question.unit ?? 'mm',
    u: uncertainty.u,
    taken,
    instrument,
    expected: (other, n) => expectedU(other, read, n, question.temperature),
    workshop: question.instruments ?? [],
    ...(question.wanted === undefined ? {} : { wanted: question.wanted }),
    ...(question.now === undefined ? {} : { now: question.now }),
  });
}

export interface Unsettled {
  readonly value: number;
  readonly band: LimitBand;
  readonly rule: DecisionRule & { readonly kind: 'guarded' };
  readonly unit: string;
  /** Current standard uncertainty. */
  readonly u: number;
  readonly taken: number;
  readonly instrument: Instrument;
  /** Expanded uncertainty of the figure with another instrument, or with the mean of `n` readings. */
  readonly expected: (instrument: Instrument, n: number) => number;
  readonly workshop: readonly Instrument[];
  /** What the check asks of an instrument; if absent, the current one's kind and unit. */
  readonly wanted?: Wanted;
  readonly now?: string;
}

const MOST_REPEATS = 10;

/** Sentences for a figure inside the guard band: where it stands, then what would settle it. */
export function howToResolve(open: Unsettled): string[] {
  const { band, value, rule, unit } = open;
  const inside = Math.min((band.high ?? Infinity) - value, value - (band.low ?? -Infinity));
  const probability = Math.round(conformance(value, open.u, band) * 100);
  const notes = [
    measureSays(inside >= 0 ? 'not-proven-inside' : 'not-proven-outside', {
      figure: figure(value),
      unit,
      by: figure(Math.abs(inside)),
      probability: String(probability),
    }),
  ];
  const settles = (U: number) => guard(rule, U) <= Math.abs(inside) + 1e-9;
  let n = Math.max(2, open.taken + 1);
  while (n <= MOST_REPEATS && !settles(open.expected(open.instrument, n))) n++;
  const better = open.workshop.filter(
    (other) =>
      other.id !== open.instrument.id &&
      other.steps === undefined &&
      (open.wanted
        ? measuresIt(other, open.wanted)
        : other.kind === open.instrument.kind &&
          figureUnit(other.unit) === figureUnit(open.instrument.unit)) &&
      !(open.now !== undefined && isOverdue(other, open.now)) &&
      settles(open.expected(other, 1)),
  );
  if (n <= MOST_REPEATS)
    notes.push(n === 2 ? measureSays('settle-repeat') : measureSays('settle-mean', { n }));
  if (better.length > 0)
    notes.push(
      measureSays('settle-instrument', { instruments: new Several(better.slice(0, 3).map(instrumentText)) }),
    );
  if (n > MOST_REPEATS && better.length === 0) notes.push(measureSays('settle-none'));
  return notes;
}
