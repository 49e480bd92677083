/**
 * Columns that a text takes in a terminal: the library's answer, at once for texts of usual signs. The bundle gives this
 * to the terminal library too (scripts/build/bundle.mjs), whose first frame would else wait for the tables of grapheme
 * clusters and emoji, a tenth of a start, to learn that a box-drawing line is as wide as it is long.
 */
import stringWidth, { type Options } from 'string-width';

/**
 * Signs one column wide that join with nothing beside them: Latin, punctuation, arrows, mathematical signs, lines, blocks.
 * Outside it are all that combine, have no width, or have two columns in some terminal.
 */
const NARROW =
  /^[\x20-\x7e\u00a0-\u00ac\u00ae-\u02ff\u2010-\u2027\u2030-\u205e\u2190-\u2193\u21bb\u2200-\u22ff\u2500-\u25fc\u2713\u2715]*$/;
/** Colours and weights of text. */
const STYLES = /\u001b\[[\d;]*m/g;

export default function widthOf(text: string, options?: Options): number {
  if (options === undefined && typeof text === 'string') {
    const seen = text.includes('\u001b') ? text.replace(STYLES, '') : text;
    if (NARROW.test(seen)) return seen.length;
  }
  return stringWidth(text, options);
}
