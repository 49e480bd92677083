/**
 * Readings by steps: feelers and stepped gauges. What is typed is the largest step that enters; the figure lies from
 * there up to the next step, which did not enter.
 */
import { figure } from './decision.js';
import type { LimitBand } from './limits.js';
import type { Instrument, Outcome } from './types.js';
import { measureSays } from './words.js';

export interface Between {
  /** The step that enters; 0 if none does. */
  readonly low: number;
  /** The next step, which does not enter; infinite above the last. */
  readonly high: number;
}

/** @param entered the largest step that enters, or 0 */
export function between({ steps = [], offset }: Instrument, entered: number): Between {
  const at = entered - offset;
  const next = steps.find((step) => step > at + 1e-6);
  return { low: entered, high: next === undefined ? Number.POSITIVE_INFINITY : next + offset };
}

const DUST = 1e-6;

/** Pass or fail only if it holds wherever between the two steps the figure lies. */
export function outcomeBetween({ low, high }: Between, band: Pick<LimitBand, 'low' | 'high'>): Outcome {
  const least = band.low ?? Number.NEGATIVE_INFINITY;
  const most = band.high ?? Number.POSITIVE_INFINITY;
  if (low >= least - DUST && high <= most + DUST) return 'pass';
  if (low > most + DUST || high <= least + DUST) return 'fail';
  return 'not-proven';
}

export function stepsText({ low, high }: Between, unit: string): string {
  const [least, most] = [figure(low), figure(high)];
  if (Number.isFinite(high))
    return low === 0
      ? measureSays('steps-none', { high: most, unit })
      : measureSays('steps-between', { low: least, high: most, unit });
  return low === 0 ? measureSays('steps-nothing') : measureSays('steps-all', { low: least, unit });
}
