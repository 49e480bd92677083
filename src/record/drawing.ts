/** The unit seen from outside, for documents. */
import type { SetOut } from '../window/types.js';
import type { DrawingView } from './schema.js';

export function drawingOf(
  _setOut: SetOut,
  _triangle: 'apex-at-hinge' | 'apex-at-handle',
): DrawingView | undefined {
  return undefined;
}
