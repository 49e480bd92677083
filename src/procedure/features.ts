/** Features of one unit: who makes which, what a name means for a step, and whether the graph can be walked. */
import type { Problem } from '../base/problem.js';
import type { ContextValues } from '../window/context.js';
import { raise } from './messages.js';
import { type Check, EVERYTHING, type Procedure, type Step, stepsOf } from './model.js';
import { familyOf } from './template.js';
import type { RouteStep } from './types.js';

/** A step for one item, before its texts are filled. */
export interface Instance {
  readonly step: Step;
  readonly item?: string;
  readonly values: ContextValues;
  /** Those that the unit gets. */
  readonly checks: readonly Check[];
}

interface Made {
  readonly id: string;
  readonly item: string | undefined;
  readonly family: string;
  /** Place in the walk of the step that makes it. */
  readonly at: number;
}

/** The features that one unit has: a name that nothing makes for this unit (a sash in a fixed window) is simply absent. */
export class FeatureBook {
  readonly #made = new Map<string, Made[]>();
  readonly #order = new Map<Instance, number>();

  constructor(instances: readonly Instance[]) {
    instances.forEach((instance, at) => {
      this.#order.set(instance, at);
      const { step, item } = instance;
      for (const feature of step.makes) {
        const made = this.#made.get(feature) ?? [];
        made.push({
          id: item === undefined ? feature : `${feature}@${item}`,
          item,
          family: familyOf(step.each),
          at,
        });
        this.#made.set(feature, made);
      }
    });
  }

  /** The same item's feature where both are done for lights (or dividers); every instance otherwise. */
  resolve(feature: string, instance: Instance): string[] {
    const made = this.#made.get(feature) ?? [];
    const family = familyOf(instance.step.each);
    const fits = (m: Made) =>
      m.item === undefined || m.family !== family || instance.item === undefined || m.item === instance.item;
    return made.filter(fits).map((m) => m.id);
  }

  resolveAll(features: readonly string[], instance: Instance): string[] {
    const at = this.#order.get(instance) ?? 0;
    const all = features.flatMap((feature) =>
      feature === EVERYTHING
        ? [...this.#made.values()]
            .flat()
            .filter((m) => m.at < at)
            .map((m) => m.id)
        : this.resolve(feature, instance),
    );
    return [...new Set(all)];
  }
}

/**
 * A route can be walked in its order: each feature has one maker, and a step rests only on features made before it
 * and in stages that its own stage comes after. What can be walked so has no ring.
 */
export function orderProblems(procedure: Procedure, steps: readonly RouteStep[]): Problem[] {
  const place = new Map(stepsOf(procedure).map((step) => [step.id, step.place]));
  const made = new Map<string, number>();
  const found: Problem[] = [];
  steps.forEach((step, at) => {
    for (const feature of step.makes)
      if (made.has(feature))
        found.push(
          raise(
            'procedure.two-makers',
            `"${feature}" is made by "${steps[made.get(feature)!]!.id}" and by "${step.id}".`,
            place.get(step.base),
          ),
        );
      else made.set(feature, at);
  });
  steps.forEach((step, at) => {
    for (const feature of restsOf(step))
      if ((made.get(feature) ?? -1) >= at)
        found.push(
          raise(
            'procedure.rests-ahead',
            `"${step.id}" rests on "${feature}", made by "${steps[made.get(feature)!]!.id}".`,
            place.get(step.base),
          ),
        );
  });
  return found;
}

/** Everything a step rests on, by its own word or one of its checks'. */
export const restsOf = (step: RouteStep): string[] => [
  ...new Set([...step.rests, ...step.checks.flatMap((check) => check.rests)]),
];

/**
 * Steps that making `stepId` again re-opens, by the features alone: those that rest on what it makes, and so on
 * through what those make.
 */
export function reopenedBy(steps: readonly RouteStep[], stepId: string): string[] {
  const start = steps.find((step) => step.id === stepId);
  const moved = new Set(start?.makes ?? []);
  const out: string[] = [];
  for (const step of steps) {
    if (step === start || !restsOf(step).some((feature) => moved.has(feature))) continue;
    out.push(step.id);
    for (const feature of step.makes) moved.add(feature);
  }
  return out;
}
