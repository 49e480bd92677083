/** What each action says or writes in the cases that the small bench's other walks do not come to. */
import { describe, expect, it } from 'vitest';
import type { Action } from '../../src/unit/actions.js';
import { decide } from '../../src/unit/decide.js';
import { fold } from '../../src/unit/fold.js';
import { someProblem } from '../problems.js';
import { at, Bench, context, PEOPLE, RULES, route, SMALL, SQUARE, step } from './routes.js';

const one = (more: Parameters<typeof step>[2] = {}) => new Bench(route({ s: [] }, [step('g', 's', more)]));
const having = (bench: Bench, more: Bench['more']): Bench => Object.assign(bench, { more });
const PROBLEM = someProblem('window.stay', 'No stay carries this sash.', 'Choose another.');

describe('an answer', () => {
  it('after one that failed is told that, and what can be done about it', () => {
    const bench = one({ checks: [{ id: 'flat', kind: 'go-no-go' }, 'b'] });
    expect(bench.refusal({ do: 'answer', check: 'g/b', value: 'yes' })).toMatchObject({
      text: 'g/flat comes first and is not answered.',
      todo: 'Answer g/flat first.',
    });
    bench.say('g/flat', 'no');
    expect(bench.refusal({ do: 'answer', check: 'g/b', value: 'yes' })).toMatchObject({
      text: 'g/flat comes first and has not passed.',
      todo: 'Measure g/flat again, rework g, or raise a snag.',
    });
  });

  it('of one length is taken by a squareness set only', () => {
    expect(
      new Bench().refusal({ do: 'read', check: 'cut.frame/length', key: 'top', value: '1000' }),
    ).toMatchObject({ id: 'build.square-key', text: 'cut.frame/length is no set of readings (number).' });
  });

  it('keeps how long its lot is good, as typed or as known from before', () => {
    const lotOf = (more: Bench['more'], expires?: string) => {
      const bench = having(one({ checks: [{ id: 'lot', kind: 'text', lot: 'sealant' }] }), more);
      bench.do({
        do: 'answer',
        check: 'g/lot',
        value: 'S-7',
        ...(expires === undefined ? {} : { expires }),
      });
      return bench.state.steps.get('g')!.checks[0]!.answered!.lot;
    };
    const lots = [
      { material: 'sealant', code: 'S-7', expires: '2026-06-30', at: '2026-01-01T00:00:00.000Z' },
    ];
    expect(lotOf({})).toEqual({ material: 'sealant', code: 'S-7' });
    expect(lotOf({ lots })).toEqual({ material: 'sealant', code: 'S-7', expires: '2026-06-30' });
    expect(lotOf({ lots }, '2026-07-31')).toMatchObject({ expires: '2026-07-31' });
    expect(lotOf({ lots: [{ ...lots[0]!, material: 'glass' }] })).not.toHaveProperty('expires');
  });

  it.each<[string, Partial<Action>, string, RegExp]>([
    ['nobody known', { second: 'zz' }, 'build.unknown-person', /"zz" is nobody/],
    ['themselves', { second: 'tr' }, 'build.second-not-able', /cannot stand by for themselves/],
    ['another learner', { second: 'le' }, 'build.second-not-able', /Person le is at level 1 \(observed\)/],
  ])('with %s standing by is refused', (_, more, id, text) => {
    const people = [
      ...PEOPLE,
      { ...PEOPLE[3]!, id: 'le', initials: 'LE', name: 'Person le', levels: { all: 1 } },
    ];
    const bench = having(new Bench(), { workshop: { ...RULES, people: people as typeof PEOPLE } });
    const refused = bench.refusal(
      { do: 'answer', check: 'cut.frame/length', value: '1000', ...more } as Action,
      'tr',
    );
    expect(refused).toMatchObject({ id, text: expect.stringMatching(text) });
  });

  it('keeps who stood by under their id, however they were named', () => {
    const bench = new Bench();
    const answer = { do: 'answer', check: 'cut.frame/length', value: '1000', second: ' MK ' } as const;
    expect(bench.refusal(answer, 'tr').id).toBe('build.second-unconfirmed');
    expect(bench.do({ ...answer, confirm: { code: 'mk' } }, 'tr')).toMatchObject([
      { kind: 'second-confirmed', stage: 'cut', second: 'mk', pin: false },
      { kind: 'began', second: 'mk' },
      { kind: 'answered', second: 'mk' },
    ]);
    // Making again what cannot be made alone takes a second person too.
    const again = { do: 'rework', step: 'cut.frame', reason: 'bent' } as const;
    expect(bench.refusal(again, 'tr').id).toBe('build.needs-second');
    expect(bench.do({ ...again, second: 'mk' }, 'tr')).toMatchObject([{ kind: 'reworked', by: 'tr' }]);
  });
});

