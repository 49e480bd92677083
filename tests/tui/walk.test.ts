/** The stage view and the batch walk at the bench, and label codes: keys over a real workshop. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { unitCode } from '../../src/record/codes.js';
import { type RealPorts, realPorts } from '../../src/session/workshopports.js';
import { realDisk } from '../../src/store/disk.js';
import { readEvents } from '../../src/store/journal.js';
import { makeWorkshop } from '../../src/store/makeworkshop.js';
import { type Core, makeCore } from '../../src/tui/loop.js';
import { listOf } from '../../src/tui/screens/screens.js';
import { handoverLines } from '../../src/tui/screens/stages.js';
import { nextCheck } from '../../src/unit/next.js';

let parent: string;
let ports: RealPorts;
let core: Core;
let clock = Date.UTC(2026, 2, 2, 8);

beforeAll(() => {
  parent = mkdtempSync(join(tmpdir(), 'pinchrod-'));
  const root = join(parent, 'shop');
  const workshop = makeWorkshop(realDisk, resolve(import.meta.dirname, '../..'), root);
  const made = realPorts({ workshop: root, clock: () => clock, bench: 'bench-t' });
  if (!workshop.ok || !made.ok) throw new Error('no workshop');
  ports = made.value;
  core = makeCore(ports);
});
afterAll(() => {
  ports.close();
  rmSync(parent, { recursive: true, force: true });
});

function press(...chunks: string[]): void {
  for (const chunk of chunks) {
    clock += 20_000;
    core.feed(chunk);
    core.quiet();
  }
}
const RIGHT = '\u001b[C';
const DOWN = '\u001b[B';
const BY_STAGE = '\u0006';

it('a label scanned opens its unit; one read wrongly says so and opens nothing', () => {
  const code = unitCode('pier-house', 'P01-1');
  press(`${code.slice(0, -1)}${code.endsWith('0') ? '1' : '0'}\r`);
  expect(core.state().note?.text).toContain('read or typed wrongly');
  expect(core.world().open).toBeUndefined();
  press(`${code}\r`);
  expect(core.world().open?.id).toBe('P01-1');
});

it('one key goes between units and stages, and a stage is walked over its units', () => {
  press('jb\r', RIGHT);
  press('P02-1\r', RIGHT);
  press('P02-2\r', RIGHT);
  press(BY_STAGE);
  expect(core.state().screen.name).toBe('stages');
  press(BY_STAGE);
  expect(core.state().screen.name).toBe('handover');
  const page = handoverLines(core.world(), 80).map((spans) => spans.map(({ text }) => text).join(''));
  expect(page.join('\n')).toMatch(/Half done\n {3}pier-house\/P01-1 Read the papers/);
  press(BY_STAGE);
  expect(core.state().screen.name).toBe('units');
  press(BY_STAGE);
  const rows = listOf(core.state(), core.world());
  // Those that are not started stand in the stage in which they begin, and the walk takes them too.
  const papers = rows.findIndex(({ text }) => text.startsWith('Read the papers of the order '));
  expect(rows[papers]!.text).toContain('3 open, 6 not started');
  // Down and up: a list that was moved may be chosen from.
  press(DOWN, '\u001b[A', ...Array.from({ length: papers }, () => DOWN), '\r');
  const seen: string[] = [];
  const step = core.state().walk!.units[0]!.step;
  for (let i = 0; i < 200 && core.state().walk; i += 1) {
    const { id, state } = core.world().open!;
    if (seen.at(-1) !== id) seen.push(id);
    expect(core.state().at).toBe(step);
    expect(state.steps.get(step)?.status).not.toBe('done');
    const at = nextCheck(state, step)!.check;
    const choice = state.steps
      .get(step)!
      .step.checks.find((check) => check.id === at)!
      .choices?.find(({ pass }) => pass);
    press(choice ? `${choice.id}\r` : RIGHT);
  }
  // The papers of the order are read once, for the first unit; the others cite them, each in its own journal.
  expect(seen).toEqual(['P01-1']);
  expect(core.state().note?.text).toContain('over all its units');
  for (const unit of ['P02-1', 'P05-1', 'P08-1']) {
    const events = readEvents(realDisk, join(parent, 'shop'), 'pier-house', unit);
    const cited = events.ok ? events.value.flatMap((event) => ('cited' in event && event.cited) || []) : [];
    expect(cited.length, unit).toBeGreaterThan(0);
    expect(
      cited.every((each) => each.unit === 'P01-1'),
      unit,
    ).toBe(true);
  }
});
