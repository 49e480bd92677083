/** Classifies the entry line: a known code, a number, or words. Codes are case-insensitive. */
import { findInstrument } from '../measure/instruments.js';
import type { Instrument } from '../measure/types.js';
import { type CodeLetter, readPrefix, readUnitCode } from '../record/codes.js';
import type { BoardEntry, World } from '../session/ports.js';
import type { Person } from '../unit/types.js';

export type EntryRead =
  | { readonly kind: 'unit'; readonly unit: string }
  | { readonly kind: 'wrong-check'; readonly text: string }
  | { readonly kind: 'person'; readonly person: Person }
  | { readonly kind: 'instrument'; readonly instrument: Instrument }
  | { readonly kind: 'setup'; readonly setup: string }
  /** A code of several things: none is taken. */
  | {
      readonly kind: 'several';
      readonly text: string;
      readonly letters: readonly CodeLetter[];
      readonly codes: readonly string[];
    }
  | { readonly kind: 'number'; readonly text: string }
  | { readonly kind: 'words'; readonly text: string };

type Known = Extract<EntryRead, { readonly kind: 'unit' | 'person' | 'instrument' | 'setup' }>;

/**
 * Codes are recognised on every screen. Digits alone (with a point, comma, fraction or unit) are always a number, so
 * that a reading cannot be taken for somebody's badge. A code may say what it is by a letter before a point, as printed
 * codes do; one that two things share is taken only with its letter.
 */
export function readEntry(raw: string, world: World): EntryRead {
  const text = raw.trim();
  if (looksNumeric(text)) return { kind: 'number', text };
  const label = readUnitCode(text);
  if (label.kind === 'wrong-check') return { kind: 'wrong-check', text };
  const { letter, code } = readPrefix(text);
  const asked = label.kind === 'unit' ? `${label.job}/${label.unit}` : code;
  const known = (Object.keys(FINDS) as CodeLetter[]).flatMap((each) => {
    if (letter !== undefined && letter !== each) return [];
    if (each === 'S' && letter !== 'S') return [];
    const found = FINDS[each]?.(asked, world);
    return found ? [{ letter: each, found }] : [];
  });
  if (known.length === 1) return known[0]!.found;
  // With its letter, a lot's code is the text of its check.
  if (known.length === 0) return { kind: 'words', text: letter === 'L' ? code : text };
  return {
    kind: 'several',
    text,
    letters: known.map((each) => each.letter),
    codes: known.map((each) => `${each.letter}.${code}`),
  };
}

const FINDS: Readonly<Partial<Record<CodeLetter, (code: string, world: World) => Known | undefined>>> = {
  U(code, world) {
    const unit = unitOf(code.toLowerCase(), world);
    return unit === undefined ? undefined : { kind: 'unit', unit };
  },
  P(code, world) {
    const person = world.rules.people.find(
      ({ id, initials }) => id.toLowerCase() === code.toLowerCase() || bare(initials) === bare(code),
    );
    return person && { kind: 'person', person };
  },
  I(code, world) {
    const instrument = findInstrument(world.instruments, code);
    return instrument && { kind: 'instrument', instrument };
  },
  S(code, world) {
    // Only with its letter: "saw" is also a word that somebody types.
    const setup = code.toLowerCase();
    const row = world.more?.setups().find(({ standing }) => standing.rule.id.toLowerCase() === setup);
    return row && { kind: 'setup', setup: row.standing.rule.id };
  },
};

export function looksNumeric(text: string): boolean {
  const typed = text.trim();
  // 39-3/8: inches and a fraction, as written on drawings.
  if (/^[+-]?\d{1,4}-\d{1,2}\/\d{1,2} *("|in)?$/i.test(typed)) return true;
  return /^[+-]?(?=[\d.,/ ]*\d)[\d.,/ ]+("|in|mm|cm|m|kg|nm|n|c|deg|min|%|lx|pa|bar)?$/i.test(typed);
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
