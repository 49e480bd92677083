/** Lays the tree of splits into the frame and computes every sight line. Origin: bottom left outer corner. */
import { type Problem, problemFactory } from '../base/problem.js';
import { makeupOf, NO_GLASS } from './glass.js';
import { WINDOW_MESSAGES } from './messages.js';
import { exact, type MadeSum, Numbers, total } from './numbers.js';
import type { ProfileSet } from './profileset.js';
import { lightSheet, type Sheet } from './sheet.js';
import type { Direction, DividerJoint, HingeSide, Layout, LightKind, Makeup, Rect, Unit } from './types.js';

const raise = problemFactory(WINDOW_MESSAGES);

/** A line of the window: its position, and the name of that number. */
interface Line {
  readonly at: number;
  readonly name: string;
}
interface Region {
  readonly left: Line;
  readonly right: Line;
  readonly bottom: Line;
  readonly top: Line;
}
/** What bounds a light or ends a divider: a frame member by side, or a divider by id. */
export type Member = 'left' | 'right' | 'bottom' | 'top' | `D${number}`;
type Bounds = Readonly<Record<'left' | 'right' | 'bottom' | 'top', Member>>;

export interface PlacedLight {
  readonly leaf: Extract<Layout, { type: 'light' }>;
  readonly region: Region;
  readonly bounds: Bounds;
}
export interface PlacedDivider {
  readonly id: `D${number}`;
  readonly direction: Direction;
  readonly joint: DividerJoint;
  readonly centre: number;
  readonly face: number;
  readonly region: Region;
  /** The members it ends on: bottom then top, or left then right. */
  readonly ends: readonly [Member, Member];
  readonly box: Rect;
}
export interface Geometry {
  readonly lights: readonly PlacedLight[];
  readonly dividers: readonly PlacedDivider[];
  readonly problems: readonly Problem[];
  /** Widths of the frame faces, and `floor` from sight line to rebate floor. */
  readonly frame: Readonly<Record<'left' | 'right' | 'top' | 'bottom' | 'floor', number>>;
}

const LEAST_SIGHT = 20;

export function layOut(unit: Unit, set: ProfileSet, numbers: Numbers, unitSheet: Sheet): Geometry {
  const { layout } = set.file;
  const face = (side: keyof typeof layout): Line => ({
    at: unitSheet.named(`face.${side}`, layout[side] ?? '0.0', 'mm'),
    name: `face.${side}`,
  });
  const line = (side: string, at: number, why: () => MadeSum): Line => {
    numbers.made(`line.${side}`, at, 'mm', why);
    return { at, name: `line.${side}` };
  };
  const [left, right, top, bottom] = [face('left'), face('right'), face('top'), face('bottom')];
  const floor = face('floor');
  const faces = { upright: face('upright'), level: face('level') };
  const region: Region = {
    left: line('left', left.at, numbers.sum`${left.name}`),
    right: line('right', unit.width - right.at, numbers.sum`${'unit.width'} - ${right.name}`),
    bottom: line('bottom', bottom.at, numbers.sum`${bottom.name}`),
    top: line('top', unit.height - top.at, numbers.sum`${'unit.height'} - ${top.name}`),
  };
  const out: Work = { unit, set, numbers, unitSheet, faces, lights: [], dividers: [], problems: [] };
  place(unit.layout, region, { left: 'left', right: 'right', bottom: 'bottom', top: 'top' }, out);

  // Numbered in reading order: by top edge from the top down, then from the left.
  const near = (a: number, b: number): boolean => Math.abs(a - b) < 1e-6;
  out.lights.sort((a, b) =>
    near(a.region.top.at, b.region.top.at)
      ? a.region.left.at - b.region.left.at
      : b.region.top.at - a.region.top.at,
  );
  return {
    ...out,
    frame: { left: left.at, right: right.at, top: top.at, bottom: bottom.at, floor: floor.at },
  };
}

