/** The chapter "after release": complaints, inspections, repairs and further releases of a unit whose record was closed. */
import { sanitize } from '../base/text.js';
import { data, type Spoken } from '../base/words.js';
import { type JournalEvent, severities } from '../unit/events.js';
import { LEVEL_WORDS } from '../unit/people.js';
import type { UnitState } from '../unit/unitstate.js';
import type { RecordBasis } from './basis.js';
import { countsOf, missingOf, stageViews } from './checkview.js';
import { shortCode } from './codes.js';
import { holdViews, snagViews } from './historyview.js';
import type { Namer } from './initials.js';
import { levelRemarks } from './levels.js';
import type { RecordView } from './schema.js';
import {
  answerSays,
  type DocumentSay,
  joined,
  listed,
  outcomeWords,
  readingsOf,
  severityWords,
  sourceWords,
  stepHeading,
  type Telling,
  toldSafely,
  withUnit,
} from './telling.js';

export type AfterView = NonNullable<RecordView['after']>;

/** @param state the unit with all its lines @param closed how many of them belong to the closed record */
export function afterView(
  state: UnitState,
  closed: number,
  named: Namer,
  basis: RecordBasis,
  telling: Telling,
): AfterView | undefined {
  const later = state.events.slice(closed);
  const last = later.at(-1);
  if (!last) return undefined;
  return {
    ...standing(state, later, named, telling),
    snags: later.filter(({ kind }) => kind === 'snag-raised').length,
    remarks: levelRemarks(later, basis, named, telling.say, closed + 1),
    lines: state.events.length,
    hash: last.hash,
    code: data(shortCode(last.hash)),
    at: last.at,
    entries: later.flatMap((event) => {
      const did = says(event, state, named, basis, telling);
      return did === undefined ? [] : [{ line: event.n, at: event.at, by: named(event.by), ...did }];
    }),
  };
}

function standing(
  state: UnitState,
  later: readonly JournalEvent[],
  named: Namer,
  { say, when }: Telling,
): Pick<AfterView, 'says' | 'tone' | 'missing'> {
  const stages = stageViews(state, named, say);
  const holds = holdViews(state, named, say);
  const snags = snagViews(state, named, say);
  const counted = { stages, holds, snags, corrections: 0, reworks: 0 };
  if (state.scrapped)
    return {
      says: say(later.some(({ kind }) => kind === 'scrapped') ? 'doc-after-scrapped' : 'doc-after-notes'),
      tone: 'bad',
      missing: [],
    };
  const released = later.findLast(({ kind }) => kind === 'finished');
  const raised = later.filter(({ kind }) => kind === 'snag-raised').length;
  if (state.finished)
    return released
      ? {
          says:
            raised === 0
              ? say('doc-after-work-released', { time: when(released.at) })
              : say('doc-after-snags-released', { n: raised, time: when(released.at) }),
          tone: 'good',
          missing: [],
        }
      : { says: say('doc-after-notes'), tone: 'good', missing: [] };
  const counts = countsOf(counted);
  const open = [
    ...snagsOpen(state, say),
    ...(counts.stepsDone < counts.steps
      ? [say('doc-after-steps', { n: counts.steps - counts.stepsDone })]
      : []),
  ];
  return {
    says: say('doc-after-open', { what: listed(say, open) || say('doc-after-opened') }),
    tone: 'open',
    // That it is not finished is said already.
    missing: missingOf({ ...state, finished: true }, counted, say),
  };
}

/** "1 critical snag open". */
function snagsOpen({ snags }: UnitState, say: DocumentSay): Spoken[] {
  const open = snags.filter((snag) => snag.open).map(({ raised }) => raised.severity);
  return severities.flatMap((severity) => {
    const n = open.filter((each) => each === severity).length;
    return n === 0 ? [] : [say('doc-after-snags-open', { n, severity: severityWords(say, severity) })];
  });
}

