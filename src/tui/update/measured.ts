/** The picture of a frame as measured: shown when a set has been judged, left to where the work goes on. */

import type { World } from '../../session/ports.js';
import type { JournalEvent } from '../../unit/events.js';
import type { Update } from '../protocol.js';
import type { BenchState } from '../state.js';
import { goBack, stay } from './navigate.js';
import { walkOn } from './walk.js';

export const judgesSet = (events: readonly JournalEvent[]): boolean =>
  events.some((event) => event.kind === 'answered' && event.answer.kind === 'square');

/** In a walk the next unit comes when the picture is left, so that nobody's verdict is passed by unseen. */
export function fromMeasured(state: BenchState, world: World): Update {
  const back = goBack(state);
  return walkOn(back, 'answer', world) ?? stay(back);
}
