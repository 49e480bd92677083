/** The calculator: the JSON contract, and the command as a person types it. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { HELP } from '../../src/commands/help.js';
import { run } from '../../src/commands/square.js';

const WORKSHOP = resolve(import.meta.dirname, '../..');
const WORKED = '--top 1201 --bottom 1200 --left 1499.5 --right 1500.5 --bl-tr 1922 --br-tl 1919'.split(' ');
let empty = '';
beforeAll(() => {
  empty = mkdtempSync(join(tmpdir(), 'pinchrod-square-'));
});
afterAll(() => rmSync(empty, { recursive: true }));

async function square(args: string[], workshop = WORKSHOP) {
  const out: string[] = [];
  const err: string[] = [];
  const code = await run(args, { out: (s) => void out.push(s), err: (s) => void err.push(s), workshop });
  return { code, out: out.join('\n'), err: err.join('\n') };
}

describe('pinchrod square --json', () => {
  it('has exactly the keys of its contract', async () => {
    const { code, out } = await square([...WORKED, '--json']);
    const json = JSON.parse(out);
    expect(Object.keys(json)).toEqual([
      'misclosure',
      'misclosure_sd',
      'closes',
      'adjusted',
      'residuals',
      'angles',
      'racking_mm',
      'diagonal_difference',
      'u_difference',
      'verdict',
      'question',
      'limits',
    ]);
    expect(Object.keys(json.adjusted).sort()).toEqual(['bl_tr', 'bottom', 'br_tl', 'left', 'right', 'top']);
    expect(Object.keys(json.residuals).sort()).toEqual(['bl_tr', 'bottom', 'br_tl', 'left', 'right', 'top']);
    expect(json).toMatchObject({ closes: false, diagonal_difference: 3, verdict: 'not-proven' });
    expect(json.misclosure).toBeCloseTo(-1.4988, 4);
    expect(json.u_difference).toBeCloseTo(0.408, 3);
    expect(json.angles.tl).toBeCloseTo(90.0965, 4);
    expect(code).toBe(1);
  });
  it('says null for what fewer readings do not give', async () => {
    const { code, out } = await square(['--bl-tr', '1221', '--br-tl', '1221', '--json']);
    expect(JSON.parse(out)).toMatchObject({
      misclosure: null,
      closes: null,
      adjusted: null,
      angles: null,
      verdict: 'pass',
    });
    expect(code).toBe(0);
    const impossible = await square([
      '--top',
      '10',
      '--right',
      '10',
      '--bl-tr',
      '100',
      '--br-tl',
      '100',
      '--json',
    ]);
    expect(JSON.parse(impossible.out)).toMatchObject({ closes: false, verdict: 'not-proven' });
  });
  it('names limits with their sources', async () => {
    const { out } = await square([...WORKED, '--nominal', '1200x1500', '--json']);
    expect(JSON.parse(out).limits.map((limit: { id: string; source: string }) => limit.id)).toEqual([
      'frame.diagonals.product',
      'frame.diagonals.house',
      'frame.sides-equal',
      'frame.size',
    ]);
  });
});

describe('pinchrod square', () => {
  it('prints the verdict first, then figures, advice and the drawing', async () => {
    const args = [
      '--top',
      '1000',
      '--bottom',
      '1000',
      '--left',
      '700',
      '--right',
      '700',
      '--bl-tr',
      '1222',
      '--br-tl',
      '1219',
    ];
    const { code, out } = await square([...args, '--nominal', '1000x700', '--instrument', 't1', '--ascii']);
    expect(code).toBe(1);
    expect(out).toContain('Read with T1, tape 5 m');
    expect(out.split('\n')[1]).toBe('FAIL');
    expect(out).toContain('BS 4873:2009, 6.2');
    expect(out).toContain('the readings close');
    expect(out).toContain('error drawn 20 times');
    expect(Math.max(...out.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80);
  });
  it('asks about readings that do not close', async () => {
    expect((await square(WORKED)).out).toContain('ASK: The six readings cannot all be true');
  });
  it('adds the offset of the instrument to each reading', async () => {
    const args = [
      '--bl-tr',
      '1321,5',
      '--br-tl',
      '1320,5',
      '--bl-tr',
      '1321',
      '--instrument',
      'T3',
      '--rule',
      'guarded:0.83',
    ];
    const { code, out } = await square([...args, '--nominal', '1000 x 700']);
    expect(out).toContain('1221.25');
    expect(out).toContain('ISO 14253-1');
    expect(code).toBe(0);
  });
  it('takes inches where it is told', async () => {
    const { code, out } = await square(['--bl-tr', '48 1/16', '--br-tl', '48 1/16', '--unit', 'inch']);
    expect(code).toBe(0);
    expect(out).toContain('1220.79');
  });
  it('warns of an overdue instrument', async () => {
    const { err } = await square([
      '--bl-tr',
      '1221',
      '--br-tl',
      '1221',
      '--instrument',
      'T9',
      '--cured',
      '--confirmed',
    ]);
    expect(err).toContain('measure.instrument-overdue');
  });
  it('without a workshop holds against the published limits, and says so', async () => {
    const { code, out, err } = await square(
      ['--bl-tr', '1222', '--br-tl', '1219', '--rule', 'simple'],
      empty,
    );
    expect(code).toBe(0);
    expect(out).toContain('BS 4873:2009');
    expect(err).toContain('published limits only');
  });
  it.each([
    [['--bl-tr', '1,221', '--br-tl', '1221'], 'measure.reading-ambiguous'],
    [['--bl-tr', '1221'], 'measure.square-too-few'],
    [[], 'measure.square-too-few'],
    [['--foo'], 'measure.square-argument'],
    [['1221'], 'measure.square-argument'],
    [['--bl-tr', '0', '--br-tl', '1221'], 'measure.square-argument'],
    [['--bl-tr', '1221', '--br-tl', '1221', '--nominal', 'wide'], 'measure.square-argument'],
    [['--bl-tr', '1221', '--br-tl', '1221', '--nominal', '0x700'], 'measure.square-argument'],
    [['--bl-tr', '1221', '--br-tl', '1221', '--rule', 'kind'], 'measure.square-argument'],
    [['--bl-tr', '1221', '--br-tl', '1221', '--unit', 'ell'], 'measure.square-argument'],
    [['--bl-tr', '1221', '--br-tl', '1221', '--instrument', 'nope'], 'measure.square-argument'],
  ])('%j is bad input: %s', async (args, id) => {
    const { code, out, err } = await square(args);
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(err).toContain(`[${id}]`);
  });
  it('a broken limits or instruments file is bad input, with the place', async () => {
    mkdirSync(join(empty, 'shared'));
    writeFileSync(
      join(empty, 'shared/limits.yaml'),
      'format: pinchrod-limits 1\nlimits:\n  a: {title: A, of: value, most: 1}\n',
    );
    writeFileSync(join(empty, 'shared/instruments.yaml'), 'format: pinchrod-instruments 1\ninstruments: 3\n');
    const { code, err } = await square(['--bl-tr', '1221', '--br-tl', '1221', '--instrument', 'T1'], empty);
    expect(code).toBe(2);
    expect(err).toContain('shared/limits.yaml:3:6: a has no source. [measure.limit-no-source]');
    expect(err).toContain('shared/instruments.yaml:2');
    rmSync(join(empty, 'shared'), { recursive: true });
  });
  it('--help shows an example that runs', async () => {
    const example = /Example:\n\s+pinchrod square (.*)/.exec(HELP.square)![1]!;
    expect((await square(example.split(' '))).code).toBeLessThan(2);
  });
});

/** A workshop of its own; its limits and instruments are invented. */
const GUARDED = {
  'workshop.yaml': `format: pinchrod-workshop 1
name: Test
bench: b1
units: inch
decisionRule: {guarded: 1}
`,
  'limits.yaml': `format: pinchrod-limits 1
limits:
  frame.diagonals.house:
    {title: Own diagonals, of: diagonals, most: 3, source: {kind: house-rule, text: invented for tests}}
  door.diagonals:
    {title: Door diagonals, of: diagonals, most: 4, source: {kind: house-rule, text: invented for tests}}
`,
  'instruments.yaml': `format: pinchrod-instruments 1
instruments:
  - {id: Y1, kind: tape, title: inch tape, unit: inch, resolution: 0.0625, class: II}
  - {id: X1, kind: trammel, title: sliding pole, resolution: 0.1, maxError: 0.2}
  - {id: X0, kind: trammel, title: lapsed pole, resolution: 0.1, maxError: 0.2, due: 2020-01-01}
`,
};

