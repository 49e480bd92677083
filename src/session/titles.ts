/** Titles of procedures in another language, for lists over many units. */
import { parseProcedure } from '../procedure/parse.js';
import { titlesTold } from '../procedure/titles.js';
import { translateProcedure } from '../procedure/translation.js';
import type { LoadTitles } from './board.js';

/** `lint` tells what is wrong with a procedure or a translation that cannot be read. */
export const loadTitles: LoadTitles = (source, translation) => {
  const own = parseProcedure(source);
  const told = own.ok ? translateProcedure(translation, own.value) : own;
  return own.ok && told.ok ? titlesTold(own.value, told.value) : undefined;
};
