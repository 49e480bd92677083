/** In which order rows get their places: a row after the row that it follows, part by part as far as that goes. */
import type { Row } from './features.js';
import type { DraftPart } from './parts.js';

/** A part with its rows. */
interface Line {
  readonly part: DraftPart;
  readonly rows: readonly Row[];
}

export interface RowOrder {
  /** A line after those whose rows its own rows follow, except where two lines follow one another. */
  readonly lines: readonly Line[];
  /** The row that a row follows. A profile set names only earlier rows, so that no row comes to follow itself. */
  readonly follows: ReadonlyMap<Row, Row>;
}

export function rowOrder(rows: readonly Row[]): RowOrder {
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
