/**
 * Unit digest: what the workshop needs to know about a unit without rereading its journal. Covers its standing from now
 * on, what is open, held or half done, and the lots, set-ups and snags that link it to other units. Plain data, so a
 * store can cache it; derived from the journal and only ever a copy.
 */
import {
  boardRow,
  byStep,
  type Handover,
  type HandoverLine,
  linesOf as handoverLines,
  type StageRow,
  type UnitLine,
  type UnitLines,
} from './board.js';
import { type Basis, basisAfter, type JournalEvent } from './events.js';
import { asOf } from './fold.js';
import { lotsOf } from './lots.js';
import { citesOf, factsOf } from './shared.js';
import { usesOf } from './trace.js';
import type { LotUsed, SharedFact, SharedFacts, UnitStanding } from './types.js';
import type { UnitState } from './unitstate.js';
import { unitSays } from './words.js';

/** One unit in a row of the stage view. `place` is the step's index in the unit's walking order. */
interface StepHere {
  readonly base: string;
  readonly title: string;
  readonly stage: string;
  readonly step: string;
  readonly place: number;
  readonly held: boolean;
}

/** The unit's standing from a given time, as long as nobody works on it. */
export interface Phase {
  readonly from: string;
  readonly standing: UnitStanding;
  readonly done: number;
  readonly total: number;
  readonly where: string;
  readonly steps: readonly StepHere[];
  /** Hand-over page lines by heading; headings without lines are omitted. */
  readonly handover: Partial<UnitLines>;
}

export interface UnitDigest {
  /** Oldest first; the first starts at the time this digest was made for. */
  readonly phases: readonly Phase[];
  /** End of validity of the last phase; absent once time no longer changes anything. */
  readonly until?: string;
  readonly lots: readonly LotUsed[];
  readonly snagged: { readonly lots: readonly string[]; readonly setups: readonly string[] };
  /** Steps done under each set-up id. */
  readonly uses: Readonly<Record<string, number>>;
  /** SHA-256 of pictures that belong to its answers. */
  readonly pictures: readonly string[];
  /** What other units may cite of it, and what it cites of others. */
  readonly shared: { readonly facts: readonly SharedFact[]; readonly cites: readonly string[] };
  /** What its lines rest on, each from a line on. */
  readonly bases: readonly { readonly n: number; readonly basis: Basis }[];
  readonly replacement?: string;
  readonly notes: readonly {
    readonly at: string;
    readonly by: string;
    readonly step: string | null;
    readonly text: string;
  }[];
}

/** The phase at a given time; undefined if the digest does not cover it. */
export function phaseAt({ phases, until }: UnitDigest, now: string): Phase | undefined {
  const timeless = phases.length === 1 && until === undefined;
  if (timeless) return phases[0];
  if (until !== undefined && now >= until) return undefined;
  return phases.findLast(({ from }) => from <= now);
}

/** Lots, snags, pictures and set-up uses across all units, for decisions. */
export function acrossUnits(units: readonly Digested[]): {
  readonly lots: readonly LotUsed[];
  readonly snagged: { readonly lots: readonly string[]; readonly setups: readonly string[] };
  readonly uses: ReadonlyMap<string, number>;
  readonly pictures: ReadonlySet<string>;
  readonly shared: SharedFacts;
} {
  const lots = new Map<string, LotUsed>();
  const pictures = new Set<string>();
  const snagged = { lots: new Set<string>(), setups: new Set<string>() };
  const uses = new Map<string, number>();
  const facts: SharedFact[] = [];
  const cites = new Map<string, number>();
  for (const { digest } of units) {
    facts.push(...digest.shared.facts);
    for (const key of digest.shared.cites) cites.set(key, (cites.get(key) ?? 0) + 1);
    for (const lot of digest.lots) {
      const key = [lot.material, lot.code, lot.expires, lot.job, lot.unit, lot.item].join('/');
      const other = lots.get(key);
      const latest = !other || other.at <= lot.at ? lot : other;
      lots.set(key, { ...latest, ...(lot.accepted || other?.accepted ? { accepted: true as const } : {}) });
    }
    for (const picture of digest.pictures) pictures.add(picture);
    for (const code of digest.snagged.lots) snagged.lots.add(code);
    for (const id of digest.snagged.setups) snagged.setups.add(id);
    for (const [id, count] of Object.entries(digest.uses)) uses.set(id, (uses.get(id) ?? 0) + count);
  }
  return {
    lots: [...lots.values()],
    snagged: { lots: [...snagged.lots], setups: [...snagged.setups] },
    uses,
    pictures,
    shared: {
      facts,
      cites,
      basisAt({ job, unit, n }) {
        const found = units.find((each) => each.job === job && each.unit === unit);
        return found?.digest.bases
          .filter((each) => each.n <= n)
          .reduce<Basis | undefined>((basis, each) => basisAfter(basis ?? {}, each), undefined);
      },
    },
  };
}

