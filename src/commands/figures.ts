/** `figures`: charts, capability and yields over many units, or over a table from elsewhere. */

import { FIGURES_OPTIONS, figuresWish, withSigns } from './figureswish.js';
import { HELP } from './help.js';
import { EXIT, fail, type Io, readOptions } from './io.js';
import { shopFigures } from './shopfigures.js';
import { tableFigures } from './tablefigures.js';

export async function run(args: string[], io: Io): Promise<number> {
  const read = readOptions(withSigns(args), io, HELP.figures, FIGURES_OPTIONS, { least: 0, most: 1 });
  if (typeof read === 'number') return read;
  const [check] = read.positionals;
  const wish = figuresWish(read.values, check);
  if (!wish.ok) return fail(io, wish.problems, EXIT.badInput);
  if (wish.value.csv === undefined) return shopFigures(check, wish.value, io);
  return tableFigures(wish.value, io);
}
