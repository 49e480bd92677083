/** What must hold of every window, on both profile sets. */
import fc from 'fast-check';
import { afterAll, describe, expect, it } from 'vitest';
import type { ProfileSet } from '../../src/window/profileset.js';
import { setOut } from '../../src/window/setout.js';
import type { SetOut, Trace, Unit } from '../../src/window/types.js';
import { evaluated } from './arithmetic.js';
import { GLASS, mirrored, part, SETS, windows } from './kit.js';

const RUNS = 40;
const hasRoom = (made: SetOut): boolean => !made.problems.some(({ id }) => id.startsWith('layout.'));
const clashes = (made: SetOut): string =>
  made.problems
    .filter(({ id }) => id === 'setout.clash' || id === 'setout.off-part')
    .map(({ text }) => text)
    .join(' ');

for (const [name, set] of Object.entries(SETS) as ['w52' | 'k70', ProfileSet][]) {
  describe(`random windows up to three levels deep on ${name}`, () => {
    let whole = 0;
    const holds = (check: (made: SetOut, unit: Unit) => void, runs = RUNS) =>
      fc.assert(
        fc.property(windows(GLASS[name]), (unit) => {
          const made = setOut(unit, set);
          if (!hasRoom(made)) return;
          whole++;
          check(made, unit);
        }),
        { seed: 70, numRuns: runs },
      );
    // A property that never saw a buildable window would say nothing.
    afterAll(() => expect(whole).toBeGreaterThan(RUNS));

    it('sums close across every cut', () =>
      holds((made, unit) => {
        expect(made.sums.length).toBeGreaterThanOrEqual(2);
        for (const { terms, error, direction } of made.sums) {
          expect(Math.abs(error)).toBeLessThan(1e-6);
          const total = terms.reduce((sum, { length }) => sum + length, 0);
          expect(total).toBeCloseTo(direction === 'level' ? unit.width : unit.height, 6);
        }
      }));

    it('both glass formulas agree, and the glass lies inside its light', () =>
      holds((made) => {
        expect(made.problems.filter(({ id }) => id === 'setout.glass')).toEqual([]);
        for (const { id, glass, box } of made.lights) {
          for (const side of ['w', 'h'] as const)
            expect(made.numbers.get(`glass.${id}.${side}`)!.value).toBeCloseTo(
              made.numbers.get(`glass.${id}.check_${side}`)!.value,
              9,
            );
          expect(glass!.box.x + glass!.box.w / 2).toBeCloseTo(box.x + box.w / 2, 6);
        }
      }));

    it('every mark lies on its part, or a problem says so', () =>
      holds((made) => {
        for (const { id, length, marks } of made.parts)
          for (const { at, kind } of marks)
            if (at < -1e-6 || at > length + 1e-6)
              expect(clashes(made), `${id} ${kind} at ${at}`).toContain(id);
      }));

    it('every pitch and clearance holds, or a problem says which cannot', () =>
      holds((made) => {
        for (const broken of brokenRules(made, set))
          expect(clashes(made), broken.says).toContain(broken.part);
      }));

    it('a mark that moved says from where and why, by whole half millimetres', () =>
      holds((made) => {
        for (const { marks } of made.parts)
          for (const { at, moved_from, reason } of marks) {
            if (moved_from === null) continue;
            expect(reason).toMatch(/moved [\d.]+ (left|right|up|down): ./);
            const steps = (at - moved_from) * 2;
            expect(steps).toBeCloseTo(Math.round(steps), 6);
          }
      }));

    it('proves the least shift, or proves that nothing holds', () =>
      holds((made) => {
        expect(made.warnings.filter(({ id }) => id === 'setout.clash-unproven')).toEqual([]);
        // Packers are kept from slots too, though they are no marks.
        for (const { id, packers, glass } of made.lights)
          for (const { edge, centre, length } of packers) {
            const size = edge === 'bottom' || edge === 'top' ? glass!.w : glass!.h;
            if (centre - length / 2 < -1e-6 || centre + length / 2 > size + 1e-6)
              expect(clashes(made)).toContain(id);
          }
      }));

    it('mirroring a unit mirrors every mark', () =>
      holds((made, unit) => {
        // Two handles at one measure cannot be told apart by it.
        const handles = made.lights.flatMap(({ handle, kind }) =>
          handle && kind === 'top-hung' ? [handle.on_sash] : [],
        );
        if (new Set(handles).size < handles.length) return;
        const other = setOut(mirrored(unit, made), set, { tieTo: 'left' });
        const here = everyMark(made, (x) => x);
        const there = everyMark(other, (x) => unit.width - x);
        expect(there).toEqual(here);
        expect(other.mass_kg).toBeCloseTo(made.mass_kg, 6);
      }));

    it('every trace, worked out again from its numbers, gives the number', () =>
      holds((made) => {
        for (const [, trace] of made.numbers) {
          if (trace.filled === undefined || trace.formula === undefined) continue;
          expect(evaluated(trace.filled), `${trace.name}: ${trace.filled}`).toBeCloseTo(trace.value, 3);
        }
      }, 15));

    it('every trace leads down to the job, the set or a figure written out', () =>
      holds((made) => {
        const leaves = new Set<string>();
        const seen = new Set<Trace>();
        const walk = (trace: Trace, trail: readonly string[]): void => {
          expect(trail).not.toContain(trace.name);
          if (seen.has(trace)) return;
          seen.add(trace);
          if (trace.of.length === 0) {
            leaves.add(trace.name);
            if (trace.formula === undefined) expect(trace.source, trace.name).toBeDefined();
          }
          for (const child of trace.of) walk(child, [...trail, trace.name]);
        };
        for (const [, trace] of made.numbers) walk(trace, []);
        expect(leaves).toContain('unit.width');
      }, 15));

    it('is the same whenever it is worked out', () =>
      holds((made, unit) => {
        const { numbers: _, ...again } = setOut(unit, set);
        const { numbers: __, ...first } = made;
        expect(again).toEqual(first);
      }, 20));
  });
}

