/**
 * Parses a journal's bytes into events, or says what is wrong and where. Pure. The writer, readers at other benches and
 * `verify` all read journals through this.
 *
 * A power cut during an append leaves either the beginning of the line, or NUL bytes if the length was kept but not the
 * content. That is a torn end, which was never acknowledged. Anything else wrong is damage.
 */
import { isAscii, isUtf8 } from 'node:buffer';
import type { Problem } from '../base/problem.js';
import type { Message } from '../base/words.js';
import { type ChainFault, type CheckedLine, checkLine, verifyChain } from '../unit/chain.js';
import { eventSchema, FORMAT_VERSION, type JournalEvent } from '../unit/events.js';
import { storeProblem } from './disk.js';
import { branchNamed } from './paths.js';
import { storeWords } from './words.js';

export interface JournalRead {
  /** Events of the complete lines, in order; only meaningful if `faults` is empty. */
  readonly events: readonly JournalEvent[];
  /** Number of bytes holding them. If there is a tail, what follows may be cut off. */
  readonly goodBytes: number;
  readonly lines: number;
  readonly tail?: Tail;
  readonly faults: readonly JournalFault[];
}

interface Tail {
  /** `torn`: part of a line. `no-line-end`: the last event is complete; only its newline is missing (or NUL). */
  readonly kind: 'torn' | 'no-line-end';
  readonly line: number;
  readonly bytes: Buffer;
}

export type JournalFault =
  | ChainFault
  | {
      readonly kind: 'newer' | 'unknown-event' | 'not-first' | 'wrong-unit';
      readonly line: number;
      readonly text: Message;
    };

export interface ReadOptions {
  /** The unit and job that the file's path claims. */
  readonly of: { readonly job: string; readonly unit: string };
}

const NEWLINE = 0x0a;

export function readJournal(bytes: Buffer, { of }: ReadOptions): JournalRead {
  const texts: string[] = [];
  const starts: number[] = [];
  const allAscii = isAscii(bytes);
  const allUtf8 = allAscii || isUtf8(bytes);
  let from = 0;
  for (let end = bytes.indexOf(NEWLINE); end >= 0; end = bytes.indexOf(NEWLINE, from)) {
    // Invalid UTF-8 would decode to replacement characters, which are ambiguous, so such a line never passes.
    texts.push(
      allUtf8 || isUtf8(bytes.subarray(from, end))
        ? bytes.toString(allAscii ? 'latin1' : 'utf8', from, end)
        : '',
    );
    starts.push(from);
    from = end + 1;
  }
  let goodBytes = from;
  let tail: Tail | undefined;
  const checked = texts.map(checkLine);
  const rest = bytes.subarray(from);
  if (rest.length > 0) {
    const line = texts.length + 1;
    const whole = wholeStart(rest);
    if (whole === undefined) tail = { kind: 'torn', line, bytes: rest };
    else if (rest.subarray(whole).every((byte) => byte === 0)) {
      tail = { kind: 'no-line-end', line, bytes: rest };
      checked.push(checkLine(rest.toString('utf8', 0, whole)));
      goodBytes = from + whole;
    } else {
      // A complete event followed by something else was overwritten, not cut off.
      checked.push({ whole: false, why: 'json', claims: {} });
    }
  } else if (texts.length > 0 && !checked.at(-1)!.whole && blocksMissing(bytes, starts.at(-1)!)) {
    // The blocks of one line reached the disk out of order: NUL bytes inside, newline present.
    goodBytes = starts.at(-1)!;
    tail = { kind: 'torn', line: texts.length, bytes: bytes.subarray(goodBytes) };
    checked.pop();
  }

  const faults: JournalFault[] = verifyChain(checked);
  const events: JournalEvent[] = [];
  for (const [i, line] of checked.entries()) {
    if (!line.whole) continue;
    const fault = known(line, i + 1);
    if (fault) faults.push(fault);
    events.push(line.event as unknown as JournalEvent);
  }
  const first = events[0];
  if (first && faults.length === 0) {
    if (first.kind !== 'opened') faults.push({ kind: 'not-first', line: 1, text: storeWords('not-opened') });
    else if (first.unit !== (branchNamed(of.unit)?.unit ?? of.unit) || first.job !== of.job)
      faults.push({
        kind: 'wrong-unit',
        line: 1,
        text: storeWords('wrong-unit', {
          unit: first.unit,
          job: first.job,
          otherUnit: of.unit,
          otherJob: of.job,
        }),
      });
  }
  faults.sort((a, b) => a.line - b.line);
  return { events, goodBytes, lines: checked.length, ...(tail ? { tail } : {}), faults };
}

