/** Facts that units share: asked of one, cited by the others for as long as they stand. */
import { describe, expect, it } from 'vitest';
import type { Rhythm } from '../../src/procedure/rhythm.js';
import type { Route } from '../../src/procedure/types.js';
import type { Action } from '../../src/unit/actions.js';
import { isToBeReleased, nextCheck, walkOf } from '../../src/unit/next.js';
import { acrossUnits, digestOf } from '../../src/unit/summary.js';
import type { DecisionContext } from '../../src/unit/types.js';
import type { UnitState } from '../../src/unit/unitstate.js';
import { at, Bench, route, step } from './routes.js';

const ordered = (unit: string, rhythm: Rhythm, ask = 'Is the order complete?'): Route => ({
  ...route({ first: [], last: ['first'] }, [
    step('order', 'first', {
      checks: [
        { id: 'papers', kind: 'go-no-go', rhythm, ask },
        { id: 'size', kind: 'go-no-go', rhythm, ask: 'Do the sizes agree?' },
      ],
      hold: { id: 'H1', title: 'Order', notSamePerson: true, evidence: false, rhythm },
    }),
    step('work', 'last', {
      rests: ['order'],
      checks: [
        { id: 'own', kind: 'go-no-go' },
        { id: 'warm', kind: 'go-no-go', rhythm: 'shift', ask: 'Is it warm enough?' },
      ],
    }),
  ]),
  unit,
});

/** A second unit's bench, with what the units given offer. */
function bench(over: Route, offers: readonly UnitState[] = [], more: Partial<DecisionContext> = {}): Bench {
  const made = new Bench(over);
  made.minutes = 60;
  const units = offers.map((each) => ({ job: each.job, unit: each.unit, digest: digestOf(each, at(59)) }));
  made.more = { shared: acrossUnits(units).shared, ...more };
  return made;
}

/** The first unit, asked, and released by a second person. */
function first(over: Route): Bench {
  const made = new Bench(over);
  made.do({ do: 'look', step: 'order' });
  made.do({ do: 'release', step: 'order', pin: '1111' }, 'rl');
  return made;
}

const named = (state: UnitState, unit: string, job = 'test'): UnitState => ({ ...state, unit, job });

describe('what is due once a job', () => {
  it('is asked of the first unit, and cited by the next with who gave it when', () => {
    const one = named(first(ordered('T01-1', 'job')).state, 'T00-1');
    const two = bench(ordered('T01-1', 'job'), [one]);
    const events = two.do({ do: 'cite' }, 'tr');
    expect(events.map(({ kind }) => kind)).toEqual(['began', 'answered', 'answered', 'released']);
    expect(events[1]).toMatchObject({
      by: 'tr',
      cited: { rhythm: 'job', unit: 'T00-1', by: 'mk', at: at(1), n: 3, bench: 'B1' },
    });
    expect(events[3]).toMatchObject({ cited: { by: 'rl' }, pin: true });
    expect(two.status('order')).toBe('done');
  });

  it('is not cited by a unit of another job, nor where the question differs', () => {
    const one = named(first(ordered('T01-1', 'job')).state, 'T00-1');
    expect(bench(ordered('T01-1', 'job'), [named(one, 'T00-1', 'other')]).refusal({ do: 'cite' }).id).toBe(
      'build.nothing-to-cite',
    );
    const other = bench(ordered('T01-1', 'job', 'Is the other order complete?'), [one]);
    expect(other.refusal({ do: 'cite' }).id).toBe('build.nothing-to-cite');
  });

  it('does not count once the unit that was asked has taken it back, and is never cited at second hand', () => {
    const asked = first(ordered('T01-1', 'job'));
    const one = named(asked.state, 'T00-1');
    const two = bench(ordered('T01-1', 'job'), [one]);
    two.do({ do: 'cite' });
    expect(digestOf(two.state, at(61)).shared.facts).toEqual([]);
    asked.do({ do: 'rework', step: 'order', reason: 'the customer called' });
    expect(digestOf(asked.state, at(61)).shared.facts).toEqual([]);
  });

  it('is asked anew where somebody answers it, and the newest counts', () => {
    const one = named(first(ordered('T01-1', 'job')).state, 'T00-1');
    const two = bench(ordered('T01-1', 'job'), [one]);
    two.do({ do: 'look', step: 'order' });
    expect(two.state.steps.get('order')!.checks[0]!.answered!.cited).toBeUndefined();
  });

  it('a failed answer is shared with nobody', () => {
    const made = new Bench(ordered('T01-1', 'job'));
    made.do({ do: 'look', step: 'order', not: 'order/papers' });
    expect(digestOf(made.state, at(59)).shared.facts).toEqual([]);
  });
});

