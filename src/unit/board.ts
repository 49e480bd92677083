/** The board: one row per unit, or one row per step across units. Rows are plain data, so a store can keep them. */
import { NAMELESS } from '../procedure/stageorder.js';
import { asOf } from './fold.js';
import { heldSteps, nextCheck, openSteps } from './next.js';
import type { UnitStanding } from './types.js';
import type { UnitState } from './unitstate.js';
import { unitSays, unitWords } from './words.js';

export interface BoardRow {
  readonly job: string;
  readonly unit: string;
  readonly standing: UnitStanding;
  readonly word: string;
  readonly done: number;
  readonly of: number;
  /** Current step, its title and stage; null when nothing is open. */
  readonly step: string | null;
  readonly title: string | null;
  readonly stage: string | null;
  /** One sentence: what the unit is waiting for, or what is next. */
  readonly where: string;
  readonly held: readonly string[];
  readonly snags: readonly number[];
  /** Steps that were done and must be redone. */
  readonly stale: readonly string[];
  readonly timers: readonly { readonly until: string; readonly kind: string; readonly text: string }[];
  /** UTC time of the last event; null before the first. */
  readonly last: string | null;
}

export function boardRow(unit: UnitState, now?: string): BoardRow {
  const state = now === undefined ? unit : asOf(unit, now);
  const at = nextCheck(state);
  const held = heldSteps(state);
  const step = at ? state.steps.get(at.step)!.step : held[0]?.step;
  return {
    job: state.job,
    unit: state.unit,
    standing: state.standing,
    word: STANDING_WORDS[state.standing].word,
    done: state.done,
    of: state.route.steps.length,
    step: step?.id ?? null,
    title: step?.title ?? null,
    stage: step?.stage ?? null,
    where: whereText(state),
    held: held.map(({ step: { id } }) => id),
    snags: state.snags.filter(({ open }) => open).map(({ n }) => n),
    stale: [...state.steps.values()].filter(({ status }) => status === 'stale').map(({ step: { id } }) => id),
    timers: state.timers.map(({ until, kind, text }) => ({ until, kind, text })),
    last: state.events.at(-1)?.at ?? null,
  };
}

function whereText(state: UnitState): string {
  const snag = state.snags.find(({ open }) => open);
  switch (state.standing) {
    case 'finished':
      return unitSays('where-finished');
    case 'scrapped':
      return unitSays('where-scrapped', { unit: state.replacement! });
    case 'parked':
      return unitSays('where-parked', { reason: parkedFor(state) });
    case 'refused':
      return state.orderProblems[0]!.text;
    case 'snagged': {
      const { n, raised, decided } = snag!;
      const told = { n: String(n), text: raised.text };
      return decided
        ? unitSays('where-snag-decided', {
            ...told,
            disposition: unitWords(`decided-${decided.disposition}`),
          })
        : unitSays('where-snag', told);
    }
    case 'curing': {
      const timer = state.timers
        .filter(({ kind }) => kind === 'not-before')
        .toSorted((a, b) => (a.until < b.until ? -1 : 1))[0]!;
      return timer.text;
    }
    case 'held':
      return unitSays('where-held', { hold: heldSteps(state)[0]!.step.hold!.title });
    default: {
      const at = nextCheck(state);
      return at ? state.steps.get(at.step)!.step.title : unitSays('where-nothing');
    }
  }
}

const parkedFor = ({ events }: UnitState): string =>
  events.findLast((event) => event.kind === 'parked')!.reason;

export interface StageRow {
  /** The step's id in the procedure: `frame.square`. */
  readonly base: string;
  readonly title: string;
  readonly stage: string;
  /** Units where this step is open, and units where it is held awaiting release. */
  readonly open: readonly { readonly job: string; readonly unit: string; readonly step: string }[];
  readonly held: readonly { readonly job: string; readonly unit: string; readonly step: string }[];
  /** Units with nothing logged yet that start at this step. */
  readonly notStarted?: readonly { readonly job: string; readonly unit: string; readonly step: string }[];
}

/** A step title shared by several units: replaces the id of the unit it came from. */
const titleOf = (title: string, unit: string): string => title.replaceAll(unit, NAMELESS);

