/** What people and spreadsheets read of a set-out: cut list, marks, the terminal's text, and why a number is what it is. */
import { describe, expect, it } from 'vitest';
import { cutText, markText, setOutText } from '../../src/commands/setouttext.js';
import { whyLines } from '../../src/commands/whytext.js';
import { contextOf, lightContext } from '../../src/window/context.js';
import { cutCsv, cutList, markCsv, markList } from '../../src/window/cutlist.js';
import { drawText } from '../../src/window/draw.js';
import { elevation, spotPlaces } from '../../src/window/elevation.js';
import { writtenOut } from '../../src/window/glass.js';
import { parseJob } from '../../src/window/job.js';
import { setOut } from '../../src/window/setout.js';
import { setOutJson } from '../../src/window/setoutjson.js';
import type { SetOut, Spot, Trace, Unit } from '../../src/window/types.js';
import { valueText, why } from '../../src/window/why.js';
import { at, fixed, k70, shipped, sideHung, split, topHung, unit, value, w52 } from './kit.js';

const job = value(parseJob(shipped('shared/jobs/pier-house.yaml')));
const outs: readonly SetOut[] = job.units.map((each) => setOut(each, w52));
const named = (id: string): SetOut => outs.find((each) => each.unit.id === id)!;

describe('the cut list', () => {
  it('holds every part of every unit once, grouped by kind and profile, longest first', () => {
    const rows = cutList(outs);
    expect(rows).toHaveLength(outs.flatMap(({ parts }) => parts).length);
    const kinds = { bar: 0, bead: 1, gasket: 2 };
    for (const [i, row] of rows.slice(1).entries()) {
      const before = rows[i]!;
      expect(kinds[row.kind]).toBeGreaterThanOrEqual(kinds[before.kind]);
      if (row.kind === before.kind && row.profile === before.profile)
        expect(row.length).toBeLessThanOrEqual(before.length);
    }
    // Bars mitred at 45 are measured at their long points; square ones square; gaskets have no ends.
    expect(new Set(rows.map(({ measured }) => measured))).toEqual(new Set(['long point', 'square', 'run']));
    expect(
      rows
        .filter(({ ends }) => ends.every((end) => end === 45))
        .every(({ measured }) => measured === 'long point' || measured === 'run'),
    ).toBe(true);
  });
  it('is told in text with a head for each profile, loose pieces at the end', () => {
    const text = cutText(outs);
    for (const profile of new Set(cutList(outs).map((row) => row.profile)))
      expect(text.split('\n')).toContain(profile);
    expect(text).toContain('Loose pieces');
    expect(cutText([{ ...named('P01-1'), extras: [] }])).not.toContain('Loose pieces');
    const bare = { name: 'lump', place: '', quantity: 1 } as unknown as SetOut['extras'][number];
    expect(cutText([{ ...named('P01-1'), extras: [bare] }])).toContain('  1 x lump  P01-1');
  });
  it('is a table that no spreadsheet runs', () => {
    const rows = cutCsv(outs).split('\r\n');
    expect(rows).toHaveLength(cutList(outs).length + 1);
    expect(rows[0]).toContain('end_1,end_2');
    const evil = { ...named('P01-1') };
    const parts = evil.parts.map((part, i) => (i === 0 ? { ...part, label: '=1+1' } : part));
    expect(cutCsv([{ ...evil, parts }])).toContain("'=1+1");
  });
});

describe('the marks', () => {
  it('are all there, with what was moved and why', () => {
    const rows = markList(outs);
    const all = outs.flatMap(({ parts }) => parts.flatMap(({ marks }) => marks));
    expect(rows).toHaveLength(all.length);
    expect(rows.filter(({ moved_from }) => moved_from !== null).length).toBe(
      all.filter(({ moved_from }) => moved_from !== null).length,
    );
    expect(rows.some(({ reason }) => reason !== '')).toBe(true);
    const text = markText(outs);
    for (const { at: place } of rows.slice(0, 40)) expect(text).toContain(place.toFixed(1));
    expect(markCsv(outs).split('\r\n')).toHaveLength(rows.length + 1);
  });
});

