/** `lint --words`: how far the program's own words are translated, and reviewed by somebody who works in the language. */
import type { Catalogue, Message, Translations } from '../base/words.js';
import { sha256 } from '../unit/chain.js';
import { commandWords } from './catalogue.js';

export interface WordsCount {
  readonly room: string;
  readonly texts: number;
  readonly missing: readonly string[];
  readonly unreviewed: readonly string[];
  /** Reviewed beside another text of the original. */
  readonly changed: readonly string[];
}

/** What a review names of the original. */
const textPrint = (original: string): string => sha256(original).slice(0, 8);

export function countWords(
  rooms: readonly { readonly room: string; readonly catalogue: Catalogue }[],
  texts: Translations,
): readonly WordsCount[] {
  return rooms.map(({ room, catalogue }) => {
    const ids = Object.keys(catalogue);
    const there = ids.filter((id) => texts[id] !== undefined);
    const reviewed = there.filter((id) => typeof texts[id] !== 'string');
    return {
      room,
      texts: ids.length,
      missing: ids.filter((id) => texts[id] === undefined),
      unreviewed: there.filter((id) => typeof texts[id] === 'string'),
      changed: reviewed.filter((id) => {
        const [, , of] = texts[id] as readonly [string, string, string?];
        return of !== undefined && of !== textPrint(catalogue[id]!.text);
      }),
    };
  });
}

export const countMessage = ({ room, texts, missing, unreviewed, changed }: WordsCount): Message =>
  commandWords('words-room', {
    room: room.padEnd(10),
    texts: String(texts).padStart(4),
    missing: String(missing.length).padStart(4),
    unreviewed: String(unreviewed.length).padStart(4),
    changed: String(changed.length).padStart(4),
  });
