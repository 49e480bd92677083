/** What becomes of a snag, and who may say so. */
import type { Verdict } from '../../measure/types.js';
import type { Action } from '../actions.js';
import type { EventBody } from '../events.js';
import { findCheck } from '../graph.js';
import { ALONE, levelProblem, pinProblem, RELEASES, soloRule } from '../people.js';
import { replacementOf } from '../replacement.js';
import type { Decision, Snag } from '../types.js';
import type { Level, Person } from '../workshop.js';
import { type Deed, refuse, refused, steadyNow, worker, write } from './deed.js';
import { openSnag, stageOf } from './snags.js';

type DecideAction = Extract<Action, { do: 'decide' }>;

/**
 * Least level for each disposition (common practice in small workshops): somebody competent for the stage may rework on
 * the spot; the others take somebody who may release it.
 */
const LEAST: Readonly<Record<DecideAction['disposition'], Level>> = {
  rework: ALONE,
  repair: RELEASES,
  concession: RELEASES,
  scrap: RELEASES,
  return: RELEASES,
};

export function decideSnag(deed: Deed, action: DecideAction): Decision {
  const who = worker(deed, { whileParked: true });
  if ('refusal' in who) return who.refusal;
  const { person } = who;
  const found = openSnag(deed, action.snag);
  if ('refusal' in found) return found.refusal;
  const { snag } = found;
  const { disposition, reason } = action;
  const level = levelProblem(
    person,
    stageOf(deed, snag),
    LEAST[disposition],
    `deciding "${disposition}"`,
    deed.around,
  );
  if (level) return refuse(level);
  let limit: string | undefined;
  let pin = false;
  if (disposition === 'concession') {
    const conceded = concession(deed, snag, action, person);
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
  const replacement = action.replacement ?? replacementOf(deed.state.unit);
  return write(person, decided, { kind: 'scrapped', reason, replacement });
}

/** A concession lets one failed reading stand: it names the limits given way, and some limits never give way. */
function concession(
  deed: Deed,
  snag: Snag,
  action: DecideAction,
  person: Person,
): { readonly limit: string } | { readonly refusal: Decision } {
  const no = (decision: Decision) => ({ refusal: decision });
  const { state, around } = deed;
  const route = snag.raised.check === undefined ? undefined : findCheck(state.route, snag.raised.check);
  if (route?.check.safety || snag.raised.severity === 'critical')
    return no(
      refused(
        'build.concession-safety',
        route?.check.safety
          ? `${route.check.id} is a matter of safety and takes no concession.`
          : `Snag ${snag.n} is critical and takes no concession.`,
      ),
    );
  const step = route && state.steps.get(route.step.id);
  const answered = step?.checks.find(({ id }) => id === route?.check.id)?.answered;
  if (!route || !answered || answered.verdict.outcome === 'pass')
    return no(
      refused('build.concession-no-failure', `Snag ${snag.n} is not about a failed reading that counts now.`),
    );
  const broken = limitsBroken(route.check.id, answered.verdict);
  const named = (action.limit ?? '')
    .split(',')
    .map((each) => each.trim())
    .filter((each) => each !== '');
  const missing = broken.filter(({ limit }) => !named.includes(limit)).map(({ limit }) => limit);
  if (missing.length > 0)
    return no(
      refused(
        'build.concession-no-limit',
        `The concession must name what is given way: ${missing.join(', ')}.`,
        `Decide again with limit "${broken.map(({ limit }) => limit).join(', ')}".`,
      ),
    );
  const product = broken.find(({ sourceKind }) => sourceKind === 'published');
  if (product)
    return no(
      refused(
        'build.concession-product-limit',
        `${product.limit} is a limit of a published standard (${product.source}).`,
      ),
    );
  if (answered.by === person.id || answered.second === person.id) {
    const waited = (steadyNow(deed) - state.derived.view.at.get(route.step.id)!.lastTime) / 60_000;
    const solo = soloRule(person, route.step.stage, waited, around);
    if ('problem' in solo) return no(refuse(solo.problem));
  }
  const pin = pinProblem(person, action.pin, around);
  if (pin) return no(refuse(pin));
  return { limit: broken.map(({ limit }) => limit).join(', ') };
}

/** The limits that the counting answer did not keep; a yes-or-no check gives way by its own name. */
function limitsBroken(
  check: string,
  verdict: Verdict,
): { readonly limit: string; readonly sourceKind: string; readonly source: string }[] {
  const rules = verdict.rules.filter(({ outcome }) => outcome !== 'pass');
  return rules.length > 0 ? rules : [{ limit: check, sourceKind: 'house-rule', source: 'the procedure' }];
}
