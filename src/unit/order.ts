/** Which steps can be worked on now, and what blocks the others. */

import type { Problem } from '../base/problem.js';
import type { FoldState } from './foldstate.js';
import { restingOn } from './graph.js';
import { unitProblem } from './messages.js';
import { checksTouched, type StepStanding } from './stale.js';
import { type Timer, timersOf, timeText } from './timers.js';
import { holdTitle, stepTitle } from './words.js';

/** Why a step cannot be worked on. */
export type Obstacle = Problem;

export interface OrderView {
  readonly marks: FoldState;
  readonly at: ReadonlyMap<string, StepStanding>;
  readonly blocks: SnagBlocks;
  readonly refused: readonly Pick<Problem, 'id' | 'said'>[];
  /** First unfinished step of each stage; absent if all are done. */
  readonly stageOpen: ReadonlyMap<string, string>;
  /** Cache of wait-for obstacles by step id, one per state. */
  readonly waits: Map<string, Obstacle>;
  readonly now: string;
}

/** More than this many reasons per step help nobody. */
const MAX_NAMED = 4;

/** What blocks a step, most informative first; empty if it can be worked on. */
export function obstacles(standing: StepStanding, view: OrderView): Obstacle[] {
  const { node } = standing;
  const out: Obstacle[] = [];
  for (const problem of view.refused)
    out.push(unitProblem('build.refused-order', { problem: problem.said, id: problem.id }));
  const named = new Set<string>();
  const wait = (id: string) => {
    const other = view.at.get(id)!;
    if (other.done || named.has(id) || out.length >= MAX_NAMED) return;
    named.add(id);
    let obstacle = view.waits.get(id);
    if (!obstacle) {
      obstacle = waitFor(other);
      view.waits.set(id, obstacle);
    }
    out.push(obstacle);
  };
  for (const link of node.restsOn) wait(link.step);
  for (const step of node.earlier) wait(step.id);
  for (const stage of node.stagesBefore) {
    const first = view.stageOpen.get(stage.id);
    if (first !== undefined) wait(first);
  }
  if (out.length >= MAX_NAMED) return out;
  for (const n of view.blocks.work.get(node.step.id) ?? [])
    out.push(unitProblem('build.waits-for-snag/rests', { snag: n, step: stepTitle(node.step) }));
  for (const timer of timersOf(standing, view.marks, view.at)) {
    const obstacle = timerObstacle(timer, view);
    if (obstacle) out.push(obstacle);
  }
  return out;
}

/** Additional obstacles for a single check: unfinished makers of what only that check depends on. */
export function checkObstacles(standing: StepStanding, check: string, at: OrderView['at']): Obstacle[] {
  const index = standing.node.step.checks.findIndex((each) => each.id === check);
  return standing.node.checkRestsOn[index]!.flatMap((link) => {
    const maker = at.get(link.step)!;
    return maker.done ? [] : [waitFor(maker)];
  });
}

function waitFor(other: StepStanding): Obstacle {
  const { step } = other.node;
  if (other.all && !other.released && other.moved.length === 0 && step.hold)
    return unitProblem('build.waits-for-hold', {
      hold: holdTitle(step.hold),
      step: stepTitle(step),
      id: step.id,
    });
  return unitProblem('build.waits-for-step', { step: stepTitle(step), id: step.id });
}

function timerObstacle(timer: Timer, view: OrderView): Obstacle | undefined {
  const when = timeText(timer.until, view.now);
  if (timer.kind === 'not-before' && view.now < timer.until)
    return unitProblem('build.waits-for-cure', {
      step: stepTitle({ id: timer.maker, title: timer.makerTitle }),
      minutes: timer.minutes,
      when,
    });
  if (timer.kind === 'not-after' && view.now > timer.until && !timer.keptInTime)
    return unitProblem('build.open-time-over', {
      step: stepTitle({ id: timer.maker, title: timer.makerTitle }),
      minutes: timer.minutes,
      when,
      id: timer.maker,
    });
  return undefined;
}

// What open snags block: working on steps that depend on what they touch, and releasing those.

export interface SnagBlocks {
  /** Step -> snags that block work on it. */
  readonly work: ReadonlyMap<string, readonly number[]>;
  /** Step -> snags that block releasing its hold. */
  readonly release: ReadonlyMap<string, readonly number[]>;
}

const NONE: SnagBlocks = { work: new Map(), release: new Map() };

export function snagBlocks(marks: FoldState): SnagBlocks {
  const open = [...marks.snags.values()].filter((snag) => !snag.closed);
  if (open.length === 0) return NONE;
  const work = new Map<string, number[]>();
  const release = new Map<string, number[]>();
  const add = (map: Map<string, number[]>, step: string, n: number) => {
    const list = map.get(step);
    if (!list) map.set(step, [n]);
    else if (!list.includes(n)) list.push(n);
  };
  for (const { raised, decided } of open) {
    const touched = stepsTouched(marks, raised);
    if (touched.length === 0) {
      // The whole unit is snagged: no work until the snag is decided, no release until it is closed.
      for (const { id } of marks.route.steps) {
        if (!decided) add(work, id, raised.n);
        add(release, id, raised.n);
      }
      continue;
    }
    for (const step of touched) {
      add(release, step, raised.n);
      for (const { step: above } of restingOn(marks.route, step)) {
        if (touched.includes(above)) continue;
        add(work, above, raised.n);
        add(release, above, raised.n);
      }
    }
  }
  return { work, release };
}

function stepsTouched(marks: FoldState, raised: Parameters<typeof checksTouched>[1]): string[] {
  if (raised.step !== undefined && marks.graph.nodes.has(raised.step)) return [raised.step];
  const steps = checksTouched(marks, raised).map((check) => marks.graph.checks.get(check)!.node.step.id);
  return [...new Set(steps)];
}
