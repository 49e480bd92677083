/** The squareness set that was answered last on a unit, worked out anew from its journal. */

import { type AsMeasured, asMeasured } from '../measure/asmeasured.js';
import { type LoggedSet, solveSquare, toolsOf, valuesOf } from '../measure/square.js';
import { unitRead } from '../measure/units.js';
import type { RouteCheck } from '../procedure/types.js';
import type { World } from '../session/ports.js';
import type { JournalEvent } from '../unit/events.js';
import { findCheck } from '../unit/graph.js';
import type { UnitState } from '../unit/unitstate.js';

export interface Measured {
  readonly check: RouteCheck;
  readonly answered: JournalEvent & { readonly kind: 'answered' };
  /** Nothing to draw where the readings give no figure. */
  readonly frame: AsMeasured | undefined;
}

export function lastMeasured({ open, instruments, rules }: World): Measured | undefined {
  const answered = open && lastSet(open.state);
  const check = answered && findCheck(open.state.route, answered.check)?.check;
  if (!check || answered.answer.kind !== 'square') return undefined;
  const readings = answered.answer.readings as LoggedSet;
  const tools = toolsOf(readings, instruments);
  const solution = solveSquare(valuesOf(readings), {
    ...(check.nominal ? { nominal: check.nominal } : {}),
    ...tools,
  });
  const read = unitRead('mm', Object.values(tools.instruments ?? {})[0], rules.units);
  return { check, answered, frame: asMeasured(solution, check.nominal, read === 'inch' ? 'inch' : 'mm') };
}

/** The last set that was not taken back. */
function lastSet({ events }: UnitState): Measured['answered'] | undefined {
  const gone = new Set(events.flatMap((event) => (event.kind === 'corrected' ? [event.of] : [])));
  return events.findLast(
    (event): event is Measured['answered'] =>
      event.kind === 'answered' && event.answer.kind === 'square' && !gone.has(event.n),
  );
}
