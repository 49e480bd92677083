/** What stands on the entry line: a scan of something known, a number, or words. Case does not matter in codes. */
import type { Instrument } from '../measure/types.js';
import { readUnitCode } from '../record/codes.js';
import type { BoardEntry, World } from '../session/ports.js';
import type { Person } from '../unit/types.js';

export type Entry =
  | { readonly kind: 'unit'; readonly unit: string }
  /** A label's code in which a sign was read or typed wrongly. */
  | { readonly kind: 'wrong-check'; readonly text: string }
  | { readonly kind: 'person'; readonly person: Person }
  | { readonly kind: 'instrument'; readonly instrument: Instrument }
  | { readonly kind: 'number'; readonly text: string }
  | { readonly kind: 'words'; readonly text: string };

/**
 * A code that the workshop knows is that thing wherever it is scanned. Digits alone (with a point, a comma, a fraction, a
 * unit) are a number and never a code, so that a reading can not be taken for somebody's badge.
 */
export function readEntry(raw: string, world: World): Entry {
  const text = raw.trim();
  if (looksNumeric(text)) return { kind: 'number', text };
  const code = text.toLowerCase();
  const label = readUnitCode(text);
  if (label.kind === 'wrong-check') return { kind: 'wrong-check', text };
  const unit = unitOf(label.kind === 'unit' ? `${label.job}/${label.unit}`.toLowerCase() : code, world);
  if (unit !== undefined) return { kind: 'unit', unit };
  const person = world.rules.people.find(
    ({ id, initials }) => id.toLowerCase() === code || bare(initials) === bare(code),
  );
  if (person) return { kind: 'person', person };
  const instrument = world.instruments.find(({ id }) => id.toLowerCase() === code);
  if (instrument) return { kind: 'instrument', instrument };
  return { kind: 'words', text };
}

export function looksNumeric(text: string): boolean {
  const typed = text.trim();
  // 39-3/8: inches and a fraction, as they are written on drawings.
  if (/^[+-]?\d{1,4}-\d{1,2}\/\d{1,2} *("|in)?$/i.test(typed)) return true;
  return /^[+-]?(?=[\d.,/ ]*\d)[\d.,/ ]+("|in|mm|cm|m|kg|n|c|deg|min)?$/i.test(typed);
}

/**
 * JOB/UNIT of a unit's id, of a job's and a unit's with a slash, or of a mark of which there is one unit only. An id that
 * several jobs have means the one of the job that is on the bench.
 */
function unitOf(code: string, world: World): string | undefined {
  const index = indexOf(world.board);
  const found = index.get(code) ?? [];
  const own = found.filter(({ job }) => job === world.open?.job);
  const row = found.length === 1 ? found[0] : own.length === 1 ? own[0] : undefined;
  return row && `${row.job}/${row.unit}`;
}

const indexes = new WeakMap<readonly BoardEntry[], ReadonlyMap<string, readonly BoardEntry[]>>();

/** Codes to rows: ids, and marks without a number. Made once a board, since a board may have thousands of units. */
function indexOf(board: readonly BoardEntry[]): ReadonlyMap<string, readonly BoardEntry[]> {
  const kept = indexes.get(board);
  if (kept) return kept;
  const index = new Map<string, BoardEntry[]>();
  const add = (code: string, row: BoardEntry): void => {
    const rows = index.get(code);
    if (rows) rows.push(row);
    else index.set(code, [row]);
  };
  for (const row of board) {
    const id = row.unit.toLowerCase();
    add(id, row);
    add(`${row.job.toLowerCase()}/${id}`, row);
    const mark = id.replace(/-\d+$/, '');
    if (mark !== id) add(mark, row);
  }
  indexes.set(board, index);
  return index;
}

/** `J.B.` and `jb` are the same initials. */
const bare = (initials: string): string => initials.toLowerCase().replaceAll('.', '');
