/** Features: made and rested on, one maker each, no rings, and made in a stage that really comes before. */
import type { Problem } from '../../ground/problem.js';
import { raise } from '../messages.js';
import { EVERYTHING, type Procedure, type Step, stepsOf } from '../model.js';
import { comesAfter } from '../stageorder.js';

export function featureProblems(procedure: Procedure): Problem[] {
  const steps = stepsOf(procedure);
  const makers = new Map<string, Step[]>();
  for (const step of steps)
    for (const feature of step.makes) makers.set(feature, [...(makers.get(feature) ?? []), step]);
  return [
    ...twoMakers(makers),
    ...usageProblems(procedure, steps, makers),
    ...ringProblems(steps, makers),
    ...asideProblems(procedure, steps, makers),
  ];
}

type Makers = ReadonlyMap<string, readonly Step[]>;

/** What a step rests on by name, in its own list or one of its checks'. */
const namedRests = (step: Step): string[] => [
  ...new Set([...step.rests, ...step.checks.flatMap((check) => check.rests)]),
];

function twoMakers(makers: Makers): Problem[] {
  return [...makers].flatMap(([feature, [first, ...others]]) =>
    others.map((other) =>
      raise(
        'procedure.two-makers',
        `"${feature}" is made by "${first!.id}" and by "${other.id}".`,
        other.place,
      ),
    ),
  );
}

function usageProblems(procedure: Procedure, steps: readonly Step[], makers: Makers): Problem[] {
  const rested = new Set(steps.flatMap(namedRests));
  return [...procedure.features].flatMap(([feature, { title, place }]) => {
    const made = makers.has(feature);
    if (!made && rested.has(feature))
      return [raise('procedure.feature-unmade', `Nothing makes "${feature}" (${title}).`, place)];
    if (!rested.has(feature) && !isOwn(makers.get(feature), feature))
      return [raise('procedure.feature-unused', `Nothing rests on "${feature}" (${title}).`, place)];
    return [];
  });
}

/** A step that names no feature makes one called like itself; nobody has to rest on that. */
const isOwn = (makers: readonly Step[] | undefined, feature: string): boolean =>
  makers?.length === 1 && makers[0]!.id === feature;

function ringProblems(steps: readonly Step[], makers: Makers): Problem[] {
  const done = new Set<Step>();
  const found: Problem[] = [];
  const visit = (step: Step, trail: readonly Step[]): void => {
    const at = trail.indexOf(step);
    if (at >= 0) {
      const ring = [...trail.slice(at), step].map(({ id }) => id).join(', ');
      found.push(raise('procedure.feature-cycle', `In a ring: ${ring}.`, step.place));
      return;
    }
    if (done.has(step)) return;
    for (const feature of namedRests(step))
      for (const maker of makers.get(feature) ?? []) visit(maker, [...trail, step]);
    done.add(step);
  };
  for (const step of steps) visit(step, []);
  return found;
}

function asideProblems(procedure: Procedure, steps: readonly Step[], makers: Makers): Problem[] {
  const before = new Map(procedure.stages.map(({ id }) => [id, comesAfter(procedure, id)]));
  return steps.flatMap((step) =>
    namedRests(step)
      .filter((feature) => feature !== EVERYTHING)
      .flatMap((feature) => (makers.get(feature) ?? []).map((maker) => ({ feature, maker })))
      .filter(({ maker }) => maker.stage !== step.stage && !before.get(step.stage)?.has(maker.stage))
      .map(({ feature, maker }) =>
        raise(
          'procedure.rests-aside',
          `Step "${step.id}" rests on "${feature}" of stage "${maker.stage}", which stage "${step.stage}" does not come after.`,
          step.place,
        ),
      ),
  );
}
