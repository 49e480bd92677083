/** A whole register as it stands, with what is wrong in its chain. */

import { type ChainFault, type CheckedLine, checkLine, verifyChain } from '../../unit/chain.js';
import type { Disk } from '../disk.js';
import { diskProblem, isFileError } from '../disk.js';
import type { JournalPlace } from '../paths.js';
import { LARGEST_REGISTER } from './place.js';

export interface RegisterRead<E> {
  /** Entries up to the first fault, in order: the first has line 1. */
  readonly entries: readonly E[];
  readonly faults: readonly RegisterFault[];
  /** Number of whole lines. */
  readonly lines: number;
}

export type RegisterFault =
  | ChainFault
  | {
      readonly kind: 'unknown' | 'torn' | 'not-a-file' | 'unreadable';
      readonly line: number;
      readonly text: string;
    };

/** Undefined if there is no such file. Never throws a file error. */
export function readRegister<E>(
  disk: Disk,
  place: JournalPlace,
  wrongWith: (entry: unknown) => string | undefined,
): RegisterRead<E> | undefined {
  const broken = (kind: 'not-a-file' | 'unreadable', text: string): RegisterRead<E> => ({
    entries: [],
    faults: [{ kind, line: 1, text }],
    lines: 0,
  });
  try {
    const stat = disk.stat(place.file);
    if (stat === undefined) return undefined;
    if (stat.kind !== 'file' || stat.size > LARGEST_REGISTER)
      return broken('not-a-file', 'This is no ordinary file, or it is too large for a register.');
    return parsed(disk.read(place.file), wrongWith);
  } catch (error) {
    if (!isFileError(error)) throw error;
    return broken('unreadable', diskProblem(error, place.shown, 'the register was read').text);
  }
}

function parsed<E>(bytes: Buffer, wrongWith: (entry: unknown) => string | undefined): RegisterRead<E> {
  const lines: CheckedLine[] = [];
  let from = 0;
  // Not as one text: a register may be larger than a text can be.
  for (let end = bytes.indexOf(0x0a); end >= 0; end = bytes.indexOf(0x0a, from)) {
    lines.push(checkLine(bytes.subarray(from, end).toString('utf8')));
    from = end + 1;
  }
  const faults: RegisterFault[] = [...verifyChain(lines)];
  const good = faults.length > 0 ? faults[0]!.line - 1 : lines.length;
  const entries: E[] = [];
  for (const line of lines.slice(0, good)) {
    const wrong = line.whole ? wrongWith(line.event) : 'it is not whole';
    if (wrong !== undefined) {
      const text = `The line is whole, but this version does not know it: ${wrong}`;
      faults.push({ kind: 'unknown', line: entries.length + 1, text });
      break;
    }
    if (line.whole) entries.push(line.event as unknown as E);
  }
  if (from < bytes.length)
    faults.push({
      kind: 'torn',
      line: lines.length + 1,
      text: `Line ${lines.length + 1} is only a piece of an entry (${bytes.length - from} bytes).`,
    });
  return { entries, faults, lines: lines.length };
}
