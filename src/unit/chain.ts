/**
 * The hash chain that makes a journal tamper-evident. Each event holds the hash of the one before; its own hash is
 * SHA-256 (hex) over the RFC 8785 canonical JSON of the event without its `hash`. Journal lines are written in that
 * canonical form, so removing the `hash` member from a line's text leaves exactly what was hashed, and the chain can be
 * checked with just `sed` and `sha256sum` (logs/README.md).
 */
import { hash } from 'node:crypto';
import canonicalize from 'canonicalize';
import type { Message } from '../base/words.js';
import { type Envelope, FORMAT_VERSION, type JournalEvent } from './events.js';
import { unitWords } from './words.js';

export const FIRST_PREV = '0'.repeat(64);

export const sha256 = (data: string | Uint8Array): string => hash('sha256', data, 'hex');

/** The value for `event.hash`; any existing `hash` is ignored. Throws as `canonicalText` does. */
export function chainHash(event: object): string {
  const { hash: _, ...rest } = event as { hash?: unknown };
  return sha256(canonicalText(rest));
}

/** The journal line for an event, without line ending. */
export const chainLine = (event: JournalEvent): string => canonicalText(event);

/** `by` is a person id; `at` is UTC, ISO 8601 with milliseconds. */
export interface Stamp {
  readonly by: string;
  readonly at: string;
  readonly bench: string;
}

/** Numbers, dates and chains after `last`, if any. Returns what the line reads back as; throws as `canonicalText`. */
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

/** A journal line checked by itself, before it is compared with its neighbours. */
export type CheckedLine =
  | { readonly whole: true; readonly event: Linked }
  | {
      readonly whole: false;
      /** `json`: no object with n, prev, hash. `hash`: content does not match it. `spelling`: not canonical. */
      readonly why: 'json' | 'hash' | 'spelling';
      /** Whatever the line claims, as far as it is readable: enough to check the lines around it. */
      readonly claims: { readonly n?: number; readonly hash?: string };
    };

/** Fields of every event in every format version. */
interface Linked {
  readonly v: number;
  readonly n: number;
  readonly prev: string;
  readonly hash: string;
  readonly [field: string]: unknown;
}

/** Checks one line's text (without line ending) against its own hash. Never throws. */
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

/** A fault in one line, or in the order of lines. Lines count from 1. */
export interface ChainFault {
  readonly kind: 'changed' | 'missing' | 're-ordered' | 'repeated' | 'broken';
  readonly line: number;
  readonly text: Message;
}

/** Checks the lines of one journal against each other. An empty list means the chain is intact. */
export function verifyChain(lines: readonly CheckedLine[]): ChainFault[] {
  if (inOrder(lines)) return [];
  const faults: ChainFault[] = [];
  const seen = new Set<string>();
  const where = new Map<number, number>();
  for (const [i, line] of lines.entries()) {
    const n = line.whole ? line.event.n : line.claims.n;
    if (n !== undefined && !where.has(n)) where.set(n, i + 1);
  }
  // What the next line must carry; `undefined` where the line before is too damaged to tell.
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
        text: unitWords('line-broken', { n: event.n }),
      });
    seen.add(event.hash);
    n = event.n + 1;
    prev = event.hash;
  }
  return faults;
}

/** Fast path for an intact journal: keeps no index of lines. */
function inOrder(lines: readonly CheckedLine[]): boolean {
  let prev = FIRST_PREV;
  for (const [i, line] of lines.entries()) {
    if (!line.whole || line.event.n !== i + 1 || line.event.prev !== prev) return false;
    prev = line.event.hash;
  }
  return true;
}

const CHANGED = {
  json: unitWords('line-json'),
  hash: unitWords('line-hash'),
  spelling: unitWords('line-spelling'),
} as const;

function misplaced(
  event: Linked,
  want: number,
  at: number,
  where: ReadonlyMap<number, number>,
  seen: ReadonlySet<string>,
): ChainFault {
  if (seen.has(event.hash))
    return { kind: 'repeated', line: at, text: unitWords('line-again', { n: event.n }) };
  const elsewhere = where.get(want);
  if (elsewhere !== undefined && elsewhere !== at)
    return {
      kind: 're-ordered',
      line: at,
      text: unitWords('line-elsewhere', { n: event.n, want, line: elsewhere }),
    };
  if (event.n < want)
    return { kind: 're-ordered', line: at, text: unitWords('line-misplaced', { n: event.n, want }) };
  const last = event.n - 1;
  return {
    kind: 'missing',
    line: at,
    text:
      want === last
        ? unitWords('line-missing', { n: want })
        : unitWords('lines-missing', { from: want, to: last }),
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

/** A canonical line without `hash`, which is never the last member, is what was hashed. */
const hashOfLine = (text: string, own: string): string => sha256(without(text, text.indexOf(memberOf(own))));

const without = (line: string, at: number): string =>
  line.slice(0, at) + line.slice(at + memberOf(FIRST_PREV).length);

// RFC 8785 canonical JSON, the form in which journal lines are written and hashed. The engine already formats strings
// and numbers as the RFC requires, so ordinary data is sorted and left to JSON.stringify. That takes half the time of
// the library, which inspects every character; `verify` does this for each line of each journal. When in doubt, the
// library decides.

/** Throws a TypeError on values JSON cannot represent: NaN, infinities, lone surrogates, functions, cycles. */
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
    // The engine escapes lone surrogates this way.
    return text.includes('\\ud') ? undefined : text;
  } catch {
    return undefined;
  }
}

/** A copy with sorted members. Throws unless the data is certainly ordinary. */
function sorted(value: unknown): unknown {
  if (typeof value === 'string' || typeof value === 'boolean' || value === null) return value;
  if (typeof value === 'number' && Number.isFinite(value)) return value === 0 ? 0 : value;
  if (typeof value !== 'object' || 'toJSON' in value) throw DOUBT;
  // Not `map`, which skips holes.
  if (Array.isArray(value)) return Array.from(value, (each) => (each === undefined ? null : sorted(each)));
  const copy: Record<string, unknown> = {};
  const members = value as Readonly<Record<string, unknown>>;
  for (const name of Object.keys(value).sort()) {
    // Objects order integer-like names themselves, and assigning `__proto__` would set the prototype.
    if ((name >= '0' && name < ':') || name === '__proto__') throw DOUBT;
    if (members[name] !== undefined) copy[name] = sorted(members[name]);
  }
  return copy;
}
const DOUBT = new Error();

/** Whether a JSON text, already parsed to `value`, is in canonical form. Never throws. */
export function isCanonical(text: string, value: unknown): boolean {
  try {
    return canonicalText(value) === text;
  } catch {
    return false;
  }
}
