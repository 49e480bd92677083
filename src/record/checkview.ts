/** Stages, steps and checks of a record: what was asked, what was answered, and what counts now. */

import { plain } from '../base/text.js';
import type { RouteCheck } from '../procedure/types.js';
import type { JournalEvent } from '../unit/events.js';
import type { CheckState, StepState } from '../unit/types.js';
import type { UnitState } from '../unit/unitstate.js';
import type { Namer } from './initials.js';
import type { AnswerView, CheckView, EvidenceView, StageView } from './schema.js';
import { answerSays, OUTCOME_WORDS, readingsOf, size, stepTitle, withUnit } from './words.js';

type Answered = JournalEvent & { readonly kind: 'answered' };

export function stageViews(state: UnitState, named: Namer): StageView[] {
  const events = new Map(state.events.map((event) => [event.n, event]));
  return state.route.stages.map((stage) => {
    const steps = stage.steps.flatMap((id) => {
      const step = state.steps.get(id);
      return step ? [stepView(step, state, events, named)] : [];
    });
    return {
      id: stage.id,
      title: plain(stage.title),
      done: steps.filter(({ status }) => status === 'done').length,
      of: steps.length,
      steps,
    };
  });
}

function stepView(
  step: StepState,
  state: UnitState,
  events: ReadonlyMap<number, JournalEvent>,
  named: Namer,
) {
  return {
    id: step.step.id,
    title: stepTitle(step.step),
    status: step.status,
    because: step.because.map(plain),
    checks: step.step.checks.map((check) =>
      checkView(
        check,
        step.checks.find(({ id }) => id === check.id),
        state,
        events,
        named,
      ),
    ),
  };
}

function checkView(
  check: RouteCheck,
  now: CheckState | undefined,
  state: UnitState,
  events: ReadonlyMap<number, JournalEvent>,
  named: Namer,
): CheckView {
  const answered = now?.answered;
  const event = answered ? events.get(answered.n) : undefined;
  const conceded = answered?.concession !== undefined;
  const verdict = !answered ? 'open' : conceded ? 'conceded' : answered.verdict.outcome;
  const remark =
    answered && !now.holds
      ? verdict === 'pass'
        ? 'does not count any more: something it rests on was made again'
        : 'not settled'
      : conceded
        ? `let stand by the concession on snag ${answered.concession}`
        : undefined;
  return {
    id: check.id,
    asks: plain(check.ask),
    ...(check.how ? { how: plain(check.how) } : {}),
    kind: check.kind,
    ...expected(check),
    safety: check.safety,
    verdict,
    ...(remark === undefined ? {} : { remark }),
    ...(event?.kind === 'answered' ? { answer: answerView(event, check, named) } : {}),
    ...(answered?.concession === undefined ? {} : { concession: answered.concession }),
    earlier: (now?.earlier ?? []).flatMap(({ n, why }) => {
      const old = events.get(n);
      if (old?.kind !== 'answered') return [];
      return [
        {
          why: whyNotCounted(n, why, state),
          line: n,
          at: old.at,
          by: named(old.by),
          says: answerSays(old.answer, check),
          outcome: OUTCOME_WORDS[old.verdict.outcome]!,
        },
      ];
    }),
  };
}

/** An answer of the journal in the record's words. */
function answerView(event: Answered, check: RouteCheck | undefined, named: Namer): AnswerView {
  const { verdict } = event;
  return {
    line: event.n,
    at: event.at,
    by: named(event.by),
    ...(event.second === undefined ? {} : { second: named(event.second) }),
    readings: readingsOf(event.answer, check),
    says: answerSays(event.answer, check),
    outcome: verdict.outcome,
    judged: {
      ...(verdict.value === undefined ? {} : { value: verdict.value }),
      ...(verdict.unit === undefined ? {} : { unit: plain(verdict.unit) }),
      ...(verdict.uncertainty === undefined ? {} : { uncertainty: verdict.uncertainty }),
    },
    rules: verdict.rules.map((rule) => ({
      limit: plain(rule.limit),
      title: plain(rule.title),
      says: plain(rule.says),
      ...(rule.low === undefined ? {} : { low: rule.low }),
      ...(rule.high === undefined ? {} : { high: rule.high }),
      source: plain(rule.source),
      sourceKind: plain(rule.sourceKind),
      outcome: rule.outcome,
    })),
    notes: verdict.notes.map(plain),
    ...(event.lot
      ? {
          lot: {
            material: plain(event.lot.material),
            code: plain(event.lot.code),
            ...(event.lot.expires === undefined ? {} : { expires: plain(event.lot.expires) }),
          },
        }
      : {}),
    evidence: (event.evidence ?? []).map(evidenceView),
    burst: event.burst === true,
    ...(event.setup === undefined ? {} : { setup: plain(event.setup) }),
    ...(event.overdueAllowedBy === undefined ? {} : { overdueAllowedBy: named(event.overdueAllowedBy) }),
  };
}

export const evidenceView = (file: { name: string; bytes: number; sha256: string }): EvidenceView => ({
  name: plain(file.name),
  bytes: file.bytes,
  sha256: file.sha256,
});

function expected(check: RouteCheck): { expect?: string } {
  if (check.nominal) return { expect: size(check.nominal.w, check.nominal.h) };
  if (check.expect !== undefined) return { expect: withUnit(check.expect, check.unit) };
  return {};
}

type Why = CheckState['earlier'][number]['why'];

function whyNotCounted(n: number, why: Why, state: UnitState): string {
  if (why === 'corrected') {
    const correction = state.events.find((event) => event.kind === 'corrected' && event.of === n);
    return correction?.kind === 'corrected' ? `put right: ${plain(correction.reason)}` : 'put right';
  }
  return {
    superseded: 'measured again',
    reworked: 'the step was made again',
    stale: 'something it rests on was made again',
  }[why];
}
