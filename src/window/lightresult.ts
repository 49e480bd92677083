/** What the other rooms see of a light. */
import { type Problem, raiser } from '../base/problem.js';
import { wholeThickness } from './glass.js';
import { handleSide, sentenceOf } from './handing.js';
import type { Gear, Stay } from './hardware.js';
import type { LightItem } from './item.js';
import type { PlacedMarks } from './marks.js';
import { WINDOW_MESSAGES } from './messages.js';
import type { PackerDraft } from './packers.js';
import type { DraftPart } from './parts.js';
import type { ProfileSet } from './profileset.js';
import type { LightSetOut, Packer, Rect } from './types.js';

const raise = raiser(WINDOW_MESSAGES);

interface Found {
  readonly gear: Gear | undefined;
  readonly stay: Stay | undefined;
  readonly parts: readonly DraftPart[];
  readonly marks: PlacedMarks;
  readonly packers: readonly PackerDraft[];
  readonly problems: Problem[];
}

export function lightResult(set: ProfileSet, light: LightItem, found: Found): LightSetOut {
  const { sheet, id, kind, hinge, boxes, makeup } = light;
  const get = (group: string, field: string): number => sheet.get(group, field);
  const opening = kind !== 'fixed';
  const side = hinge && handleSide(hinge);
  const own = found.parts.filter(({ item }) => item === id);
  const addonPart = side && own.find(({ seat }) => seat === `${id}.addon.${side}`);
  const addonMarks = addonPart ? (found.marks.byPart.get(addonPart.id) ?? []) : [];
  const handleOnSash = get('handle', 'on_sash');
  const rings: Record<string, Rect> = Object.fromEntries(boxes);
  return {
    id,
    kind,
    ...(hinge && { hinge }),
    sentence: sentenceOf(kind, hinge, light.opensIn),
    box: boxes.get('sight')!,
    sight: { w: get('sight', 'w'), h: get('sight', 'h') },
    rebate: { w: get('rebate', 'w'), h: get('rebate', 'h') },
    addon: opening
      ? { w: get('addon', 'w'), h: get('addon', 'h'), diagonal: get('addon', 'diagonal') }
      : null,
    sash: opening
      ? {
          w: get('sash', 'w'),
          h: get('sash', 'h'),
          diagonal: get('sash', 'diagonal'),
          mass_kg: get('sash', 'mass'),
          box: boxes.get('sash')!,
        }
      : null,
    glass: {
      w: get('glass', 'w'),
      h: get('glass', 'h'),
      thickness: wholeThickness(makeup),
      area_m2: get('glass', 'area'),
      mass_kg: get('glass', 'mass'),
      title: makeup.title || light.glass,
      box: boxes.get('glass')!,
    },
    beads: own.filter((part) => part.kind === 'bead').map(({ length, quantity }) => ({ length, quantity })),
    handle: opening ? { on_sash: handleOnSash, on_addon: handleOnAddon() } : null,
    keeps: addonMarks.filter((mark) => mark.kind === 'keep').map(({ at }) => at),
    stay: found.stay?.name ?? null,
    near_limit: found.stay?.near ?? false,
    packers: packersPlaced(light, found),
    packing: set.file.packers[kind].says,
    handle_side: side ?? null,
    gear: found.gear?.name || null,
    stay_length: found.stay?.length ?? 0,
    stay_uses: found.stay?.uses.map(({ says }) => says) ?? [],
    cover: get('glass', 'cover'),
    clearance: get('glass', 'clearance'),
    glass_name: light.glass,
    safety: makeup.safety,
    rings,
  };

  /** Across the closing gap: the same place in the window, measured from the add-on piece's end. Never mirrored. */
  function handleOnAddon(): number {
    const sash = boxes.get('sash')!;
    const addon = boxes.get('addon')!;
    return side === 'bottom' ? sash.x + handleOnSash - addon.x : sash.y + handleOnSash - addon.y;
  }
}

function packersPlaced(light: LightItem, { packers, marks, problems }: Found): Packer[] {
  const glass = light.boxes.get('glass')!;
  return packers.map(({ row, nominal, use, edge, length, thickness, glassStart }): Packer => {
    const placed = marks.rows.get(row)?.marks[0]?.at ?? nominal;
    const centre = placed - glassStart;
    const size = edge === 'bottom' || edge === 'top' ? glass.w : glass.h;
    if (centre - length / 2 < -1e-6 || centre + length / 2 > size + 1e-6)
      problems.push(
        raise(
          'setout.off-part',
          `${light.id}: a ${use} packer ${length} long at ${Math.round(centre * 10) / 10} does not lie under the glass, ${Math.round(size * 10) / 10} long.`,
          undefined,
          'The glass is too small for the packer plan of the profile set.',
        ),
      );
    return { use, edge, centre, length, thickness };
  });
}
