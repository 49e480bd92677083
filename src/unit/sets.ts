/** Readings that are taken one by one and judged together: the sides and diagonals of a frame, or the points of a check. */
import type { Message } from '../base/words.js';
import { LENGTH_NAMES } from '../measure/misread.js';
import { nominalOf } from '../measure/square.js';
import { type Reading, SQUARE_KEYS, type SquareKey } from '../measure/types.js';
import type { RouteCheck } from '../procedure/types.js';
import type { CheckState } from './types.js';
import { unitWords } from './words.js';

export type SetReadings = Readonly<Record<string, readonly Reading[]>>;

/** The order in which a frame is read: the sides, both diagonals, then the first diagonal again. */
export const SQUARE_ORDER: readonly SquareKey[] = [
  'bottom',
  'top',
  'left',
  'right',
  'bl_tr',
  'br_tl',
  'bl_tr',
];

export interface SetPlace {
  readonly key: string;
  /** Which reading of that key, counting from 1. */
  readonly time: number;
  /** As the procedure says it, or the name of a side or a diagonal. */
  readonly text: string | Message;
  readonly expect?: number;
  /** Its own limits, instead of those of the set. */
  readonly limits?: readonly string[];
  readonly explains?: string;
}

export const isSet = ({ kind }: Pick<RouteCheck, 'kind'>): boolean => kind === 'square' || kind === 'points';

export const setKeys = (check: RouteCheck): readonly string[] =>
  check.kind === 'square' ? SQUARE_KEYS : (check.points ?? []).map(({ id }) => id);

/** Every reading of a set, in the order in which it is taken. */
export function placesOf(check: Pick<RouteCheck, 'kind' | 'points' | 'nominal'>): readonly SetPlace[] {
  if (check.kind !== 'square')
    return (check.points ?? []).map(({ id, text, expect, limits, explains }) => ({
      key: id,
      time: 1,
      text,
      ...(expect === undefined ? {} : { expect }),
      ...(limits === undefined ? {} : { limits }),
      ...(explains === undefined ? {} : { explains }),
    }));
  return SQUARE_ORDER.map((key, i) => {
    const time = SQUARE_ORDER.slice(0, i).filter((each) => each === key).length + 1;
    return {
      key,
      time,
      text: time > 1 ? unitWords('place-again', { place: LENGTH_NAMES[key] }) : LENGTH_NAMES[key],
      ...(check.nominal ? { expect: nominalOf(key, check.nominal) } : {}),
    };
  });
}

/** The reading to take next; undefined when the set is complete. */
export const nextPlace = (
  check: RouteCheck,
  { partial }: Pick<CheckState, 'partial'>,
): SetPlace | undefined => placesOf(check).find(({ key, time }) => (partial?.[key]?.length ?? 0) < time);

/** Entries of a set in the order given, each reading in place of the one it replaces. */
export function readingsIn(
  entries: readonly {
    readonly key: string;
    readonly reading: Reading;
    readonly replaces?: number | undefined;
  }[],
): SetReadings {
  const found: Record<string, Reading[]> = {};
  for (const { key, reading, replaces } of entries) {
    const list = found[key] ?? [];
    found[key] = list;
    if (replaces !== undefined && replaces <= list.length) list[replaces - 1] = reading;
    else list.push(reading);
  }
  return found;
}
