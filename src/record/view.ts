/** The record of one unit, computed from its state alone. Formats only render it. */
import { sanitize } from '../base/text.js';
import type { Zone } from '../base/wallclock.js';
import { data, type Spoken } from '../base/words.js';
import type { Instrument } from '../measure/types.js';
import { sealOf } from '../unit/sealing.js';
import type { Person } from '../unit/types.js';
import type { UnitState } from '../unit/unitstate.js';
import { drawSvg, drawText } from '../window/draw.js';
import { elevation } from '../window/elevation.js';
import type { SetOut } from '../window/types.js';
import { afterView } from './afterview.js';
import { type KeptTexts, type Maker, NOTHING_KEPT, peopleIn, RecordBasis, type Told } from './basis.js';
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
import { mapTexts, type Namer, nameRemover, namer } from './initials.js';
import { levelRemarks } from './levels.js';
import { builtFrom, evidenceKept, instrumentsUsed, lotsUsed, peopleInvolved } from './materialview.js';
import { papersOf } from './papers.js';
import type { DrawingView, RecordView, RegistersThen } from './schema.js';
import { keptSetupViews, type SetupTold, setupViews, supervisedViews } from './setupview.js';
import { type DocumentSay, size, type Telling, tellingOf } from './telling.js';
import { measuredViews, unitSentence, unitView } from './unitview.js';

/** What a record needs besides the unit's state: the facts it rests on, and when and by what the document is made. */
export interface RecordContext {
  readonly customer: string;
  /** Title and revision of the order; empty if it has neither. */
  readonly order?: string;
  /** What the journal's lines name. */
  readonly kept?: KeptTexts;
  /** What an earlier document states of facts that are not kept. */
  readonly told?: Told;
  /** The workshop's files as they are now, for what is not kept. */
  readonly maker: Maker;
  readonly people: readonly Person[];
  readonly instruments: readonly Instrument[];
  /** The workshop's journal of set-ups, for units that do not keep the first-offs they rest on. */
  readonly setups?: readonly SetupTold[];
  readonly at: string;
  /** "pinchrod 0.2.0" */
  readonly program: string;
  /** Show people by initials only, in every text. */
  readonly initials: boolean;
  /** Observations from reading the files that the reader must know; added to the remarks. */
  readonly remarks?: readonly string[];
  readonly registers?: RegistersThen;
  /** Whose time it tells; UTC if absent. */
  readonly zone?: Zone | undefined;
  /** BCP 47, and the SHA-256 of the words; neither in documents printed before there were catalogues. */
  readonly language?: string | undefined;
  readonly words?: string | undefined;
  /** In layers, with or without the annex; undefined: as documents were arranged before. */
  readonly annex?: boolean | undefined;
  readonly paper?: 'letter' | undefined;
  /** A small copy of the photograph with that hash: PNG in base64. */
  readonly smallOf?: ((sha256: string) => string | undefined) | undefined;
  /** 1: as version 0.1.0 wrote it, to compare with a document of that version. */
  readonly form?: 1 | 2;
}

/** When, by what and how the document is made. */
export const madeBy = ({
  at,
  program,
  initials,
  registers,
  zone,
  language,
  words,
  annex,
  paper,
}: RecordContext): RecordView['made'] => ({
  at,
  program: sanitize(program),
  initials,
  ...(registers ? { registers } : {}),
  ...(zone ? { zone: zone as Mutable<Zone> } : {}),
  ...(language === undefined ? {} : { language }),
  ...(words === undefined ? {} : { words }),
  ...(annex === undefined ? {} : { annex }),
  ...(paper === undefined ? {} : { paper }),
});

/**
 * @param state with the lines that closed the record, or with all of them where it is open
 * @param setOut as frozen; undefined if unreadable: the record says so and shows what the journal holds
 * @param now with all its lines, where more came after those that closed it
 */
