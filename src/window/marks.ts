/** Marks of every part: places rows part by part, resolves clashes, and explains each shift. */
import { mmText } from '../base/formula.js';
import { type Problem, problemFactory } from '../base/problem.js';
import { type LineResult, type PlacedMark, type PlacedRow, placeLine } from './clash/line.js';
import type { Clearances, Standing } from './clash/model.js';
import type { BesideLayout, OwnLayout, Row } from './features.js';
import { WINDOW_MESSAGES } from './messages.js';
import type { Numbers } from './numbers.js';
import { PACKER } from './packers.js';
import type { DraftPart } from './parts.js';
import { PART_END, type ProfileSet } from './profileset.js';
import type { Mark } from './types.js';
import { windowSays } from './words.js';

const raise = problemFactory(WINDOW_MESSAGES);

export interface PlacedMarks {
  /** By part id, in order along the part. */
  readonly byPart: ReadonlyMap<string, readonly Mark[]>;
  /** Placed rows by id, positions from the window's outer edge. */
  readonly rows: ReadonlyMap<string, PlacedRow>;
  /** Why a packer lies elsewhere than by its rule, by the id of its row. */
  readonly packers: ReadonlyMap<string, string>;
  readonly problems: readonly Problem[];
  readonly warnings: readonly Problem[];
}

export function placeMarks(
  set: ProfileSet,
  numbers: Numbers,
  rows: readonly Row[],
  clearances: Clearances,
  tie: 1 | -1,
): PlacedMarks {
  const placed = new Map<string, PlacedRow>();
  const problems: Problem[] = [];
  const warnings: Problem[] = [];
  const byPart = new Map<string, Mark[]>();
  const packers = new Map<string, string>();

  const { lines, follows } = rowOrder(rows);
  const hasPlace = new Set<Row>();
  const isReady = (row: Row): boolean => {
    const other = follows.get(row);
    if (hasPlace.has(row)) return false;
    return other === undefined || hasPlace.has(other) || (isTogether(row, other) && isReady(other));
  };
  const left = new Map(lines.map((line) => [line, [] as PlacedRow[]]));
  // One pass over the lines places everything, unless two parts follow each other.
  while (left.size > 0)
    for (const [line, done] of left) {
      for (let ready = line.rows.filter(isReady); ready.length > 0; ready = line.rows.filter(isReady)) {
        placeStage(line.part, ready, done);
        for (const row of ready) hasPlace.add(row);
      }
      if (done.length < line.rows.length) continue;
      byPart.set(line.part.id, write(line.part, done));
      left.delete(line);
    }
  return { byPart, rows: placed, packers, problems, warnings };

  function placeStage(part: DraftPart, ready: readonly Row[], done: PlacedRow[]): void {
    const result = placeLine({
      rows: ready.map((row) => resolve(row, ready, placed, tie)),
      standing: [
        { at: part.origin, half: 0, kind: PART_END, face: 0 },
        { at: part.origin + part.length, half: 0, kind: PART_END, face: 0 },
        ...done.flatMap(({ row, marks }) =>
          marks.map(({ at, half }): Standing => ({ at, half, kind: row.kind, face: row.face })),
        ),
      ],
      partStart: part.origin,
      partLength: part.length,
      clearances,
      tie: part.axis === 'x' ? tie : 1,
    });
    report(result, part);
    for (const made of result.rows) {
      const { layout } = made.row;
      const lead = 'follows' in layout && layout.follows ? placed.get(layout.follows) : undefined;
      const row = lead ? { ...made, added: lead.added } : made;
      placed.set(row.row.id, row);
      done.push(row);
    }
  }

  function report({ stuck, proven }: LineResult, part: DraftPart): void {
    if (stuck)
      problems.push(
        raise('setout.clash', {
          part: part.id,
          says: part.says,
          count: mmText(part.length),
          stuck: stuck.join('; '),
        }),
      );
    if (!proven)
      warnings.push(raise(stuck ? 'setout.clash-unproven/none' : 'setout.clash-unproven', { part: part.id }));
  }

  function write(part: DraftPart, done: readonly PlacedRow[]): Mark[] {
    const all: { readonly row: PlacedRow; readonly i: number; readonly mark: Mark }[] = [];
    const counts = new Map<string, number>();
    let everything: { readonly row: Row; readonly mark: PlacedMark }[] | undefined;
    for (const row of done) {
      row.marks.forEach((mark, i) => {
        const at = tidy(mark.at - part.origin);
        const nominal = tidy(mark.ruled - part.origin);
        const moved = Math.abs(mark.at - mark.ruled) > 1e-9;
        let reason: string | null = null;
        if (moved || row.added > 0) {
          everything ??= done.flatMap((each) => each.marks.map((one) => ({ row: each.row, mark: one })));
          // A packer is laid from the corner of the glass, a mark is marked from the end of its part.
          const datum = row.row.kind === PACKER ? row.row.from : part.origin;
          reason = reasonOf(row, mark, everything, clearances, part, datum, set.titleOf);
        }
        const { kind, side, item } = row.row;
        // Packers are no marks: they have a list of their own.
        if (kind === PACKER) {
          if (reason !== null) packers.set(row.row.id, reason);
          return;
        }
        all.push({ row, i, mark: { kind, at, moved_from: moved ? nominal : null, reason, side, item } });
        if (at < -1e-6 || at > part.length + 1e-6)
          problems.push(
            raise('setout.off-part/does', {
              set: set.titleOf(row.row.kind),
              at: mmText(at),
              part: part.id,
              says: part.says,
              count: mmText(part.length),
            }),
          );
      });
    }
    all.sort((a, b) => a.mark.at - b.mark.at);
    const again = all.find(({ row, mark }, i) =>
      all.slice(0, i).some((other) => other.row === row && Math.abs(other.mark.at - mark.at) < 1e-6),
    );
    if (again)
      problems.push(
        raise('setout.same-place', {
          part: part.id,
          mark: set.titleOf(again.mark.kind),
          at: mmText(again.mark.at),
        }),
      );
    return all.map(({ row, i, mark }) => {
      const n = (counts.get(mark.kind) ?? 0) + 1;
      counts.set(mark.kind, n);
      const name = `mark.${part.id}.${mark.kind}.${n}`;
      if (numbers.recording) trace(name, part, row, i, mark);
      return { ...mark, name };
    });
  }

  function trace(name: string, part: DraftPart, placedRow: PlacedRow, i: number, mark: Mark): void {
    const { row, added } = placedRow;
    const datum = `datum.${part.id}`;
    const ruled = mark.moved_from ?? mark.at;
    const byRule = `${name}.by_rule`;
    if (mark.moved_from === null) numbers.made(name, mark.at, 'mm', ruleSum());
    else {
      numbers.made(byRule, ruled, 'mm', ruleSum());
      const shift = mark.at - mark.moved_from;
      numbers.made(
        name,
        mark.at,
        'mm',
        shift < 0 ? numbers.sum`${byRule} - ${-shift}` : numbers.sum`${byRule} + ${shift}`,
        mark.reason ?? '',
      );
    }

    function asideOf(lead: string) {
      const neighbour = placed.get(lead)!.marks[i]!.ruled;
      return written(neighbour, tidy(placedRow.marks[i]!.ruled - neighbour));
    }

    function ruleSum() {
      const { layout } = row;
      if (layout.is === 'spaced') {
        const n = layout.count + added;
        if (n === 1) return numbers.sum`${layout.fromName} - ${datum} + ${layout.lengthName} / 2`;
        return numbers.sum`${layout.fromName} - ${datum} + ${layout.end} + ${i} * (${layout.lengthName} - 2 * ${layout.end}) / ${n - 1}`;
      }
      const { formula, filled, of } = layout.is === 'beside' ? asideOf(layout.row) : layout.at[i]!.why();
      const less = numbers.sum` - ${datum}`();
      return () => ({
        formula: formula + less.formula,
        filled: filled + less.filled,
        of: [...of, ...less.of],
      });
    }
  }
}

