/** Answering a check, and logging single readings of a squareness set. */
import { isOverdue } from '../../measure/instruments.js';
import { type Instrument, SQUARE_KEYS, type SquareKey } from '../../measure/types.js';
import type { RouteCheck } from '../../procedure/types.js';
import type { Action } from '../actions.js';
import type { Answer, EventBody } from '../events.js';
import { findCheck } from '../graph.js';
import { judge, judgeReading } from '../judge.js';
import { checkObstacles, obstacles } from '../order.js';
import { known, levelProblem, pinProblem, RELEASES, standsBy } from '../people.js';
import { hasSet } from '../timers.js';
import type { CheckState, Decision, DecisionContext, Person, StepState } from '../types.js';
import { type ActionContext, evidenceOf, refuse, refused, steadyNow, worker, write } from './context.js';

type AnswerAction = Extract<Action, { do: 'answer' }>;
type Answered = EventBody & { kind: 'answered' };
type ReadAction = Extract<Action, { do: 'read' }>;

export function answer(scope: ActionContext, action: AnswerAction): Decision {
  const at = atCheck(scope, action);
  if ('refusal' in at) return at.refusal;
  const { person, second, step, check, now, instrument } = at;
  const judged = judge({
    check,
    value: action.value,
    partial: now.partial,
    confirmed: action.confirmed ?? false,
    instrument: instrument.instrument,
    cured: check.kind === 'square' ? curedNow(scope, check) : undefined,
    context: scope.context,
  });
  if (judged.kind !== 'answer') return judged;
  const lot = lotOf(check, judged.answer, action.expires, scope);
  if ('refusal' in lot) return lot.refusal;
  const kept = evidenceOf(action.evidence, scope.context);
  if ('refusal' in kept) return kept.refusal;
  if (check.evidence && kept.evidence.length === 0)
    return refused('build.evidence-needed', `${check.id} asks for a picture or a file.`);
  const setup = step.step.setup === undefined ? undefined : scope.context.setups?.[step.step.setup]?.id;
  const event: Answered = {
    kind: 'answered',
    step: step.step.id,
    check: check.id,
    answer: judged.answer,
    verdict: judged.verdict as Answered['verdict'],
  };
  if (second.second !== undefined) event.second = second.second;
  if (lot.lot) event.lot = lot.lot;
  if (kept.evidence.length > 0) event.evidence = kept.evidence;
  if (instrument.allowedBy !== undefined) event.overdueAllowedBy = instrument.allowedBy;
  if (isBurst(scope, step, check, person)) event.burst = true;
  if (setup !== undefined) event.setup = setup;
  return write(person, ...begin(scope, step, second), event);
}

export function read(scope: ActionContext, action: ReadAction): Decision {
  const at = atCheck(scope, action);
  if ('refusal' in at) return at.refusal;
  const { person, second, step, check, now, instrument } = at;
  if (check.kind !== 'square' || !SQUARE_KEYS.includes(action.key as SquareKey))
    return refused(
      'build.square-key',
      check.kind === 'square'
        ? `"${action.key}" is no length of a squareness set.`
        : `${check.id} is no squareness set (${check.kind}).`,
    );
  const judged = judgeReading({
    check,
    key: action.key as SquareKey,
    raw: action.value,
    partial: now.partial,
    confirmed: action.confirmed ?? false,
    instrument: instrument.instrument,
    context: scope.context,
  });
  if (judged.kind !== 'reading') return judged;
  return write(person, ...begin(scope, step, second), {
    kind: 'read',
    step: step.step.id,
    check: check.id,
    key: action.key,
    reading: judged.reading,
    ...(instrument.allowedBy === undefined ? {} : { overdueAllowedBy: instrument.allowedBy }),
  });
}

interface AtCheck {
  readonly person: Person;
  /** Id of the person standing by, if any. */
  readonly second: { readonly second?: string };
  readonly step: StepState;
  readonly check: RouteCheck;
  readonly now: CheckState;
  readonly instrument: InHand;
}

