/**
 * Fault-finding drill: a finished virtual unit in which some steps went wrong as their `watch` texts describe. A bad
 * step fails its own checks and every later check that depends, through any number of steps, on what it made. The
 * apprentice picks checks, works back along the dependencies and names the step where the fault began.
 */
import { err, ok, type Problem, type Result } from '../base/problem.js';
import { reopenedBy, restsOf } from '../procedure/route.js';
import type { Route, RouteCheck, RouteStep } from '../procedure/types.js';
import { Chance } from './chance.js';
import { declined, trainingProblem } from './messages.js';
import { trainSays } from './words.js';

export interface FaultDrill {
  readonly seed: number;
  readonly route: Route;
  /** Step ids; hidden from the apprentice. */
  readonly hidden: readonly string[];
  /** By step id: the hidden faults that show in its checks. */
  readonly shows: ReadonlyMap<string, readonly string[]>;
  /** For each hidden fault, a late check that fails: where the trouble was noticed. */
  readonly noticed: readonly { readonly step: string; readonly check: string }[];
  readonly log: readonly FaultEntry[];
  readonly ended: boolean;
}

type FaultEntry =
  | { readonly did: 'check'; readonly check: string; readonly holds: boolean }
  | { readonly did: 'name'; readonly step: string; readonly right: boolean }
  | { readonly did: 'why'; readonly step: string; readonly watch: number; readonly right: boolean };

export type FaultAction =
  | { readonly do: 'check'; readonly check: string }
  | { readonly do: 'name'; readonly step: string }
  /** How the named step went wrong: one of the texts offered, counted from 1. */
  | { readonly do: 'why'; readonly choice: number }
  | { readonly do: 'give-up' };

export function beginFaults(
  route: Route,
  options: { readonly seed: number; readonly faults?: number },
): Result<FaultDrill> {
  const chance = Chance.seeded(options.seed);
  const reached = new Map<string, readonly string[]>();
  const reach = (step: RouteStep): readonly string[] => {
    const known = reached.get(step.id) ?? reopenedBy(route.steps, step.id).filter((id) => id !== step.id);
    reached.set(step.id, known);
    return known;
  };
  const isUsed = new Set(route.steps.flatMap((step) => restsOf(step)));
  const able = route.steps.filter(
    (step) =>
      step.watch !== '' && step.checks.length > 0 && step.makes.some((feature) => isUsed.has(feature)),
  );
  const want = options.faults ?? 3;
  if (able.length < want)
    return err(trainingProblem('train.nothing-to-ask', { unit: route.unit, count: able.length, want }));
  // At most one fault per stage, so that they can be told apart.
  const hidden: RouteStep[] = [];
  for (const step of chance.shuffled(able))
    if (hidden.length < want && !hidden.some((other) => other.stage === step.stage)) hidden.push(step);
  if (hidden.length < want)
    return err(
      trainingProblem('train.nothing-to-ask/stages', { unit: route.unit, count: hidden.length, want }),
    );
  const shows = new Map<string, string[]>();
  for (const fault of hidden)
    for (const id of [fault.id, ...reach(fault)]) shows.set(id, [...(shows.get(id) ?? []), fault.id]);
  const noticed = hidden.map((fault) => {
    const late = reach(fault)
      .map((id) => route.steps.find((step) => step.id === id)!)
      .filter((step) => step.checks.length > 0);
    // Pick where the fewest other faults show: the final inspection depends on everything, so it tells nothing.
    const mixed = (step: RouteStep) => shows.get(step.id)?.length ?? 0;
    const least = Math.min(...late.map(mixed));
    const telling = late.filter((step) => mixed(step) === least);
    const step = telling.length > 0 ? chance.pick(telling.slice(-4)) : fault;
    return { step: step.id, check: chance.pick(step.checks).id };
  });
  return ok({
    seed: options.seed,
    route,
    hidden: hidden.map((step) => step.id),
    shows,
    noticed,
    log: [],
    ended: false,
  });
}

