/** Judges several readings together: each against its size, and how far they lie apart. Nobody has to subtract. */
import { assess, decisionText, figure, signed, worst } from './decision.js';
import type { Wanted } from './fitness.js';
import { type Limit, type LimitBand, type LimitsFile, saysText } from './limits.js';
import { mean } from './stats.js';
import { between, outcomeBetween } from './steps.js';
import type { DecisionRule, Instrument, Outcome, Reading, RuleUsed, Verdict } from './types.js';
import { differenceUncertainty, readingUncertainty } from './uncertainty.js';
import { tidy } from './units.js';
import { bind, coarseNote, confirmedNote, ruleUsed } from './verdict.js';
import { measureSays } from './words.js';

interface PointAsked {
  readonly id: string;
  readonly text: string;
  readonly expect?: number;
  /** Its own, instead of those of the set. */
  readonly limits?: readonly string[];
}

export interface PointsQuestion {
  readonly points: readonly PointAsked[];
  /** By point id, repeats included; every point has at least one. */
  readonly readings: Readonly<Record<string, readonly Reading[]>>;
  /** Ids of points that lie opposite each other. */
  readonly pairs: readonly (readonly [string, string])[];
  readonly limits: readonly string[];
  readonly size?: number | undefined;
  readonly unit: string;
  readonly rule: DecisionRule;
  readonly instruments: readonly Instrument[];
  readonly wanted?: Wanted | undefined;
  readonly now: string;
}

/** A figure made of the readings, with where it may lie: by its uncertainty, or between two steps. */
interface PointFigure {
  readonly value: number;
  readonly U: number | undefined;
  readonly steps?: { readonly low: number; readonly high: number };
  readonly says: string;
  readonly size: number | undefined;
}

interface Taken {
  readonly point: PointAsked;
  readonly value: number;
  readonly instrument: Instrument | undefined;
  readonly repeats: readonly number[];
}

/** Total: never throws. A limit that does not fit the readings is not proven, and the notes say why. */
export function judgePoints(question: PointsQuestion, file: LimitsFile): Verdict {
  const { unit, rule } = question;
  const taken = question.points.map((point): Taken => {
    const readings = question.readings[point.id] ?? [];
    const repeats = readings.map(({ value }) => value);
    const id = readings[0]?.instrument;
    return {
      point,
      value: tidy(mean(repeats)),
      repeats,
      instrument: question.instruments.find((each) => each.id === id),
    };
  });
  const notes: string[] = [];
  const rules: RuleUsed[] = [];
  const outcomes: Outcome[] = [];
  const coarse: string[] = [];
  let worstFigure: PointFigure | undefined;
  const asked = limitsAsked(question);
  for (const id of asked) {
    const limit = file.byId.get(id);
    const under = taken.filter(({ point }) => (point.limits ?? question.limits).includes(id));
    const judged = (limit ? figuresOf(limit, under, question) : []).map((found) => {
      const { found: bands, missing } = bind([id], file, question.size ?? found.size);
      notes.push(...missing);
      const band = bands[0]?.band;
      return { found, band, outcome: band ? outcomeOf(found, band, rule) : ('not-proven' as const) };
    });
    if (judged.length === 0) {
      notes.push(
        limit
          ? measureSays('limit-not-these', { id, title: limit.title })
          : measureSays('limit-unknown', { id }),
      );
      outcomes.push('not-proven');
      continue;
    }
    const shown = judged.toSorted(
      (a, b) =>
        RANK.indexOf(b.outcome) - RANK.indexOf(a.outcome) ||
        Math.abs(b.found.value) - Math.abs(a.found.value),
    )[0]!;
    outcomes.push(shown.outcome);
    if (!shown.band || !limit) continue;
    worstFigure ??= shown.found;
    rules.push(
      ruleUsed(limit, shown.band, shown.outcome, saysText(shown.found.says, shown.band, limit.unit)),
    );
    if (shown.outcome === 'pass' && shown.found.U !== undefined)
      coarse.push(
        ...coarseNote(shown.found.U, unit, [{ limit, band: shown.band }], rule, question, (other) =>
          uncertaintyOf(limit.of, { ...taken[0]!, instrument: other, repeats: [] }, taken[0]!.value),
        ),
      );
  }
  const confirmed = Object.values(question.readings).some((list) => list.some((each) => each.confirmed));
  const U = worstFigure?.U;
  const bySteps = taken.some(({ instrument }) => instrument?.steps);
  return {
    outcome: worst(outcomes),
    ...(worstFigure ? { value: worstFigure.value, unit } : {}),
    ...(U === undefined ? {} : { uncertainty: U }),
    rules,
    notes: [
      ...new Set(notes),
      ...(asked.length === 0
        ? [measureSays('no-limit')]
        : [bySteps ? measureSays('rule-steps') : decisionText(rule, U, unit)]),
      ...confirmedNote(confirmed),
      ...new Set(coarse),
    ],
  };
}

