/**
 * A route in another language. Ids, numbers, limits and order stay those of the original: a translation can only change
 * what is read. Untranslated text stays in the procedure's own language.
 */
import { ok, type Result } from '../base/problem.js';
import type { Procedure, Step } from './model.js';
import { makeRoute, type RouteContexts } from './route.js';
import type { Route, RouteStep } from './types.js';

/**
 * The unit's own procedure with the texts of `translated`, which was made for `current`, the workshop's present
 * version. A unit started with another version gets translations only for steps whose text is the same in both.
 */
export function inLanguage(own: Procedure, current: Procedure, translated: Procedure): Procedure {
  if (own === current) return translated;
  const stages = new Map(translated.stages.map((stage) => [stage.id, stage]));
  const before = stepsById(current);
  const steps = stepsById(translated);
  const hold = (id: string) => current.holds.get(id)?.title === own.holds.get(id)?.title;
  return {
    ...own,
    title: current.title === own.title ? translated.title : own.title,
    language: translated.language,
    deferral: current.deferral.text === own.deferral.text ? translated.deferral : own.deferral,
    holds: new Map(
      [...own.holds].map(([id, each]) => [id, hold(id) ? (translated.holds.get(id) ?? each) : each]),
    ),
    stages: own.stages.map((stage) => ({
      ...stage,
      title:
        titleOf(current, stage.id) === stage.title
          ? (stages.get(stage.id)?.title ?? stage.title)
          : stage.title,
      steps: stage.steps.map((step) => {
        const same = before.get(step.id);
        const told = steps.get(step.id);
        return same && told && written(same) === written(step) ? told : step;
      }),
    })),
  };
}

/** Keeps the steps and ids of `route`; fails with the problems of the translation's formulas. */
export function routeInLanguage(route: Route, procedure: Procedure, contexts: RouteContexts): Result<Route> {
  const told = makeRoute(procedure, contexts);
  if (!told.ok) return told;
  const steps = new Map(told.value.steps.map((step) => [step.id, step]));
  const stages = new Map(told.value.stages.map((stage) => [stage.id, stage.title]));
  return ok({
    ...route,
    stages: route.stages.map((stage) => ({ ...stage, title: stages.get(stage.id) ?? stage.title })),
    steps: route.steps.map((step) => worded(step, steps.get(step.id))),
  });
}

function worded(step: RouteStep, told: RouteStep | undefined): RouteStep {
  if (!told) return step;
  const checks = new Map(told.checks.map((check) => [check.id, check]));
  return {
    ...step,
    title: told.title,
    do: told.do,
    why: told.why,
    watch: told.watch,
    ...(told.caution === undefined ? {} : { caution: told.caution }),
    tools: told.tools,
    ...(step.hold && told.hold ? { hold: { ...step.hold, title: told.hold.title } } : {}),
    ...(step.question && told.question ? { question: { ...told.question, right: step.question.right } } : {}),
    checks: step.checks.map((check) => {
      const other = checks.get(check.id);
      if (!other) return check;
      const texts = new Map(other.choices?.map(({ id, text }) => [id, text]));
      const points = new Map(other.points?.map(({ id, text }) => [id, text]));
      return {
        ...check,
        ask: other.ask,
        ...(other.how === undefined ? {} : { how: other.how }),
        ...(check.choices
          ? { choices: check.choices.map((c) => ({ ...c, text: texts.get(c.id) ?? c.text })) }
          : {}),
        ...(check.points
          ? { points: check.points.map((p) => ({ ...p, text: points.get(p.id) ?? p.text })) }
          : {}),
      };
    }),
  };
}

const stepsById = (procedure: Procedure): Map<string, Step> =>
  new Map(procedure.stages.flatMap((stage) => stage.steps.map((step) => [step.id, step] as const)));

const titleOf = (procedure: Procedure, stage: string): string | undefined =>
  procedure.stages.find(({ id }) => id === stage)?.title;

const written = (step: Step): string => JSON.stringify(asWritten(step));

/** The data as written: formulas and templates become their text, and file positions are dropped. */
export function asWritten(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(asWritten);
  if (value === null || typeof value !== 'object') return value ?? null;
  const { text } = value as { text?: unknown };
  if (typeof text === 'string' && ('pieces' in value || 'run' in value)) return text;
  return Object.fromEntries(
    Object.entries(value).flatMap(([key, inner]) =>
      key === 'place' || inner === undefined || typeof inner === 'function' ? [] : [[key, asWritten(inner)]],
    ),
  );
}
