/**
 * The second build and the product that is no window, described as data alone, built through `feed` to a released record;
 * and their sizes by hand from the drawings of the sets.
 */
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { run as record } from '../../src/commands/record.js';
import { run as verify } from '../../src/commands/verify.js';
import { BoardReader } from '../../src/session/board.js';
import { builtFromNow, planOf, unitReader } from '../../src/session/plan.js';
import { realDisk } from '../../src/store/disk.js';
import { openJobs } from '../../src/store/jobs.js';
import type { SetOut } from '../../src/window/types.js';
import { must } from '../procedure/samples.js';
import { Feeder } from './feeder.js';

vi.mock('node:os', async (real) => ({
  ...(await real<typeof import('node:os')>()),
  uptime: () => Date.now() / 1000,
}));

const UNITS = [
  ['yard-side', 'Y1-1'],
  ['yard-side', 'Y2-1'],
  ['yard-side-screens', 'N1-1'],
  ['yard-side-screens', 'N2-1'],
] as const;

let feeder: Feeder;
beforeAll(() => {
  feeder = new Feeder();
});
afterAll(() => {
  feeder.close();
});

const setOutOf = (job: string, unit: string): SetOut =>
  must(planOf(must(builtFromNow(feeder.workshop, job)), unit)).setOut;

async function printed(...args: string[]): Promise<string> {
  const out: string[] = [];
  const code = await record(args, {
    workshop: feeder.root,
    out: (text) => void out.push(text),
    err: () => {},
  });
  expect(code).toBe(0);
  return out.join('\n');
}

it('the board calls its lights what the set calls them', () => {
  const { rows } = new BoardReader(realDisk, feeder.root).read(
    openJobs(feeder.root, realDisk),
    new Date().toISOString(),
    unitReader(realDisk, feeder.root),
  );
  const sentences = (job: string) => rows.filter((row) => row.job === job).map(({ sentence }) => sentence);
  expect(sentences('yard-side-screens')).toEqual(['mesh panel', 'mesh panel; mesh panel']);
  expect(sentences('yard-side').join()).not.toContain('mesh');
});

describe.each(UNITS)('%s %s', (job, unit) => {
  it('is built through feed to a released record that verifies', async () => {
    feeder.anotherDay();
    const { state, answers, code } = await feeder.build(job, unit);
    expect(answers.find((answer) => !(JSON.parse(answer) as { ok: boolean }).ok)).toBeUndefined();
    expect(code).toBe(0);
    expect(state.finished).toBe(true);
    const page = JSON.parse(await printed(unit, '--format', 'json')) as {
      missing: unknown[];
      verdict: { line: string };
    };
    expect(page.missing).toEqual([]);
    expect(page.verdict.line).toBe('Finished and released');
    const io = { workshop: feeder.root, out: () => {}, err: () => {} };
    expect(await verify([job], io)).toBe(0);
  }, 300_000);
});

describe('the set without an add-on frame, by hand', () => {
  const part = (made: SetOut, id: string) => made.parts.find((each) => each.id === id)!;
  const at = (made: SetOut, id: string, kind: string) =>
    part(made, id)
      .marks.filter((mark) => mark.kind === kind)
      .map((mark) => mark.at);

  it('cuts head and sill between the jambs, the jambs above the sub-sill, and the sub-sill with its horns', () => {
    const made = setOutOf('yard-side', 'Y1-1');
    expect(part(made, 'frame-head').length).toBe(800 - 2 * 78);
    expect(part(made, 'frame-sill').length).toBe(800 - 2 * 78);
    expect(part(made, 'frame-left').length).toBe(1300 - 30);
    expect(part(made, 'sub-sill').length).toBe(800 + 2 * 25);
    for (const { ends } of made.parts.filter(({ role }) => role.startsWith('frame-')))
      expect(ends).toEqual([90, 90]);
  });

  it('marks from where each part begins', () => {
    const made = setOutOf('yard-side', 'Y1-1');
    // Sight line 58 from the edge, slot 90 from there, the sill begins at 78.
    expect(at(made, 'frame-sill', 'drain-inner')).toEqual([58 + 90 - 78, 742 - 90 - 78]);
    // Sash: bottom 30 + 58 + 6 - 20 from the edge, 1182 high; handle at its middle; cams at -400, 80, 400, 16 further when
    // locked (the set gives them with their travel); the jamb begins at 30.
    const handle = 30 + 58 + 6 - 20 + 1182 / 2 - 30;
    expect(at(made, 'frame-right', 'keep')).toEqual(
      [handle + 16 - 400, handle + 16 + 80 + 0, handle + 400 + 16].sort((a, b) => a - b),
    );
    // Corner screws 39 from both ends of the jamb, which begins on the sub-sill.
    expect(at(made, 'frame-left', 'corner-screw')).toEqual([39, 1270 - 39]);
    // Hinges 140 from both ends of the sash, whose bottom is 44 above that of the jamb.
    expect(at(made, 'L1.sash-left', 'hinge')).toEqual([140, 1182 - 140]);
    expect(at(made, 'frame-left', 'frame-hinge')).toEqual([44 + 140, 44 + 1182 - 140]);
  });

  it('has no add-on frame anywhere, opens in, and takes hinges, beads and gear from its tables', async () => {
    const made = setOutOf('yard-side', 'Y1-1');
    const [light] = made.lights;
    expect(light).toMatchObject({
      addon: null,
      opens_in: true,
      stay: null,
      gear: 'three cams',
      hinges: { name: 'two hinges', count: 2 },
    });
    expect(part(made, 'L1.bead-level').profile).toBe('T56-B40');
    expect(made.extras.find(({ name }) => name === 'hinge')?.quantity).toBe(2);
    const text = await printed('Y1-1', '--format', 'text');
    expect(text).toContain('opens in');
    expect(text).not.toMatch(/add-on|stay/i);
  });

  it('cuts a square transom from rebate floor to rebate floor, less its pads', () => {
    const made = setOutOf('yard-side', 'Y2-1');
    expect(part(made, 'D1').length).toBe(960 - 2 * 58 + 2 * 20 - 2 * 1.5);
    // 1150 from the bottom edge; the jamb begins on the sub-sill.
    expect(at(made, 'frame-left', 'divider-line')).toEqual([1150 - 30]);
  });
});

describe('the mesh screen', () => {
  it('is called what it is, and has neither glass nor sash nor hardware on any document', async () => {
    const text = await printed('N2-1', '--format', 'text');
    expect(text).toContain('QUALITY RECORD: MESH SCREEN N2-1');
    expect(text).toMatch(/What it is\s+mesh screen: L1 mesh panel; L2 mesh panel/);
    expect(text).not.toMatch(/\bwindow\b|\bglass|fixed light|\bstay\b|\bhandle\b/i);
    const job = await printed('yard-side-screens', '--format', 'text');
    expect(job).toContain('mesh screen: mesh panel');
  });

  it('cuts mesh and spline by hand', () => {
    const made = setOutOf('yard-side-screens', 'N1-1');
    const [panel] = made.lights;
    expect(panel!.glass).toBeNull();
    expect(panel!.sizes.get('mesh.w')).toBe(760 - 2 * 25 + 2 * 8 + 2 * 30);
    const spline = made.parts.find(({ id }) => id === 'L1.gasket-spline')!;
    expect(spline.length).toBeCloseTo(2 * (710 + 1190 + 4 * 8) * 1.02, 9);
  });
});