/** Checks made before the value is looked at: the person, the order, and the instrument or set-up. */
function atCheck(scope: ActionContext, action: AnswerAction | ReadAction): AtCheck | { refusal: Decision } {
  const { state, context } = scope;
  const who = worker(scope);
  if ('refusal' in who) return who;
  const found = findCheck(state.route, action.check);
  if (!found)
    return { refusal: refused('build.unknown-check', `${state.unit} has no check "${action.check}".`) };
  const { check } = found;
  if (state.finished)
    return { refusal: refused('build.finished', `${state.unit} is finished; ${check.id} is answered.`) };
  const step = state.steps.get(found.step.id)!;
  const standing = state.derived.view.at.get(found.step.id)!;
  const blocked =
    (step.open || step.status === 'done' ? undefined : obstacles(standing, state.derived.view)[0]) ??
    checkObstacles(standing, check.id, state.derived.view.at)[0];
  if (blocked) return { refusal: refused(blocked.id, blocked.text, blocked.todo) };
  const order = orderRefusal(step, check);
  if (order) return { refusal: order };
  const setup = setupRefusal(step, context);
  if (setup) return { refusal: setup };
  const second = standsBy(who.person, step.step.stage, action.second, context);
  if ('problem' in second) return { refusal: refuse(second.problem) };
  const now = step.checks.find(({ id }) => id === check.id)!;
  const instrument = inHand(check, step, now, action, scope);
  if ('refusal' in instrument) return instrument;
  return { person: who.person, second, step, check, now, instrument };
}

/** Checks are answered in order; a failed one cannot be skipped. */
function orderRefusal(step: StepState, check: RouteCheck): Decision | undefined {
  const next = step.checks.find(({ holds }) => !holds);
  if (next?.id === check.id) return undefined;
  if (!next || step.checks.some(({ id, holds }) => holds && id === check.id))
    return refused('build.already-answered', `${check.id} is answered and counts.`);
  const failed = next.answered !== undefined && next.answered.verdict.outcome !== 'pass';
  return refused(
    'build.check-order',
    `${next.id} comes first and ${failed ? 'has not passed' : 'is not answered'}.`,
    failed
      ? `Measure ${next.id} again, rework ${step.step.id}, or raise a snag.`
      : `Answer ${next.id} first.`,
  );
}

function setupRefusal(step: StepState, context: DecisionContext): Decision | undefined {
  const kind = step.step.setup;
  if (kind === undefined || context.setups === undefined) return undefined;
  const setup = context.setups[kind];
  if (!setup)
    return refused(
      'build.no-setup',
      `${step.step.title} needs the set-up "${kind}", and its first-off is not valid now.`,
      `Make a first-off for the set-up "${kind}" and log it: F11 at the bench, or pinchrod setup first-off ${kind}.`,
    );
  if (context.snagged?.setups.includes(setup.id))
    return refused('build.setup-blocked', `An open snag touches the set-up ${setup.id}.`);
  return undefined;
}

interface InHand {
  readonly instrument: Instrument | undefined;
  readonly allowedBy?: string;
}

function inHand(
  check: RouteCheck,
  step: StepState,
  now: CheckState,
  action: AnswerAction | ReadAction,
  scope: ActionContext,
): InHand | { refusal: Decision } {
  const { context } = scope;
  if ((check.kind !== 'number' && check.kind !== 'square') || check.instruments.length === 0)
    return { instrument: undefined };
  const id = check.instruments.map((kind) => context.inHand[kind]).find((each) => each !== undefined);
  const kinds = check.instruments.join(' or ');
  if (id === undefined)
    return {
      refusal: refused(
        'build.no-instrument',
        `This check (${check.id}) takes a ${kinds}.`,
        `Scan or choose a ${kinds}.`,
      ),
    };
  const instrument = context.instruments.find((each) => each.id === id);
  if (!instrument)
    return { refusal: refused('build.unknown-instrument', `"${id}" is no instrument of this workshop.`) };
  if (!isOverdue(instrument, context.now)) return { instrument };
  const word = action.overdueAllowedBy;
  if (!word) {
    // Authorisation given for the first reading of a set covers the rest.
    const before =
      now.partial === undefined ? undefined : allowedBefore(scope, step, check.id, instrument.id);
    if (before !== undefined) return { instrument, allowedBy: before };
    return {
      refusal: refused(
        'build.instrument-overdue',
        `${instrument.id} was due for calibration on ${instrument.due}.`,
      ),
    };
  }
  const found = known(context, word.person);
  if ('problem' in found) return { refusal: refuse(found.problem) };
  const problem =
    levelProblem(found.person, step.step.stage, RELEASES, 'allowing an overdue instrument', context) ??
    pinProblem(found.person, word.pin, context);
  return problem ? { refusal: refuse(problem) } : { instrument, allowedBy: found.person.id };
}

