/**
 * A journal that says more than its route: a revision may take steps and checks away that were worked on, and another
 * program, or a mended journal, may have written what this one would not.
 */
import { describe, expect, it } from 'vitest';
import { asIfWritten } from '../../src/unit/aswritten.js';
import { decide } from '../../src/unit/decide.js';
import type { EventBody, JournalEvent } from '../../src/unit/events.js';
import { fold } from '../../src/unit/fold.js';
import { nextCheck, wouldReopen } from '../../src/unit/next.js';
import { changedSteps } from '../../src/unit/revision.js';
import type { UnitState } from '../../src/unit/unitstate.js';
import { Bench, context, judged, OPENED, route, SQUARE, step } from './routes.js';

const hold = { id: 'H', title: 'Look', notSamePerson: false, evidence: false };
const set = { id: 'set', kind: 'square', nominal: { w: 1000, h: 700 }, limits: ['t.diagonals'] } as const;
const gone = step('gone', 's', { checks: ['a', 'b', set], hold });
const stay = step('stay', 's', { checks: ['a', 'b'] });
const last = step('last', 's', { rests: ['stay'] });
const BEFORE = route({ s: [] }, [gone, stay, last]);
const AFTER = route({ s: [] }, [stay, last]);
const VERDICT = { outcome: 'pass' as const, rules: [], notes: [] };
const said = (check: string): EventBody => ({
  kind: 'answered',
  step: check.split('/')[0]!,
  check,
  answer: { kind: 'tick', done: true },
  verdict: VERDICT,
});
const began = (id: string): EventBody => ({ kind: 'began', step: id });
const written = (...bodies: EventBody[]): JournalEvent[] =>
  asIfWritten({ events: [] }, [OPENED, ...bodies], 'mk', context(1));
const statuses = (state: UnitState) => [...state.steps].map(([id, { status }]) => [id, status]);
const refusal = (state: UnitState, action: Parameters<typeof decide>[1]) =>
  decide(state, action, context(30, { person: 'ql' }));

describe('a step that a revision took away', () => {
  it('counts as changed no more than one that it added', () => {
    expect(changedSteps(judged(BEFORE), judged(AFTER))).toEqual([]);
    expect(changedSteps(judged(AFTER), judged(BEFORE))).toEqual([]);
    const other = route({ s: [] }, [gone, step('stay', 's', { figures: ['12'], checks: ['a', 'b'] }), last]);
    expect(changedSteps(judged(BEFORE), judged(other))).toEqual([
      { step: 'stay', reasons: ['it says 12 too'] },
    ]);
  });

  it('leaves its entries in the journal, and they move nothing: not even when they are taken back', () => {
    const reading = { raw: '1000', value: 1000 };
    const body = written(
      began('stay'),
      said('stay/a'),
      began('gone'),
      said('gone/a'),
      { kind: 'read', step: 'gone', check: 'gone/set', key: 'top', reading },
      { kind: 'released', step: 'gone', hold: 'H', pin: false },
      { kind: 'corrected', of: 5, reason: 'r' },
      { kind: 'corrected', of: 6, reason: 'r' },
      { kind: 'corrected', of: 7, reason: 'r' },
    );
    const state = fold(AFTER, body);
    expect(statuses(state)).toEqual([
      ['stay', 'begun'],
      ['last', 'waiting'],
    ]);
    expect(state.events).toHaveLength(10);
    expect(nextCheck(state)).toEqual({ step: 'stay', check: 'stay/b' });
    expect(wouldReopen(state, 'gone')).toEqual([]);
  });

  it('has nothing to undo', () => {
    const state = fold(AFTER, written(said('gone/a')));
    expect(refusal(state, { do: 'undo', reason: 'r' })).toMatchObject({
      problem: { text: 'Nothing was answered that could be taken back.' },
    });
  });

  it.each([
    ['on it', { step: 'gone' }],
    ['on a check of it', { step: 'gone', check: 'gone/b' }],
  ])(
    'a snag %s holds up the whole unit till it is decided, and closes with nothing to read again',
    (_, on) => {
      const raised: EventBody = {
        kind: 'snag-raised',
        ...on,
        severity: 'minor',
        cause: 'other',
        text: 'bent',
        touches: { unit: true },
      };
      const open = fold(AFTER, written(raised));
      for (const each of open.steps.values())
        expect(each.because.join(' '), each.step.id).toContain('Snag 2 is open');
      const decided = fold(
        AFTER,
        written(raised, { kind: 'snag-decided', snag: 2, disposition: 'repair', reason: 'r', pin: false }),
      );
      expect(statuses(decided)[0]).toEqual(['stay', 'ready']);
      expect(refusal(decided, { do: 'close', snag: 2 })).toMatchObject({ events: [{ kind: 'snag-closed' }] });
    },
  );

  it('that was reworked for a snag on the unit leaves nothing to read again', () => {
    const state = fold(
      AFTER,
      written(
        said('gone/a'),
        { kind: 'snag-raised', severity: 'minor', cause: 'other', text: 'bent', touches: { unit: true } },
        { kind: 'snag-decided', snag: 3, disposition: 'rework', reason: 'r', pin: false },
        { kind: 'reworked', step: 'gone', reason: 'r', reopens: [], snag: 3 },
      ),
    );
    expect(refusal(state, { do: 'close', snag: 3 })).toMatchObject({ events: [{ kind: 'snag-closed' }] });
  });
});

describe('what this program would not have written', () => {
  it('a second answer to a check whose ground was never made replaces the first', () => {
    const state = fold(AFTER, written(began('last'), said('last/a'), said('last/a')));
    expect(state.steps.get('last')!.checks[0]!.earlier).toEqual([{ n: 3, why: 'superseded' }]);
    expect(state.steps.get('last')!.status).toBe('stale');
  });

  it('an earlier release taken back leaves the later one', () => {
    const one = route({ s: [] }, [step('g', 's', { hold }), step('z', 's')]);
    const events = written(
      began('g'),
      said('g/a'),
      { kind: 'released', step: 'g', hold: 'H', pin: false },
      { kind: 'released', step: 'g', hold: 'H', pin: false },
      { kind: 'corrected', of: 4, reason: 'r' },
    );
    expect(fold(one, events).steps.get('g')).toMatchObject({ status: 'done', released: { n: 5 } });
    const both = asIfWritten({ events }, [{ kind: 'corrected', of: 5, reason: 'r' }], 'mk', context(2));
    expect(fold(one, [...events, ...both]).steps.get('g')!.status).toBe('held');
  });

  it('a feature that nobody makes is not waited for, and no time runs from it', () => {
    const bench = new Bench(
      route({ s: [] }, [
        step('g', 's', {
          rests: ['nothing'],
          notBefore: { feature: 'nothing', minutes: 60 },
          notAfter: { feature: 'nothing', minutes: 60 },
          checks: [set],
        }),
        step('z', 's'),
      ]),
    );
    bench.minutes = 600;
    expect(bench.state.timers).toEqual([]);
    bench.say('g/set', SQUARE);
    expect(bench.status('g')).toBe('done');
  });

  it('a check that rests twice on one step re-opens once', () => {
    const twice = route({ s: [] }, [
      step('a', 's', { makes: ['f', 'g'] }),
      step('b', 's', { checks: ['x', { id: 'c', rests: ['f', 'g'] }] }),
    ]);
    const state = fold(twice, written(began('a'), said('a/a'), began('b'), said('b/x'), said('b/c')));
    expect(wouldReopen(state, 'a')).toEqual([
      { step: 'b', checks: ['b/c'], why: 'Do b: rests on what is made at "Do a".' },
    ]);
  });
});