describe('faster than it can be done', () => {
  const two = () =>
    new Bench(route({ s: [] }, [step('a', 's'), step('b', 's', { leastSeconds: 600, rests: ['a'] })]));
  const burstAt = (bench: Bench) => bench.state.steps.get('b')!.checks[0]!.answered!.burst;

  it('is nobody’s first entry', () => {
    const first = one({ leastSeconds: 600 });
    first.yes('g/a');
    expect(first.state.steps.get('g')!.checks[0]!.answered!.burst).toBe(false);
    const other = two();
    other.yes('a/a');
    other.do({ do: 'answer', check: 'b/a', value: 'yes' }, 'ql');
    expect(burstAt(other)).toBe(false);
  });

  it('counts from the last entry before the step was begun anew, where what it rests on was made again', () => {
    for (const [minutes, burst] of [
      [3, true],
      [20, false],
    ] as const) {
      const bench = two();
      bench.yes('a/a');
      bench.minutes += 20;
      bench.yes('b/a');
      expect(burstAt(bench)).toBe(false);
      bench.do({ do: 'rework', step: 'a', reason: 'bent' });
      bench.yes('a/a');
      bench.minutes += minutes;
      bench.yes('b/a');
      expect(burstAt(bench), String(minutes)).toBe(burst);
    }
  });

  it('is told by time that passed, not by a clock that was put on or back', () => {
    for (const [passed, put, burst] of [
      [3, 240, true],
      [20, -240, false],
      [3, 0, true],
      [20, 0, false],
    ] as const) {
      const bench = two();
      bench.yes('a/a');
      bench.minutes += passed + put;
      bench.more = put === 0 ? {} : { clockJump: { from: at(passed), to: at(passed + put) } };
      bench.do({ do: 'note', text: 'seen' }, 'ql');
      bench.more = {};
      bench.yes('b/a');
      expect(burstAt(bench), `${passed} minutes, clock put by ${put}`).toBe(burst);
    }
  });
});

describe('a release', () => {
  const held = { hold: { id: 'H', title: 'Look', notSamePerson: true, evidence: true } };

  it('names evidence that is there', () => {
    const bench = one(held);
    bench.yes('g/a');
    expect(bench.refusal({ do: 'release', step: 'g', evidence: ['gone.jpg'] }, 'ql')).toMatchObject({
      id: 'build.evidence-missing',
      text: expect.stringContaining('gone.jpg'),
    });
    expect(bench.refusal({ do: 'release', step: 'g' }, 'ql').id).toBe('build.evidence-needed');
    const photo = { sha256: 'ab'.repeat(32), name: 'p.jpg', bytes: 3 };
    bench.more = { evidence: { 'p.jpg': photo } };
    expect(bench.do({ do: 'release', step: 'g', evidence: ['p.jpg'] }, 'ql')[0]).toMatchObject({
      kind: 'released',
      evidence: [photo],
    });
  });

  it('says which of its readings are open, or what it rests on that is not done', () => {
    const bench = new Bench(
      route({ s: [] }, [step('a', 's'), step('g', 's', { rests: ['a'], checks: ['x', 'y'], ...held })]),
    );
    bench.yes('a/a', 'g/x');
    expect(bench.refusal({ do: 'release', step: 'g' }, 'ql')).toMatchObject({
      text: 'g is not complete: g/y is open.',
      todo: 'Answer g/y so that it passes, then release.',
    });
    bench.yes('g/y');
    // What it rests on was taken back in another copy of the journal: its own readings count all the same.
    const undone = fold(
      bench.state.route,
      bench.state.events.filter((event) => !(event.kind === 'answered' && event.check === 'a/a')),
    );
    expect(decide(undone, { do: 'release', step: 'g' }, context(9, { person: 'ql' }))).toMatchObject({
      problem: {
        id: 'build.not-held',
        text: 'g rests on work that is not done. Do a (a) is not done; it must be done first.',
        todo: 'Do a (a) is not done; it must be done first.',
      },
    });
  });

  it('that came too late is led on by the snag on its step, and by no other', () => {
    const bench = new Bench();
    bench.do({ do: 'answer', check: 'cut.frame/length', value: '1000' });
    bench.yes('cut.sash/a');
    bench.say('cut.sash/count', '4');
    bench.say('frame.seal/lot', 'S-1');
    bench.yes('frame.seal/a');
    // As another program, or a mended journal, might have written it.
    bench.write([
      { kind: 'began', step: 'frame.square' },
      {
        kind: 'answered',
        step: 'frame.square',
        check: 'frame.square/set',
        answer: { kind: 'square', readings: {} },
        verdict: { outcome: 'pass', rules: [], notes: [] },
      },
    ]);
    const release = { do: 'release', step: 'frame.seal', pin: '1111' } as const;
    const snag = (id: string) => bench.do({ do: 'snag', step: id, cause: 'other', text: 'late' })[0]!.n;
    snag('cut.sash');
    expect(bench.refusal(release, 'rl').id).toBe('build.hold-skipped');
    const own = snag('frame.seal');
    expect(bench.refusal(release, 'rl')).toMatchObject({
      id: 'build.waits-for-snag',
      todo: `Decide and close snag ${own}.`,
    });
  });
});

