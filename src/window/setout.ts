/**
 * Sets out a unit: every size, part and mark that follows from the job and the profile set. Total: a unit that cannot
 * be built comes back refused, with the problems that say why.
 */
import { type Problem, problemFactory } from '../base/problem.js';
import { checkBeads } from './beadcheck.js';
import { checkBoxes } from './boxcheck.js';
import { Clearances } from './clash/model.js';
import { rowsOf } from './features.js';
import { type DividerItem, type FrameItem, type LightItem, layOut } from './geometry.js';
import { checkGlass } from './glasscheck.js';
import { dividerItem, lightItem } from './items.js';
import { type Gear, gearOf, type Hinges, hingesOf, lightResult, type Stay, stayOf } from './lightresult.js';
import { placeMarks } from './marks.js';
import { liftSentence, massesOf } from './masses.js';
import { WINDOW_MESSAGES } from './messages.js';
import { Numbers } from './numbers.js';
import { checkOrder } from './ordercheck.js';
import { packersOf } from './packers.js';
import { checkParts, MOST } from './partcheck.js';
import { draftParts } from './parts.js';
import { datumText, Seats } from './places.js';
import type { ProfileSet } from './profileset.js';
import { checkRings } from './ringcheck.js';
import { fittedName } from './setformulas.js';
import { Sheet, sizesOf } from './sheet.js';
import { type CutSum, type Extra, FITTINGS, type Part, type Rect, type SetOut, type Unit } from './types.js';
import { windowWords } from './words.js';

const raise = problemFactory(WINDOW_MESSAGES);

export interface SetOutOptions {
  /** Ids of problems a named person has overridden, with a reason in the unit's journal. */
  readonly overridden?: readonly string[];
  /** Side that ties resolve to, seen from outside; default right. */
  readonly tieTo?: 'right' | 'left';
}

export function setOut(unit: Unit, set: ProfileSet, options: SetOutOptions = {}): SetOut {
  const found = workOut(unit, set, options, false);
  let numbers: Numbers | undefined;
  return Object.defineProperty(found, 'numbers', {
    enumerable: true,
    configurable: true,
    get() {
      numbers ??= workOut(unit, set, options, true).numbers;
      return numbers;
    },
  });
}

type WorkedOut = Omit<SetOut, 'numbers'> & { readonly numbers: Numbers };

