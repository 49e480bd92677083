/** Makes a unit's route: only the steps it needs, with its numbers filled in, in working order. */
import type { Formula } from '../base/formula.js';
import { nearest } from '../base/knownkeys.js';
import { err, ok, type Problem, type Result } from '../base/problem.js';
import type { ContextValues } from '../window/context.js';
import { procedureProblem } from './messages.js';
import {
  type Check,
  EVERYTHING,
  type Procedure,
  type Stage,
  type Step,
  stepsOf,
  type TimerRule,
} from './model.js';
import type { Each } from './schema.js';
import { thinned } from './stageorder.js';
import { familyOf, figuresOf, fill, fillSentences, type Template } from './template.js';
import type { Route, RouteCheck, RouteStage, RouteStep } from './types.js';
import { procedureWords } from './words.js';

/** Values for the names in window/context.ts: the unit's own, plus those of each light and divider. */
export interface RouteContexts {
  readonly unit: ContextValues;
  readonly lights: readonly ContextValues[];
  readonly dividers: readonly ContextValues[];
  /** The marks that a step claims, for `marks`. */
  marks?(claims: readonly string[], item: string | undefined): ContextValues;
}

/** A problem names the step whose formula failed for this unit (such as a figure the profile set lacks). */
export function makeRoute(procedure: Procedure, contexts: RouteContexts): Result<Route> {
  const problems: Problem[] = [];
  const walked = procedure.stages.map((stage) => ({
    stage,
    instances: instancesOf(stage, contexts, problems),
  }));
  const book = new FeatureBook(walked.flatMap(({ instances }) => instances));
  const kept = new Set(walked.filter(({ instances }) => instances.length > 0).map(({ stage }) => stage.id));
  const after = thinned(procedure, kept);
  const steps: RouteStep[] = [];
  const stages: RouteStage[] = [];
  for (const { stage, instances } of walked) {
    if (instances.length === 0) continue;
    const made = instances.flatMap((instance) => routeStep(procedure, instance, book, problems) ?? []);
    steps.push(...made);
    const { id, title, branch } = stage;
    stages.push({ id, title, branch, after: after.get(id) ?? [], steps: made.map((step) => step.id) });
  }
  if (problems.length > 0) return err(...oncePerReason(problems));
  if (steps.length === 0) return err(procedureProblem('procedure.empty', { procedure: procedure.name }));
  const order = orderProblems(procedure, steps);
  if (order.length > 0) return err(...order);
  const { name, version, title } = procedure;
  const unit = (contexts.unit.unit as { id: string }).id;
  return ok({ procedure: { name, version, title }, unit, stages, steps });
}

/** What is missing is missing for every formula that asks for it: told once, where it is asked first. */
function oncePerReason(problems: readonly Problem[]): Problem[] {
  const told = new Set<string>();
  return problems.filter(({ id, text }) => {
    const reason = text.slice(text.lastIndexOf('": '));
    // That a list is empty says nothing of which.
    if (id !== 'procedure.value' || reason.includes(String(procedureWords('gives-nothing')))) return true;
    const again = told.has(reason);
    told.add(reason);
    return !again;
  });
}

/** A stage's steps for this unit. Adjacent steps done per light (or divider) are walked item by item. */
function instancesOf(stage: Stage, contexts: RouteContexts, problems: Problem[]): Instance[] {
  const out: Instance[] = [];
  const add = (step: Step, own: ContextValues, item?: string): void => {
    const values =
      step.marks.length > 0 && contexts.marks ? { ...own, marks: contexts.marks(step.marks, item) } : own;
    if (!applies(step, step.when, values, problems)) return;
    const checks = step.checks.filter((check) => applies(step, check.when, values, problems));
    // A step is done when its checks are answered; a step without checks could never be done, nor the unit.
    if (checks.length > 0) out.push({ step, values, checks, ...(item === undefined ? {} : { item }) });
  };
  for (const run of runs(stage.steps)) {
    const family = familyOf(run[0]!.each);
    if (family === 'unit') {
      for (const step of run) add(step, contexts.unit);
      continue;
    }
    for (const own of family === 'light' ? contexts.lights : contexts.dividers) {
      const values = { ...contexts.unit, ...own };
      const item = values[family] as { id: string; opening?: boolean };
      for (const step of run) if (isFor(step.each, item)) add(step, values, item.id);
    }
  }
  return out;
}

function runs(steps: readonly Step[]): Step[][] {
  const out: Step[][] = [];
  for (const step of steps) {
    const last = out.at(-1);
    if (last && familyOf(last[0]!.each) === familyOf(step.each)) last.push(step);
    else out.push([step]);
  }
  return out;
}