interface Work {
  readonly unit: Unit;
  readonly set: ProfileSet;
  readonly numbers: Numbers;
  readonly unitSheet: Sheet;
  readonly faces: Readonly<Record<Direction, Line>>;
  readonly lights: PlacedLight[];
  readonly dividers: PlacedDivider[];
  readonly problems: Problem[];
}

function place(layout: Layout, region: Region, bounds: Bounds, work: Work): void {
  if (layout.type === 'light') {
    const w = region.right.at - region.left.at;
    const h = region.top.at - region.bottom.at;
    if (w < LEAST_SIGHT || h < LEAST_SIGHT)
      work.problems.push(raise('layout.room', { w: exact(w), h: exact(h) }));
    work.lights.push({ leaf: layout, region, bounds });
    return;
  }
  const { direction, parts } = layout;
  const upright = direction === 'upright';
  const [own] = work.set.file.joints;
  if (own === undefined) work.problems.push(raise('order.no-divider', { set: work.set.title }));
  const joint: DividerJoint = layout.jointFromSet ? (own ?? layout.joint) : layout.joint;
  if (own !== undefined && !work.set.file.joints.includes(joint))
    work.problems.push(
      raise('order.limit/joint', {
        set: work.set.title,
        joints: work.set.file.joints.join(', '),
        joint,
      }),
    );
  const face = work.faces[direction];
  const first = work.dividers.length + 1;
  const ids = parts.slice(1).map((_, i): `D${number}` => `D${first + i}`);
  const centres = centreLines(layout, region, ids, face, work);
  if (!centres) return;

  const lines = centres.map((centre, i) => {
    const id = ids[i]!;
    const { numbers } = work;
    const low: Line = { at: centre - face.at / 2, name: `divider.${id}.low` };
    const high: Line = { at: centre + face.at / 2, name: `divider.${id}.high` };
    numbers.made(low.name, low.at, 'mm', numbers.sum`${`divider.${id}.centre`} - ${face.name} / 2`);
    numbers.made(high.name, high.at, 'mm', numbers.sum`${`divider.${id}.centre`} + ${face.name} / 2`);
    const w = region.right.at - region.left.at;
    const h = region.top.at - region.bottom.at;
    work.dividers.push({
      id,
      direction,
      joint,
      centre,
      face: face.at,
      region,
      ends: upright ? [bounds.bottom, bounds.top] : [bounds.left, bounds.right],
      box: upright
        ? { x: low.at, y: region.bottom.at, w: face.at, h }
        : { x: region.left.at, y: low.at, w, h: face.at },
    });
    return { id, low, high };
  });

  // First part: left or top.
  parts.forEach((part, i) => {
    const before = lines[i - 1];
    const after = lines[i];
    const inner: Region = upright
      ? { ...region, left: before?.high ?? region.left, right: after?.low ?? region.right }
      : { ...region, top: before?.low ?? region.top, bottom: after?.high ?? region.bottom };
    const within: Bounds = upright
      ? { ...bounds, left: before?.id ?? bounds.left, right: after?.id ?? bounds.right }
      : { ...bounds, top: before?.id ?? bounds.top, bottom: after?.id ?? bounds.bottom };
    place(part, inner, within, work);
  });
}

