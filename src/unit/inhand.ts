/** The instrument a reading is booked to: the one in hand, or none. Nothing is ever taken in its place. */
import type { Problem } from '../base/problem.js';
import { measuresIt, type Wanted, wouldDo } from '../measure/fitness.js';
import { findInstrument } from '../measure/instruments.js';
import type { Instrument } from '../measure/types.js';
import type { RouteCheck } from '../procedure/types.js';
import { unitProblem } from './messages.js';
import type { DecisionContext } from './types.js';

/** @param named the instrument that the action itself names, if any */
export function instrumentFor(
  check: Pick<RouteCheck, 'ask' | 'expect'>,
  wanted: Wanted,
  named: string | undefined,
  context: Pick<DecisionContext, 'inHand' | 'instruments' | 'now'>,
): { readonly instrument: Instrument } | { readonly problem: Problem } {
  const id = named ?? context.inHand;
  const todo = `Scan ${sayOr(wouldDo(context.instruments, wanted, context.now, check.expect))}.`;
  if (id === undefined)
    return {
      problem: unitProblem(
        'build.no-instrument',
        `"${check.ask}" asks for ${wanting(wanted)}.`,
        undefined,
        todo,
      ),
    };
  const instrument = findInstrument(context.instruments, id);
  if (!instrument)
    return { problem: unitProblem('build.unknown-instrument', `"${id}" is no instrument of this workshop.`) };
  if (measuresIt(instrument, wanted)) return { instrument };
  return {
    problem: unitProblem(
      'build.instrument-quantity',
      `${instrument.id} (${instrument.title}) does not measure ${wanting(wanted)}.`,
      undefined,
      todo,
    ),
  };
}

/** "gap, mm", or "length with a tape, mm" where the check asks for a kind. */
const wanting = ({ quantity, unit, kinds }: Wanted): string =>
  `${quantity}${kinds.length === 0 ? '' : ` with a ${kinds.join(' or ')}`}, ${unit}`;

function sayOr(instruments: readonly Instrument[]): string {
  const shown = instruments.slice(0, 4).map(({ id, title }) => `${id} (${title})`);
  return shown.length === 0 ? 'one that does: the workshop lists none that is in date' : shown.join(' or ');
}
