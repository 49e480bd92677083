/**
 * Finds positions for all rows of marks on one part that keep every rule. Tries the counts and end distances given by
 * the rules; then one more mark, or two; then ends free within their range.
 */
import type { Row as AnyRow, BesideLayout, OwnLayout } from '../features.js';
import { windowSays } from '../words.js';
import {
  type Clearance,
  Clearances,
  HAIR,
  type LineProblem,
  type Link,
  type Movable,
  STEP,
  type Standing,
} from './model.js';
import { solveLine } from './solve.js';

/** A row beside another is settled together with it, so both lie in one stage. */
type Row = AnyRow<OwnLayout | BesideLayout>;
type Spaced = Extract<OwnLayout, { is: 'spaced' }>;
type Standings = Extract<OwnLayout, { is: 'standing' }>;
type Beside = AnyRow<BesideLayout>;

export interface PlacedMark {
  readonly at: number;
  /** Where it would stand if nothing were in its way; a mark that follows another begins where that one led it. */
  readonly nominal: number;
  /** Where its rule alone puts it. */
  readonly ruled: number;
  readonly half: number;
}
export interface PlacedRow {
  readonly row: Row;
  readonly marks: readonly PlacedMark[];
  readonly added: number;
}
export interface LineResult {
  readonly rows: readonly PlacedRow[];
  readonly proven: boolean;
  /** Conflicting rules, in words; the marks then keep their nominal positions. */
  readonly stuck: readonly string[] | undefined;
}
export interface LineStage {
  readonly rows: readonly Row[];
  readonly standing: readonly Standing[];
  readonly partStart: number;
  readonly partLength: number;
  readonly clearances: Clearances;
  readonly tie: 1 | -1;
}

interface Attempt {
  readonly more: ReadonlyMap<Row, number>;
  readonly endsFree: ReadonlySet<Row>;
}
/** What to relax when finding the rules to blame, and the node limit (BLAME) of each such attempt. */
interface Ease {
  readonly pitch?: boolean;
  readonly ends?: boolean;
  readonly part?: boolean;
}
const BLAME = 500;

export function placeLine(stage: LineStage): LineResult {
  // Most parts have no clash: every mark keeps its nominal position and no search is needed.
  if (holdsAsRuled(stage)) return { rows: nominal(stage), proven: true, stuck: undefined };
  const plain: Attempt = { more: new Map(), endsFree: new Set() };
  const first = attempt(stage, plain);
  if (first.ok) return { rows: first.rows, proven: first.proven, stuck: undefined };
  // Only the rows the search got stuck on are re-spaced or given free ends.
  const among = first.among.filter(({ layout }) => layout.is === 'spaced');
  const most = Math.max(0, ...among.map(({ layout }) => (layout as Spaced).more));
  const tries = first.pinned ? [true] : [false, true];
  for (const endsFree of among.length === 0 ? [] : tries) {
    const free = new Set(endsFree ? among : []);
    for (let added = endsFree ? 0 : 1; added <= most; added++) {
      const found = spread(among, added)
        .map((more) => attempt(stage, { more, endsFree: free }))
        .filter((each) => each.ok)
        .sort((a, b) => a.cost - b.cost)[0];
      if (found) return { rows: found.rows, proven: found.proven, stuck: undefined };
    }
  }
  return { rows: nominal(stage), proven: first.proven, stuck: blame(stage, first.among, among) };
}

