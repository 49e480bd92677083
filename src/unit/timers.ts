/** Cure and open times, from events alone: they survive restarts, and noticed jumps of the wall clock are taken out. */
import { iso } from './events.js';
import { type FoldState, timeOf } from './foldstate.js';
import type { FeatureLink, Graph } from './graph.js';
import type { StepStanding } from './stale.js';

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
 * Whether what a check measures has set by a moment (steady scale, ms): any open or cure time of the route, of a feature
 * that the check's step rests on directly or through others, is over. Nothing there is to be forced any more.
 */
export function hasSet(
  check: string,
  marks: FoldState,
  at: ReadonlyMap<string, StepStanding>,
  now: number,
): boolean {
  const under = featuresUnder(check, marks.graph);
  const over = (span: Span | undefined, endOf: typeof cureOf): boolean =>
    // What a check rests on is made before the check is asked, so its times run.
    span !== undefined && under.has(span.feature) && endOf(span, marks, at)!.end <= now;
  return marks.route.steps.some(
    ({ notBefore, notAfter }) => over(notBefore, cureOf) || over(notAfter, openTimeOf),
  );
}

/** Features that a check's step, the check itself, and the steps that made those rest on. */
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

/** A time that runs, and the step that started it. `end` is on the steady scale, ms. */
interface Running {
  readonly maker: StepStanding;
  readonly end: number;
}

/** It cures from the moment the work was finished: the last answer of the step that makes the feature. */
function cureOf(span: Span, marks: FoldState, at: ReadonlyMap<string, StepStanding>): Running | undefined {
  const maker = makerOf(span, marks, at);
  return maker?.all ? { maker, end: maker.lastTime + span.minutes * 60_000 } : undefined;
}

/** Open time runs from the moment the work was begun: the first bead of sealant is the oldest. */
function openTimeOf(
  span: Span,
  marks: FoldState,
  at: ReadonlyMap<string, StepStanding>,
): Running | undefined {
  const maker = makerOf(span, marks, at);
  return maker?.marks && { maker, end: maker.marks.madeTime + span.minutes * 60_000 };
}

/** Nobody makes a feature of which the unit has none. */
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
