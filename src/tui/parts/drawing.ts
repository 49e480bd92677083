/** The unit as seen from outside, with the place in question marked. The window room draws it; here it is fitted in. */
import { plain } from '../../base/text.js';
import { drawText, elevation } from '../../window/drawing.js';
import type { SetOut, Spot } from '../../window/types.js';
import type { Theme } from '../theme.js';
import { crop, type Line, line } from './line.js';

export interface DrawingOptions {
  readonly columns: number;
  readonly rows: number;
  readonly theme: Theme;
  readonly spot: Spot | undefined;
  readonly item: string | undefined;
  readonly triangles: 'apex-at-hinge' | 'apex-at-handle';
}

export function drawingLines(setOut: SetOut, options: DrawingOptions): readonly Line[] {
  const { columns, rows, theme, spot, item, triangles } = options;
  const drawn = drawText(elevation(setOut), {
    columns,
    rows: rows - 1,
    ascii: theme.ascii,
    ...(spot === undefined ? {} : { spot }),
    ...(item === undefined ? {} : { item }),
    triangles,
  });
  const caption = 'seen from outside';
  return [...drawn.map((row) => crop(line(plain(row)), columns)), line(caption)];
}
