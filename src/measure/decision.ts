/**
 * Pass, fail or not proven: compares a figure and its uncertainty with a limit. Simple acceptance takes the figure as
 * it is; a guarded rule (ILAC-G8:2009 with w = U, ISO 14253-1:2017 with w = 0.83 U) subtracts w on each side.
 */
import type { LimitBand } from './limits.js';
import { normalBelow } from './stats.js';
import type { DecisionRule, Outcome } from './types.js';
import { measureSays } from './words.js';

/** Differences of readings carry floating-point noise; a millionth of a unit never decides. */
const DUST = 1e-6;

/** `U` is the figure's expanded uncertainty. */
export function assess(value: number, U: number | undefined, band: LimitBand, rule: DecisionRule): Outcome {
  if (rule.kind === 'guarded' && U === undefined) return 'not-proven';
  const w = guard(rule, U ?? 0);
  const low = band.low ?? Number.NEGATIVE_INFINITY;
  const high = band.high ?? Number.POSITIVE_INFINITY;
  if (value - w >= low - DUST && value + w <= high + DUST) return 'pass';
  if (value + w < low - DUST || value - w > high + DUST) return 'fail';
  return 'not-proven';
}

/** Guard band width on each side. */
export const guard = (rule: DecisionRule, U: number): number =>
  rule.kind === 'simple' ? 0 : rule.factor * U;

export function worst(outcomes: readonly Outcome[]): Outcome {
  if (outcomes.includes('fail')) return 'fail';
  return outcomes.includes('not-proven') ? 'not-proven' : 'pass';
}

/** One sentence naming the decision rule and its guard band here. */
export function decisionText(rule: DecisionRule, U: number | undefined, unit: string): string {
  const known = U === undefined ? undefined : figure(U);
  if (rule.kind === 'simple')
    return known === undefined
      ? measureSays('rule-simple')
      : measureSays('rule-simple-u', { U: known, unit });
  const named = rule.factor === 1 ? ' (ILAC-G8)' : rule.factor === 0.83 ? ' (ISO 14253-1)' : '';
  const factor = rule.factor === 1 ? 'U' : `${rule.factor} U`;
  return known === undefined
    ? measureSays('rule-guarded', { factor, named })
    : measureSays('rule-guarded-u', { factor, width: figure(guard(rule, U!)), unit, named, U: known });
}

export const NO_LIMIT = measureSays('no-limit');

/** Splits a verdict's notes, which are ordered: what the figures say, how it was decided, then what to do about it. */
export function notesInParts(notes: readonly string[]): {
  readonly says: readonly string[];
  readonly next: readonly string[];
} {
  const at = notes.findIndex((note) => note.startsWith('Decision rule: ') || note === NO_LIMIT);
  return { says: notes.slice(0, at + 1), next: notes.slice(at + 1) };
}

/** Probability that the true value is within the limits, given standard uncertainty `u` (JCGM 106, clause 7). */
export function conformance(value: number, u: number, band: LimitBand): number {
  const above = band.high === undefined ? 1 : normalBelow((band.high - value) / u);
  const below = band.low === undefined ? 0 : normalBelow((band.low - value) / u);
  return above - below;
}

/** A figure for use in a sentence: at most two decimals, no trailing zeros. */
export const figure = (value: number): string => String(Math.round(value * 100) / 100 + 0);

/** With its sign: "+1.5", "-0.3", "0". */
export const signed = (value: number): string => (value > 0.005 ? `+${figure(value)}` : figure(value));
