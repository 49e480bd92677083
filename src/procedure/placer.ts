/** Places of a YAML file's values, computed only when a problem needs one. */
import { lazyPlace, type Place, type SourceText } from '../base/problem.js';

export type Path = readonly PropertyKey[];

export interface Placer {
  at(path: Path): Place;
  /** Place of a character in the text at `path`; if the text has escapes, the place of the text itself. */
  within(path: Path, value: string, index: number): Place;
}

/** `at` finds a path's place, lazily. */
export function placer({ file, text }: SourceText, at: (path: Path) => Place): Placer {
  let starts: readonly number[] | undefined;
  return {
    at,
    within: (path, value, index) =>
      lazyPlace(file, () => {
        starts ??= lineStarts(text);
        return characterPlace(text, starts, at(path), value, index);
      }),
  };
}

function lineStarts(text: string): number[] {
  const starts = [0];
  for (let i = 0; i < text.length; i++) if (text[i] === '\n') starts.push(i + 1);
  return starts;
}

/** Walks the file and the parsed text in step, skipping file whitespace that parsing folded away. */
function characterPlace(
  text: string,
  starts: readonly number[],
  place: Place,
  value: string,
  index: number,
): Place {
  if (place.line === undefined || place.column === undefined) return place;
  let at = (starts[place.line - 1] ?? 0) + place.column - 1;
  if (text[at] === '|' || text[at] === '>') at = lineEnd(text, at);
  if (text[at] === '"' || text[at] === "'") at++;
  for (let i = 0; i < index; i++, at++) {
    if (isSpace(value[i])) {
      while (isSpace(text[at + 1])) at++;
    } else {
      while (at < text.length && text[at] !== value[i] && isSpace(text[at])) at++;
      if (text[at] !== value[i]) return place;
    }
  }
  while (isSpace(text[at])) at++;
  let line = place.line;
  while (line < starts.length && starts[line]! <= at) line++;
  return { file: place.file, line, column: at - starts[line - 1]! + 1 };
}

const isSpace = (c: string | undefined): boolean => c === ' ' || c === '\n' || c === '\r' || c === '\t';

function lineEnd(text: string, at: number): number {
  const end = text.indexOf('\n', at);
  return end < 0 ? text.length : end + 1;
}
