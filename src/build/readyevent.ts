/**
 * An event made ready before its moment: all of its line stands but its time, the hash of the line before and its own.
 * Putting these in is all that is left when the moment comes.
 */
import { hash } from 'node:crypto';
import { canonical } from './canonical.js';
import { type EventBody, FORMAT_VERSION, type JournalEvent } from './events.js';

/** `prev` of a journal's first event; stands also where a hash is to come. */
export const FIRST_PREV = '0'.repeat(64);
const NO_TIME = '0000-01-01T00:00:00.000Z';

export interface ReadyEvent {
  /** As it will be, but with no time and no hashes. */
  readonly event: JournalEvent;
  /** The line before, between and after time, own hash and hash before. */
  readonly pieces: readonly [string, string, string, string];
}

/**
 * Undefined where its own data look like what is to come. Throws a TypeError on what JSON cannot hold.
 *
 * @param n its number in the journal
 */
export function readyEvent(
  body: EventBody,
  { by, bench }: { readonly by: string; readonly bench: string },
  n: number,
): ReadyEvent | undefined {
  const envelope = { v: FORMAT_VERSION, n, at: NO_TIME, by, bench, prev: FIRST_PREV, hash: FIRST_PREV };
  const { text, value } = canonical(body, envelope);
  const pieces: string[] = [];
  let from = 0;
  // Members are sorted, so their places are in this order.
  for (const room of ROOMS) {
    const at = text.indexOf(room, from);
    if (text.includes(room, at + 1)) return undefined;
    pieces.push(text.slice(from, at));
    from = at + room.length;
  }
  pieces.push(text.slice(from));
  return { event: value as JournalEvent, pieces: pieces as unknown as ReadyEvent['pieces'] };
}

/** Its own hash, and its line. @param at UTC, ISO 8601 with milliseconds; nothing else may be given */
export function sealReady(
  { pieces: [start, between, middle, end] }: ReadyEvent,
  at: string,
  prev: string,
): { readonly own: string; readonly line: string } {
  const first = `${start}"at":"${at}"${between}`;
  const rest = `${middle}"prev":"${prev}"${end}`;
  const own = hash('sha256', first + rest, 'hex');
  return { own, line: `${first}"hash":"${own}",${rest}` };
}

/** Another member always follows the hash. */
const ROOMS = [`"at":"${NO_TIME}"`, `"hash":"${FIRST_PREV}",`, `"prev":"${FIRST_PREV}"`] as const;
