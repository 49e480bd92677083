/**
 * Sets out a unit: every size, part and mark that follows from the job and the profile set. Total: what cannot be built
 * comes back refused, with the problems that say why.
 */
import { type Problem, raiser } from '../ground/problem.js';
import { Clearances } from './clash/rules.js';
import { extrasOf } from './extras.js';
import { rowsOf } from './features.js';
import { layOut } from './geometry.js';
import { type Gear, gearOf, type Stay, stayOf } from './hardware.js';
import type { FrameItem } from './item.js';
import { dividerItem, lightItem } from './items.js';
import { liftSentence } from './lift.js';
import { lightResult } from './lightresult.js';
import { placeMarks } from './marks.js';
import { massesOf } from './masses.js';
import { WINDOW_MESSAGES } from './messages.js';
import { Numbers } from './numbers.js';
import { checkOrder } from './ordercheck.js';
import { packersOf } from './packers.js';
import { draftParts } from './parts.js';
import { datumText, Seats } from './places.js';
import type { ProfileSet } from './profileset.js';
import { Sheet } from './sheet.js';
import { cutSums } from './sums.js';
import type { Part, SetOut, Unit } from './types.js';

const raise = raiser(WINDOW_MESSAGES);

export interface SetOutOptions {
  /** Ids of problems that a named person has let pass, with a reason that is in the unit's journal. */
  readonly overridden?: readonly string[];
  /** Where a tie is settled to, seen from outside; right where it is not said. */
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
  const problems: Problem[] = [];
  const warnings: Problem[] = [];
  const numbers = new Numbers(set, unit.job, recording);
  const unitSheet = new Sheet(set, numbers, 'unit');
  numbers.fromJob('unit.width', unit.width);
  numbers.fromJob('unit.height', unit.height);
  unitSheet.known('unit', 'width', unit.width);
  unitSheet.known('unit', 'height', unit.height);
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
  for (const light of lights)
    if (light.scope === 'opening') gears.set(light.id, gearOf(set, numbers, light, problems));
  const locks = new Map([...gears].map(([id, gear]) => [id, gear.locks]));

  const drafts = draftParts(set, numbers, frame, lights, dividers);
  if (recording)
    for (const { id, origin } of drafts) numbers.made(`datum.${id}`, origin, 'mm', numbers.sum`${origin}`);
  const mass = massesOf(set, numbers, unitSheet, lights, dividers, drafts);
  unitSheet.known('unit', 'mass', mass);
  const stays = new Map<string, Stay>();
  for (const light of lights) {
    if (light.scope !== 'opening') continue;
    const stay = stayOf(set, light, problems, warnings);
    if (stay) stays.set(light.id, stay);
    const sizes = { length: stay?.length ?? 0, clear_loss: stay?.clearLoss ?? 0 };
    for (const [field, value] of Object.entries(sizes)) {
      light.sheet.known('stay', field, value);
      numbers.fromSet(`stay.${light.id}.${field}`, value, 'mm', set.file.hardware.stays.source);
    }
  }

  const seats = new Seats(drafts);
  const packers = packersOf(set, numbers, lights, seats);
  // Where lights do not fit there is nothing to mark: what follows would be noise beside the problem that counts.
  const fits = !problems.some(({ id }) => id.startsWith('layout.'));
  const rows = fits
    ? [...rowsOf(set, numbers, unitSheet, lights, dividers, seats, locks), ...packers.rows]
    : [];
  const clearances = Clearances.of(set, unitSheet);
  const marks = placeMarks(set, numbers, rows, clearances, options.tieTo === 'left' ? -1 : 1);
  problems.push(...marks.problems);
  warnings.push(...marks.warnings);

  const clearLoss = new Map(lights.map(({ id }) => [id, stays.get(id)?.clearLoss]));
  if (fits) problems.push(...checkOrder(set, unit, unitSheet, lights, dividers, clearLoss));
  const sums = cutSums(unit, geometry.frame, lights, dividers);
  for (const { direction, at, error } of sums)
    if (fits && Math.abs(error) > 1e-6)
      problems.push(
        raise('setout.sum', `Across the ${direction} cut at ${at} the sizes miss the frame by ${error}.`),
      );
  // A formula may be read in several places: one problem for each is enough.
  for (const name of new Set(unitSheet.failed))
    problems.push(
      raise('set.number', `${name} gives no usable number for ${unit.id}.`, { file: set.source }),
    );

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
  const overridden = new Set(options.overridden ?? []);
  return {
    unit,
    refused: problems.some(({ id }) => !overridden.has(id)),
    problems,
    warnings,
    profileSet: { name: set.name, title: set.title, invented: set.invented },
    frame: {
      w: unitSheet.get('frame', 'w'),
      h: unitSheet.get('frame', 'h'),
      diagonal: unitSheet.get('frame', 'diagonal'),
    },
    mass_kg: mass,
    lift: liftSentence(mass),
    lights: lights.map((light) =>
      lightResult(set, light, {
        gear: gears.get(light.id),
        stay: stays.get(light.id),
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
    extras: extrasOf(set, unitSheet, lights, dividers, parts),
    sums,
    inner: {
      x: geometry.frame.left,
      y: geometry.frame.bottom,
      w: unit.width - geometry.frame.left - geometry.frame.right,
      h: unit.height - geometry.frame.bottom - geometry.frame.top,
    },
    figures: set.figures,
    numbers,
  };
}

/** Sets out every unit of a job. */
export const setOutMany = (units: readonly Unit[], set: ProfileSet, options?: SetOutOptions): SetOut[] =>
  units.map((unit) => setOut(unit, set, options));
