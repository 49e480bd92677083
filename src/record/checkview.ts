/** Stages, steps and checks of a record: what was asked, what was answered, and what counts now. */
import { sanitize } from '../base/text.js';
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
  listed,
  OUTCOME_WORDS,
  plural,
  readingsOf,
  sentence,
  size,
  stepHeading,
  withUnit,
} from './words.js';

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
) {
  return {
    id: step.step.id,
    title: stepHeading(step.step),
    status: step.status,
    because: step.because.map(sanitize),
    checks: step.step.checks.map((check) =>
      checkView(
        check,
        step.checks.find(({ id }) => id === check.id),
        step.madeAt !== undefined || step.status === 'done' || step.status === 'held',
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
  isMade: boolean,
  state: UnitState,
  events: ReadonlyMap<number, JournalEvent>,
  named: Namer,
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
        ? 'does not count any more: something it rests on was made again'
        : 'not settled'
      : conceded
        ? `let stand by the concession on snag ${answered.concession}`
        : isWorkedOut
          ? 'worked out by the program'
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

function answerView(event: Answered, check: RouteCheck | undefined, named: Namer): AnswerView {
  const { verdict } = event;
  const { second } = event.cited ?? event;
  return {
    line: event.n,
    // Of a cited answer: who was asked, and when.
    at: event.cited?.at ?? event.at,
    by: named(event.cited?.by ?? event.by),
    ...(second === undefined ? {} : { second: named(second) }),
    readings: readingsOf(event.answer, check),
    says: answerSays(event.answer, check),
    outcome: verdict.outcome,
    judged: {
      ...(verdict.value === undefined ? {} : { value: verdict.value }),
      ...(verdict.unit === undefined ? {} : { unit: sanitize(verdict.unit) }),
      ...(verdict.uncertainty === undefined ? {} : { uncertainty: verdict.uncertainty }),
    },
    rules: verdict.rules.map((rule) => ({
      limit: sanitize(rule.limit),
      title: sanitize(rule.title),
      says: sanitize(rule.says),
      ...(rule.low === undefined ? {} : { low: rule.low }),
      ...(rule.high === undefined ? {} : { high: rule.high }),
      source: sanitize(rule.source),
      sourceKind: sanitize(rule.sourceKind),
      outcome: rule.outcome,
    })),
    notes: verdict.notes.map(sanitize),
    ...(event.lot
      ? {
          lot: {
            material: sanitize(event.lot.material),
            code: sanitize(event.lot.code),
            ...(event.lot.expires === undefined ? {} : { expires: sanitize(event.lot.expires) }),
            ...(event.lot.acceptedBy === undefined
              ? event.lot.accepted
                ? { accepted: 'here, at goods-in' }
                : {}
              : { accepted: `on the spot, by ${named(event.lot.acceptedBy)}` }),
          },
        }
      : {}),
    evidence: (event.evidence ?? []).map(evidenceView),
    burst: event.burst === true,
    ...(event.setup === undefined ? {} : { setup: sanitize(event.setup) }),
    ...(event.cited ? { cited: citedText(event.cited) } : {}),
    ...(event.overdueAllowedBy === undefined ? {} : { overdueAllowedBy: named(event.overdueAllowedBy) }),
  };
}

export const evidenceView = (file: Evidence): EvidenceView => ({
  name: sanitize(file.name),
  bytes: file.bytes,
  sha256: file.sha256,
  ...(file.picture
    ? { picture: `${sanitize(file.picture.kind)}, ${file.picture.width} x ${file.picture.height}` }
    : {}),
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
    return correction?.kind === 'corrected' ? `put right: ${sanitize(correction.reason)}` : 'put right';
  }
  return {
    superseded: 'measured again',
    reworked: 'the step was made again',
    stale: 'something it rests on was made again',
  }[why];
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

export function verdictOf(state: UnitState, counts: RecordView['counts']): RecordView['verdict'] {
  const steps = `${counts.stepsDone} of ${plural(counts.steps, 'step')} done`;
  const verdict = (line: string, tone: RecordView['verdict']['tone']) => ({
    line,
    standing: state.standing,
    finished: state.finished,
    tone,
  });
  if (state.scrapped) return verdict(`SCRAPPED: not to be delivered. ${steps}`, 'bad');
  if (state.finished) {
    const conceded = counts.conceded > 0 ? `, with ${plural(counts.conceded, 'concession')}` : '';
    return verdict(`Finished and released${conceded}`, 'good');
  }
  if (state.standing === 'refused') return verdict('NOT FINISHED: refused at the order check', 'bad');
  if (state.standing === 'not-started') return verdict(`NOT FINISHED: not begun, ${steps}`, 'open');
  const also = [
    ...(counts.failed > 0 ? [`${plural(counts.failed, 'check')} failed`] : []),
    ...(counts.snagsOpen > 0 ? [`${plural(counts.snagsOpen, 'snag')} open`] : []),
    ...(state.parked ? ['put aside'] : []),
  ];
  return verdict([`NOT FINISHED: ${steps}`, ...also].join('; '), counts.failed > 0 ? 'bad' : 'open');
}

/** Everything the record still needs to be complete, one sentence each. Empty only when nothing is missing. */
export function missingOf(state: UnitState, { stages, holds, snags }: Counted): string[] {
  if (state.scrapped) return [];
  const refusals = state.orderProblems.map(
    ({ text }) => `Refused at the order check: ${sentence(sanitize(text))}`,
  );
  const checks = checksOf(stages);
  const unsettled = checks.flatMap((check) => {
    if (check.verdict === 'fail')
      return [`Failed and not settled: ${check.asks} (${check.answer?.says ?? ''}).`];
    if (check.verdict === 'not-proven' && check.remark === 'not settled')
      return [`Not proven and not settled: ${check.asks} (${check.answer?.says ?? ''}).`];
    return [];
  });
  const evidence = evidenceWanted(state).map((ask) => `No picture or file was kept for: ${ask}.`);
  return [
    ...refusals,
    ...stages.flatMap(stageMissing),
    ...unsettled,
    ...holdsMissing(holds),
    ...snags
      .filter(({ open }) => open)
      .map(({ number, text, decided }) =>
        sentence(
          `Snag ${number} is open${decided ? ` (decided: ${decided.disposition})` : ', not decided'}: ${text}`,
        ),
      ),
    ...evidence,
    ...(state.parked ? ['The unit is put aside.'] : []),
    ...(state.finished ? [] : ['The record is not closed: nobody has finished the unit.']),
  ];
}

/** One line for all holds, each title once with its count. */
function holdsMissing(holds: readonly HoldView[]): string[] {
  const open = holds.filter(({ released }) => !released);
  if (open.length === 0) return [];
  const counts = new Map<string, number>();
  for (const { title } of open) counts.set(title, (counts.get(title) ?? 0) + 1);
  const names = [...counts].map(([title, count]) => (count === 1 ? title : `${title} (${count} times)`));
  return [`${open.length === 1 ? 'Hold' : `${open.length} holds`} not released: ${names.join('; ')}.`];
}

function stageMissing(stage: StageView): string[] {
  const open = stage.steps.filter(({ status }) => status !== 'done');
  if (open.length === 0) return [];
  const stale = open.filter(({ status }) => status === 'stale');
  const redo = stale.map(({ title, because }) =>
    sentence(`${stage.title}, to be done again: ${title}${because[0] ? ` (${because[0]})` : ''}`),
  );
  const rest = open.filter(({ status }) => status !== 'stale');
  if (rest.length === 0) return redo;
  if (
    rest.length === stage.steps.length &&
    rest.every(({ status }) => status === 'waiting' || status === 'ready')
  )
    return [...redo, `${stage.title}: not begun (${plural(rest.length, 'step')}).`];
  const names = rest.slice(0, 4).map(({ title }) => title);
  const more = rest.length > 4 ? [`${rest.length - 4} more`] : [];
  return [
    ...redo,
    `${stage.title}: ${rest.length} of ${plural(stage.of, 'step')} not done (${listed([...names, ...more])}).`,
  ];
}

/** Evidence required by answered checks but not stored. */
function evidenceWanted(state: UnitState): string[] {
  return [...state.steps.values()].flatMap(({ step, checks }) =>
    step.checks.flatMap((check) => {
      const answered = checks.find(({ id }) => id === check.id)?.answered;
      return check.evidence && answered && answered.evidence.length === 0 ? [sanitize(check.ask)] : [];
    }),
  );
}

const seconds = (time: number): string => `${time < 10 ? time.toFixed(1) : Math.round(time)} s`;

/** What a reader must know before reading on, even when nothing is missing. */
export function remarksOf(
  state: UnitState,
  setOut: SetOut | undefined,
  { stages }: Counted,
  overrides: number,
  initials: boolean,
  named: Namer,
): string[] {
  const checks = checksOf(stages);
  const bursts = checks.filter(({ answer }) => answer?.burst);
  const overdue = checks.filter(({ answer }) => answer?.overdueAllowedBy !== undefined);
  const notProven = checks.filter(
    ({ verdict, remark }) => verdict === 'not-proven' && remark !== 'not settled',
  );
  const solo = [...state.steps.values()].filter(({ released }) => released?.rule !== undefined);
  const jumps = state.events.filter(({ kind }) => kind === 'clock-jumped').length;
  return [
    ...(setOut?.profileSet.invented
      ? ['The profile set is invented for demonstration: this is not the record of a real window.']
      : []),
    ...(notProven.length > 0
      ? [
          `${plural(notProven.length, 'check')} could not be proven with the instrument used (marked NOT PROVEN).`,
        ]
      : []),
    ...(overrides > 0
      ? [`${plural(overrides, 'problem')} of the order check let pass by a named person (see Overrides).`]
      : []),
    ...(overdue.length > 0
      ? [
          `${plural(overdue.length, 'check')} made with an instrument past its calibration date, on a named person's word.`,
        ]
      : []),
    ...(bursts.length > 0
      ? [`${plural(bursts.length, 'check')} answered faster than the work can be done (marked "fast").`]
      : []),
    ...hasteOf(state).flatMap(({ by, looks, sooner, measured }) => {
      if (sooner === 0) return [];
      const share = Math.round((100 * sooner) / looks);
      const beside =
        measured === undefined ? '' : `; measured answers took ${seconds(measured)} in the median`;
      return [
        `${named(by)}: ${sooner} of ${plural(looks, 'look')} (${share} %) answered sooner than the questions can be read${beside}.`,
      ];
    }),
    ...(solo.length > 0
      ? [`${plural(solo.length, 'hold')} released by the person who did the work, under the one-person rule.`]
      : []),
    ...state.timers.map(({ text }) => sentence(sanitize(text))),
    ...(jumps > 0 ? ["The bench's clock jumped while this unit was built (see Notes)."] : []),
    ...(initials
      ? [
          "People's names are replaced by their initials in this document; the journal is unchanged and holds who they are.",
        ]
      : []),
  ];
}