export function actFaults(
  drill: FaultDrill,
  action: FaultAction,
): { readonly drill: FaultDrill; readonly says: readonly string[] } | { readonly problem: Problem } {
  if (drill.ended) return { drill, says: [trainSays('drill-over')] };
  const log = (entry: FaultEntry): FaultDrill => {
    const entries = [...drill.log, entry];
    return {
      ...drill,
      log: entries,
      ended: found(entries).length === drill.hidden.length && !open(drill, entries),
    };
  };
  switch (action.do) {
    case 'check': {
      const at = findCheck(drill.route, action.check);
      if (!at) return declined('train.action', { unit: drill.route.unit, check: action.check });
      // A found fault counts as fixed at once, so that faults hidden behind each other can be told apart.
      const mended = found(drill.log);
      const faults = (drill.shows.get(at.step.id) ?? []).filter((id) => !mended.includes(id));
      const holds = faults.length === 0;
      return {
        drill: log({ did: 'check', check: at.check.id, holds }),
        says: [
          trainSays(holds ? 'holds-at' : 'does-not-hold-at', { ask: at.check.ask }),
          ...(holds ? [] : [restsText(at.step.id, makers(drill.route, at.step))]),
        ],
      };
    }
    case 'name': {
      const step = drill.route.steps.find((each) => each.id.toLowerCase() === action.step.toLowerCase());
      if (!step) return declined('train.action/step', { unit: drill.route.unit, step: action.step });
      if (found(drill.log).includes(step.id))
        return { drill, says: [trainSays('found-already', { step: step.id })] };
      const right = drill.hidden.includes(step.id);
      const next = log({ did: 'name', step: step.id, right });
      return {
        drill: next,
        says: right
          ? [
              trainSays('yes-begins-how', { step: step.title }),
              ...offers(next, step).map((text, i) => `  ${i + 1} ${text}`),
            ]
          : [
              trainSays(
                (drill.shows.get(step.id) ?? []).some((id) => !found(drill.log).includes(id))
                  ? 'no-only-shows'
                  : 'no-done-right',
                { step: step.title },
              ),
            ],
      };
    }
    case 'why': {
      const step = openStep(drill);
      if (!step) return declined('train.action/nothing');
      const offered = offers(drill, step);
      const picked = offered[action.choice - 1];
      if (picked === undefined)
        return declined('train.action/answer', { choice: action.choice, count: offered.length });
      const right = picked === step.watch;
      return {
        drill: log({ did: 'why', step: step.id, watch: action.choice, right }),
        says: [right ? trainSays('answer-right') : trainSays('answer-no', { watch: step.watch }), step.why],
      };
    }
    case 'give-up':
      return {
        drill: { ...drill, ended: true },
        says: drill.hidden
          .filter((id) => !found(drill.log).includes(id))
          .map((id) => {
            const step = drill.route.steps.find((each) => each.id === id)!;
            return trainSays('fault-was', { step: step.id, step2: step.title, watch: step.watch });
          }),
      };
  }
}

/** The step's own watch text among those of other steps, shuffled. */
export function offers(drill: FaultDrill, step: RouteStep): string[] {
  const others = [
    ...new Set(
      drill.route.steps
        .filter((each) => each.watch !== '' && each.watch !== step.watch)
        .map((each) => each.watch),
    ),
  ];
  const chance = Chance.seeded(drill.seed + drill.route.steps.indexOf(step) + 1);
  return chance.shuffled([step.watch, ...chance.shuffled(others).slice(0, 2)]);
}

const found = (log: readonly FaultEntry[]): string[] =>
  log.flatMap((entry) => (entry.did === 'name' && entry.right ? [entry.step] : []));

/** The step found whose cause has not been answered yet. */
export function openStep(drill: FaultDrill): RouteStep | undefined {
  const answered = new Set(drill.log.flatMap((entry) => (entry.did === 'why' ? [entry.step] : [])));
  const id = found(drill.log).find((each) => !answered.has(each));
  return drill.route.steps.find((step) => step.id === id);
}

const open = (drill: FaultDrill, log: readonly FaultEntry[]): boolean =>
  openStep({ ...drill, log }) !== undefined;

/** Steps whose work this step's checks depend on directly. */
export function makers(route: Route, step: RouteStep): string[] {
  const rests = new Set([...step.rests, ...step.checks.flatMap((check) => check.rests)]);
  return route.steps
    .filter((each) => each.makes.some((feature) => rests.has(feature)))
    .map((each) => each.id);
}

function findCheck(
  route: Route,
  id: string,
): { readonly step: RouteStep; readonly check: RouteCheck } | undefined {
  for (const step of route.steps)
    for (const check of step.checks) if (check.id.toLowerCase() === id.toLowerCase()) return { step, check };
  return undefined;
}

export interface FaultScore {
  /** 0 to 100. */
  readonly points: number;
  readonly passed: boolean;
  readonly found: number;
  readonly of: number;
  readonly checks: number;
  /** Checks needed by somebody who halves the remaining steps each time. */
  readonly par: number;
  readonly remarks: readonly string[];
}

export function scoreFaults(drill: FaultDrill): FaultScore {
  const checks = drill.log.filter((entry) => entry.did === 'check').length;
  const right = found(drill.log).length;
  const wrong = drill.log.filter((entry) => entry.did === 'name' && !entry.right).length;
  const causes = drill.log.filter((entry) => entry.did === 'why' && !entry.right).length;
  const of = drill.hidden.length;
  const par = of * Math.ceil(Math.log2(Math.max(2, drill.route.steps.length))) * 2;
  const over = Math.max(0, checks - par);
  const remarks = [
    trainSays('faults-found-checks', { right, of, checks, par }),
    ...(wrong > 0 ? [trainSays('blamed-wrongly', { n: wrong })] : []),
    ...(causes > 0 ? [trainSays('causes-unknown', { n: causes })] : []),
    ...(over > 0 ? [trainSays('checks-more-than', { over })] : []),
  ];
  const points = Math.max(0, Math.round((100 * right) / of) - 10 * wrong - 5 * causes - Math.min(20, over));
  return { points, passed: right === of && points >= 75, found: right, of, checks, par, remarks };
}

export function faultTask(drill: FaultDrill): string[] {
  return [
    trainSays('fault-finding-drill', {
      seed: drill.seed,
      unit: drill.route.unit,
      count: drill.hidden.length,
    }),
    trainSays('end-noticed'),
    ...drill.noticed.map(
      ({ check }) =>
        `  ${trainSays('check-does-not-hold', {
          check,
          ask: findCheck(drill.route, check)!.check.ask,
        })}`,
    ),
    trainSays('choose-checks-find'),
  ];
}

const restsText = (step: string, on: readonly string[]): string =>
  on.length === 0 ? trainSays('rests-nothing', { step }) : trainSays('rests-on-made', { step, makers: on });
