/** A file of chained lines that is no unit's journal, read whole, with what is wrong in it. */
import { isUtf8 } from 'node:buffer';
import type { Message } from '../base/words.js';
import { type ChainFault, type CheckedLine, checkLine, verifyChain } from '../unit/chain.js';
import { type Disk, diskProblem, isFileError } from './disk.js';
import type { JournalPlace } from './paths.js';
import { storeWords } from './words.js';

export interface ChainedRead<E, F = ChainedFault> {
  /** Up to the first fault, in order: the first has line 1. */
  readonly entries: readonly E[];
  readonly faults: readonly F[];
  /** Number of whole lines. */
  readonly lines: number;
  /** Bytes of them. */
  readonly goodBytes: number;
  /** A piece of a line behind them. */
  readonly torn?: Buffer;
}

type LineFault =
  | ChainFault
  | { readonly kind: 'unknown' | 'torn'; readonly line: number; readonly text: Message };
export type ChainedFault =
  | LineFault
  /** Of the whole file, of which then nothing is read. */
  | { readonly kind: 'not-a-file' | 'unreadable'; readonly line?: undefined; readonly text: Message };

/** @param wrongWith why a line is none that this version knows; undefined if it is one */
export function chainedIn<E>(
  bytes: Buffer,
  wrongWith: (line: unknown) => string | undefined,
): ChainedRead<E, LineFault> {
  const lines: CheckedLine[] = [];
  let from = 0;
  // Not as one text: a register may be larger than a text can be.
  for (let end = bytes.indexOf(0x0a); end >= 0; end = bytes.indexOf(0x0a, from)) {
    const line = bytes.subarray(from, end);
    // Bytes that are no text would decode to replacement characters, which are ambiguous.
    lines.push(checkLine(isUtf8(line) ? line.toString('utf8') : ''));
    from = end + 1;
  }
  const faults: LineFault[] = [...verifyChain(lines)];
  const entries: E[] = [];
  for (const line of lines.slice(0, (faults[0]?.line ?? Number.POSITIVE_INFINITY) - 1)) {
    const event = line.whole ? line.event : undefined;
    const wrong = wrongWith(event);
    if (wrong !== undefined) {
      const text = storeWords('line-unknown', { fault: wrong });
      faults.unshift({ kind: 'unknown', line: entries.length + 1, text });
      break;
    }
    entries.push(event as unknown as E);
  }
  const torn = bytes.subarray(from);
  if (torn.length === 0) return { entries, faults, lines: lines.length, goodBytes: from };
  const line = lines.length + 1;
  const text = storeWords('line-piece', { line, bytes: torn.length });
  faults.push({ kind: 'torn', line, text });
  return { entries, faults, lines: lines.length, goodBytes: from, torn };
}

/** Undefined if there is no such file. One that cannot be read, or is no ordinary file, has that one fault. */
export function readChained<E>(
  disk: Disk,
  place: Pick<JournalPlace, 'file' | 'shown'>,
  wrongWith: (line: unknown) => string | undefined,
  largest: number,
): ChainedRead<E> | undefined {
  const broken = (kind: 'not-a-file' | 'unreadable', text: Message): ChainedRead<E> => ({
    entries: [],
    faults: [{ kind, text }],
    lines: 0,
    goodBytes: 0,
  });
  try {
    const stat = disk.stat(place.file);
    if (stat === undefined) return undefined;
    if (stat.kind !== 'file') return broken('not-a-file', storeWords('no-file'));
    if (stat.size > largest) return broken('not-a-file', storeWords('file-bytes', { bytes: stat.size }));
    return chainedIn(disk.read(place.file), wrongWith);
  } catch (error) {
    if (!isFileError(error)) throw error;
    return broken('unreadable', diskProblem(error, place.shown, storeWords('while-verified')).said);
  }
}
