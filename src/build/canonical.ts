/**
 * Whether a JSON text is the RFC 8785 canonical form of what it says. Every line of every journal is asked, and making
 * the form anew to compare would take longer than all the rest of a line's check.
 *
 * So its length is worked out instead. Where a text has no backslash, each part of it (a blank, a member given twice, a
 * number) can only be spelled as long as in the canonical form or longer; if the whole is as long, every part is, and
 * is that form. Only a number can be another and no longer: with an exponent where that saves noughts, or with more
 * digits than a double holds. With such a number in it the form is made after all, by the engine.
 */
import canonicalize from 'canonicalize';

/** RFC 8785 canonical JSON. Throws a TypeError on what JSON cannot hold: NaN, infinities, lone surrogates, functions, cycles. */
export function canonicalText(value: unknown): string {
  let text: string | undefined;
  try {
    text = canonicalize(value);
  } catch (error) {
    throw new TypeError((error as Error).message);
  }
  if (text === undefined) throw new TypeError('the value has no JSON form');
  return text;
}

/** @param value what `text` parses to. Total. */
export function isCanonical(text: string, value: unknown): boolean {
  try {
    const seen = { special: false };
    if (!text.includes('\\') && lengthOf(value, seen) === text.length)
      return !seen.special || JSON.stringify(value) === text;
    return canonicalText(value) === text;
  } catch {
    return false;
  }
}

/** Length of the canonical form of a parsed value without escapes; NaN where members are not sorted, or not surely. */
function lengthOf(value: unknown, seen: { special: boolean }): number {
  if (typeof value === 'string') return value.length + 2;
  if (typeof value === 'number') {
    const { length } = String(value);
    if (length > 15 || (value !== 0 && (value % 100 === 0 || Math.abs(value) < 0.1))) seen.special = true;
    return length;
  }
  if (value === null || value === true) return 4;
  if (value === false) return 5;
  let length = 1;
  if (Array.isArray(value)) {
    for (let i = 0; i < value.length; i++) length += lengthOf(value[i], seen) + 1;
    return length === 1 ? 2 : length;
  }
  const members = value as Record<string, unknown>;
  let before = '';
  for (const name in members) {
    // Also where a name is "", or looks like a number, which an object does not keep in its place.
    if (name <= before) return Number.NaN;
    before = name;
    length += name.length + 4 + lengthOf(members[name], seen);
  }
  return length === 1 ? 2 : length;
}
