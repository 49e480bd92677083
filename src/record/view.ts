/**
 * The record of one unit: everything a document shows, worked out from the unit's state alone. Formats draw it; none
 * adds to it.
 */
import { sealOf } from '../build/sealing.js';
import type { UnitState } from '../build/unitstate.js';
import { plain } from '../ground/plain.js';
import type { SetOut } from '../window/types.js';
import { stageViews } from './checkview.js';
import type { RecordContext } from './context.js';
import { drawingOf } from './drawing.js';
import {
  correctionViews,
  holdViews,
  noteViews,
  overrideViews,
  revisionViews,
  reworkViews,
  snagViews,
} from './historyview.js';
import { mapTexts, nameRemover, namer } from './initials.js';
import { builtFrom, evidenceKept, instrumentsUsed, lotsUsed, peopleInvolved } from './materialview.js';
import { measuredViews } from './measured.js';
import type { RecordView } from './schema.js';
import { shortCode } from './seal.js';
import { unitView } from './unitview.js';
import { countsOf, missingOf, remarksOf, verdictOf } from './verdictview.js';

/**
 * @param setOut the unit's set-out as it was frozen; `undefined` where it cannot be read any more: the record then
 *   says so and shows what the journal holds.
 */
export function recordView(state: UnitState, setOut: SetOut | undefined, context: RecordContext): RecordView {
  const named = namer(context.people, context.initials);
  const stages = stageViews(state, named);
  const holds = holdViews(state, named);
  const snags = snagViews(state, named);
  const corrections = correctionViews(state, named);
  const reworks = reworkViews(state, named);
  const overrides = overrideViews(state, named);
  const counted = { stages, holds, snags, corrections: corrections.length, reworks: reworks.length };
  const counts = countsOf(counted);
  const last = state.events.at(-1);
  const hash = last?.hash ?? '';
  const signed = sealOf(state.events);
  const drawing = setOut ? drawingOf(setOut, context.triangle) : undefined;
  const view: RecordView = {
    format: 'pinchrod-record 1',
    made: { at: context.at, program: plain(context.program), initials: context.initials },
    workshop: plain(context.workshop),
    unit: unitView(state, setOut, context.customer),
    verdict: verdictOf(state, counts),
    counts,
    missing: [
      ...missingOf(state, counted),
      ...(setOut
        ? []
        : ['The set-out that this unit was built from cannot be read: sizes and drawing are not shown.']),
    ],
    remarks: [
      ...remarksOf(state, setOut, counted, overrides.length, context.initials),
      ...(context.remarks ?? []).map(plain),
    ],
    builtFrom: builtFrom(state.events, state.route.procedure),
    ...(drawing ? { drawing } : {}),
    asMeasured: measuredViews(state, context.instruments),
    stages,
    holds,
    snags,
    corrections,
    reworks,
    overrides,
    revisions: revisionViews(state, named),
    lots: lotsUsed(stages),
    instruments: instrumentsUsed(stages, context.instruments),
    people: peopleInvolved(state.events, named),
    evidence: evidenceKept(stages, holds),
    timers: state.timers.map(({ text, until }) => ({ text: plain(text), until })),
    notes: noteViews(state, named),
    seal: {
      closed: state.finished || state.scrapped,
      hash,
      code: shortCode(hash),
      lines: state.events.length,
      at: last?.at ?? '',
      ...(signed
        ? {
            signature: {
              key: signed.key,
              by: plain(signed.bench),
              value: plain(signed.signature),
              head: signed.head,
            },
          }
        : {}),
    },
  };
  return context.initials ? withoutNames(view, context) : view;
}

/** Names in free text (reasons, notes, what a snag says) go too; the customer's and the workshop's names are not a worker's. */
function withoutNames(view: RecordView, context: RecordContext): RecordView {
  const keep = new Set(['customer', 'workshop', 'format', 'sha256', 'hash', 'code', 'value', 'svg', 'made']);
  return mapTexts(view, nameRemover(context.people), keep);
}
