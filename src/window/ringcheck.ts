/** Frames and sashes whose members do not close at the corners, or bear the name of another side. */
import { type Problem, problemFactory } from '../base/problem.js';
import type { Side } from './geometry.js';
import { WINDOW_MESSAGES } from './messages.js';
import type { DraftPart } from './parts.js';
import type { ProfileSet } from './profileset.js';
import { windowWords } from './words.js';

const raise = problemFactory(WINDOW_MESSAGES);

/** At each corner: which end of the level member meets which end of the upright one. */
const CORNERS = [
  ['bottom', 0, 'left', 0],
  ['bottom', 1, 'right', 0],
  ['top', 0, 'left', 1],
  ['top', 1, 'right', 1],
] as const;

export function checkRings(set: ProfileSet, parts: readonly DraftPart[]): Problem[] {
  const problems: Problem[] = [];
  const rings = new Map<string, Map<Side, DraftPart>>();
  /** Of two parts on one side it is not known which one closes the corner. */
  const doubled = new Set<string>();
  for (const part of parts) {
    const { seat, side, role, path } = part;
    if (seat === undefined || side === undefined) continue;
    const ring = seat.slice(0, seat.lastIndexOf('.'));
    const members = rings.get(ring) ?? new Map<Side, DraftPart>();
    if (members.has(side)) doubled.add(ring);
    rings.set(ring, members.set(side, part));
    const named = sideNamed(role);
    // A role that is given twice is told as that.
    const isAlone = parts.filter(({ id }) => id === part.id).length === 1;
    if (isAlone && named !== undefined && named !== side)
      problems.push(
        raise(
          'setout.wrong-side',
          { part: part.id, side: windowWords(`side-${side}`) },
          set.at([...path, 'side']),
        ),
      );
  }
  for (const [name, ring] of rings)
    for (const [level, i, upright, k] of CORNERS) {
      const [a, b] = [ring.get(level), ring.get(upright)];
      if (!a || !b || doubled.has(name)) continue;
      const [first, second] = [a.ends[i], b.ends[k]];
      if ((first === 90 && second === 90) || Math.abs(first + second - 90) < 1e-6) continue;
      problems.push(
        raise(
          'setout.corner',
          { part: a.id, angle: String(first), other: b.id, otherAngle: String(second) },
          set.at([...a.path, 'ends']),
        ),
      );
    }
  return problems;
}

/** The side that a role names: `sash-left`, `frame-head`. */
function sideNamed(role: string): Side | undefined {
  const word = role.split('-').at(-1)!;
  if (word === 'head') return 'top';
  if (word === 'sill') return 'bottom';
  return ['left', 'right', 'top', 'bottom'].includes(word) ? (word as Side) : undefined;
}