function holdsAsRuled(stage: LineStage): boolean {
  const { rows, standing, partStart, partLength, clearances } = stage;
  const marks: Standing[] = [...standing];
  for (const row of rows) {
    const { layout, kind, face, half } = row;
    if (layout.is === 'standing') for (const { at } of layout.at) marks.push({ at, kind, face, half });
    else if (layout.is === 'free')
      for (const { at, low, high, half: own = half } of layout.at) {
        if (at < low - HAIR || at > high + HAIR || !onPart(at, own)) return false;
        marks.push({ at, kind, face, half: own });
      }
    else if (layout.is === 'beside')
      for (const { at } of besides(row as Beside, stage, NO_MORE)) {
        if (!onPart(at, half)) return false;
        marks.push({ at, kind, face, half });
      }
    else {
      if (row.length - 2 * layout.end < (layout.count - 1) * Math.max(2 * half, 1)) return false;
      for (const at of spacedPositions(row, layout, 0)) {
        if (!onPart(at, half)) return false;
        marks.push({ at, kind, face, half });
      }
    }
  }
  marks.sort((a, b) => a.at - b.at);
  const widest = 2 * marks.reduce((most, { half }) => Math.max(most, half), 0);
  const reach = clearances.longest + widest;
  for (let i = 0; i < marks.length; i++) {
    const a = marks[i]!;
    for (let j = i + 1; j < marks.length; j++) {
      const b = marks[j]!;
      if (b.at - a.at >= reach) break;
      if (b.at - a.at < clearances.apart(a, b) - HAIR) return false;
    }
  }
  return true;

  function onPart(at: number, half: number): boolean {
    return at - half >= partStart - HAIR && at + half <= partStart + partLength + HAIR;
  }
}

const NO_MORE: Attempt['more'] = new Map();

/** Where a row stands by its rule, with so many more marks. */
function ruledAt(row: Row, stage: LineStage, more: Attempt['more']): readonly number[] {
  const { layout } = row;
  if (layout.is === 'spaced') return spacedPositions(row, layout, more.get(row) ?? 0);
  if (layout.is === 'beside') return besides(row as Beside, stage, more).map(({ at }) => at);
  return layout.at.map(({ at }) => at);
}

/** The places beside another row, and which way each lies from its neighbour there. */
function besides(
  row: Beside,
  stage: LineStage,
  more: Attempt['more'],
): readonly { readonly at: number; readonly way: 1 | -1 }[] {
  const lead = stage.rows.find(({ id }) => id === row.layout.row);
  const middle = row.from + row.length / 2;
  return (lead ? ruledAt(lead, stage, more) : []).map((at) => {
    // Towards the middle of the light; one exactly in the middle goes to the side the shop chose.
    const way = Math.abs(at - middle) < 1e-6 ? stage.tie : at < middle ? 1 : -1;
    return { at: at + way * row.layout.by, way };
  });
}

/** Every way to distribute `added` more marks among the rows. */
function spread(rows: readonly Row[], added: number): ReadonlyMap<Row, number>[] {
  const [row, ...rest] = rows;
  if (!row) return added === 0 ? [new Map()] : [];
  const out: ReadonlyMap<Row, number>[] = [];
  for (let here = 0; here <= Math.min(added, (row.layout as Spaced).more); here++)
    for (const others of spread(rest, added - here))
      out.push(here === 0 ? others : new Map([...others, [row, here]]));
  return out;
}

type Tried =
  | {
      readonly ok: true;
      readonly rows: readonly PlacedRow[];
      readonly cost: number;
      readonly proven: boolean;
    }
  | {
      readonly ok: false;
      readonly among: readonly Row[];
      readonly pinned: boolean;
      readonly proven: boolean;
    };

