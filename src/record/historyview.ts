/** Unit history: holds, snags, corrections, reworks, overrides, revisions, notes. From the events, oldest first. */
import { sanitize } from '../base/text.js';
import type { Spoken } from '../base/words.js';
import type { EventKind, JournalEvent } from '../unit/events.js';
import type { StepState } from '../unit/types.js';
import type { UnitState } from '../unit/unitstate.js';
import { evidenceView } from './checkview.js';
import type { Namer } from './initials.js';
import type { CorrectionView, HoldView, RecordView, SnagView } from './schema.js';
import {
  answerSays,
  citedText,
  type DocumentSay,
  dispositionWords,
  joined,
  outcomeWords,
  severityWords,
  stepHeading,
  type Telling,
} from './telling.js';

type Of<K extends EventKind> = JournalEvent & { readonly kind: K };
const only = <K extends EventKind>(events: readonly JournalEvent[], kind: K): Of<K>[] =>
  events.filter((event): event is Of<K> => event.kind === kind);

const stamp = (event: JournalEvent, named: Namer) => ({ line: event.n, at: event.at, by: named(event.by) });

const titleOf = (state: UnitState, id: string): Spoken => {
  const step = state.steps.get(id)?.step;
  return step ? stepHeading(step) : sanitize(id);
};
const checkOf = (state: UnitState, step: string, check: string) =>
  state.steps.get(step)?.step.checks.find(({ id }) => id === check);

export function holdViews(state: UnitState, named: Namer, say: DocumentSay): HoldView[] {
  const releases = only(state.events, 'released');
  const corrections = only(state.events, 'corrected');
  return [...state.steps.values()].flatMap((step) => {
    const hold = step.step.hold;
    if (!hold) return [];
    const mine = releases.filter((event) => event.step === step.step.id);
    const now = step.released ? mine.find(({ n }) => n === step.released!.n) : undefined;
    const last = hold.release === 'checks' && step.status === 'done' ? lastAnswer(step) : undefined;
    return [
      {
        step: titleOf(state, step.step.id),
        title: sanitize(hold.title),
        released: now !== undefined || last !== undefined,
        ...(hold.release === 'checks' ? { byChecks: true } : {}),
        ...(last ? { line: last.n, at: last.at, by: named(last.by) } : {}),
        ...(now
          ? {
              line: now.n,
              at: now.cited?.at ?? now.at,
              by: named(now.cited?.by ?? now.by),
              pin: now.pin,
              ...(now.walk === undefined ? {} : { walk: now.walk }),
              ...(now.cited ? { cited: citedText(say, now.cited) } : {}),
              ...(now.rule === undefined ? {} : { rule: sanitize(now.rule) }),
            }
          : {}),
        evidence: (now?.evidence ?? []).map(evidenceView),
        earlier: mine
          .filter((event) => event !== now)
          .map((event) => {
            const correction = corrections.find(({ of }) => of === event.n);
            return {
              ...stamp(event, named),
              why: correction
                ? say('doc-taken-back-why', { reason: sanitize(correction.reason) })
                : say('doc-covered-again'),
            };
          }),
      },
    ];
  });
}

/** The last answer that counts: where no person releases a hold, it does. */
function lastAnswer({ checks }: StepState): { n: number; at: string; by: string } | undefined {
  const answers = checks.flatMap(({ answered }) => answered ?? []);
  return answers.toSorted((a, b) => b.n - a.n)[0];
}

export function snagViews(state: UnitState, named: Namer, say: DocumentSay): SnagView[] {
  return state.snags.map(({ n, raised, decided, closed, open }) => ({
    number: n,
    at: raised.at,
    by: named(raised.by),
    ...(raised.step === undefined ? {} : { step: titleOf(state, raised.step) }),
    ...(raised.check === undefined
      ? {}
      : { check: sanitize(checkOf(state, raised.step ?? '', raised.check)?.ask ?? raised.check) }),
    severity: severityWords(say, raised.severity),
    cause: sanitize(raised.cause),
    text: sanitize(raised.text),
    touches: [
      ...(raised.touches.unit ? [say('doc-touches-unit')] : []),
      ...(raised.touches.setup === undefined
        ? []
        : [say('doc-setup', { id: sanitize(raised.touches.setup) })]),
      ...(raised.touches.lot === undefined
        ? []
        : [say('doc-touches-lot', { lot: sanitize(raised.touches.lot) })]),
    ],
    ...(raised.containment === undefined ? {} : { containment: sanitize(raised.containment) }),
    ...(decided
      ? {
          decided: {
            ...stamp(decided, named),
            disposition: dispositionWords(say, decided.disposition),
            reason: sanitize(decided.reason),
            ...(decided.limit === undefined ? {} : { limit: sanitize(decided.limit) }),
            pin: decided.pin,
          },
        }
      : {}),
    ...(closed ? { closed: { ...stamp(closed, named), note: sanitize(closed.note) } } : {}),
    open,
  }));
}

