/** The marks that a step of a procedure makes, named by where they are and their kind: `frame/drain-inner`. */
import { mmText } from '../base/formula.js';
import type { Mark, Part, SetOut } from './types.js';

/**
 * `frame` the frame's four members; `divider` the divider itself; `ends` the members that it ends on; `addon`, `sash` the
 * pieces of a light, or one of them: `addon.top`.
 */
export const CLAIM = /^(frame|divider|ends|(addon|sash)(\.(top|bottom|left|right))?)\/[a-z][a-z0-9-]*$/;

export interface ClaimedMark {
  readonly part: Part;
  readonly mark: Mark;
}

/** @param item light or divider of the step; undefined for a step of the unit */
export function claimedMarks(
  { parts }: SetOut,
  claims: readonly string[],
  item: string | undefined,
): ClaimedMark[] {
  return claims.flatMap((claim) => {
    const [where, kind] = claim.split('/') as [string, string];
    return parts
      .filter((part) => isThere(part, where, item))
      .flatMap((part) =>
        part.marks
          .filter((mark) => mark.kind === kind && (where !== 'ends' || mark.item === item))
          .map((mark) => ({ part, mark })),
      );
  });
}

function isThere({ id, role, light }: Part, where: string, item: string | undefined): boolean {
  if (where === 'frame') return role.startsWith('frame-');
  if (where === 'divider') return id === item;
  if (where === 'ends') return light === null && id !== item;
  const [ring, side] = where.split('.') as [string, string | undefined];
  return light === item && (side === undefined ? role.startsWith(`${ring}-`) : role === `${ring}-${side}`);
}

/** A part as the bench calls it: `frame sill`, `transom D2`. */
export function partName({ id, says, role, seat }: Part): string {
  return role === 'divider' ? dividerName(id, seat?.axis === 'y' ? 'upright' : 'level') : says;
}

/** `mullion D1`, `transom D2`. */
export const dividerName = (id: string, direction: string): string =>
  `${direction === 'upright' ? WORDS.mullion : WORDS.transom} ${id}`;

/** One line for each part, wall and kind: what is marked, in the coordinate of that part. */
export function markLines(setOut: SetOut, claimed: readonly ClaimedMark[]): string[] {
  const rows = new Map<string, { readonly part: Part; readonly marks: Mark[] }>();
  for (const { part, mark } of claimed) {
    const key = `${part.id}/${mark.kind}/${mark.side}`;
    const row = rows.get(key) ?? { part, marks: [] };
    row.marks.push(mark);
    rows.set(key, row);
  }
  return [...rows.values()].map(({ part, marks }) => {
    const [{ kind, side }] = marks as [Mark];
    const at = marks.map((mark) => mark.at).sort((a, b) => a - b);
    const moved = marks.filter((mark) => mark.moved_from !== null);
    const from = endText(part.seat?.axis !== 'y');
    const by = moved.map((mark) => mmText(mark.at)).join(', ');
    return `${partName(part)}, ${side}, ${setOut.titles[kind] ?? kind}: ${at.map(mmText).join(', ')} mm ${from}${moved.length > 0 ? ` (${WORDS.moved} ${by})` : ''}`;
  });
}

/** The end that places along a part are measured from. */
export const endText = (isLevel: boolean): string => (isLevel ? WORDS.left : WORDS.bottom);

const WORDS = {
  mullion: 'mullion',
  transom: 'transom',
  left: 'from the left end',
  bottom: 'from the bottom end',
  moved: 'moved by the set-out:',
} as const;
