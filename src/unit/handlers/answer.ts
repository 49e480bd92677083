/** Answering a check, and logging single readings of a set. */
import { readDate } from '../../base/dates.js';
import { type Message, quoted } from '../../base/words.js';
import { isOverdue } from '../../measure/instruments.js';
import type { Instrument } from '../../measure/types.js';
import { isShared } from '../../procedure/rhythm.js';
import type { RouteCheck } from '../../procedure/types.js';
import { wantedBy } from '../../procedure/wanted.js';
import type { Action } from '../actions.js';
import { dayNow } from '../day.js';
import type { EventBody, Evidence } from '../events.js';
import { findCheck } from '../graph.js';
import { instrumentFor } from '../inhand.js';
import { type Judgement, judge, judgeReading } from '../judge.js';
import { lookAt } from '../looks.js';
import { lotNamed, lotsKnown, readLot } from '../lots.js';
import { checkObstacles, obstacles } from '../order.js';
import { allowing, confirmation, standsBy } from '../people.js';
import { isSet, nextPlace, readingsIn, setKeys } from '../sets.js';
import { hasSet } from '../timers.js';
import type { CheckState, Decision, DecisionContext, Lot, Person, Question, StepState } from '../types.js';
import type { UnitState } from '../unitstate.js';
import { stepTitle, unitWords } from '../words.js';
import { type ActionContext, evidenceOf, refuse, refused, steadyNow, worker, write } from './context.js';

const MEASURED: ReadonlySet<string> = new Set(['number', 'square', 'points']);

type AnswerAction = Extract<Action, { do: 'answer' }>;
type Answered = EventBody & { kind: 'answered' };
type ReadAction = Extract<Action, { do: 'read' }>;

export function answer(scope: ActionContext, action: AnswerAction): Decision {
  const at = atCheck(scope, action);
  if ('refusal' in at) return at.refusal;
  const { person, step, check, now, instrument } = at;
  const named = lotOf(at, action, scope);
  if ('refusal' in named) return named.refusal;
  const judged = judge({
    check,
    value: named.lot?.code ?? action.value,
    partial: now.partial,
    confirmed: action.confirmed ?? false,
    instrument: instrument.instrument,
    cured: check.kind === 'square' ? curedNow(scope, check) : undefined,
    context: scope.context,
  });
  if (judged.kind !== 'answer') return judged;
  const kept = evidenceOf(action.evidence, scope.context);
  if ('refusal' in kept) return kept.refusal;
  if (check.evidence && kept.evidence.length === 0)
    return refused('build.evidence-needed', { ask: check.ask });
  const again = action.confirmed ? undefined : samePicture(scope, kept.evidence);
  if (again) return { kind: 'ask', question: again };
  const event = answered(scope, at, judged);
  if (at.second.second !== undefined) event.second = at.second.second;
  if (named.lot) event.lot = named.lot;
  if (kept.evidence.length > 0) event.evidence = kept.evidence;
  if (instrument.allowedBy !== undefined) event.overdueAllowedBy = instrument.allowedBy;
  if (isBurst(scope, step, check, person)) event.burst = true;
  if (action.stood !== undefined) event.stood = tenth(action.stood);
  return write(person, ...at.confirmed, ...beginning(scope.state, step, at.second), event);
}

function answered(
  scope: ActionContext,
  { step, check }: Pick<AtCheck, 'step' | 'check'>,
  judged: Extract<Judgement, { kind: 'answer' }>,
): Answered {
  const setup = step.step.setup === undefined ? undefined : scope.context.setups?.[step.step.setup]?.id;
  return {
    kind: 'answered',
    step: step.step.id,
    check: check.id,
    answer: judged.answer,
    verdict: judged.verdict as Answered['verdict'],
    ...(setup === undefined ? {} : { setup }),
  };
}

