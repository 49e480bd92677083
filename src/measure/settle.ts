/** "Not proven" is no dead end: what would settle it, in plain sentences. */
import { conformance, figure, guard } from './decision.js';
import { instrumentText, isOverdue } from './instruments.js';
import type { LimitBand } from './limits.js';
import type { DecisionRule, Instrument, InstrumentKind } from './types.js';
import { figureUnit } from './units.js';

export interface Unsettled {
  readonly value: number;
  readonly band: LimitBand;
  readonly rule: DecisionRule & { readonly kind: 'guarded' };
  readonly unit: string;
  /** Standard uncertainty of the figure now. */
  readonly u: number;
  /** Readings taken of it so far. */
  readonly taken: number;
  readonly instrument: Instrument;
  /** Expanded uncertainty of the figure with another instrument, or with the mean of `n` readings. */
  readonly expected: (instrument: Instrument, n: number) => number;
  readonly workshop: readonly Instrument[];
  /** Kinds the check may be read with; the kind in hand where this is empty. */
  readonly kinds: readonly InstrumentKind[];
  readonly now?: string;
}

const MOST_REPEATS = 10;

/** Sentences for a figure inside the guard band, the way out of it first. */
export function settleNotes(open: Unsettled): string[] {
  const { band, value, rule, unit } = open;
  const inside = Math.min((band.high ?? Infinity) - value, value - (band.low ?? -Infinity));
  const probability = Math.round(conformance(value, open.u, band) * 100);
  const notes = [
    `Not proven: ${figure(value)} ${unit} lies ${figure(Math.abs(inside))} ${unit} ${inside >= 0 ? 'inside' : 'outside'} the limit, ` +
      `less than the guard band. The chance that it holds is about ${probability} %.`,
  ];
  const settles = (U: number) => guard(rule, U) <= Math.abs(inside) + 1e-9;
  let n = Math.max(2, open.taken + 1);
  while (n <= MOST_REPEATS && !settles(open.expected(open.instrument, n))) n++;
  const better = open.workshop.filter(
    (other) =>
      other.id !== open.instrument.id &&
      figureUnit(other.unit) === figureUnit(open.instrument.unit) &&
      (open.kinds.length > 0 ? open.kinds.includes(other.kind) : other.kind === open.instrument.kind) &&
      !(open.now !== undefined && isOverdue(other, open.now)) &&
      settles(open.expected(other, 1)),
  );
  if (n <= MOST_REPEATS)
    notes.push(
      n === 2
        ? 'A repeat would settle it, if the mean stays where it is (readings that fall on the same mark do not help).'
        : `The mean of ${n} fresh readings would settle it, if it stays where it is (readings that fall on the same mark do not help).`,
    );
  if (better.length > 0)
    notes.push(
      `A better instrument would settle it if the figure stays: ${better.slice(0, 3).map(instrumentText).join('; ')}.`,
    );
  if (n > MOST_REPEATS && better.length === 0)
    notes.push(
      'No instrument of this workshop can settle it: put the work right, or treat it as not holding.',
    );
  return notes;
}
