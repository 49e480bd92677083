/** Masses: parts by metre, glass, and the allowances of the set; what hangs on the stays apart from the rest. */
import type { DividerItem, LightItem } from './item.js';
import { type Numbers, total } from './numbers.js';
import type { DraftPart } from './parts.js';
import type { ProfileSet } from './profileset.js';
import type { Sheet } from './sheet.js';

export interface Masses {
  readonly unit: number;
  /** By light. */
  readonly sash: ReadonlyMap<string, number>;
}

export function massesOf(
  set: ProfileSet,
  numbers: Numbers,
  unitSheet: Sheet,
  lights: readonly LightItem[],
  dividers: readonly DividerItem[],
  parts: readonly DraftPart[],
): Masses {
  const whole: string[] = [];
  const bySash = new Map<string, string[]>();
  const put = (of: 'unit' | 'sash', light: string | null, name: string): void => {
    if (of === 'sash' && light !== null) bySash.set(light, [...(bySash.get(light) ?? []), name]);
    else whole.push(name);
  };
  for (const { item, of, massName, mass_kg } of parts) if (mass_kg !== 0) put(of, item, massName);
  set.file.masses.forEach((mass, i) => {
    const subjects =
      mass.per === 'unit'
        ? [{ id: null, sheet: unitSheet }]
        : mass.per === 'divider'
          ? dividers.map(({ id, sheet }) => ({ id: id as string | null, sheet }))
          : lights
              .filter(({ scope }) => scope === mass.per)
              .map(({ id, sheet }) => ({ id: id as string | null, sheet }));
    for (const { id, sheet } of subjects) {
      const name = `allowance.${id ?? 'unit'}.${i + 1}`;
      sheet.named(name, mass.kg, 'kg');
      put(mass.of, id, name);
    }
  });
  const sash = new Map<string, number>();
  for (const { id, scope } of lights) {
    if (scope === 'fixed') {
      whole.push(`glass.${id}.mass`);
      continue;
    }
    const names = [...(bySash.get(id) ?? []), `glass.${id}.mass`];
    sash.set(id, numbers.made(`sash.${id}.mass`, add(names), 'kg', total(numbers, names)));
    whole.push(`sash.${id}.mass`);
  }
  return { unit: numbers.made('unit.mass', add(whole), 'kg', total(numbers, whole)), sash };

  function add(names: readonly string[]): number {
    return names.reduce((sum, name) => sum + (numbers.value(name) ?? 0), 0);
  }
}
