/** Classifies the entry line: a known code, a number, or words. Codes are case-insensitive. */
import type { Instrument } from '../measure/types.js';
import { readUnitCode } from '../record/codes.js';
import type { BoardEntry, World } from '../session/ports.js';
import type { Person } from '../unit/types.js';

export type Entry =
  | { readonly kind: 'unit'; readonly unit: string }
  | { readonly kind: 'wrong-check'; readonly text: string }
  | { readonly kind: 'person'; readonly person: Person }
  | { readonly kind: 'instrument'; readonly instrument: Instrument }
  | { readonly kind: 'number'; readonly text: string }
  | { readonly kind: 'words'; readonly text: string };

/**
 * Codes are recognised on every screen. Digits alone (with a point, comma, fraction or unit) are always a number, so
 * that a reading cannot be taken for somebody's badge.
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
  // 39-3/8: inches and a fraction, as written on drawings.
  if (/^[+-]?\d{1,4}-\d{1,2}\/\d{1,2} *("|in)?$/i.test(typed)) return true;
  return /^[+-]?(?=[\d.,/ ]*\d)[\d.,/ ]+("|in|mm|cm|m|kg|n|c|deg|min)?$/i.test(typed);
}

/** A unit id, `job/unit`, or a mark only one unit has. If several jobs have the id, the open unit's job decides. */
function unitOf(code: string, world: World): string | undefined {
  const index = indexOf(world.board);
  const found = index.get(code) ?? [];
  const own = found.filter(({ job }) => job === world.open?.job);
  const row = found.length === 1 ? found[0] : own.length === 1 ? own[0] : undefined;
  return row && `${row.job}/${row.unit}`;
}

const indexes = new WeakMap<readonly BoardEntry[], ReadonlyMap<string, readonly BoardEntry[]>>();

/** Board rows by code: ids, and marks without their number. Cached per board of perhaps thousands of units. */
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

const bare = (initials: string): string => initials.toLowerCase().replaceAll('.', '');
