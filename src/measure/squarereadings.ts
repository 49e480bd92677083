/** Readings of a squareness set as they are logged, turned into what the solution is made from. */
import type { SquareOptions, SquareReadings } from './square.js';
import { type Instrument, type Reading, SQUARE_KEYS, type SquareKey } from './types.js';

export type LoggedSet = Readonly<
  Partial<Record<SquareKey, readonly Pick<Reading, 'value' | 'instrument'>[]>>
>;

export const valuesOf = (set: LoggedSet): SquareReadings =>
  Object.fromEntries(Object.entries(set).map(([key, list]) => [key, list.map(({ value }) => value)]));

/** The instrument of each length whose readings name one that the workshop has. */
export function toolsOf(
  set: LoggedSet,
  workshop: readonly Instrument[] = [],
): Pick<SquareOptions, 'instruments'> {
  const own: Partial<Record<SquareKey, Instrument>> = {};
  for (const key of SQUARE_KEYS) {
    const id = set[key]?.[0]?.instrument;
    const tool = id === undefined ? undefined : workshop.find((instrument) => instrument.id === id);
    if (tool) own[key] = tool;
  }
  return Object.keys(own).length > 0 ? { instruments: own } : {};
}