describe('a unit in text', () => {
  it('says sizes, mass, lights, packing and the closing sums, in ASCII where that is wanted', () => {
    for (const each of outs) {
      const text = setOutText(each, { ascii: true }).join('\n');
      expect(text).toMatch(/^[\x20-\x7e\n]*$/);
      expect(text).toContain(`${each.unit.id}   ${each.unit.width} x ${each.unit.height}`);
      expect(text).toContain('invented set, not for real windows');
      expect(text).toContain('cuts across the whole close to 0');
      expect(text.includes('REFUSED')).toBe(each.refused);
      for (const light of each.lights) {
        expect(text).toContain(light.sentence);
        expect(text.includes('  sash    ')).toBe(each.lights.some(({ sash }) => Boolean(sash)));
      }
      for (const { id, direction, joint } of each.dividers)
        expect(text).toContain(`${id}        ${direction} divider, ${joint}`);
    }
  });
  it('says a refusal, a divider both ways, and what hardware there is none of', () => {
    const refused = setOut(unit(300, 300, topHung()), w52);
    expect(refused.refused).toBe(true);
    expect(setOutText(refused, { ascii: false, columns: 40 }).join('\n')).toContain(
      'REFUSED until each problem',
    );
    const levels = setOut(unit(1000, 1500, split('level', at(700), [fixed(), fixed()], 'cleated')), w52);
    expect(setOutText(levels, { ascii: true }).join('\n')).toMatch(
      /level divider, cleated, centre 700 from the bottom/,
    );
    const upright = setOut(unit(1500, 1000, split('upright', at(700), [fixed(), fixed()])), w52);
    expect(setOutText(upright, { ascii: true }).join('\n')).toMatch(
      /upright divider, ported, centre 700 from the left/,
    );
    const hung = named('P02-1');
    const light = hung.lights[0]!;
    const { gear: _gear, stay: _stay, ...without } = light;
    const bare = {
      ...hung,
      profileSet: { ...hung.profileSet, invented: false },
      lights: [
        { ...without, keeps: [] } as unknown as typeof light,
        { ...light, near_limit: !light.near_limit },
      ],
      sums: [{ ...hung.sums[0]!, error: 0.5 }],
    };
    const text = setOutText(bare, { ascii: true }).join('\n');
    expect(text).toContain('keeps   none on the add-on frame\n');
    expect(text).toContain('stay    none');
    expect(text).toContain('near limit');
    expect(text).toContain('close to 0.5');
    expect(text).not.toContain('invented set');
  });
});

describe('why', () => {
  const p05 = named('P05-1');
  it('finds a number by the light first, and by other words for the same thing', () => {
    const trace = why(p05, 'glass.L2.w');
    expect(why(p05, 'L2.glass.w')).toBe(trace);
    expect(why(p05, 'glass.L2.width')).toBe(trace);
    const nothing = why(p05, 'quux');
    expect(nothing).toMatchObject({ id: 'why.unknown' });
  });
  it('is told as a tree, each number worked out once, and cut where it is long', () => {
    const trace = why(p05, 'glass.L2.w') as Trace;
    const whole = whyLines(trace, { ascii: true, most: 10_000 });
    expect(whole[0]).toContain('glass.L2.w = ');
    expect(whole.some((text) => text.startsWith('`- '))).toBe(true);
    expect(whyLines(trace)[1]).toMatch(/^[├└]─ /);
    const short = whyLines(trace, { most: 2 });
    expect(short).toHaveLength(3);
    expect(short[2]).toBe(`(${whole.length - 2} lines more)`);
    const leaf = { name: 'a', value: 1, unit: 'mm', of: [] } as unknown as Trace;
    const twice = {
      name: 'b',
      value: 2,
      unit: 'mm',
      formula: 'a + 1',
      filled: '1 + 1',
      of: [leaf],
    } as unknown as Trace;
    const top = {
      name: 'c',
      value: 4,
      unit: 'mm',
      formula: '4',
      filled: '4',
      of: [twice, twice],
    } as unknown as Trace;
    const lines = whyLines(top, { ascii: true });
    expect(lines[0]).toBe('c = 4 mm = 4');
    expect(lines.filter((text) => text.includes('b = 2 mm (as above)'))).toHaveLength(1);
  });
  it('gives each unit its own words', () => {
    const text = (unitOf: string, figure = 2) =>
      valueText({ value: figure, unit: unitOf } as unknown as Trace);
    expect([text('mm'), text('kg'), text('none'), text('count')]).toEqual(['2 mm', '2 kg', '2', '2']);
  });
});

