/** The unit seen from outside, for documents: the window room draws it, here it gets its title and its words for the blind. */
import { plain } from '../ground/plain.js';
import { drawSvg, drawText, elevation } from '../window/drawing.js';
import type { SetOut } from '../window/types.js';
import type { DrawingView } from './schema.js';
import { unitSentence } from './unitview.js';
import { size } from './words.js';

export function drawingOf(
  setOut: SetOut,
  triangles: 'apex-at-hinge' | 'apex-at-handle',
): DrawingView | undefined {
  // A unit so wrong that it has no lights has nothing to draw.
  if (setOut.lights.length === 0) return undefined;
  const view = elevation(setOut);
  const apex = triangles === 'apex-at-hinge' ? 'hinge' : 'handle';
  const opens = setOut.lights.some(({ kind }) => kind !== 'fixed');
  return {
    title: `Seen from outside${opens ? `; the dashed lines meet at the ${apex}` : ''}`,
    alt: plain(
      `Window ${setOut.unit.id} seen from outside, ${size(setOut.frame.w, setOut.frame.h)}. ${unitSentence(setOut)}`,
    ),
    svg: drawSvg(view, { triangles, width: 420 }),
    text: drawText(view, { columns: 60, rows: 18, ascii: true, triangles }),
  };
}
