/** Which steps can be worked on now, and what blocks the others. */
import type { FoldState } from './foldstate.js';
import { restingOn } from './graph.js';
import type { BuildMessage } from './messages.js';
import { checksTouched, type StepStanding } from './stale.js';
import { type Timer, timersOf, timeText } from './timers.js';

export interface Obstacle {
  readonly id: BuildMessage;
  readonly text: string;
  readonly todo: string;
}

export interface OrderView {
  readonly marks: FoldState;
  readonly at: ReadonlyMap<string, StepStanding>;
  readonly blocks: SnagBlocks;
  readonly refused: readonly { readonly id: string; readonly text: string }[];
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
    out.push({
      id: 'build.refused-order',
      text: `The order check refuses this unit: ${problem.text}`,
      todo: `Correct the job, or let somebody who may release override "${problem.id}" with a reason.`,
    });
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
    out.push({
      id: 'build.waits-for-snag',
      text: `Snag ${n} is open and touches what ${node.step.title} rests on.`,
      todo: `Decide and close snag ${n}.`,
    });
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
    return {
      id: 'build.waits-for-hold',
      text: `The hold "${step.hold.title}" at ${step.title} (${step.id}) is not released.`,
      todo: `Let somebody with the right release ${step.id}.`,
    };
  return {
    id: 'build.waits-for-step',
    text: `${step.title} (${step.id}) comes first and is not done.`,
    todo: `Do ${step.id} first.`,
  };
}

function timerObstacle(timer: Timer, view: OrderView): Obstacle | undefined {
  const when = timeText(timer.until, view.now);
  if (timer.kind === 'not-before' && view.now < timer.until)
    return {
      id: 'build.waits-for-cure',
      text: `${timer.makerTitle} must stand ${timer.minutes} minutes; it is ready at ${when}.`,
      todo: `Wait until ${when}.`,
    };
  if (timer.kind === 'not-after' && view.now > timer.until && !timer.keptInTime)
    return {
      id: 'build.open-time-over',
      text: `The ${timer.minutes} minutes since ${timer.makerTitle} ran out at ${when}.`,
      todo: `Rework ${timer.maker} (clean off and apply anew), or raise a snag.`,
    };
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
