/** Stages, steps and checks of a record: what was asked, what was answered, and what counts now. */
import { sanitize } from '../base/text.js';
import { data, type Spoken } from '../base/words.js';
import { supportedBy } from '../measure/fitness.js';
import type { RouteCheck } from '../procedure/types.js';
import type { Evidence, JournalEvent } from '../unit/events.js';
import { hasteOf } from '../unit/haste.js';
import type { CheckState, StepState } from '../unit/types.js';
import type { UnitState } from '../unit/unitstate.js';
import type { SetOut } from '../window/types.js';
import type { Namer } from './initials.js';
import { checksOf } from './materialview.js';
import type {
  AnswerView,
  CheckView,
  EvidenceView,
  HoldView,
  RecordView,
  SnagView,
  StageView,
} from './schema.js';
import {
  answerSays,
  citedText,
  type DocumentSay,
  joined,
  listed,
  outcomeWords,
  readingsOf,
  sentence,
  size,
  stepHeading,
  withUnit,
} from './telling.js';

type Answered = JournalEvent & { readonly kind: 'answered' };

export function stageViews(state: UnitState, named: Namer, say: DocumentSay): StageView[] {
  const events = new Map(state.events.map((event) => [event.n, event]));
  return state.route.stages.map((stage) => {
    const steps = stage.steps.flatMap((id) => {
      const step = state.steps.get(id);
      return step ? [stepView(step, state, events, named, say)] : [];
    });
    return {
      id: stage.id,
      title: sanitize(stage.title),
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
  say: DocumentSay,
) {
  return {
    id: step.step.id,
    title: stepHeading(step.step),
    status: step.status,
    because: step.because.map(say.retell),
    checks: step.step.checks.map((check) =>
      checkView(
        check,
        step.checks.find(({ id }) => id === check.id),
        step.madeAt !== undefined || step.status === 'done' || step.status === 'held',
        state,
        events,
        named,
        say,
      ),
    ),
  };
}

function checkView(
  check: RouteCheck,
  now: CheckState | undefined,
  isMade: boolean,
  state: UnitState,
  events: ReadonlyMap<number, JournalEvent>,
  named: Namer,
  say: DocumentSay,
): CheckView {
  const answered = now?.answered;
  const event = answered ? events.get(answered.n) : undefined;
  const conceded = answered?.concession !== undefined;
  const isWorkedOut = check.kind === 'computed' && isMade;
  const verdict = isWorkedOut
    ? 'pass'
    : !answered
      ? 'open'
      : conceded
        ? 'conceded'
        : answered.verdict.outcome;
  const remark =
    answered && !now.holds
      ? verdict === 'pass'
        ? say('doc-remark-stale')
        : say('doc-remark-not-settled')
      : conceded
        ? say('doc-remark-conceded', { n: answered.concession! })
        : isWorkedOut
          ? say('doc-remark-computed')
          : undefined;
  return {
    id: check.id,
    asks: sanitize(check.ask),
    ...(check.how ? { how: sanitize(check.how) } : {}),
    kind: check.kind,
    ...expected(check),
    safety: check.safety,
    verdict,
    ...(remark === undefined ? {} : { remark }),
    ...(event?.kind === 'answered' ? { answer: answerView(event, check, named, say) } : {}),
    ...(answered?.concession === undefined ? {} : { concession: answered.concession }),
    earlier: (now?.earlier ?? []).flatMap(({ n, why }) => {
      const old = events.get(n);
      if (old?.kind !== 'answered') return [];
      return [
        {
          why: whyNotCounted(n, why, state, say),
          line: n,
          at: old.at,
          by: named(old.by),
          says: answerSays(say, old.answer, check),
          outcome: outcomeWords(say, old.verdict.outcome),
        },
      ];
    }),
  };
}

function answerView(
  event: Answered,
  check: RouteCheck | undefined,
  named: Namer,
  say: DocumentSay,
): AnswerView {
  const { verdict } = event;
  const { second } = event.cited ?? event;
  return {
    line: event.n,
    // Of a cited answer: who was asked, and when.
    at: event.cited?.at ?? event.at,
    by: named(event.cited?.by ?? event.by),
    ...(second === undefined ? {} : { second: named(second) }),
    readings: readingsOf(say, event.answer, check),
    says: answerSays(say, event.answer, check),
    outcome: verdict.outcome,
    judged: {
      ...(verdict.value === undefined ? {} : { value: verdict.value }),
      ...(verdict.unit === undefined ? {} : { unit: sanitize(verdict.unit) }),
      ...(verdict.uncertainty === undefined ? {} : { uncertainty: verdict.uncertainty }),
    },
    rules: verdict.rules.map((rule) => ({
      limit: sanitize(rule.limit),
      title: sanitize(rule.title),
      says: say.retell(rule.says),
      ...(rule.low === undefined ? {} : { low: rule.low }),
      ...(rule.high === undefined ? {} : { high: rule.high }),
      source: sanitize(rule.source),
      sourceKind: sanitize(rule.sourceKind),
      outcome: rule.outcome,
    })),
    notes: verdict.notes.map(say.retell),
    ...(event.lot
      ? {
          lot: {
            material: sanitize(event.lot.material),
            code: sanitize(event.lot.code),
            ...(event.lot.expires === undefined ? {} : { expires: sanitize(event.lot.expires) }),
            ...(event.lot.acceptedBy === undefined
              ? event.lot.accepted
                ? { accepted: say('doc-accepted-here') }
                : {}
              : { accepted: say('doc-accepted-by', { name: named(event.lot.acceptedBy) }) }),
          },
        }
      : {}),
    evidence: (event.evidence ?? []).map(evidenceView),
    burst: event.burst === true,
    ...(event.setup === undefined ? {} : { setup: sanitize(event.setup) }),
    ...(event.cited ? { cited: citedText(say, event.cited) } : {}),
    ...(event.overdueAllowedBy === undefined ? {} : { overdueAllowedBy: named(event.overdueAllowedBy) }),
  };
}

export const evidenceView = (file: Evidence): EvidenceView => ({
  name: sanitize(file.name),
  bytes: file.bytes,
  sha256: file.sha256,
  ...(file.picture
    ? { picture: sanitize(`${file.picture.kind}, ${file.picture.width} x ${file.picture.height}`) }
    : {}),
});

function expected(check: RouteCheck): { expect?: Spoken } {
  if (check.nominal) return { expect: size(check.nominal.w, check.nominal.h) };
  if (check.expect !== undefined) return { expect: withUnit(check.expect, check.unit) };
  return {};
}

type Why = CheckState['earlier'][number]['why'];

function whyNotCounted(n: number, why: Why, state: UnitState, say: DocumentSay): Spoken {
  if (why === 'corrected') {
    const correction = state.events.find((event) => event.kind === 'corrected' && event.of === n);
    return correction?.kind === 'corrected'
      ? say('doc-put-right-why', { reason: sanitize(correction.reason) })
      : say('doc-put-right');
  }
  return say(`doc-why-${why}`);
}

// What the record says first: the one-line verdict, the counts behind it, and everything missing.

/** Checks of which an answer was replaced, taken back or re-opened. */
export const answeredAgain = (stages: readonly StageView[]) =>
  checksOf(stages).filter(({ earlier }) => earlier.length > 0);

/** Checks that passed although the instrument cannot support the limit: its uncertainty is as wide as the zone. */
export const coarseOf = (stages: readonly StageView[]): CheckView[] =>
  checksOf(stages).filter(
    ({ verdict, answer }) =>
      verdict === 'pass' &&
      answer?.judged.uncertainty !== undefined &&
      answer.rules.some((rule) => !supportedBy(answer.judged.uncertainty!, rule, { kind: 'simple' })),
  );

export interface Counted {
  readonly stages: readonly StageView[];
  readonly holds: readonly HoldView[];
  readonly snags: readonly SnagView[];
  readonly corrections: number;
  readonly reworks: number;
}

export function countsOf({ stages, holds, snags, corrections, reworks }: Counted): RecordView['counts'] {
  const checks = checksOf(stages);
  const having = (verdict: string) => checks.filter((check) => check.verdict === verdict).length;
  return {
    steps: stages.reduce((sum, { of }) => sum + of, 0),
    stepsDone: stages.reduce((sum, { done }) => sum + done, 0),
    checks: checks.length,
    passed: having('pass'),
    conceded: having('conceded'),
    failed: having('fail'),
    notProven: having('not-proven'),
    open: having('open'),
    holds: holds.length,
    holdsReleased: holds.filter(({ released }) => released).length,
    snags: snags.length,
    snagsOpen: snags.filter(({ open }) => open).length,
    corrections,
    reworks,
  };
}

export function verdictOf(
  state: UnitState,
  counts: RecordView['counts'],
  say: DocumentSay,
): RecordView['verdict'] {
  const steps = { done: counts.stepsDone, of: counts.steps };
  const verdict = (line: Spoken, tone: RecordView['verdict']['tone']) => ({
    line,
    standing: state.standing,
    finished: state.finished,
    tone,
  });
  if (state.scrapped) return verdict(say('doc-scrapped', steps), 'bad');
  if (state.finished)
    return verdict(
      counts.conceded > 0 ? say('doc-released-conceded', { n: counts.conceded }) : say('doc-released'),
      'good',
    );
  if (state.standing === 'refused') return verdict(say('doc-refused'), 'bad');
  if (state.standing === 'not-started') return verdict(say('doc-not-begun', steps), 'open');
  const also = [
    ...(counts.failed > 0 ? [say('doc-also-failed', { n: counts.failed })] : []),
    ...(counts.snagsOpen > 0 ? [say('doc-also-snags', { n: counts.snagsOpen })] : []),
    ...(state.parked ? [say('doc-also-aside')] : []),
  ];
  const line = say('doc-not-finished', steps);
  return verdict(
    also.length === 0 ? line : say('doc-not-finished-also', { verdict: line, also: joined(also, '; ') }),
    counts.failed > 0 ? 'bad' : 'open',
  );
}

/** Everything the record still needs to be complete, one sentence each. Empty only when nothing is missing. */
export function missingOf(state: UnitState, { stages, holds, snags }: Counted, say: DocumentSay): Spoken[] {
  if (state.scrapped) return [];
  const refusals = state.orderProblems.map(({ text }) =>
    say('doc-missing-order', { why: sentence(sanitize(text)) }),
  );
  const checks = checksOf(stages);
  const unsettled = checks.flatMap((check) => {
    const asked = { check: check.asks, says: check.answer?.says ?? '' };
    if (check.verdict === 'fail') return [say('doc-missing-failed', asked)];
    if (check.verdict === 'not-proven' && check.remark === say('doc-remark-not-settled'))
      return [say('doc-missing-not-proven', asked)];
    return [];
  });
  const evidence = evidenceWanted(state).map((check) => say('doc-missing-evidence', { check }));
  return [
    ...refusals,
    ...stages.flatMap((stage) => stageMissing(stage, say)),
    ...unsettled,
    ...holdsMissing(holds, say),
    ...snags
      .filter(({ open }) => open)
      .map(({ number: n, text, decided }) =>
        decided
          ? say('doc-missing-snag-decided', { n, disposition: decided.disposition, text: sentence(text) })
          : say('doc-missing-snag', { n, text: sentence(text) }),
      ),
    ...evidence,
    ...(state.parked ? [say('doc-missing-aside')] : []),
    ...(state.finished ? [] : [say('doc-missing-end')]),
  ];
}

/** One line for all holds, each title once with its count. */
function holdsMissing(holds: readonly HoldView[], say: DocumentSay): Spoken[] {
  const open = holds.filter(({ released }) => !released);
  if (open.length === 0) return [];
  const counts = new Map<Spoken, number>();
  for (const { title } of open) counts.set(title, (counts.get(title) ?? 0) + 1);
  const names = [...counts].map(([title, n]) => (n === 1 ? title : say('doc-times', { title, n })));
  const [title] = names;
  return [
    open.length === 1
      ? say('doc-missing-hold', { title: title! })
      : say('doc-missing-holds', { n: open.length, titles: joined(names, '; ') }),
  ];
}

function stageMissing(stage: StageView, say: DocumentSay): Spoken[] {
  const open = stage.steps.filter(({ status }) => status !== 'done');
  if (open.length === 0) return [];
  const stale = open.filter(({ status }) => status === 'stale');
  const redo = stale.map(({ title, because: [why] }) =>
    why
      ? say('doc-missing-again-why', { stage: stage.title, step: title, why })
      : say('doc-missing-again', { stage: stage.title, step: sentence(title) }),
  );
  const rest = open.filter(({ status }) => status !== 'stale');
  if (rest.length === 0) return redo;
  if (
    rest.length === stage.steps.length &&
    rest.every(({ status }) => status === 'waiting' || status === 'ready')
  )
    return [...redo, say('doc-missing-stage', { stage: stage.title, n: rest.length })];
  const names = rest.slice(0, 4).map(({ title }) => title);
  const more = rest.length > 4 ? [say('doc-more', { n: rest.length - 4 })] : [];
  return [
    ...redo,
    say('doc-missing-steps', {
      stage: stage.title,
      n: rest.length,
      of: stage.of,
      steps: listed(say, [...names, ...more]),
    }),
  ];
}

/** Evidence required by answered checks but not stored. */
function evidenceWanted(state: UnitState): Spoken[] {
  return [...state.steps.values()].flatMap(({ step, checks }) =>
    step.checks.flatMap((check) => {
      const answered = checks.find(({ id }) => id === check.id)?.answered;
      return check.evidence && answered && answered.evidence.length === 0 ? [sanitize(check.ask)] : [];
    }),
  );
}

const seconds = (time: number): Spoken => data(time < 10 ? time.toFixed(1) : String(Math.round(time)));

/** What a reader must know before reading on, even when nothing is missing. */
export function remarksOf(
  state: UnitState,
  setOut: SetOut | undefined,
  { stages }: Counted,
  overrides: number,
  initials: boolean,
  named: Namer,
  say: DocumentSay,
): Spoken[] {
  const checks = checksOf(stages);
  const bursts = checks.filter(({ answer }) => answer?.burst);
  const overdue = checks.filter(({ answer }) => answer?.overdueAllowedBy !== undefined);
  const notProven = checks.filter(
    ({ verdict, remark }) => verdict === 'not-proven' && remark !== say('doc-remark-not-settled'),
  );
  const solo = [...state.steps.values()].filter(({ released }) => released?.rule !== undefined);
  const jumps = state.events.filter(({ kind }) => kind === 'clock-jumped').length;
  return [
    ...(setOut?.profileSet.invented
      ? [say(setOut.product === undefined ? 'doc-remark-invented' : 'doc-remark-invented-product')]
      : []),
    ...(notProven.length > 0 ? [say('doc-remark-not-proven', { n: notProven.length })] : []),
    ...(overrides > 0 ? [say('doc-remark-overrides', { n: overrides })] : []),
    ...(overdue.length > 0 ? [say('doc-remark-overdue', { n: overdue.length })] : []),
    ...(bursts.length > 0 ? [say('doc-remark-fast', { n: bursts.length })] : []),
    ...hasteOf(state).flatMap(({ by, looks, sooner, measured }) => {
      if (sooner === 0) return [];
      const given = { name: named(by), n: sooner, of: looks, share: Math.round((100 * sooner) / looks) };
      return [
        measured === undefined
          ? say('doc-remark-haste', given)
          : say('doc-remark-haste-beside', { ...given, seconds: seconds(measured) }),
      ];
    }),
    ...(solo.length > 0 ? [say('doc-remark-solo', { n: solo.length })] : []),
    ...state.timers.map(({ text }) => sentence(sanitize(text))),
    ...(jumps > 0 ? [say('doc-remark-clock')] : []),
    ...(initials ? [say('doc-remark-initials')] : []),
  ];
}
