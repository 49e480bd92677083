/** Charts at the bench: what the job's units measured, by one key and the arrows, on a terminal of 80 x 24. */
import { afterAll, expect, it } from 'vitest';
import type { View } from '../../src/tui/screens/screen.js';
import { screenOn } from '../../src/tui/screens/screens.js';
import { manyUnits } from '../commands/manyunits.js';
import { normals } from '../figures/normals.js';
import { benchOf, ESC, LEFT, leaveBench, RIGHT, startClock } from './realbench.js';

const off = normals(24, 5);
const { root } = manyUnits(24, (unit, check, key) =>
  check === 'square.frame/square' && key === 'bl_tr' ? 0.2 * off[unit - 1]! + (unit === 20 ? 3 : 0) : 0,
);
const bench = benchOf(root, startClock());
const { core, press } = bench;
afterAll(() => leaveBench(bench, root));

const FIGURES = '\u001b[Z';
const THEME = { colours: 'none', ascii: true } as const;
const textOf = (lines: View['lines']): string =>
  lines.map((row) => row.map(({ text }) => text).join('')).join('\n');
const shown = (width = 80, height = 16): string => {
  const state = core.state();
  return textOf(screenOn(state).lines!(state, state.screen, core.world(), width, THEME, height));
};

it('opens on what signals, names the unit, and fits 80 x 24 in plain signs', () => {
  press('jb\r', 'M1-24\r', FIGURES);
  const page = shown();
  expect(page).toContain('difference of diagonals, rising less');
  expect(page).toContain('One point signals: M1-20.');
  expect(page).toContain('24 readings');
  expect(page).toMatch(/X/);
  const lines = page.split('\n');
  expect(lines.length).toBeLessThanOrEqual(16);
  for (const line of lines) expect(line.length).toBeLessThanOrEqual(80);
  expect(page.replaceAll('…', '')).toMatch(/^[\u0020-\u007e\n]*$/);
});

it('the arrows turn to what else was measured and back, and write nothing', () => {
  const before = core.world().open!.state.events.length;
  const first = shown();
  press(RIGHT);
  expect(shown()).not.toBe(first);
  expect(shown()).toContain('No point signals.');
  press(LEFT);
  expect(shown()).toBe(first);
  press(ESC);
  expect(core.state().screen.name).not.toBe('figures');
  expect(core.world().open!.state.events.length).toBe(before);
});