/** What an event is, in the words of the chapter; undefined for what only prepares another. */
function says(
  event: JournalEvent,
  state: UnitState,
  named: Namer,
  basis: RecordBasis,
  { say, when }: Telling,
): { readonly what: Spoken; readonly says: Spoken } | undefined {
  const stepOf = (id: string) => state.steps.get(id)?.step;
  const title = (id: string | undefined): Spoken => {
    const step = id === undefined ? undefined : stepOf(id);
    return step ? stepHeading(step) : sanitize(id ?? '');
  };
  switch (event.kind) {
    case 'snag-raised':
      return {
        what: say('doc-did-snag', { n: event.n }),
        says: joined(
          [
            say('doc-snag-of', {
              severity: severityWords(say, event.severity),
              cause: sanitize(event.cause),
              text: sanitize(event.text),
            }),
            title(event.step),
          ],
          '; ',
        ),
      };
    case 'snag-decided':
      return {
        what: say('doc-did-snag-decided', { n: event.snag }),
        says:
          event.limit === undefined
            ? say('doc-decided-of', { disposition: event.disposition, reason: sanitize(event.reason) })
            : say('doc-decided-of-limit', {
                disposition: event.disposition,
                reason: sanitize(event.reason),
                limit: sanitize(event.limit),
              }),
      };
    case 'snag-closed':
      return { what: say('doc-did-snag-closed', { n: event.snag }), says: sanitize(event.note) };
    case 'reworked':
      return {
        what: say('doc-did-again'),
        says: say('doc-step-why', { step: title(event.step), why: sanitize(event.reason) }),
      };
    case 'answered': {
      const check = stepOf(event.step)?.checks.find(({ id }) => id === event.check);
      const { rules, uncertainty, unit } = event.verdict;
      const limits = rules.map((rule) =>
        say('doc-limit-of', {
          says: sanitize(rule.says),
          title: sanitize(rule.title),
          kind: sourceWords(say, rule.sourceKind),
          source: sanitize(rule.source),
        }),
      );
      const tools = new Set(
        readingsOf(say, event.answer, check).flatMap(({ instrument }) => instrument ?? []),
      );
      const withTools = [...tools].map((id) => {
        const { calibrated, due } = basis.instrument(id, event).instrument ?? {};
        if (calibrated === undefined)
          return due === undefined ? say('doc-tool', { id }) : say('doc-tool-due', { id, due });
        return due === undefined
          ? say('doc-tool-calibrated', { id, calibrated })
          : say('doc-tool-both', { id, calibrated, due });
      });
      const by = event.second === undefined ? [] : [say('doc-second', { name: named(event.second) })];
      return {
        what: sanitize(check?.ask ?? event.check),
        says: joined(
          [
            say('doc-answer-outcome', {
              says: answerSays(say, event.answer, check),
              outcome: outcomeWords(say, event.verdict.outcome),
            }),
            ...(uncertainty === undefined
              ? []
              : [say('doc-uncertainty', { value: withUnit(uncertainty, unit) })]),
            ...limits,
            ...withTools,
            ...by,
          ],
          '; ',
        ),
      };
    }
    case 'released': {
      const step = stepOf(event.step);
      const level = step && basis.levelAt(event.by, step.stage, event);
      return {
        what: say('doc-did-released'),
        says: joined(
          [
            sanitize(step?.hold?.title ?? event.hold),
            ...(level === undefined
              ? []
              : [say('doc-at-level', { level, words: toldSafely(say, LEVEL_WORDS[level]) })]),
            say(event.pin ? 'doc-with-pin' : 'doc-without-pin'),
          ],
          ', ',
        ),
      };
    }
    case 'corrected':
      return { what: say('doc-did-taken-back', { n: event.of }), says: sanitize(event.reason) };
    case 'revised':
      return {
        what: say('doc-did-revised'),
        says: joined(
          [
            sanitize(event.reason),
            ...Object.entries(event.because ?? {}).map(([step, why]) =>
              say('doc-step-why', { step: title(step), why: joined(why.map(sanitize), '; ') }),
            ),
          ],
          '. ',
        ),
      };
    case 'finished':
      return { what: say('doc-did-finished'), says: say('doc-steps', { n: event.steps }) };
    case 'sealed':
      return {
        what: say('doc-did-sealed'),
        says: say('doc-sealed-over', { key: event.key, hash: event.head }),
      };
    case 'scrapped':
      return {
        what: say('doc-did-scrapped'),
        says: say('doc-scrapped-why', {
          reason: sanitize(event.reason),
          replacement: sanitize(event.replacement),
        }),
      };
    case 'noted':
      return {
        what: say('doc-did-note'),
        says: joined([title(event.step), sanitize(event.text)], ': '),
      };
    case 'parked':
      return { what: say('doc-did-aside'), says: sanitize(event.reason) };
    case 'resumed':
      return { what: say('doc-did-resumed'), says: data('') };
    case 'overridden':
      return {
        what: say('doc-did-overridden'),
        says: joined([sanitize(event.text), sanitize(event.reason)], ': '),
      };
    case 'clock-jumped':
      return {
        what: say('doc-did-clock'),
        says: say('doc-from-to', { from: when(event.from), to: when(event.to) }),
      };
    case 'second-confirmed':
      return {
        what: say('doc-did-stood-by'),
        says: say('doc-stood-by-for', { name: named(event.second), stage: sanitize(event.stage) }),
      };
    default:
      return undefined;
  }
}