/** One reading of a set. The last one settles it, unless its verdict needs a question first. */
export function read(scope: ActionContext, action: ReadAction): Decision {
  const at = atCheck(scope, action);
  if ('refusal' in at) return at.refusal;
  const { person, step, check, now, instrument } = at;
  if (!isSet(check) || !setKeys(check).includes(action.key))
    return isSet(check)
      ? refused('build.square-key/set', { key: action.key, check: check.id, keys: setKeys(check) })
      : refused('build.square-key/no-set', { check: check.id, kind: check.kind });
  const { key, replaces } = action;
  if (replaces !== undefined && replaces > (now.partial?.[key]?.length ?? 0))
    return refused('build.square-key', { replaces, key });
  const judged = judgeReading({
    check,
    key,
    raw: action.value,
    replaces,
    partial: now.partial,
    confirmed: action.confirmed ?? false,
    instrument: instrument.instrument,
    context: scope.context,
  });
  if (judged.kind !== 'reading') return judged;
  const { allowedBy } = instrument;
  const overdue = allowedBy === undefined ? {} : { overdueAllowedBy: allowedBy };
  const events: EventBody[] = [
    ...at.confirmed,
    ...beginning(scope.state, step, at.second),
    {
      kind: 'read',
      step: step.step.id,
      check: check.id,
      key,
      reading: judged.reading,
      ...(replaces === undefined ? {} : { replaces }),
      ...overdue,
    },
  ];
  const before = Object.entries(now.partial ?? {}).flatMap(([of, list]) =>
    list.map((reading) => ({ key: of, reading })),
  );
  const partial = readingsIn([...before, { key, reading: judged.reading, replaces }]);
  if (nextPlace(check, { partial }) !== undefined) return write(person, ...events);
  const settled = judge({
    check,
    value: {},
    partial,
    confirmed: false,
    instrument: instrument.instrument,
    cured: check.kind === 'square' ? curedNow(scope, check) : undefined,
    context: scope.context,
  });
  if (settled.kind !== 'answer') return write(person, ...events);
  const event = answered(scope, at, settled);
  if (at.second.second !== undefined) event.second = at.second.second;
  if (allowedBy !== undefined) event.overdueAllowedBy = allowedBy;
  if (isBurst(scope, step, check, person)) event.burst = true;
  if (action.stood !== undefined) event.stood = tenth(action.stood);
  return write(person, ...events, event);
}

const tenth = (seconds: number): number => Math.round(seconds * 10) / 10;

/** Drops the readings of a set that has not passed; the first is asked again. */
export function beginSet(
  scope: ActionContext,
  { check: id }: Extract<Action, { do: 'begin-set' }>,
): Decision {
  const who = worker(scope);
  if ('refusal' in who) return who.refusal;
  const found = findCheck(scope.state.route, id);
  if (!found) return refused('build.unknown-check', { unit: scope.state.unit, id });
  const now = scope.state.steps.get(found.step.id)!.checks.find((check) => check.id === id)!;
  if (!isSet(found.check) || now.holds || now.partial === undefined)
    return refused('build.nothing-to-begin', { id });
  return write(who.person, { kind: 'set-begun', step: found.step.id, check: id });
}

interface AtCheck {
  readonly person: Person;
  /** Id of the person standing by, if any, and the event by which they confirm it now. */
  readonly second: { readonly second?: string };
  readonly confirmed: readonly EventBody[];
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
    return { refusal: refused('build.unknown-check/check', { unit: state.unit, check: action.check }) };
  const { check } = found;
  if (state.finished) return { refusal: refused('build.finished', { unit: state.unit, check: check.id }) };
  const step = state.steps.get(found.step.id)!;
  const standing = state.derived.view.at.get(found.step.id)!;
  const blocked =
    (step.open || step.status === 'done' ? undefined : obstacles(standing, state.derived.view)[0]) ??
    checkObstacles(standing, check.id, state.derived.view.at)[0];
  if (blocked) return { refusal: refuse(blocked) };
  const order = orderRefusal(step, check, 'value' in action && action.value === 'no');
  if (order) return { refusal: order };
  const setup = setupRefusal(step, context);
  if (setup) return { refusal: setup };
  const second = standsBy(who.person, step.step.stage, action.second, context);
  if ('problem' in second) return { refusal: refuse(second.problem) };
  const confirmed = confirmation(scope, who.person, second.second, step.step.stage, action.confirm);
  if ('problem' in confirmed) return { refusal: refuse(confirmed.problem) };
  const now = step.checks.find(({ id }) => id === check.id)!;
  const instrument = inHand(check, step, now, action, scope);
  if ('refusal' in instrument) return instrument;
  return { person: who.person, second, confirmed: confirmed.events, step, check, now, instrument };
}

/** Checks are answered in order; a failed one cannot be skipped. */
function orderRefusal(step: StepState, check: RouteCheck, saysNo: boolean): Decision | undefined {
  const next = step.checks.find(({ holds }) => !holds);
  if (next?.id === check.id) return undefined;
  // Another cartridge is named before the work it seals, though the step asks for it last.
  if (
    check.lot !== undefined &&
    isShared(check.rhythm) &&
    step.checks.some(({ id, answered }) => id === check.id && !answered)
  )
    return undefined;
  // Of what stands together, the one that is not right may be named first.
  if (saysNo && lookAt(step).some(({ id }) => id === check.id)) return undefined;
  if (!next || step.checks.some(({ id, holds }) => holds && id === check.id))
    return refused('build.already-answered', { check: check.id });
  const failed = next.answered !== undefined && next.answered.verdict.outcome !== 'pass';
  return failed
    ? refused('build.check-order/failed', { check: next.id, step: step.step.id })
    : refused('build.check-order/first', { check: next.id });
}

