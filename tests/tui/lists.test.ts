/** The lists at the bench: opened at the step's rows, turned, widened to batch and job; steps found as one types. */
import { afterAll, expect, it } from 'vitest';
import type { View } from '../../src/tui/screens/screen.js';
import { listOf, screenOn } from '../../src/tui/screens/screens.js';
import { stepView } from '../../src/tui/screens/step.js';
import { DOWN, ESC, freshBench, LEFT, leaveBench, RIGHT } from './realbench.js';

const { root, bench } = freshBench();
const { core, press } = bench;
afterAll(() => leaveBench(bench, root));

const LISTS = '\u001b[2~';
const F3 = '\u001bOR';
const BY_STAGE = '\u0006';
const THEME = { colours: 'none', ascii: false } as const;

const textOf = (lines: View['lines']): string =>
  lines.map((row) => row.map(({ text }) => text).join('')).join('\n');
const shown = (width = 80): string => {
  const state = core.state();
  return textOf(screenOn(state).lines!(state, state.screen, core.world(), width, THEME, 24));
};

it('one key shows what the unit is cut from, and the arrows turn to the other lists', () => {
  press('jb\r', 'P05-1\r', LISTS);
  expect(shown()).toContain('Cutting list  P05-1');
  expect(shown()).toMatch(/○ 1 × 1600\.0 {2}45° {2}frame head/);
  press(RIGHT);
  expect(shown()).toContain('Machining list  P05-1');
  press(RIGHT, RIGHT, RIGHT, RIGHT);
  expect(shown()).toMatch(/Hardware list {2}P05-1[\s\S]*stay 300: width 546 of 550, height 1112 of 1200/);
  press(RIGHT);
  expect(shown()).toContain('Cutting list  P05-1');
  press(LEFT, RIGHT);
  expect(shown()).toContain('Cutting list  P05-1');
});

it('the same key widens it to the job, with all its units, and back', () => {
  press(LISTS);
  expect(shown()).toContain('Cutting list  pier-house');
  for (const unit of ['P01-1', 'P02-1', 'P07-1', 'P08-1']) expect(shown()).toContain(`  ${unit}`);
  // Longest first within a profile, whatever unit it is for.
  const frames = [...shown().matchAll(/1 × +(\d+\.\d) {2}45° {2}frame/g)].map(([, length]) => Number(length));
  expect(frames.length).toBeGreaterThan(30);
  expect(frames).toEqual(frames.toSorted((a, b) => b - a));
  press(LISTS);
  expect(shown()).toContain('Cutting list  P05-1');
  press(ESC);
  expect(core.state().screen.name).toBe('step');
});

it('a list without rows is passed over: a fixed light has no hardware, a screen no glass', () => {
  const turnedOn = (unit: string): string[] => {
    press(`${unit}\r`, LISTS);
    const heads: string[] = [];
    for (let i = 0; i < 7; i++) {
      const head = /^ (\w+)/.exec(shown())![1]!;
      expect(shown()).not.toContain('Nothing');
      if (!heads.includes(head)) heads.push(head);
      press(RIGHT);
    }
    press(ESC);
    return heads;
  };
  expect(turnedOn('N1-1')).toEqual(['Cutting', 'Machining', 'Kit']);
  expect(turnedOn('P01-1')).not.toContain('Hardware');
});

it('in a walk over several units it shows the batch first', () => {
  press('P02-1\r', RIGHT, 'P02-2\r', RIGHT);
  press(BY_STAGE);
  press(DOWN, '\r');
  const batch = core.state().walk?.batch ?? [];
  expect(batch.length).toBeGreaterThan(1);
  press(LISTS);
  expect(shown(200)).toContain(batch.join(' '));
  for (const unit of batch) expect(shown(200)).toContain(unit);
});

it('steps are found as one types, and a single one is taken', () => {
  press('P05-1\r', F3);
  const all = listOf(core.state(), core.world()).length;
  press('stays');
  const found = listOf(core.state(), core.world());
  expect(found.length).toBeGreaterThan(0);
  expect(found.length).toBeLessThan(all);
  expect(found.every(({ text }) => /stays/i.test(text))).toBe(true);
  press('\r');
  expect(core.state().note?.text).toMatch(/waits|steps for "stays"/);
  press('no such step\r');
  expect(core.state().note?.text).toContain('No step for "no such step"');
});

it('a larger screen carries the rows at hand and the stage; a small one keeps the question', () => {
  press(ESC, 'P05-1\r');
  const view = (width: number, height: number) => stepView(core.state(), core.world(), width, height, THEME);
  expect(textOf(view(79, 31).below ?? [])).toContain('This stage');
  const small = view(52, 15);
  expect(small.lines.length + small.menu + (small.below?.length ?? 0)).toBeLessThanOrEqual(15);
});