function attempt(
  stage: LineStage,
  { more, endsFree }: Attempt,
  ease: Ease = {},
  clearances = stage.clearances,
  nodes?: number,
): Tried {
  const { partStart, partLength } = stage;
  const movables: Movable[] = [];
  const owner: Row[] = [];
  const ruled: number[] = [];
  const links: Link[] = [];
  const standing: Standing[] = [...stage.standing];
  /** The movables that make up each row; none for a standing row. */
  const marksOf: { readonly row: Row; readonly own: readonly number[] }[] = [];
  const leads = [...stage.rows].sort((a, b) => Number(isBeside(a)) - Number(isBeside(b)));
  for (const row of leads) {
    const { layout, half, kind, face, made, rank } = row;
    const own: number[] = [];
    marksOf.push({ row, own });
    const put = (nominal: number, low: number, high: number, ownHalf = half, ruledAt = nominal): void => {
      ruled.push(ruledAt);
      const [least, most] = ease.part ? [-1e6, 1e6] : [partStart + ownHalf, partStart + partLength - ownHalf];
      own.push(movables.length);
      owner.push(row);
      movables.push({
        nominal,
        low: Math.max(ease.ends ? least : low, least),
        high: Math.min(ease.ends ? most : high, most),
        kind,
        face,
        half: ownHalf,
        made,
        rank,
      });
    };
    if (layout.is === 'standing') for (const { at } of layout.at) standing.push({ at, kind, face, half });
    else if (layout.is === 'free')
      for (const { at, low, high, half: ownHalf, ruled: rule } of layout.at)
        put(at, low, high, ownHalf, rule);
    else if (layout.is === 'beside') {
      const [low, high] = layout.range ?? [layout.by, layout.by];
      const neighbours = marksOf.find((each) => each.row.id === layout.row)?.own ?? [];
      besides(row as Beside, stage, more).forEach(({ at, way }, i) => {
        const neighbour = neighbours[i];
        if (neighbour === undefined) {
          // Beside a mark that stands.
          const from = at - way * layout.by;
          const ends = [from + way * low, from + way * high];
          put(at, Math.min(...ends), Math.max(...ends));
          return;
        }
        const [first, second] = way > 0 ? [neighbour, movables.length] : [movables.length, neighbour];
        put(at, Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY);
        links.push({ first, second, least: low, most: ease.ends ? 1e6 : high });
      });
    } else {
      const at = spacedPositions(row, layout, more.get(row) ?? 0);
      const [from, to] = [row.from, row.from + row.length];
      const free = endsFree.has(row) && layout.endRange;
      at.forEach((position, i) => {
        const isFirst = i === 0;
        const isLast = i === at.length - 1;
        if (isFirst) put(position, free ? from + free[0] : position, free ? from + free[1] : position);
        else if (isLast) put(position, free ? to - free[1] : position, free ? to - free[0] : position);
        else
          put(
            position,
            from + Math.min(layout.end, row.length / 2),
            to - Math.min(layout.end, row.length / 2),
          );
      });
      // Openings within one row must never run into one another, whatever else the set requires.
      const least = Math.max(2 * half, 1);
      own.slice(1).forEach((second, i) => {
        links.push({ first: own[i]!, second, least, most: ease.pitch ? 1e6 : layout.pitch });
      });
    }
  }
  links.push(...keptOrder(movables, owner, clearances));
  const problem: LineProblem = {
    movables,
    standing,
    links,
    apart: clearances.apart,
    tie: stage.tie,
    ...(nodes !== undefined && { nodes }),
  };
  const solved = solveLine(problem);
  if (!solved.ok)
    return {
      ok: false,
      among: [...new Set(solved.among.map((i) => owner[i]!))],
      pinned: solved.pinned,
      proven: solved.proven,
    };
  if (standingClash(stage, clearances)) return { ok: false, among: [], pinned: true, proven: true };
  return {
    ok: true,
    cost: solved.cost,
    proven: solved.proven,
    rows: marksOf.map(({ row, own }): PlacedRow => {
      const { layout } = row;
      const added = addedTo(row, stage, more);
      if (layout.is === 'standing') return { row, added, marks: standingMarks(layout, row.half) };
      return {
        row,
        added,
        marks: own.map((i) => {
          const { nominal: at, half } = movables[i]!;
          return { nominal: at, ruled: ruled[i]!, at: at + solved.shifts[i]! * STEP, half };
        }),
      };
    }),
  };
}

/** Marks of one kind on one side never swap places: their order is settled, only the distance is open. */
function keptOrder(movables: readonly Movable[], owner: readonly Row[], { apart }: Clearances): Link[] {
  const links: Link[] = [];
  const order = movables
    .map((_, i) => i)
    .sort((a, b) => movables[a]!.nominal - movables[b]!.nominal || a - b);
  order.forEach((second, n) => {
    for (let m = n - 1; m >= 0; m--) {
      const first = order[m]!;
      const [a, b] = [movables[first]!, movables[second]!];
      if (a.kind !== b.kind || a.face !== b.face) continue;
      const least = apart(a, b);
      if (owner[first] !== owner[second] && least > 0)
        links.push({ first, second, least, most: Number.POSITIVE_INFINITY });
      break;
    }
  });
  return links;
}

