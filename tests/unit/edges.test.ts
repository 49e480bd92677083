/** What people seldom do, and what a journal may hold that the route has not: each answer of the build room's smaller parts. */
import { describe, expect, it } from 'vitest';
import { quoted } from '../../src/base/words.js';
import type { RouteCheck } from '../../src/procedure/types.js';
import { asIfWritten } from '../../src/unit/aswritten.js';
import { nextMove } from '../../src/unit/autopilot.js';
import { type EventBody, type JournalEvent, pinnedSources } from '../../src/unit/events.js';
import { apply, fold } from '../../src/unit/fold.js';
import { judge, judgeReading, type Value } from '../../src/unit/judge.js';
import { lastStep, nextCheck } from '../../src/unit/next.js';
import { findPerson, levelOf, levelProblem, soloRule } from '../../src/unit/people.js';
import {
  decideFirstOff,
  decideSetupEnd,
  setupStandings,
  unitsInDoubt,
  validSetups,
} from '../../src/unit/setups.js';
import {
  at,
  Bench,
  check,
  context,
  INSTRUMENTS,
  opened,
  PEOPLE,
  RULES,
  route,
  SMALL,
  SQUARE,
  step,
} from './routes.js';

const here = context(0);
const judged = (more: Partial<RouteCheck>, value: Value) =>
  judge({ check: check('s/a', more), value, confirmed: false, instrument: undefined, context: here });
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
        context: here,
      }).kind;
    expect(one({}, '1000')).toBe('reading');
    expect(one({ nominal: { w: 1000, h: 700 }, plausible: 5 }, '1000')).toBe('reading');
    expect(one({ nominal: { w: 1000, h: 700 }, plausible: 5 }, '1100')).toBe('ask');
    expect(one({}, 'long')).toBe('refused');
  });
  it('a whole set is judged with or without a nominal, an instrument and a word on what has set', () => {
    const set = (
      value: Value,
      more: Partial<Parameters<typeof judge>[0]> = {},
      on: Partial<RouteCheck> = {},
    ) =>
      judge({
        check: check('s/a', { kind: 'square', limits: ['t.diagonals'], ...on }),
        value,
        confirmed: false,
        instrument: undefined,
        context: here,
        ...more,
      });
    const nominal = { w: 1000, h: 700 };
    const far = { ...SQUARE, top: '1100', bottom: '1100' };
    expect(set(SQUARE)).toMatchObject({ kind: 'answer', verdict: { outcome: 'pass' } });
    expect(set(SQUARE, { instrument: INSTRUMENTS[0]! }, { nominal })).toMatchObject({
      answer: { readings: { top: [{ raw: '1000', value: 1000, instrument: 'T1' }] } },
    });
    expect(set(far, {}, { nominal }).kind).toBe('ask');
    expect(set(far, { confirmed: true }, { nominal }).kind).toBe('answer');
    // A set out of square: what has set is not to be pushed.
    const out = { ...SQUARE, bl_tr: '1222.5', br_tl: '1218.5' };
    const advice = (cured?: boolean) =>
      JSON.stringify(set(out, cured === undefined ? {} : { cured }, { nominal }));
    expect(advice()).toBe(advice(false));
    expect(advice(true)).not.toBe(advice(false));
    expect(advice(true)).toContain('"outcome":"fail"');
  });
  it('one reading of a set that takes no instrument is judged by itself too', () => {
    const one = judgeReading({
      check: check('s/a', { kind: 'square' }),
      key: 'top',
      raw: '1000',
      confirmed: false,
      instrument: undefined,
      context: here,
    });
    expect(one).toEqual({ kind: 'reading', reading: { raw: '1000', value: 1000 } });
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
    expect(levelProblem(PEOPLE[0]!, 's', 4, quoted('it', 'it'), alone)?.todo).toMatch(/name somebody/);
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
    expect(nextMove(bench.state, bench.context())).toMatchObject({ action: { do: 'resume' } });
  });
  it('without workings the last step is read from the events', () => {
    const bench = new Bench();
    bench.do({ do: 'answer', check: 'cut.frame/length', value: '1000' });
    bench.do({ do: 'note', text: 'seen', step: 'cut.sash' });
    expect(lastStep({ ...bench.state })).toBe('cut.frame');
    expect(lastStep({ ...opened() })).toBeUndefined();
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
    expect(pinnedSources(events.slice(0, 1))).toBeUndefined();
    expect(pinnedSources(events)?.sources).toEqual({ job: hash('c'), limits: hash('b') });
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
        quantity: 'length',
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
    expect(made(values, { inHand: undefined })).toBe('build.no-instrument');
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
    // What is proven or ended of another leaves it alone.
    const ended = (setup: string) =>
      ({ ...proven(3, true), kind: 'setup-ended', setup, why: 'knock' }) as JournalEvent;
    const punch = { ...proven(2, false), setup: 'punch' } as JournalEvent;
    const others = standing([proven(1, true), punch, ended('punch')]);
    expect(validSetups([others])).toMatchObject({ saw: { id: 'saw-1' } });
    expect(validSetups([standing([proven(1, true), ended('saw')])])).toEqual({ saw: undefined });
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
  it('the units that have a snag for it already are told from the others', () => {
    const bench = (more: { setup?: string }) => {
      const made = new Bench(route({ s: [] }, [step('g', 's'), step('z', 's')]));
      made.do({ do: 'snag', cause: 'other', text: 'burr', ...more });
      return made.state.events;
    };
    const units = [
      { job: 'j', unit: 'u1', events: bench({}) },
      { job: 'j', unit: 'u2', events: bench({ setup: 'saw-1' }) },
      { job: 'j', unit: 'u3', events: bench({ setup: 'saw-9' }) },
    ];
    const snagged = (...firstOffs: JournalEvent[]) => unitsInDoubt('saw', firstOffs, units)?.snagged;
    expect(snagged(proven(1, true), proven(2, false))).toEqual(['j/u2']);
    // Without a good one before it there is nothing that such a snag could be on.
    expect(snagged(proven(2, false))).toEqual([]);
  });
});
