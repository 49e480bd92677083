/** What a revision re-opens: whatever is judged otherwise than it was, and nothing for a word. */
import { describe, expect, it } from 'vitest';
import type { Limit, LimitsFile } from '../../src/measure/limits.js';
import type { Route, RouteCheck, RouteStep } from '../../src/procedure/types.js';
import { asIfWritten } from '../../src/unit/aswritten.js';
import { fold } from '../../src/unit/fold.js';
import { changedSteps, decideRevision, type Judged, revisionEffect } from '../../src/unit/revision.js';
import { factsOf } from '../../src/unit/shared.js';
import { Bench, context, judged, LIMITS, route, step } from './routes.js';

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
      { step: 'cut', reasons: ['cut/len?: within ±0.3 mm, was within ±1 mm (length)'] },
    ]);
  });

  it('a step of which another instrument is asked', () => {
    expect(reasons(judged(asked({ instruments: ['calliper'] })))).toEqual([
      { step: 'cut', reasons: ['cut/len?: measured with another kind of instrument'] },
    ]);
    expect(reasons(judged(asked({ quantity: 'gap' })))).toHaveLength(1);
  });

  it('what is measured, where the rule of judging is another; and nothing that is looked at', () => {
    const next = judged(ROUTE, { decisionRule: { kind: 'guarded', factor: 1 } });
    expect(reasons(next)).toEqual([{ step: 'cut', reasons: ['cut/len?: judged by another rule'] }]);
  });

  it('a step with another figure in a sentence or a question', () => {
    expect(reasons(judged(changed({ figures: ['504'] })))).toEqual([
      { step: 'cut', reasons: ['it says 504, and said 500'] },
    ]);
    expect(reasons(judged(asked({ expect: 504 })))).toEqual([
      { step: 'cut', reasons: ['cut/len?: 504, was 500'] },
    ]);
  });

  it('a step that asks more, or less, or waits for another release', () => {
    const more = changed({ checks: [...ROUTE.steps[0]!.checks, ...ROUTE.steps[1]!.checks] });
    expect(reasons(judged(more))).toEqual([{ step: 'cut', reasons: ['it asks now: fit/a?'] }]);
    expect(changedSteps(judged(more), judged(ROUTE))).toEqual([
      { step: 'cut', reasons: ['it does not ask any more: fit/a?'] },
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
    expect(changed).toEqual([{ step: 'a', reasons: ['comes after "Do c" now'] }]);
    expect(reopens).toEqual(['a']);
  });

  it('all that rests on it, of what was done', () => {
    const bench = new Bench(ROUTE);
    bench.do({ do: 'instrument', instrument: 'T1' });
    bench.say('cut/len', '500');
    bench.yes('fit/a');
    const next = judged(ROUTE, { limits: limits('t.length', { bands: [{ low: -0.3, high: 0.3 }] }) });
    expect(revisionEffect(bench.state, judged(ROUTE), next).reopens).toEqual(['cut', 'fit']);
    expect(revisionEffect(new Bench(ROUTE).state, judged(ROUTE), next)).toEqual({
      changed: [],
      reopens: [],
      again: [],
    });
  });
});

describe('another order', () => {
  const ORDER = route({ order: [], s: ['order'] }, [
    step('order', 'order', {
      hold: { id: 'H', title: 'Order frozen', notSamePerson: true, evidence: false, rhythm: 'job' },
    }),
    step('list', 's', { rests: ['order'], checks: [{ id: 'a', rhythm: 'job' }] }),
    step('cut', 's', { rests: ['order'] }),
  ]);
  const of = (revision: string, height: number) =>
    judged(ORDER, { order: { revision, height, layout: [height] } });

  it('is checked and released again, and the work that rests on it stands', () => {
    const bench = new Bench(ORDER);
    bench.yes('order/a');
    bench.do({ do: 'release', step: 'order', pin: '1111' }, 'rl');
    bench.yes('list/a', 'cut/a');
    const old = of('B', 1200);
    const next = of('C', 1210);
    const effect = revisionEffect(bench.state, old, next);
    const reasons = [
      'the order: revision C, was B',
      'the order: height 1210, was 1200',
      'the order: another layout',
    ];
    expect(effect).toEqual({
      changed: [],
      reopens: [],
      again: [
        { step: 'order', reasons },
        { step: 'list', reasons },
      ],
    });
    const made = decideRevision(
      bench.state,
      { old, next },
      {},
      { reason: 'C' },
      context(30, { person: 'ql' }),
    );
    if (made.kind !== 'events') throw new Error(made.kind);
    const revised = asIfWritten(bench.state, made.events, 'ql', context(30));
    const after = fold(ORDER, [...bench.state.events, ...revised]);
    const status = (id: string) => after.steps.get(id)!.status;
    expect([status('order'), after.steps.get('order')!.released]).toEqual(['ready', undefined]);
    expect(after.finished).toBe(false);
    expect(after.steps.get('cut')!.madeAt).toBe(bench.state.steps.get('cut')!.madeAt);
    const again = new Bench(ORDER);
    again.state = after;
    again.minutes = 31;
    again.yes('order/a');
    expect(again.state.steps.get('order')!.status).toBe('held');
    again.do({ do: 'release', step: 'order', pin: '1111' }, 'rl');
    expect(again.state.steps.get('cut')!.status).toBe('done');
    again.yes('list/a');
    expect(again.state.finished).toBe(true);
  });

  it('wants the PIN of whoever takes it over, where they have one', () => {
    const state = new Bench(ORDER).state;
    const take = (pin?: string) =>
      decideRevision(
        state,
        { old: of('B', 1), next: of('C', 1) },
        {},
        { reason: 'C', ...(pin === undefined ? {} : { pin }) },
        context(30, { person: 'rl' }),
      );
    expect(take()).toMatchObject({ problem: { id: 'build.pin-needed' } });
    expect(take('9')).toMatchObject({ problem: { id: 'build.pin-wrong' } });
    expect(take('1111').kind).toBe('events');
  });

  it('of another revision is no fact to be taken over', () => {
    const first = new Bench({ ...ORDER, order: 'B' });
    first.yes('order/a');
    first.do({ do: 'release', step: 'order', pin: '1111' }, 'rl');
    const [fact] = factsOf(first.state);
    const other = new Bench({ ...ORDER, order: 'C' });
    other.yes('order/a');
    other.do({ do: 'release', step: 'order', pin: '1111' }, 'rl');
    expect(fact!.terms).not.toBe(factsOf(other.state)[0]!.terms);
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
