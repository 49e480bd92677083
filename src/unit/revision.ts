/** Job revision mid-build: what is judged otherwise is redone just like rework; everything else stays done. */
import { mmText } from '../base/formula.js';
import { bandFor, boundsText, type Limit, type LimitsFile } from '../measure/limits.js';
import { restsOf } from '../procedure/route.js';
import type { Route, RouteCheck, RouteStep } from '../procedure/types.js';
import type { EventBody } from './events.js';
import { firstStage } from './graph.js';
import { atBench, levelProblem, pinProblem, RELEASES } from './people.js';
import type { Decision, DecisionContext, WorkshopRules } from './types.js';
import type { UnitState } from './unitstate.js';
import { unitSays, unitWords } from './words.js';

/** What decides whether work still holds: a route, and what its checks are judged by. */
export interface Judged {
  readonly route: Route;
  readonly limits: LimitsFile;
  readonly decisionRule: WorkshopRules['decisionRule'];
  /** What the order says of the unit, in the words of the job file. */
  readonly order: Readonly<Record<string, unknown>>;
}

/** A step of which a revision changes what is judged, and what that is; see `REVISION_WORDS`. */
export interface StepChange {
  readonly step: string;
  readonly reasons: readonly string[];
}

/**
 * Steps in both routes of which something is judged otherwise: a figure, a limit, the instrument, the rule of judging, what
 * the step rests on, or its place in the order of work. Words may change without redoing anything.
 */
export function changedSteps(old: Judged, next: Judged): StepChange[] {
  const before = new Map(old.route.steps.map((step) => [step.id, step]));
  return next.route.steps.flatMap((step): StepChange[] => {
    const was = before.get(step.id);
    const reasons = was ? reasonsFor(was, step, old, next) : [];
    return reasons.length > 0 ? [{ step: step.id, reasons }] : [];
  });
}

function reasonsFor(was: RouteStep, now: RouteStep, old: Judged, next: Judged): string[] {
  const moved = figureReasons(gone(was.figures, now.figures), gone(now.figures, was.figures));
  const checks = new Map(was.checks.map((check) => [check.id, check]));
  const kept = new Set(now.checks.map(({ id }) => id));
  return [
    ...moved,
    ...now.checks.flatMap((check) => {
      const before = checks.get(check.id);
      return before ? checkReasons(before, check, old, next) : [unitSays('asks-now', { ask: check.ask })];
    }),
    ...was.checks.filter(({ id }) => !kept.has(id)).map(({ ask }) => unitSays('asks-no-more', { ask })),
    ...(same(holdOf(was), holdOf(now)) ? [] : [unitSays('another-hold')]),
    ...(same([was.makes, was.marks], [now.makes, now.marks]) ? [] : [unitSays('makes-other')]),
    ...(same(was.rests, now.rests) ? [] : [unitSays('rests-other')]),
    ...(same([was.notBefore, was.notAfter], [now.notBefore, now.notAfter]) ? [] : [unitSays('times-other')]),
    ...(was.setup === now.setup ? [] : [unitSays('another-setup')]),
  ];
}

function figureReasons(dropped: readonly string[], added: readonly string[]): string[] {
  if (dropped.length + added.length === 0) return [];
  if (dropped.length === 0) return [unitSays('says-too', { now: added })];
  return added.length === 0
    ? [unitSays('says-no-more', { gone: dropped })]
    : [unitSays('says-now', { now: added, gone: dropped })];
}

const same = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);
const gone = (these: readonly string[], those: readonly string[]): string[] => [
  ...new Set(these.filter((each) => !those.includes(each))),
];

const holdOf = ({ hold }: RouteStep) => hold && { ...hold, title: undefined };

function checkReasons(was: RouteCheck, now: RouteCheck, old: Judged, next: Judged): string[] {
  const measured = MEASURED.has(now.kind) && limitsOf(now).length > 0;
  return [
    ...(same(asked(was), asked(now)) ? [] : [askedReason(now.ask, expects(was), expects(now))]),
    ...(same([was.instruments, was.quantity], [now.instruments, now.quantity])
      ? []
      : [unitSays('another-instrument', { ask: now.ask })]),
    ...limitReasons(was, now, old.limits, next.limits),
    ...(measured && !same(old.decisionRule, next.decisionRule)
      ? [unitSays('another-rule', { ask: now.ask })]
      : []),
  ];
}

function askedReason(ask: string, was: string | undefined, now: string | undefined): string {
  const none = unitSays('no-figure');
  return was === now
    ? unitSays('asks-other', { ask })
    : unitSays('asks-figure', { ask, now: now ?? none, was: was ?? none });
}

