/** What a revision re-opens: whatever is judged otherwise than it was, and nothing for a word. */
import { describe, expect, it } from 'vitest';
import type { Limit, LimitsFile } from '../../src/measure/limits.js';
import type { Route, RouteCheck, RouteStep } from '../../src/procedure/types.js';
import { changedSteps, type Judged, revisionEffect } from '../../src/unit/revision.js';
import { Bench, judged, LIMITS, route, step } from './routes.js';

const number = (more: Partial<RouteCheck> = {}): Partial<RouteCheck> => ({
  id: 'len',
  kind: 'number',
  expect: 500,
  unit: 'mm',
  quantity: 'length',
  instruments: ['tape'],
  limits: ['t.length'],
  ...more,
});
const ROUTE = route({ s: [] }, [
  step('cut', 's', { do: ['Cut it.'], figures: ['500'], checks: [number()] }),
  step('fit', 's', { rests: ['cut'] }),
]);
const changed = (over: Partial<RouteStep>): Route => ({
  ...ROUTE,
  steps: ROUTE.steps.map((each) => (each.id === 'cut' ? { ...each, ...over } : each)),
});
const asked = (over: Partial<RouteCheck>): Route =>
  changed({ checks: [{ ...ROUTE.steps[0]!.checks[0]!, ...over }] });
const limits = (id: string, over: Partial<Limit>): LimitsFile => {
  const all = LIMITS.limits.map((limit) => (limit.id === id ? { ...limit, ...over } : limit));
  return { limits: all, byId: new Map(all.map((limit) => [limit.id, limit])) };
};
const reasons = (next: Judged) => changedSteps(judged(ROUTE), next);

describe('a revision re-opens', () => {
  it('a step whose limit was tightened', () => {
    const next = judged(ROUTE, { limits: limits('t.length', { bands: [{ low: -0.3, high: 0.3 }] }) });
    expect(reasons(next)).toEqual([
      { step: 'cut', reasons: ['cut/len: t.length is within ±0.3 mm, was within ±1 mm'] },
    ]);
  });

  it('a step of which another instrument is asked', () => {
    expect(reasons(judged(asked({ instruments: ['calliper'] })))).toEqual([
      { step: 'cut', reasons: ['cut/len takes another instrument'] },
    ]);
    expect(reasons(judged(asked({ quantity: 'gap' })))).toHaveLength(1);
  });

  it('what is measured, where the rule of judging is another; and nothing that is looked at', () => {
    const next = judged(ROUTE, { decisionRule: { kind: 'guarded', factor: 1 } });
    expect(reasons(next)).toEqual([{ step: 'cut', reasons: ['cut/len is judged by another rule'] }]);
  });

  it('a step with another figure in a sentence or a question', () => {
    expect(reasons(judged(changed({ figures: ['504'] })))).toEqual([
      { step: 'cut', reasons: ['500 does not stand in it any more', '504 stands in it now'] },
    ]);
    expect(reasons(judged(asked({ expect: 504 })))).toEqual([
      { step: 'cut', reasons: ['cut/len asks for something else'] },
    ]);
  });

  it('a step that asks more, or less, or waits for another release', () => {
    const more = changed({ checks: [...ROUTE.steps[0]!.checks, ...ROUTE.steps[1]!.checks] });
    expect(reasons(judged(more))).toEqual([{ step: 'cut', reasons: ['fit/a is asked now'] }]);
    expect(changedSteps(judged(more), judged(ROUTE))).toEqual([
      { step: 'cut', reasons: ['fit/a is not asked any more'] },
    ]);
    const hold = { id: 'H', title: 'Look', notSamePerson: true, evidence: false };
    expect(reasons(judged(changed({ hold })))).toEqual([{ step: 'cut', reasons: ['its hold is another'] }]);
  });

  it('a step that was done before one that now comes first, but not where it was done after that', () => {
    const three = route({ s: [], t: [] }, [step('a', 's'), step('b', 't'), step('c', 't')]);
    const turned = route({ t: [], s: ['t'] }, [step('b', 't'), step('c', 't'), step('a', 's')]);
    const bench = new Bench(three);
    bench.yes('b/a', 'a/a', 'c/a');
    const { changed, reopens } = revisionEffect(bench.state, judged(three), judged(turned));
    expect(changed).toEqual([{ step: 'a', reasons: ['c comes before it now'] }]);
    expect(reopens).toEqual(['a']);
  });

  it('all that rests on it, of what was done', () => {
    const bench = new Bench(ROUTE);
    bench.do({ do: 'instrument', instrument: 'T1' });
    bench.say('cut/len', '500');
    bench.yes('fit/a');
    const next = judged(ROUTE, { limits: limits('t.length', { bands: [{ low: -0.3, high: 0.3 }] }) });
    expect(revisionEffect(bench.state, judged(ROUTE), next).reopens).toEqual(['cut', 'fit']);
    expect(revisionEffect(new Bench(ROUTE).state, judged(ROUTE), next)).toEqual({ changed: [], reopens: [] });
  });
});

describe('a revision re-opens nothing', () => {
  it.each<[string, Judged]>([
    ['for a sentence worded otherwise', judged(changed({ do: ['Saw it: 4 cuts.'] }))],
    ['for a title, a reason, a warning', judged(changed({ title: 'T', why: 'W', watch: 'X' }))],
    ['for a question worded otherwise', judged(asked({ ask: 'How long?' }))],
    ['for how to measure it', judged(asked({ how: 'At the far end.' }))],
    ['for when a reading is queried', judged(asked({ plausible: 3 }))],
    [
      "for a limit's title or the wording of its source",
      judged(ROUTE, {
        limits: limits('t.length', { title: 'Length', source: { kind: 'house-rule', text: 'told' } }),
      }),
    ],
    [
      'for a limit that it does not use',
      judged(ROUTE, { limits: limits('t.gap', { bands: [{ high: 1 }] }) }),
    ],
    [
      'for a band of another size',
      judged(ROUTE, {
        limits: limits('t.length', {
          bands: [
            { upto: 600, low: -1, high: 1 },
            { low: -9, high: 9 },
          ],
        }),
      }),
    ],
  ])('%s', (_, next) => expect(reasons(next)).toEqual([]));
});
