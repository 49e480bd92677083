/** Taking back at the bench: the form shows the entry that is then taken back, also after one was taken back already. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { type RealPorts, realPorts } from '../../src/session/workshopports.js';
import { realDisk } from '../../src/store/disk.js';
import { makeWorkshop } from '../../src/store/makeworkshop.js';
import { type Core, makeCore } from '../../src/tui/loop.js';
import { formLines } from '../../src/tui/screens/form.js';

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
    clock += 5000;
    core.feed(chunk);
  }
}
const RIGHT = '\u001b[C';
const DOWN = '\u001b[B';
const TAKE_BACK = '\u001a';

function shown(): string {
  const { screen } = core.state();
  if (screen.name !== 'form') throw new Error(`no form but ${screen.name}`);
  return formLines(core.state(), screen, core.world(), 200, 60)
    .map((spans) => spans.map(({ text }) => text).join(''))
    .join('\n');
}

it('the form names the entry, its question and its answer, and that entry is taken back', () => {
  press('P02-1\r', 'jb\r', RIGHT, '1\r');
  const answered = core.world().open!.state.events.filter(({ kind }) => kind === 'answered');
  expect(answered.length).toBe(2);
  for (const { n, check } of [...answered].reverse() as { n: number; check: string }[]) {
    press(TAKE_BACK);
    const asked = core.world().open!.state.route.steps.flatMap(({ checks }) => checks);
    const { ask } = asked.find(({ id }) => id === check)!;
    expect(shown()).toContain(`Entry ${n}, `);
    expect(shown()).toContain(`, JB: ${ask} `);
    press(DOWN, RIGHT, RIGHT);
    expect(core.world().open!.state.events.at(-1)).toMatchObject({ kind: 'corrected', of: n });
  }
});
