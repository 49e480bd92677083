/**
 * Decides what is done and what is stale. A step is made at its latest `began` or `reworked` event. A check counts if
 * it was answered after that and after the latest making of everything it depends on, all of it done. A step is done when all its
 * checks count and pass, its hold was released after the last of them, and every step it depends on is itself done and
 * was made before it. So rework re-opens exactly what it must, with no list to maintain.
 */

import type { RouteStep } from '../procedure/types.js';
import {
  type AnswerMark,
  type CheckMarks,
  currentAnswer,
  type FoldState,
  type StepMarks,
  timeOf,
} from './foldstate.js';
import type { StepNode } from './graph.js';
import { readingsIn } from './sets.js';
import type { CheckState, Lot } from './types.js';

/** A step's standing from its own answers and its dependencies, before order, holds and timers are considered. */
export interface StepStanding {
  readonly node: StepNode;
  readonly marks: StepMarks | undefined;
  readonly checks: readonly CheckState[];
  readonly made: boolean;
  readonly all: boolean;
  readonly failed: boolean;
  /** Some check has an answer that counts, passing or not. */
  readonly some: boolean;
  /** Dependencies that were made after this step, or that are not done. */
  readonly moved: readonly { readonly step: string; readonly feature: string; readonly again: boolean }[];
  /** Checks whose answer is older than what they depend on, or depends on what is not done. */
  readonly staleChecks: readonly string[];
  /** The last counting answer: its event number, and its time on the steady scale in ms. */
  readonly lastAnswer: number;
  readonly lastTime: number;
  readonly released: boolean;
  readonly done: boolean;
}

/** Every step's standing, in topological order, makers first. */
export function standings(marks: FoldState): Map<string, StepStanding> {
  const out = new Map<string, StepStanding>();
  const conceded = new Map<number, number>();
  for (const [n, snag] of marks.snags) if (snag.concedes !== undefined) conceded.set(snag.concedes, n);
  const again = readingsAgain(marks);
  for (const node of marks.graph.order) out.set(node.step.id, standingOf(node, marks, out, conceded, again));
  return out;
}

/** Nothing is asked at the step: it is made by its release, each time anew. */
const isWorkedOut = ({ checks }: RouteStep): boolean => checks.every(({ kind }) => kind === 'computed');

function standingOf(
  node: StepNode,
  marks: FoldState,
  out: ReadonlyMap<string, StepStanding>,
  conceded: ReadonlyMap<number, number>,
  again: ReadonlyMap<string, number>,
): StepStanding {
  const step = marks.steps.get(node.step.id);
  const madeAt = step?.madeAt ?? 0;
  const moved: { step: string; feature: string; again: boolean }[] = [];
  let newest = madeAt;
  for (const link of node.restsOn) {
    const maker = out.get(link.step);
    const at = maker?.marks?.madeAt ?? 0;
    if (step && at > madeAt && !isWorkedOut(node.step)) moved.push({ ...link, again: true });
    else if (!maker?.done) moved.push({ ...link, again: false });
    if (at > newest) newest = at;
  }
  let all = true;
  let failed = false;
  let some = false;
  let lastAnswer = 0;
  let last: AnswerMark | undefined;
  const staleChecks: string[] = [];
  const checks = node.step.checks.map((check, i): CheckState => {
    if (check.kind === 'computed') return { id: check.id, holds: true, earlier: [] };
    const own = step?.checks.get(check.id);
    const now = currentAnswer(own);
    let since = newest;
    let ready = true;
    for (const link of node.checkRestsOn[i]!) {
      const maker = out.get(link.step);
      since = Math.max(since, maker?.marks?.madeAt ?? 0);
      if (!maker?.done) ready = false;
    }
    const fresh = now !== undefined && now.event.n > since && ready;
    if (now && !fresh) staleChecks.push(check.id);
    const concession = now && !check.safety ? conceded.get(now.event.n) : undefined;
    const passes = now?.event.verdict.outcome === 'pass' || concession !== undefined;
    const retake = fresh && (again.get(check.id) ?? 0) > now.event.n;
    const holds = fresh && passes && !retake;
    if (!holds) all = false;
    if (fresh) {
      some = true;
      if (!passes) failed = true;
      if (now.event.n > lastAnswer) {
        lastAnswer = now.event.n;
        last = now;
      }
    }
    const shown = own?.shown;
    if (shown && shown.fresh === fresh && shown.holds === holds && shown.concession === concession)
      return shown.state;
    const state = checkState(check.id, own, fresh ? now : undefined, concession, holds);
    if (own) own.shown = { fresh, holds, concession, state };
    return state;
  });
  const { hold } = node.step;
  // A step of which nothing is asked is made by its release.
  const released =
    !hold ||
    hold.release === 'checks' ||
    (step?.release !== undefined && step.release.n >= Math.max(lastAnswer, newest));
  return {
    node,
    marks: step,
    checks,
    made: step !== undefined,
    all,
    failed,
    some,
    moved,
    staleChecks,
    // Where nothing is asked, the last of what it rests on counts.
    lastAnswer: isWorkedOut(node.step) ? newest : lastAnswer,
    lastTime: last
      ? timeOf(last)
      : Math.max(0, ...node.restsOn.map((link) => out.get(link.step)?.lastTime ?? 0)),
    released,
    done: all && released && moved.length === 0,
  };
}

