/**
 * Parts that nobody could make, mark or fit: of no length, twice under one name, of no article, begun nobody knows where, or
 * longer than there is room.
 */
import { mmText } from '../base/formula.js';
import { type Problem, problemFactory } from '../base/problem.js';
import { WINDOW_MESSAGES } from './messages.js';
import type { DraftPart } from './parts.js';
import type { ProfileSet } from './profileset.js';

const raise = problemFactory(WINDOW_MESSAGES);

/** More pieces of one kind than this are no unit's. */
export const MOST = 10_000;

/** No profile of a window has more, kg for each metre. */
const MOST_KG_PER_M = 30;

/** A part that differs by no more from what it lies on begins where that does, mm. */
const LIES_WITHIN = 0.05;

/** @param marked the parts that carry marks @param faces widths of the frame's and the dividers' faces, by name */
export function checkParts(
  set: ProfileSet,
  parts: readonly DraftPart[],
  marked: ReadonlySet<DraftPart>,
  faces: Readonly<Record<string, number>>,
): Problem[] {
  const problems: Problem[] = [];
  // One constant gives most of them: what follows the first is its echo.
  const below = Object.entries(faces).find(([, value]) => value < 0);
  if (below)
    problems.push(
      raise(
        'setout.below-none',
        { what: `layout.${below[0]}`, value: mmText(below[1]) },
        set.at(['layout', below[0]]),
      ),
    );
  const seen = new Set<string>();
  const seats = new Map<string, DraftPart>();
  for (const part of parts) {
    const { id, path, length, quantity, start, room, profile, mass_kg } = part;
    const at = (key: string) => set.at([...path, key]);
    if (seen.has(id)) problems.push(raise('setout.twice', { part: id }, at('role')));
    seen.add(id);
    if (quantity < 0 || !Number.isInteger(quantity))
      problems.push(
        raise('setout.below-none', { what: `${id}.quantity`, value: String(quantity) }, at('quantity')),
      );
    if (quantity > MOST)
      problems.push(
        raise(
          'setout.below-none/more',
          { what: `${id}.quantity`, value: String(quantity), most: MOST },
          at('quantity'),
        ),
      );
    if (quantity > 0 && length <= 0)
      problems.push(
        raise('setout.below-none', { what: `${id}.length`, value: mmText(length) }, at('length')),
      );
    const perMetre = (mass_kg * 1000) / (length * quantity);
    if (length > 0 && quantity > 0 && perMetre > MOST_KG_PER_M)
      problems.push(raise('setout.heavy', { part: id, kg: mmText(perMetre) }, at('kg_per_m')));
    // What hangs on stays or hinges is chosen by its mass.
    if (mass_kg < 0 && quantity > 0 && length > 0)
      problems.push(
        raise('setout.below-none', { what: `${id}.mass`, value: mmText(mass_kg) }, at('kg_per_m')),
      );
    // Of two parts on one side, marks would go to whichever the file names last.
    const other = part.seat === undefined ? undefined : seats.get(part.seat);
    if (part.seat !== undefined) seats.set(part.seat, part);
    if (other && (marked.has(part) || marked.has(other)))
      problems.push(raise('setout.same-side', { part: other.id, other: id }, at('side')));
    if (profile === '') problems.push(raise('setout.no-article', { part: id }, at('profile')));
    if (part.seat === undefined) continue;
    const over = (start ?? 0) + length - room;
    const isMitred = part.ends.every((angle) => angle < 90);
    if (part.seat === part.item) {
      if (start === undefined && over > LIES_WITHIN)
        problems.push(
          raise(
            'setout.sticks-out/divider',
            { part: id, length: mmText(length), span: mmText(room) },
            at('length'),
          ),
        );
    }
    // Marks are counted from the end of their part: where that lies must be known, not guessed.
    else if (start === undefined && (marked.has(part) || isMitred ? Math.abs(over) : over) > LIES_WITHIN)
      problems.push(
        raise('setout.part-start', { part: id, length: mmText(length), fills: mmText(room) }, at('length')),
      );
    const isDivider = part.seat === part.item;
    const from = start ?? 0;
    // From left to right a window is even: a level member, or a divider, ends as far from the one side as from the other.
    if (
      start !== undefined &&
      (part.axis === 'x' || isDivider) &&
      Math.abs(from + over) > LIES_WITHIN &&
      from * over <= 0
    ) {
      problems.push(
        raise(
          'setout.sticks-out/uneven',
          { part: id, from: mmText(from), other: mmText(-over) },
          at('start'),
        ),
      );
      continue;
    }
    // A part with a horn sticks out; one that draws back at one end and sticks out at the other is out of place.
    if (start !== undefined && start > LIES_WITHIN && over > LIES_WITHIN)
      problems.push(
        raise(
          'setout.sticks-out',
          { part: id, from: mmText(start), fills: mmText(room), over: mmText(over) },
          at('start'),
        ),
      );
    if (start !== undefined && start < -LIES_WITHIN && over < -LIES_WITHIN)
      problems.push(
        raise(
          'setout.sticks-out/before',
          { part: id, before: mmText(-start), fills: mmText(room), short: mmText(-over) },
          at('start'),
        ),
      );
  }
  return problems;
}
