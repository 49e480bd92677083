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

/**
 * RFC 8785 canonical JSON. Throws a TypeError on what JSON cannot hold: NaN, infinities, lone surrogates, functions, cycles.
 *
 * The engine writes strings and numbers as the RFC wants them, so ordinary data is put in order and left to it; the
 * library, which looks at every letter, is asked in any doubt.
 */
export const canonicalText = (value: unknown): string => canonical(value).text;

/**
 * The canonical text, and what it says: the value as it will be read again. Throws as `canonicalText` does.
 *
 * @param more members that the value, a table, has besides and in place of its own
 */
export function canonical(value: unknown, more?: object): { readonly text: string; readonly value: unknown } {
  const ordinary = ordinaryForm(value, more);
  if (ordinary) return ordinary;
  let text: string | undefined;
  try {
    text = canonicalize(more ? { ...(value as object), ...more } : value);
  } catch (error) {
    throw new TypeError((error as Error).message);
  }
  if (text === undefined) throw new TypeError('the value has no JSON form');
  return { text, value: JSON.parse(text) };
}

function ordinaryForm(
  value: unknown,
  more?: object,
): { readonly text: string; readonly value: unknown } | undefined {
  try {
    const sorted = inOrder(value, more);
    const text = JSON.stringify(sorted);
    // The engine's way to write half of a surrogate pair.
    return text.includes('\\ud') ? undefined : { text, value: sorted };
  } catch {
    return undefined;
  }
}

/** A copy with sorted members. Throws on what is not surely ordinary. */
function inOrder(value: unknown, more?: object): unknown {
  if (typeof value === 'string' || typeof value === 'boolean' || value === null) return value;
  if (typeof value === 'number' && Number.isFinite(value)) return value === 0 ? 0 : value;
  if (typeof value !== 'object' || 'toJSON' in value) throw DOUBT;
  if (Array.isArray(value)) {
    const list: unknown[] = [];
    for (let i = 0; i < value.length; i++) list.push(value[i] === undefined ? null : inOrder(value[i]));
    return list;
  }
  const names = Object.keys(value);
  if (more) for (const name in more) names.push(name);
  const sorted: Record<string, unknown> = {};
  for (const name of names.sort()) {
    const members = (more && Object.hasOwn(more, name) ? more : value) as Readonly<Record<string, unknown>>;
    // An object keeps names that look like numbers in an order of its own, and `__proto__` would change what it is.
    if ((name >= '0' && name < ':') || name === '__proto__') throw DOUBT;
    if (members[name] !== undefined) sorted[name] = inOrder(members[name]);
  }
  return sorted;
}
const DOUBT = new Error();

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
