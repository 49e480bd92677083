/**
 * What an author mistypes: each fault alone in the shipped files gives one message, at its line, that says what was probably
 * meant or what to do.
 */
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { realDisk } from '../../src/store/disk.js';
import { makeWorkshop } from '../../src/store/makeworkshop.js';
import { must } from '../procedure/samples.js';
import { command } from './museum.js';

const SET = 'shared/profile-sets/t56.yaml';
const JOB = 'shared/jobs/yard-side.yaml';
const PROCEDURE = 'procedures/inward.yaml';

let folder: string;
beforeAll(() => {
  vi.useFakeTimers({ toFake: ['Date'], now: Date.parse('2026-11-24T08:00:00Z') });
  folder = mkdtempSync(join(tmpdir(), 'faults-'));
  must(makeWorkshop(realDisk, resolve(import.meta.dirname, '../..'), join(folder, 'clean')));
});
afterAll(() => {
  vi.useRealTimers();
  rmSync(folder, { recursive: true, force: true });
});

type Fault = readonly [what: string, file: string, was: string, is: string, id: string, way: RegExp];

const FAULTS: readonly Fault[] = [
  ['a misspelt key', SET, 'opens: [in]', 'open: [in]', 'file.schema', /Write "opens"/],
  ['a misspelt key that must be there', SET, 'sources:', 'source:', 'file.schema', /Write "sources"/],
  ['a tab in a job', JOB, '    width: 800', '\twidth: 800', 'file.yaml', /indent with spaces/],
  ['a tab in a set', SET, '  divider_face: {v', '\tdivider_face: {v', 'file.yaml', /indent with spaces/],
  [
    'a formula with a colon and no quotes',
    SET,
    'sash.w: rebate.w - 2 * sash_gap',
    'sash.w: rebate.w > 900.0 ? 0.0 : rebate.w',
    'file.yaml',
    /in single quotes/,
  ],
  [
    'a whole number beside a decimal',
    SET,
    'sash.w: rebate.w - 2 * sash_gap',
    "sash.w: 'rebate.w > 900.0 ? 0 : rebate.w'",
    'formula.type',
    /0\.0 instead of 0/,
  ],
  ['a decimal comma', SET, 'pad: {value: 1.5', 'pad: {value: 1,5', 'file.schema', /with a point, as in 0\.8/],
  [
    'a constant twice',
    SET,
    '  pad: {value',
    '  face: {value: 3, says: again, source: t56}\n  pad: {value',
    'file.yaml',
    /stands twice/,
  ],
  [
    'gears from above to below',
    SET,
    'from: 500, to: 999.99',
    'from: 1500, to: 999.99',
    'set.range',
    /Change the two over/,
  ],
  [
    'a mark of every light along the sash',
    SET,
    'kind: drain-inner, per: light, on: bottom, along: sight',
    'kind: drain-inner, per: light, on: bottom, along: sash',
    'set.unknown',
    /per: opening/,
  ],
  ['a decimal comma in a job', JOB, 'width: 800', 'width: 800,5', 'file.schema', /decimals: 800\.5/],
  ['a unit behind a number', JOB, 'width: 800', 'width: 800 mm', 'file.schema', /decimals: 800\./],
  ['a thousands sign', JOB, 'height: 1300', 'height: 1,300', 'file.schema', /decimals: 1300\./],
  [
    'a face with a digit missing',
    SET,
    '  face: {value: 58',
    '  face: {value: 5',
    'setout.glass-place',
    /section drawing/,
  ],
  ['a side misspelt', SET, 'on: sash.bottom', 'on: sash.botom', 'file.schema', /See the manual/],
  ['a window of no width', JOB, 'width: 800', 'width: 0.64', 'layout.room', /overall size/],
  [
    'a jamb that sticks out',
    SET,
    'start: sub_sill_h, length: frame.h',
    'start: sub_sill_h, length: unit.height',
    'setout.sticks-out',
    /a horn sticks out/,
  ],
  [
    'the glass box on the wrong side of the sight line',
    SET,
    'glass: {x: 0 - cover_fixed',
    'glass: {x: cover_fixed',
    'setout.glass-place',
    /0 less the cover/,
  ],
  [
    'a whole number divided by another',
    SET,
    'glass.area: {formula: glass.w * glass.h / 1000000.0',
    'glass.area: {formula: glass.w * glass.h * (1 / 1000000)',
    'set.number',
    /1\.0 \/ 2/,
  ],
  ['a role twice', SET, 'role: frame-sill', 'role: frame-head', 'set.twice', /Rename one/],
  [
    'a face below nothing',
    SET,
    'face: {value: 58',
    'face: {value: -62',
    'setout.below-none',
    /Mend its formula/,
  ],
  [
    'a quantity below nothing',
    SET,
    'place: sash corners, quantity: 4',
    'place: sash corners, quantity: 0 - 1',
    'setout.below-none',
    /Mend its formula/,
  ],
  [
    'a mass below nothing',
    SET,
    'kg_sill: {value: 0.8',
    'kg_sill: {value: -0.8',
    'setout.below-none',
    /Mend its formula/,
  ],
  [
    'a length of nothing',
    SET,
    'length: frame.w + 2 * horn',
    'length: 0',
    'setout.below-none',
    /Mend its formula/,
  ],
  [
    'kilograms with millimetres',
    SET,
    'unit.height - sub_sill_h',
    'unit.height - kg_hardware',
    'set.units',
    /name of the same unit/,
  ],
  [
    'a part that is never there',
    SET,
    '2 * horn, kg_per_m: kg_sill',
    '2 * horn, kg_per_m: kg_sill, when: fitted.lugs && !fitted.lugs',
    'set.never',
    /Mend it/,
  ],
  [
    'a face that a condition cannot meet',
    SET,
    '2 * horn, kg_per_m: kg_sill',
    '2 * horn, kg_per_m: kg_sill, when: face > 60',
    'set.never',
    /Mend it/,
  ],
  [
    'a name in a formula',
    SET,
    'rebate.w - 2 * sash_gap',
    'rebate.w - 2 * sash_gapp',
    'formula.type',
    /Write "sash_gap"/,
  ],
  [
    'a field in a formula',
    SET,
    'hypot(sash.w, sash.h)',
    'hypot(sash.w, sahs.h)',
    'formula.type',
    /Write "sash"/,
  ],
  [
    'a ring of formulas',
    SET,
    'rebate.w - 2 * sash_gap',
    'sash_rebate.w - 2 * sash_gap',
    'set.circular',
    /without the other/,
  ],
  [
    'a source',
    SET,
    "under the frame', source: t56}",
    "under the frame', source: t65}",
    'set.unknown',
    /Write "t56"/,
  ],
  ['a box', SET, 'box: sash, side: top', 'box: sahs, side: top', 'set.unknown', /Write "sash"/],
  [
    'a feature',
    SET,
    '{kind: frame-hinge, per',
    '{kind: frame-hing, per',
    'set.unknown',
    /Write "frame-hinge"/,
  ],
  ['beads that overlap', SET, 'from: 39.5, to: 40.5', 'from: 24.0, to: 40.5', 'set.beads-overlap', /one row/],
  ['a side of a mark', SET, 'on: sash.hinge', 'on: sash.hnge', 'file.schema', /manual/],
  [
    'a kind of light that nothing carries',
    SET,
    'packers:\n  fixed:',
    'checks_: []\npackers:\n  fixed:',
    'file.schema',
    /Write "checks"/,
  ],
  [
    'a figure',
    PROCEDURE,
    'figure["corner.screw.d"]',
    'figure["corner.screw"]',
    'procedure.value',
    /Write "corner.screw.d"/,
  ],
  [
    'a step that no unit gets',
    PROCEDURE,
    'each: divider\n        when: marks.count > 0',
    'each: divider\n        when: unit.lights == 1',
    'procedure.unreachable',
    /Mend its "when"/,
  ],
  [
    'a feature of a procedure',
    PROCEDURE,
    'rests: [frame.geometry, sub',
    'rests: [frame.geometri, sub',
    'procedure.feature-unknown',
    /Write "frame.geometry"/,
  ],
  [
    'a limit',
    PROCEDURE,
    'limits: [cut.length, cut.pair]',
    'limits: [cut.lenght, cut.pair]',
    'procedure.limit-unknown',
    /Write "cut.length"/,
  ],
  [
    'a name in a text',
    PROCEDURE,
    'light.hinges.name',
    'light.hinges.nmae',
    'formula.type',
    /Write "light.hinges.name"/,
  ],
  ['a kind of check', PROCEDURE, 'kind: square', 'kind: sqare', 'file.schema', /Write "square"/],
  ['a glass', JOB, 'glass: 4-14-4-14-4', 'glass: 4-14-4-14', 'job.glass', /Write "4-14-4-14-4"/],
  ['a profile set', JOB, 'profile_set: t56', 'profile_set: t65', 'workshop.unknown', /Write "t56"/],
  ['a procedure', JOB, 'procedure: inward', 'procedure: inwards', 'workshop.unknown', /Write "inward"/],
  ['a word of a choice', JOB, 'hinge: left', 'hinge: lft', 'file.schema', /Write "left"/],
];

