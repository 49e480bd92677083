/** Each action held to its guards: nobody there, a step or check that is not there, what somebody else must do, an own word on own work. */

import { describe, expect, it } from 'vitest';
import type { Route } from '../../src/procedure/types.js';
import type { Action } from '../../src/unit/actions.js';
import { boardRow, byStep } from '../../src/unit/board.js';
import { fold } from '../../src/unit/fold.js';
import { decideRevision } from '../../src/unit/revision.js';
import { someProblem } from '../problems.js';
import { Bench, context, judged, opened, PEOPLE, RULES, route, SMALL, step } from './routes.js';

const gap = (kind: 'number' | 'go-no-go' = 'number') =>
  route({ s: [] }, [
    step('g', 's', {
      checks:
        kind === 'number'
          ? [{ id: 'gap', kind, against: 'value', limits: ['t.gap'] }]
          : [{ id: 'gap', kind }],
      hold: { id: 'H', title: 'gap', notSamePerson: true, evidence: false },
    }),
  ]);
const failing = (over = gap(), by?: string): Bench => {
  const bench = new Bench(over);
  bench.say('g/gap', over.steps[0]!.checks[0]!.kind === 'number' ? '9' : 'no', by);
  bench.do({ do: 'snag', check: 'g/gap', cause: 'squaring', text: 'too wide' });
  return bench;
};
const snag = (bench: Bench) => bench.state.snags.at(-1)!.n;
const concede = (bench: Bench, limit: string): Action => ({
  do: 'decide',
  snag: snag(bench),
  disposition: 'concession',
  reason: 'agreed',
  limit,
});

describe('guards', () => {
  it.each<[Action, string]>([
    [{ do: 'snag', cause: 'other', text: 'x' }, 'build.nobody'],
    [{ do: 'decide', snag: 1, disposition: 'repair', reason: 'x' }, 'build.nobody'],
    [{ do: 'close', snag: 1 }, 'build.nobody'],
    [{ do: 'undo', reason: 'x' }, 'build.nobody'],
    [{ do: 'rework', step: 'cut.frame', reason: 'x' }, 'build.nobody'],
    [{ do: 'release', step: 'cut.frame' }, 'build.nobody'],
    [{ do: 'park', reason: 'x' }, 'build.nobody'],
    [{ do: 'resume' }, 'build.nobody'],
    [{ do: 'note', text: 'x' }, 'build.nobody'],
    [{ do: 'override', problem: 'x', reason: 'x' }, 'build.nobody'],
    [{ do: 'read', check: 'cut.frame/length', key: 'top', value: '1' }, 'build.nobody'],
  ])('%o by nobody', (action, id) => {
    const bench = new Bench();
    bench.more = { person: undefined };
    expect(bench.refusal(action).id).toBe(id);
  });

  it.each<[Action, string]>([
    [{ do: 'release', step: 'gone' }, 'build.unknown-step'],
    [{ do: 'rework', step: 'gone', reason: 'x' }, 'build.unknown-step'],
    [{ do: 'note', text: 'x', step: 'gone' }, 'build.unknown-step'],
    [{ do: 'snag', cause: 'other', text: 'x', step: 'gone' }, 'build.unknown-step'],
    [{ do: 'snag', cause: 'other', text: 'x', check: 'gone/a' }, 'build.unknown-check'],
    [
      { do: 'snag', cause: 'other', text: 'x', step: 'cut.sash', check: 'cut.frame/length' },
      'build.unknown-check',
    ],
    [{ do: 'person', person: 'zz' }, 'build.unknown-person'],
    [{ do: 'person', person: 'rl', pin: '9999' }, 'build.pin-wrong'],
    [{ do: 'instrument', instrument: 'T77' }, 'build.unknown-instrument'],
    [{ do: 'close', snag: 4 }, 'build.unknown-snag'],
    [{ do: 'override', problem: 'x', reason: 'x' }, 'build.no-such-problem'],
  ])('%o', (action, id) => {
    expect(new Bench().refusal(action).id).toBe(id);
  });

  it('coming to the bench writes nothing, nor does an instrument taken in hand', () => {
    const bench = new Bench();
    expect(bench.decide({ do: 'person', person: 'rl', pin: '1111' })).toMatchObject({ events: [], by: 'rl' });
    bench.more = { person: undefined };
    expect(bench.decide({ do: 'instrument', instrument: 'T1' })).toMatchObject({ events: [], by: 'nobody' });
  });

  it('an instrument that is in hand and in no list is refused', () => {
    const bench = new Bench();
    bench.more = { inHand: 'T77' };
    expect(bench.refusal({ do: 'answer', check: 'cut.frame/length', value: '1000' }).id).toBe(
      'build.unknown-instrument',
    );
  });

  it('a closed snag is said to be closed', () => {
    const bench = failing();
    bench.do(concede(bench, 't.gap'), 'ql');
    bench.do({ do: 'close', snag: snag(bench) }, 'ql');
    expect(bench.refusal({ do: 'close', snag: snag(bench) }, 'ql').text).toContain('is closed');
  });
});

