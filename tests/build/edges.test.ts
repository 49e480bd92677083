/** What people seldom do, and what a journal may hold that the route has not: each answer of the build room's smaller parts. */
import { describe, expect, it } from 'vitest';
import { asIfWritten } from '../../src/build/decide.js';
import { nextMove, passingValue } from '../../src/build/driver.js';
import type { EventBody, JournalEvent } from '../../src/build/events.js';
import { apply, fold } from '../../src/build/fold.js';
import { frozenIn } from '../../src/build/frozen.js';
import { judge, judgeReading, type Value } from '../../src/build/judge.js';
import { lastStep, nextCheck } from '../../src/build/next.js';
import { findPerson, levelOf, levelProblem, soloRule } from '../../src/build/people.js';
import { decideFirstOff, decideSetupEnd, setupStandings, unitsInDoubt } from '../../src/build/setups.js';
import { reachesOf, traceUnits } from '../../src/build/trace.js';
import type { RouteCheck } from '../../src/procedure/types.js';
import {
  around,
  at,
  Bench,
  check,
  INSTRUMENTS,
  opened,
  PEOPLE,
  RULES,
  route,
  SMALL,
  SQUARE,
  step,
} from './routes.js';

const here = around(0);
const judged = (more: Partial<RouteCheck>, value: Value) =>
  judge({ check: check('s/a', more), value, confirmed: false, instrument: undefined, around: here });
const outcome = (more: Partial<RouteCheck>, value: Value) => {
  const made = judged(more, value);
  return made.kind === 'answer'
    ? made.verdict.outcome
    : made.kind === 'refused'
      ? made.problem.todo
      : made.kind;
};

describe('an answer of the wrong kind says what is wanted', () => {
  it.each<[Partial<RouteCheck>, Value, RegExp]>([
    [{ kind: 'tick' }, { top: '1' }, /as text/],
    [{ kind: 'tick' }, 'maybe', /yes when it is done/],
    [{ kind: 'go-no-go' }, 'perhaps', /yes or no/],
    [{ kind: 'count' }, 'four', /whole number/],
    [{ kind: 'choice', choices: [{ id: 'grey', text: 'grey', pass: true }] }, 'pink', /Choose one of: grey/],
    [{ kind: 'choice' }, 'pink', /Choose one of/],
    [{ kind: 'text' }, '  ', /at most 200/],
    [{ kind: 'text' }, 'x'.repeat(201), /at most 200/],
    [{ kind: 'number' }, 'about ten', /./],
    [{ kind: 'square' }, '1000', /by key/],
    [{ kind: 'square' }, { middle: '1000' }, /top, bottom/],
    [{ kind: 'square' }, { ...SQUARE, top: 'long' }, /./],
  ])('%o %o', (more, value, todo) => {
    expect(outcome(more, value)).toMatch(todo);
  });
  it('and one that is right passes or fails by what was asked', () => {
    expect(outcome({ kind: 'count', expect: 4 }, '4')).toBe('pass');
    expect(outcome({ kind: 'count', expect: 4 }, '5')).toBe('fail');
    expect(outcome({ kind: 'count' }, '5')).toBe('pass');
    const choices = [{ id: 'black', text: 'black', pass: false }];
    expect(outcome({ kind: 'choice', choices }, 'BLACK')).toBe('fail');
    expect(outcome({ kind: 'go-no-go' }, 'no')).toBe('fail');
  });
  it('a single reading of a set is judged with or without a nominal and an instrument', () => {
    const one = (more: Partial<RouteCheck>, raw: string) =>
      judgeReading({
        check: check('s/a', { kind: 'square', ...more }),
        key: 'top',
        raw,
        confirmed: false,
        instrument: INSTRUMENTS[0],
        around: here,
      }).kind;
    expect(one({}, '1000')).toBe('reading');
    expect(one({ nominal: { w: 1000, h: 700 }, plausible: 5 }, '1000')).toBe('reading');
    expect(one({ nominal: { w: 1000, h: 700 }, plausible: 5 }, '1100')).toBe('ask');
    expect(one({}, 'long')).toBe('refused');
  });
});

