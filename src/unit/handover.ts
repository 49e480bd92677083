/** Hand-over at the end of a shift: what is open, held, curing and half done. The lines of one unit as it stands. */
import { parkedFor } from './board.js';
import { heldSteps } from './next.js';
import type { UnitState } from './unitstate.js';

export interface HandoverLine {
  readonly job: string;
  readonly unit: string;
  readonly step: string | null;
  readonly text: string;
}

export interface Handover {
  readonly at: string;
  /** Steps begun and not done. */
  readonly halfDone: readonly HandoverLine[];
  readonly held: readonly HandoverLine[];
  readonly curing: readonly HandoverLine[];
  /** Open times that run, the soonest first. */
  readonly running: readonly HandoverLine[];
  readonly snags: readonly HandoverLine[];
  readonly parked: readonly HandoverLine[];
  /** Notes since a moment (the shift's beginning). */
  readonly notes: readonly HandoverLine[];
}

/** One unit's line; the page says of which unit. */
export interface UnitLine {
  readonly step: string | null;
  readonly text: string;
}

/** With when it ends, so that lines of several units can be put in order. */
interface TimedLine extends UnitLine {
  readonly until: string;
}

/** Lines by heading. */
export interface UnitLines {
  readonly halfDone: readonly UnitLine[];
  readonly held: readonly UnitLine[];
  readonly curing: readonly TimedLine[];
  readonly running: readonly TimedLine[];
  readonly snags: readonly UnitLine[];
  readonly parked: readonly UnitLine[];
}

export function linesOf(state: UnitState): UnitLines {
  if (state.finished || state.scrapped)
    return { halfDone: [], held: [], curing: [], running: [], snags: [], parked: [] };
  const timers = (wanted: UnitState['timers'][number]['kind']): TimedLine[] =>
    state.timers.flatMap(({ kind, step, text, until }) => (kind === wanted ? [{ step, text, until }] : []));
  return {
    halfDone: [...state.steps.values()].flatMap(({ step, status, checks }) => {
      if (status !== 'begun' && status !== 'failed' && status !== 'stale') return [];
      const open = checks.filter(({ holds }) => !holds).length;
      return [
        { step: step.id, text: `${step.title}: ${WORDS[status]}, ${open} of ${checks.length} checks open` },
      ];
    }),
    held: heldSteps(state).map(({ step }) => ({
      step: step.id,
      text: `${step.title}: ${step.hold!.title} waits for release`,
    })),
    curing: timers('not-before'),
    running: timers('not-after'),
    snags: state.snags.flatMap(({ open, n, raised, decided }) => {
      const become = decided ? `to ${decided.disposition}` : 'not decided';
      return open
        ? [{ step: raised.step ?? null, text: `snag ${n} (${raised.severity}): ${raised.text}; ${become}` }]
        : [];
    }),
    parked: state.parked ? [{ step: null, text: parkedFor(state) }] : [],
  };
}

const WORDS = { begun: 'half done', failed: 'a check failed', stale: 'to be done again' } as const;
