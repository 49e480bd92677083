/** Opens the bench in this terminal; without a terminal, prints the board and how to open the bench. */
import { openBench } from '../tui/open.js';
import { run as board } from './board.js';
import { HELP } from './help.js';
import { type Io, readOptions } from './io.js';

export async function run(args: string[], io: Io): Promise<number> {
  const read = readOptions(args, io, HELP.bench, {}, { most: 1 });
  if (typeof read === 'number') return read;
  const unit = read.positionals[0];
  if (process.stdin.isTTY && process.stdout.isTTY)
    return openBench({ workshop: io.workshop, ...(unit === undefined ? {} : { unit }) });
  const code = await board([], io);
  if (code === 0) io.out('\nThis is no terminal. To open the bench, run pinchrod in one.');
  return code;
}
