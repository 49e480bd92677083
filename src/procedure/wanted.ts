import type { Wanted } from '../measure/fitness.js';
import type { FigureUnit, InstrumentKind, Quantity } from '../measure/types.js';
import { quantityIn } from '../measure/units.js';
import type { RouteCheck } from './types.js';

/** What a check asks of an instrument; undefined if it needs none. */
export const wantedBy = (check: Pick<RouteCheck, 'quantity' | 'unit' | 'instruments'>): Wanted | undefined =>
  check.quantity === undefined
    ? undefined
    : { quantity: check.quantity, unit: check.unit ?? 'mm', kinds: check.instruments };

const BY_FEELING: ReadonlySet<InstrumentKind> = new Set(['feeler', 'straight-edge', 'gauge', 'square']);

/** The quantity of a check that does not say it, as in files older than quantities: by its unit and its instruments. */
export function quantityOf(unit: FigureUnit, kinds: readonly InstrumentKind[]): Quantity {
  return unit === 'mm' && kinds.every((kind) => BY_FEELING.has(kind)) ? 'gap' : quantityIn(unit);
}

/** Every limit a check is held to: those of the set, and those of single readings. */
export const limitsOf = (check: {
  readonly limits: readonly string[];
  readonly points?: readonly { readonly limits?: readonly string[] }[] | undefined;
}): readonly string[] => [
  ...new Set([...check.limits, ...(check.points ?? []).flatMap(({ limits }) => limits ?? [])]),
];
