import { mmText } from '../base/formula.js';
import { nearest } from '../base/knownkeys.js';
import { type Problem, problemFactory } from '../base/problem.js';
import {
  type DividerItem,
  isDivider,
  type LightItem,
  type PlacedDivider,
  type PlacedLight,
} from './geometry.js';
import { makeupOf, NO_GLASS } from './glass.js';
import { WINDOW_MESSAGES } from './messages.js';
import type { Numbers } from './numbers.js';
import type { ProfileSet } from './profileset.js';
import { lightSheet, Sheet, scopeOf } from './sheet.js';
import type { Makeup, Rect, Unit } from './types.js';
import { windowWords } from './words.js';

const raise = problemFactory(WINDOW_MESSAGES);

export function lightItem(
  id: string,
  { leaf, region, bounds }: PlacedLight,
  unit: Unit,
  set: ProfileSet,
  numbers: Numbers,
  unitSheet: Sheet,
  problems: Problem[],
): LightItem {
  if (!set.file.lights.includes(leaf.kind))
    problems.push(
      raise('order.kind', {
        id,
        kind: windowWords(leaf.kind),
        set: set.title,
        kinds: set.file.lights.map((kind) => windowWords(kind)),
      }),
    );
  const makeup = set.file.glass && glassOf(id, leaf.glass, unit, set, problems);
  if (!set.file.glass && leaf.glass !== '')
    problems.push(raise('order.no-glass', { id, glass: leaf.glass, set: set.title }));
  const sight: Rect = {
    x: region.left.at,
    y: region.bottom.at,
    w: region.right.at - region.left.at,
    h: region.top.at - region.bottom.at,
  };
  const scope = scopeOf(leaf.kind);
  const sheet = lightSheet(set, numbers, unitSheet, {
    id,
    kind: leaf.kind,
    ...(leaf.hinge && { hinge: leaf.hinge }),
    opensIn: leaf.opensIn ?? false,
    makeup: makeup ?? NO_GLASS,
    sight,
    why: {
      w: numbers.sum`${region.right.name} - ${region.left.name}`,
      h: numbers.sum`${region.top.name} - ${region.bottom.name}`,
    },
    onDivider: isDivider(bounds.bottom),
    underDivider: isDivider(bounds.top),
  });

  const boxes = new Map<string, Rect>([['sight', sight]]);
  nameBox('sight', sight, () => [numbers.sum`${region.left.name}`, numbers.sum`${region.bottom.name}`]);
  numbers.made(`place.${id}.sight.w`, sight.w, 'mm', numbers.sum`${`sight.${id}.w`}`);
  numbers.made(`place.${id}.sight.h`, sight.h, 'mm', numbers.sum`${`sight.${id}.h`}`);
  for (const [name, box] of Object.entries(set.file.boxes[scope])) {
    const offset = {
      x: sheet.named(`${name}.${id}.x`, box.x, 'mm'),
      y: sheet.named(`${name}.${id}.y`, box.y, 'mm'),
    };
    sheet.known(name, 'x', offset.x);
    sheet.known(name, 'y', offset.y);
    const placed: Rect = {
      x: sight.x + offset.x,
      y: sight.y + offset.y,
      w: sheet.named(`place.${id}.${name}.w`, box.w, 'mm'),
      h: sheet.named(`place.${id}.${name}.h`, box.h, 'mm'),
    };
    boxes.set(name, placed);
    nameBox(name, placed, () => [
      numbers.sum`${`place.${id}.sight.x`} + ${`${name}.${id}.x`}`,
      numbers.sum`${`place.${id}.sight.y`} + ${`${name}.${id}.y`}`,
    ]);
  }
  const agree = (a: string, b: string): boolean =>
    Math.abs(sheet.get('glass', a) - sheet.get('glass', b)) < 1e-6;
  if (makeup && (!agree('w', 'check_w') || !agree('h', 'check_h')))
    problems.push(
      raise(
        'setout.glass',
        {
          id,
          w: String(sheet.get('glass', 'w')),
          h: String(sheet.get('glass', 'h')),
          otherW: String(sheet.get('glass', 'check_w')),
          otherH: String(sheet.get('glass', 'check_h')),
        },
        { file: set.source },
      ),
    );
  // Where the sight is nothing, so is all that follows from it.
  const none = [...boxes].find(([, box]) => !(box.w > 0 && box.h > 0));
  if (none && !problems.some((problem) => problem.id.startsWith('layout.')))
    problems.push(
      raise('layout.room/would', { id, name: none[0], w: mmText(none[1].w), h: mmText(none[1].h) }),
    );
  return {
    id,
    kind: leaf.kind,
    scope,
    ...(leaf.hinge && { hinge: leaf.hinge }),
    opensIn: leaf.opensIn ?? false,
    glass: leaf.glass,
    makeup,
    region,
    bounds,
    sheet,
    boxes,
    ...(leaf.handleAt !== undefined && { handleAt: leaf.handleAt }),
  };

  function nameBox(
    name: string,
    { x, y }: Rect,
    why: () => [ReturnType<Numbers['sum']>, ReturnType<Numbers['sum']>],
  ): void {
    const [forX, forY] = why();
    numbers.made(`place.${id}.${name}.x`, x, 'mm', forX);
    numbers.made(`place.${id}.${name}.y`, y, 'mm', forY);
  }
}

