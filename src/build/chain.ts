/**
 * The chain that makes a journal tell when it was altered: each event holds the hash of the one before, and its own hash
 * is SHA-256 (hex) over the RFC 8785 canonical JSON of the event without its `hash`. A journal's lines are written in
 * that canonical form, so that taking the `hash` member out of a line's text leaves exactly what was hashed, and the
 * chain can be checked with `sed` and `sha256sum` alone (logs/README.md).
 */
import { hash } from 'node:crypto';
import { isHash } from '../ground/quickcheck.js';
import { canonicalText, isCanonical } from './canonical.js';
import { type EventBody, FORMAT_VERSION, type JournalEvent } from './events.js';

/** `prev` of a journal's first event. */
export const FIRST_PREV = '0'.repeat(64);

export { canonicalText };

/** SHA-256 in hex of a text (as UTF-8) or of bytes. */
export const sha256 = (data: string | Uint8Array): string => hash('sha256', data, 'hex');

/** The hash that belongs in `event.hash`; whatever stands there now is left out. Throws as `canonicalText` does. */
export function chainHash(event: object): string {
  const { hash: _, ...rest } = event as { hash?: unknown };
  return sha256(canonicalText(rest));
}

/** The line that a journal holds for an event, without its line end. */
export const chainLine = (event: JournalEvent): string => sealed.get(event) ?? canonicalText(event);

/** Lines of the events sealed here: each is on its way to the disk, and a person waits for it. */
const sealed = new WeakMap<JournalEvent, string>();

/** Numbers, dates and chains what the build room decided: event `n` after the event whose hash is `prev`. */
export function sealEvent(
  body: EventBody,
  by: {
    readonly n: number;
    readonly at: string;
    readonly by: string;
    readonly bench: string;
    readonly prev: string;
  },
): JournalEvent {
  const event = {
    ...withoutUndefined(body),
    v: FORMAT_VERSION,
    n: by.n,
    at: by.at,
    by: by.by,
    bench: by.bench,
    prev: by.prev,
  };
  // In two halves, so that one writing gives both what is hashed and the line, which has the hash between them.
  const low = canonicalText(half(event, (name) => name < 'hash')).slice(0, -1);
  const high = canonicalText(half(event, (name) => name > 'hash')).slice(1);
  const own = sha256(`${low},${high}`);
  const whole = { ...event, hash: own } as unknown as JournalEvent;
  sealed.set(whole, `${low},"hash":"${own}",${high}`);
  return whole;
}

/** Every event has members on both sides of its hash: `at`, `by`, and `kind`, `n`, `prev`. */
function half(event: object, wanted: (name: string) => boolean): object {
  const members = event as Readonly<Record<string, unknown>>;
  const some: Record<string, unknown> = {};
  for (const name in members) if (wanted(name)) some[name] = members[name];
  return some;
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
export interface Linked {
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

/** A canonical line less its hash member is the canonical form of the event without it: another member always follows. */
function hashOfLine(text: string, own: string): string {
  const at = text.indexOf(`"hash":"${own}",`);
  return sha256(text.slice(0, at) + text.slice(at + MEMBER_LENGTH));
}

/** `"hash":"…",` with 64 digits. */
const MEMBER_LENGTH = 74;

/** A member that is `undefined` is a member that is not there, also inside. The value itself where there is none. */
function withoutUndefined<T>(value: T): T {
  if (!holdsUndefined(value)) return value;
  if (Array.isArray(value)) return value.map(withoutUndefined) as T;
  return Object.fromEntries(
    Object.entries(value as object).flatMap(([key, inner]) =>
      inner === undefined ? [] : [[key, withoutUndefined(inner)]],
    ),
  ) as T;
}

function holdsUndefined(value: unknown): boolean {
  if (value === null || typeof value !== 'object') return false;
  const inside = value as Readonly<Record<string, unknown>>;
  for (const key in inside) if (inside[key] === undefined || holdsUndefined(inside[key])) return true;
  return false;
}
