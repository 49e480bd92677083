/**
 * What a route says about dependence, worked out once a route: who makes which feature, what rests on it, and which
 * stages come before which.
 */
import type { Route, RouteCheck, RouteStage, RouteStep } from '../procedure/types.js';

export interface StepNode {
  readonly step: RouteStep;
  readonly index: number;
  /** Steps that make what this step rests on, each with the feature. */
  readonly restsOn: readonly FeatureLink[];
  /** Per check (same order as `step.checks`): steps that make what the check alone rests on. */
  readonly checkRestsOn: readonly (readonly FeatureLink[])[];
  /** Steps that rest on this one as a whole. */
  readonly carries: readonly FeatureLink[];
  /** Single checks of other steps that rest on what this one makes. */
  readonly carriesChecks: readonly (FeatureLink & { readonly check: string })[];
  /** Steps of the same stage that come first: all earlier ones, but not those for another light or divider. */
  readonly earlier: readonly RouteStep[];
  /** Stages that come first, and what comes before those. */
  readonly stagesBefore: readonly RouteStage[];
}

export interface FeatureLink {
  readonly step: string;
  readonly feature: string;
}

export interface Graph {
  readonly nodes: ReadonlyMap<string, StepNode>;
  /** Makers before what rests on them; a step that rests on itself through others keeps its place. */
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

/** The stage that a unit begins with, and the one that releases it; a route has one at least. */
export const firstStage = ({ stages }: Route): string => stages[0]!.id;
export const lastStage = ({ stages }: Route): string => stages.at(-1)!.id;

/** Where a check stands in its route. */
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
        .filter((other) => other.stage === step.stage && sameItem(other, step)),
      stagesBefore: stagesBefore(step.stage, stages),
    };
    nodes.set(step.id, node);
    step.checks.forEach((check, i) => {
      checks.set(check.id, { node, index: i });
    });
  });
  return { nodes, order: makersFirst(route, nodes), checks, makerOf };
}

/** The steps for one light do not wait for those of another; a step for the whole unit waits for all. */
const sameItem = (earlier: RouteStep, step: RouteStep): boolean =>
  earlier.item === undefined || step.item === undefined || earlier.item === step.item;

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

/** What making a step again re-opens: all that rests on it, and on what that makes, and so on; and single checks that rest on it alone. */
export interface Reopened {
  readonly step: string;
  /** One plain sentence: what it rests on, and who makes that. */
  readonly why: string;
  /** Only these checks are asked again; absent where the whole step is. */
  readonly checks?: readonly string[];
}

/** All that rests on a step, whether begun or not, in walking order; without the step itself. */
export function restingOn(route: Route, stepId: string): Reopened[] {
  const { nodes } = graphOf(route);
  const whole = new Map<string, string>();
  const single = new Map<string, { why: string; checks: string[] }>();
  const queue = [stepId];
  const seen = new Set(queue);
  for (const at of queue) {
    const node = nodes.get(at);
    if (!node) continue;
    const sentence = (id: string, feature: string) =>
      `${nodes.get(id)!.step.title}: rests on ${feature}, made at ${node.step.title}.`;
    for (const { step, feature } of node.carries) {
      if (seen.has(step)) continue;
      seen.add(step);
      whole.set(step, sentence(step, feature));
      queue.push(step);
    }
    for (const { step, feature, check } of node.carriesChecks) {
      const entry = single.get(step) ?? { why: sentence(step, feature), checks: [] };
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