function checkState(
  id: string,
  own: CheckMarks | undefined,
  now: AnswerMark | undefined,
  concession: number | undefined,
  holds: boolean,
): CheckState {
  const earlier: { n: number; why: 'corrected' | 'superseded' | 'reworked' | 'stale' }[] = [];
  for (const mark of own?.answers ?? [])
    if (mark !== now) earlier.push({ n: mark.event.n, why: mark.why ?? 'stale' });
  const event = now?.event;
  return {
    id,
    ...(event
      ? {
          answered: {
            n: event.n,
            at: event.at,
            by: event.by,
            ...(event.second === undefined ? {} : { second: event.second }),
            answer: event.answer,
            verdict: event.verdict as NonNullable<CheckState['answered']>['verdict'],
            ...(event.lot ? { lot: event.lot as Lot } : {}),
            ...(event.setup === undefined ? {} : { setup: event.setup }),
            ...(event.cited ? { cited: event.cited } : {}),
            evidence: event.evidence ?? [],
            burst: event.burst ?? false,
            ...(event.overdueAllowedBy === undefined ? {} : { overdueAllowedBy: event.overdueAllowedBy }),
            ...(concession === undefined ? {} : { concession }),
          },
        }
      : {}),
    ...(own && own.reads.length > 0 ? { partial: readingsIn(own.reads) } : {}),
    holds,
    earlier,
  };
}

/** Check id -> event its new answer must follow, for snags decided as rework, repair or return. */
function readingsAgain(marks: FoldState): Map<string, number> {
  const out = new Map<string, number>();
  for (const snag of marks.snags.values()) {
    const { decided, closed, raised } = snag;
    if (closed || !decided || decided.disposition === 'concession' || decided.disposition === 'scrap')
      continue;
    for (const check of checksTouched(marks, raised))
      out.set(check, Math.max(out.get(check) ?? 0, decided.n));
  }
  return out;
}

/** Checks a snag concerns: the one named, all of the named step, or those answered with the named lot or set-up. */
export function checksTouched(
  marks: FoldState,
  raised: {
    step?: string | undefined;
    check?: string | undefined;
    touches: { lot?: string | undefined; setup?: string | undefined };
  },
): string[] {
  if (raised.check !== undefined) return marks.graph.checks.has(raised.check) ? [raised.check] : [];
  if (raised.step !== undefined)
    return marks.graph.nodes.get(raised.step)?.step.checks.map((check) => check.id) ?? [];
  const { lot, setup } = raised.touches;
  if (lot === undefined && setup === undefined) return [];
  const out: string[] = [];
  for (const step of marks.steps.values())
    for (const [id, check] of step.checks)
      if (
        check.answers.some(
          ({ event }) =>
            (lot !== undefined && event.lot?.code === lot) || (setup !== undefined && event.setup === setup),
        )
      )
        out.push(id);
  return out;
}