/** Whether a row is settled in one go with the row it follows: beside it, on one part. */
const isTogether = (row: Row, other: Row): boolean => row.layout.is === 'beside' && row.part === other.part;

/** Gives a row that follows one on another part its positions. */
function resolve(
  row: Row,
  ready: readonly Row[],
  placed: ReadonlyMap<string, PlacedRow>,
  tie: 1 | -1,
): Row<OwnLayout | BesideLayout> {
  const { layout } = row;
  if (layout.is !== 'beside' && layout.is !== 'same') return { ...row, layout };
  if (layout.is === 'beside' && ready.some((other) => other.id === layout.row && isTogether(row, other)))
    return { ...row, layout };
  // A row belonging to another kind of light, or left out by this light's formulas, has nothing to follow.
  const marks: readonly PlacedMark[] = placed.get(layout.row)?.marks ?? [];
  if (layout.is === 'same')
    return {
      ...row,
      layout: {
        is: 'standing',
        at: marks.map(({ at, ruled }) => ({ at, ruled, why: () => written(ruled) })),
        follows: layout.row,
      },
    };
  const middle = row.from + row.length / 2;
  return {
    ...row,
    layout: {
      is: 'free',
      follows: layout.row,
      at: marks.map(({ at, ruled }) => {
        // Towards the middle of the light; one exactly in the middle goes to the side the shop chose. A slot that
        // moved keeps its neighbour on the side that the rule gave it.
        const way = Math.abs(ruled - middle) < 1e-6 ? tie : ruled < middle ? 1 : -1;
        const [low, high] = layout.range ?? [layout.by, layout.by];
        const position = at + way * layout.by;
        const [a, b] = [at + way * low, at + way * high];
        return {
          at: position,
          low: Math.min(a, b),
          high: Math.max(a, b),
          ruled: ruled + way * layout.by,
          why: () => written(ruled, way * layout.by),
        };
      }),
    },
  };
}

