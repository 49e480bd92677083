/** What 80 columns by 24 rows crop on the work screen is whole on the page behind F5, for every check of every demonstration unit. */
import { afterAll, expect, it } from 'vitest';
import { sanitize } from '../../src/base/text.js';
import { limitsOf } from '../../src/procedure/wanted.js';
import { builtFromNow, planOf } from '../../src/session/plan.js';
import { realDisk } from '../../src/store/disk.js';
import { openWorkshop } from '../../src/store/workshop.js';
import type { Line } from '../../src/tui/parts/line.js';
import { cautionsAndLimits, instructions, limitTexts, whyScreenLines } from '../../src/tui/screens/why.js';
import { benchOf, remove, startClock, workshop } from './realbench.js';

const root = workshop();
const bench = benchOf(root, startClock());
afterAll(() => {
  bench.ports.close();
  remove(root);
});
/** The words in order, however they were broken over lines. */
const words = (lines: readonly Line[]) =>
  lines
    .map((spans) => spans.map(({ text }) => text).join(''))
    .join(' ')
    .replace(/\s+/g, ' ');
const flat = (text: string) => sanitize(text).replace(/\s+/g, ' ').trim();

it('holds every caution, question, limit and instruction, and no line is wider than the screen', () => {
  const opened = openWorkshop(root, realDisk);
  const from = opened.ok ? builtFromNow(opened.value, 'pier-house') : opened;
  if (!from.ok) throw new Error('no job');
  const world = bench.core.world();
  const seen = new Set<string>();
  let limits = 0;
  let cautions = 0;
  for (const { id } of from.value.job.units) {
    const plan = planOf(from.value, id);
    if (!plan.ok) throw new Error(id);
    for (const step of plan.value.route.steps)
      for (const check of step.checks) {
        // The same check of another unit differs by its numbers only.
        if (seen.has(`${step.base}/${check.id.split('/').at(-1)}`)) continue;
        seen.add(`${step.base}/${check.id.split('/').at(-1)}`);
        const page = [...cautionsAndLimits(step, check, world, 80), ...instructions(step, 80)];
        const told = words(page);
        if (step.caution !== undefined) expect(told).toContain(flat(step.caution));
        expect(told).toContain(flat(check.ask));
        const texts = limitTexts(check, world);
        expect(texts).toHaveLength(limitsOf(check).length);
        for (const text of texts) expect(told).toContain(flat(text));
        for (const sentence of step.do) expect(told).toContain(flat(sentence));
        for (const spans of page)
          expect(spans.map(({ text }) => text).join('').length).toBeLessThanOrEqual(80);
        limits += texts.length;
        cautions += step.caution === undefined ? 0 : 1;
      }
  }
  expect(limits).toBeGreaterThan(90);
  expect(cautions).toBeGreaterThan(20);
});

it('is behind F5, with the instructions of the step at hand', () => {
  bench.press('P01-1\r', '\u001b[15~');
  expect(bench.core.state().screen.name).toBe('why');
  const step = bench.core.world().open!.state.route.steps[0]!;
  const told = words(whyScreenLines(bench.core.state(), bench.core.world(), 80));
  for (const text of [...step.do, step.checks[0]!.ask, step.why]) expect(told).toContain(flat(text));
});
