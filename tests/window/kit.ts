/** What the window tests share: the shipped files, units made in a line, and random windows. */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import fc from 'fast-check';
import { problemText, type Result } from '../../src/base/problem.js';
import { type ProfileSet, parseProfileSet } from '../../src/window/profileset.js';
import type { DividerPositions, Layout, SetOut, Unit } from '../../src/window/types.js';

const ROOT = resolve(import.meta.dirname, '../..');
export const shipped = (file: string) => ({ file, text: readFileSync(resolve(ROOT, file), 'utf8') });

export function value<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(result.problems.map(problemText).join('\n'));
  return result.value;
}
export const w52: ProfileSet = value(parseProfileSet(shipped('shared/profile-sets/w52.yaml')));
export const k70: ProfileSet = value(parseProfileSet(shipped('shared/profile-sets/k70.yaml')));
export const SETS = { w52, k70 } as const;

/** W52 as a file that is filled otherwise: each piece of its text in the first place replaced by the second. */
export function w52With(...edits: readonly (readonly [string | RegExp, string])[]): ProfileSet {
  let { text } = shipped('shared/profile-sets/w52.yaml');
  for (const [from, to] of edits) {
    const next = text.replace(from, to);
    if (next === text) throw new Error(`not in the file: ${from}`);
    text = next;
  }
  return value(parseProfileSet({ file: 'w52.yaml', text }));
}
/** A glass that each set's beads hold. */
export const GLASS = { w52: '4-16-4', k70: '4-20-4' } as const;

export const fixed = (glass = '4-16-4'): Layout => ({ type: 'light', kind: 'fixed', glass });
export const topHung = (more: object = {}): Layout => ({
  type: 'light',
  kind: 'top-hung',
  hinge: 'top',
  glass: '4-16-4',
  ...more,
});
export const sideHung = (hinge: 'left' | 'right', more: object = {}): Layout => ({
  type: 'light',
  kind: 'side-hung',
  hinge,
  glass: '4-16-4',
  ...more,
});
export const split = (
  direction: 'upright' | 'level',
  positions: DividerPositions,
  parts: Layout[],
  joint: 'ported' | 'cleated' = 'ported',
): Layout => ({ type: 'split', direction, joint, positions, parts });
export const at = (...lines: number[]): DividerPositions => ({ by: 'centre-line', at: lines });

export function unit(width: number, height: number, layout: Layout, more: Partial<Unit> = {}): Unit {
  return {
    id: 'T1-1',
    mark: 'T1',
    number: 1,
    job: 'test',
    width,
    height,
    layout,
    room: '',
    note: '',
    outsideColour: '',
    insideColour: '',
    needs: { escape: false, restrictor: false, safetyGlass: false },
    ...more,
  };
}

export const part = (setOut: SetOut, id: string) => {
  const found = setOut.parts.find((each) => each.id === id);
  if (!found) throw new Error(`no part ${id} among ${setOut.parts.map((each) => each.id).join(', ')}`);
  return found;
};
export const marks = (setOut: SetOut, id: string, kind: string): number[] =>
  part(setOut, id)
    .marks.filter((mark) => mark.kind === kind)
    .map((mark) => mark.at);

/** Windows up to three levels deep, of sizes that mostly can be built; some cannot, and must say so. */
export function windows(glass: string): fc.Arbitrary<Unit> {
  const light: fc.Arbitrary<Layout> = fc.oneof(
    fc.constant<Layout>({ type: 'light', kind: 'fixed', glass }),
    fc.option(fc.integer({ min: 150, max: 700 }), { freq: 3, nil: undefined }).map(
      (handleAt): Layout => ({
        type: 'light',
        kind: 'top-hung',
        hinge: 'top',
        glass,
        ...(handleAt && { handleAt }),
      }),
    ),
    fc
      .tuple(
        fc.constantFrom('left' as const, 'right' as const),
        fc.option(fc.integer({ min: 150, max: 900 }), { nil: undefined }),
      )
      .map(
        ([hinge, handleAt]): Layout => ({
          type: 'light',
          kind: 'side-hung',
          hinge,
          glass,
          ...(handleAt && { handleAt }),
        }),
      ),
  );
  const layout = (depth: number): fc.Arbitrary<Layout> =>
    depth === 0
      ? light
      : fc.oneof(
          { weight: 2, arbitrary: light },
          {
            weight: 3,
            arbitrary: fc
              .tuple(
                fc.constantFrom('upright' as const, 'level' as const),
                fc.constantFrom('ported' as const, 'cleated' as const),
                fc.array(layout(depth - 1), { minLength: 2, maxLength: 3 }),
                fc.constantFrom('equal-sight' as const, 'equal-glass' as const, 'ratio' as const),
                fc.array(fc.integer({ min: 2, max: 5 }), { minLength: 3, maxLength: 3 }),
              )
              .map(
                ([direction, joint, parts, by, ratio]): Layout => ({
                  type: 'split',
                  direction,
                  joint,
                  positions: by === 'ratio' ? { by, ratio: ratio.slice(0, parts.length) } : { by },
                  parts,
                }),
              ),
          },
        );
  return fc
    .tuple(fc.integer({ min: 1000, max: 5600 }), fc.integer({ min: 1000, max: 4800 }), layout(3))
    .map(([w, h, tree]) => unit(w / 2, h / 2, tree));
}

/**
 * The same window as seen in a mirror: left for right. A top-hung handle off the middle is measured from the left, so
 * its sash's width is needed, which `made` has.
 */
export function mirrored(of: Unit, made: SetOut): Unit {
  const flip = (layout: Layout, width: number): Layout => {
    if (layout.type === 'light') {
      const hinge = layout.hinge === 'left' ? 'right' : layout.hinge === 'right' ? 'left' : layout.hinge;
      const sash = made.lights.find(
        ({ kind, handle }) =>
          kind === 'top-hung' && layout.kind === kind && handle?.on_sash === layout.handleAt,
      )?.sash;
      return {
        ...layout,
        ...(hinge && { hinge }),
        ...(sash && layout.handleAt !== undefined && { handleAt: sash.w - layout.handleAt }),
      };
    }
    const parts = layout.parts.map((each) => flip(each, width));
    if (layout.direction === 'level') return { ...layout, parts };
    const { positions } = layout;
    const turned: DividerPositions =
      positions.by === 'centre-line'
        ? { by: 'centre-line', at: positions.at.map((line) => width - line).reverse() }
        : positions.by === 'ratio'
          ? { by: 'ratio', ratio: [...positions.ratio].reverse() }
          : positions.by === 'sight-size'
            ? { by: 'sight-size', sizes: [...positions.sizes].reverse() }
            : positions;
    return { ...layout, positions: turned, parts: parts.reverse() };
  };
  return { ...of, layout: flip(of.layout, of.width) };
}
