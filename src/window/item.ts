/** A light or divider while it is being set out: its sheet, its boxes in the window's coordinates, and what it is for. */
import type { Bounds, Member, PlacedDivider, Region } from './geometry.js';
import type { Sheet } from './sheet.js';
import type { HingeSide, LightKind, Makeup, Rect } from './types.js';

export type Side = 'left' | 'right' | 'top' | 'bottom';

export interface LightItem {
  readonly id: string;
  readonly kind: LightKind;
  readonly scope: 'fixed' | 'opening';
  readonly hinge?: HingeSide;
  readonly opensIn: boolean;
  readonly glass: string;
  readonly makeup: Makeup;
  readonly region: Region;
  readonly bounds: Bounds;
  readonly sheet: Sheet;
  /** `sight` and every box of the set, from the window's left and bottom outer edges. */
  readonly boxes: ReadonlyMap<string, Rect>;
  readonly handleAt?: number;
}

export interface DividerItem {
  readonly id: `D${number}`;
  readonly placed: PlacedDivider;
  readonly sheet: Sheet;
  /** Where its part begins: bottom or left end. */
  readonly start: number;
  readonly length: number;
}

export interface FrameItem {
  readonly sheet: Sheet;
  readonly faces: Readonly<Record<Side, number>>;
  readonly box: Rect;
}

export const isDivider = (member: Member): member is `D${number}` => /^D\d/.test(member);
export const isLevelSide = (side: Side): boolean => side === 'top' || side === 'bottom';