const written = (at: number, by?: number) => {
  const text = by === undefined ? `${at}` : `${at} ${by < 0 ? '-' : '+'} ${Math.abs(by)}`;
  return { formula: text, filled: text, of: [] };
};

/** Rounded to a millionth, so that decimal sums read exactly. */
const tidy = (value: number): number => Math.round(value * 1e6) / 1e6;

interface Other {
  readonly row: Row;
  readonly mark: PlacedMark;
}

/** "moved 20 up: gearbox centre at 544.5", for a moved mark or a row with more marks than its rule's count. */
function reasonOf(
  placed: PlacedRow,
  mark: PlacedMark,
  all: readonly Other[],
  clearances: Clearances,
  part: DraftPart,
  datum: number,
  title: (kind: string) => string,
): string {
  const { row, added } = placed;
  const shift = mark.at - mark.ruled;
  const led = mark.nominal - mark.ruled;
  const lead = 'follows' in row.layout && row.layout.follows ? row.layout.follows.split('/')[1]! : undefined;
  const parts: string[] = [];
  if (added > 0)
    parts.push(
      lead === undefined
        ? windowSays('added', { n: String(added) })
        : windowSays('added-for', { n: String(added), mark: title(lead) }),
    );
  if (Math.abs(shift) > 1e-9) {
    const way = part.axis === 'x' ? (shift > 0 ? 'right' : 'left') : shift > 0 ? 'up' : 'down';
    const causes = [
      ...(Math.abs(led) > 1e-9 ? [followed()] : []),
      ...(Math.abs(mark.at - mark.nominal) > 1e-9 ? [cause()] : []),
    ];
    const [first = '', second] = causes;
    const why = second === undefined ? first : windowSays('moved-then', { first, second });
    parts.push(windowSays(`moved-${way}`, { by: mmText(Math.abs(shift)), why }));
  }
  return parts.join('; ');

  /** `the inner drain slot on the bottom`: what moved first. */
  function followed(): string {
    return windowSays(row.layout.is === 'standing' ? 'follows-behind' : 'follows-beside', {
      mark: title(lead!),
    });
  }

  function cause(): string {
    const here = { kind: row.kind, face: row.face, half: mark.half };
    const meets = (other: Other, at: number): number =>
      clearances.apart(here, { kind: other.row.kind, face: other.row.face, half: other.mark.half }) -
      Math.abs(at - mark.nominal);
    let worst: { text: string; by: number } | undefined;
    for (const other of all) {
      if (other.mark === mark) continue;
      for (const at of [other.mark.at, other.mark.nominal]) {
        const by = meets(other, at);
        if (by > 1e-7 && (!worst || by > worst.by + 1e-9))
          worst = {
            by,
            text: windowSays('meets', { mark: title(other.row.kind), at: mmText(at - datum) }),
          };
      }
    }
    if (worst) return worst.text;
    const [low, high] = [mark.nominal - mark.half, mark.nominal + mark.half];
    const isOnPart = low >= part.origin - 1e-7 && high <= part.origin + part.length + 1e-7;
    if (row.layout.is === 'beside')
      return windowSays('keeps-distance', { mark: title(row.layout.row.split('/')[1]!) });
    if (isOnPart && row.layout.is === 'spaced')
      return windowSays('keeps-pitch', { pitch: mmText(row.layout.pitch) });
    return windowSays('keeps-part');
  }
}

// Placement order: a row comes after the row it follows, part by part as far as possible.

interface Line {
  readonly part: DraftPart;
  readonly rows: readonly Row[];
}

interface RowOrder {
  /** Each line after those its rows follow, unless two lines follow each other. */
  readonly lines: readonly Line[];
  /** The row that a row follows. A profile set names only earlier rows, so there are no cycles. */
  readonly follows: ReadonlyMap<Row, Row>;
}

function rowOrder(rows: readonly Row[]): RowOrder {
  const lines = new Map<DraftPart, Line & { readonly rows: Row[]; readonly after: Set<DraftPart> }>();
  const byId = new Map<string, Row>();
  const follows = new Map<Row, Row>();
  for (const row of rows) {
    const line = lines.get(row.part) ?? { part: row.part, rows: [], after: new Set() };
    lines.set(row.part, line);
    line.rows.push(row);
    const { layout } = row;
    const other = layout.is === 'beside' || layout.is === 'same' ? byId.get(layout.row) : undefined;
    if (other) {
      follows.set(row, other);
      line.after.add(other.part);
    }
    byId.set(row.id, row);
  }
  const out: Line[] = [];
  const seen = new Set<DraftPart>();
  const visit = (part: DraftPart): void => {
    const line = lines.get(part);
    if (!line || seen.has(part)) return;
    seen.add(part);
    for (const other of line.after) visit(other);
    out.push(line);
  };
  for (const part of lines.keys()) visit(part);
  return { lines: out, follows };
}
