/** How wide columns of a table are, in characters of the text form. */

/** Characters of a line. */
export const LINE = 96;
/** A longer word is broken. */
const LONGEST_WORD = 24;

/**
 * The shares as characters of a line with two blanks between columns. Each column is at least as wide as its longest word,
 * where the others have room to spare.
 * @param columns of each, all its texts
 */
export function wideEnough(
  shares: readonly number[],
  columns: readonly (readonly string[])[],
  line = LINE,
): number[] {
  const free = line - 2 * (shares.length - 1);
  const sum = shares.reduce((a, b) => a + b, 0);
  const widths = shares.map((share) => Math.max(1, Math.floor((free * share) / sum)));
  const needs = columns.map((texts) =>
    Math.min(LONGEST_WORD, Math.max(...texts.flatMap((text) => text.split(' ')).map((each) => each.length))),
  );
  widths[0]! += free - widths.reduce((a, b) => a + b, 0);
  return givenRoom(widths, needs);
}

/** Takes room, one by one, from the column that has most to spare for the first that has too little. */
export function givenRoom(before: readonly number[], needs: readonly number[]): number[] {
  const widths = [...before];
  const spare = (i: number): number => widths[i]! - needs[i]!;
  for (;;) {
    const narrow = widths.findIndex((_, i) => spare(i) < 0);
    const wide = widths.reduce((most, _, i) => (spare(i) > spare(most) ? i : most), 0);
    if (narrow < 0 || spare(wide) < 1) return widths;
    widths[narrow]!++;
    widths[wide]!--;
  }
}