describe('what is due once a shift', () => {
  const asked = () => {
    const made = first(ordered('T01-1', 'job'));
    made.yes('work/own', 'work/warm');
    return named(made.state, 'T00-1');
  };
  const next = (more: Partial<DecisionContext> = {}) => {
    const made = bench(ordered('T01-1', 'job'), [asked()], more);
    made.do({ do: 'cite' });
    return made;
  };

  it('is cited with the last answer of a step that asks something of its own', () => {
    const events = next().do({ do: 'answer', check: 'work/own', value: 'yes' });
    expect(events.map((event) => ('check' in event ? event.check : event.kind))).toEqual([
      'began',
      'work/own',
      'work/warm',
      'finished',
    ]);
    expect(events[2]).toMatchObject({ cited: { rhythm: 'shift', by: 'mk' } });
  });

  it('is asked at another bench, and once the shift is over', () => {
    const elsewhere = next({ bench: 'B2' });
    elsewhere.yes('work/own');
    expect(elsewhere.status('work')).toBe('begun');
    const later = next();
    later.minutes = 700;
    later.yes('work/own');
    expect(later.status('work')).toBe('begun');
  });
});

describe('what is due for each lot, set-up, batch and nth unit', () => {
  const goods = (unit = 'T01-1'): Route => ({
    ...route({ first: [] }, [
      step('goods', 'first', {
        checks: [
          {
            id: 'lot',
            kind: 'text',
            rhythm: 'lot',
            lot: 'profile',
            accepts: true,
            ask: 'Batch of the profile',
          },
          { id: 'colour', kind: 'go-no-go', rhythm: 'lot', ask: 'Is it white?' },
        ],
      }),
    ]),
    unit,
  });
  const accepted = (lot: string, minutes = 1): UnitState => {
    const made = new Bench(goods());
    made.minutes = minutes;
    made.say('goods/lot', lot);
    made.yes('goods/colour');
    return named(made.state, `T00-${lot}`);
  };

  it('cites the lot in use with all that was found of it', () => {
    const two = bench(goods(), [accepted('P-1'), accepted('P-2', 10)]);
    const answers = two.do({ do: 'cite' }).filter((event) => event.kind === 'answered');
    expect(answers[0]).toMatchObject({ lot: { code: 'P-2', accepted: true } });
    expect(answers[1]).toMatchObject({ cited: { unit: 'T00-P-2' } });
  });

  it('asks for everything of a lot that is new, and cites what is known of one that is not', () => {
    const fresh = bench(goods(), [accepted('P-1')]);
    fresh.say('goods/lot', 'P-9');
    expect(fresh.status('goods')).toBe('begun');
    const known = bench(goods(), [accepted('P-1'), accepted('P-2', 10)]);
    known.say('goods/lot', 'P-1');
    expect(known.state.steps.get('goods')!.checks[1]!.answered!.cited).toMatchObject({ unit: 'T00-P-1' });
  });

  it('cites no lot that an open snag touches', () => {
    const two = bench(goods(), [accepted('P-1')], { snagged: { lots: ['P-1'], setups: [] } });
    expect(two.refusal({ do: 'cite' }).id).toBe('build.nothing-to-cite');
  });

  const sawn = (rhythm: Rhythm, nth?: number): Route =>
    route({ first: [] }, [
      step('saw', 'first', {
        setup: 'saw',
        checks: [
          { kind: 'go-no-go', rhythm, ask: 'Is the cut clean?', ...(nth === undefined ? {} : { nth }) },
        ],
      }),
    ]);
  const cut = (rhythm: Rhythm, nth?: number, unit = 'T00-1') => {
    const made = new Bench(sawn(rhythm, nth));
    made.more = { setups: { saw: { id: 'saw-3' } } };
    made.yes('saw/a');
    return named(made.state, unit);
  };
  const setups = { saw: { id: 'saw-3' } };

  it('a first-off stands for its set-up, wherever and however long it is used', () => {
    const one = cut('first-off');
    const same = bench(sawn('first-off'), [one], { setups, bench: 'B2' });
    same.do({ do: 'cite', step: 'saw' });
    expect(same.status('saw')).toBe('done');
    const other = bench(sawn('first-off'), [one], { setups: { saw: { id: 'saw-4' } } });
    expect(other.refusal({ do: 'cite', step: 'saw' }).id).toBe('build.nothing-to-cite');
  });

  it('a batch is one job’s units at one bench, in one sitting, under one set-up', () => {
    const one = cut('batch');
    const take = (more: Partial<DecisionContext>, from = one) =>
      bench(sawn('batch'), [from], { setups, ...more }).decide({ do: 'cite', step: 'saw' }).kind;
    expect(take({})).toBe('events');
    expect(take({ bench: 'B2' })).toBe('refused');
    expect(take({ setups: { saw: { id: 'saw-4' } } })).toBe('refused');
    expect(take({}, named(one, 'T00-1', 'other'))).toBe('refused');
    // A batch's own work is cited at its own step only, never in one key with what the shop knows.
    expect(bench(sawn('batch'), [one], { setups }).refusal({ do: 'cite' }).id).toBe('build.nothing-to-cite');
  });

  it('every nth unit is asked', () => {
    const one = cut('nth', 3);
    const cites = (n: number) =>
      Array.from({ length: n }, (_, i) => {
        const made = bench(sawn('nth', 3), [one], { setups });
        made.do({ do: 'cite', step: 'saw' });
        return named(made.state, `T02-${i}`);
      });
    const take = (before: readonly UnitState[]) =>
      bench(sawn('nth', 3), [one, ...before], { setups }).decide({ do: 'cite', step: 'saw' }).kind;
    expect(take(cites(1))).toBe('events');
    expect(take(cites(2))).toBe('refused');
  });
});