const isBeside = ({ layout }: Row): boolean => layout.is === 'beside';

/** A row beside another has as many more as that one. */
function addedTo(row: Row, stage: LineStage, more: Attempt['more']): number {
  const { layout } = row;
  const lead = layout.is === 'beside' ? stage.rows.find(({ id }) => id === layout.row) : undefined;
  return more.get(lead ?? row) ?? 0;
}

function spacedPositions(row: Row, { end, count }: Spaced, added: number): number[] {
  const n = count + added;
  if (n === 1) return [row.from + row.length / 2];
  const pitch = (row.length - 2 * end) / (n - 1);
  return Array.from({ length: n }, (_, k) => row.from + end + k * pitch);
}

const standingMarks = (layout: Standings, half: number): PlacedMark[] =>
  layout.at.map(({ at, ruled = at }) => ({ at, nominal: at, ruled, half }));

function standingClash(stage: LineStage, clearances: Clearances): readonly [Standing, Standing] | undefined {
  const all: Standing[] = [
    ...stage.standing,
    ...stage.rows.flatMap((row) =>
      row.layout.is === 'standing'
        ? row.layout.at.map(({ at }) => ({ at, kind: row.kind, face: row.face, half: row.half }))
        : [],
    ),
  ];
  for (let i = 0; i < all.length; i++)
    for (let j = Math.max(i + 1, stage.standing.length); j < all.length; j++)
      if (Math.abs(all[i]!.at - all[j]!.at) < clearances.apart(all[i]!, all[j]!) - 1e-7)
        return [all[i]!, all[j]!];
  return undefined;
}

function nominal(stage: LineStage): PlacedRow[] {
  return stage.rows.map((row): PlacedRow => {
    const { layout, half } = row;
    if (layout.is === 'standing') return { row, added: 0, marks: standingMarks(layout, half) };
    const marks =
      layout.is === 'spaced' || layout.is === 'beside'
        ? ruledAt(row, stage, NO_MORE).map((at) => ({ at, nominal: at, ruled: at, half }))
        : layout.at.map(({ at, ruled = at, half: own = half }) => ({ at, nominal: at, ruled, half: own }));
    return { row, added: 0, marks };
  });
}

/**
 * Rules that cannot all hold: each is set aside in turn and stays so while the rest still conflict. What is left conflicts,
 * and would not without any one of them.
 */
function blame(stage: LineStage, among: readonly Row[], spaced: readonly Row[]): string[] {
  const free: Attempt = { more: new Map(), endsFree: new Set(spaced) };
  const conflict = (ease: Ease, list: readonly Clearance[]): boolean => {
    const tried = attempt(stage, free, ease, new Clearances(list), BLAME);
    return !tried.ok && tried.proven;
  };
  const kinds = new Set([...stage.rows, ...stage.standing].map(({ kind }) => kind));
  let list = stage.clearances.list.filter(({ between }) => between.every((kind) => kinds.has(kind)));
  let ease: Ease = {};
  for (const rule of ['part', 'ends', 'pitch'] as const)
    if (conflict({ ...ease, [rule]: true }, list)) ease = { ...ease, [rule]: true };
  for (const clearance of list) {
    const rest = list.filter((each) => each !== clearance);
    if (conflict(ease, rest)) list = rest;
  }
  return unique([
    ...list.map(({ says }) => says),
    ...(ease.pitch
      ? []
      : spaced.map(({ kind, layout }) =>
          windowSays('rule-pitch', { mark: kind, pitch: String((layout as Spaced).pitch) }),
        )),
    ...(ease.ends ? [] : among.map(({ kind }) => windowSays('rule-ends', { mark: kind }))),
    ...(ease.part ? [] : [windowSays('rule-part')]),
  ]);
}

const unique = (texts: readonly string[]): string[] => [...new Set(texts)];
