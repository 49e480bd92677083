/** The frame as the apprentice's own readings show it: the measuring room's drawing, with nothing of the hidden frame in it. */
import { asMeasured } from '../../measure/asmeasured.js';
import { asMeasuredText } from '../../measure/drawmeasured.js';
import { solveSquare } from '../../measure/square.js';
import { readingsNow } from './act.js';
import type { Drill } from './model.js';
import { TAPE } from './tape.js';

/** Lines for so many columns and rows; empty until both diagonals of the frame as it stands are read. */
export function squaringPicture(drill: Drill, columns: number, rows: number, ascii: boolean): string[] {
  const solution = solveSquare(readingsNow(drill), { nominal: drill.nominal, instrument: TAPE });
  const frame = asMeasured(solution, drill.nominal);
  return frame ? asMeasuredText(frame, { columns, rows, ascii }) : [];
}
