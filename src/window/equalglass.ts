/**
 * Equal glass: dividers so placed that every light of a split gets the same glass size, which is not the same as equal
 * sight sizes where a fixed light stands beside a sash.
 */
import { type Problem, raiser } from '../ground/problem.js';
import { makeupOf } from './glass.js';
import { lightSheet } from './lightsheet.js';
import { WINDOW_MESSAGES } from './messages.js';
import { Numbers } from './numbers.js';
import type { ProfileSet } from './profileset.js';
import type { Sheet } from './sheet.js';
import type { Direction, Layout, LightKind, Unit } from './types.js';

const raise = raiser(WINDOW_MESSAGES);

export interface EqualGlass {
  readonly glass: number;
  /** Sums of offset / slope and 1 / slope over the parts. */
  readonly offsets: number;
  readonly slopes: number;
  /** glass = offset + slope * sight, for each part. */
  readonly parts: readonly { readonly offset: number; readonly slope: number }[];
}

interface Work {
  readonly unit: Unit;
  readonly set: ProfileSet;
  readonly unitSheet: Sheet;
}

export function equalGlass(
  parts: readonly Layout[],
  direction: Direction,
  work: Work,
  space: number,
): EqualGlass | Problem {
  const lines: { offset: number; slope: number }[] = [];
  for (const part of parts) {
    const leaves = leavesAcross(part, direction);
    if (!leaves)
      return raise(
        'layout.equal-glass',
        'A part of the split is itself split the same way, so that its lights are not as wide as the part.',
      );
    const found = leaves.map((leaf) => glassLine(leaf, direction, work));
    const first = found[0]!;
    if (
      found.some(
        (line) => Math.abs(line.offset - first.offset) > 1e-6 || Math.abs(line.slope - first.slope) > 1e-9,
      )
    )
      return raise(
        'layout.equal-glass',
        'Lights above one another in a part of the split have different deductions.',
      );
    if (!(first.slope > 1e-9))
      return raise('layout.equal-glass', 'The glass does not grow with the sight size in this profile set.');
    lines.push(first);
  }
  const offsets = lines.reduce((sum, { offset, slope }) => sum + offset / slope, 0);
  const slopes = lines.reduce((sum, { slope }) => sum + 1 / slope, 0);
  return { glass: (space + offsets) / slopes, offsets, slopes, parts: lines };
}

/** Lights of which each spans the part from side to side. */
function leavesAcross(part: Layout, direction: Direction): Extract<Layout, { type: 'light' }>[] | undefined {
  if (part.type === 'light') return [part];
  if (part.direction === direction) return undefined;
  const inner = part.parts.map((each) => leavesAcross(each, direction));
  return inner.some((each) => each === undefined) ? undefined : inner.flatMap((each) => each!);
}

/** The set's own formulas tried at two sight sizes: glass is a straight line of the sight size in every usable set. */
function glassLine(leaf: Extract<Layout, { type: 'light' }>, direction: Direction, work: Work) {
  const at = (size: number): number => {
    const sight = direction === 'upright' ? { w: size, h: 1000 } : { w: 1000, h: size };
    const sheet = lightSheet(work.set, new Numbers(work.set, '', false), work.unitSheet, {
      id: 'L0',
      kind: leaf.kind as LightKind,
      ...(leaf.hinge && { hinge: leaf.hinge }),
      makeup: makeupOf(leaf.glass, work.unit.glasses ?? {}, work.set) ?? {
        panes: [4],
        gaps: [],
        title: '',
        safety: false,
      },
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