function setupRefusal(step: StepState, context: DecisionContext): Decision | undefined {
  const kind = step.step.setup;
  if (kind === undefined || context.setups === undefined) return undefined;
  const setup = context.setups[kind];
  if (!setup) return refused('build.no-setup', { step: step.step.title, kind });
  if (context.snagged?.setups.includes(setup.id)) return refused('build.setup-blocked', { setup: setup.id });
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
  const wanted = wantedBy(check);
  if (!MEASURED.has(check.kind) || wanted === undefined) return { instrument: undefined };
  const found = instrumentFor(check, wanted, action.with, context);
  if ('problem' in found) return { refusal: refuse(found.problem) };
  const { instrument } = found;
  if (!isOverdue(instrument, dayNow(context))) return { instrument };
  const word = action.overdueAllowedBy;
  if (!word) {
    // Authorisation given for the first reading of a set covers the rest.
    const before =
      now.partial === undefined ? undefined : allowedBefore(scope, step, check.id, instrument.id);
    if (before !== undefined) return { instrument, allowedBy: before };
    return {
      refusal: refused('build.instrument-overdue', { instrument: instrument.id, due: instrument.due! }),
    };
  }
  const allowed = allowing(word, step.step.stage, unitWords('act-overdue'), context);
  return 'problem' in allowed
    ? { refusal: refuse(allowed.problem) }
    : { instrument, allowedBy: allowed.person.id };
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
export function beginning(state: UnitState, step: StepState, second: AtCheck['second']): EventBody[] {
  const standing = state.derived.view.at.get(step.step.id)!;
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

/** The lot or piece an answer names, if the check asks for one. Refuses one that is expired, snagged, or not accepted. */
function lotOf(
  { check, step }: Pick<AtCheck, 'check' | 'step'>,
  action: AnswerAction,
  { state, context }: ActionContext,
): { readonly lot?: Lot } | { readonly refusal: Decision } {
  const text = typeof action.value === 'string' ? action.value.trim() : '';
  if (check.lot === undefined || check.kind !== 'text' || text === '' || text.length > 200) return {};
  const dates = context.workshop.dates;
  const read = readLot(text, { serial: check.serial === true, dates, now: context.now });
  if ('problem' in read) return { refusal: refuse(read.problem) };
  const until = action.expires === undefined ? read.expires : readDate(action.expires, dates);
  if (action.expires !== undefined && until === undefined)
    return { refusal: refused('build.lot-expiry-bad', { given: action.expires }) };
  const accepts = action.acceptedBy;
  const who = accepts && allowing(accepts, step.step.stage, unitWords('act-lot'), context);
  if (who && 'problem' in who) return { refusal: refuse(who.problem) };
  const lot = lotNamed(
    state,
    { code: read.code, ...(until === undefined ? {} : { expires: until }) },
    {
      check,
      item: step.step.item,
      lots: lotsKnown(state, context.lots ?? []),
      today: dayNow(context),
      acceptedBy: who?.person.id,
    },
  );
  if ('problem' in lot) return { refusal: refuse(lot.problem) };
  const { code, material } = lot;
  const snag = state.snags.find(({ open, raised }) => open && raised.touches.lot === code);
  if (snag || context.snagged?.lots.includes(code))
    return {
      refusal: snag
        ? refused('build.lot-snagged/number', { snag: snag.n, code, material })
        : refused('build.lot-snagged', { code, material }),
    };
  return { lot: text === code ? lot : { ...lot, raw: text } };
}

/** Asks when a picture belongs to another answer already: somebody may have taken the newest file twice. */
function samePicture({ state, context }: ActionContext, evidence: readonly Evidence[]): Question | undefined {
  for (const { sha256, name } of evidence) {
    const before = state.events.find(
      (event) =>
        (event.kind === 'answered' || event.kind === 'released') &&
        event.evidence?.some((each) => each.sha256 === sha256),
    );
    const where =
      before?.kind === 'answered'
        ? askedAt(state, before.check)
        : before
          ? unitWords('picture-hold')
          : context.pictures?.has(sha256)
            ? unitWords('picture-other')
            : undefined;
    if (where !== undefined)
      return {
        id: 'build.same-picture',
        text: unitWords('same-picture', { name }),
        details: [unitWords('same-picture-of', { where }), unitWords('same-picture-here')],
      };
  }
  return undefined;
}

/** A question with the step that asks it: several steps may ask the same. */
function askedAt({ route }: UnitState, check: string): Message {
  const found = findCheck(route, check);
  return found
    ? unitWords('picture-check', {
        ask: quoted(`check ${found.check.id}`, found.check.ask),
        step: stepTitle(found.step),
      })
    : quoted(`check ${check}`, check);
}