const curedNow = (scope: ActionContext, check: RouteCheck): boolean =>
  hasSet(check.id, scope.state.derived.marks, scope.state.derived.view.at, steadyNow(scope));

/** Who allowed this overdue instrument earlier in the current set. */
function allowedBefore(
  { state }: ActionContext,
  step: StepState,
  check: string,
  instrument: string,
): string | undefined {
  const begins = state.events.findLastIndex(
    (event) => event.n === step.madeAt || (event.kind === 'answered' && event.check === check),
  );
  const read = state.events
    .slice(begins + 1)
    .findLast(
      (event) => event.kind === 'read' && event.check === check && event.reading.instrument === instrument,
    );
  return read?.kind === 'read' ? read.overdueAllowedBy : undefined;
}

/** Begins the step if it is not made yet, or if something it depends on was made later. */
function begin(scope: ActionContext, step: StepState, second: AtCheck['second']): EventBody[] {
  const standing = scope.state.derived.view.at.get(step.step.id)!;
  if (standing.made && !standing.moved.some(({ again }) => again)) return [];
  return [{ kind: 'began', step: step.step.id, ...second }];
}

/**
 * Whether the step-completing answer came sooner after this person's last entry before the step than the work can be
 * done. Flagged, not blocked.
 */
function isBurst(scope: ActionContext, step: StepState, check: RouteCheck, person: Person): boolean {
  const least = step.step.leastSeconds;
  if (least === undefined || step.checks.some(({ id, holds }) => id !== check.id && !holds)) return false;
  const { marks, view } = scope.state.derived;
  const standing = view.at.get(step.step.id)!;
  const again = standing.moved.some((link) => link.again);
  const since = standing.made && !again ? standing.marks!.madeAt : Number.POSITIVE_INFINITY;
  const before = marks.events.findLast(
    (event) => event.by === person.id && event.n < since && event.kind !== 'opened',
  );
  const from = before ?? marks.events.find(({ n }) => n === since);
  if (!from) return false;
  // Subtract clock jumps noticed since then from the wall-clock difference.
  let shift = 0;
  for (const event of marks.events)
    if (event.kind === 'clock-jumped' && event.n > from.n)
      shift += Date.parse(event.to) - Date.parse(event.from);
  const elapsed = steadyNow(scope) + marks.shift - (Date.parse(from.at) + shift);
  return elapsed < least * 1000;
}

// Material lots: code and expiry date.

interface Lot {
  readonly material: string;
  readonly code: string;
  readonly expires?: string;
}

const DATE = /^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$/;

/** The lot an answer names, if the check asks for one. Refuses an expired or snagged lot. */
function lotOf(
  check: RouteCheck,
  answer: Answer,
  expires: string | undefined,
  { state, context }: ActionContext,
): { readonly lot?: Lot } | { readonly refusal: Decision } {
  if (check.lot === undefined || answer.kind !== 'text') return {};
  const material = check.lot;
  const code = answer.text;
  const known = context.lots?.find((lot) => lot.material === material && lot.code === code);
  const until = expires ?? known?.expires;
  if (until !== undefined && !(DATE.test(until) && !Number.isNaN(Date.parse(until))))
    return { refusal: refused('build.lot-expiry-bad', `"${until}" is no date.`) };
  if (until !== undefined && until < context.now.slice(0, 10))
    return { refusal: refused('build.lot-expired', `Lot ${code} (${material}) expired on ${until}.`) };
  const snag = state.snags.find(({ open, raised }) => open && raised.touches.lot === code);
  if (snag || context.snagged?.lots.includes(code))
    return {
      refusal: refused(
        'build.lot-snagged',
        `An open snag${snag ? ` (${snag.n})` : ''} touches lot ${code} (${material}).`,
      ),
    };
  return { lot: { material, code, ...(until === undefined ? {} : { expires: until }) } };
}