describe('people', () => {
  it('are found by id or initials, and their level is of the stage, of all, or none', () => {
    expect(findPerson(RULES, ' MK ')?.id).toBe('mk');
    expect(findPerson(RULES, 'nobody')).toBeUndefined();
    expect(levelOf({ ...PEOPLE[0]!, levels: { saw: 2 } }, 'saw')).toBe(2);
    expect(levelOf({ ...PEOPLE[0]!, levels: { saw: 2 } }, 'seal')).toBe(0);
  });
  it('where nobody has the level, the refusal says to name somebody', () => {
    const alone = { ...here, workshop: { ...RULES, people: [PEOPLE[0]!] } };
    expect(levelProblem(PEOPLE[0]!, 's', 4, 'it', alone)?.todo).toMatch(/name somebody/);
  });
  it('a one-person workshop is told its rule, with evidence where that is asked', () => {
    const solo = (evidence: boolean) =>
      soloRule(PEOPLE[1]!, 's', 90, {
        ...here,
        workshop: { ...RULES, people: [PEOPLE[1]!], soloRelease: { minutes: 60, evidence } },
      });
    expect(solo(true)).toMatchObject({ rule: expect.stringContaining('with evidence') });
    expect(solo(false)).toMatchObject({ evidence: false });
    const none = soloRule(PEOPLE[1]!, 's', 90, { ...here, workshop: { ...RULES, people: [PEOPLE[1]!] } });
    expect('problem' in none && none.problem.todo).toMatch(/soloRelease/);
  });
});

describe('events about what the route does not have', () => {
  const state = opened();
  const plus = (...bodies: EventBody[]) => apply(state, ...asIfWritten(state, bodies, 'mk', here));
  const reading = { raw: '1', value: 1 };
  const verdict = { outcome: 'pass' as const, rules: [], notes: [] };
  it('change no step', () => {
    const after = plus(
      { kind: 'began', step: 'gone' },
      { kind: 'answered', step: 'gone', check: 'gone/a', answer: { kind: 'tick', done: true }, verdict },
      { kind: 'answered', step: 'cut.frame', check: 'gone/a', answer: { kind: 'tick', done: true }, verdict },
      { kind: 'read', step: 'gone', check: 'gone/set', key: 'top', reading },
      { kind: 'released', step: 'gone', hold: 'H', pin: false },
      { kind: 'reworked', step: 'gone', reason: 'r', reopens: [] },
      { kind: 'snag-decided', snag: 99, disposition: 'repair', reason: 'r', pin: false },
      { kind: 'snag-closed', snag: 99, note: '' },
      { kind: 'corrected', of: 99, reason: 'r' },
      { kind: 'revised', sources: {}, changed: ['gone', 'cut.frame'], reason: 'r' },
    );
    expect([...after.steps.values()].map(({ status }) => status)).toEqual(
      [...state.steps.values()].map(({ status }) => status),
    );
    expect(after.snags).toEqual([]);
  });
  it('and what was taken back is what was there: a reading, an answer, a release', () => {
    const bench = new Bench();
    const taken = bench.do({ do: 'answer', check: 'cut.frame/length', value: '1000' }).at(-1)!;
    bench.do({ do: 'undo', reason: 'typed wrongly' });
    expect(bench.state.steps.get('cut.frame')!.checks[0]!.earlier).toEqual([
      { n: taken.n, why: 'corrected' },
    ]);
  });
});

