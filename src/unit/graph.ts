/** A route's dependencies, computed once per route: makers of features, what depends on them, order of stages. */
import type { Route, RouteCheck, RouteStage, RouteStep } from '../procedure/types.js';
import { unitSays } from './words.js';

export interface StepNode {
  readonly step: RouteStep;
  readonly index: number;
  /** Steps that make the features this step depends on. */
  readonly restsOn: readonly FeatureLink[];
  /** Per check (same order as `step.checks`): steps that make what only that check depends on. */
  readonly checkRestsOn: readonly (readonly FeatureLink[])[];
  readonly carries: readonly FeatureLink[];
  /** Single checks of other steps that depend on what this one makes. */
  readonly carriesChecks: readonly (FeatureLink & { readonly check: string })[];
  /** Earlier steps of the same stage, except those for another light or divider, and of the same hold. */
  readonly earlier: readonly RouteStep[];
  readonly stagesBefore: readonly RouteStage[];
}

export interface FeatureLink {
  readonly step: string;
  readonly feature: string;
}

export interface Graph {
  readonly nodes: ReadonlyMap<string, StepNode>;
  /** Topological order, makers first; a step in a dependency cycle keeps its place. */
  readonly order: readonly StepNode[];
  readonly checks: ReadonlyMap<string, { readonly node: StepNode; readonly index: number }>;
  readonly makerOf: ReadonlyMap<string, string>;
}

const known = new WeakMap<Route, Graph>();

export function graphOf(route: Route): Graph {
  let graph = known.get(route);
  if (!graph) {
    graph = makeGraph(route);
    known.set(route, graph);
  }
  return graph;
}

/** The stage that a unit begins with, and the one that releases it; every route has at least one stage. */
export const firstStage = ({ stages }: Route): string => stages[0]!.id;
export const lastStage = ({ stages }: Route): string => stages.at(-1)!.id;

export function findCheck(route: Route, id: string): { step: RouteStep; check: RouteCheck } | undefined {
  const found = graphOf(route).checks.get(id);
  return found && { step: found.node.step, check: found.node.step.checks[found.index]! };
}

function makeGraph(route: Route): Graph {
  const makerOf = new Map<string, string>();
  for (const step of route.steps) for (const feature of step.makes) makerOf.set(feature, step.id);
  const stages = new Map(route.stages.map((stage) => [stage.id, stage]));
  const carries = new Map<string, FeatureLink[]>(route.steps.map((step) => [step.id, []]));
  const carriesChecks = new Map<string, (FeatureLink & { check: string })[]>(
    route.steps.map((step) => [step.id, []]),
  );

  const links = (rests: readonly string[], self: RouteStep): FeatureLink[] =>
    rests.flatMap((feature) => {
      const maker = makerOf.get(feature);
      return maker === undefined || maker === self.id ? [] : [{ step: maker, feature }];
    });

  const nodes = new Map<string, StepNode>();
  const checks = new Map<string, { node: StepNode; index: number }>();
  route.steps.forEach((step, index) => {
    const restsOn = links(step.rests, step);
    const checkRestsOn = step.checks.map((check) => links(check.rests, step));
    for (const { step: maker, feature } of restsOn) carries.get(maker)!.push({ step: step.id, feature });
    checkRestsOn.forEach((list, i) => {
      for (const { step: maker, feature } of list)
        carriesChecks.get(maker)!.push({ step: step.id, feature, check: step.checks[i]!.id });
    });
    const node: StepNode = {
      step,
      index,
      restsOn,
      checkRestsOn,
      carries: carries.get(step.id)!,
      carriesChecks: carriesChecks.get(step.id)!,
      earlier: route.steps
        .slice(0, index)
        .filter((other) => other.stage === step.stage && sameItem(other, step) && !sameWalk(other, step)),
      stagesBefore: stagesBefore(step.stage, stages),
    };
    nodes.set(step.id, node);
    step.checks.forEach((check, i) => {
      checks.set(check.id, { node, index: i });
    });
  });
  return { nodes, order: makersFirst(route, nodes), checks, makerOf };
}

/** Steps for one light do not wait for those of another; a step for the whole unit waits for all. */
const sameItem = (earlier: RouteStep, step: RouteStep): boolean =>
  earlier.item === undefined || step.item === undefined || earlier.item === step.item;

/** Steps of one hold do not wait for one another: one person releases them in one walk. */
const sameWalk = (earlier: RouteStep, step: RouteStep): boolean =>
  step.hold !== undefined && step.hold.release === undefined && earlier.hold?.id === step.hold.id;

function stagesBefore(id: string, stages: ReadonlyMap<string, RouteStage>): RouteStage[] {
  const found = new Map<string, RouteStage>();
  const visit = (stage: RouteStage) => {
    for (const before of stage.after) {
      const next = stages.get(before);
      if (!next || found.has(before) || before === id) continue;
      found.set(before, next);
      visit(next);
    }
  };
  visit(stages.get(id)!);
  return [...found.values()];
}

function makersFirst(route: Route, nodes: ReadonlyMap<string, StepNode>): StepNode[] {
  const out: StepNode[] = [];
  const seen = new Set<string>();
  const visit = (id: string) => {
    if (seen.has(id)) return;
    seen.add(id);
    const node = nodes.get(id)!;
    for (const link of node.restsOn) visit(link.step);
    for (const list of node.checkRestsOn) for (const link of list) visit(link.step);
    out.push(node);
  };
  for (const step of route.steps) visit(step.id);
  return out;
}

/** What redoing a step re-opens: everything that depends on it, transitively, including single checks. */
export interface Reopened {
  readonly step: string;
  /** One sentence: what it depends on, and which step makes that. */
  readonly why: string;
  /** Only these checks are asked again; absent if the whole step is. */
  readonly checks?: readonly string[];
}

/** Everything that depends on a step, begun or not, in walking order; excludes the step itself. */
export function restingOn(route: Route, stepId: string): Reopened[] {
  const { nodes } = graphOf(route);
  const whole = new Map<string, string>();
  const single = new Map<string, { why: string; checks: string[] }>();
  const queue = [stepId];
  const seen = new Set(queue);
  for (const at of queue) {
    const node = nodes.get(at);
    if (!node) continue;
    const sentence = (id: string) =>
      unitSays('rests-on', { step: nodes.get(id)!.step.title, maker: node.step.title });
    for (const { step } of node.carries) {
      if (seen.has(step)) continue;
      seen.add(step);
      whole.set(step, sentence(step));
      queue.push(step);
    }
    for (const { step, check } of node.carriesChecks) {
      const entry = single.get(step) ?? { why: sentence(step), checks: [] };
      if (!entry.checks.includes(check)) entry.checks.push(check);
      single.set(step, entry);
    }
  }
  const out: Reopened[] = [];
  for (const { id } of route.steps) {
    if (id === stepId) continue;
    const why = whole.get(id);
    if (why !== undefined) out.push({ step: id, why });
    else if (single.has(id)) out.push({ step: id, ...single.get(id)! });
  }
  return out;
}
