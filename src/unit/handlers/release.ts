/** Releasing a hold: by a qualified person, and not the maker where the hold requires that. */
import type { Action } from '../actions.js';
import type { EventBody } from '../events.js';
import { levelProblem, pinProblem, RELEASES, soloRule } from '../people.js';
import type { StepStanding } from '../stale.js';
import type { Decision } from '../types.js';
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

export function release(scope: ActionContext, action: Extract<Action, { do: 'release' }>): Decision {
  const { state, context } = scope;
  const who = worker(scope);
  if ('refusal' in who) return who.refusal;
  const { person } = who;
  const found = stepOf(scope, action.step);
  if ('refusal' in found) return found.refusal;
  const { step } = found.step;
  const { hold } = step;
  if (!hold) return refused('build.no-hold', `${step.id} has no hold.`);
  const standing = state.derived.view.at.get(step.id)!;
  if (found.step.status !== 'held') return notHeld(scope, standing);
  const skipped = workedPast(scope, standing);
  if (
    skipped !== undefined &&
    !state.snags.some(({ raised }) => raised.step === step.id && raised.n > standing.lastAnswer)
  )
    return refused(
      'build.hold-skipped',
      `${skipped} went on before the hold at ${step.id} was released.`,
      `Raise a snag on ${step.id}: open it up, test it or scrap it; a hold is not released late.`,
    );
  const snag = state.derived.blocks.release.get(step.id)?.[0];
  if (snag !== undefined)
    return refused(
      'build.waits-for-snag',
      `Snag ${snag} is open and touches ${step.title} or what it rests on.`,
      `Decide and close snag ${snag}.`,
    );
  const level = levelProblem(person, step.stage, RELEASES, `releasing "${hold.title}"`, context);
  if (level) return refuse(level);
  let rule: string | undefined;
  let wantsEvidence = hold.evidence;
  if (hold.notSamePerson && found.step.checks.some(({ answered }) => answered?.by === person.id)) {
    const solo = soloRule(person, step.stage, (steadyNow(scope) - standing.lastTime) / 60_000, context);
    if ('problem' in solo) return refuse(solo.problem);
    rule = solo.rule;
    wantsEvidence ||= solo.evidence;
  }
  const kept = evidenceOf(action.evidence, context);
  if ('refusal' in kept) return kept.refusal;
  if (wantsEvidence && kept.evidence.length === 0)
    return refused('build.evidence-needed', `Releasing "${hold.title}" asks for a picture or a file.`);
  const pin = pinProblem(person, action.pin, context);
  if (pin) return refuse(pin);
  const event: EventBody = {
    kind: 'released',
    step: step.id,
    hold: hold.id,
    pin: person.pin !== undefined,
    ...(kept.evidence.length > 0 ? { evidence: kept.evidence } : {}),
    ...(rule === undefined ? {} : { rule }),
  };
  return write(person, event);
}

function notHeld({ state }: ActionContext, standing: StepStanding): Decision {
  const { step } = standing.node;
  const at = state.steps.get(step.id)!;
  if (at.status === 'done')
    return refused('build.not-held', `${step.id} is released already.`, 'Go on with the next step.');
  const missing = at.checks.filter(({ holds }) => !holds).map(({ id }) => id);
  if (missing.length > 0)
    return refused(
      'build.not-held',
      `${step.id} is not complete: ${missing.join(', ')} ${missing.length === 1 ? 'is' : 'are'} open.`,
      `Answer ${missing.join(', ')} so that ${missing.length === 1 ? 'it passes' : 'all pass'}, then release.`,
    );
  // All its own checks count, so a dependency is the obstacle; `because` says which.
  const why = at.because[0]!;
  return refused('build.not-held', `${step.id} rests on work that is not done. ${why}`, why);
}

/** Title of a step that depends on this one and was worked on before the hold was released. */
function workedPast({ state }: ActionContext, standing: StepStanding): string | undefined {
  for (const link of standing.node.carries) {
    const above = state.derived.view.at.get(link.step);
    if (above?.made && above.some && above.marks!.madeAt > standing.lastAnswer) return above.node.step.title;
  }
  return undefined;
}
