/** Beads that cannot hold the glass of their light: longer than the side they lie on, or not two of a kind. */
import { mmText } from '../base/formula.js';
import { type Problem, problemFactory } from '../base/problem.js';
import type { LightItem } from './geometry.js';
import { WINDOW_MESSAGES } from './messages.js';
import { LIES_WITHIN } from './partlie.js';
import type { DraftPart } from './parts.js';
import type { ProfileSet } from './profileset.js';

const raise = problemFactory(WINDOW_MESSAGES);

export function checkBeads(
  set: ProfileSet,
  parts: readonly DraftPart[],
  lights: readonly LightItem[],
): Problem[] {
  return lights.flatMap((light) => {
    const all = parts.filter(
      ({ item, kind, quantity }) => item === light.id && kind === 'bead' && quantity > 0,
    );
    const rebate = light.scope === 'fixed' ? 'rebate' : 'sash_rebate';
    const [w, h] = [light.sheet.get(rebate, 'w'), light.sheet.get(rebate, 'h')];
    const at = ({ path }: DraftPart, key: string) => set.at([...path, key]);
    const long = all.filter((bead) => bead.length > roomOf(bead, w, h) + LIES_WITHIN);
    if (long.length > 0)
      return long.map((bead) =>
        raise(
          'setout.sticks-out/bead',
          { part: bead.id, length: mmText(bead.length), side: mmText(roomOf(bead, w, h)) },
          at(bead, 'length'),
        ),
      );
    // Glass is held on all four sides: where the roles tell level beads from upright ones, there are two of each.
    const [level, upright] = ['level', 'upright'].map((way) =>
      all.filter(({ role }) => role.includes(way)).reduce((sum, { quantity }) => sum + quantity, 0),
    ) as [number, number];
    if (level + upright > 0 && (level !== 2 || upright !== 2))
      return [
        raise(
          'setout.beads',
          { item: light.id, level: String(level), upright: String(upright) },
          at(all[0]!, 'quantity'),
        ),
      ];
    return [];
  });
}

/** The rebate's width for a level bead, its height for an upright one; the longer where the role does not say. */
const roomOf = ({ role }: DraftPart, w: number, h: number): number =>
  role.includes('level') ? w : role.includes('upright') ? h : Math.max(w, h);