/** Marks of all seated parts as places in the window, in order. */
function everyMark(made: SetOut, turn: (x: number) => number): string[] {
  return made.parts
    .flatMap(({ marks, seat, role }) =>
      seat === null
        ? []
        : marks.map(({ kind, at }) => {
            const along = seat.from + at;
            const [x, y] = seat.axis === 'x' ? [turn(along), seat.across] : [turn(seat.across), along];
            const part = role.replace(/left|right/, 'side');
            return `${part} ${kind} ${(Math.round(x * 1e3) / 1e3 + 0).toFixed(2)} ${(Math.round(y * 1e3) / 1e3 + 0).toFixed(2)}`;
          }),
    )
    .sort();
}

/** Pitches and clearances checked on the finished parts, by code that shares nothing with the solver. */
function brokenRules(made: SetOut, set: ProfileSet): { part: string; says: string }[] {
  const { constants, file } = set;
  const number = (text: string): number => evaluated(text, constants);
  const out: { part: string; says: string }[] = [];
  const half = (kind: string): number => number(file.features[kind]!.length) / 2;
  for (const { id, marks } of made.parts) {
    for (const { between, least, from, faces } of file.clearances) {
      for (const a of marks.filter(({ kind }) => kind === between[0]))
        for (const b of marks.filter(({ kind }) => kind === between[1])) {
          if (a === b) continue;
          if (faces === 'opposite' && (a.side === b.side || part(made, id).role !== 'divider')) continue;
          if (faces === 'same' && part(made, id).role === 'divider' && a.side !== b.side) continue;
          const need = number(least) + (from === 'edges' ? half(a.kind) + half(b.kind) : 0);
          if (Math.abs(a.at - b.at) < need - 1e-6)
            out.push({ part: id, says: `${id}: ${a.kind} ${a.at} and ${b.kind} ${b.at} within ${need}` });
        }
    }
    for (const rule of file.marks) {
      if (!('spaced' in rule.rule)) continue;
      const seat = rule.on.includes('.');
      const items = new Set(marks.filter(({ kind }) => kind === rule.kind).map(({ item }) => item));
      // A rule for one box binds the pieces of that box; a rule without a box, frame and dividers.
      const isRing = /^L\d+\./.test(id);
      if (seat !== isRing || (seat && !id.includes(rule.on.split('.')[0]!))) continue;
      for (const item of items) {
        const row = marks.filter((mark) => mark.kind === rule.kind && mark.item === item).map(({ at }) => at);
        const pitch = number(rule.rule.spaced.pitch);
        for (let i = 1; i < row.length; i++)
          if (row[i]! - row[i - 1]! > pitch + 1e-6)
            out.push({ part: id, says: `${id}: ${rule.kind} ${row[i - 1]} to ${row[i]} over ${pitch}` });
      }
    }
  }
  return out;
}