it('the same words in another step are another question, but for what is asked of the bench in a shift', () => {
  const two = (rhythm: Rhythm) =>
    route({ first: [], last: ['first'] }, [
      step('one', 'first', { checks: [{ kind: 'go-no-go', rhythm, ask: 'Are all ends punched?' }] }),
      step('other', 'last', {
        checks: [
          { id: 'own', kind: 'go-no-go' },
          { kind: 'go-no-go', rhythm, ask: 'Are all ends punched?' },
        ],
      }),
    ]);
  for (const [rhythm, status] of [
    ['batch', 'begun'],
    ['job', 'begun'],
    ['shift', 'done'],
  ] as const) {
    const made = new Bench(two(rhythm));
    made.yes('one/a', 'other/own');
    expect(made.status('other'), rhythm).toBe(status);
  }
});

describe('what the program works out', () => {
  const over = route({ first: [] }, [
    step('size', 'first', {
      checks: [
        { kind: 'computed', ask: 'The sum agrees.' },
        { id: 'b', kind: 'go-no-go' },
      ],
    }),
    step('end', 'first', {
      rests: ['size'],
      checks: [{ kind: 'computed', ask: 'All is done.' }],
      hold: { id: 'H', title: 'End', notSamePerson: true, evidence: false },
    }),
  ]);

  it('is never asked, and a step of which nothing else is asked waits for its hold alone', () => {
    const made = new Bench(over);
    expect(nextCheck(made.state)).toEqual({ step: 'size', check: 'size/b' });
    expect(made.status('end')).toBe('waiting');
    made.yes('size/b');
    expect(made.status('end')).toBe('held');
    expect(made.state.finished).toBe(false);
    made.do({ do: 'release', step: 'end', pin: '1111' }, 'rl');
    expect(made.state.finished).toBe(true);
  });
});

describe('one walk of like holds', () => {
  const hold = { id: 'H4', title: 'Sealed', notSamePerson: true, evidence: false };
  const over = route({ first: [], frame: ['first'], sash: ['first'], last: ['frame', 'sash'] }, [
    step('cut', 'first'),
    step('frame.seal', 'frame', { hold, makes: ['frame.sealed'], rests: ['cut'] }),
    step('sash.fit', 'sash', { rests: ['cut'] }),
    step('sash.seal', 'sash', { hold, rests: ['sash.fit'] }),
    step('end', 'last', { rests: ['frame.sealed', 'sash.seal'] }),
  ]);

  it('leaves the hold that others can join until they can, and releases all of them at once', () => {
    const made = new Bench(over);
    made.yes('cut/a');
    expect(nextCheck(made.state)?.step).toBe('sash.fit');
    made.yes('sash.fit/a', 'sash.seal/a');
    expect(isToBeReleased(made.state, made.state.steps.get('sash.seal')!)).toBe(false);
    made.yes('frame.seal/a');
    expect(isToBeReleased(made.state, made.state.steps.get('sash.seal')!)).toBe(true);
    expect(walkOf(made.state, 'sash.seal').map(({ step: { id } }) => id)).toEqual(['frame.seal']);
    const events = made.do({ do: 'release', step: 'sash.seal', also: ['frame.seal'], pin: '1111' }, 'rl');
    expect(events).toMatchObject([
      { kind: 'released', step: 'sash.seal', walk: 2 },
      { kind: 'released', step: 'frame.seal', walk: 2 },
    ]);
    expect(made.status('frame.seal')).toBe('done');
  });

  it('releases none where one of them cannot be', () => {
    const made = new Bench(over);
    made.yes('cut/a', 'sash.fit/a', 'sash.seal/a');
    const also: Action = { do: 'release', step: 'sash.seal', also: ['frame.seal'], pin: '1111' };
    expect(made.refusal(also, 'rl').id).toBe('build.not-held');
    expect(made.refusal({ ...also, also: ['end'] }, 'rl').id).toBe('build.no-hold');
  });

  it('what its own checks release asks for nobody', () => {
    const own = route({ first: [], last: ['first'] }, [
      step('test', 'first', { hold: { ...hold, release: 'checks' } }),
      step('end', 'last', { rests: ['test'] }),
    ]);
    const made = new Bench(own);
    expect(made.status('end')).toBe('waiting');
    made.yes('test/a');
    expect(made.status('test')).toBe('done');
    expect(made.status('end')).toBe('ready');
  });
});
