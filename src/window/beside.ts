/** What lies beside a sash: how much frame or divider stays visible when it is closed, and which pieces run along a divider. */
import { mmText } from '../base/formula.js';
import { endText, partName } from './claims.js';
import type { LightSetOut, Rect, SetOut } from './types.js';

const POINTS = [
  'top_left',
  'top_right',
  'bottom_left',
  'bottom_right',
  'left_top',
  'left_bottom',
  'right_top',
  'right_bottom',
] as const;
type Point = (typeof POINTS)[number];

/** How far in from its corner a point of a side is measured, as a share of the sash. */
const IN = 0.1;

/** From the edge of the sash to the next edge outwards: of the frame, of another sash, or of a fixed light's sight. */
export function visibleBeside({ unit, lights }: SetOut, light: LightSetOut): Record<Point, number> {
  const own = light.sash?.box;
  const others = lights.filter((other) => other !== light).map((other) => other.sash?.box ?? other.box);
  const found = {} as Record<Point, number>;
  for (const point of POINTS) {
    const [side, end] = point.split('_') as [string, string];
    if (!own) found[point] = 0;
    else if (side === 'left' || side === 'right') {
      const y = own.y + own.h * (end === 'bottom' ? IN : 1 - IN);
      const row = others.filter((box) => box.y < y && y < box.y + box.h);
      found[point] = gap(own.x, own.w, unit.width, side === 'left', row.map(level));
    } else {
      const x = own.x + own.w * (end === 'left' ? IN : 1 - IN);
      const column = others.filter((box) => box.x < x && x < box.x + box.w);
      found[point] = gap(own.y, own.h, unit.height, side === 'bottom', column.map(upright));
    }
  }
  return found;
}

const level = ({ x, w }: Rect): readonly [number, number] => [x, x + w];
const upright = ({ y, h }: Rect): readonly [number, number] => [y, y + h];

function gap(
  from: number,
  length: number,
  whole: number,
  before: boolean,
  others: readonly (readonly [number, number])[],
): number {
  if (before) return from - Math.max(0, ...others.map(([, end]) => end).filter((end) => end <= from));
  const to = from + length;
  return Math.min(whole, ...others.map(([start]) => start).filter((start) => start >= to)) - to;
}

/** `add-on left jamb, mullion D1: 21.5 - 1117.5 mm from the bottom end`, for each piece beside a divider. */
export function reliefsOf({ parts, dividers }: SetOut, light: LightSetOut): string[] {
  const { x, y, w, h } = light.box;
  const sides = [
    ['bottom', y, x, w],
    ['top', y + h, x, w],
    ['left', x, y, h],
    ['right', x + w, y, h],
  ] as const;
  return sides.flatMap(([side, edge, start, length]) => {
    const isLevel = side === 'bottom' || side === 'top';
    const divider = dividers.find(({ direction, box }) => {
      if ((direction === 'level') !== isLevel) return false;
      const [low, size] = isLevel ? [box.y, box.h] : [box.x, box.w];
      const touches = side === 'bottom' || side === 'left' ? low + size : low;
      const [from, to] = isLevel ? [box.x, box.x + box.w] : [box.y, box.y + box.h];
      return Math.abs(touches - edge) < 1e-6 && from < start + length && to > start;
    });
    const piece = parts.find((part) => part.light === light.id && part.role === `addon-${side}`);
    const along = parts.find(({ id }) => id === divider?.id);
    if (!piece?.seat || !along) return [];
    const begin = start - piece.seat.from;
    return [
      `${piece.says}, ${partName(along)}: ${mmText(begin)} - ${mmText(begin + length)} mm ${endText(isLevel)}`,
    ];
  });
}
