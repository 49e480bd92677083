/** Cure and open times, from events alone: they survive restarts, and noticed jumps of the wall clock are taken out. */
import { iso } from './clock.js';
import { type Marks, timeOf } from './marks.js';
import type { Standing } from './stale.js';

export interface Timer {
  readonly kind: 'not-before' | 'not-after';
  /** When it ends, on the wall clock as it is now, UTC. */
  readonly until: string;
  readonly minutes: number;
  readonly maker: string;
  readonly makerTitle: string;
  /** not-after: every check of the step passed once before the time was up, so only a reading is taken again. */
  readonly keptInTime: boolean;
}

/** Timers of a step that is not done, once what starts them has happened. */
export function timersOf(standing: Standing, marks: Marks, at: ReadonlyMap<string, Standing>): Timer[] {
  const { step } = standing.node;
  if (standing.done || (!step.notBefore && !step.notAfter)) return [];
  const out: Timer[] = [];
  const { notBefore, notAfter } = step;
  if (notBefore) {
    // It cures from the moment the work was finished: the last answer of the step that makes the feature.
    const maker = at.get(marks.graph.makerOf.get(notBefore.feature) ?? '');
    if (maker?.all && maker.marks) {
      const from = maker.lastAnswer > 0 ? maker.lastTime : maker.marks.madeTime;
      out.push(timer('not-before', maker, from, notBefore.minutes, marks, false));
    }
  }
  if (notAfter) {
    // Open time runs from the moment the work was begun: the first bead of sealant is the oldest.
    const maker = at.get(marks.graph.makerOf.get(notAfter.feature) ?? '');
    if (maker?.marks) {
      const end = maker.marks.madeTime + notAfter.minutes * 60_000;
      const kept =
        standing.marks !== undefined &&
        standing.marks.madeAt > maker.marks.madeAt &&
        step.checks.every((check) =>
          standing
            .marks!.checks.get(check.id)
            ?.answers.some(
              (mark) =>
                mark.event.n > standing.marks!.madeAt &&
                mark.event.verdict.outcome === 'pass' &&
                timeOf(mark) <= end,
            ),
        );
      out.push(timer('not-after', maker, maker.marks.madeTime, notAfter.minutes, marks, kept));
    }
  }
  return out;
}

function timer(
  kind: Timer['kind'],
  maker: Standing,
  from: number,
  minutes: number,
  marks: Marks,
  keptInTime: boolean,
): Timer {
  return {
    kind,
    until: iso(from + minutes * 60_000 + marks.shift),
    minutes,
    maker: maker.node.step.id,
    makerTitle: maker.node.step.title,
    keptInTime,
  };
}