/** End of a complete event at the start of `rest`, at the first balanced closing brace; undefined if there is none. */
function wholeStart(rest: Buffer): number | undefined {
  let depth = 0;
  let inText = false;
  for (let i = 0; i < rest.length; i++) {
    const byte = rest[i];
    if (inText) {
      if (byte === BACKSLASH) i++;
      else if (byte === QUOTE) inText = false;
    } else if (byte === QUOTE) inText = true;
    else if (byte === OPEN) depth++;
    else if (byte === CLOSE && --depth === 0) {
      const piece = rest.subarray(0, i + 1);
      return isUtf8(piece) && checkLine(piece.toString('utf8')).whole ? i + 1 : undefined;
    }
  }
  return undefined;
}

const BACKSLASH = 0x5c;
const QUOTE = 0x22;
const OPEN = 0x7b;
const CLOSE = 0x7d;

/**
 * Whether the last line, though it ends in a newline, is missing whole blocks: NUL runs that start at the line's start
 * or a block boundary and end at a block boundary. A single byte turned NUL is damage.
 */
function blocksMissing(bytes: Buffer, start: number): boolean {
  let runs = 0;
  for (let from = bytes.indexOf(0, start); from >= 0; runs++) {
    let end = from;
    while (bytes[end] === 0) end++;
    if ((from !== start && from % BLOCK !== 0) || end % BLOCK !== 0) return false;
    from = bytes.indexOf(0, end);
  }
  return runs > 0;
}

const BLOCK = 512;

function known(line: CheckedLine & { whole: true }, at: number): JournalFault | undefined {
  const { event } = line;
  if (event.v > FORMAT_VERSION)
    return {
      kind: 'newer',
      line: at,
      text: storeWords('newer-format', { format: event.v, newest: FORMAT_VERSION }),
    };
  const wrong = eventWrong(event);
  if (wrong === undefined) return undefined;
  return {
    kind: 'unknown-event',
    line: at,
    text: storeWords('line-unknown', { fault: wrong }),
  };
}

/** Why a value is not an event of this version; undefined if it is one. */
function eventWrong(event: unknown): string | undefined {
  const parsed = eventSchema.safeParse(event);
  if (parsed.success) return undefined;
  const issue = parsed.error.issues[0]!;
  return `${issue.path.map(String).join('.') || 'kind'}: ${issue.message}`;
}

/** A journal fault as the problem that stops the bench. `verify` has finer-grained ids for the same faults. */
export function journalProblem(fault: JournalFault, file: string): Problem {
  const id =
    fault.kind === 'newer'
      ? 'journal.newer'
      : fault.kind === 'unknown-event'
        ? 'journal.unknown-event'
        : 'journal.damaged';
  return storeProblem(id, { fault: fault.text }, { file, line: fault.line });
}

/** Why the value is not an event of the set-up journal; undefined if it is one. */
export function setupEventWrong(event: unknown): string | undefined {
  const wrong = eventWrong(event);
  if (wrong !== undefined) return wrong;
  const { kind } = event as JournalEvent;
  return SETUP_KINDS.has(kind) ? undefined : `"${kind}" belongs into a unit's journal`;
}

const SETUP_KINDS: ReadonlySet<string> = new Set(['first-off', 'setup-ended']);