/** Centre lines in the order of the parts; on failure adds a problem and returns undefined. */
function centreLines(
  layout: Extract<Layout, { type: 'split' }>,
  region: Region,
  ids: readonly string[],
  face: Line,
  work: Work,
): readonly number[] | undefined {
  const { numbers, problems, unit } = work;
  const { positions, direction, parts } = layout;
  const upright = direction === 'upright';
  const [low, high] = upright ? [region.left, region.right] : [region.bottom, region.top];
  if (positions.by === 'centre-line') {
    if (positions.at.length !== ids.length) {
      problems.push(raise('layout.count', { count: ids.length, count2: positions.at.length }));
      return undefined;
    }
    positions.at.forEach((at, i) => {
      numbers.fromJob(`divider.${ids[i]}.centre`, at);
      if (at - face.at / 2 <= low.at || at + face.at / 2 >= high.at)
        problems.push(raise('layout.room/divider', { ids: ids[i]!, at: exact(at) }));
    });
    return positions.at;
  }

  const id = ids[0]!;
  const space = high.at - low.at - ids.length * face.at;
  const spaceName = `split.${id}.space`;
  numbers.made(
    spaceName,
    space,
    'mm',
    numbers.sum`${high.name} - ${low.name} - ${ids.length} * ${face.name}`,
  );
  const sizeName = (i: number): string => `split.${id}.size_${i + 1}`;
  const sizes: number[] = [];
  const put = (i: number, value: number, why?: () => MadeSum): void => {
    sizes[i] = value;
    if (why) numbers.made(sizeName(i), value, 'mm', why);
    else numbers.fromJob(sizeName(i), value);
  };
  switch (positions.by) {
    case 'equal-sight':
      parts.forEach((_, i) => {
        put(i, space / parts.length, numbers.sum`${spaceName} / ${parts.length}`);
      });
      break;
    case 'ratio': {
      const all = positions.ratio.reduce((a, b) => a + b, 0);
      parts.forEach((_, i) => {
        const share = positions.ratio[i] ?? 0;
        put(i, (space * share) / all, numbers.sum`${spaceName} * ${share} / ${all}`);
      });
      break;
    }
    case 'sight-size': {
      const given = positions.sizes.map((size) => (size === 'rest' ? 0 : size));
      const used = given.reduce((a, b) => a + b, 0);
      positions.sizes.forEach((size, i) => {
        if (size !== 'rest') put(i, size);
      });
      const rest = positions.sizes.indexOf('rest');
      if (rest >= 0) {
        const others = positions.sizes.flatMap((size, i) => (size === 'rest' ? [] : [sizeName(i)]));
        put(rest, space - used, () => {
          const sumOf = total(numbers, others)();
          return {
            formula: `${spaceName} - (${sumOf.formula})`,
            filled: `${exact(space)} - (${sumOf.filled})`,
            of: [spaceName, ...others],
          };
        });
      } else if (Math.abs(used - space) > 1e-6) {
        problems.push(
          raise('layout.room/sight', { ids: ids.join(', '), used: exact(used), space: exact(space) }),
        );
        return undefined;
      }
      break;
    }
    case 'equal-glass': {
      const found = equalGlass(parts, direction, work, space);
      if ('todo' in found) {
        problems.push(found);
        return undefined;
      }
      numbers.made(
        `split.${id}.glass`,
        found.glass,
        'mm',
        numbers.sum`(${spaceName} + ${found.offsets}) / ${found.slopes}`,
      );
      found.parts.forEach(({ offset, slope }, i) => {
        put(i, (found.glass - offset) / slope, numbers.sum`(${`split.${id}.glass`} - ${offset}) / ${slope}`);
      });
    }
  }
  if (sizes.some((size) => !(size >= LEAST_SIGHT))) {
    problems.push(
      raise('layout.room/split', {
        ids: ids.join(', '),
        sizes: sizes.map(exact).join(', '),
        width: upright ? unit.width : unit.height,
      }),
    );
    return undefined;
  }
  let line = upright ? low : high;
  return ids.map((divider, i) => {
    const size = sizes[i]!;
    const centre = upright ? line.at + size + face.at / 2 : line.at - size - face.at / 2;
    const from = line.name;
    const why = upright
      ? numbers.sum`${from} + ${sizeName(i)} + ${face.name} / 2`
      : numbers.sum`${from} - ${sizeName(i)} - ${face.name} / 2`;
    numbers.made(`divider.${divider}.centre`, centre, 'mm', why);
    line = upright
      ? { at: centre + face.at / 2, name: `divider.${divider}.high` }
      : { at: centre - face.at / 2, name: `divider.${divider}.low` };
    return centre;
  });
}

