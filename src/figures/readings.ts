/** What units measured, as series over all of them: each place of each check, in the order in which it was read. */

import type { Limit } from '../measure/limits.js';
import { mean } from '../measure/stats.js';

import type { RouteCheck, RouteStep } from '../procedure/types.js';
import type { JournalEvent } from '../unit/events.js';
import { placesOf, type SetReadings } from '../unit/sets.js';
import type { CheckState } from '../unit/types.js';
import type { UnitState } from '../unit/unitstate.js';

/** What is compared inside a squareness check; each keeps its sign, so that a drift to one side is seen. */
const DIFFERENCES = ['diagonals', 'widths', 'heights'] as const;
type DifferenceName = (typeof DIFFERENCES)[number];

/** What a reading is of. */
export interface Kind {
  /** `square.frame/square:diagonals`. */
  readonly key: string;
  /** Title of the step, of every light alike. */
  readonly step: string;
  /** What was read, in English; a difference by its name; undefined where the check reads one thing. */
  readonly place: string | undefined;
  /** "mm", "N", "deg". */
  readonly unit: string;
  /** How far from what was expected, or the reading itself. */
  readonly against: 'deviation' | 'value' | 'difference';
}

export interface UnitReading {
  readonly kind: Kind;
  /** Light or divider. */
  readonly item: string | undefined;
  /** UTC, ISO 8601. */
  readonly at: string;
  readonly value: number;
  readonly low: number | undefined;
  readonly high: number | undefined;
  /** Expanded uncertainty of the figure that was judged. */
  readonly uncertainty: number | undefined;
  readonly instrument: string | undefined;
  readonly setup: string | undefined;
}

type Answered = JournalEvent & { readonly kind: 'answered' };
type Judged = Pick<Answered['verdict'], 'rules'>;

/** What a limit of this id is of; undefined for one that is not known any more. */
export type KindOfLimit = (id: string) => Limit['of'] | undefined;

/**
 * The first answer to each check that stands: what the work gave before anybody mended it. One that was typed wrongly and corrected
 * does not stand.
 */
export function firstAnswer(
  check: CheckState,
  byLine: ReadonlyMap<number, JournalEvent>,
): Answered | undefined {
  const lines = [
    ...check.earlier.filter(({ why }) => why !== 'corrected').map(({ n }) => n),
    ...(check.answered && !check.answered.cited ? [check.answered.n] : []),
  ];
  const event = lines.length === 0 ? undefined : byLine.get(Math.min(...lines));
  return event?.kind === 'answered' ? event : undefined;
}

/** What this unit measured. */
export function readingsOfUnit(state: UnitState, kindOf: KindOfLimit): UnitReading[] {
  const byLine = new Map(state.events.map((event) => [event.n, event]));
  return [...state.steps.values()].flatMap(({ step, checks }) =>
    checks.flatMap((check): UnitReading[] => {
      const of = step.checks.find(({ id }) => id === check.id);
      const event = of && firstAnswer(check, byLine);
      if (!event || event.cited !== undefined) return [];
      return figuresIn(step, of, event, kindOf).map(({ value, low, high, instrument, ...kind }) => ({
        kind,
        item: step.item,
        at: event.at,
        value,
        low,
        high,
        uncertainty: event.verdict.uncertainty,
        instrument,
        setup: event.setup,
      }));
    }),
  );
}

/** Of every light or divider alike: `Measure the glass of L…`. */
export const titleOf = ({ title, item }: RouteStep): string =>
  item === undefined ? title : title.replaceAll(item, item.replace(/\d+$/, '…'));

interface Figure extends Kind {
  readonly value: number;
  readonly low: number | undefined;
  readonly high: number | undefined;
  readonly instrument: string | undefined;
}

