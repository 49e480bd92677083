/**
 * What the workshop wants to know of a unit without reading its journal again: how it stands from now on, what is open
 * and held in it, what is half done, and what lots, set-ups and snags tie it to other units. Plain data, so that a store
 * may keep it; it follows from the journal, and is never more than a copy.
 */

import type { StageRow } from './board.js';
import { ms } from './clock.js';
import type { Handover, HandoverLine, UnitLine, UnitLines } from './handover.js';
import type { UnitStanding } from './types.js';

/** One unit in a row of the stage view. `place` is where the step stands in the unit's walking order. */
interface StepHere {
  readonly base: string;
  readonly title: string;
  readonly stage: string;
  readonly step: string;
  readonly place: number;
  readonly held: boolean;
}

/** How the unit stands from a moment on, as long as nobody does anything to it. */
export interface Phase {
  readonly from: string;
  readonly standing: UnitStanding;
  readonly done: number;
  readonly total: number;
  readonly where: string;
  readonly steps: readonly StepHere[];
  /** Lines of the hand-over page by heading; headings without lines are left out. */
  readonly handover: Partial<UnitLines>;
}

export interface UnitDigest {
  /** Oldest first; the first is the moment for which this was made. */
  readonly phases: readonly Phase[];
  /** Until when the last phase is known; absent where time changes nothing any more. */
  readonly until?: string;
  readonly lots: readonly LotUsed[];
  /** Lots and set-ups that an open snag of this unit touches. */
  readonly snagged: { readonly lots: readonly string[]; readonly setups: readonly string[] };
  /** Steps done under each set-up id. */
  readonly uses: Readonly<Record<string, number>>;
  /** A scrapped unit: the one built in its place. */
  readonly replacement?: string;
  readonly notes: readonly {
    readonly at: string;
    readonly by: string;
    readonly step: string | null;
    readonly text: string;
  }[];
}

export interface LotUsed {
  readonly material: string;
  readonly code: string;
  readonly expires?: string;
  /** When it was last named. */
  readonly at: string;
}

/** The phase of a moment; undefined where the digest does not reach to it. */
export function phaseAt({ phases, until }: UnitDigest, now: string): Phase | undefined {
  const timeless = phases.length === 1 && until === undefined;
  if (timeless) return phases[0];
  if (until !== undefined && now >= until) return undefined;
  return phases.findLast(({ from }) => from <= now);
}

/** Lots and snags over all units, as decisions want them: a lot's expiry is the one that was named last. */
export function acrossUnits(digests: Iterable<UnitDigest>): {
  readonly lots: readonly LotUsed[];
  readonly snagged: { readonly lots: readonly string[]; readonly setups: readonly string[] };
  readonly uses: ReadonlyMap<string, number>;
} {
  const lots = new Map<string, LotUsed>();
  const snagged = { lots: new Set<string>(), setups: new Set<string>() };
  const uses = new Map<string, number>();
  for (const digest of digests) {
    for (const lot of digest.lots) {
      const key = `${lot.material}/${lot.code}`;
      const other = lots.get(key);
      if (!other || (lot.expires !== undefined && (other.expires === undefined || other.at <= lot.at)))
        lots.set(key, lot);
    }
    for (const code of digest.snagged.lots) snagged.lots.add(code);
    for (const id of digest.snagged.setups) snagged.setups.add(id);
    for (const [id, count] of Object.entries(digest.uses)) uses.set(id, (uses.get(id) ?? 0) + count);
  }
  return {
    lots: [...lots.values()],
    snagged: { lots: [...snagged.lots], setups: [...snagged.setups] },
    uses,
  };
}

/** A unit with what is known of it. */
export interface Digested {
  readonly job: string;
  readonly unit: string;
  readonly digest: UnitDigest;
}

/** By stage across units, as `byStep` gives it for states. */
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

/** A unit of which nothing is logged, and the step at which it begins. */
export interface Beginning {
  readonly job: string;
  readonly unit: string;
  readonly base: string;
  readonly title: string;
  readonly stage: string;
  readonly step: string;
}

/** The stage view with the units that are not started, each at the step at which it begins. */
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

/** The headings of the hand-over page in their order, as people say them. */
export const HANDOVER_TITLES = [
  ['halfDone', 'Half done'],
  ['held', 'Held, waits for release'],
  ['curing', 'Curing'],
  ['running', 'About to run out'],
  ['snags', 'Open snags'],
  ['parked', 'Parked'],
  ['notes', 'Notes'],
] as const satisfies readonly (readonly [Exclude<keyof Handover, 'at'>, string])[];

/** How far back a shift's notes are looked for, where nothing else is asked. */
export const SHIFT_MS = 12 * 3_600_000;

/** The hand-over page: notes from `since` on. */
export function handoverOf(units: readonly Digested[], now: string, since: string): Handover {
  const pages = units.map(({ job, unit, digest }) => ({ job, unit, own: phaseAt(digest, now)?.handover }));
  const lines = <L extends UnitLine>(under: (own: Partial<UnitLines>) => readonly L[] | undefined) =>
    pages.flatMap(({ job, unit, own }) =>
      ((own && under(own)) ?? []).map((line) => ({ job, unit, ...line })),
    );
  const soonest = (heading: 'curing' | 'running'): HandoverLine[] =>
    lines((own) => own[heading])
      .toSorted((a, b) => ms(a.until) - ms(b.until))
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
        .map(({ by, step, text }) => ({ job, unit, step, text: `${by}: ${text}` })),
    ),
  };
}
