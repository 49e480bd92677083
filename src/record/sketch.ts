/** A small sketch of the unit seen from outside, in lines: frame, lights, dividers, opening triangles. */
import type { LightSetOut, Rect, SetOut } from '../window/types.js';
import type { LabelMark } from './labelmarks.js';

export interface Room {
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
}

export function sketch(
  setOut: SetOut,
  room: Room,
  triangle: 'apex-at-hinge' | 'apex-at-handle',
): LabelMark[] {
  const { w, h } = setOut.frame;
  const scale = Math.min(room.w / w, room.h / h);
  const [left, top] = [room.x + (room.w - w * scale) / 2, room.y + (room.h - h * scale) / 2];
  const line = (a: Point, b: Point, width: number, dashed = false): LabelMark => ({
    kind: 'line',
    // y of the unit goes up from the sill, y of a label goes down.
    x1: left + a.x * scale,
    y1: top + (h - a.y) * scale,
    x2: left + b.x * scale,
    y2: top + (h - b.y) * scale,
    width,
    dashed,
  });
  const box = (rect: Rect, width: number): LabelMark[] => {
    const [bl, br, tr, tl] = cornersOf(rect);
    return [line(bl, br, width), line(br, tr, width), line(tr, tl, width), line(tl, bl, width)];
  };
  return [
    ...box({ x: 0, y: 0, w, h }, 0.5),
    ...setOut.lights.flatMap((light) => [
      ...box(light.box, 0.2),
      ...opening(light, triangle).map(([a, b]) => line(a, b, 0.25, true)),
    ]),
  ];
}

interface Point {
  readonly x: number;
  readonly y: number;
}

const cornersOf = ({ x, y, w, h }: Rect): [Point, Point, Point, Point] => [
  { x, y },
  { x: x + w, y },
  { x: x + w, y: y + h },
  { x, y: y + h },
];

/** Two lines from the apex to the two corners of the other side. */
function opening(light: LightSetOut, triangle: 'apex-at-hinge' | 'apex-at-handle'): [Point, Point][] {
  if (light.kind === 'fixed' || !light.hinge) return [];
  const [bl, br, tr, tl] = cornersOf(light.box);
  const sides = { left: [bl, tl], right: [br, tr], top: [tl, tr], bottom: [bl, br] } as const;
  const other = { left: 'right', right: 'left', top: 'bottom' } as const;
  const hinge = sides[light.hinge];
  const handle = sides[other[light.hinge]];
  const [apex, base] = triangle === 'apex-at-hinge' ? [hinge, handle] : [handle, hinge];
  const tip = { x: (apex[0].x + apex[1].x) / 2, y: (apex[0].y + apex[1].y) / 2 };
  return base.map((corner) => [tip, corner]);
}
