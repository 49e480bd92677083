/** Cleats, chevrons, screws and the like: how many of each, and where they go. */
import type { DividerItem, LightItem } from './item.js';
import type { ProfileSet } from './profileset.js';
import type { Sheet } from './sheet.js';
import type { Extra, Part } from './types.js';

export function extrasOf(
  set: ProfileSet,
  unitSheet: Sheet,
  lights: readonly LightItem[],
  dividers: readonly DividerItem[],
  parts: readonly Part[],
): Extra[] {
  const { pieces } = set.file;
  const out: Extra[] = [];
  const byItem = new Map<string | null, Map<string, number>>();
  const add = (rules: typeof pieces.unit, item: string | null, sheet: Sheet): void => {
    for (const { name, place, quantity, marks, when } of rules) {
      if (!sheet.holds(when)) continue;
      const each = sheet.value(quantity);
      const count = marks === undefined ? 1 : (counted(item).get(marks) ?? 0);
      const total = Math.round(each * count);
      if (total > 0) out.push({ name, place, item, quantity: total });
    }
  };
  add(pieces.unit, null, unitSheet);
  for (const { id, sheet } of dividers) add(pieces.divider, id, sheet);
  for (const { id, scope, sheet } of lights) add(pieces[scope], id, sheet);
  return out;

  /** Marks of each kind for a light or divider, or of the whole unit. */
  function counted(item: string | null): Map<string, number> {
    const known = byItem.get(item);
    if (known) return known;
    const kinds = new Map<string, number>();
    for (const { marks } of parts)
      for (const mark of marks)
        if (item === null || mark.item === item) kinds.set(mark.kind, (kinds.get(mark.kind) ?? 0) + 1);
    byItem.set(item, kinds);
    return kinds;
  }
}
