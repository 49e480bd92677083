/**
 * Makes text from a file, scanner or person safe to show: it cannot drive a terminal or reorder its surroundings.
 * Documents also escape for their own format.
 */
import type { Spoken } from './words.js';

// C0 and C1 controls, DEL, and Unicode characters that change direction or are invisible (bidi controls and isolates,
// zero-width characters, line and paragraph separators, byte order mark, tags).
const UNSAFE =
  /[\u0000-\u001f\u007f-\u009f\u00ad\u061c\u180e\u200b-\u200f\u2028-\u202f\u2060-\u206f\ufeff\ufff9-\ufffb\u{e0000}-\u{e007f}]/gu;
/** Fast path: most texts contain only these. */
const ORDINARY = /^[\x20-\x7e]*$/;
const LONE_SURROGATE = /[\ud800-\udfff]/gu;

/** Replaces unsafe characters with U+FFFD, so the gap is visible. A run of tabs and line breaks becomes one space. */
export function sanitize(text: string): Spoken {
  if (ORDINARY.test(text)) return text as Spoken;
  return text
    .replace(/[\t\r\n]+/g, ' ')
    .replace(UNSAFE, '\ufffd')
    .replace(LONE_SURROGATE, '\ufffd') as Spoken;
}

/** Whether the text may be used in a workshop file as a name, mark or note, to be shown exactly as written. */
export function isPlain(text: string): boolean {
  return sanitize(text) === text;
}

/** A name that files use to refer to one another: letters, digits, dot, dash, underscore, at most 60 characters. */
export const NAME = /^[A-Za-z0-9][A-Za-z0-9._-]*$/;
export const LONGEST_NAME = 60;

/** Two dots could escape from a folder. */
export const isPathTraversal = (text: string): boolean => text.includes('..');

export const isName = (text: string): boolean =>
  text.length <= LONGEST_NAME && NAME.test(text) && !isPathTraversal(text);
