/** The unit seen from outside, with the current spot marked. The window room draws it; this fits it to the screen. */

import { sanitize } from '../../base/text.js';
import { data, type Spoken } from '../../base/words.js';
import { drawText } from '../../window/draw.js';
import { elevation } from '../../window/elevation.js';
import type { SetOut, Spot } from '../../window/types.js';
import type { Theme } from '../theme.js';
import { crop, type Line, line } from './line.js';

export interface DrawingOptions {
  /** From which side it is seen. */
  readonly caption: Spoken;
  readonly columns: number;
  readonly rows: number;
  readonly theme: Theme;
  readonly spot: Spot | undefined;
  readonly item: string | undefined;
  /** What the step makes (`addon/fixing`): only these marks are given in figures, so that no other is drilled. */
  readonly claims: readonly string[] | undefined;
  readonly triangles: 'apex-at-hinge' | 'apex-at-handle';
}

export function drawingLines(setOut: SetOut, options: DrawingOptions): readonly Line[] {
  const { columns, rows, theme, spot, item, claims = [], triangles } = options;
  const drawn = drawText(elevation(setOut), {
    columns,
    rows: rows - 1,
    ascii: theme.ascii,
    ...(spot === undefined ? {} : { spot }),
    ...(item === undefined ? {} : { item }),
    measured: new Set(claims.map((claim) => claim.split('/')[1]!)),
    triangles,
  });
  return [...drawn.map((row) => crop(line(sanitize(row)), columns)), line(options.caption)];
}

export const BIG_HEIGHT = 5;

/** A number, or a unit's name, in large signs; undefined if it does not fit the width or has other signs. */
export function bigNumber(text: string, width: number, theme: Theme): readonly Line[] | undefined {
  const glyphs = [...text.toUpperCase()].map((character) => GLYPHS[character]);
  if (glyphs.some((glyph) => glyph === undefined)) return undefined;
  const ink = theme.ascii ? '#' : '█';
  const rows = Array.from({ length: BIG_HEIGHT }, (_, row) =>
    glyphs.map((glyph) => glyph![row]!.replaceAll('#', ink)).join('  '),
  );
  return rows[0]!.length > width ? undefined : rows.map((row) => line(data(row), 'strong'));
}

const GLYPHS: Readonly<Record<string, readonly string[]>> = {
  0: ['#####', '#   #', '#   #', '#   #', '#####'],
  1: ['  #  ', ' ##  ', '  #  ', '  #  ', ' ### '],
  2: ['#####', '    #', '#####', '#    ', '#####'],
  3: ['#####', '    #', ' ####', '    #', '#####'],
  4: ['#   #', '#   #', '#####', '    #', '    #'],
  5: ['#####', '#    ', '#####', '    #', '#####'],
  6: ['#####', '#    ', '#####', '#   #', '#####'],
  7: ['#####', '    #', '   # ', '  #  ', '  #  '],
  8: ['#####', '#   #', '#####', '#   #', '#####'],
  9: ['#####', '#   #', '#####', '    #', '#####'],
  '.': ['  ', '  ', '  ', '  ', '##'],
  '-': ['    ', '    ', '####', '    ', '    '],
  ' ': ['  ', '  ', '  ', '  ', '  '],
  '/': ['    #', '   # ', '  #  ', ' #   ', '#    '],
  A: ['#####', '#   #', '#####', '#   #', '#   #'],
  B: ['#### ', '#   #', '#### ', '#   #', '#### '],
  C: ['#####', '#    ', '#    ', '#    ', '#####'],
  D: ['#### ', '#   #', '#   #', '#   #', '#### '],
  E: ['#####', '#    ', '#### ', '#    ', '#####'],
  F: ['#####', '#    ', '#### ', '#    ', '#    '],
  G: ['#####', '#    ', '#  ##', '#   #', '#####'],
  H: ['#   #', '#   #', '#####', '#   #', '#   #'],
  I: ['###', ' # ', ' # ', ' # ', '###'],
  J: ['    #', '    #', '    #', '#   #', '#####'],
  K: ['#   #', '#  # ', '###  ', '#  # ', '#   #'],
  L: ['#    ', '#    ', '#    ', '#    ', '#####'],
  M: ['#   #', '## ##', '# # #', '#   #', '#   #'],
  N: ['#   #', '##  #', '# # #', '#  ##', '#   #'],
  O: ['#####', '#   #', '#   #', '#   #', '#####'],
  P: ['#####', '#   #', '#####', '#    ', '#    '],
  Q: ['#####', '#   #', '# # #', '#  ##', '#####'],
  R: ['#####', '#   #', '#### ', '#  # ', '#   #'],
  S: ['#####', '#    ', '#####', '    #', '#####'],
  T: ['#####', '  #  ', '  #  ', '  #  ', '  #  '],
  U: ['#   #', '#   #', '#   #', '#   #', '#####'],
  V: ['#   #', '#   #', '#   #', ' # # ', '  #  '],
  W: ['#   #', '#   #', '# # #', '## ##', '#   #'],
  X: ['#   #', ' # # ', '  #  ', ' # # ', '#   #'],
  Y: ['#   #', ' # # ', '  #  ', '  #  ', '  #  '],
  Z: ['#####', '   # ', '  #  ', ' #   ', '#####'],
  '"': ['# #', '# #', '   ', '   ', '   '],
};
