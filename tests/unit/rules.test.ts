/** The rules of the build, each by a short sequence at a small bench. */
import { describe, expect, it } from 'vitest';
import { actionJsonSchema } from '../../src/unit/actions.js';
import { asIfWritten } from '../../src/unit/aswritten.js';
import { boardRow, byStep, linesOf } from '../../src/unit/board.js';
import { eventJsonSchema, eventSchema, type JournalEvent } from '../../src/unit/events.js';
import { asOf, fold } from '../../src/unit/fold.js';
import { lastStep, nextCheck, openSteps } from '../../src/unit/next.js';
import { changedSteps, decideRevision } from '../../src/unit/revision.js';
import {
  decideFirstOff,
  decideSetupEnd,
  setupStandings,
  unitsInDoubt,
  validSetups,
} from '../../src/unit/setups.js';
import { traceUnits, usesOf } from '../../src/unit/trace.js';
import { someProblem } from '../problems.js';
import { at, Bench, check, context, judged, PEOPLE, RULES, route, SMALL, SQUARE, step } from './routes.js';

const two = (more: Parameters<typeof step>[2] = {}, first: Parameters<typeof step>[2] = {}) =>
  new Bench(
    route({ s: [], t: ['s'] }, [
      step('a', 's', { checks: ['x', 'y'], ...first }),
      step('b', 't', { rests: ['a'], checks: ['x'], ...more }),
    ]),
  );

describe('answers', () => {
  it('undo takes back the last answer and what it replaced counts again', () => {
    const bench = two({}, { checks: [{ id: 'x', kind: 'go-no-go' }, 'y'] });
    bench.say('a/x', 'no');
    expect(bench.status('a')).toBe('failed');
    bench.say('a/x', 'yes');
    bench.do({ do: 'undo', reason: 'wrong key' });
    expect(bench.status('a')).toBe('failed');
    const [x] = bench.state.steps.get('a')!.checks;
    expect(x!.answered!.n).toBe(3);
    expect(x!.earlier).toEqual([{ n: 4, why: 'corrected' }]);
  });

  it('single readings of a set survive, are undone one by one, and complete the set', () => {
    const bench = new Bench(
      route({ s: [] }, [
        step('q', 's', {
          checks: [
            {
              id: 'set',
              kind: 'square',
              nominal: { w: 1000, h: 700 },
              limits: ['t.diagonals'],
              quantity: 'length',
              instruments: ['tape'],
            },
          ],
        }),
      ]),
    );
    for (const key of ['top', 'bottom', 'left', 'right', 'bl_tr'] as const)
      bench.do({ do: 'read', check: 'q/set', key, value: SQUARE[key] });
    expect(bench.decide({ do: 'read', check: 'q/set', key: 'br_tl', value: '1320.5' }).kind).toBe('ask');
    bench.do({ do: 'read', check: 'q/set', key: 'br_tl', value: '1320.5', confirmed: true });
    bench.do({ do: 'undo', reason: 'misread' });
    bench.do({ do: 'read', check: 'q/set', key: 'br_tl', value: '1220.5' });
    expect(Object.keys(bench.state.steps.get('q')!.checks[0]!.partial!)).toHaveLength(6);
    bench.say('q/set', {});
    expect(bench.state.finished).toBe(true);
    const answered = bench.state.events.find((event) => event.kind === 'answered');
    expect(answered?.kind === 'answered' && answered.answer).toMatchObject({
      kind: 'square',
      readings: { br_tl: [{ value: 1220.5, instrument: 'T1' }] },
    });
  });

  it('a reading far from what is expected is asked about, and stands when confirmed', () => {
    const bench = new Bench();
    expect(bench.decide({ do: 'answer', check: 'cut.frame/length', value: '1100' }).kind).toBe('ask');
    bench.do({ do: 'answer', check: 'cut.frame/length', value: '1100', confirmed: true });
    expect(bench.status('cut.frame')).toBe('failed');
  });

  it('an overdue instrument is used on a named word only, and an apprentice with a second name', () => {
    const bench = new Bench();
    bench.more = { inHand: 'T9' };
    const answer = { do: 'answer', check: 'cut.frame/length', value: '1000' } as const;
    bench.do(
      { ...answer, second: 'mk', confirm: { code: 'mk' }, overdueAllowedBy: { person: 'rl', pin: '1111' } },
      'tr',
    );
    expect(bench.state.steps.get('cut.frame')!.checks[0]!.answered).toMatchObject({
      by: 'tr',
      second: 'mk',
      overdueAllowedBy: 'rl',
    });
  });

  it('marks a step that was entered faster than it can be done, and only that', () => {
    for (const [minutes, burst] of [
      [1, true],
      [5, false],
    ] as const) {
      const bench = two({ leastSeconds: 120 }, { checks: ['x'] });
      bench.yes('a/x');
      bench.minutes += minutes - 1;
      bench.yes('b/x');
      expect(bench.state.steps.get('b')!.checks[0]!.answered!.burst, String(minutes)).toBe(burst);
    }
  });
});

