/** Parts that nobody could make or mark: of no length, of a mass or number that no window has, twice, or of no article. */
import { mmText } from '../base/formula.js';
import { type Problem, problemFactory } from '../base/problem.js';
import { WINDOW_MESSAGES } from './messages.js';
import { checkLie } from './partlie.js';
import type { DraftPart } from './parts.js';
import type { ProfileSet } from './profileset.js';

const raise = problemFactory(WINDOW_MESSAGES);

/** More pieces of one kind than this are no unit's. */
export const MOST = 10_000;

/** No profile of a window has nearly as much (common practice), kg for each metre. */
const MOST_KG_PER_M = 30;

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
    const { id, path, length, quantity, profile, mass_kg } = part;
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
    problems.push(...checkLie(set, part, marked.has(part)));
  }
  return problems;
}
