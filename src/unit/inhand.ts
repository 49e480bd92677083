/** The instrument a reading is booked to: the one in hand, or none. Nothing is ever taken in its place. */
import type { Problem } from '../base/problem.js';
import { type Message, Several } from '../base/words.js';
import { measuresIt, type Wanted, wouldDo } from '../measure/fitness.js';
import { findInstrument } from '../measure/instruments.js';
import type { Instrument } from '../measure/types.js';
import { measureWords } from '../measure/words.js';
import type { RouteCheck } from '../procedure/types.js';
import { dayNow } from './day.js';
import { unitProblem } from './messages.js';
import type { DecisionContext } from './types.js';

/** @param named the instrument that the action itself names, if any */
export function instrumentFor(
  check: Pick<RouteCheck, 'ask' | 'expect'>,
  wanted: Wanted,
  named: string | undefined,
  context: Pick<DecisionContext, 'inHand' | 'instruments' | 'now' | 'today'>,
): { readonly instrument: Instrument } | { readonly problem: Problem } {
  const id = named ?? context.inHand;
  const able = wouldDo(context.instruments, wanted, dayNow(context), check.expect)
    .slice(0, 4)
    .map((each) => `${each.id} (${each.title})`);
  if (id === undefined) {
    const asked = { ask: check.ask, wanted: wanting(wanted) };
    return {
      problem:
        able.length === 0
          ? unitProblem('build.no-instrument/none', asked)
          : unitProblem('build.no-instrument', { ...asked, instruments: new Several(able) }),
    };
  }
  const instrument = findInstrument(context.instruments, id);
  if (!instrument) return { problem: unitProblem('build.unknown-instrument/instrument', { id }) };
  if (measuresIt(instrument, wanted)) return { instrument };
  const wrong = { id: instrument.id, instrument: instrument.title, wanted: wanting(wanted) };
  return {
    problem:
      able.length === 0
        ? unitProblem('build.instrument-quantity/none', wrong)
        : unitProblem('build.instrument-quantity', { ...wrong, instruments: new Several(able) }),
  };
}

/** "gap, mm", or "length with a tape, mm" where the check asks for a kind. */
const wanting = ({ quantity, unit, kinds }: Wanted): Message =>
  kinds.length === 0
    ? measureWords('wanted', { quantity: measureWords(`quantity-${quantity}`), unit })
    : measureWords('wanted-kind', {
        quantity: measureWords(`quantity-${quantity}`),
        kinds: oneOf(kinds.map((kind) => measureWords(`kind-${kind}`))),
        unit,
      });

const oneOf = (items: readonly (string | Message)[]): Several => new Several(items, ' / ');
