/** Opens the bench in this terminal; without a terminal, prints the board and how to open the bench. */
import { data } from '../base/words.js';
import { openBench } from '../tui/open.js';
import { run as board } from './board.js';
import { HELP } from './help.js';
import { asLines, type Io, readOptions, saying } from './io.js';
import { BOARD_SAYS } from './words/board.js';

export async function run(args: string[], io: Io): Promise<number> {
  const read = readOptions(args, io, HELP.bench, {}, { most: 1 });
  if (typeof read === 'number') return read;
  const unit = read.positionals[0];
  if (process.stdin.isTTY && process.stdout.isTTY)
    return openBench({ workshop: io.workshop, ...(unit === undefined ? {} : { unit }) });
  const code = await board([], io);
  if (code === 0) io.out(asLines([data(''), saying(io, BOARD_SAYS)('no-terminal')]));
  return code;
}
