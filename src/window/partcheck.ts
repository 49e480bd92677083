/** Parts that nobody could make or mark: of no length, twice under one name, of no article, or begun nobody knows where. */
import { mmText } from '../base/formula.js';
import { type Problem, problemFactory } from '../base/problem.js';
import { WINDOW_MESSAGES } from './messages.js';
import type { DraftPart } from './parts.js';
import type { ProfileSet } from './profileset.js';

const raise = problemFactory(WINDOW_MESSAGES);

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
    const { id, path, length, quantity, fills, profile, mass_kg } = part;
    const at = (key: string) => set.at([...path, key]);
    if (seen.has(id)) problems.push(raise('setout.twice', { part: id }, at('role')));
    seen.add(id);
    if (quantity < 0 || !Number.isInteger(quantity))
      problems.push(
        raise('setout.below-none', { what: `${id}.quantity`, value: String(quantity) }, at('quantity')),
      );
    if (quantity > 0 && length <= 0)
      problems.push(
        raise('setout.below-none', { what: `${id}.length`, value: mmText(length) }, at('length')),
      );
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
    // Marks are counted from the end of their part: where that lies must be known, not guessed.
    if (marked.has(part) && fills !== undefined && Math.abs(length - fills) > LIES_WITHIN)
      problems.push(
        raise('setout.part-start', { part: id, length: mmText(length), fills: mmText(fills) }, at('length')),
      );
  }
  return problems;
}