/** The limits of the set, and those of single points. */
const limitsAsked = ({ limits, points }: PointsQuestion): readonly string[] => [
  ...new Set([...limits, ...points.flatMap((point) => point.limits ?? [])]),
];

const RANK: readonly Outcome[] = ['pass', 'not-proven', 'fail'];

const outcomeOf = ({ value, U, steps }: PointFigure, band: LimitBand, rule: DecisionRule): Outcome =>
  steps ? outcomeBetween(steps, band) : assess(value, U, band, rule);

function uncertaintyOf(of: Limit['of'], { instrument, repeats }: Taken, at: number): number {
  if (!instrument) return 0;
  if (of === 'value' || of === 'deviation') return readingUncertainty(instrument, at, repeats).U;
  const one = { instrument, value: at, repeats };
  return differenceUncertainty(one, one).U;
}

function figuresOf(limit: Limit, taken: readonly Taken[], question: PointsQuestion): PointFigure[] {
  const { unit } = question;
  // Readings of unlike nominal sizes are compared by how far each lies from its own.
  const unlike = new Set(taken.map(({ point }) => point.expect)).size > 1;
  const offOf = ({ point }: Taken): number => (unlike ? (point.expect ?? 0) : 0);
  switch (limit.of) {
    case 'value':
    case 'deviation':
      return taken.flatMap(({ point, value, instrument, repeats }): PointFigure[] => {
        const less = limit.of === 'value' ? 0 : point.expect;
        if (less === undefined) return [];
        const figured = tidy(value - less);
        const steps = instrument?.steps && between(instrument, value);
        return [
          {
            value: figured,
            U: steps || !instrument ? undefined : readingUncertainty(instrument, value, repeats).U,
            ...(steps ? { steps: { low: steps.low - less, high: steps.high - less } } : {}),
            size: point.expect,
            says:
              limit.of === 'value'
                ? `${point.text} ${figure(value)} ${unit}`
                : measureSays('says-point-from', {
                    point: point.text,
                    off: signed(figured),
                    unit,
                    size: figure(less),
                  }),
          },
        ];
      });
    case 'spread': {
      const rising = taken.toSorted((a, b) => a.value - offOf(a) - b.value + offOf(b));
      const [least, most] = [rising[0], rising.at(-1)];
      return least && most && least !== most ? [apart(most, least, unit, true, offOf)] : [];
    }
    case 'pairs':
      return question.pairs.flatMap(([one, other]): PointFigure[] => {
        const a = taken.find(({ point }) => point.id === one);
        const b = taken.find(({ point }) => point.id === other);
        return a && b ? [apart(a, b, unit, true, offOf)] : [];
      });
    case 'rise':
      return taken.length >= 2 ? [apart(taken[0]!, taken[1]!, unit, false, offOf)] : [];
    case 'area':
      return taken.length >= 2 ? [areaOf(taken[0]!, taken[1]!)] : [];
    default:
      return [];
  }
}

/** Width by height, m2; its U by the law of propagation for a product (JCGM 100, 5.1.2). */
function areaOf(first: Taken, second: Taken): PointFigure {
  const value = tidy((first.value * second.value) / 1e6);
  const uncertainty = ({ instrument, value: at, repeats }: Taken): number =>
    instrument ? readingUncertainty(instrument, at, repeats).U : 0;
  return {
    value,
    U: Math.hypot(second.value * uncertainty(first), first.value * uncertainty(second)) / 1e6,
    size: undefined,
    says: measureSays('says-area', {
      w: figure(first.value),
      h: figure(second.value),
      area: figure(value),
    }),
  };
}

/**
 * The difference of two readings.
 * @param either whether only its size counts
 * @param offOf what each is compared from
 */
function apart(
  first: Taken,
  second: Taken,
  unit: string,
  either: boolean,
  offOf: (taken: Taken) => number,
): PointFigure {
  const offFirst = first.value - offOf(first);
  const [more, less] = either && offFirst < second.value - offOf(second) ? [second, first] : [first, second];
  const nominal = offOf(more) - offOf(less);
  const value = tidy(more.value - less.value - nominal);
  const [a, b] = [more.instrument, less.instrument];
  const U =
    a && b
      ? differenceUncertainty(
          { instrument: a, value: more.value, repeats: more.repeats },
          { instrument: b, value: less.value, repeats: less.repeats },
        ).U
      : undefined;
  const size = more.point.expect ?? less.point.expect;
  const from = (taken: Taken): string =>
    offOf(taken) === 0
      ? figure(taken.value)
      : `${figure(taken.value)} (${signed(taken.value - offOf(taken))})`;
  const says = measureSays('says-minus', {
    more: more.point.text,
    a: from(more),
    less: less.point.text,
    b: from(less),
    apart: figure(value),
    unit,
  });
  if (!a?.steps || !b?.steps) return { value, U, size, says };
  const [high, low] = [between(a, more.value), between(b, less.value)];
  const least = high.low - low.high - nominal;
  return {
    value,
    U: undefined,
    steps: { low: either ? Math.max(0, least) : least, high: high.high - low.low - nominal },
    size,
    says,
  };
}
