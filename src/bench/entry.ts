/** What stands on the entry line: a scan of something known, a number, or words. Case does not matter in codes. */
import type { Person } from '../build/workshop.js';
import type { Instrument } from '../measure/types.js';
import type { World } from './ports.js';

export type Entry =
  | { readonly kind: 'unit'; readonly unit: string }
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
  const unit = unitOf(code, world);
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
  return /^[+-]?(?=[\d.,/ ]*\d)[\d.,/ ]+("|in|mm|cm|m|kg|n|c|deg|min)?$/i.test(text.trim());
}

/** A unit's id; a job's and a unit's id with a slash; or a mark of which there is one unit only. */
function unitOf(code: string, world: World): string | undefined {
  const exact = world.board.find(({ unit, job }) =>
    [unit, `${job}/${unit}`].some((id) => id.toLowerCase() === code),
  );
  if (exact) return exact.unit;
  const ofMark = world.board.filter(({ unit }) => unit.toLowerCase().replace(/-\d+$/, '') === code);
  return ofMark.length === 1 ? ofMark[0]!.unit : undefined;
}

/** `J.B.` and `jb` are the same initials. */
const bare = (initials: string): string => initials.toLowerCase().replaceAll('.', '');
