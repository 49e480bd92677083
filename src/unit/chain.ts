/**
 * The chain that makes a journal tell when it was altered: each event holds the hash of the one before, and its own hash
 * is SHA-256 (hex) over the RFC 8785 canonical JSON of the event without its `hash`. A journal's lines are written in
 * that canonical form, so that taking the `hash` member out of a line's text leaves exactly what was hashed, and the
 * chain can be checked with `sed` and `sha256sum` alone (logs/README.md).
 */
import { hash } from 'node:crypto';
import canonicalize from 'canonicalize';
import { type Envelope, FORMAT_VERSION, type JournalEvent } from './events.js';

/** `prev` of a journal's first event. */
export const FIRST_PREV = '0'.repeat(64);

/** SHA-256 in hex of a text (as UTF-8) or of bytes. */
export const sha256 = (data: string | Uint8Array): string => hash('sha256', data, 'hex');

/** The hash that belongs in `event.hash`; whatever stands there now is left out. Throws as `canonicalText` does. */
export function chainHash(event: object): string {
  const { hash: _, ...rest } = event as { hash?: unknown };
  return sha256(canonicalText(rest));
}

/** The line that a journal holds for an event, without its line end. */
export const chainLine = (event: JournalEvent): string => canonicalText(event);

/** In whose name, when (UTC ISO 8601 with milliseconds) and at which bench. */
export interface Stamp {
  readonly by: string;
  readonly at: string;
  readonly bench: string;
}

/**
 * Numbers, dates and chains what was decided, after `last`, the journal's last event, if it has any. The event is as whoever
 * reads its line again will have it. Throws as `canonicalText` does.
 */
export function chainEvent<Body extends object>(
  body: Body,
  { at, by, bench }: Stamp,
  last?: Pick<Envelope, 'n' | 'hash'>,
): Envelope & Body {
  const unhashed = {
    v: FORMAT_VERSION,
    n: (last?.n ?? 0) + 1,
    at,
    by,
    bench,
    prev: last?.hash ?? FIRST_PREV,
  };
  const text = canonicalText({ ...body, ...unhashed });
  return { ...JSON.parse(text), hash: sha256(text) } as Envelope & Body;
}

/** A journal line by itself, before it is held against its neighbours. */
export type CheckedLine =
  | { readonly whole: true; readonly event: Linked }
  | {
      readonly whole: false;
      /** `json`: not a JSON object with n, prev, hash. `hash`: its content is not what was hashed. `spelling`: the same content, written differently. */
      readonly why: 'json' | 'hash' | 'spelling';
      /** What the line claims, as far as it can be read: enough to look at the lines around it. */
      readonly claims: { readonly n?: number; readonly hash?: string };
    };

/** What every event of every format version has. */
interface Linked {
  readonly v: number;
  readonly n: number;
  readonly prev: string;
  readonly hash: string;
  readonly [field: string]: unknown;
}

/** Checks one line's text (without line end) against its own hash. Total: never throws. */
export function checkLine(text: string): CheckedLine {
  let event: Linked;
  try {
    event = JSON.parse(text) as Linked;
  } catch {
    return { whole: false, why: 'json', claims: {} };
  }
  if (!isLinked(event)) return { whole: false, why: 'json', claims: claimsOf(event) };
  if (!isHash(event.hash)) return { whole: false, why: 'json', claims: claimsOf(event) };
  const claims = { n: event.n, hash: event.hash };
  if (isCanonical(text, event))
    return hashOfLine(text, event.hash) === event.hash
      ? { whole: true, event }
      : { whole: false, why: 'hash', claims };
  try {
    return { whole: false, why: chainHash(event) === event.hash ? 'spelling' : 'hash', claims };
  } catch {
    return { whole: false, why: 'hash', claims };
  }
}

/** A fault in the order of lines, or in one line. Lines count from 1. */
export interface ChainFault {
  readonly kind: 'changed' | 'missing' | 're-ordered' | 'repeated' | 'broken';
  readonly line: number;
  readonly text: string;
}

/** Holds the lines of one journal against one another. An empty list means that the chain is whole. */
export function verifyChain(lines: readonly CheckedLine[]): ChainFault[] {
  if (inOrder(lines)) return [];
  const faults: ChainFault[] = [];
  const seen = new Set<string>();
  const where = new Map<number, number>();
  for (const [i, line] of lines.entries()) {
    const n = line.whole ? line.event.n : line.claims.n;
    if (n !== undefined && !where.has(n)) where.set(n, i + 1);
  }
  // What the next line must carry. `undefined` where the line before is damaged too badly to tell.
  let n: number | undefined = 1;
  let prev: string | undefined = FIRST_PREV;
  for (const [i, line] of lines.entries()) {
    const at = i + 1;
    if (!line.whole) {
      faults.push({ kind: 'changed', line: at, text: CHANGED[line.why] });
      const next: number | undefined = n === undefined ? undefined : n + 1;
      n = line.claims.n === n ? next : undefined;
      prev = undefined;
      continue;
    }
    const { event } = line;
    if (n !== undefined && event.n !== n) faults.push(misplaced(event, n, at, where, seen));
    else if (prev !== undefined && event.prev !== prev)
      faults.push({
        kind: 'broken',
        line: at,
        text: `Event ${event.n} does not follow from the line before it: that line, or this one, was written anew.`,
      });
    seen.add(event.hash);
    n = event.n + 1;
    prev = event.hash;
  }
  return faults;
}

