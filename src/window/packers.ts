/** Packer plan of a light: which packers on which edge and where; positions may give way to slots. */
import { CLASSES, type Row } from './features.js';
import { isLevelSide, type LightItem, type Side } from './geometry.js';
import type { MadeSum, Numbers } from './numbers.js';
import { type Seats, sideOf } from './places.js';
import type { ProfileSet } from './profileset.js';
import type { PackerRule } from './setschema.js';
import type { Packer } from './types.js';

export interface PackerDraft {
  readonly light: string;
  readonly use: Packer['use'];
  readonly edge: Side;
  readonly length: number;
  readonly thickness: number;
  /** Id of the row that places it; undefined if the set has no part beneath. */
  readonly row: string;
  readonly nominal: number;
  /** Start of the glass along the edge, from the window's outer edge. */
  readonly glassStart: number;
  /** Of its number in sums, and how its rule places it from the corner of the glass. */
  readonly name: string;
  readonly why: () => MadeSum;
}

export const PACKER = 'packer';

export function packersOf(
  set: ProfileSet,
  numbers: Numbers,
  lights: readonly LightItem[],
  seats: Seats,
): { drafts: PackerDraft[]; rows: Row[] } {
  const drafts: PackerDraft[] = [];
  const rows: Row[] = [];
  const feature = set.file.features[PACKER];
  for (const light of lights) {
    const glass = light.boxes.get('glass');
    if (!glass) continue;
    set.file.packers[light.kind].packers.forEach((rule, i) => {
      const edge = sideOf(light, rule.edge);
      if (edge === undefined) return;
      const level = isLevelSide(edge);
      const start = level ? glass.x : glass.y;
      const size = level ? glass.w : glass.h;
      const names = {
        start: `place.${light.id}.glass.${level ? 'x' : 'y'}`,
        size: `place.${light.id}.glass.${level ? 'w' : 'h'}`,
      };
      const length = light.sheet.value(rule.length);
      const at = light.sheet.value(rule.at);
      const [low, high] = rule.range
        ? [light.sheet.value(rule.range[0]), light.sheet.value(rule.range[1])]
        : [at, at];
      const place = seats.ofLight(light, light.kind === 'fixed' ? edge : `sash.${edge}`);
      for (const fromStart of ends(rule, light)) {
        const position = fromStart ? start + at : start + size - at;
        const name = `packer.${light.id}.${drafts.filter((draft) => draft.light === light.id).length + 1}`;
        light.sheet.named(`${name}.at`, rule.at, 'mm');
        const row = `${light.id}/${PACKER}/${edge}/${i}/${fromStart ? 'start' : 'end'}`;
        drafts.push({
          light: light.id,
          use: rule.use,
          edge,
          length,
          thickness: light.sheet.value(rule.thickness),
          row,
          nominal: position,
          glassStart: start,
          name,
          why: fromStart ? numbers.sum`${`${name}.at`}` : numbers.sum`${names.size} - ${`${name}.at`}`,
        });
        if (!place || !feature) continue;
        rows.push({
          id: row,
          part: place.part,
          kind: PACKER,
          face: place.face,
          side: place.side,
          item: light.id,
          half: length / 2,
          made: CLASSES.indexOf(feature.made) as Row['made'],
          rank: feature.yields,
          from: start,
          length: size,
          layout: {
            is: 'free',
            at: [
              {
                at: position,
                low: feature.moves ? (fromStart ? start + low : start + size - high) : position,
                high: feature.moves ? (fromStart ? start + high : start + size - low) : position,
                half: length / 2,
                why: fromStart
                  ? numbers.sum`${names.start} + ${at}`
                  : numbers.sum`${names.start} + ${names.size} - ${at}`,
              },
            ],
          },
        });
      }
    });
  }
  return { drafts, rows };
}

/** True for a packer near the left or bottom corner, false for one near the right or top. */
function ends({ near }: PackerRule, light: LightItem): boolean[] {
  if (near === 'both') return [true, false];
  const side = sideOf(light, near);
  return side === undefined ? [] : [side === 'left' || side === 'bottom'];
}
