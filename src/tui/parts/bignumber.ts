/** A number in digits five rows high, so that it can be read from two metres with both hands full. */
import type { Theme } from '../theme.js';
import { type Line, line } from './line.js';

export const BIG_HEIGHT = 5;

/** Rows of the number, or undefined where it is wider than the room there is. */
export function bigNumber(text: string, width: number, theme: Theme): readonly Line[] | undefined {
  const glyphs = [...text].map((character) => GLYPHS[character]);
  if (glyphs.some((glyph) => glyph === undefined)) return undefined;
  const ink = theme.ascii ? '#' : '█';
  const rows = Array.from({ length: BIG_HEIGHT }, (_, row) =>
    glyphs.map((glyph) => glyph![row]!.replaceAll('#', ink)).join('  '),
  );
  return rows[0]!.length > width ? undefined : rows.map((row) => line(row, 'strong'));
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
  '"': ['# #', '# #', '   ', '   ', '   '],
};