/** One row per step across units ("all frames to be squared"), in walking order of the first unit that has the step. */
export function byStep(states: readonly UnitState[], now?: string): StageRow[] {
  const rows = new Map<string, { row: StageRow; place: number }>();
  for (const unit of states) {
    const state = now === undefined ? unit : asOf(unit, now);
    const open = new Set(openSteps(state).map(({ step }) => step.id));
    state.route.steps.forEach((step, place) => {
      const held = state.steps.get(step.id)!.status === 'held' && !state.parked;
      if (!open.has(step.id) && !held) return;
      const entry = rows.get(step.base) ?? {
        place,
        row: {
          base: step.base,
          title: titleOf(step.title, state.unit),
          stage: step.stage,
          open: [],
          held: [],
        },
      };
      const here = { job: state.job, unit: state.unit, step: step.id };
      rows.set(step.base, {
        place: entry.place,
        row: held
          ? { ...entry.row, held: [...entry.row.held, here] }
          : { ...entry.row, open: [...entry.row.open, here] },
      });
    });
  }
  return [...rows.values()].toSorted((a, b) => a.place - b.place).map(({ row }) => row);
}

// A one-character symbol precedes each word, so colour is never needed.

export const STANDING_WORDS: Readonly<
  Record<UnitStanding, { readonly sign: string; readonly word: string }>
> = {
  'not-started': { sign: '.', word: unitSays('stands-not-started') },
  refused: { sign: 'x', word: unitSays('stands-refused') },
  'under-way': { sign: '>', word: unitSays('stands-under-way') },
  held: { sign: 'H', word: unitSays('stands-held') },
  curing: { sign: '~', word: unitSays('stands-curing') },
  snagged: { sign: '!', word: unitSays('stands-snagged') },
  parked: { sign: '=', word: unitSays('stands-parked') },
  finished: { sign: '*', word: unitSays('stands-finished') },
  scrapped: { sign: '-', word: unitSays('stands-scrapped') },
};

// Shift hand-over: what is open, held, curing or half done. The lines of one unit in its current state.

export interface HandoverLine {
  readonly job: string;
  readonly unit: string;
  readonly step: string | null;
  readonly text: string;
}

export interface Handover {
  readonly at: string;
  readonly halfDone: readonly HandoverLine[];
  readonly held: readonly HandoverLine[];
  readonly curing: readonly HandoverLine[];
  readonly running: readonly HandoverLine[];
  readonly snags: readonly HandoverLine[];
  readonly parked: readonly HandoverLine[];
  /** Notes since the given time (the start of the shift). */
  readonly notes: readonly HandoverLine[];
}

export interface UnitLine {
  readonly step: string | null;
  readonly text: string;
}

/** Carries its end time, so lines from several units can be sorted. */
interface TimedLine extends UnitLine {
  readonly until: string;
}

export interface UnitLines {
  readonly halfDone: readonly UnitLine[];
  readonly held: readonly UnitLine[];
  readonly curing: readonly TimedLine[];
  readonly running: readonly TimedLine[];
  readonly snags: readonly UnitLine[];
  readonly parked: readonly UnitLine[];
}

export function linesOf(state: UnitState): UnitLines {
  if (state.finished || state.scrapped)
    return { halfDone: [], held: [], curing: [], running: [], snags: [], parked: [] };
  const timers = (wanted: UnitState['timers'][number]['kind']): TimedLine[] =>
    state.timers.flatMap(({ kind, step, text, until }) => (kind === wanted ? [{ step, text, until }] : []));
  return {
    halfDone: [...state.steps.values()].flatMap(({ step, status, checks }) => {
      if (status !== 'begun' && status !== 'failed' && status !== 'stale') return [];
      const open = checks.filter(({ holds }) => !holds).length;
      return [
        {
          step: step.id,
          text: unitSays(HALF[status], {
            step: step.title,
            open: String(open),
            of: String(checks.length),
          }),
        },
      ];
    }),
    held: heldSteps(state).map(({ step }) => ({
      step: step.id,
      text: unitSays('handover-held', { step: step.title, hold: step.hold!.title }),
    })),
    curing: timers('not-before'),
    running: timers('not-after'),
    snags: state.snags.flatMap(({ open, n, raised, decided }) => {
      if (!open) return [];
      const told = { n: String(n), severity: unitWords(`graded-${raised.severity}`), text: raised.text };
      const text = decided
        ? unitSays('handover-snag-decided', {
            ...told,
            disposition: unitWords(`decided-${decided.disposition}`),
          })
        : unitSays('handover-snag', told);
      return [{ step: raised.step ?? null, text }];
    }),
    parked: state.parked ? [{ step: null, text: parkedFor(state) }] : [],
  };
}

const HALF = { begun: 'handover-half', failed: 'handover-failed', stale: 'handover-stale' } as const;