const isFor = (each: Each, item: { opening?: boolean }): boolean =>
  each === 'sash' ? item.opening === true : each === 'fixed' ? item.opening === false : true;

function applies(step: Step, when: Formula | undefined, values: ContextValues, problems: Problem[]): boolean {
  if (!when) return true;
  return attempt(step, when.text, problems, values, () => when.run(values) === true) ?? false;
}

/** The entry of a map (`figure["lap"]`) that was probably meant. */
function meantBy(text: string, why: string, values: ContextValues): string | undefined {
  const key = /^No such key: (.*?)\.?$/.exec(why)?.[1];
  const path =
    key === undefined
      ? undefined
      : new RegExp(`([\\w.]+)\\["${key.replaceAll('.', '\\.')}"\\]`).exec(text)?.[1];
  const map = path
    ?.split('.')
    .reduce<unknown>((at, name) => (at as Record<string, unknown> | undefined)?.[name], values);
  return map instanceof Map && key !== undefined ? nearest(key, [...map.keys()].map(String)) : undefined;
}

function attempt<T>(
  step: Step,
  text: string,
  problems: Problem[],
  values: ContextValues,
  run: () => T,
): T | undefined {
  try {
    return run();
  } catch (error) {
    const why = error instanceof Error ? error.message.split('\n')[0]! : String(error);
    const near = meantBy(text, why, values);
    problems.push(
      near === undefined
        ? procedureProblem('procedure.value', { step: step.id, text, why }, step.place)
        : procedureProblem('procedure.value/near', { step: step.id, text, why, near }, step.place),
    );
    return undefined;
  }
}

function routeStep(
  procedure: Procedure,
  instance: Instance,
  book: FeatureBook,
  problems: Problem[],
): RouteStep | undefined {
  const { step, item, values } = instance;
  const before = problems.length;
  const text = (template: Template): string =>
    attempt(step, template.text, problems, values, () => fill(template, values)) ?? '';
  const number = (formula: Formula): number =>
    attempt(step, formula.text, problems, values, () => formula.run(values) as number) ?? 0;
  const id = item === undefined ? step.id : `${step.id}@${item}`;
  const hold = step.hold === undefined ? undefined : procedure.holds.get(step.hold);
  const timer = (key: 'notBefore' | 'notAfter', value: TimerRule | undefined) => {
    const feature = value?.features.flatMap((each) => book.resolve(each, instance))[0];
    return value && feature ? { [key]: { feature, minutes: number(value.minutes) } } : {};
  };
  const made: RouteStep = {
    id,
    base: step.id,
    ...(item === undefined ? {} : { item }),
    stage: step.stage,
    title: text(step.title),
    do: step.do.flatMap(
      (template) =>
        attempt(step, template.text, problems, values, () => fillSentences(template, values)) ?? [],
    ),
    figures: [...step.do, ...instance.checks.flatMap(asked)].flatMap(
      (template) => attempt(step, template.text, problems, values, () => figuresOf(template, values)) ?? [],
    ),
    why: text(step.why),
    watch: text(step.watch),
    ...(step.caution ? { caution: `${text(step.caution)} ${text(procedure.deferral)}`.trim() } : {}),
    tools: step.tools.map(text),
    spot: step.spot,
    makes: step.makes.map((feature) => qualified(feature, item)),
    ...(step.marks.length > 0 ? { marks: step.marks } : {}),
    ...(step.list.length > 0 ? { list: step.list } : {}),
    rests: book.resolveAll(step.rests, instance),
    checks: instance.checks.map((check) => {
      const made = routeCheck(check, id, instance, book, text, number);
      const { holds } = check;
      // What the program finds not to hold is a person's to settle.
      const isSo = holds && attempt(step, holds.text, problems, values, () => holds.run(values) === true);
      return holds && !isSo ? { ...made, kind: 'go-no-go' as const, alone: true } : made;
    }),
    ...(hold
      ? {
          hold: {
            id: hold.id,
            title: hold.title,
            notSamePerson: hold.notSamePerson,
            evidence: hold.evidence,
            ...(hold.release === 'person' ? {} : { release: hold.release }),
            ...(hold.rhythm === 'unit' ? {} : { rhythm: hold.rhythm }),
          },
        }
      : {}),
    ...(step.leastSeconds === undefined ? {} : { leastSeconds: step.leastSeconds }),
    ...timer('notBefore', step.notBefore),
    ...timer('notAfter', step.notAfter),
    ...(step.setup === undefined ? {} : { setup: step.setup }),
    ...(step.question
      ? {
          question: {
            ask: text(step.question.ask),
            answers: step.question.answers.map(text),
            right: step.question.right,
          },
        }
      : {}),
  };
  return problems.length > before ? undefined : made;
}