describe('pinchrod square in a workshop', () => {
  let shop = '';
  const write = (files: Partial<Record<keyof typeof GUARDED, string>>) => {
    rmSync(join(shop, 'shared'), { recursive: true, force: true });
    mkdirSync(join(shop, 'shared'));
    for (const [file, text] of Object.entries(files)) writeFileSync(join(shop, 'shared', file), text);
  };
  beforeAll(() => {
    shop = mkdtempSync(join(tmpdir(), 'pinchrod-square-shop-'));
  });
  afterAll(() => rmSync(shop, { recursive: true }));
  // 48 1/16 and 47 31/32 are 2.38 mm apart: within 3, but not by the guard band of a tape read to a sixteenth.
  const read = ['--bl-tr', '48 1/16', '--br-tl', '47 31/32'];

  it('takes units, decision rule, limits and instruments from its files', async () => {
    write(GUARDED);
    const { code, out, err } = await square([...read, '--nominal', '39 3/8 x 27 9/16'], shop);
    expect(err).toBe('');
    expect(code).toBe(1);
    expect(out.split('\n')[0]).toBe('NOT PROVEN');
    expect(out).toContain('Own diagonals: difference of diagonals 2.38 mm, at most 3 mm');
    expect(out).toContain('house rule: invented for tests');
    expect(out).toContain('Decision rule: guarded, w = U');
    expect(out).not.toContain('Door');
    const said = out.replace(/\s+/g, ' ');
    expect(said).toContain('A better instrument would settle it if the figure stays: X1, sliding pole');
    expect(said).not.toContain('X0');
    expect(said).toContain('Name the instrument: without it');
  });
  it('lets --rule, --unit and --limits stand before its files', async () => {
    write(GUARDED);
    const simple = await square([...read, '--rule', 'simple'], shop);
    expect(simple.code).toBe(0);
    expect(simple.out).toContain('Decision rule: simple acceptance');
    const mm = await square(['--bl-tr', '1221', '--br-tl', '1221', '--unit', 'mm'], shop);
    expect(mm.out).toContain('1221');
    expect(mm.code).toBe(0);
    const door = await square([...read, '--limits', 'door.diagonals', '--rule', 'simple'], shop);
    expect(door.out).toContain('Door diagonals');
  });
  it('reads an instrument that shows inches in inches, also where the workshop reads millimetres', async () => {
    write({ ...GUARDED, 'workshop.yaml': GUARDED['workshop.yaml'].replace('units: inch\n', '') });
    const { out } = await square([...read, '--instrument', 'y1'], shop);
    expect(out).toContain('1220.79');
    expect(out).not.toContain('Name the instrument');
  });
  it('says where none of its limits is for a frame, and does not pass for want of one', async () => {
    write({ ...GUARDED, 'limits.yaml': GUARDED['limits.yaml'].replace('frame.diagonals.house', 'own') });
    const { code, err } = await square(read, shop);
    expect(code).toBe(2);
    expect(err).toContain('name them with --limits');
  });
  it('refuses a workshop file that cannot be used, with its place', async () => {
    write({ ...GUARDED, 'workshop.yaml': 'format: pinchrod-workshop 1\nname: Test\n' });
    const { code, err } = await square(read, shop);
    expect(code).toBe(2);
    expect(err).toContain('shared/workshop.yaml');
  });
});
