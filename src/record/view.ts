/** The record of one unit, computed from its state alone. Formats only render it. */
import { sanitize } from '../base/text.js';
import type { Instrument } from '../measure/types.js';
import { sealOf } from '../unit/sealing.js';
import type { Person } from '../unit/types.js';
import type { UnitState } from '../unit/unitstate.js';
import { drawSvg, drawText } from '../window/draw.js';
import { elevation } from '../window/elevation.js';
import type { SetOut } from '../window/types.js';
import {
  answeredAgain,
  coarseOf,
  countsOf,
  missingOf,
  remarksOf,
  stageViews,
  verdictOf,
} from './checkview.js';
import { shortCode } from './codes.js';
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
import type { DrawingView, RecordView } from './schema.js';
import { type SetupTold, setupViews, supervisedViews } from './setupview.js';
import { measuredViews, unitSentence, unitView } from './unitview.js';
import { size } from './words.js';

/** @param setOut as frozen; `undefined` if unreadable: the record says so and shows what the journal holds */
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
  // A record of lines that an earlier version wrote says what it said then.
  const since2 = (last?.v ?? 2) >= 2;
  const drawing = setOut ? drawingOf(setOut, context.triangle) : undefined;
  const view: RecordView = {
    format: 'pinchrod-record 1',
    made: { at: context.at, program: sanitize(context.program), initials: context.initials },
    workshop: sanitize(context.workshop),
    unit: unitView(state, setOut, context.customer, since2 ? context.order : undefined),
    verdict: verdictOf(state, counts),
    counts: since2
      ? { ...counts, coarse: coarseOf(stages).length, again: answeredAgain(stages).length }
      : counts,
    missing: [
      ...missingOf(state, counted),
      ...(setOut
        ? []
        : ['The set-out that this unit was built from cannot be read: sizes and drawing are not shown.']),
    ],
    remarks: [
      ...remarksOf(state, setOut, counted, overrides.length, context.initials, named),
      ...(context.remarks ?? []).map(sanitize),
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
    instruments: instrumentsUsed(stages, context.instruments, since2),
    people: peopleInvolved(state.events, named, since2),
    evidence: evidenceKept(stages, holds),
    ...(since2
      ? { setups: setupViews(stages, context.setups ?? [], named), supervised: supervisedViews(state, named) }
      : {}),
    timers: state.timers.map(({ text, until }) => ({ text: sanitize(text), until })),
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
              by: sanitize(signed.bench),
              value: sanitize(signed.signature),
              head: signed.head,
            },
          }
        : {}),
    },
  };
  return context.initials ? withoutNames(view, context) : view;
}

/** Also replaces names in free text (reasons, notes, snags), but never the customer's or the workshop's name. */
function withoutNames(view: RecordView, context: RecordContext): RecordView {
  const keep = new Set(['customer', 'workshop', 'format', 'sha256', 'hash', 'code', 'value', 'svg', 'made']);
  return mapTexts(view, nameRemover(context.people), keep);
}

// The unit seen from outside, for documents: drawn by the window room; title and alternative text are added here.

function drawingOf(setOut: SetOut, triangles: 'apex-at-hinge' | 'apex-at-handle'): DrawingView | undefined {
  // A unit so wrong that it has no lights cannot be drawn.
  if (setOut.lights.length === 0) return undefined;
  const view = elevation(setOut);
  const apex = triangles === 'apex-at-hinge' ? 'hinge' : 'handle';
  const opens = setOut.lights.some(({ kind }) => kind !== 'fixed');
  return {
    title: `Seen from outside${opens ? `; the dashed lines meet at the ${apex}` : ''}`,
    alt: sanitize(
      `Window ${setOut.unit.id} seen from outside, ${size(setOut.frame.w, setOut.frame.h)}. ${unitSentence(setOut)}`,
    ),
    svg: drawSvg(view, { triangles, width: 420 }),
    text: drawText(view, { columns: 60, rows: 18, ascii: true, triangles }),
  };
}

// What a record needs besides the unit's state: names, instruments, and when and by what the document is made.

export interface RecordContext {
  readonly workshop: string;
  readonly customer: string;
  /** Title and revision of the order; empty if it has neither. */
  readonly order?: string;
  /** The workshop's journal of set-ups. */
  readonly setups?: readonly SetupTold[];
  readonly people: readonly Person[];
  readonly instruments: readonly Instrument[];
  readonly at: string;
  /** "pinchrod 0.1.0" */
  readonly program: string;
  /** Show people by initials only, in every text. */
  readonly initials: boolean;
  readonly triangle: 'apex-at-hinge' | 'apex-at-handle';
  /** Observations from reading the files that the reader must know; added to the remarks. */
  readonly remarks?: readonly string[];
}