describe('where a unit stands', () => {
  it('is nothing on one that is not opened, parked, or has no such step', () => {
    const empty = fold(SMALL, []);
    expect(lastStep(empty)).toBeUndefined();
    const bench = new Bench();
    expect(nextCheck(bench.state, 'gone')).toBeUndefined();
    expect(nextCheck(bench.state, 'cut.frame')).toEqual({ step: 'cut.frame', check: 'cut.frame/length' });
    bench.do({ do: 'park', reason: 'shift ends' });
    expect(nextCheck(bench.state)).toBeUndefined();
    expect(nextMove(bench.state, bench.around())).toMatchObject({ action: { do: 'resume' } });
  });
  it('without workings the last step is read from the events', () => {
    const bench = new Bench();
    bench.do({ do: 'answer', check: 'cut.frame/length', value: '1000' });
    bench.do({ do: 'note', text: 'seen', step: 'cut.sash' });
    expect(lastStep({ ...bench.state })).toBe('cut.frame');
  });
  it('frozen sources are those of the last revision; one without a beginning says nothing', () => {
    const hash = (c: string) => c.repeat(64);
    const events = asIfWritten(
      { events: [] },
      [
        { kind: 'revised', sources: { job: hash('0') }, changed: [], reason: 'r' },
        {
          ...(opened().events[0] as JournalEvent & { kind: 'opened' }),
          sources: { job: hash('a'), limits: hash('b') },
        },
        { kind: 'revised', sources: { job: hash('c') }, changed: [], reason: 'r' },
      ] as EventBody[],
      'mk',
      here,
    );
    expect(frozenIn(events.slice(0, 1))).toBeUndefined();
    expect(frozenIn(events)?.sources).toEqual({ job: hash('c'), limits: hash('b') });
  });
});

describe('the unattended builder', () => {
  it('says why it is stuck where nobody or nothing fits', () => {
    const bench = new Bench();
    const alone = { ...bench.around(), workshop: { ...RULES, people: [] } };
    expect(nextMove(bench.state, alone)).toMatchObject({
      kind: 'stuck',
      why: expect.stringContaining('nobody'),
    });
    const bare = { ...bench.around(), inHand: {}, instruments: [] };
    expect(nextMove(bench.state, bare)).toMatchObject({
      kind: 'stuck',
      why: expect.stringContaining('tape'),
    });
    const refused = opened(SMALL, { problems: [{ id: 'p', text: 'no', todo: '' }] });
    expect(nextMove(refused, alone)).toMatchObject({
      kind: 'stuck',
      why: expect.stringContaining('override'),
    });
    expect(nextMove(refused, { ...bench.around(), person: 'rl' }, { pins: { rl: '1111' } })).toMatchObject({
      action: { do: 'override', pin: '1111' },
    });
    bench.do({ do: 'snag', cause: 'other', text: 'bent' }, 'ql');
    bench.do({ do: 'decide', snag: 2, disposition: 'scrap', reason: 'bent' }, 'ql');
    expect(nextMove(bench.state, bench.around())).toMatchObject({ kind: 'stuck' });
  });
  it('types what passes each kind of check, in the units of the workshop', () => {
    const value = (more: Partial<RouteCheck>, on = here) => passingValue(check('s/a', more), on, {});
    expect(value({ kind: 'count' })).toBe('0');
    expect(value({ kind: 'choice' })).toBe('');
    expect(value({ kind: 'text' })).toBe('as marked');
    expect(value({ kind: 'text', lot: 'glass' })).toBe('GLASS-2601');
    expect(value({ kind: 'number', expect: 12 }, { ...here, workshop: { ...RULES, units: 'inch' } })).toBe(
      '12 mm',
    );
    expect(value({ kind: 'number', against: 'value' })).toBe('0');
    expect(value({ kind: 'square' })).toMatchObject({ top: '1000', left: '1000' });
  });
});