/** Every correction, with the old value and its replacement. */
export function correctionViews(state: UnitState, named: Namer, { say, when }: Telling): CorrectionView[] {
  return only(state.events, 'corrected').map((event) => {
    const old = state.events.find(({ n }) => n === event.of);
    const base = { ...stamp(event, named), reason: sanitize(event.reason) };
    if (old?.kind === 'released')
      return {
        ...base,
        what: say('doc-correction-release', {
          title: sanitize(state.steps.get(old.step)?.step.hold?.title ?? old.hold),
        }),
        was: say('doc-correction-released', { name: named(old.by), time: when(old.at) }),
        now: say(state.steps.get(old.step)?.released ? 'doc-correction-again' : 'doc-correction-not'),
      };
    if (old?.kind !== 'answered')
      return {
        ...base,
        what: say('doc-correction-line', { n: event.of }),
        was: old ? sanitize(old.kind) : say('doc-correction-absent'),
        now: say('doc-correction-back'),
      };
    const check = checkOf(state, old.step, old.check);
    const now = state.steps.get(old.step)?.checks.find(({ id }) => id === old.check)?.answered;
    const said = (answer: typeof old.answer, outcome: string) =>
      say('doc-answer-outcome', {
        says: answerSays(say, answer, check),
        outcome: outcomeWords(say, outcome),
      });
    return {
      ...base,
      what: sanitize(check?.ask ?? old.check),
      was: said(old.answer, old.verdict.outcome),
      now: now ? said(now.answer, now.verdict.outcome) : say('doc-correction-unanswered'),
    };
  });
}

export function reworkViews(state: UnitState, named: Namer): RecordView['reworks'] {
  return only(state.events, 'reworked').map((event) => ({
    ...stamp(event, named),
    step: titleOf(state, event.step),
    reason: sanitize(event.reason),
    reopened: event.reopens.map((id) => titleOf(state, id)),
    ...(event.snag === undefined ? {} : { snag: event.snag }),
  }));
}

export const overrideViews = (state: UnitState, named: Namer, say: DocumentSay): RecordView['overrides'] =>
  only(state.events, 'overridden').map((event) => ({
    ...stamp(event, named),
    text: joined([say.retell(event.text), sanitize(`[${event.problem}]`)], ' '),
    reason: sanitize(event.reason),
  }));

export const revisionViews = (state: UnitState, named: Namer, say: DocumentSay): RecordView['revisions'] =>
  only(state.events, 'revised').map((event) => ({
    ...stamp(event, named),
    changed: event.changed.map(sanitize),
    ...(event.because
      ? {
          because: Object.fromEntries(
            Object.entries(event.because).map(([step, why]) => [sanitize(step), why.map(say.retell)]),
          ),
        }
      : {}),
    reason: sanitize(event.reason),
  }));

/** Notes, pauses and clock jumps, in order. */
export function noteViews(state: UnitState, named: Namer, { say, when }: Telling): RecordView['notes'] {
  const says = (event: JournalEvent): Spoken | undefined => {
    switch (event.kind) {
      case 'noted':
        return event.step
          ? joined([titleOf(state, event.step), sanitize(event.text)], ': ')
          : sanitize(event.text);
      case 'parked':
        return say('doc-note-aside', { reason: sanitize(event.reason) });
      case 'resumed':
        return say('doc-note-resumed');
      case 'clock-jumped':
        return say('doc-note-clock', { from: when(event.from), to: when(event.to) });
      case 'scrapped':
        return say('doc-note-scrapped', {
          reason: sanitize(event.reason),
          replacement: sanitize(event.replacement),
        });
      default:
        return undefined;
    }
  };
  return state.events.flatMap((event) => {
    const text = says(event);
    return text === undefined ? [] : [{ ...stamp(event, named), text }];
  });
}
