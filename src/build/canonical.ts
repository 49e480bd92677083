/**
 * RFC 8785 canonical JSON, the form in which a journal's lines are written and hashed. The engine writes strings and numbers
 * as the RFC wants them, so ordinary data is sorted and left to it, in half the time that the library takes to look at
 * every character: `verify` does this for each line of each journal. In any doubt the library is asked.
 */
import canonicalize from 'canonicalize';

/** Throws a TypeError on what JSON cannot hold: NaN, infinities, lone surrogates, functions, cycles. */
export function canonicalText(value: unknown): string {
  const ordinary = ordinaryText(value);
  if (ordinary !== undefined) return ordinary;
  let text: string | undefined;
  try {
    text = canonicalize(value);
  } catch (error) {
    throw new TypeError((error as Error).message);
  }
  if (text === undefined) throw new TypeError('the value has no JSON form');
  return text;
}

function ordinaryText(value: unknown): string | undefined {
  try {
    const text = JSON.stringify(inOrder(value));
    // The engine's way to write half of a surrogate pair.
    return text.includes('\\ud') ? undefined : text;
  } catch {
    return undefined;
  }
}

/** A copy with sorted members. Throws on what is not surely ordinary. */
function inOrder(value: unknown): unknown {
  if (typeof value === 'string' || typeof value === 'boolean' || value === null) return value;
  if (typeof value === 'number' && Number.isFinite(value)) return value === 0 ? 0 : value;
  if (typeof value !== 'object' || 'toJSON' in value) throw DOUBT;
  // Not `map`, which passes over holes.
  if (Array.isArray(value)) return Array.from(value, (each) => (each === undefined ? null : inOrder(each)));
  const sorted: Record<string, unknown> = {};
  const members = value as Readonly<Record<string, unknown>>;
  for (const name of Object.keys(value).sort()) {
    // An object keeps names that look like numbers in an order of its own, and `__proto__` would change what it is.
    if ((name >= '0' && name < ':') || name === '__proto__') throw DOUBT;
    if (members[name] !== undefined) sorted[name] = inOrder(members[name]);
  }
  return sorted;
}
const DOUBT = new Error();

/** Whether a JSON text is the canonical form of what it says. Total. @param value what `text` parses to */
export function isCanonical(text: string, value: unknown): boolean {
  try {
    return canonicalText(value) === text;
  } catch {
    return false;
  }
}
