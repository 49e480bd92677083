/** Cut pieces: every part of the set this unit needs, with its length and position. */
import { type DividerItem, type FrameItem, isLevelSide, type LightItem, type Side } from './geometry.js';
import { beadFor, wholeThickness } from './glass.js';
import type { Numbers } from './numbers.js';
import type { ProfileSet } from './profileset.js';
import type { Scope } from './setformulas.js';
import type { PartRule } from './setschema.js';
import type { Sheet } from './sheet.js';
import type { Makeup, Rect } from './types.js';

export interface DraftPart {
  readonly id: string;
  /** Where the set gives it. */
  readonly path: readonly PropertyKey[];
  readonly role: string;
  readonly says: string;
  readonly item: string | null;
  readonly kind: PartRule['kind'];
  readonly profile: string;
  readonly length: number;
  readonly quantity: number;
  readonly ends: readonly [number, number];
  readonly of: 'unit' | 'sash';
  readonly mass_kg: number;
  readonly massName: string;
  /** `frame.top`, `L2.sash.bottom`, `D1`: marks look it up by this. */
  readonly seat: string | undefined;
  readonly axis: 'x' | 'y';
  /** Position of its datum end along its axis, from the window's outer edge. */
  readonly origin: number;
  /** How far it begins from the beginning of what it lies on, where the set says so. */
  readonly start: number | undefined;
  /** Length of what it lies on: a side of the frame or of a light, or the room of a divider; 0 for a loose part. */
  readonly room: number;
  readonly side: Side | undefined;
  /** Across its axis: position of its outer edge, and which way its face points. */
  readonly across: number;
}

/** What a part lies on, and where. */
interface Laid extends Pick<DraftPart, 'item' | 'id' | 'seat' | 'axis' | 'across'> {
  readonly scope: Scope;
  /** Where what it lies on begins along the axis, and how long that is. */
  readonly begins: number;
  readonly whole: number;
  /** The glass of its light. */
  readonly makeup?: Makeup | undefined;
}

export function draftParts(
  set: ProfileSet,
  numbers: Numbers,
  frame: FrameItem,
  lights: readonly LightItem[],
  dividers: readonly DividerItem[],
): DraftPart[] {
  const { parts } = set.file;
  const out: DraftPart[] = [];
  for (const rule of parts.unit) {
    const axis = rule.side && isLevelSide(rule.side) ? 'x' : 'y';
    add(rule, frame.sheet, {
      scope: 'unit',
      item: null,
      id: rule.role,
      seat: rule.side && rule.box !== undefined ? `frame.${rule.side}` : undefined,
      axis,
      begins: 0,
      whole: axis === 'x' ? frame.box.w : frame.box.h,
      across: frameMiddle(rule.side),
    });
  }
  for (const { id, placed, sheet, floors, start } of dividers)
    parts.divider.forEach((rule, i) => {
      add(rule, sheet, {
        scope: 'divider',
        item: id,
        // The first part of a divider is the divider.
        id: i === 0 ? id : `${id}.${rule.role}`,
        seat: i === 0 ? id : undefined,
        axis: placed.direction === 'level' ? 'x' : 'y',
        begins: rule.start === undefined ? start : floors.from,
        whole: floors.length,
        across: placed.centre,
      });
    });
  for (const light of lights)
    for (const rule of parts[light.scope]) {
      const box = rule.box === undefined ? undefined : light.boxes.get(rule.box);
      const axis = rule.side && !isLevelSide(rule.side) ? 'y' : 'x';
      add(rule, light.sheet, {
        scope: light.scope,
        item: light.id,
        id: `${light.id}.${rule.role}`,
        seat: rule.side && box ? `${light.id}.${rule.box}.${rule.side}` : undefined,
        axis,
        begins: box ? box[axis] : 0,
        whole: box ? (axis === 'x' ? box.w : box.h) : 0,
        across: box && rule.side ? edge(box, rule.side) : 0,
        makeup: light.makeup,
      });
    }
  return out;

  /** Empty where the table has none. Glass that no bead holds is refused by the order check. */
  function articleOf({ profile }: PartRule, makeup: Makeup | undefined): string {
    if (typeof profile === 'string') return profile;
    const row = makeup && beadFor(set, wholeThickness(makeup));
    return makeup && !row ? '-' : (row?.[profile.by_thickness] ?? '');
  }
  function frameMiddle(side: Side | undefined): number {
    const face = side === undefined ? 0 : frame.faces[side] / 2;
    return side === 'right' ? frame.box.w - face : side === 'top' ? frame.box.h - face : face;
  }
  function edge(box: Rect, side: Side): number {
    return { left: box.x, right: box.x + box.w, bottom: box.y, top: box.y + box.h }[side];
  }

  function add(rule: PartRule, sheet: Sheet, laid: Laid): void {
    const { scope, item, id, seat, axis, begins, whole, across, makeup } = laid;
    if (!sheet.holds(rule.when)) return;
    const name = `part.${id}`;
    const start = rule.start === undefined ? undefined : sheet.named(`${name}.start`, rule.start, 'mm');
    let length: number;
    if (rule.allowance === undefined) length = sheet.named(`${name}.length`, rule.length, 'mm');
    else {
      const net = sheet.named(`${name}.net`, rule.length, 'mm');
      const allowance = sheet.named(`${name}.allowance`, rule.allowance, 'none');
      length = numbers.made(
        `${name}.length`,
        net * (1 + allowance),
        'mm',
        numbers.sum`${`${name}.net`} * (1 + ${`${name}.allowance`})`,
      );
    }
    const quantity = sheet.named(`${name}.quantity`, rule.quantity, 'count');
    const perMetre = sheet.named(`${name}.kg_per_m`, rule.kg_per_m, 'kg/m');
    const massName = `${name}.mass`;
    const mass = numbers.made(
      massName,
      (length * quantity * perMetre) / 1000,
      'kg',
      numbers.sum`${`${name}.length`} * ${`${name}.quantity`} * ${`${name}.kg_per_m`} / 1000`,
    );
    out.push({
      id,
      path: ['parts', scope, parts[scope].indexOf(rule)],
      role: rule.role,
      says: rule.says,
      item,
      kind: rule.kind,
      profile: articleOf(rule, makeup),
      length,
      // Whole but for the last digits of its sum; what is no whole number is told.
      quantity: Math.abs(quantity - Math.round(quantity)) < 1e-6 ? Math.round(quantity) : quantity,
      ends: rule.ends,
      of: rule.of,
      mass_kg: mass,
      massName,
      seat,
      axis,
      origin: begins + (start ?? 0),
      start,
      room: whole,
      side: rule.side,
      across,
    });
  }
}