it.each([
  [null, /^The action: /],
  [{ do: 'park' }, /^reason: /],
  [{ do: 'answer', check: 'g/a', value: 'yes', evidence: ['a.jpg', 7] }, /^evidence\.1: /],
])('%o is no action, and the refusal says where', (action, text) => {
  expect(new Bench().refusal(action as never)).toMatchObject({
    id: 'build.bad-action',
    text: expect.stringMatching(text),
  });
});

describe('an action on a unit that', () => {
  it('has no journal yet takes not even a note', () => {
    const empty = fold(SMALL, []);
    expect(decide(empty, { do: 'note', text: 'seen' }, context(1))).toMatchObject({
      problem: { id: 'build.not-opened' },
    });
  });

  it.each<[string | undefined, string | undefined, string]>([
    ['mk', undefined, 'build.no-right'],
    ['rl', undefined, 'build.pin-needed'],
    ['rl', '9999', 'build.pin-wrong'],
  ])('the order check refuses is not let pass by %s with the PIN %s', (who, pin, id) => {
    const bench = new Bench(SMALL, { problems: [PROBLEM] });
    const action = {
      do: 'override',
      problem: PROBLEM.id,
      reason: 'agreed',
      ...(pin ? { pin } : {}),
    } as const;
    expect(bench.refusal(action, who).id).toBe(id);
    expect(bench.state.orderProblems).toEqual([PROBLEM]);
  });

  it('the order check refuses twice for one reason says it once', () => {
    const bench = new Bench(SMALL, { problems: [PROBLEM, { ...PROBLEM, id: 'window.stay-2' }] });
    const { because } = bench.state.steps.get('cut.frame')!;
    expect(because).toEqual([`The order check refuses this unit: ${PROBLEM.text}`]);
  });
});

describe('undo', () => {
  it('passes over the single readings that an undone answer had taken up', () => {
    const set = {
      id: 'set',
      kind: 'square',
      nominal: { w: 1000, h: 700 },
      limits: ['t.diagonals'],
    } as const;
    const bench = new Bench(
      route({ s: [] }, [step('a', 's'), step('q', 's', { checks: [set] }), step('z', 's')]),
    );
    bench.yes('a/a');
    const first = bench.state.events.at(-1)!.n;
    for (const [key, value] of Object.entries(SQUARE)) bench.do({ do: 'read', check: 'q/set', key, value });
    bench.say('q/set', {});
    const whole = bench.state.events.at(-1)!.n;
    expect(bench.do({ do: 'undo', reason: 'r' })).toMatchObject([{ of: whole }]);
    expect(bench.do({ do: 'undo', reason: 'r' })).toMatchObject([{ of: first }]);
    expect(bench.refusal({ do: 'undo', reason: 'r' }).id).toBe('build.nothing-to-undo');
  });
});
