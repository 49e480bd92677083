/** Where a part lies on its side, or a divider in its room: begun nobody knows where, longer than there is room, or uneven. */
import { mmText } from '../base/formula.js';
import { type Problem, problemFactory } from '../base/problem.js';
import { WINDOW_MESSAGES } from './messages.js';
import type { DraftPart } from './parts.js';
import type { ProfileSet } from './profileset.js';

const raise = problemFactory(WINDOW_MESSAGES);

/** What differs by no more from what it lies on, or stands for, lies there, mm. */
export const LIES_WITHIN = 0.05;

/** @param isMarked whether it carries marks: these are counted from its end, so it must be known where that lies */
export function checkLie(set: ProfileSet, part: DraftPart, isMarked: boolean): Problem[] {
  const { id, path, seat, item, axis, ends, length, start, room } = part;
  if (seat === undefined) return [];
  const at = (key: string) => set.at([...path, key]);
  const isDivider = seat === item;
  if (start === undefined) {
    const over = length - room;
    // In the middle of its room, as the pads at its ends are alike.
    if (isDivider)
      return over > LIES_WITHIN
        ? [
            raise(
              'setout.sticks-out/divider',
              { part: id, length: mmText(length), span: mmText(room) },
              at('length'),
            ),
          ]
        : [];
    // A mitred member fills its side, from corner to corner.
    const mustFill = isMarked || ends.every((angle) => angle < 90);
    return (mustFill ? Math.abs(over) : over) > LIES_WITHIN
      ? [raise('setout.part-start', { part: id, length: mmText(length), fills: mmText(room) }, at('length'))]
      : [];
  }
  const over = start + length - room;
  // A part with a horn sticks out; one that draws back at one end and sticks out at the other is out of place.
  if (start > LIES_WITHIN && over > LIES_WITHIN)
    return [
      raise(
        'setout.sticks-out',
        { part: id, from: mmText(start), fills: mmText(room), over: mmText(over) },
        at('start'),
      ),
    ];
  if (start < -LIES_WITHIN && over < -LIES_WITHIN)
    return [
      raise(
        'setout.sticks-out/before',
        { part: id, before: mmText(-start), fills: mmText(room), short: mmText(-over) },
        at('start'),
      ),
    ];
  // From left to right a window is even; at its head and its foot it may differ.
  return (axis === 'x' || isDivider) && Math.abs(start + over) > LIES_WITHIN
    ? [
        raise(
          'setout.sticks-out/uneven',
          { part: id, from: mmText(start), other: mmText(-over) },
          at('start'),
        ),
      ]
    : [];
}