function workOut(unit: Unit, set: ProfileSet, options: SetOutOptions, recording: boolean): WorkedOut {
  const problems: Problem[] = [...set.divided];
  const warnings: Problem[] = [];
  const numbers = new Numbers(set, unit.job, recording);
  const unitSheet = new Sheet(set, numbers, 'unit');
  numbers.fromJob('unit.width', unit.width);
  numbers.fromJob('unit.height', unit.height);
  unitSheet.known('unit', 'width', unit.width);
  unitSheet.known('unit', 'height', unit.height);
  const fitted = new Set<string>(unit.fittings);
  unitSheet.flags(
    'fitted',
    Object.fromEntries([
      ...FITTINGS.map((fitting) => [fittedName(fitting), fitted.has(fitting)] as const),
      ['restrictor', unit.needs.restrictor] as const,
    ]),
  );
  unitSheet.sizes();

  const geometry = layOut(unit, set, numbers, unitSheet);
  problems.push(...geometry.problems);
  const frame: FrameItem = {
    sheet: unitSheet,
    faces: geometry.frame,
    box: { x: 0, y: 0, w: unit.width, h: unit.height },
  };
  const lights = geometry.lights.map((placed, i) =>
    lightItem(`L${i + 1}`, placed, unit, set, numbers, unitSheet, problems),
  );
  const dividers = geometry.dividers.map((placed) =>
    dividerItem(placed, set, numbers, unitSheet, geometry.frame.floor),
  );

  const gears = new Map<string, Gear>();
  for (const light of lights) {
    const gear = light.scope === 'opening' ? gearOf(set, numbers, light, problems) : undefined;
    if (gear) gears.set(light.id, gear);
  }

  const drafts = draftParts(set, numbers, frame, lights, dividers);
  if (recording)
    for (const { id, origin } of drafts) numbers.made(`datum.${id}`, origin, 'mm', numbers.sum`${origin}`);
  const mass = massesOf(set, numbers, unitSheet, lights, dividers, drafts);
  unitSheet.known('unit', 'mass', mass);
  const stays = new Map<string, Stay>();
  const hinges = new Map<string, Hinges>();
  for (const light of lights) {
    // Of a kind that the set does not make there is nothing to hang.
    if (light.scope !== 'opening' || !set.file.lights.includes(light.kind)) continue;
    const hung = hingesOf(set, light, problems, warnings);
    if (hung) hinges.set(light.id, hung);
    if (set.file.hardware.hinges) {
      const count = hung?.at.length ?? 0;
      light.sheet.known('hinges', 'count', count);
      numbers.fromSet(`hinges.${light.id}.count`, count, 'count', set.file.hardware.hinges.source);
    }
    const chart = set.file.hardware.stays;
    if (!chart) continue;
    const onHinges = set.file.hardware.hinges?.list.some((row) => row.for === light.kind);
    const stay = onHinges ? undefined : stayOf(set, light, problems, warnings);
    if (stay) stays.set(light.id, stay);
    const sizes = { length: stay?.length ?? 0, clear_loss: stay?.clearLoss ?? 0 };
    for (const [field, value] of Object.entries(sizes)) {
      light.sheet.known('stay', field, value);
      numbers.fromSet(`stay.${light.id}.${field}`, value, 'mm', chart.source);
    }
  }

  const seats = new Seats(drafts);
  const packers = packersOf(set, numbers, lights, seats);
  const locks = new Map([...gears].map(([id, gear]) => [id, gear.locks]));
  const places = new Map([...hinges].map(([id, { at }]) => [id, at]));
  // If lights do not fit there is nothing to mark: anything further would bury the real problem.
  const fits = !problems.some(({ id }) => id.startsWith('layout.'));
  const rows = fits
    ? [
        ...rowsOf(set, numbers, unitSheet, lights, dividers, seats, { locks, hinges: places }, problems),
        ...packers.rows,
      ]
    : [];
  const { floor: _floor, ...faces } = geometry.frame;
  if (fits) {
    problems.push(...checkParts(set, drafts, new Set(rows.map(({ part }) => part)), faces));
    problems.push(...checkRings(set, drafts), ...checkBeads(set, drafts, lights));
    for (const light of lights) problems.push(...checkBoxes(set, light, unit), ...checkGlass(set, light));
  }
  const clearances = Clearances.of(set, unitSheet);
  const marks = placeMarks(set, numbers, rows, clearances, options.tieTo === 'left' ? -1 : 1);
  problems.push(...marks.problems);
  warnings.push(...marks.warnings);

  const clearLoss = new Map(lights.map(({ id }) => [id, stays.get(id)?.clearLoss]));
  if (fits) problems.push(...checkOrder(set, unit, unitSheet, lights, dividers, clearLoss));
  const sums = cutSums(unit, geometry.frame, lights, dividers);
  for (const { direction, at, error } of sums)
    if (fits && Math.abs(error) > 1e-6)
      problems.push(raise('setout.sum', { direction: windowWords(direction), at, error }));
  // A formula may be read in several places; report it once.
  for (const name of new Set(unitSheet.failed))
    problems.push(raise('set.number/gives', { name, unit: unit.id }, { file: set.source }));

  const parts = drafts.map(
    (draft): Part => ({
      id: draft.id,
      role: draft.role,
      light: lights.some(({ id }) => id === draft.item) ? draft.item : null,
      profile: draft.profile,
      length: draft.length,
      quantity: draft.quantity,
      ends: draft.ends,
      datum: datumText(draft.axis),
      label: [unit.id, draft.item, draft.says].filter((word) => word !== null).join(' '),
      says: draft.says,
      kind: draft.kind,
      mass_kg: draft.mass_kg,
      seat: draft.seat === undefined ? null : { axis: draft.axis, from: draft.origin, across: draft.across },
      marks: marks.byPart.get(draft.id) ?? [],
    }),
  );
  const extras = extrasOf(set, unitSheet, lights, dividers, parts, problems);
  const overridden = new Set(options.overridden ?? []);
  return {
    unit,
    refused: problems.some(({ id }) => !overridden.has(id)),
    problems,
    warnings,
    profileSet: { name: set.name, title: set.title, invented: set.invented },
    ...(set.file.product && { product: set.file.product.unit }),
    sizes: sizesOf(set, 'unit', unitSheet),
    frame: {
      w: unitSheet.get('frame', 'w'),
      h: unitSheet.get('frame', 'h'),
      diagonal: unitSheet.get('frame', 'diagonal'),
    },
    mass_kg: mass,
    lift: liftSentence(mass),
    lights: lights.map((light) =>
      lightResult(set, numbers, light, {
        gear: gears.get(light.id),
        stay: stays.get(light.id),
        hinges: hinges.get(light.id),
        parts: drafts,
        marks,
        packers: fits ? packers.drafts.filter((packer) => packer.light === light.id) : [],
        problems,
      }),
    ),
    dividers: dividers.map(({ id, placed, length }) => ({
      id,
      direction: placed.direction,
      joint: placed.joint,
      length,
      centre: placed.centre,
      box: placed.box,
    })),
    parts,
    extras,
    sums,
    inner: {
      x: geometry.frame.left,
      y: geometry.frame.bottom,
      w: unit.width - geometry.frame.left - geometry.frame.right,
      h: unit.height - geometry.frame.bottom - geometry.frame.top,
    },
    figures: set.figures,
    titles: Object.fromEntries(Object.entries(set.file.features).map(([kind, { title }]) => [kind, title])),
    numbers,
  };
}