export interface Digested {
  readonly job: string;
  readonly unit: string;
  readonly digest: UnitDigest;
}

/** One row per step across units, as `byStep` gives it for states. */
export function stagesOf(units: readonly Digested[], now: string): StageRow[] {
  type Here = StageRow['open'][number];
  const rows = new Map<string, { row: StageRow; place: number; open: Here[]; held: Here[] }>();
  for (const { job, unit, digest } of units)
    for (const { base, title, stage, step, place, held } of phaseAt(digest, now)?.steps ?? []) {
      let entry = rows.get(base);
      if (!entry) {
        const open: Here[] = [];
        const waiting: Here[] = [];
        entry = { place, row: { base, title, stage, open, held: waiting }, open, held: waiting };
        rows.set(base, entry);
      }
      entry.place = Math.min(entry.place, place);
      (held ? entry.held : entry.open).push({ job, unit, step });
    }
  return [...rows.values()].toSorted((a, b) => a.place - b.place).map(({ row }) => row);
}

/** A unit with nothing logged, and the step it begins at. */
export interface Beginning {
  readonly job: string;
  readonly unit: string;
  readonly base: string;
  readonly title: string;
  readonly stage: string;
  readonly step: string;
}

/** Adds units not started yet to the stage view, each at its first step. */
export function withBeginnings(rows: readonly StageRow[], beginnings: readonly Beginning[]): StageRow[] {
  const notStarted = new Map<string, Beginning[]>();
  for (const each of beginnings) {
    const here = notStarted.get(each.base);
    if (here) here.push(each);
    else notStarted.set(each.base, [each]);
  }
  const there = new Set(rows.map(({ base }) => base));
  const first = [...notStarted.values()]
    .map(([each]) => each!)
    .filter(({ base }) => !there.has(base))
    .map(({ base, title, stage }): StageRow => ({ base, title, stage, open: [], held: [] }));
  return [...first, ...rows].map((row) => {
    const here = notStarted.get(row.base)?.map(({ job, unit, step }) => ({ job, unit, step }));
    return here ? { ...row, notStarted: here } : row;
  });
}

export const HANDOVER_TITLES = [
  ['halfDone', unitSays('handover-title-halfDone')],
  ['held', unitSays('handover-title-held')],
  ['curing', unitSays('handover-title-curing')],
  ['running', unitSays('handover-title-running')],
  ['snags', unitSays('handover-title-snags')],
  ['parked', unitSays('handover-title-parked')],
  ['notes', unitSays('handover-title-notes')],
] as const satisfies readonly (readonly [Exclude<keyof Handover, 'at'>, string])[];

/** Default look-back for a shift's notes. */
export const SHIFT_MS = 12 * 3_600_000;

export function handoverOf(units: readonly Digested[], now: string, since: string): Handover {
  const pages = units.map(({ job, unit, digest }) => ({ job, unit, own: phaseAt(digest, now)?.handover }));
  const lines = <L extends UnitLine>(under: (own: Partial<UnitLines>) => readonly L[] | undefined) =>
    pages.flatMap(({ job, unit, own }) =>
      ((own && under(own)) ?? []).map((line) => ({ job, unit, ...line })),
    );
  const soonest = (heading: 'curing' | 'running'): HandoverLine[] =>
    lines((own) => own[heading])
      .toSorted((a, b) => Date.parse(a.until) - Date.parse(b.until))
      .map(({ until: _, ...line }) => line);
  return {
    at: now,
    halfDone: lines(({ halfDone }) => halfDone),
    held: lines(({ held }) => held),
    curing: soonest('curing'),
    running: soonest('running'),
    snags: lines(({ snags }) => snags),
    parked: lines(({ parked }) => parked),
    notes: units.flatMap(({ job, unit, digest }) =>
      digest.notes
        .filter(({ at }) => at >= since)
        .map(({ by, step, text }) => ({ job, unit, step, text: unitSays('handover-note', { by, text }) })),
    ),
  };
}

// Builds a unit's digest from its state.

