/** Releasing a hold: by a qualified person, and not the maker where the hold requires that. */
import type { Action } from '../actions.js';
import type { EventBody } from '../events.js';
import { levelProblem, pinProblem, RELEASES, soloRule } from '../people.js';
import type { StepStanding } from '../stale.js';
import type { CheckState, Decision, Person } from '../types.js';
import { holdTitle, unitWords } from '../words.js';
import {
  type ActionContext,
  evidenceOf,
  refuse,
  refused,
  steadyNow,
  stepOf,
  worker,
  write,
} from './context.js';

type ReleaseAction = Extract<Action, { do: 'release' }>;

/** Releases a step, and the others of the same hold that were gone through with it; all of them or none. */
export function release(scope: ActionContext, action: ReleaseAction): Decision {
  const who = worker(scope);
  if ('refusal' in who) return who.refusal;
  const steps = [...new Set([action.step, ...(action.also ?? [])])];
  const events: EventBody[] = [];
  for (const id of steps) {
    const one = releaseOne(scope, { ...action, step: id }, who.person);
    if ('refusal' in one) return one.refusal;
    if (one.event.hold !== scope.state.steps.get(action.step)!.step.hold!.id)
      return refused('build.no-hold', { id, step: action.step });
    events.push(steps.length > 1 ? { ...one.event, walk: steps.length } : one.event);
  }
  return write(who.person, ...events);
}

function releaseOne(
  scope: ActionContext,
  action: ReleaseAction,
  person: Person,
): { readonly event: EventBody & { kind: 'released' } } | { readonly refusal: Decision } {
  const { state, context } = scope;
  const refusing = (decision: Decision) => ({ refusal: decision });
  const found = stepOf(scope, action.step);
  if ('refusal' in found) return found;
  const { step } = found.step;
  const { hold } = step;
  if (!hold) return refusing(refused('build.no-hold/hold', { step: step.id }));
  const standing = state.derived.view.at.get(step.id)!;
  if (found.step.status !== 'held') return refusing(notHeld(scope, standing));
  const skipped = workedPast(scope, standing);
  if (
    skipped !== undefined &&
    !state.snags.some(({ raised }) => raised.step === step.id && raised.n > standing.lastAnswer)
  )
    return refusing(refused('build.hold-skipped', { skipped, step: step.id }));
  const snag = state.derived.blocks.release.get(step.id)?.[0];
  if (snag !== undefined) return refusing(refused('build.waits-for-snag', { snag, step: step.title }));
  const level = levelProblem(
    person,
    step.stage,
    RELEASES,
    unitWords('act-release', { hold: holdTitle(hold) }),
    context,
  );
  if (level) return refusing(refuse(level));
  let rule: string | undefined;
  let wantsEvidence = hold.evidence;
  if (hold.notSamePerson && found.step.checks.some(({ answered }) => didIt(answered) === person.id)) {
    const solo = soloRule(person, step.stage, (steadyNow(scope) - standing.lastTime) / 60_000, context);
    if ('problem' in solo) return refusing(refuse(solo.problem));
    rule = solo.rule;
    wantsEvidence ||= solo.evidence;
  }
  const kept = evidenceOf(action.evidence, context);
  if ('refusal' in kept) return kept;
  if (wantsEvidence && kept.evidence.length === 0)
    return refusing(refused('build.evidence-needed/releasing', { hold: hold.title }));
  const pin = pinProblem(person, action.pin, context);
  if (pin) return refusing(refuse(pin));
  const event: EventBody & { kind: 'released' } = {
    kind: 'released',
    step: step.id,
    hold: hold.id,
    pin: person.pin !== undefined,
    ...(kept.evidence.length > 0 ? { evidence: kept.evidence } : {}),
    ...(rule === undefined ? {} : { rule }),
  };
  return { event };
}

/** Who did what an answer says: of a cited one, whoever was asked. */
const didIt = (answered: CheckState['answered']): string | undefined => answered?.cited?.by ?? answered?.by;

function notHeld({ state }: ActionContext, standing: StepStanding): Decision {
  const { step } = standing.node;
  const at = state.steps.get(step.id)!;
  if (at.status === 'done') return refused('build.not-held', { step: step.id });
  const missing = at.checks.filter(({ holds }) => !holds).map(({ id }) => id);
  if (missing.length > 0)
    return refused('build.not-held/open', { step: step.id, open: missing, count: missing.length });
  // All its own checks count, so a dependency is the obstacle; `because` says which.
  const why = at.because[0]!;
  return refused('build.not-held/rests', { step: step.id, why });
}

/** Title of a step that depends on this one and was worked on before the hold was released. */
function workedPast({ state }: ActionContext, standing: StepStanding): string | undefined {
  for (const link of standing.node.carries) {
    const above = state.derived.view.at.get(link.step);
    if (above?.made && above.some && above.marks!.madeAt > standing.lastAnswer) return above.node.step.title;
  }
  return undefined;
}
