/** The sum check: across every cut through the window, frame, lights and dividers add up to the whole. */
import type { DividerItem, LightItem } from './item.js';
import type { CutSum, Rect, Unit } from './types.js';

/** One level and one upright cut through each strip between neighbouring lines. */
export function cutSums(
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