describe('concessions', () => {
  it('are not given on own work where another could, and take the PIN of who gives them', () => {
    const own = failing(gap(), 'ql');
    expect(own.refusal(concede(own, 't.gap'), 'ql').id).toBe('build.same-person');
    const other = failing();
    expect(other.refusal(concede(other, 't.gap'), 'rl').id).toBe('build.pin-needed');
    other.do({ ...concede(other, 't.gap'), pin: '1111' } as Action, 'rl');
    expect(other.status('g')).toBe('held');
  });
  it('in a one-person workshop by its rule, after its pause', () => {
    const bench = failing(gap(), 'ql');
    const alone = PEOPLE.filter(({ id }) => id === 'ql');
    bench.more = { workshop: { ...RULES, people: alone, soloRelease: { minutes: 30, evidence: false } } };
    expect(bench.refusal(concede(bench, 't.gap'), 'ql').id).toBe('build.solo-too-soon');
    bench.minutes += 60;
    bench.do(concede(bench, 't.gap'), 'ql');
    expect(bench.status('g')).toBe('held');
  });
  it('of a yes-or-no check name the check; a critical snag takes none', () => {
    const bench = failing(gap('go-no-go'));
    expect(bench.refusal(concede(bench, ''), 'ql').todo).toContain('"g/gap"');
    bench.do(concede(bench, 'g/gap'), 'ql');
    expect(bench.status('g')).toBe('held');
    const critical = new Bench(gap());
    critical.say('g/gap', '9');
    critical.do({ do: 'snag', check: 'g/gap', severity: 'critical', cause: 'other', text: 'sharp' });
    expect(critical.refusal(concede(critical, 't.gap'), 'ql').text).toContain('is critical');
  });
});

describe('the board', () => {
  it('says in a sentence how each unit stands', () => {
    const refused = opened(SMALL, { problems: [someProblem('p', 'No stay.', '')] });
    expect(boardRow(refused)).toMatchObject({ standing: 'refused', where: 'No stay.' });
    const parked = new Bench();
    parked.do({ do: 'park', reason: 'shift ends' });
    expect(boardRow(parked.state, context(9).now).where).toBe('parked: shift ends');
    expect(byStep([parked.state], context(9).now)).toEqual([]);
    const snagged = failing();
    expect(boardRow(snagged.state).where).toContain('not decided');
    snagged.do({ do: 'decide', snag: snag(snagged), disposition: 'repair', reason: 'fill' }, 'ql');
    expect(boardRow(snagged.state).where).toContain('(repair)');
    expect(boardRow(fold(SMALL, [])).last).toBeNull();
  });
});

it('a revision is taken by somebody who may release, and not by nobody', () => {
  const state = opened();
  const between = (next: Route) => ({ old: judged(state.route), next: judged(next) });
  expect(
    decideRevision(state, between(SMALL), {}, { reason: 'rev B' }, { ...context(1), person: undefined }),
  ).toMatchObject({
    problem: { id: 'build.nobody' },
  });
  expect(decideRevision(state, between(SMALL), {}, { reason: 'rev B' }, context(1))).toMatchObject({
    problem: { id: 'build.no-right' },
  });
  const changed = {
    ...SMALL,
    steps: SMALL.steps.map((each, i) => (i === 0 ? { ...each, figures: ['704'] } : each)),
  };
  expect(
    decideRevision(state, between(changed), {}, { reason: 'rev B' }, { ...context(1), person: 'ql' }).kind,
  ).toBe('events');
});
