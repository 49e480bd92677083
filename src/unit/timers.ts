/** Cure and open times, from events alone: they survive restarts, and noticed wall-clock jumps are removed. */
import { utcText } from '../base/wallclock.js';
import { type FoldState, timeOf } from './foldstate.js';
import type { FeatureLink, Graph } from './graph.js';
import type { StepStanding } from './stale.js';

export interface Timer {
  readonly kind: 'not-before' | 'not-after';
  /** End time on the current wall clock, UTC. */
  readonly until: string;
  readonly minutes: number;
  readonly maker: string;
  readonly makerTitle: string;
  /** not-after: every check passed once before the deadline, so only a reading is being repeated. */
  readonly keptInTime: boolean;
}

/** Timers of an unfinished step, once the event that starts them has happened. */
export function timersOf(
  standing: StepStanding,
  marks: FoldState,
  at: ReadonlyMap<string, StepStanding>,
): Timer[] {
  const { step } = standing.node;
  if (standing.done || (!step.notBefore && !step.notAfter)) return [];
  const out: Timer[] = [];
  const { notBefore, notAfter } = step;
  const cure = notBefore && cureOf(notBefore, marks, at);
  if (cure) out.push(timer('not-before', cure, notBefore, marks, false));
  const open = notAfter && openTimeOf(notAfter, marks, at);
  if (open) {
    const kept =
      standing.marks !== undefined &&
      standing.marks.madeAt > open.maker.marks!.madeAt &&
      step.checks.every((check) =>
        standing
          .marks!.checks.get(check.id)
          ?.answers.some(
            (mark) =>
              mark.event.n > standing.marks!.madeAt &&
              mark.event.verdict.outcome === 'pass' &&
              timeOf(mark) <= open.end,
          ),
      );
    out.push(timer('not-after', open, notAfter, marks, kept));
  }
  return out;
}

/**
 * Whether what a check measures has set by a given time (steady scale, ms): some open or cure time in the route has
 * ended for a feature that the check's step depends on, directly or indirectly. After that nothing there may be forced.
 */
export function hasSet(
  check: string,
  marks: FoldState,
  at: ReadonlyMap<string, StepStanding>,
  now: number,
): boolean {
  const under = featuresUnder(check, marks.graph);
  const over = (span: Span | undefined, endOf: typeof cureOf): boolean =>
    // What a check depends on is made before the check is asked, so its timers are running.
    span !== undefined && under.has(span.feature) && endOf(span, marks, at)!.end <= now;
  return marks.route.steps.some(
    ({ notBefore, notAfter }) => over(notBefore, cureOf) || over(notAfter, openTimeOf),
  );
}

/** Features that a check, its step, and the steps that made those depend on. */
function featuresUnder(check: string, graph: Graph): ReadonlySet<string> {
  const found = new Set<string>();
  const visit = (links: readonly FeatureLink[]): void => {
    for (const { step, feature } of links) {
      if (found.has(feature)) continue;
      found.add(feature);
      visit(graph.nodes.get(step)!.restsOn);
    }
  };
  const { node, index } = graph.checks.get(check)!;
  visit(node.restsOn);
  visit(node.checkRestsOn[index]!);
  return found;
}

interface Span {
  readonly feature: string;
  readonly minutes: number;
}

/** A running timer and the step that started it. `end` is on the steady scale, ms. */
interface Running {
  readonly maker: StepStanding;
  readonly end: number;
}

/** Cure time runs from when the work was finished: the last answer of the step that makes the feature. */
function cureOf(span: Span, marks: FoldState, at: ReadonlyMap<string, StepStanding>): Running | undefined {
  const maker = makerOf(span, marks, at);
  return maker?.all ? { maker, end: maker.lastTime + span.minutes * 60_000 } : undefined;
}

/** Open time runs from when the work began: the first bead of sealant is the oldest. */
function openTimeOf(
  span: Span,
  marks: FoldState,
  at: ReadonlyMap<string, StepStanding>,
): Running | undefined {
  const maker = makerOf(span, marks, at);
  return maker?.marks && { maker, end: maker.marks.madeTime + span.minutes * 60_000 };
}

/** Undefined if no step of the unit makes the feature. */
function makerOf(
  { feature }: Span,
  { graph }: FoldState,
  at: ReadonlyMap<string, StepStanding>,
): StepStanding | undefined {
  const maker = graph.makerOf.get(feature);
  return maker === undefined ? undefined : at.get(maker);
}

function timer(
  kind: Timer['kind'],
  { maker, end }: Running,
  { minutes }: Span,
  marks: FoldState,
  keptInTime: boolean,
): Timer {
  return {
    kind,
    until: iso(end + marks.shift),
    minutes,
    maker: maker.node.step.id,
    makerTitle: maker.node.step.title,
    keptInTime,
  };
}

export const iso = (time: number): string => new Date(time).toISOString();

/** `2026-11-25T10:42:00.000Z` -> `10:42 UTC`, with the date if it is not the day of `now`. */
export function timeText(time: string, now: string): string {
  const whole = utcText(time);
  return time.slice(0, 10) === now.slice(0, 10) ? whole.slice(11) : whole;
}