function glassOf(id: string, glass: string, unit: Unit, set: ProfileSet, problems: Problem[]): Makeup {
  const makeup = makeupOf(glass, unit.glasses ?? {}, set);
  if (makeup) return makeup;
  const near = nearest(glass, [
    ...Object.keys(unit.glasses ?? {}),
    ...Object.keys(set.file.glass?.makeups ?? {}),
  ]);
  problems.push(
    glass === ''
      ? raise('job.glass/light', { id, set: set.title })
      : near === undefined
        ? raise('job.glass', { id, glass, set: set.title })
        : raise('job.glass/near', { id, glass, set: set.title, near }),
  );
  return UNKNOWN_GLASS;
}
const UNKNOWN_GLASS: Makeup = { panes: [4, 4], gaps: [16], title: 'unknown glass', safety: false };

export function dividerItem(
  placed: PlacedDivider,
  set: ProfileSet,
  numbers: Numbers,
  unitSheet: Sheet,
  floor: number,
): DividerItem {
  const { id, direction, region, joint, centre } = placed;
  const upright = direction === 'upright';
  const [low, high] = upright ? [region.bottom, region.top] : [region.left, region.right];
  const sheet = new Sheet(set, numbers, 'divider', id, unitSheet);
  const span = high.at - low.at + 2 * floor;
  sheet.given('divider', 'span', span, 'mm', numbers.sum`${high.name} - ${low.name} + 2 * ${'face.floor'}`);
  sheet.known('divider', 'centre', centre);
  sheet.flag('ported', joint === 'ported');
  sheet.flag('cleated', joint === 'cleated');
  sheet.flag('upright', upright);
  sheet.flag('level', !upright);
  sheet.sizes();
  const length = sheet.get('divider', 'length');
  const floors = { from: low.at - floor, length: span };
  const begins = set.file.parts.divider[0]?.start;
  // Where the set does not say where it begins, the pads take the same amount at both ends.
  const start = floors.from + (begins === undefined ? (span - length) / 2 : sheet.value(begins));
  numbers.made(
    `place.${id}.start`,
    start,
    'mm',
    begins === undefined
      ? numbers.sum`${low.name} - ${'face.floor'} + (${`divider.${id}.span`} - ${`divider.${id}.length`}) / 2`
      : numbers.sum`${low.name} - ${'face.floor'} + ${`part.${id}.start`}`,
  );
  return { id, placed, sheet, floors, start, length };
}