/** Everything that a check puts to the person. */
const asked = (check: Check): Template[] => [
  check.ask,
  ...(check.points ?? []).map(({ text }) => text),
  ...(check.choices ?? []).map(({ text }) => text),
];

function routeCheck(
  check: Check,
  step: string,
  instance: Instance,
  book: FeatureBook,
  text: (template: Template) => string,
  number: (formula: Formula) => number,
): RouteCheck {
  const { kind, limits, against, instruments, evidence, safety, alone } = check;
  return {
    id: `${step}/${check.id}`,
    kind,
    ask: text(check.ask),
    ...(check.rhythm === 'unit' ? {} : { rhythm: check.rhythm }),
    ...(check.nth === undefined ? {} : { nth: check.nth }),
    ...(check.how ? { how: text(check.how) } : {}),
    ...(check.expect ? { expect: number(check.expect) } : {}),
    ...(check.nominal ? { nominal: { w: number(check.nominal.w), h: number(check.nominal.h) } } : {}),
    ...(check.plausible ? { plausible: number(check.plausible) } : {}),
    ...(check.size ? { size: number(check.size) } : {}),
    ...(check.unit ? { unit: check.unit } : {}),
    ...(check.quantity ? { quantity: check.quantity } : {}),
    ...(check.points
      ? {
          points: check.points.map(({ id, text: told, expect, spot, limits, explains }) => ({
            id,
            text: text(told),
            ...(expect ? { expect: number(expect) } : {}),
            ...(spot ? { spot } : {}),
            ...(limits ? { limits } : {}),
            ...(explains ? { explains: text(explains) } : {}),
          })),
        }
      : {}),
    ...(check.pairs ? { pairs: check.pairs } : {}),
    limits,
    against,
    ...(check.choices
      ? { choices: check.choices.map((c) => ({ id: c.id, text: text(c.text), pass: c.pass })) }
      : {}),
    instruments,
    rests: book.resolveAll(check.rests, instance),
    ...(check.spot ? { spot: check.spot } : {}),
    ...(check.lot === undefined ? {} : { lot: check.lot }),
    ...(check.accepts ? { accepts: true } : {}),
    ...(check.serial ? { serial: true } : {}),
    ...(check.dated ? { dated: true } : {}),
    evidence,
    safety,
    ...(alone ? { alone } : {}),
    ...(check.explains ? { explains: text(check.explains) } : {}),
  };
}

const qualified = (feature: string, item: string | undefined): string =>
  item === undefined ? feature : `${feature}@${item}`;

interface Instance {
  readonly step: Step;
  readonly item?: string;
  readonly values: ContextValues;
  /** Only the checks that apply to the unit. */
  readonly checks: readonly Check[];
}

interface Made {
  readonly id: string;
  readonly item: string | undefined;
  readonly family: string;
  /** Position in the route of the step that makes it. */
  readonly at: number;
}

/** One unit's features. A name that nothing makes for this unit (a sash in a fixed window) is simply absent. */
class FeatureBook {
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

  /** The same item's feature if both steps are done per light (or divider); otherwise every instance. */
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
 * Checks that a route can be walked in order: each feature has one maker, and a step rests only on features made before
 * it, in stages that its own stage comes after. This also rules out cycles.
 */
function orderProblems(procedure: Procedure, steps: readonly RouteStep[]): Problem[] {
  const place = new Map(stepsOf(procedure).map((step) => [step.id, step.place]));
  const made = new Map<string, number>();
  const found: Problem[] = [];
  steps.forEach((step, at) => {
    for (const feature of step.makes)
      if (made.has(feature))
        found.push(
          procedureProblem(
            'procedure.two-makers/made',
            { feature, steps: steps[made.get(feature)!]!.id, step: step.id },
            place.get(step.base),
          ),
        );
      else made.set(feature, at);
  });
  steps.forEach((step, at) => {
    for (const feature of restsOf(step))
      if ((made.get(feature) ?? -1) >= at)
        found.push(
          procedureProblem(
            'procedure.rests-ahead',
            { step: step.id, feature, steps: steps[made.get(feature)!]!.id },
            place.get(step.base),
          ),
        );
  });
  return found;
}

/** Everything a step rests on, directly or through its checks. */
export const restsOf = (step: RouteStep): string[] => [
  ...new Set([...step.rests, ...step.checks.flatMap((check) => check.rests)]),
];

/** Steps re-opened by redoing `stepId`, by features alone: those that rest on what it makes, transitively. */
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
