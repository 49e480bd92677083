/** Lints a procedure for what is legal but unwise or unfinished. A workshop should aim for an empty result. */
import type { Formula } from '../base/formula.js';
import { nearest } from '../base/knownkeys.js';
import type { Place, Problem } from '../base/problem.js';
import type { Message } from '../base/words.js';
import { POINT_SUBJECTS, SQUARE_SUBJECTS } from '../measure/limits.js';
import { sampleUnits } from './coverage.js';
import { textProblems, textsOf } from './linttexts.js';
import { procedureProblem } from './messages.js';
import { type Check, EVERYTHING, type Procedure, type Step, stepsOf } from './model.js';
import { reachable } from './reach.js';
import { makeRoute } from './route.js';
import { comesAfter } from './stageorder.js';
import { formulasIn } from './template.js';
import type { Route } from './types.js';
import { limitsOf } from './wanted.js';
import { procedureWords } from './words.js';

export interface LintContext {
  /** shared/limits.yaml; if absent, limit names are not checked. */
  readonly limits?: LintLimits;
  /** shared/people.yaml and the solo rule; if absent, holds are not checked. */
  readonly people?: LintPeople;
  /** Ids of shared/setups.yaml; absent if the workshop requires no first-offs. */
  readonly setups?: readonly string[];
  /** Names of the profile set's figures; if absent, figures are not checked. */
  readonly figures?: Iterable<string>;
  /** Routes of the workshop's own units, in addition to the sample kinds. */
  readonly routes?: readonly Route[];
}

/** In file order. */
export function lintProcedure(procedure: Procedure, context: LintContext = {}): Problem[] {
  const found = [
    ...textProblems(procedure),
    ...featureProblems(procedure),
    ...reachProblems(procedure, context.routes ?? []),
    ...limitProblems(procedure, context.limits),
    ...setupProblems(procedure, context.setups),
    ...quantityProblems(procedure),
    ...lotProblems(procedure),
    ...(context.people ? holdProblems(procedure, context.people) : holdProblems(procedure)),
    ...(context.figures ? figureProblems(procedure, new Set(context.figures)) : []),
  ];
  return found
    .map((problem, index) => ({ problem, index }))
    .sort((a, b) => (a.problem.place?.line ?? 0) - (b.problem.place?.line ?? 0) || a.index - b.index)
    .map(({ problem }) => problem);
}

// Features: made and rested on, one maker each, no cycles, and made in a stage that really comes first.

