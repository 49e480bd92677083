/** Resolves the words of mark rules ("addon.handle", "ends", "bottom") to parts, sides and stretches of the window. */
import { type DividerItem, isDivider, isLevelSide, type LightItem, type Side } from './geometry.js';
import { handleSide } from './handing.js';
import type { DraftPart } from './parts.js';
import type { Wall } from './setschema.js';

export interface PartPlace {
  readonly part: DraftPart;
  /** Which way the mark opens: 1 up or right, -1 down or left, 0 through the part or on a piece of one light. */
  readonly face: -1 | 0 | 1;
  readonly side: string;
}

export class Seats {
  readonly #parts: ReadonlyMap<string, DraftPart>;

  constructor(parts: readonly DraftPart[]) {
    this.#parts = new Map(
      parts.flatMap((part) => (part.seat === undefined ? [] : [[part.seat, part] as const])),
    );
  }

  /** The part `on` names for a light; undefined if the set has no part there. */
  ofLight(light: LightItem, on: string): (PartPlace & { readonly at: Side }) | undefined {
    const [box, word] = on.includes('.') ? (on.split('.') as [string, string]) : [undefined, on];
    const side = sideOf(light, word);
    if (side === undefined) return undefined;
    if (box !== undefined) {
      const part = this.#parts.get(`${light.id}.${box}.${side}`);
      return part && { part, face: 0, side: faceText(side), at: side };
    }
    const member = light.bounds[side];
    const part = this.#parts.get(isDivider(member) ? member : `frame.${member}`);
    // A light's bottom member opens upwards to it, its head opens downwards.
    const face = side === 'bottom' || side === 'left' ? 1 : -1;
    return part && { part, face, side: faceText(side), at: side };
  }

  /** A member of the frame. */
  ofFrame(on: string): (PartPlace & { readonly at: Side }) | undefined {
    const part = this.#parts.get(`frame.${on}`);
    const side = on as Side;
    return (
      part && { part, face: side === 'bottom' || side === 'left' ? 1 : -1, side: faceText(side), at: side }
    );
  }

  ofDivider({ id, placed }: DividerItem, on: string): PartPlace[] {
    if (on === 'self') {
      const part = this.#parts.get(id);
      return part ? [{ part, face: 0, side: 'along the divider' }] : [];
    }
    return placed.ends.flatMap((member): PartPlace[] => {
      const part = this.#parts.get(isDivider(member) ? member : `frame.${member}`);
      return part ? [{ part, face: 0, side: 'inner side' }] : [];
    });
  }
}

export function sideOf(light: LightItem, word: string): Side | undefined {
  if (word === 'hinge') return light.hinge;
  if (word === 'handle') return light.hinge && handleSide(light.hinge);
  return word as Side;
}

const faceText = (side: Side): string =>
  ({ bottom: 'upper side', top: 'under side', left: 'right side', right: 'left side' })[side];

const BEHIND: Readonly<Record<string, string>> = {
  'upper side': 'under side',
  'under side': 'upper side',
  'left side': 'right side',
  'right side': 'left side',
};

/** The wall in words: `upper side` of a sill, `outside`. */
export function wallText(wall: Wall | undefined, rebateSide: string): string {
  if (wall === undefined || wall === 'rebate') return rebateSide;
  if (wall === 'back') return BEHIND[rebateSide] ?? rebateSide;
  return wall;
}

export const datumText = (axis: 'x' | 'y'): string =>
  axis === 'x' ? 'left end, seen from outside' : 'bottom end, seen from outside';

export { isLevelSide };