describe('a set-out as JSON', () => {
  it('has no negative nought', () => {
    const { units } = setOutJson(outs);
    expect(JSON.stringify(units)).not.toContain('-0,');
    expect(units).toHaveLength(outs.length);
    const one = named('P01-1');
    const parts = one.parts.map((part, i) =>
      i === 0
        ? {
            ...part,
            marks: [{ kind: 'x', at: -0, moved_from: null, reason: null, side: '', item: 'L1' }],
          }
        : part,
    );
    const mark = (setOutJson([{ ...one, parts }]).units[0] as { parts: { marks: { at: number }[] }[] })
      .parts[0]!.marks[0]!;
    expect(Object.is(mark.at, 0)).toBe(true);
  });
});

describe('glass written out', () => {
  it.each(['4-16', '0-16-4', '4-16-4-16-4-16-4-16-4', '4-160-4', 'x'])('%s is none', (text) => {
    expect(writtenOut(text)).toBeUndefined();
  });
});

describe('spots of a drawing', () => {
  const two = elevation(
    setOut(unit(1400, 1100, split('upright', at(650), [sideHung('right'), fixed()])), w52),
  );
  const { addon, sash } = two.lights[0]!;
  it('stand on the add-on frame, and on the hinge side that is meant', () => {
    expect(spotPlaces(two, 'addon-corners', undefined).points).toEqual(
      [
        { x: addon!.x, y: addon!.y },
        { x: addon!.x + addon!.w, y: addon!.y },
        { x: addon!.x + addon!.w, y: addon!.y + addon!.h },
        { x: addon!.x, y: addon!.y + addon!.h },
      ].map((point) => ({ ...point, light: 'L1' })),
    );
    const [side] = spotPlaces(two, 'sash-hinge-side', undefined).lines;
    expect([side!.a.x, side!.b.x]).toEqual([sash!.x + sash!.w, sash!.x + sash!.w]);
    expect(spotPlaces(two, 'addon', 'L2').lines).toEqual([]);
  });
  it('are the packers of all lights, or of the light in question', () => {
    const lights = (item?: string) => spotPlaces(two, 'packers', item).points.map(({ light }) => light);
    expect(new Set(lights())).toEqual(new Set(['L1', 'L2']));
    expect(new Set(lights('L2'))).toEqual(new Set(['L2']));
    expect(lights('L2')).toHaveLength(8);
  });
});

describe('a light that is fixed has what an opening one lacks, as nothing', () => {
  it('in the words of procedures', () => {
    const p01: Unit = unit(900, 1200, fixed());
    for (const set of [w52, k70]) {
      const made = setOut(p01, set);
      expect(Object.keys(contextOf(made)).length).toBeGreaterThan(0);
      expect(lightContext(made, 'L1')).toBeDefined();
    }
  });
});

describe('drawings at rarer spots', () => {
  const pane = (made: SetOut, spot: Spot) =>
    drawText(elevation(made), { columns: 40, rows: 16, ascii: false, spot, triangles: 'apex-at-hinge' });
  it('mark packers of all lights, and the sides of a sash by its hinge', () => {
    const p05 = named('P05-1');
    expect(pane(p05, 'packers').join('')).toContain('●');
    const left = pane(setOut(unit(700, 1100, sideHung('left')), w52), 'sash-handle-side');
    const right = pane(setOut(unit(700, 1100, sideHung('right')), w52), 'sash-handle-side');
    expect(left).not.toEqual(right);
    expect(pane(setOut(unit(700, 1100, sideHung('left')), w52), 'sash-hinge-side')).not.toEqual(left);
  });
});

describe('beads in the words of procedures', () => {
  const p01 = named('P01-1');
  const beadsOf = (change: (parts: SetOut['parts']) => SetOut['parts']) =>
    (lightContext({ ...p01, parts: change(p01.parts) }, 'L1').light as { readonly beads: unknown }).beads;
  it('are level and upright by their part, by their order where a set names them otherwise, or none', () => {
    const [level, upright] = [839.5, 1095.5];
    const isBead = ({ kind }: SetOut['parts'][number]) => kind === 'bead';
    expect(beadsOf((parts) => parts)).toEqual({ w: level, h: upright });
    const plain = (part: SetOut['parts'][number]) => (isBead(part) ? { ...part, role: 'bead' } : part);
    expect(beadsOf((parts) => parts.map(plain))).toEqual({ w: level, h: upright });
    expect(beadsOf((parts) => parts.filter((part) => !isBead(part)))).toEqual({ w: 0, h: 0 });
  });
});