/** The figures that a check expects; undefined where it expects none. */
const expects = ({ expect, nominal, points }: RouteCheck): string | undefined => {
  const figures = [
    ...(expect === undefined ? [] : [mmText(expect)]),
    ...(nominal ? [`${mmText(nominal.w)} x ${mmText(nominal.h)}`] : []),
    ...(points ?? []).flatMap((point) => (point.expect === undefined ? [] : [mmText(point.expect)])),
  ];
  return figures.length > 0 ? figures.join(', ') : undefined;
};

const titleIn = ({ steps }: Route, id: string): string => steps.find((step) => step.id === id)?.title ?? id;

const MEASURED: ReadonlySet<string> = new Set(['number', 'square', 'points']);

/** What is asked and what passes, without any words. */
const asked = (check: RouteCheck) => [
  check.kind,
  check.expect,
  check.nominal,
  check.size,
  check.unit,
  check.points?.map(({ id, expect }) => [id, expect]),
  check.pairs,
  check.against,
  check.choices?.map(({ id, pass }) => [id, pass]),
  check.rests,
  check.lot,
  check.accepts,
  check.serial,
  check.dated,
  check.evidence,
  check.safety,
  check.rhythm,
  check.nth,
];

const limitsOf = (check: RouteCheck): string[] => [
  ...new Set([...check.limits, ...(check.points ?? []).flatMap(({ limits = [] }) => limits)]),
];

function limitReasons(was: RouteCheck, now: RouteCheck, old: LimitsFile, next: LimitsFile): string[] {
  const ids = [...new Set([...limitsOf(was), ...limitsOf(now)])];
  return ids.flatMap((id) => {
    const [before, after] = [
      limitsOf(was).includes(id) ? boundsOf(old.byId.get(id), was) : undefined,
      limitsOf(now).includes(id) ? boundsOf(next.byId.get(id), now) : undefined,
    ];
    return before === after
      ? []
      : [limitReason(now.ask, next.byId.get(id)?.title ?? old.byId.get(id)?.title ?? id, before, after)];
  });
}

function limitReason(ask: string, limit: string, was: string | undefined, now: string | undefined): string {
  const named = (bounds: string) => bounds || unitSays('limit-missing');
  if (was === undefined) return unitSays('limit-new', { ask, now: named(now!), limit });
  return now === undefined
    ? unitSays('limit-gone', { ask, was: named(was), limit })
    : unitSays('limit-other', { ask, now: named(now), was: named(was), limit });
}

/** The bounds that the sizes of a check fall under; all of them where its sizes are only known when it is measured. */
function boundsOf(limit: Limit | undefined, check: RouteCheck): string {
  if (!limit) return '';
  const { w, h } = check.nominal ?? {};
  const sizes =
    check.size !== undefined
      ? [check.size]
      : check.kind === 'number' && check.expect !== undefined
        ? [check.expect]
        : w !== undefined && h !== undefined
          ? [w, h, Math.hypot(w, h)]
          : [];
  const found = sizes.flatMap((size) => bandFor(limit, size) ?? []);
  const bands = found.length === 0 ? limit.bands : found;
  return [...new Set(bands.map((band) => boundsText(band, limit.unit)))].join(', ');
}

/**
 * Steps that were done too early for the new order of work: one that now comes before was done later, or not yet.
 */
function doneTooEarly(state: UnitState, next: Route): StepChange[] {
  const [before, after] = [firstSteps(state.route), firstSteps(next)];
  return next.steps.flatMap(({ id }): StepChange[] => {
    const made = state.steps.get(id)?.madeAt;
    if (made === undefined) return [];
    const late = [...(after.get(id) ?? [])].filter((other) => {
      const known = state.steps.get(other);
      return known && !before.get(id)?.has(other) && (known.madeAt ?? Number.POSITIVE_INFINITY) > made;
    });
    return late.length > 0
      ? [{ step: id, reasons: late.map((other) => unitSays('after-now', { step: titleIn(next, other) })) }]
      : [];
  });
}

/** The steps that must be done before each step: earlier ones of its stage, and all of the stages that it comes after. */
function firstSteps({ stages }: Route): ReadonlyMap<string, ReadonlySet<string>> {
  const ofStage = new Map<string, Set<string>>();
  const out = new Map<string, ReadonlySet<string>>();
  for (const { id, after, steps } of stages) {
    const first = new Set(after.flatMap((other) => [...(ofStage.get(other) ?? [])]));
    for (const step of steps) {
      out.set(step, new Set(first));
      first.add(step);
    }
    ofStage.set(id, first);
  }
  return out;
}

