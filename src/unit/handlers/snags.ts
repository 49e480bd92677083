/** Snags: raised at any step, decided by a qualified person, closed only with new readings. */
import type { Verdict } from '../../measure/types.js';
import type { Action, Asked } from '../actions.js';
import type { EventBody } from '../events.js';
import { findCheck, lastStage } from '../graph.js';
import { ALONE, levelProblem, pinProblem, RELEASES, soloRule } from '../people.js';
import { replacementOf } from '../replacement.js';
import type { CheckState, Decision, Level, Person, Snag } from '../types.js';
import type { UnitState } from '../unitstate.js';
import { unitWords } from '../words.js';
import { type ActionContext, refuse, refused, steadyNow, stepOf, worker, write } from './context.js';

export function raiseSnag(scope: ActionContext, action: Extract<Asked, { do: 'snag' }>): Decision {
  const who = worker(scope, { whileParked: true });
  if ('refusal' in who) return who.refusal;
  let { step } = action;
  if (action.check !== undefined) {
    const found = findCheck(scope.state.route, action.check);
    if (!found || (step !== undefined && step !== found.step.id))
      return refused('build.unknown-check/check2', { step: step ?? scope.state.unit, check: action.check });
    step = found.step.id;
  } else if (step !== undefined) {
    const found = stepOf(scope, step);
    if ('refusal' in found) return found.refusal;
  }
  const { check, text, cause, lot, setup, containment } = action;
  const raised: EventBody = {
    kind: 'snag-raised',
    ...(step === undefined ? {} : { step }),
    ...(check === undefined ? {} : { check }),
    severity: action.severity,
    cause,
    text,
    touches: {
      unit: true,
      ...(setup === undefined ? {} : { setup }),
      ...(lot === undefined ? {} : { lot }),
    },
    ...(containment === undefined ? {} : { containment }),
  };
  const park: EventBody[] = action.park && !scope.state.parked ? [{ kind: 'parked', reason: text }] : [];
  return write(who.person, raised, ...park);
}

export function closeSnag(scope: ActionContext, action: Extract<Asked, { do: 'close' }>): Decision {
  const who = worker(scope, { whileParked: true });
  if ('refusal' in who) return who.refusal;
  const found = openSnag(scope, action.snag);
  if ('refusal' in found) return found.refusal;
  const { snag } = found;
  const missing = closeProblem(scope, snag);
  if (missing) return missing;
  const level = levelProblem(who.person, stageOf(scope, snag), ALONE, unitWords('act-close'), scope.context);
  if (level) return refuse(level);
  return write(who.person, { kind: 'snag-closed', snag: snag.n, note: action.note });
}

function openSnag(scope: ActionContext, n: number): { snag: Snag } | { refusal: Decision } {
  const snag = scope.state.snags.find((each) => each.n === n);
  if (snag?.open) return { snag };
  const open = scope.state.snags.filter((each) => each.open).map((each) => each.n);
  const given = { snag: n, unit: scope.state.unit, open: open.map(String) };
  if (snag)
    return {
      refusal: refused(open.length > 0 ? 'build.unknown-snag' : 'build.unknown-snag/closed', given),
    };
  return {
    refusal: refused(open.length > 0 ? 'build.unknown-snag/never' : 'build.unknown-snag/none', given),
  };
}

/** Stage whose levels apply to a snag; a whole-unit snag uses the last stage, which releases the unit. */
function stageOf({ state }: ActionContext, snag: Snag): string {
  const own = snag.raised.step === undefined ? undefined : state.steps.get(snag.raised.step)?.step.stage;
  return own ?? lastStage(state.route);
}

/** What still prevents the snag from being closed. */
function closeProblem(scope: ActionContext, snag: Snag): Decision | undefined {
  const { state } = scope;
  const { decided, raised } = snag;
  if (!decided) return refused('build.snag-not-decided', { snag: snag.n });
  // A concession accepts the reading it names, so there is nothing to measure again.
  if (decided.disposition === 'concession') {
    if (checksOf(state).some(({ id, holds }) => id === raised.check && holds)) return undefined;
    return refused('build.snag-needs-readings', { snag: snag.n, check: raised.check! });
  }
  // What was never begun was not made wrong: there is nothing to make or measure again.
  const about = raised.step === undefined ? undefined : state.steps.get(raised.step);
  if (about && about.madeAt === undefined) return undefined;
  const reworked = state.events.filter(
    (event) =>
      event.kind === 'reworked' &&
      event.n > decided.n &&
      (raised.step === undefined || event.snag === snag.n || event.step === raised.step),
  );
  if (decided.disposition === 'rework' && reworked.length === 0)
    return raised.step === undefined
      ? refused('build.snag-needs-rework/unit', { snag: snag.n })
      : refused('build.snag-needs-rework', { snag: snag.n, step: raised.step });
  const open = checksToTakeAgain(scope, snag);
  if (open.length > 0)
    return refused('build.snag-needs-readings/again', { snag: snag.n, open, count: open.length });
  return undefined;
}