function featureProblems(procedure: Procedure): Problem[] {
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

/** Features a step rests on by name, in its own list or a check's. */
const namedRests = (step: Step): string[] => [
  ...new Set([...step.rests, ...step.checks.flatMap((check) => check.rests)]),
];

function twoMakers(makers: Makers): Problem[] {
  return [...makers].flatMap(([feature, [first, ...others]]) =>
    others.map((other) =>
      procedureProblem('procedure.two-makers', { feature, first: first!.id, other: other.id }, other.place),
    ),
  );
}

function usageProblems(procedure: Procedure, steps: readonly Step[], makers: Makers): Problem[] {
  const rested = new Set(steps.flatMap(namedRests));
  return [...procedure.features].flatMap(([feature, { title, place }]) => {
    const made = makers.has(feature);
    if (!made && rested.has(feature))
      return [procedureProblem('procedure.feature-unmade', { feature, title }, place)];
    if (!rested.has(feature) && !isOwn(makers.get(feature), feature))
      return [procedureProblem('procedure.feature-unused', { feature, title }, place)];
    return [];
  });
}

/** A step that names no feature makes one with its own id; nothing need rest on that one. */
const isOwn = (makers: readonly Step[] | undefined, feature: string): boolean =>
  makers?.length === 1 && makers[0]!.id === feature;

function ringProblems(steps: readonly Step[], makers: Makers): Problem[] {
  const done = new Set<Step>();
  const found: Problem[] = [];
  const visit = (step: Step, trail: readonly Step[]): void => {
    const at = trail.indexOf(step);
    if (at >= 0) {
      const ring = [...trail.slice(at), step].map(({ id }) => id).join(', ');
      found.push(procedureProblem('procedure.feature-cycle', { ring }, step.place));
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
        procedureProblem(
          'procedure.rests-aside',
          { step: step.id, feature, stage: maker.stage, stage2: step.stage },
          step.place,
        ),
      ),
  );
}

function figureProblems(procedure: Procedure, known: ReadonlySet<string>): Problem[] {
  return [...figuresAsked(procedure)]
    .filter(([name, { optional }]) => !optional && !known.has(name))
    .map(([name, { step, place }]) => procedureProblem('procedure.figure-unknown', { step, name }, place));
}

export interface FigureAsked {
  /** First step that asks for it. */
  readonly step: string;
  readonly place: Place;
  /** The procedure tests for it (`"name" in figure`), so the set may lack it. */
  readonly optional: boolean;
}

/** Every `figure["name"]` in the procedure, in order of appearance. */
export function figuresAsked(procedure: Procedure): Map<string, FigureAsked> {
  const asked = new Map<string, FigureAsked>();
  for (const step of stepsOf(procedure))
    for (const { text } of formulasOf(step)) {
      const optional = new Set([...text.matchAll(/"([^"]+)"\s+in\s+figure\b/g)].map((m) => m[1]!));
      for (const [, name] of text.matchAll(/\bfigure\["([^"]+)"\]/g))
        if (!asked.has(name!))
          asked.set(name!, { step: step.id, place: step.place, optional: optional.has(name!) });
    }
  return asked;
}

/** Sizes of profile sets that the procedure reads: `unit.size["…"]`, `light.size["…"]`. */
export const sizesRead = (procedure: Procedure): ReadonlySet<string> =>
  new Set(
    stepsOf(procedure)
      .flatMap(formulasOf)
      .flatMap(({ text }) => [...text.matchAll(/\bsize\["([^"]+)"\]/g)].map(([, name]) => name!)),
  );

function formulasOf(step: Step): Formula[] {
  const maybe = (...formulas: (Formula | undefined)[]) =>
    formulas.filter((formula): formula is Formula => formula !== undefined);
  return [
    ...maybe(step.when, step.notBefore?.minutes, step.notAfter?.minutes),
    ...textsOf(step).flatMap(formulasIn),
    ...step.checks.flatMap((check) => [
      ...maybe(check.when, check.expect, check.nominal?.w, check.nominal?.h, check.plausible, check.size),
      ...maybe(...(check.points ?? []).map((point) => point.expect)),
      ...[check, ...(check.points ?? [])].flatMap(({ explains }) => (explains ? formulasIn(explains) : [])),
    ]),
  ];
}

// Holds: each is used, and someone in the workshop can release it.

interface LintPeople {
  readonly persons: readonly { readonly id: string; readonly levels: Readonly<Record<string, number>> }[];
  /** The workshop has a rule that lets one person release their own work. */
  readonly solo: boolean;
}

/** Minimum level to release a stage's holds. */
const MAY_RELEASE = 4;

function holdProblems(procedure: Procedure, people?: LintPeople): Problem[] {
  const steps = stepsOf(procedure).filter((step) => step.hold !== undefined);
  const used = new Set(steps.map((step) => step.hold));
  const unused = [...procedure.holds.values()]
    .filter((hold) => !used.has(hold.id))
    .map((hold) => procedureProblem('procedure.hold-unused', { hold: hold.id }, hold.place));
  if (!people) return unused;
  const stuck = steps.flatMap((step) => {
    const hold = procedure.holds.get(step.hold ?? '');
    if (!hold) return [];
    const releasers = people.persons.filter(
      ({ levels }) => (levels[step.stage] ?? levels.all ?? 0) >= MAY_RELEASE,
    );
    if (releasers.length === 0)
      return [
        procedureProblem(
          'procedure.hold-unreleasable',
          { mayRelease: MAY_RELEASE, stage: step.stage, hold: hold.id, step: step.id },
          step.place,
        ),
      ];
    if (hold.notSamePerson && people.persons.length < 2 && !people.solo)
      return [
        procedureProblem('procedure.hold-unreleasable/one', { step: step.id, hold: hold.id }, step.place),
      ];
    return [];
  });
  return [...unused, ...stuck];
}

// Checks that judge a number: each has a limit that is known, sourced, and suits the check.

interface LintLimits {
  readonly limits: readonly {
    readonly id: string;
    readonly of: string;
    readonly unit: string;
    readonly source?: { readonly text: string };
  }[];
}
type LintLimit = LintLimits['limits'][number];

function limitProblems(procedure: Procedure, file?: LintLimits): Problem[] {
  const known = file && new Map(file.limits.map((limit) => [limit.id, limit]));
  return stepsOf(procedure).flatMap((step) =>
    step.checks.flatMap((check) => checkProblems(`${step.id}/${check.id}`, check, known)),
  );
}

function checkProblems(
  id: string,
  check: Check,
  known: ReadonlyMap<string, LintLimit> | undefined,
): Problem[] {
  if (check.kind !== 'number' && check.kind !== 'square' && check.kind !== 'points') return [];
  const without = (check.points ?? [{ limits: [] }]).some(({ limits }) => (limits ?? []).length === 0);
  if (check.limits.length === 0 && without)
    return [procedureProblem('procedure.no-limit', { id }, check.place)];
  if (!known) return [];
  return limitsOf(check).flatMap((name) => {
    const limit = known.get(name);
    if (!limit) {
      const near = nearest(name, [...known.keys()]);
      return [
        near === undefined
          ? procedureProblem('procedure.limit-unknown', { id, name }, check.place)
          : procedureProblem('procedure.limit-unknown/near', { id, name, near }, check.place),
      ];
    }
    const unsourced = (limit.source?.text ?? '').trim() === '';
    return [
      ...(unsourced ? [procedureProblem('procedure.limit-unsourced', { name, id }, check.place)] : []),
      ...misfit(check, limit).map((why) =>
        procedureProblem('procedure.limit-kind', { id, name, why }, check.place),
      ),
    ];
  });
}

function misfit(check: Check, limit: LintLimit): Message[] {
  const out: Message[] = [];
  if (check.kind === 'points') {
    if (SQUARE_SUBJECTS.has(limit.of)) out.push(procedureWords('lint-limit-suits-only', { of: limit.of }));
    else if (
      limit.of === 'deviation' &&
      !check.points?.every(({ expect, limits }) => expect || !(limits ?? check.limits).includes(limit.id))
    )
      out.push(procedureWords('lint-limit-held-against'));
    else if (limit.of === 'pairs' && !check.pairs?.length) out.push(procedureWords('lint-check-names-no'));
  } else if (POINT_SUBJECTS.has(limit.of))
    out.push(procedureWords('lint-limit-suits-only-check', { of: limit.of }));
  else if (check.kind === 'square') {
    if (limit.of === 'value') out.push(procedureWords('lint-limit-value-itself'));
  } else if (limit.of === 'deviation') {
    if (!check.expect) out.push(procedureWords('lint-limit-held-against-deviation'));
  } else if (limit.of !== 'value') out.push(procedureWords('lint-limit-suits-only', { of: limit.of }));
  const isArea = limit.of === 'area' && limit.unit === 'm2' && check.unit === 'mm';
  if (check.unit !== undefined && check.unit !== limit.unit && !isArea)
    out.push(procedureWords('lint-check-limit-3', { unit: check.unit, unit2: limit.unit }));
  return out;
}

// Steps and checks that no unit gets that can be ordered, and errors when making routes for every kind.

/** Steps that no unit gets which can be ordered. */
export const neverReached = (procedure: Procedure): Step[] =>
  stepsOf(procedure).filter(
    (step) => step.when !== undefined && step.checks.every((check) => reachable(step, check) === 'never'),
  );

function reachProblems(procedure: Procedure, routes: readonly Route[]): Problem[] {
  const reached = new Set<string>();
  for (const { steps } of routes)
    for (const step of steps)
      for (const check of step.checks) reached.add(`${step.base}/${check.id.split('/').at(-1)}`);
  const found = new Map<string, Problem>();
  for (const contexts of sampleUnits(figuresAsked(procedure).keys())) {
    const route = makeRoute(procedure, contexts);
    if (!route.ok) for (const problem of route.problems) found.set(`${problem.id} ${problem.text}`, problem);
  }
  const unreached = stepsOf(procedure).flatMap((step) => {
    const can = step.checks.map((check) =>
      reached.has(`${step.id}/${check.id}`) ? ('can' as const) : reachable(step, check),
    );
    if (can.every((one) => one === 'never'))
      return [procedureProblem('procedure.unreachable', { step: step.id }, step.place)];
    // One sentence for a step of which nothing is known.
    if (step.when && can.every((one) => one !== 'can'))
      return [procedureProblem('procedure.reach-unknown', { step: step.id }, step.place)];
    return step.checks.flatMap((check, i) =>
      can[i] === 'can'
        ? []
        : [
            procedureProblem(
              can[i] === 'never' ? 'procedure.unreachable/kind' : 'procedure.reach-unknown/check',
              { step: step.id, check: check.id },
              check.place,
            ),
          ],
    );
  });
  return [...found.values(), ...unreached];
}

// What is measured, and lots that must have been accepted.

function quantityProblems(procedure: Procedure): Problem[] {
  return stepsOf(procedure).flatMap((step) =>
    step.checks
      .filter(({ kind, quantity }) => MEASURED.has(kind) && quantity === undefined)
      .map((check) =>
        procedureProblem('procedure.no-quantity', { step: step.id, check: check.id }, check.place),
      ),
  );
}
const MEASURED: ReadonlySet<string> = new Set(['number', 'square', 'points']);

function lotProblems(procedure: Procedure): Problem[] {
  const checks = stepsOf(procedure).flatMap((step) => step.checks.map((check) => ({ step, check })));
  const accepted = new Set(
    checks.flatMap(({ check }) => (check.accepts && check.lot !== undefined ? [check.lot] : [])),
  );
  return checks
    .filter(({ check }) => check.lot !== undefined && !accepted.has(check.lot))
    .map(({ step, check }) =>
      procedureProblem(
        'procedure.lot-unaccepted',
        { step: step.id, check: check.id, lot: check.lot! },
        check.place,
      ),
    );
}

// A set-up the workshop does not have can never be proven, so a step needing it could never be done.

/** @param known ids of shared/setups.yaml; without that file no first-off is required, and nothing is wrong */
function setupProblems(procedure: Procedure, known?: readonly string[]): Problem[] {
  if (!known) return [];
  return stepsOf(procedure).flatMap(({ id, setup, place }) =>
    setup === undefined || known.includes(setup)
      ? []
      : [
          known.length === 0
            ? procedureProblem('procedure.setup-unknown/none', { step: id, setup }, place)
            : procedureProblem('procedure.setup-unknown', { step: id, setup, known }, place),
        ],
  );
}