/** The common case, without remembering what stood where. */
function inOrder(lines: readonly CheckedLine[]): boolean {
  let prev = FIRST_PREV;
  for (const [i, line] of lines.entries()) {
    if (!line.whole || line.event.n !== i + 1 || line.event.prev !== prev) return false;
    prev = line.event.hash;
  }
  return true;
}

const CHANGED = {
  json: 'The line is not an event: it cannot be read.',
  hash: 'The line was changed: its content does not give its hash.',
  spelling: 'The line was written again in another spelling; its content is the same.',
} as const;

function misplaced(
  event: Linked,
  want: number,
  at: number,
  where: ReadonlyMap<number, number>,
  seen: ReadonlySet<string>,
): ChainFault {
  if (seen.has(event.hash))
    return { kind: 'repeated', line: at, text: `Event ${event.n} stands here a second time.` };
  const elsewhere = where.get(want);
  if (elsewhere !== undefined && elsewhere !== at)
    return {
      kind: 're-ordered',
      line: at,
      text: `Event ${event.n} stands where event ${want} belongs; that one is in line ${elsewhere}.`,
    };
  if (event.n < want)
    return { kind: 're-ordered', line: at, text: `Event ${event.n} stands where event ${want} belongs.` };
  const last = event.n - 1;
  return {
    kind: 'missing',
    line: at,
    text:
      want === last
        ? `Event ${want} is missing before this line.`
        : `Events ${want} to ${last} are missing before this line.`,
  };
}

function isLinked(value: unknown): value is Linked {
  if (value === null || typeof value !== 'object' || Array.isArray(value)) return false;
  const { v, n, prev, hash: own } = value as Record<string, unknown>;
  return (
    Number.isSafeInteger(v) &&
    Number.isSafeInteger(n) &&
    typeof prev === 'string' &&
    typeof own === 'string' &&
    isHash(prev) &&
    own.length === 64
  );
}

function claimsOf(value: unknown): { n?: number; hash?: string } {
  const { n, hash: own } = (value ?? {}) as Record<string, unknown>;
  return {
    ...(typeof n === 'number' && Number.isSafeInteger(n) ? { n } : {}),
    ...(typeof own === 'string' ? { hash: own } : {}),
  };
}

const HASH = /^[0-9a-f]{64}$/;
const isHash = (text: string): boolean => HASH.test(text);

const memberOf = (own: string): string => `"hash":"${own}",`;

/** A canonical line less its hash member is the canonical form of the event without it: another member always follows. */
const hashOfLine = (text: string, own: string): string => sha256(without(text, text.indexOf(memberOf(own))));

const without = (line: string, at: number): string =>
  line.slice(0, at) + line.slice(at + memberOf(FIRST_PREV).length);

// RFC 8785 canonical JSON, the form in which a journal's lines are written and hashed. The engine writes strings and
// numbers as the RFC wants them, so ordinary data is sorted and left to it, in half the time that the library takes
// to look at every character: `verify` does this for each line of each journal. In any doubt the library is asked.

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
    const text = JSON.stringify(sorted(value));
    // The engine's way to write half of a surrogate pair.
    return text.includes('\\ud') ? undefined : text;
  } catch {
    return undefined;
  }
}

/** A copy with sorted members. Throws on what is not surely ordinary. */
function sorted(value: unknown): unknown {
  if (typeof value === 'string' || typeof value === 'boolean' || value === null) return value;
  if (typeof value === 'number' && Number.isFinite(value)) return value === 0 ? 0 : value;
  if (typeof value !== 'object' || 'toJSON' in value) throw DOUBT;
  // Not `map`, which passes over holes.
  if (Array.isArray(value)) return Array.from(value, (each) => (each === undefined ? null : sorted(each)));
  const copy: Record<string, unknown> = {};
  const members = value as Readonly<Record<string, unknown>>;
  for (const name of Object.keys(value).sort()) {
    // An object keeps names that look like numbers in an order of its own, and `__proto__` would change what it is.
    if ((name >= '0' && name < ':') || name === '__proto__') throw DOUBT;
    if (members[name] !== undefined) copy[name] = sorted(members[name]);
  }
  return copy;
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
