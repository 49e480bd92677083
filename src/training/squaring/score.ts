/** The drill looked back on: what was hidden, each decision, readings used, and the tolerance that was reached. */
import { type Tolerance, tolerance } from './frame.js';
import type { Drill, Ending, Remark } from './model.js';
import { faultText, names } from './remarks.js';

export interface SquaringScore {
  /** 0 to 100. */
  readonly points: number;
  readonly passed: boolean;
  readonly ended: Ending | 'open';
  readonly decisions: number;
  readonly readings: number;
  /** Readings that a careful person needs for what was done. */
  readonly par: number;
  /** The hidden faults, in words, and whether each was named. */
  readonly faults: readonly { readonly text: string; readonly found: boolean }[];
  readonly reached: readonly Tolerance[];
  readonly remarks: readonly Remark[];
}

/** Points from which a drill counts as evidence; a house rule of the demonstration. */
const PASS_POINTS = 75;

export function scoreSquaring(drill: Drill): SquaringScore {
  const own = drill.log.flatMap((entry) => entry.remarks);
  const readings = drill.log.filter(({ action }) => action.do === 'read' || action.do === 'bar').length;
  const decided = drill.log.filter(({ action }) =>
    ['push', 'press', 'recut', 'say', 'done', 'snag'].includes(action.do),
  );
  const count = (what: string) => drill.log.filter(({ action }) => action.do === what).length;
  const par = 14 + 4 * count('push') + 12 * count('recut');
  const faults = drill.hidden.faults.map((fault) => ({
    text: faultText(fault),
    found: drill.said.some((said) => names(said, fault)),
  }));
  const remarks: Remark[] = [
    ...own,
    ...faults
      .filter((fault) => !fault.found)
      .map(
        (fault): Remark => ({ about: 'finding', good: false, text: `Not named: ${fault.text}.`, points: -8 }),
      ),
    {
      about: 'reading',
      good: readings <= par,
      text:
        readings <= par
          ? `${readings} readings, where up to ${par} are usual for what was done.`
          : `${readings} readings, where ${par} would have done: more readings do not replace a decision.`,
      points: -Math.min(15, Math.max(0, readings - par)),
    },
  ];
  const points = Math.max(
    0,
    Math.min(
      100,
      remarks.reduce((total, remark) => total + remark.points, 100),
    ),
  );
  return {
    points,
    passed: drill.ended === 'right' && points >= PASS_POINTS,
    ended: drill.ended ?? 'open',
    decisions: decided.length,
    readings,
    par,
    faults,
    reached: tolerance(drill.hidden.frame, drill.nominal, drill.limits),
    remarks,
  };
}