/** Timer texts name the day once it is not today, so each midnight starts a phase; look ahead one week. */
const DAYS = 7;

export function digestOf(unit: UnitState, now: string): UnitDigest {
  const first = asOf(unit, now);
  const moments = [now, ...momentsAfter(first, now)];
  const until = first.timers.length === 0 ? undefined : midnightAfter(moments.at(-1)!);
  const events = unit.events;
  return {
    phases: moments.map((moment) => phaseOf(asOf(unit, moment), moment)),
    ...(until === undefined ? {} : { until }),
    lots: lotsOf(unit),
    snagged: {
      lots: openTouches(unit, 'lot'),
      setups: openTouches(unit, 'setup'),
    },
    pictures: picturesOf(unit),
    shared: { facts: factsOf(unit), cites: citesOf(unit) },
    bases: events.flatMap(({ n, basis }) => (basis ? [{ n, basis }] : [])),
    uses: Object.fromEntries(usesOf([{ unit: unit.unit, job: unit.job, events }])),
    ...(unit.replacement === undefined ? {} : { replacement: unit.replacement }),
    notes: events.flatMap((event) =>
      event.kind === 'noted'
        ? [{ at: event.at, by: event.by, step: event.step ?? null, text: event.text }]
        : [],
    ),
  };
}

function phaseOf(state: UnitState, now: string): Phase {
  const { standing, done, of, where } = boardRow(state);
  return {
    from: now,
    standing,
    done,
    total: of,
    where,
    steps: byStep([state]).flatMap(({ base, title, stage, open, held }) =>
      [...open, ...held].map(({ step }) => ({
        base,
        title,
        stage,
        step,
        place: state.route.steps.findIndex(({ id }) => id === step),
        held: held.some((each) => each.step === step),
      })),
    ),
    handover: Object.fromEntries(
      Object.entries(handoverLines(state)).filter(([, lines]) => lines.length > 0),
    ),
  };
}

/** Times at which a running timer changes something, plus the midnights between. */
function momentsAfter(state: UnitState, now: string): string[] {
  const ends = state.timers
    // A deadline is inclusive: work done at that very moment is still in time.
    .map(({ kind, until }) => (kind === 'not-after' ? new Date(Date.parse(until) + 1).toISOString() : until))
    .filter((end) => end > now);
  const last = ends.toSorted().at(-1);
  if (last === undefined) return [];
  const moments = new Set(ends);
  let midnight = midnightAfter(now);
  for (let day = 0; day < DAYS && midnight < last; day += 1) {
    moments.add(midnight);
    midnight = midnightAfter(midnight);
  }
  // Nothing is claimed beyond the look-ahead.
  return [...moments].filter((moment) => moment <= midnight).sort();
}

const DAY_MS = 86_400_000;
const midnightAfter = (now: string): string =>
  new Date((Math.floor(Date.parse(now) / DAY_MS) + 1) * DAY_MS).toISOString();

/** Every picture that an answer or a release holds. */
const picturesOf = ({ events }: UnitState): string[] => [
  ...new Set(
    events.flatMap((event) =>
      'evidence' in event ? (event.evidence ?? []).map(({ sha256 }) => sha256) : [],
    ),
  ),
];

function openTouches(unit: UnitState, what: 'lot' | 'setup'): string[] {
  const touched = unit.snags.flatMap(({ open, raised }) => (open ? (raised.touches[what] ?? []) : []));
  return [...new Set(touched)];
}

// Search summary of a unit, from its events alone: days worked on, and whether it had a snag.

export interface UnitSummary {
  /** UTC days with an event, each once, in journal order: `2026-03-04`. */
  readonly days: readonly string[];
  /** A snag was raised, whatever became of it. */
  readonly snagged: boolean;
}

export function summaryOf(events: readonly JournalEvent[]): UnitSummary {
  return {
    days: [...new Set(events.map(({ at }) => at.slice(0, 10)))],
    snagged: events.some(({ kind }) => kind === 'snag-raised'),
  };
}

/** Whether a unit matches a query: worked on between two days (inclusive) and, if asked, snagged. */
export function answersTo(
  { days, snagged }: UnitSummary,
  asked: {
    readonly since?: string | undefined;
    readonly until?: string | undefined;
    readonly snagged?: boolean | undefined;
  },
): boolean {
  const { since, until } = asked;
  const worked = days.some(
    (day) => (since === undefined || day >= since) && (until === undefined || day <= until),
  );
  return worked && (asked.snagged !== true || snagged);
}