describe('time', () => {
  it('cure and open times come from events, and a noticed jump of the clock is taken out', () => {
    const bench = two({ notBefore: { feature: 'a', minutes: 60 } });
    bench.yes('a/x', 'a/y');
    expect(bench.state.standing).toBe('curing');
    expect(bench.state.timers.map(({ until }) => until)).toEqual([at(62)]);
    // The clock falls back a day, as after a dead battery; the cure goes on from there.
    bench.minutes -= 24 * 60;
    const events = bench.do({ do: 'note', text: 'clock looks odd' });
    expect(events.map(({ kind }) => kind)).toEqual(['clock-jumped', 'noted']);
    expect(bench.state.timers[0]!.until < at(-22 * 60)).toBe(true);
    bench.minutes = -24 * 60 + 61;
    expect(bench.refusal({ do: 'answer', check: 'b/x', value: 'yes' }).id).toBe('build.waits-for-cure');
    bench.minutes += 2;
    bench.yes('b/x');
    expect(bench.state.finished).toBe(true);
  });

  it('a timer changes the state by the moment alone', () => {
    const bench = two({ notBefore: { feature: 'a', minutes: 60 } });
    bench.yes('a/x', 'a/y');
    expect(nextCheck(bench.state)).toBeUndefined();
    expect(nextCheck(asOf(bench.state, at(63)))).toEqual({ step: 'b', check: 'b/x' });
    expect(asOf(bench.state, at(63))).toEqual(fold(bench.state.route, bench.state.events, { now: at(63) }));
    expect(asOf(bench.state, at(30))).toEqual(fold(bench.state.route, bench.state.events, { now: at(30) }));
  });
});

describe('rework', () => {
  it('re-opens what rests on it; a single check that rests on it is only read again', () => {
    const bench = new Bench(
      route({ s: [] }, [
        step('a', 's'),
        step('b', 's', { checks: ['x', { id: 'c', rests: ['a'] }] }),
        step('d', 's', { rests: ['b'] }),
      ]),
    );
    bench.yes('a/a', 'b/x', 'b/c', 'd/a');
    expect(bench.state.finished).toBe(true);
    const [event] = bench.do({ do: 'rework', step: 'a', reason: 'bent' });
    expect(event).toMatchObject({ reopens: ['b'] });
    bench.yes('a/a');
    expect([bench.status('a'), bench.status('b'), bench.status('d')]).toEqual(['done', 'stale', 'stale']);
    expect(bench.state.steps.get('b')!.checks.map(({ holds }) => holds)).toEqual([true, false]);
    bench.yes('b/c');
    expect(bench.state.finished).toBe(true);
    expect(bench.state.events.filter(({ kind }) => kind === 'finished')).toHaveLength(2);
  });

  it('a revision re-opens what it changes and leaves the rest', () => {
    const bench = two();
    bench.yes('a/x', 'a/y', 'b/x');
    const next = route({ s: [], t: ['s'] }, [
      step('a', 's', { checks: ['x', 'y'] }),
      step('b', 't', { rests: ['a'], checks: [{ id: 'x', ask: 'Wider?' }], figures: ['704'] }),
    ]);
    const old = judged(bench.state.route);
    expect(changedSteps(old, judged(next)).map(({ step }) => step)).toEqual(['b']);
    const decision = decideRevision(
      bench.state,
      { old, next: judged(next) },
      { job: 'ab'.repeat(32) },
      { reason: 'customer' },
      context(20, { person: 'ql' }),
    );
    if (decision.kind !== 'events') throw new Error(decision.kind);
    const state = fold(next, [
      ...bench.state.events,
      ...asIfWritten(bench.state, decision.events, 'ql', context(20)),
    ]);
    expect([state.finished, state.steps.get('a')!.status, state.steps.get('b')!.status]).toEqual([
      false,
      'done',
      'ready',
    ]);
  });
});