// Equal glass: every light of a split gets the same glass size. Sight sizes then differ if a fixed light stands beside
// a sash.

interface EqualGlass {
  readonly glass: number;
  /** Sums of offset / slope and 1 / slope over the parts. */
  readonly offsets: number;
  readonly slopes: number;
  /** glass = offset + slope * sight, for each part. */
  readonly parts: readonly { readonly offset: number; readonly slope: number }[];
}

interface GlassWork {
  readonly unit: Unit;
  readonly set: ProfileSet;
  readonly unitSheet: Sheet;
}

function equalGlass(
  parts: readonly Layout[],
  direction: Direction,
  work: GlassWork,
  space: number,
): EqualGlass | Problem {
  const lines: { offset: number; slope: number }[] = [];
  for (const part of parts) {
    const leaves = leavesAcross(part, direction);
    if (!leaves) return raise('layout.equal-glass');
    const found = leaves.map((leaf) => glassLine(leaf, direction, work));
    const first = found[0]!;
    if (
      found.some(
        (line) => Math.abs(line.offset - first.offset) > 1e-6 || Math.abs(line.slope - first.slope) > 1e-9,
      )
    )
      return raise('layout.equal-glass/lights');
    if (!(first.slope > 1e-9)) return raise('layout.equal-glass/glass');
    lines.push(first);
  }
  const offsets = lines.reduce((sum, { offset, slope }) => sum + offset / slope, 0);
  const slopes = lines.reduce((sum, { slope }) => sum + 1 / slope, 0);
  return { glass: (space + offsets) / slopes, offsets, slopes, parts: lines };
}

/** The lights of a part, if each spans it from side to side. */
function leavesAcross(part: Layout, direction: Direction): Extract<Layout, { type: 'light' }>[] | undefined {
  if (part.type === 'light') return [part];
  if (part.direction === direction) return undefined;
  const inner = part.parts.map((each) => leavesAcross(each, direction));
  return inner.some((each) => each === undefined) ? undefined : inner.flatMap((each) => each!);
}

/** Evaluates the set's own formulas at two sight sizes: glass is linear in the sight size in every usable set. */
function glassLine(leaf: Extract<Layout, { type: 'light' }>, direction: Direction, work: GlassWork) {
  const at = (size: number): number => {
    const sight = direction === 'upright' ? { w: size, h: 1000 } : { w: 1000, h: size };
    const sheet = lightSheet(work.set, new Numbers(work.set, '', false), work.unitSheet, {
      id: 'L0',
      kind: leaf.kind as LightKind,
      ...(leaf.hinge && { hinge: leaf.hinge }),
      opensIn: leaf.opensIn ?? false,
      makeup: makeupOf(leaf.glass, work.unit.glasses ?? {}, work.set) ?? NO_GLASS,
      sight,
      why: { w: nothing, h: nothing },
      onDivider: false,
      underDivider: false,
    });
    return sheet.get('glass', direction === 'upright' ? 'w' : 'h');
  };
  const slope = (at(2000) - at(1000)) / 1000;
  return { slope, offset: at(1000) - slope * 1000 };
}
const nothing = () => ({ formula: '', filled: '', of: [] });

export type Side = 'left' | 'right' | 'top' | 'bottom';

export interface LightItem {
  readonly id: string;
  readonly kind: LightKind;
  readonly scope: 'fixed' | 'opening';
  readonly hinge?: HingeSide;
  readonly opensIn: boolean;
  readonly glass: string;
  /** Undefined where the set has no glass. */
  readonly makeup: Makeup | undefined;
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
  /** The room between the rebate floors that it stands on. */
  readonly floors: { readonly from: number; readonly length: number };
  /** Bottom or left end of its part. */
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
