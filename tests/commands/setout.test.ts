/** The verb as a script uses it. */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { parse } from 'csv-parse/sync';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { run } from '../../src/commands/setout.js';

const ROOT = resolve(import.meta.dirname, '../..');
let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'setout-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function setout(args: string[], workshop = ROOT) {
  const out: string[] = [];
  const err: string[] = [];
  const code = await run(args, { out: (text) => out.push(text), err: (text) => err.push(text), workshop });
  return { code, out: out.join('\n'), err: err.join('\n') };
}

describe('setout', () => {
  it('prints the contract for scripts', async () => {
    const { code, out, err } = await setout(['pier-house', '--json']);
    expect([code, err]).toEqual([0, '']);
    const { units } = JSON.parse(out);
    expect(units.map(({ unit }: { unit: string }) => unit)).toEqual([
      'P01-1',
      'P02-1',
      'P02-2',
      'P03-1',
      'P04-1',
      'P05-1',
      'P06-1',
      'P07-1',
      'P08-1',
    ]);
  });
  it('prints one unit, or every unit of a mark, for a person', async () => {
    const { code, out } = await setout(['pier-house', 'p02']);
    expect(code).toBe(0);
    expect(out.match(/^P02-[12] /gm)).toHaveLength(2);
    expect(out).toContain('W52 casement (invented) - invented set, not for real windows');
    expect(out).toContain('top-hung, hinged at the top, seen from outside, opens out');
    expect(out).toContain('level: left frame 52 + L1 896 + right frame 52 = 1000');
  });
  it('gives the cut list by profile, longest first, in three forms', async () => {
    const { out } = await setout(['pier-house', '--cut', '--json']);
    const { cuts } = JSON.parse(out);
    for (let i = 1; i < cuts.length; i++)
      if (cuts[i].profile === cuts[i - 1].profile)
        expect(cuts[i].length).toBeLessThanOrEqual(cuts[i - 1].length);
    expect(new Set(cuts.map(({ profile }: { profile: string }) => profile)).size).toBe(
      cuts.filter((cut: { profile: string }, i: number) => cut.profile !== cuts[i - 1]?.profile).length,
    );
    const csv = parse((await setout(['pier-house', '--cut', '--csv'])).out, { columns: true }) as Record<
      string,
      string
    >[];
    expect(csv).toHaveLength(cuts.length);
    expect(csv[0]).toMatchObject({
      profile: cuts[0].profile,
      length: cuts[0].length.toFixed(1),
      end_1: '45',
      end_2: '45',
    });
    expect((await setout(['pier-house', 'P05', '--cut'])).out).toContain('port screw');
  });
  it('lists marks with the reason of each shift', async () => {
    expect((await setout(['pier-house', 'P03', '--marks'])).out).toContain(
      '564.5  fixing             L1, left side  (moved 20 up: gearbox centre at 544.5)',
    );
    const { marks } = JSON.parse((await setout(['pier-house', 'P03', '--marks', '--json'])).out);
    expect(marks.length).toBeGreaterThan(30);
  });
  it('says why, or that there is no such number', async () => {
    expect((await setout(['pier-house', 'P05-1', '--why', 'glass.L2.width'])).out).toMatch(
      /^glass\.L2\.w = 452 mm/,
    );
    const { code, err } = await setout(['pier-house', 'P05-1', '--why', 'glass.L9.width']);
    expect(code).toBe(2);
    expect(err).toContain('why.unknown');
  });
  it('draws', async () => {
    const file = join(folder, 'p05.svg');
    expect((await setout(['pier-house', 'P05-1', '--svg', file, '--spot', 'drains'])).code).toBe(0);
    expect(readFileSync(file, 'utf8')).toMatch(/^<svg /);
    expect((await setout(['pier-house', 'P05-1', '--svg', file, '--spot', 'roof'])).code).toBe(2);
  });
  it('ends with 1 where a unit is refused, and with 2 for what cannot be read', async () => {
    const jobs = join(folder, 'shared/jobs');
    mkdirSync(jobs, { recursive: true });
    mkdirSync(join(folder, 'shared/profile-sets'), { recursive: true });
    writeFileSync(
      join(folder, 'shared/profile-sets/w52.yaml'),
      readFileSync(join(ROOT, 'shared/profile-sets/w52.yaml')),
    );
    const job = (unit: string) =>
      `format: pinchrod-job 1\nname: x\nprofile_set: w52\nprocedure: casement\nglass: 4-16-4\nunits: [${unit}]\n`;
    writeFileSync(
      join(jobs, 'refused.yaml'),
      job('{mark: A, width: 900, height: 1200, layout: {light: fixed, glass: 4-20-4}}'),
    );
    const refused = await setout(['refused', '--json'], folder);
    expect(refused.code).toBe(1);
    expect(JSON.parse(refused.out).units[0]).toMatchObject({
      refused: true,
      problems: [{ id: 'order.glass-thickness' }],
    });
    expect(refused.err).toContain('A-1: ');
    writeFileSync(
      join(jobs, 'broken.yaml'),
      job('{mark: A, width: -900, height: 1200, layout: {light: fixed}}'),
    );
    const broken = await setout(['broken'], folder);
    expect(broken.code).toBe(2);
    expect(broken.err).toMatch(/broken\.yaml:6:\d+: units\.0\.width/);
    writeFileSync(
      join(jobs, 'noset.yaml'),
      job('{mark: A, width: 900, height: 1200, layout: {light: fixed}}').replace('w52', 'w99'),
    );
    expect((await setout(['noset'], folder)).err).toContain('setout.no-set');
    expect((await setout(['nowhere'], folder)).code).toBe(2);
    expect((await setout(['refused', 'B7'], folder)).err).toContain('setout.no-unit');
    expect((await setout([], folder)).code).toBe(2);
    expect((await setout(['--wrong', 'x'], folder)).code).toBe(2);
  });
  it('guards cells that a spreadsheet would run', async () => {
    const csv = `job,profile_set,procedure,mark,width,height,glass,light_1,note\nx,w52,casement,A1,900,1200,4-16-4,fixed,=1+1\n`;
    const file = join(folder, 'cells.csv');
    writeFileSync(file, csv);
    const set = join(folder, 'w52.yaml');
    writeFileSync(
      set,
      readFileSync(join(ROOT, 'shared/profile-sets/w52.yaml'), 'utf8').replaceAll(
        'says: frame head',
        "says: '=HYPERLINK(1)'",
      ),
    );
    const { out } = await setout([file, '--cut', '--csv'], folder);
    for (const row of parse(out) as string[][]) for (const cell of row) expect(cell).not.toMatch(/^[=+@\t]/);
    rmSync(set);
  });
});
