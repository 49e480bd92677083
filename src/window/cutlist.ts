/** Cut list: what the saw needs, grouped by profile, longest first; and the marks of every part. */
import { stringify } from 'csv-stringify/sync';
import { sanitize } from '../base/text.js';
import type { Part, SetOut } from './types.js';

export interface CutRow {
  readonly unit: string;
  readonly part: string;
  readonly role: string;
  readonly says: string;
  readonly kind: Part['kind'];
  readonly profile: string;
  /** To 0.1 mm; to the long point if mitred. */
  readonly length: number;
  readonly measured: 'long point' | 'square' | 'run';
  readonly ends: readonly [number, number];
  readonly quantity: number;
  readonly datum: string;
  readonly label: string;
}

export interface MarkRow {
  readonly unit: string;
  readonly part: string;
  readonly profile: string;
  readonly length: number;
  readonly datum: string;
  readonly kind: string;
  readonly at: number;
  readonly side: string;
  readonly item: string;
  readonly moved_from: number | null;
  readonly reason: string;
}

/** Bars and beads by profile and length, then gaskets. */
export function cutList(setOuts: readonly SetOut[]): CutRow[] {
  const rows = setOuts.flatMap(({ unit, parts }) =>
    parts.map((part): CutRow => {
      const mitred = part.ends.some((angle) => angle !== 90);
      return {
        unit: unit.id,
        part: part.id,
        role: part.role,
        says: part.says,
        kind: part.kind,
        profile: part.profile,
        length: tenth(part.length),
        measured: part.kind === 'gasket' ? 'run' : mitred ? 'long point' : 'square',
        ends: part.ends,
        quantity: part.quantity,
        datum: part.datum,
        label: part.label,
      };
    }),
  );
  const order = { bar: 0, bead: 1, gasket: 2 } as const;
  return rows.sort(
    (a, b) =>
      order[a.kind] - order[b.kind] ||
      compare(a.profile, b.profile) ||
      b.length - a.length ||
      compare(a.unit, b.unit) ||
      compare(a.part, b.part),
  );
}

export function markList(setOuts: readonly SetOut[]): MarkRow[] {
  return setOuts.flatMap(({ unit, parts }) =>
    parts.flatMap((part) =>
      part.marks.map(
        (mark): MarkRow => ({
          unit: unit.id,
          part: part.id,
          profile: part.profile,
          length: tenth(part.length),
          datum: part.datum,
          kind: mark.kind,
          at: tenth(mark.at),
          side: mark.side,
          item: mark.item,
          moved_from: mark.moved_from === null ? null : tenth(mark.moved_from),
          reason: mark.reason ?? '',
        }),
      ),
    ),
  );
}

export const cutCsv = (setOuts: readonly SetOut[]): string =>
  table(
    cutList(setOuts).map(({ ends: [left, right], ...row }) => ({
      ...row,
      length: row.length.toFixed(1),
      end_1: left,
      end_2: right,
    })),
  );
export const markCsv = (setOuts: readonly SetOut[]): string =>
  table(markList(setOuts).map((row) => ({ ...row })));

/** Cells that a spreadsheet would evaluate as a formula get a leading quote. */
const table = (rows: readonly Record<string, unknown>[]): string =>
  stringify(rows as Record<string, unknown>[], {
    header: true,
    escape_formulas: true,
    record_delimiter: 'windows',
    cast: { number: (value) => String(value), string: (value) => sanitize(value) },
  }).trimEnd();

const tenth = (value: number): number => Math.round((value + Number.EPSILON) * 10) / 10;
const compare = (a: string, b: string): number => a.localeCompare(b, 'en', { numeric: true });
