/** Masses: parts per metre, glass, and the set's allowances; what hangs on the stays is kept separate. */
import type { DividerItem, LightItem } from './geometry.js';
import { add } from './glass.js';
import { type Numbers, total } from './numbers.js';
import type { DraftPart } from './parts.js';
import type { ProfileSet } from './profileset.js';
import type { Sheet } from './sheet.js';
import { windowSays } from './words.js';

interface Term {
  readonly name: string;
  readonly kg: number;
}

/** Mass of the unit, kg. Each sash's own mass goes on its light's sheet as `sash.mass`. */
export function massesOf(
  set: ProfileSet,
  numbers: Numbers,
  unitSheet: Sheet,
  lights: readonly LightItem[],
  dividers: readonly DividerItem[],
  parts: readonly DraftPart[],
): number {
  const whole: Term[] = [];
  const bySash = new Map<string, Term[]>();
  const put = (of: 'unit' | 'sash', light: string | null, name: string, kg: number): void => {
    if (of === 'unit' || light === null) {
      whole.push({ name, kg });
      return;
    }
    const known = bySash.get(light);
    if (known) known.push({ name, kg });
    else bySash.set(light, [{ name, kg }]);
  };
  for (const { item, of, massName, mass_kg } of parts) if (mass_kg !== 0) put(of, item, massName, mass_kg);
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
      put(mass.of, id, name, sheet.named(name, mass.kg, 'kg'));
    }
  });
  for (const { id, scope, sheet } of lights) {
    const glass: Term[] = set.file.glass
      ? [{ name: `glass.${id}.mass`, kg: sheet.get('glass', 'mass') }]
      : [];
    if (scope === 'fixed') {
      whole.push(...glass);
      continue;
    }
    const name = `sash.${id}.mass`;
    const kg = add(name, [...(bySash.get(id) ?? []), ...glass]);
    sheet.known('sash', 'mass', kg);
    whole.push({ name, kg });
  }
  return add('unit.mass', whole);

  function add(name: string, terms: readonly Term[]): number {
    const kg = terms.reduce((sum, term) => sum + term.kg, 0);
    return numbers.made(
      name,
      kg,
      'kg',
      total(
        numbers,
        terms.map((term) => term.name),
      ),
    );
  }
}

// What the mass requires when the unit is moved by hand. A reminder, not a risk assessment.

/**
 * HSE lifting filter, kg, held close to the body between elbow and knuckle: men 25, women 16 (HSE INDG143 / L23, as
 * publicly reproduced). A filter, not a legal limit; lower at arm's length, higher up, lower down or twisting.
 */
const FILTER = { men: 25, women: 16 } as const;
/** Added before a mass is compared: edge seal, fittings and what sticks to them. Common practice is 2 to 3 %. */
const UNCOUNTED = 0.03;

/** Above twice the men's figure, a team of two exceeds the filter however it holds the unit. */
const TWO = 2 * FILTER.men;

/** "one or two people": within the filter of some who might lift it, not of all. The same words on label and bench. */
export function liftOf(mass: number): 'one person' | 'one or two people' | 'two people' | 'lifting aid' {
  const kg = reckoned(mass);
  if (kg <= FILTER.women) return 'one person';
  if (kg <= FILTER.men) return 'one or two people';
  return kg <= TWO ? 'two people' : 'lifting aid';
}

const reckoned = (mass: number): number => mass * (1 + UNCOUNTED);

export function liftSentence(mass: number): string {
  const told = { mass: mass.toFixed(1) };
  switch (liftOf(mass)) {
    case 'one person':
      return windowSays('lift-one', told);
    case 'one or two people':
      return windowSays('lift-one-or-two', {
        ...told,
        men: String(FILTER.men),
        women: String(FILTER.women),
      });
    case 'two people':
      return windowSays('lift-two', told);
    default:
      return windowSays('lift-aid', told);
  }
}
