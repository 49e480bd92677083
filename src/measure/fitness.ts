/** Which instrument can take a reading, and whether it is good enough for the limits that judge it. */
import { isOverdue } from './instruments.js';
import type { DecisionRule, FigureUnit, Instrument, InstrumentKind, Quantity } from './types.js';
import { differenceUncertainty, readingUncertainty } from './uncertainty.js';
import { figureUnit } from './units.js';

/** What a reading asks of an instrument. */
export interface Wanted {
  readonly quantity: Quantity;
  readonly unit: FigureUnit;
  /** Kinds it must be one of; empty if any that measures the quantity will do. */
  readonly kinds: readonly InstrumentKind[];
}

export const measuresIt = (instrument: Instrument, { quantity, unit, kinds }: Wanted): boolean =>
  instrument.measures.includes(quantity) &&
  figureUnit(instrument.unit) === unit &&
  (kinds.length === 0 || kinds.includes(instrument.kind));

/** Those that would do, in date, in the workshop's order. `at`: the figure expected, which must be in range. */
export const wouldDo = (
  instruments: readonly Instrument[],
  wanted: Wanted,
  now: string,
  at?: number,
): Instrument[] =>
  instruments.filter(
    (each) => measuresIt(each, wanted) && !isOverdue(each, now) && (at === undefined || inRange(each, at)),
  );

/** Whether it shows such a figure at all. @param value with the offset applied */
function inRange({ range, steps, offset }: Instrument, value: number): boolean {
  const shown = value - offset;
  if (steps) return shown <= steps.at(-1)! + 1e-6;
  return range === undefined || (shown >= range.from - 1e-6 && shown <= range.to + 1e-6);
}

interface Zone {
  readonly low?: number | undefined;
  readonly high?: number | undefined;
}

/**
 * The width of a limit that a figure's uncertainty is held against: half of a zone with two ends; of "at most", all of
 * it, since a gap or a difference is never below 0. Infinite for "at least".
 */
export function zoneOf({ low, high }: Zone): number {
  if (high === undefined) return Number.POSITIVE_INFINITY;
  return low === undefined ? high : (high - low) / 2;
}

/**
 * Whether a figure with this expanded uncertainty can be proven within the limit. Under a guarded rule the guard band
 * must leave something of the zone; under simple acceptance a pass by a U as wide as the zone says nothing.
 */
export function supportedBy(U: number, band: Zone, rule: DecisionRule): boolean {
  const factor = rule.kind === 'guarded' ? rule.factor : 1;
  return factor * U < zoneOf(band) - 1e-9;
}

/** U of one reading at a figure, or of the difference of two near it. By steps: the largest step near the figure. */
export function foreseenU(instrument: Instrument, at: number, difference: boolean): number {
  if (instrument.steps) return largestStep(instrument.steps, Math.abs(at));
  const one = { instrument, value: at };
  return difference ? differenceUncertainty(one, one).U : readingUncertainty(instrument, at).U;
}

function largestStep(steps: readonly number[], at: number): number {
  const all = [0, ...steps];
  const above = all.findIndex((step) => step > at);
  const upper = above < 0 ? all.length - 1 : above;
  return all[upper]! - all[upper - 1]!;
}
