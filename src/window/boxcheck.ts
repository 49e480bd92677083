/** Boxes of a light that are not where or not as large as the thing they stand for: packers and marks would follow them. */
import { mmText } from '../base/formula.js';
import { type Problem, problemFactory } from '../base/problem.js';
import type { LightItem } from './geometry.js';
import { WINDOW_MESSAGES } from './messages.js';
import { LIES_WITHIN } from './partlie.js';
import type { ProfileSet } from './profileset.js';
import { windowWords } from './words.js';

const raise = problemFactory(WINDOW_MESSAGES);

/** Glass lies as far from the left as from the right, but for this much, mm. */
const OFF_MIDDLE = 1;

const SIDES = ['left', 'right', 'bottom', 'top'] as const;

/** @param outline overall size of the unit */
export function checkBoxes(
  set: ProfileSet,
  light: LightItem,
  outline: { readonly width: number; readonly height: number },
): Problem[] {
  const { id, scope, sheet, boxes } = light;
  const problems: Problem[] = [];
  const sizes = set.file.sizes[scope];
  const at = (name: string, key: string) => set.at(['boxes', scope, name, key]);
  for (const [name, { w, h }] of boxes) {
    if (name === 'sight') continue;
    const size = (side: 'w' | 'h', own: number): number =>
      Object.hasOwn(sizes, `${name}.${side}`) ? sheet.get(name, side) : own;
    const [sizeW, sizeH] = [size('w', w), size('h', h)];
    if (Math.abs(w - sizeW) > LIES_WITHIN || Math.abs(h - sizeH) > LIES_WITHIN)
      problems.push(
        raise(
          'setout.box-size',
          { id, name, w: mmText(w), h: mmText(h), sizeW: mmText(sizeW), sizeH: mmText(sizeH) },
          at(name, Math.abs(w - sizeW) > LIES_WITHIN ? 'w' : 'h'),
        ),
      );
  }
  for (const name of ['addon', 'sash']) {
    const problem = problems.length === 0 ? misplaced(set, light, name) : undefined;
    if (problem) problems.push(problem);
  }
  const glass = boxes.get('glass');
  const sash = boxes.get('sash');
  const holds = sash ?? boxes.get('sight')!;
  // One box of the wrong size is also in the wrong place: one fault, one message.
  if (!glass || problems.length > 0) return problems;
  const beyond = {
    left: -glass.x,
    right: glass.x + glass.w - outline.width,
    bottom: -glass.y,
    top: glass.y + glass.h - outline.height,
  };
  // A face below nothing is told as such, and glass in a sash is held against the sash.
  const sight = boxes.get('sight')!;
  const isWithin = !sash && sight.x > 0 && sight.y > 0;
  const out = isWithin ? SIDES.find((side) => beyond[side] > LIES_WITHIN) : undefined;
  if (out)
    return [
      raise(
        'setout.glass-place/frame',
        { id, by: mmText(beyond[out]), side: windowWords(`side-${out}`) },
        set.at(['layout', out]),
      ),
    ];
  const past = {
    left: holds.x - glass.x,
    right: glass.x + glass.w - holds.x - holds.w,
    bottom: holds.y - glass.y,
    top: glass.y + glass.h - holds.y - holds.h,
  };
  const off = Math.abs(past.right - past.left) / 2;
  if (off > OFF_MIDDLE) return [raise('setout.glass-place', { id, by: mmText(off) }, at('glass', 'x'))];
  for (const side of SIDES) {
    // In a sash glass ends inside of it; in a fixed light it covers the sight line.
    const by = sash ? past[side] : -past[side];
    if (by <= LIES_WITHIN) continue;
    const said = { id, by: mmText(by), side: windowWords(`side-${side}`) };
    const place = at('glass', side === 'left' || side === 'right' ? 'x' : 'y');
    return [
      sash ? raise('setout.glass-place/out', said, place) : raise('setout.glass-place/short', said, place),
    ];
  }
  return problems;
}

/** A sash or add-on frame lies in the middle from left to right, and past both sight lines or neither from bottom to top. */
function misplaced(set: ProfileSet, { id, scope, boxes }: LightItem, name: string): Problem | undefined {
  const [box, sight] = [boxes.get(name), boxes.get('sight')!];
  if (!box) return undefined;
  const at = (key: string) => set.at(['boxes', scope, name, key]);
  const off = Math.abs(box.x + box.w / 2 - sight.x - sight.w / 2);
  // Sides that differ change places with the hinge.
  const isUneven = set.formula(scope, set.file.boxes[scope][name]!.x).names.includes('hinge_left');
  if (off > LIES_WITHIN && !isUneven)
    return raise('setout.box-place', { id, name, by: mmText(off) }, at('x'));
  const [below, above] = [sight.y - box.y, box.y + box.h - sight.y - sight.h];
  if (Math.min(below, above) > -LIES_WITHIN || Math.max(below, above) < LIES_WITHIN) return undefined;
  return raise(
    'setout.box-place/level',
    { id, name, short: mmText(-Math.min(below, above)), past: mmText(Math.max(below, above)) },
    at('y'),
  );
}