it('are more than twenty', () => {
  expect(FAULTS.length).toBeGreaterThanOrEqual(20);
});

describe.each(FAULTS)('%s', (_what, file, was, is, id, way) => {
  it('gives one message at its line, with a way out', async () => {
    const root = join(folder, 'w');
    rmSync(root, { recursive: true, force: true });
    cpSync(join(folder, 'clean'), root, { recursive: true });
    const text = readFileSync(join(root, file), 'utf8');
    expect(text).toContain(was);
    const at = text.indexOf(was);
    const changed = text.replace(was, () => is);
    writeFileSync(join(root, file), changed);
    const said = (await command(root, ['lint'])).text.split('\n');
    expect(said.at(-1), said.join('\n')).toBe('1 problem.');
    const [problem, ...more] = said as [string, ...string[]];
    expect(problem).toContain(`[${id}]`);
    expect(more.join('\n')).toMatch(way);
    const [where, line] = problem.split(':') as [string, string];
    expect(where).toBe(file);
    // The line of the change, or where what it spoils is used, or the step that it stands in.
    const first = text.slice(0, at).split('\n').length;
    const last = first + was.split('\n').length - 1;
    const used = USED[_what];
    if (used === undefined) expect(Number(line)).toBeGreaterThanOrEqual(first - 3);
    if (used === undefined) expect(Number(line)).toBeLessThanOrEqual(last + 1);
    else expect(changed.split('\n')[Number(line) - 1]).toMatch(used);
  });
});

/** Told not where it is typed but where it shows. */
const USED: Readonly<Record<string, RegExp>> = {
  'a face with a digit missing': /left: face/,
  'a face below nothing': /left: face/,
  'a mass below nothing': /kg_per_m: kg_sill/,
  'a glass': /mark: Y1/,
  'a ring of formulas': /sash\.w:/,
  'a figure': /id: machine\.frame/,
  'a feature of a procedure': /id: frame\.sill/,
  'a limit': /id: lengths/,
  'a step that no unit gets': /id: machine\.divider/,
};
