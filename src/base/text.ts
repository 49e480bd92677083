/**
 * Text that came from a file, a scanner or a person, made safe to show: nothing in it can drive a terminal or reorder
 * what stands beside it. Documents escape for their own format on top of this.
 */

// C0 and C1 controls, DEL, and the Unicode characters that change direction or hide (bidi controls and isolates,
// zero-width characters, line and paragraph separators, the byte order mark, tags).
const UNSAFE =
  /[\u0000-\u001f\u007f-\u009f\u00ad\u061c\u180e\u200b-\u200f\u2028-\u202f\u2060-\u206f\ufeff\ufff9-\ufffb\u{e0000}-\u{e007f}]/gu;
/** Most texts hold nothing but these, which is seen at a glance. */
const ORDINARY = /^[\x20-\x7e]*$/;
const LONE_SURROGATE = /[\ud800-\udfff]/gu;

/** Every unsafe character becomes U+FFFD, so that a reader sees that something stood there. Tabs and line ends become one space. */
export function sanitize(text: string): string {
  if (ORDINARY.test(text)) return text;
  return text
    .replace(/[\t\r\n]+/g, ' ')
    .replace(UNSAFE, '\ufffd')
    .replace(LONE_SURROGATE, '\ufffd');
}

/** Whether the text may stand in a workshop file as a name, mark or note: it is shown as it is written. */
export function isPlain(text: string): boolean {
  return sanitize(text) === text;
}

/** A name by which files refer to one another: letters, digits, point, dash, underscore, at most 60 of them. */
export const NAME = /^[A-Za-z0-9][A-Za-z0-9._-]*$/;
export const LONGEST_NAME = 60;

/** Two points would be a way out of a folder. */
export const isPathTraversal = (text: string): boolean => text.includes('..');

export const isName = (text: string): boolean =>
  text.length <= LONGEST_NAME && NAME.test(text) && !isPathTraversal(text);