function checksToTakeAgain({ state }: ActionContext, snag: Snag): string[] {
  const { raised, decided } = snag;
  const after = decided!.n;
  const all = checksOf(state);
  const named =
    raised.check !== undefined
      ? all.filter(({ id }) => id === raised.check)
      : raised.step !== undefined
        ? (state.steps.get(raised.step)?.checks ?? [])
        : all.filter(({ answered }) => touched(answered, raised.touches));
  if (named.length > 0 || raised.step !== undefined || raised.check !== undefined)
    return named
      .filter(({ holds, answered }) => !holds || (answered !== undefined && answered.n <= after))
      .map(({ id }) => id);
  // Not tied to anything specific: the steps reworked since, or failing that any one check answered again.
  const remade = new Set(
    state.events.flatMap((event) => (event.kind === 'reworked' && event.n > after ? [event.step] : [])),
  );
  if (remade.size > 0)
    return [...remade]
      .flatMap((id) => state.steps.get(id)?.checks.filter(({ holds }) => !holds) ?? [])
      .map(({ id }) => id);
  // What the program works out holds without an answer.
  return all.some(({ holds, answered }) => holds && answered !== undefined && answered.n > after)
    ? []
    : [String(unitWords('after-repair'))];
}

const checksOf = ({ steps }: UnitState): CheckState[] => [...steps.values()].flatMap(({ checks }) => checks);

const touched = (
  answered: { readonly lot?: { readonly code: string }; readonly setup?: string } | undefined,
  touches: { readonly lot?: string | undefined; readonly setup?: string | undefined },
): boolean =>
  answered !== undefined &&
  ((touches.lot !== undefined && answered.lot?.code === touches.lot) ||
    (touches.setup !== undefined && answered.setup === touches.setup));

// Snag dispositions, and who may decide them.

type DecideAction = Extract<Action, { do: 'decide' }>;

/**
 * Lowest level for each disposition (common practice in small workshops): a person competent for the stage may decide
 * rework on the spot; the others need somebody who may release the stage.
 */
const MIN_LEVEL: Readonly<Record<DecideAction['disposition'], Level>> = {
  rework: ALONE,
  repair: RELEASES,
  concession: RELEASES,
  scrap: RELEASES,
  return: RELEASES,
};

export function decideSnag(scope: ActionContext, action: DecideAction): Decision {
  const who = worker(scope, { whileParked: true });
  if ('refusal' in who) return who.refusal;
  const { person } = who;
  const found = openSnag(scope, action.snag);
  if ('refusal' in found) return found.refusal;
  const { snag } = found;
  const { disposition, reason } = action;
  const level = levelProblem(
    person,
    stageOf(scope, snag),
    MIN_LEVEL[disposition],
    unitWords('act-decide', { disposition: unitWords(`decided-${disposition}`) }),
    scope.context,
  );
  if (level) return refuse(level);
  let limit: string | undefined;
  let pin = false;
  if (disposition === 'concession') {
    const conceded = concession(scope, snag, action, person);
    if ('refusal' in conceded) return conceded.refusal;
    limit = conceded.limit;
    pin = person.pin !== undefined;
  }
  const decided: EventBody = {
    kind: 'snag-decided',
    snag: snag.n,
    disposition,
    reason,
    ...(limit === undefined ? {} : { limit }),
    pin,
  };
  if (disposition !== 'scrap') return write(person, decided);
  const replacement = action.replacement ?? replacementOf(scope.state.unit);
  return write(person, decided, { kind: 'scrapped', reason, replacement });
}

/** A concession accepts one failed reading: it names the limits waived, and some limits can never be waived. */
function concession(
  scope: ActionContext,
  snag: Snag,
  action: DecideAction,
  person: Person,
): { readonly limit: string } | { readonly refusal: Decision } {
  const no = (decision: Decision) => ({ refusal: decision });
  const { state, context } = scope;
  const route = snag.raised.check === undefined ? undefined : findCheck(state.route, snag.raised.check);
  if (route?.check.safety || snag.raised.severity === 'critical')
    return no(
      route?.check.safety
        ? refused('build.concession-safety', { check: route.check.id })
        : refused('build.concession-safety/critical', { snag: snag.n }),
    );
  const step = route && state.steps.get(route.step.id);
  const answered = step?.checks.find(({ id }) => id === route?.check.id)?.answered;
  if (!route || !answered || answered.verdict.outcome === 'pass')
    return no(refused('build.concession-no-failure', { snag: snag.n }));
  const broken = limitsBroken(route.check.id, answered.verdict);
  const named = (action.limit ?? '')
    .split(',')
    .map((each) => each.trim())
    .filter((each) => each !== '');
  const missing = broken.filter(({ limit }) => !named.includes(limit)).map(({ limit }) => limit);
  if (missing.length > 0)
    return no(
      refused('build.concession-no-limit', {
        missing: missing.join(', '),
        broken: broken.map(({ limit }) => limit).join(', '),
      }),
    );
  const product = broken.find(({ sourceKind }) => sourceKind === 'published');
  if (product)
    return no(refused('build.concession-product-limit', { limit: product.limit, source: product.source }));
  if (answered.by === person.id || answered.second === person.id) {
    const waited = (steadyNow(scope) - state.derived.view.at.get(route.step.id)!.lastTime) / 60_000;
    const solo = soloRule(person, route.step.stage, waited, context);
    if ('problem' in solo) return no(refuse(solo.problem));
  }
  const pin = pinProblem(person, action.pin, context);
  if (pin) return no(refuse(pin));
  return { limit: broken.map(({ limit }) => limit).join(', ') };
}

/** Limits the current answer failed; for a yes-or-no check, the check's own id. */
function limitsBroken(
  check: string,
  verdict: Verdict,
): { readonly limit: string; readonly sourceKind: string; readonly source: string }[] {
  const rules = verdict.rules.filter(({ outcome }) => outcome !== 'pass');
  return rules.length > 0 ? rules : [{ limit: check, sourceKind: 'house-rule', source: 'the procedure' }];
}
