/** Finds the line and column of a character inside a YAML text, past its quotes and over its line breaks. */
import { lazyPlace, type Place } from '../ground/problem.js';
import type { SourceText } from '../ground/sourcetext.js';

/**
 * `place` is where the YAML scalar begins, `value` its text as read, `index` a character of it. Exact unless the
 * text holds escapes; then the place of the scalar's nearest matching character is given.
 */
export function placer({ text }: SourceText): (place: Place, value: string, index: number) => Place {
  const starts = [0];
  for (let i = 0; i < text.length; i++) if (text[i] === '\n') starts.push(i + 1);
  return (place, value, index) => lazyPlace(place.file, () => find(place, value, index));

  function find(place: Place, value: string, index: number): Place {
    if (place.line === undefined || place.column === undefined) return place;
    let at = (starts[place.line - 1] ?? 0) + place.column - 1;
    if (text[at] === '|' || text[at] === '>') at = lineEnd(text, at);
    // Walk both texts together: white space of the file that the reading folded away is stepped over.
    let i = 0;
    if (text[at] === '"' || text[at] === "'") at++;
    for (; i < index; i++, at++) {
      if (isSpace(value[i])) {
        while (isSpace(text[at + 1])) at++;
      } else {
        while (at < text.length && text[at] !== value[i] && isSpace(text[at])) at++;
        if (text[at] !== value[i]) return place;
      }
    }
    while (isSpace(text[at])) at++;
    return placeAt(place, starts, at);
  }
}

const isSpace = (c: string | undefined): boolean => c === ' ' || c === '\n' || c === '\r' || c === '\t';

function lineEnd(text: string, at: number): number {
  const end = text.indexOf('\n', at);
  return end < 0 ? text.length : end + 1;
}

function placeAt(place: Place, starts: readonly number[], at: number): Place {
  let line = place.line!;
  while (line < starts.length && starts[line]! <= at) line++;
  return { file: place.file, line, column: at - starts[line - 1]! + 1 };
}