export const setOutMany = (units: readonly Unit[], set: ProfileSet, options?: SetOutOptions): SetOut[] =>
  units.map((unit) => setOut(unit, set, options));

function extrasOf(
  set: ProfileSet,
  unitSheet: Sheet,
  lights: readonly LightItem[],
  dividers: readonly DividerItem[],
  parts: readonly Part[],
  problems: Problem[],
): Extra[] {
  const { pieces } = set.file;
  const out: Extra[] = [];
  const byItem = new Map<string | null, Map<string, number>>();
  const add = (scope: keyof typeof pieces, item: string | null, sheet: Sheet): void => {
    for (const [i, { name, place, quantity, marks, when }] of pieces[scope].entries()) {
      if (!sheet.holds(when)) continue;
      const each = sheet.value(quantity);
      const count = marks === undefined ? 1 : (counted(item).get(marks) ?? 0);
      const total = Math.round(each * count);
      if (total < 0 || Math.abs(each - Math.round(each)) > 1e-6)
        problems.push(
          raise(
            'setout.below-none',
            { what: `${name}.quantity`, value: String(each) },
            set.at(['pieces', scope, i, 'quantity']),
          ),
        );
      if (total > MOST)
        problems.push(
          raise(
            'setout.below-none/more',
            { what: `${name}.quantity`, value: String(total), most: MOST },
            set.at(['pieces', scope, i, 'quantity']),
          ),
        );
      if (total > 0) out.push({ name, place, item, quantity: total });
    }
  };
  add('unit', null, unitSheet);
  for (const { id, sheet } of dividers) add('divider', id, sheet);
  for (const { id, scope, sheet } of lights) add(scope, id, sheet);
  return out;

  /** Marks of each kind for a light or divider, or for the whole unit. */
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

// Sum check: across every cut through the window, frame, lights and dividers must add up to the whole.

/** One level and one upright cut through each strip between neighbouring lines. */
function cutSums(
  unit: Unit,
  faces: Readonly<Record<'left' | 'right' | 'top' | 'bottom', number>>,
  lights: readonly LightItem[],
  dividers: readonly DividerItem[],
): CutSum[] {
  const boxes: { readonly id: string; readonly box: Rect }[] = [
    ...lights.map(({ id, boxes: all }) => ({ id, box: all.get('sight')! })),
    ...dividers.map(({ id, placed }) => ({ id, box: placed.box })),
  ];
  const cuts: CutSum[] = [];
  for (const direction of ['level', 'upright'] as const) {
    const level = direction === 'level';
    const edges = [
      ...new Set(boxes.flatMap(({ box }) => (level ? [box.y, box.y + box.h] : [box.x, box.x + box.w]))),
    ].sort((a, b) => a - b);
    for (let i = 1; i < edges.length; i++) {
      const [low, high] = [edges[i - 1]!, edges[i]!];
      if (high - low < 1e-6) continue;
      const at = (low + high) / 2;
      const crossed = boxes
        .filter(({ box }) => (level ? box.y < at && box.y + box.h > at : box.x < at && box.x + box.w > at))
        .map(({ id, box }) => ({ id, from: level ? box.x : box.y, length: level ? box.w : box.h }))
        .sort((a, b) => a.from - b.from);
      const terms = [
        { what: level ? 'left frame' : 'bottom frame', length: level ? faces.left : faces.bottom },
        ...crossed.map(({ id, length }) => ({ what: id, length })),
        { what: level ? 'right frame' : 'top frame', length: level ? faces.right : faces.top },
      ];
      const whole = level ? unit.width : unit.height;
      cuts.push({
        direction,
        at,
        terms,
        whole,
        error: terms.reduce((sum, { length }) => sum + length, 0) - whole,
      });
    }
  }
  return cuts;
}