describe('holds and snags', () => {
  const held = () =>
    two({}, { hold: { id: 'H', title: 'Look', notSamePerson: true, evidence: false }, checks: ['x'] });

  it('nothing after a hold is logged before its release, and a new answer needs a new release', () => {
    const bench = held();
    bench.yes('a/x');
    expect(bench.refusal({ do: 'answer', check: 'b/x', value: 'yes' }).id).toBe('build.waits-for-hold');
    bench.do({ do: 'release', step: 'a' }, 'ql');
    bench.do({ do: 'undo', reason: 'wrong unit' }, 'ql');
    expect(bench.status('a')).toBe('held');
    expect(bench.state.standing).toBe('held');
  });

  it('in a workshop of one the same person releases after the pause, and the record keeps the rule', () => {
    const bench = held();
    bench.more = {
      person: 'ql',
      workshop: {
        ...RULES,
        people: PEOPLE.filter(({ id }) => id === 'ql'),
        soloRelease: { minutes: 15, evidence: true },
      },
      evidence: { photo: { sha256: 'cd'.repeat(32), name: 'p.jpg', bytes: 3 } },
    };
    bench.yes('a/x');
    bench.minutes += 15;
    expect(bench.refusal({ do: 'release', step: 'a' }).id).toBe('build.evidence-needed');
    bench.do({ do: 'release', step: 'a', evidence: ['photo'] });
    expect(bench.state.steps.get('a')!.released!.rule).toMatch(/one-person workshop: 15 minutes/);
  });

  it('a concession names the limit and lets the reading stand until it is taken again', () => {
    const bench = new Bench(
      route({ s: [] }, [
        step('g', 's', { checks: [{ id: 'gap', kind: 'number', against: 'value', limits: ['t.gap'] }] }),
      ]),
    );
    bench.say('g/gap', '9');
    const [raised] = bench.do({ do: 'snag', check: 'g/gap', cause: 'squaring', text: 'wide' });
    bench.do(
      {
        do: 'decide',
        snag: raised!.n,
        disposition: 'concession',
        reason: 'seen by customer',
        limit: 't.gap',
        pin: '1111',
      },
      'rl',
    );
    expect(bench.state.finished).toBe(false);
    const events = bench.do({ do: 'close', snag: raised!.n });
    expect(events.map(({ kind }) => kind)).toEqual(['snag-closed', 'finished']);
    expect(bench.state.steps.get('g')!.checks[0]!.answered!.concession).toBe(raised!.n);
  });

  it('a snag decided as rework closes after rework and new readings, and blocks what rests on it till then', () => {
    const bench = two({}, { checks: ['x'] });
    bench.yes('a/x');
    const [raised] = bench.do({ do: 'snag', step: 'a', cause: 'squaring', text: 'twist', park: true });
    expect(bench.state.standing).toBe('parked');
    bench.do({ do: 'decide', snag: raised!.n, disposition: 'rework', reason: 'can be done' });
    bench.do({ do: 'resume' });
    expect(bench.do({ do: 'rework', step: 'a', reason: 'twist' })[0]).toMatchObject({ snag: raised!.n });
    expect(bench.refusal({ do: 'close', snag: raised!.n }).id).toBe('build.snag-needs-readings');
    bench.yes('a/x');
    expect(bench.refusal({ do: 'answer', check: 'b/x', value: 'yes' }).id).toBe('build.waits-for-snag');
    bench.do({ do: 'close', snag: raised!.n });
    bench.yes('b/x');
    expect(bench.state.finished).toBe(true);
  });

  it('the order check refuses until a named person overrides it', () => {
    const bench = new Bench(SMALL, { problems: [someProblem('window.stay', 'No stay.', 'x')] });
    expect(bench.state.standing).toBe('refused');
    bench.do({ do: 'override', problem: 'window.stay', reason: 'maker agreed', pin: '1111' }, 'rl');
    expect(bench.state.orderProblems).toEqual([]);
    bench.say('cut.frame/length', '1000');
  });

  it('a torn write is mended: the missing end is written with the next resume', () => {
    const bench = two();
    bench.yes('a/x', 'a/y', 'b/x');
    bench.state = fold(bench.state.route, bench.state.events.slice(0, -1));
    expect(bench.state.finished).toBe(false);
    expect(bench.do({ do: 'resume' }).map(({ kind }) => kind)).toEqual(['finished']);
    expect(bench.state.finished).toBe(true);
  });
});