function figuresIn(step: RouteStep, check: RouteCheck, event: Answered, kindOf: KindOfLimit): Figure[] {
  const { answer, verdict } = event;
  const base = `${step.base}/${check.id.slice(check.id.lastIndexOf('/') + 1)}`;
  const unit = check.unit ?? 'mm';
  const common = { step: titleOf(step), unit };
  if (answer.kind === 'number') {
    const [first] = answer.readings;
    const value = mean(answer.readings.map((reading) => reading.value));
    const deviates = check.against === 'deviation' && check.expect !== undefined;
    return [
      {
        ...common,
        key: base,
        place: undefined,
        against: deviates ? 'deviation' : 'value',
        value: deviates ? value - check.expect! : value,
        ...limitsIn(verdict, kindOf, deviates ? 'deviation' : 'value'),
        instrument: first?.instrument,
      },
    ];
  }
  if (answer.kind !== 'points' && answer.kind !== 'square') return [];
  const readings = answer.readings as SetReadings;
  const valueAt = (key: string) => {
    const all = readings[key] ?? [];
    return all.length === 0 ? undefined : mean(all.map(({ value }) => value));
  };
  const places = placesOf(check).filter(({ time }) => time === 1);
  const each = places.flatMap((place): Figure[] => {
    const value = valueAt(place.key);
    // A set may hold limits of both kinds; what was judged tells which.
    const deviates =
      place.expect !== undefined &&
      (check.kind === 'square' ||
        check.against === 'deviation' ||
        verdict.rules.some(({ limit }) => kindOf(limit) === 'deviation'));
    // Without a nominal, a diagonal alone says nothing of the process.
    if (value === undefined || (check.kind === 'square' && !deviates)) return [];
    if (check.kind === 'square' && (place.key === 'bl_tr' || place.key === 'br_tl')) return [];
    const against = deviates ? 'deviation' : 'value';
    return [
      {
        ...common,
        key: `${base}:${place.key}`,
        place: String(place.text),
        against,
        value: deviates ? value - place.expect! : value,
        ...limitsIn(verdict, kindOf, against, place.limits),
        instrument: readings[place.key]?.[0]?.instrument,
      },
    ];
  });
  return [
    ...each,
    ...(check.kind === 'square' ? differencesIn(valueAt, readings, verdict, kindOf, base, common) : []),
  ];
}

const PAIRS: Readonly<Record<DifferenceName, readonly [string, string, Limit['of']]>> = {
  diagonals: ['br_tl', 'bl_tr', 'diagonals'],
  widths: ['top', 'bottom', 'opposite-sides'],
  heights: ['right', 'left', 'opposite-sides'],
};

function differencesIn(
  valueAt: (key: string) => number | undefined,
  readings: SetReadings,
  verdict: Judged,
  kindOf: KindOfLimit,
  base: string,
  common: { readonly step: string; readonly unit: string },
): Figure[] {
  return DIFFERENCES.flatMap((name) => {
    const [first, second, of] = PAIRS[name];
    const [a, b] = [valueAt(first), valueAt(second)];
    if (a === undefined || b === undefined) return [];
    const { high } = limitsIn(verdict, kindOf, of);
    return [
      {
        ...common,
        key: `${base}:${name}`,
        place: name,
        against: 'difference' as const,
        value: a - b,
        // A limit of the size of a difference holds on both sides.
        low: high === undefined ? undefined : -high,
        high,
        instrument: readings[first]?.[0]?.instrument,
      },
    ];
  });
}

/** The tightest of the limits of that kind that judged it. @param only its own limits, where a place has them */
function limitsIn(
  { rules }: Judged,
  kindOf: KindOfLimit,
  of: Limit['of'],
  only?: readonly string[],
): { readonly low: number | undefined; readonly high: number | undefined } {
  let low: number | undefined;
  let high: number | undefined;
  for (const rule of rules) {
    if (kindOf(rule.limit) !== of || (only && only.length > 0 && !only.includes(rule.limit))) continue;
    if (rule.low !== undefined) low = low === undefined ? rule.low : Math.max(low, rule.low);
    if (rule.high !== undefined) high = high === undefined ? rule.high : Math.min(high, rule.high);
  }
  return { low, high };
}