export function recordView(
  state: UnitState,
  setOut: SetOut | undefined,
  context: RecordContext,
  now?: UnitState,
): RecordView {
  const { form = 2 } = context;
  const telling = tellingOf(madeBy(context));
  const { say } = telling;
  const basisOf = ({ events }: UnitState) =>
    new RecordBasis(events, context.kept ?? NOTHING_KEPT, context, context.told);
  const basis = basisOf(state);
  const people = basis.people();
  const named = namer(people, context.initials, say, (id) => basis.toldName(id));
  const stages = stageViews(state, named, say);
  const holds = holdViews(state, named, say);
  const snags = snagViews(state, named, say);
  const corrections = correctionViews(state, named, telling);
  const reworks = reworkViews(state, named);
  const overrides = overrideViews(state, named, say);
  const counted = { stages, holds, snags, corrections: corrections.length, reworks: reworks.length };
  const counts = countsOf(counted);
  const last = state.events.at(-1);
  const hash = last?.hash ?? '';
  const signed = sealOf(state.events);
  const closing = state.events.findLast((event) => event.kind === 'finished' || event.kind === 'scrapped');
  // A record that version 0.1.0 printed of its own lines says what it said then.
  const since2 = form === 2 || (last?.v ?? 2) >= 2;
  const { maker, today } = basis.maker;
  const drawing = setOut ? drawingOf(setOut, maker.triangle, say) : undefined;
  const instruments = instrumentsUsed(stages, state.events, basis, { form, units: since2, telling });
  const after = now && afterNamed(now, state.events.length, context, basisOf(now));
  const view: RecordView = {
    format: 'pinchrod-record 1',
    made: madeBy(context),
    workshop: sanitize(maker.name),
    unit: unitView(state, setOut, context.customer, say, since2 ? context.order : undefined),
    verdict: verdictOf(state, counts, say),
    counts: since2
      ? { ...counts, coarse: coarseOf(stages).length, again: answeredAgain(stages).length }
      : counts,
    missing: [...missingOf(state, counted, say), ...(setOut ? [] : [say('doc-missing-setout')])],
    remarks: [
      ...remarksOf(state, setOut, counted, overrides.length, context.initials, named, say),
      ...(form === 2
        ? [...todayRemarks(basis, context.at, telling), ...levelRemarks(state.events, basis, named, say)]
        : []),
      ...(context.remarks ?? []).map(sanitize),
    ],
    builtFrom: builtFrom(state.events, state.route.procedure, form, telling),
    ...(drawing ? { drawing } : {}),
    asMeasured: measuredViews(state, basis, say),
    stages,
    holds,
    snags,
    corrections,
    reworks,
    overrides,
    revisions: revisionViews(state, named, say),
    lots: lotsUsed(stages),
    instruments,
    people: peopleInvolved(state, named, {
      since2,
      ids: !context.initials,
      basis: form === 2 ? basis : undefined,
      say,
    }),
    evidence: evidenceKept(stages, holds, say, context.smallOf ?? (() => undefined)),
    ...(since2
      ? {
          setups: [
            ...keptSetupViews(state.events, basis, named, say),
            ...(basis.partly ? setupViews(stages, context.setups ?? [], named, say) : []),
          ],
          supervised: supervisedViews(state, named),
        }
      : {}),
    timers: state.timers.map(({ text, until }) => ({ text: sanitize(text), until })),
    notes: noteViews(state, named, telling),
    seal: {
      closed: state.finished || state.scrapped,
      hash,
      code: data(shortCode(hash)),
      lines: state.events.length,
      at: last?.at ?? '',
      ...(form === 2 && closing ? { by: named(closing.by) } : {}),
      ...(closing?.kind === 'finished' && closing.unseen !== undefined ? { unseen: closing.unseen } : {}),
      ...(closing?.unsigned
        ? { unsigned: { by: named(closing.unsigned.by), why: sanitize(closing.unsigned.why) } }
        : {}),
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
    ...(after ? { after } : {}),
    ...(context.annex === undefined
      ? {}
      : {
          papers: papersOf(
            {
              job: state.job,
              unit: state.unit,
              lines: (now ?? state).events.length,
              ...(after ? { closed: state.events.length } : {}),
              releasedAt: state.finished ? last?.at : undefined,
            },
            maker.particulars,
            say,
          ),
        }),
  };
  const shown = context.initials ? withoutNames(view, people) : view;
  return form === 2 ? { ...shown, told: toldOf(basis, now ?? state, named, today) } : shown;
}

/** In the chapter, people who came after the release are known too. */
function afterNamed(now: UnitState, closed: number, context: RecordContext, basis: RecordBasis) {
  const telling = tellingOf(madeBy(context));
  const named = namer(basis.people(), context.initials, telling.say, (id) => basis.toldName(id));
  return afterView(now, closed, named, basis, telling);
}

const todayRemarks = (basis: RecordBasis, at: string, { say, when }: Telling): Spoken[] =>
  basis.partly ? [say('doc-remark-partly', { day: when(at).slice(0, 10) })] : [];

/** What the document states that the journal does not keep, or that may be erased. */
function toldOf(
  basis: RecordBasis,
  { events }: UnitState,
  named: Namer,
  makerToday: boolean,
): NonNullable<RecordView['told']> {
  const instruments = basis.shownAsToday();
  return {
    ...(makerToday ? { maker: basis.maker.maker as Mutable<Maker> } : {}),
    people: peopleIn(events).map(named),
    ...(instruments.length > 0 ? { instruments: instruments as Mutable<Instrument>[] } : {}),
  };
}

/** The schema's types are not read-only. */
type Mutable<T> = T extends object ? { -readonly [K in keyof T]: Mutable<T[K]> } : T;

/** Also replaces names in free text (reasons, notes, snags), but never the customer's or the workshop's name. */
function withoutNames(view: RecordView, people: ReturnType<RecordBasis['people']>): RecordView {
  const keep = new Set([
    'customer',
    'workshop',
    'format',
    'sha256',
    'hash',
    'code',
    'value',
    'svg',
    'small',
    'made',
  ]);
  return mapTexts(view, nameRemover(people), keep);
}

// The unit seen from outside, for documents: drawn by the window room; title and alternative text are added here.

function drawingOf(
  setOut: SetOut,
  triangles: 'apex-at-hinge' | 'apex-at-handle',
  say: DocumentSay,
): DrawingView | undefined {
  // A unit so wrong that it has no lights cannot be drawn.
  if (setOut.lights.length === 0) return undefined;
  const view = elevation(setOut);
  const opens = setOut.lights.some(({ kind }) => kind !== 'fixed');
  return {
    title: say(opens ? (triangles === 'apex-at-hinge' ? 'doc-seen-hinge' : 'doc-seen-handle') : 'doc-seen'),
    alt: sanitize(
      say(setOut.product === undefined ? 'doc-drawing' : 'doc-drawing-product', {
        unit: setOut.unit.id,
        size: size(setOut.frame.w, setOut.frame.h),
        sentence: unitSentence(say, setOut),
      }),
    ),
    svg: drawSvg(view, { triangles, width: 420 }),
    text: drawText(view, { columns: 60, rows: 18, ascii: true, triangles }),
  };
}
