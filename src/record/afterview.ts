/** The chapter "after release": complaints, inspections, repairs and further releases of a unit whose record was closed. */
import { sanitize } from '../base/text.js';
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
  listed,
  OUTCOME_WORDS,
  plural,
  readingsOf,
  sourceWords,
  stepHeading,
  type When,
  withUnit,
} from './words.js';

export type AfterView = NonNullable<RecordView['after']>;

/** @param state the unit with all its lines @param closed how many of them belong to the closed record */
export function afterView(
  state: UnitState,
  closed: number,
  named: Namer,
  basis: RecordBasis,
  when: When,
): AfterView | undefined {
  const later = state.events.slice(closed);
  const last = later.at(-1);
  if (!last) return undefined;
  return {
    ...standing(state, later, named, when),
    snags: later.filter(({ kind }) => kind === 'snag-raised').length,
    remarks: levelRemarks(later, basis, named, closed + 1),
    lines: state.events.length,
    hash: last.hash,
    code: shortCode(last.hash),
    at: last.at,
    entries: later.flatMap((event) => {
      const told = says(event, state, named, basis, when);
      return told === undefined ? [] : [{ line: event.n, at: event.at, by: named(event.by), ...told }];
    }),
  };
}

function standing(
  state: UnitState,
  later: readonly JournalEvent[],
  named: Namer,
  when: When,
): Pick<AfterView, 'says' | 'tone' | 'missing'> {
  const stages = stageViews(state, named);
  const holds = holdViews(state, named);
  const snags = snagViews(state, named);
  const counted = { stages, holds, snags, corrections: 0, reworks: 0 };
  if (state.scrapped)
    return {
      says: later.some(({ kind }) => kind === 'scrapped') ? 'SCRAPPED: not to be delivered' : 'notes only',
      tone: 'bad',
      missing: [],
    };
  const released = later.findLast(({ kind }) => kind === 'finished');
  const raised = later.filter(({ kind }) => kind === 'snag-raised').length;
  const what = raised === 0 ? 'work on it' : plural(raised, 'snag');
  if (state.finished)
    return released
      ? {
          says: `${what}; finished and released again ${when(released.at)}`,
          tone: 'good',
          missing: [],
        }
      : { says: 'notes only', tone: 'good', missing: [] };
  const counts = countsOf(counted);
  const open = [
    ...snagsOpen(state),
    ...(counts.stepsDone < counts.steps
      ? [`${plural(counts.steps - counts.stepsDone, 'step')} to be done again`]
      : []),
  ];
  return {
    says: `NOT SETTLED: ${listed(open) || 'it was opened again and not released since'}`,
    tone: 'open',
    // That it is not finished is said already.
    missing: missingOf({ ...state, finished: true }, counted),
  };
}

/** "1 critical snag open". */
function snagsOpen({ snags }: UnitState): string[] {
  const open = snags.filter((snag) => snag.open).map(({ raised }) => raised.severity);
  return severities.flatMap((severity) => {
    const count = open.filter((each) => each === severity).length;
    return count === 0 ? [] : [`${count} ${severity} ${count === 1 ? 'snag' : 'snags'} open`];
  });
}

/** What an event is, in the words of the chapter; undefined for what only prepares another. */
function says(
  event: JournalEvent,
  state: UnitState,
  named: Namer,
  basis: RecordBasis,
  when: When,
): { readonly what: string; readonly says: string } | undefined {
  const stepOf = (id: string) => state.steps.get(id)?.step;
  const title = (id: string | undefined) => {
    const step = id === undefined ? undefined : stepOf(id);
    return step ? stepHeading(step) : sanitize(id ?? '');
  };
  switch (event.kind) {
    case 'snag-raised':
      return {
        what: `Snag ${event.n} raised`,
        says: [`${event.severity}, ${sanitize(event.cause)}: ${sanitize(event.text)}`, title(event.step)]
          .filter((part) => part !== '')
          .join('; '),
      };
    case 'snag-decided':
      return {
        what: `Snag ${event.snag} decided`,
        says: `${event.disposition}: ${sanitize(event.reason)}${event.limit === undefined ? '' : ` (limit ${sanitize(event.limit)})`}`,
      };
    case 'snag-closed':
      return { what: `Snag ${event.snag} closed`, says: sanitize(event.note) };
    case 'reworked':
      return { what: 'Done again', says: `${title(event.step)}: ${sanitize(event.reason)}` };
    case 'answered': {
      const check = stepOf(event.step)?.checks.find(({ id }) => id === event.check);
      const { rules, uncertainty, unit } = event.verdict;
      const limits = rules.map(
        (rule) =>
          `${sanitize(rule.says)} (${sanitize(rule.title)}; ${sourceWords(rule.sourceKind)}: ${sanitize(rule.source)})`,
      );
      const tools = new Set(readingsOf(event.answer, check).flatMap(({ instrument }) => instrument ?? []));
      const withTools = [...tools].map((id) => {
        const { calibrated, due } = basis.instrument(id, event).instrument ?? {};
        return `with ${id}${calibrated === undefined ? '' : `, calibrated ${calibrated}`}${due === undefined ? '' : `, due ${due}`}`;
      });
      const by = event.second === undefined ? [] : [`second: ${named(event.second)}`];
      return {
        what: sanitize(check?.ask ?? event.check),
        says: [
          `${answerSays(event.answer, check)}: ${OUTCOME_WORDS[event.verdict.outcome]}`,
          ...(uncertainty === undefined
            ? []
            : [
                `uncertainty ${withUnit(uncertainty, unit === undefined ? undefined : sanitize(unit))} (k = 2)`,
              ]),
          ...limits,
          ...withTools,
          ...by,
        ].join('; '),
      };
    }
    case 'released': {
      const step = stepOf(event.step);
      const level = step && basis.levelAt(event.by, step.stage, event);
      return {
        what: 'Hold released',
        says: [
          sanitize(step?.hold?.title ?? event.hold),
          ...(level === undefined ? [] : [`at level ${level} (${String(LEVEL_WORDS[level])})`]),
          event.pin ? 'with PIN' : 'WITHOUT PIN',
        ].join(', '),
      };
    }
    case 'corrected':
      return { what: `Line ${event.of} taken back`, says: sanitize(event.reason) };
    case 'revised':
      return {
        what: 'Revised',
        says: [
          sanitize(event.reason),
          ...Object.entries(event.because ?? {}).map(
            ([step, why]) => `${title(step)}: ${why.map(sanitize).join('; ')}`,
          ),
        ].join('. '),
      };
    case 'finished':
      return { what: 'Finished and released again', says: plural(event.steps, 'step') };
    case 'sealed':
      return { what: 'Sealed', says: `key ${event.key} over hash ${event.head}` };
    case 'scrapped':
      return {
        what: 'Scrapped',
        says: `${sanitize(event.reason)}; replaced by ${sanitize(event.replacement)}`,
      };
    case 'noted':
      return {
        what: 'Note',
        says: [title(event.step), sanitize(event.text)].filter((p) => p !== '').join(': '),
      };
    case 'parked':
      return { what: 'Put aside', says: sanitize(event.reason) };
    case 'resumed':
      return { what: 'Taken up again', says: '' };
    case 'overridden':
      return { what: 'Problem let pass', says: `${sanitize(event.text)}: ${sanitize(event.reason)}` };
    case 'clock-jumped':
      return { what: "The bench's clock jumped", says: `from ${when(event.from)} to ${when(event.to)}` };
    case 'second-confirmed':
      return { what: 'Stood by', says: `${named(event.second)} for stage ${sanitize(event.stage)}` };
    default:
      return undefined;
  }
}