describe('the workshop over many units', () => {
  const rule = {
    id: 'saw',
    title: 'Saw',
    uses: 2,
    minutes: 480,
    checks: [check('setup.saw/cut', { kind: 'go-no-go' })],
  };
  const unit = (bench: Bench) => ({
    unit: bench.state.unit,
    job: bench.state.job,
    events: bench.state.events,
  });

  it('a first-off holds until it is used up, ended or fails, and then names the units in doubt', () => {
    const journal: JournalEvent[] = [];
    const write = (decision: ReturnType<typeof decideFirstOff>, minutes: number) => {
      if (decision.kind !== 'events') throw new Error(JSON.stringify(decision));
      journal.push(...asIfWritten({ events: journal }, decision.events, decision.by, context(minutes)));
    };
    const standing = (uses = new Map<string, number>(), minutes = 10) =>
      setupStandings([rule], journal, uses, at(minutes))[0]!;
    expect(standing().valid).toBe(false);
    write(decideFirstOff(rule, { 'setup.saw/cut': 'yes' }, context(1)), 1);
    expect(validSetups([standing()])).toMatchObject({ saw: { id: 'saw-1' } });
    expect(standing(new Map(), 482).because).toMatch(/480 minutes/);
    const bench = two({ setup: 'saw' });
    bench.more = { setups: validSetups([standing()]) };
    bench.yes('a/x', 'a/y', 'b/x');
    expect([...usesOf([unit(bench), unit(bench)])]).toEqual([['saw-1', 1]]);
    expect(standing(new Map([['saw-1', 2]])).because).toMatch(/used 2 times/);
    write(decideSetupEnd(rule, 'knock', context(5)), 5);
    expect(standing().because).toMatch(/knocked/);
    write(decideFirstOff(rule, { 'setup.saw/cut': 'no' }, context(6)), 6);
    expect(unitsInDoubt('saw', journal, [unit(bench)])).toMatchObject({
      failed: 'saw-3',
      lastGood: 'saw-1',
      units: ['T01-1'],
    });
  });

  it('traces a lot, an instrument, a person and a procedure version to units and steps', () => {
    const bench = new Bench();
    bench.say('cut.frame/length', '1000');
    bench.yes('cut.sash/a');
    bench.say('cut.sash/count', '4');
    bench.say('frame.seal/lot', 'S-77');
    bench.do({ do: 'rework', step: 'frame.seal', reason: 'late' });
    const rows = (query: Parameters<typeof traceUnits>[1]) =>
      traceUnits([unit(bench)], query).map(({ check, what, counts }) => [check, what, counts]);
    expect(rows({ lot: 's-77' })).toEqual([['frame.seal/lot', 'lot S-77 (sealant)', false]]);
    expect(rows({ instrument: 'T1' })).toEqual([['cut.frame/length', 'instrument T1', true]]);
    expect(rows({ person: 'mk' }).length).toBeGreaterThan(5);
    expect(rows({ procedureVersion: '1' })).toHaveLength(1);
    expect(rows({ procedureVersion: '2' })).toEqual([]);
  });

  it('board and hand-over say where a unit stands', () => {
    const bench = new Bench();
    bench.say('cut.frame/length', '1000');
    bench.yes('cut.sash/a');
    expect(boardRow(bench.state)).toMatchObject({
      standing: 'under-way',
      word: 'under way',
      done: 1,
      of: SMALL.steps.length,
      step: 'cut.sash',
      where: 'Do cut.sash',
    });
    expect(lastStep(bench.state)).toBe('cut.sash');
    expect(linesOf(bench.state).halfDone.map(({ text }) => text)).toEqual([
      'Do cut.sash: half done, 1 of 2 checks open',
    ]);
    bench.say('cut.sash/count', '4');
    expect(openSteps(bench.state).map((each) => each.step.id)).toEqual([
      'frame.seal',
      'sash.square@L1',
      'sash.square@L2',
    ]);
    expect(byStep([bench.state, bench.state]).map(({ base, open }) => [base, open.length])).toEqual([
      ['frame.seal', 2],
      ['sash.square', 4],
    ]);
  });

  it('every event that is decided fits the journal format, and the schemas name all actions', () => {
    const bench = two({}, { checks: [{ id: 'x', kind: 'go-no-go' }, 'y'] });
    bench.say('a/x', 'no');
    bench.do({ do: 'snag', check: 'a/x', cause: 'other', text: 'seen' });
    bench.do({ do: 'undo', reason: 'no' });
    for (const event of bench.state.events)
      expect(eventSchema.safeParse(event).error?.issues ?? []).toEqual([]);
    expect(JSON.stringify(actionJsonSchema())).toContain('overdueAllowedBy');
    expect(JSON.stringify(eventJsonSchema())).toContain('clock-jumped');
  });
});