/** What a revision would do to a unit. */
export interface RevisionEffect {
  /** Steps that were done and are judged otherwise now. */
  readonly changed: readonly StepChange[];
  /** All steps to be done again: those, and what rests on them. */
  readonly reopens: readonly string[];
  /** Steps that were done and are to be checked and released again: the order is another. */
  readonly again: readonly StepChange[];
}

export function revisionEffect(state: UnitState, old: Judged, next: Judged): RevisionEffect {
  const reasons = new Map<string, string[]>();
  for (const { step, reasons: more } of [...changedSteps(old, next), ...doneTooEarly(state, next.route)])
    if (state.steps.get(step)?.madeAt !== undefined)
      reasons.set(step, [...(reasons.get(step) ?? []), ...more]);
  const changed = [...reasons].map(([step, each]) => ({ step, reasons: each }));
  const moved = new Set(changed.map(({ step }) => step));
  const features = new Set<string>();
  const reopens = next.route.steps.flatMap((step) => {
    const again = moved.has(step.id) || restsOf(step).some((feature) => features.has(feature));
    if (again) for (const feature of step.makes) features.add(feature);
    return again && state.steps.get(step.id)?.madeAt !== undefined ? [step.id] : [];
  });
  const order = orderReasons(old.order, next.order);
  const again = next.route.steps.flatMap((step): StepChange[] => {
    const done = state.steps.get(step.id)?.madeAt !== undefined && !reopens.includes(step.id);
    return done && order.length > 0 && isOfTheOrder(step, next.route)
      ? [{ step: step.id, reasons: order }]
      : [];
  });
  return { changed, reopens, again };
}

/** The first stage checks the order; elsewhere, what is asked once for it. */
const isOfTheOrder = ({ stage, checks, hold }: RouteStep, { stages }: Route): boolean =>
  stage === stages[0]?.id || hold?.rhythm === 'job' || checks.some(({ rhythm }) => rhythm === 'job');

function orderReasons(was: Judged['order'], now: Judged['order']): string[] {
  const keys = [...new Set([...Object.keys(was), ...Object.keys(now)])];
  return keys.flatMap((key) =>
    same(was[key], now[key]) ? [] : [orderReason(key, shown(was[key]), shown(now[key]))],
  );
}

/** @param key a member of the job file */
function orderReason(member: string, was: string | undefined, now: string | undefined): string {
  const key = member.replace(/([A-Z])/g, (letter) => ` ${letter.toLowerCase()}`);
  const empty = unitSays('order-empty');
  return was === undefined || now === undefined
    ? unitSays('order-other', { key })
    : unitSays('order-now', { key, now: now || empty, was: was || empty });
}

/** Undefined where it takes more than a word to say. */
const shown = (value: unknown): string | undefined =>
  typeof value === 'string' || typeof value === 'number' ? String(value) : undefined;

/** Replaces the frozen sources; what is judged otherwise must be redone. Fold with the new route afterwards. */
export function decideRevision(
  state: UnitState,
  { old, next }: { readonly old: Judged; readonly next: Judged },
  sources: Readonly<Record<string, string>>,
  { reason, pin }: { readonly reason: string; readonly pin?: string | undefined },
  context: DecisionContext,
): Decision {
  const found = atBench(context);
  if ('problem' in found) return { kind: 'refused', problem: found.problem };
  const level = levelProblem(
    found.person,
    firstStage(state.route),
    RELEASES,
    unitWords('act-revise'),
    context,
  );
  if (level) return { kind: 'refused', problem: level };
  const wrong = pinProblem(found.person, pin, context);
  if (wrong) return { kind: 'refused', problem: wrong };
  const { changed, again } = revisionEffect(state, old, next);
  const { procedure } = next.route;
  const event: EventBody = {
    kind: 'revised',
    sources: { ...sources },
    procedure: { name: procedure.name, version: procedure.version },
    changed: changed.map(({ step }) => step),
    ...(again.length > 0 ? { again: again.map(({ step }) => step) } : {}),
    ...(changed.length + again.length > 0
      ? {
          because: Object.fromEntries(
            [...changed, ...again].map(({ step, reasons }) => [step, [...reasons]]),
          ),
        }
      : {}),
    reason,
  };
  return { kind: 'events', events: [event], by: found.person.id };
}
