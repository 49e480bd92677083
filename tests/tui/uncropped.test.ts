/** At 80 columns by 24 rows, whatever decides an answer stands whole on the work screen: the question, its number, its limits. */
import { afterAll, expect, it } from 'vitest';
import { sanitize } from '../../src/base/text.js';
import type { Route, RouteStep } from '../../src/procedure/types.js';
import { builtFromNow, type Plan, planOf } from '../../src/session/plan.js';
import type { World } from '../../src/session/ports.js';
import { realDisk } from '../../src/store/disk.js';
import { openWorkshop } from '../../src/store/workshop.js';
import { layoutOf } from '../../src/tui/app.js';
import type { Line } from '../../src/tui/parts/line.js';
import { stepView } from '../../src/tui/screens/step.js';
import { limitTextsShort } from '../../src/tui/screens/why.js';
import { type BenchState, START, TOP } from '../../src/tui/state.js';
import { BENCH_TEXTS } from '../../src/tui/words/told.js';
import { fold } from '../../src/unit/fold.js';
import { lookAt } from '../../src/unit/looks.js';
import type { StepState } from '../../src/unit/types.js';
import type { UnitState } from '../../src/unit/unitstate.js';
import { CATALOGUES } from '../base/catalogues.js';
import { longer, pseudo } from '../base/pseudo.js';
import { benchOf, remove, startClock, workshop } from './realbench.js';

const root = workshop();
const bench = benchOf(root, startClock());
afterAll(() => {
  bench.ports.close();
  remove(root);
});

BENCH_TEXTS.set('xb', Object.assign({}, ...CATALOGUES.map(({ catalogue }) => pseudo(catalogue, longer))));
afterAll(() => BENCH_TEXTS.delete('xb'));

const { width, drawing, body } = layoutOf({ columns: 80, rows: 24 });
const THEME = { colours: 'none', ascii: false } as const;
const words = (lines: readonly Line[]) =>
  lines
    .map((spans) => spans.map(({ text }) => text).join(''))
    .join(' ')
    .replace(/\s+/g, ' ');
const flat = (text: string) => sanitize(text).replace(/\s+/g, ' ').trim().replace(/\.$/, '');

/** The unit as it stands when the check at `from` is asked: those before it in its step are answered. */
function standing(state: UnitState, step: StepState, from: number): { state: UnitState; step: StepState } {
  const checks = step.checks.map((check, i) => ({ ...check, holds: i < from }));
  const now = { ...step, open: true, status: 'begun' as const, checks };
  return { state: { ...state, steps: new Map([...state.steps, [step.step.id, now]]) }, step: now };
}

function shownAt(
  plan: Plan,
  state: UnitState,
  step: RouteStep,
  world: World,
  batch: readonly string[],
): string {
  const { id } = plan.unit;
  const open = { id, job: 'pier-house', state, setOut: plan.setOut };
  const units = batch.map((unit) => ({ job: 'pier-house', unit, step: step.id }));
  const at: BenchState = {
    ...START,
    person: 'jb',
    at: step.id,
    screen: { name: 'step', cursor: TOP },
    ...(batch.length > 0 ? { walk: { title: step.title, units, batch } } : {}),
  };
  const view = stepView(at, { ...world, open }, width - drawing - 1, body, THEME);
  return words(view.lines.slice(0, body));
}

const stepsOf = (route: Route) =>
  route.steps.filter(({ checks }) => checks.some(({ kind }) => kind !== 'computed'));

it.each([
  ['alone', [], 'en'],
  ['alone, in a language that needs more room', [], 'xb'],
  ['in a walk over seven units', ['P02-1', 'P02-2', 'P03-1', 'P04-1', 'P05-1', 'P06-1', 'P07-1'], 'en'],
] as const)('for every question of every demonstration unit, %s', (_how, batch, language) => {
  const opened = openWorkshop(root, realDisk);
  const from = opened.ok ? builtFromNow(opened.value, 'pier-house') : opened;
  if (!from.ok) throw new Error('no job');
  const { more: _, open: _none, ...here } = bench.core.world();
  const world = { ...here, language };
  const cropped: string[] = [];
  let asked = 0;
  for (const { id } of from.value.job.units) {
    const plan = planOf(from.value, id);
    if (!plan.ok) throw new Error(id);
    const folded = fold(plan.value.route, [], { now: world.now });
    for (const step of stepsOf(plan.value.route)) {
      for (let i = 0; i < step.checks.length; ) {
        const check = step.checks[i]!;
        if (check.kind === 'computed') {
          i += 1;
          continue;
        }
        const now = standing(folded, folded.steps.get(step.id)!, i);
        const together = lookAt(now.step);
        const told = shownAt(plan.value, now.state, step, world, batch);
        const questions = together.length > 0 ? together : [check];
        for (const each of questions)
          if (!told.includes(flat(each.ask))) cropped.push(`${each.id}: ${each.ask}`);
        // Whose rule it is may be cropped; what it allows may not.
        if (together.length === 0)
          for (const limit of limitTextsShort(check, world, check.points?.[0]?.id).slice(0, 2)) {
            const allowed = flat(limit.slice(0, limit.indexOf(':') + 15));
            if (!told.includes(allowed)) cropped.push(`${check.id}: ${allowed}`);
          }
        asked += 1;
        i += Math.max(1, together.length);
      }
    }
  }
  expect([...new Set(cropped)]).toEqual([]);
  expect(asked).toBeGreaterThan(700);
});