describe('set-ups', () => {
  const rule = {
    id: 'saw',
    title: 'Saw',
    uses: 2,
    checks: [
      check('setup.saw/ok', { kind: 'go-no-go' }),
      check('setup.saw/len', {
        kind: 'number',
        expect: 1000,
        limits: ['t.length'],
        instruments: ['tape'],
        plausible: 9,
      }),
    ],
  };
  const values = { 'setup.saw/ok': 'yes', 'setup.saw/len': '1000' };
  const proven = (n: number, passed: boolean) =>
    ({
      v: 1,
      n,
      at: at(n),
      by: 'mk',
      bench: 'b',
      prev: '',
      hash: '',
      kind: 'first-off',
      setup: 'saw',
      checks: [],
      passed,
    }) as JournalEvent;

  it('are proven by somebody who may, with all checks answered, in hand what they take', () => {
    const made = (given: Record<string, string>, more: object = {}, options = {}) => {
      const decision = decideFirstOff(rule, given, { ...here, ...more }, options);
      return decision.kind === 'refused' ? decision.problem.id : decision.kind;
    };
    expect(made(values)).toBe('events');
    expect(made(values, {}, { note: 'gauge 4' })).toBe('events');
    expect(made(values, { person: undefined })).toBe('build.nobody');
    expect(made(values, { person: 'tr' })).toBe('build.no-right');
    expect(made({ 'setup.saw/ok': 'yes' })).toBe('build.check-order');
    expect(made(values, { inHand: {} })).toBe('build.no-instrument');
    expect(made({ ...values, 'setup.saw/len': '1090' })).toBe('ask');
    expect(made({ ...values, 'setup.saw/ok': 'hm' })).toBe('build.answer-kind');
    expect(decideSetupEnd(rule, 'knock', { ...here, person: undefined })).toMatchObject({ kind: 'refused' });
    expect(decideSetupEnd(rule, 'other', here, 'smelt hot')).toMatchObject({
      events: [{ note: 'smelt hot' }],
    });
  });
  it('hold until they were used so often, or their last first-off did not pass', () => {
    const standing = (events: readonly JournalEvent[], uses = 0) =>
      setupStandings([rule], events, new Map([['saw-1', uses]]), at(9))[0]!;
    expect(standing([])).toMatchObject({ valid: false });
    expect(standing([proven(1, true)], 1)).toMatchObject({ valid: true, id: 'saw-1' });
    expect(standing([proven(1, true)], 2).because).toContain('used 2 times');
    expect(standing([proven(1, true), proven(2, false)]).because).toContain('did not pass');
  });
  it('nothing is in doubt where the last passed, and only what has no good one before it where none did', () => {
    expect(unitsInDoubt('saw', [proven(1, true)], [])).toBeUndefined();
    expect(unitsInDoubt('saw', [proven(1, false)], [])).toEqual({
      failed: 'saw-1',
      lastGood: undefined,
      rows: [],
      units: [],
      snagged: [],
    });
  });
});

describe('a recall list', () => {
  it('of nothing asked is empty; of a person holds what was read, released and stood by', () => {
    const bench = new Bench(route({ s: [] }, [step('g', 's')]));
    bench.do({ do: 'answer', check: 'g/a', value: 'yes', second: 'mk' }, 'tr');
    const units = [{ unit: 'T01-1', job: 'test', events: bench.state.events }];
    expect(traceUnits(units, {})).toEqual([]);
    expect(traceUnits(units, { person: 'MK' }).map(({ kind }) => kind)).toContain('answered');
    expect(traceUnits(units, { procedureVersion: '1' })).toHaveLength(1);
    expect(traceUnits(units, { procedureVersion: '2' })).toEqual([]);
    const taken = [
      {
        ...units[0]!,
        events: [
          ...units[0]!.events,
          {
            ...units[0]!.events[0]!,
            kind: 'revised',
            sources: {},
            procedure: { name: 'casement', version: '2' },
            changed: [],
            reason: 'r',
            n: 99,
          } as JournalEvent,
        ],
      },
    ];
    expect(traceUnits(taken, { procedureVersion: '1' })).toHaveLength(1);
    expect(traceUnits(taken, { procedureVersion: '2' })).toMatchObject([{ kind: 'revised', n: 99 }]);
    expect(reachesOf(taken[0]!.events).procedureVersion).toEqual(['1', '2']);
    expect(traceUnits([{ unit: 'x', job: 'y', events: [] }], { procedureVersion: '1' })).toEqual([]);
  });
});
