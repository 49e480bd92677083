/** The demonstration procedure on the demonstration job and profile set: the real numbers, through the real set-out. */
import { describe, expect, it } from 'vitest';
import { figuresAsked, lintProcedure } from '../../src/procedure/lint.js';
import { makeRoute, type RouteContexts } from '../../src/procedure/route.js';
import { contextsOf } from '../../src/window/context.js';
import { parseJob } from '../../src/window/job.js';
import { parseProfileSet } from '../../src/window/profileset.js';
import { setOut } from '../../src/window/setout.js';
import type { SetOut } from '../../src/window/types.js';
import { casement, must, sourceOf } from './samples.js';

const set = must(parseProfileSet(sourceOf('shared/profile-sets/w52.yaml')));
const job = must(parseJob(sourceOf('shared/jobs/pier-house.yaml')));
const units = job.units.map((unit): [string, RouteContexts, SetOut] => {
  const made = setOut(unit, set);
  return [unit.id, contextsOf(made), made];
});

describe('the demonstration job', () => {
  it('finds every figure that the procedure asks for in its profile set', () => {
    expect([...figuresAsked(casement).keys()].filter((figure) => !(figure in set.figures))).toEqual([]);
    const context = {
      figures: Object.keys(set.figures),
      routes: units.map(([, unit]) => must(makeRoute(casement, unit))),
    };
    expect(lintProcedure(casement, context)).toEqual([]);
  });

  it.each(units)('%s can explain every number that a check says it explains', (_, unit, { numbers }) => {
    const checks = must(makeRoute(casement, unit)).steps.flatMap((step) =>
      step.checks.flatMap((check) => [check, ...(check.points ?? [])]),
    );
    const explained = checks.filter((check) => check.explains !== undefined);
    expect(explained.length).toBeGreaterThan(5);
    for (const { id, explains, expect: expected } of explained) {
      const trace = numbers.get(explains!);
      expect(trace, `${id} ${explains}`).toBeDefined();
      if (expected !== undefined) expect(trace!.value, id).toBeCloseTo(expected, 6);
    }
  });

  it.each(units)('%s gets a whole route with whole texts and numbers', (_, unit) => {
    const { steps } = must(makeRoute(casement, unit));
    for (const step of steps) {
      const texts = [step.title, ...step.do, step.why, step.watch, ...step.checks.map(({ ask }) => ask)];
      for (const text of texts) {
        expect(text, step.id).not.toMatch(/[{}]|undefined|NaN|Infinity|\[object/);
        // A list of places that came out empty would leave its unit alone behind a space.
        expect(text, step.id).not.toMatch(/\b(at|lines|with)\s+mm\b/);
        expect(text.trim()).not.toBe('');
      }
      for (const check of step.checks) {
        if (check.kind === 'count') expect(check.expect, check.id).toBeGreaterThan(0);
        for (const value of [check.expect, check.plausible, check.size, check.nominal?.w, check.nominal?.h])
          if (value !== undefined) expect(Number.isFinite(value), check.id).toBe(true);
        if (check.kind === 'square' || (check.kind === 'number' && check.expect !== undefined))
          expect(check.expect ?? check.nominal?.w, check.id).toBeGreaterThan(0);
      }
    }
  });
});
