/** The journal of set-ups, held against its own chain, for `verify`. */
import { isUtf8 } from 'node:buffer';
import { join } from 'node:path';
import { type Problem, raiser } from '../base/problem.js';
import { checkLine, verifyChain } from '../unit/chain.js';
import { LARGEST_JOURNAL } from './adapter.js';
import type { Disk } from './disk.js';
import { VERIFY_MESSAGES } from './messages.js';
import { logsFolder } from './paths.js';
import { setupEventWrong } from './setups.js';
import { readOrdinary } from './verifykept.js';

const raise = raiser(VERIFY_MESSAGES);
const FILE = 'logs/setups.jsonl';
const IDS = {
  changed: 'verify.changed-line',
  missing: 'verify.missing-line',
  're-ordered': 'verify.re-ordered-line',
  repeated: 'verify.repeated-line',
  broken: 'verify.broken-chain',
} as const;

/** Names under logs/ that belong to it: itself, its lock, and pieces set aside. */
export const isOfSetups = (name: string): boolean => /^setups\.(jsonl(\.torn-\d+)?|lock.*)$/.test(name);

/** Gives how many events it holds; undefined where there is no such journal. */
export function verifySetups(disk: Disk, root: string, found: Problem[]): number | undefined {
  const path = join(logsFolder(root), 'setups.jsonl');
  if (disk.stat(path) === undefined) return undefined;
  const bytes = readOrdinary(disk, path, FILE, found, LARGEST_JOURNAL);
  if (bytes === undefined) return undefined;
  const end = bytes.lastIndexOf(0x0a) + 1;
  const texts = bytes.subarray(0, end).toString('utf8').split('\n').slice(0, -1);
  if (!isUtf8(bytes.subarray(0, end)))
    found.push(raise('verify.changed-line', 'The journal holds bytes that are no text.', { file: FILE }));
  const lines = texts.map(checkLine);
  for (const { kind, line, text } of verifyChain(lines))
    found.push(raise(IDS[kind], text, { file: FILE, line }));
  for (const [i, line] of lines.entries()) {
    const wrong = line.whole ? setupEventWrong(line.event) : undefined;
    if (wrong !== undefined)
      found.push(
        raise('verify.unknown-event', `The line is whole, but this version does not know it: ${wrong}`, {
          file: FILE,
          line: i + 1,
        }),
      );
  }
  if (end < bytes.length)
    found.push(
      raise(
        'verify.torn-end',
        `Line ${lines.length + 1} is only a piece of an event (${bytes.length - end} bytes).`,
        { file: FILE, line: lines.length + 1 },
      ),
    );
  return lines.length;
}
