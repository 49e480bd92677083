/** What is kept of a unit, and the pages that are made of it: the board, the stages and the hand-over. */

import { describe, expect, it } from 'vitest';
import { boardRow, byStep, linesOf } from '../../src/unit/board.js';
import { asOf, fold } from '../../src/unit/fold.js';
import {
  acrossUnits,
  answersTo,
  type Digested,
  digestOf,
  handoverOf,
  phaseAt,
  stagesOf,
  summaryOf,
  type UnitDigest,
  withBeginnings,
} from '../../src/unit/summary.js';
import type { LotUsed } from '../../src/unit/types.js';
import { at, Bench, route, step } from './routes.js';

const hold = { id: 'H', title: 'Look', notSamePerson: true, evidence: false };
/** A step with a hold, one that takes a lot, and three that wait an hour, three and two after it. */
const ROUTE = route({ s: [] }, [
  step('look', 's', { checks: [{ id: 'flat', kind: 'go-no-go' }], hold }),
  step('seal', 's', { checks: [{ id: 'lot', kind: 'text', lot: 'sealant' }, 'a'] }),
  step('one', 's', { notBefore: { feature: 'seal', minutes: 60 }, rests: ['seal'] }),
  step('three', 's', { notBefore: { feature: 'seal', minutes: 180 }, rests: ['seal'] }),
  step('two', 's', { notBefore: { feature: 'seal', minutes: 120 }, rests: ['seal'] }),
]);
/** Looked at and released, sealed, and curing. */
const curing = (lot = 'S-1', expires = '2026-12-31'): Bench => {
  const bench = new Bench(ROUTE);
  bench.yes('look/flat');
  bench.do({ do: 'release', step: 'look' }, 'ql');
  bench.do({ do: 'answer', check: 'seal/lot', value: lot, expires });
  bench.yes('seal/a');
  return bench;
};
const digest = (bench: Bench, minutes = bench.minutes): UnitDigest =>
  digestOf(asOf(bench.state, at(minutes)), at(minutes));
const named = (unit: string, digest: UnitDigest): Digested => ({ job: 'j', unit, digest });

describe('how a unit stands, in a sentence', () => {
  it('where it cures: what is ready first', () => {
    expect(boardRow(curing().state).where).toBe('Do seal stands until 08:04 UTC');
  });
  it('where it is held, and then parked', () => {
    const bench = new Bench(ROUTE);
    bench.yes('look/flat');
    expect(byStep([bench.state])).toMatchObject([{ base: 'look', open: [], held: [{ step: 'look' }] }]);
    bench.do({ do: 'park', reason: 'shift ends' });
    bench.do({ do: 'resume' });
    bench.do({ do: 'park', reason: 'no glass' });
    expect(boardRow(bench.state).where).toBe('parked: no glass');
    expect(byStep([bench.state])).toEqual([]);
  });
  it('where it is scrapped', () => {
    const bench = curing();
    const [raised] = bench.do({ do: 'snag', cause: 'other', text: 'bent' });
    bench.do({ do: 'decide', snag: raised!.n, disposition: 'scrap', reason: 'r' }, 'ql');
    expect(boardRow(bench.state).where).toBe('scrapped; T01-1R1 replaces it');
    expect(linesOf(bench.state)).toEqual({
      halfDone: [],
      held: [],
      curing: [],
      running: [],
      snags: [],
      parked: [],
    });
    expect(digest(bench)).toMatchObject({ replacement: 'T01-1R1', snagged: { lots: [], setups: [] } });
  });
  it('where all is done and the last line is not written', () => {
    const bench = new Bench(route({ s: [] }, [step('g', 's')]));
    bench.yes('g/a');
    expect(boardRow(bench.state).where).toBe('finished');
    expect(boardRow(fold(bench.state.route, bench.state.events.slice(0, -1))).where).toBe('nothing is open');
  });
});

describe('a digest', () => {
  it('holds each lot that still counts as it was named last, and what was noted', () => {
    const bench = new Bench(
      route({ s: [] }, [
        step('a', 's', { checks: [{ id: 'lot', kind: 'text', lot: 'glass' }] }),
        step('b', 's', { checks: [{ id: 'lot', kind: 'text', lot: 'sealant' }] }),
        step('c', 's', { checks: [{ id: 'lot', kind: 'text', lot: 'sealant' }] }),
        step('z', 's'),
      ]),
    );
    bench.say('a/lot', 'G-1');
    bench.do({ do: 'answer', check: 'b/lot', value: 'S-1', expires: '2026-12-31' });
    bench.do({ do: 'undo', reason: 'another tube' });
    bench.do({ do: 'answer', check: 'b/lot', value: 'S-2', expires: '2026-12-31' });
    bench.say('c/lot', 'S-2');
    bench.do({ do: 'note', text: 'seen' });
    bench.do({ do: 'note', text: 'grey', step: 'a' }, 'ql');
    const { lots, notes } = digest(bench);
    expect(lots).toEqual([
      { material: 'glass', code: 'G-1', at: at(1) },
      { material: 'sealant', code: 'S-2', expires: '2026-12-31', at: at(5) },
    ]);
    expect(notes.map(({ by, step, text }) => [by, step, text])).toEqual([
      ['mk', null, 'seen'],
      ['ql', 'a', 'grey'],
    ]);
  });

  it('holds the lots and set-ups of snags as long as these are open', () => {
    const bench = curing();
    const [lot] = bench.do({ do: 'snag', cause: 'other', text: 'lumps', lot: 'S-9' });
    bench.do({ do: 'snag', cause: 'other', text: 'burr', setup: 'saw-3' });
    bench.do({ do: 'snag', cause: 'other', text: 'burr again', setup: 'saw-3' });
    expect(digest(bench).snagged).toEqual({ lots: ['S-9'], setups: ['saw-3'] });
    bench.do({ do: 'decide', snag: lot!.n, disposition: 'repair', reason: 'r' }, 'ql');
    bench.write([{ kind: 'snag-closed', snag: lot!.n, note: '' }]);
    expect(digest(bench).snagged).toEqual({ lots: [], setups: ['saw-3'] });
  });

  it('reaches to the last moment at which time may change something, and says nothing beyond', () => {
    const kept = digest(curing());
    expect(kept.phases.map(({ from, standing }) => [from, standing])).toEqual([
      [at(5), 'curing'],
      [at(64), 'under-way'],
      [at(124), 'under-way'],
      [at(184), 'under-way'],
    ]);
    const { until } = kept;
    expect(until).toBe('2026-03-03T00:00:00.000Z');
    expect(phaseAt(kept, at(63))).toBe(kept.phases[0]);
    expect(phaseAt(kept, at(64))).toBe(kept.phases[1]);
    expect(phaseAt(kept, until!)).toBeUndefined();
    expect(stagesOf([named('u', kept)], until!)).toEqual([]);
    expect(handoverOf([named('u', kept)], until!, at(0)).curing).toEqual([]);
    // Where nothing runs, time changes nothing.
    const still = digest(new Bench(ROUTE));
    expect(still.until).toBeUndefined();
    expect(phaseAt(still, '2036-01-01T00:00:00.000Z')).toBe(still.phases[0]);
  });
});

it('an open time is kept to its very end, and is over a moment later', () => {
  const bench = new Bench(
    route({ s: [] }, [
      step('seal', 's'),
      step('set', 's', { rests: ['seal'], notAfter: { feature: 'seal', minutes: 10 } }),
    ]),
  );
  bench.yes('seal/a');
  const kept = digest(bench);
  const over = new Date(Date.parse(at(11)) + 1).toISOString();
  expect(kept.phases.map(({ from, where }) => [from, where])).toEqual([
    [at(2), 'Do set'],
    [over, 'nothing is open'],
  ]);
  const running = (now: string) => handoverOf([named('u', kept)], now, at(0)).running.map(({ text }) => text);
  expect(running(at(11))).toEqual(['Do set must be done by 07:11 UTC']);
  expect(running(over)).toEqual(['Do set had to be done by 07:11 UTC']);
});

const asUnit = (digest: UnitDigest, i: number) => ({ job: 'j', unit: `u${i}`, digest });

describe('over several units', () => {
  it('lots of one code and different dates stay apart', () => {
    const used = (when: number, expires?: string): UnitDigest => ({
      ...digest(new Bench(ROUTE)),
      lots: [{ material: 'sealant', code: 'S-1', at: at(when), ...(expires ? { expires } : {}) } as LotUsed],
    });
    const expiry = (...digests: UnitDigest[]) =>
      acrossUnits(digests.map(asUnit)).lots.map(({ expires }) => expires);
    expect(expiry(used(1, '2026-06-30'), used(2, '2026-06-30'))).toEqual(['2026-06-30']);
    expect(expiry(used(1, '2026-06-30'), used(2, '2026-07-31'))).toEqual(['2026-06-30', '2026-07-31']);
    expect(expiry(used(1), used(2))).toEqual([undefined]);
    const other = { ...used(1), lots: [{ material: 'glass', code: 'S-1', at: at(1) }] };
    expect(acrossUnits([used(1), other].map(asUnit)).lots).toHaveLength(2);
  });

  it('uses of a set-up are those of all', () => {
    const used = (uses: Record<string, number>) => ({ ...digest(new Bench(ROUTE)), uses });
    const { uses } = acrossUnits([used({ 'saw-1': 2 }), used({ 'saw-1': 3, 'saw-2': 1 })].map(asUnit));
    expect([...uses]).toEqual([
      ['saw-1', 5],
      ['saw-2', 1],
    ]);
  });

  it('units of which nothing is logged stand where they begin, in a row of their own where there is none', () => {
    const rows = stagesOf([named('u1', digest(new Bench(ROUTE)))], at(9));
    const begins = (unit: string, base: string) => ({
      job: 'j',
      unit,
      base,
      step: base,
      title: `Do ${base}`,
      stage: 's',
    });
    const all = withBeginnings(rows, [begins('u2', 'look'), begins('u3', 'cut'), begins('u4', 'look')]);
    expect(
      all.map(({ base, open, notStarted }) => [base, open.length, notStarted?.map(({ unit }) => unit)]),
    ).toEqual([
      ['cut', 0, ['u3']],
      ['look', 1, ['u2', 'u4']],
    ]);
    expect(withBeginnings(rows, [])).toEqual(rows);
  });

  it('an open snag of any of them is on its lots and set-ups', () => {
    const touched = (...touches: { lot?: string; setup?: string }[]) => {
      const bench = new Bench(ROUTE);
      for (const each of touches) bench.do({ do: 'snag', cause: 'other', text: 'seen', ...each });
      return digest(bench);
    };
    const { snagged } = acrossUnits(
      [touched({ lot: 'S-1', setup: 'saw-1' }), touched({}), touched({ setup: 'saw-1' })].map(asUnit),
    );
    expect(snagged).toEqual({ lots: ['S-1'], setups: ['saw-1'] });
  });

  it('steps stand in walking order, whichever unit comes first', () => {
    const further = new Bench(ROUTE);
    further.yes('look/flat');
    further.do({ do: 'release', step: 'look' }, 'ql');
    const units = [named('u1', digest(further)), named('u2', digest(new Bench(ROUTE)))];
    for (const order of [units, units.toReversed()])
      expect(stagesOf(order, at(9)).map(({ base }) => base)).toEqual(['look', 'seal']);
  });

  it('each step has one row, with the units in which it is open and those where it is held', () => {
    const held = new Bench(ROUTE);
    held.yes('look/flat');
    const [fresh, waits] = [digest(new Bench(ROUTE)), digest(held)];
    const units = [named('u1', waits), named('u2', fresh), named('u3', waits), named('u4', fresh)];
    expect(stagesOf(units, at(9))).toEqual([
      {
        base: 'look',
        title: 'Do look',
        stage: 's',
        open: [
          { job: 'j', unit: 'u2', step: 'look' },
          { job: 'j', unit: 'u4', step: 'look' },
        ],
        held: [
          { job: 'j', unit: 'u1', step: 'look' },
          { job: 'j', unit: 'u3', step: 'look' },
        ],
      },
    ]);
  });

  it('the hand-over page has what cures in the order in which it is ready, and the notes of the shift', () => {
    const [early, late] = [curing(), curing()];
    late.minutes += 20;
    late.do({ do: 'rework', step: 'seal', reason: 'lumps' });
    late.say('seal/lot', 'S-3');
    late.yes('seal/a');
    early.do({ do: 'note', text: 'before' });
    early.minutes = 40;
    early.do({ do: 'note', text: 'since', step: 'seal' });
    const page = handoverOf(
      [named('late', digest(late, 45)), named('early', digest(early, 45))],
      at(45),
      at(40),
    );
    expect(page.at).toBe(at(45));
    expect(page.curing).toEqual(
      [
        ['early', 'one', '08:04'],
        ['late', 'one', '08:27'],
        ['early', 'two', '09:04'],
        ['late', 'two', '09:27'],
        ['early', 'three', '10:04'],
        ['late', 'three', '10:27'],
      ].map(([unit, step, when]) => ({ job: 'j', unit, step, text: `Do seal stands until ${when} UTC` })),
    );
    expect(page.notes).toEqual([{ job: 'j', unit: 'early', step: 'seal', text: 'mk: since' }]);
  });

  it('the hand-over page has what is half done, failed, held, snagged and parked', () => {
    const bench = new Bench(ROUTE);
    bench.say('look/flat', 'no');
    const [raised] = bench.do({ do: 'snag', step: 'look', severity: 'major', cause: 'other', text: 'twist' });
    bench.do({ do: 'snag', cause: 'other', text: 'scratch' });
    const page = () => handoverOf([named('u', digest(bench))], at(bench.minutes), at(0));
    const texts = () => {
      const { halfDone, snags, parked, held } = page();
      return [halfDone, snags, parked, held].map((lines) => lines.map(({ step, text }) => [step, text]));
    };
    expect(texts()).toEqual([
      [['look', 'Do look: a check failed, 1 of 1 checks open']],
      [
        ['look', 'snag 4 (major): twist; not decided'],
        [null, 'snag 5 (minor): scratch; not decided'],
      ],
      [],
      [],
    ]);
    for (const snag of [raised!.n, raised!.n + 1])
      bench.do({ do: 'decide', snag, disposition: 'repair', reason: 'r' }, 'ql');
    bench.say('look/flat', 'yes');
    bench.do({ do: 'park', reason: 'shift ends' });
    expect(texts()).toEqual([
      [],
      [
        ['look', 'snag 4 (major): twist; to repair'],
        [null, 'snag 5 (minor): scratch; to repair'],
      ],
      [[null, 'shift ends']],
      [['look', 'Do look: Look waits for release']],
    ]);
    bench.do({ do: 'close', snag: raised!.n });
    expect(texts()[1]).toEqual([[null, 'snag 5 (minor): scratch; to repair']]);
  });
});

describe('a unit is found', () => {
  it('by the days it was worked on and by whether it had a snag', () => {
    const bench = curing();
    bench.minutes = 3 * 24 * 60;
    bench.do({ do: 'note', text: 'seen' });
    const plain = summaryOf(bench.state.events);
    expect(plain).toEqual({ days: ['2026-03-02', '2026-03-05'], snagged: false });
    bench.do({ do: 'snag', cause: 'other', text: 'bent' });
    const snagged = summaryOf(bench.state.events);
    for (const [asked, one, other] of [
      [{}, true, true],
      [{ since: '2026-03-05' }, true, true],
      [{ since: '2026-03-06' }, false, false],
      [{ until: '2026-03-02' }, true, true],
      [{ until: '2026-03-01' }, false, false],
      [{ since: '2026-03-03', until: '2026-03-04' }, false, false],
      [{ snagged: true }, false, true],
      [{ snagged: false }, true, true],
      [{ since: '2026-03-06', snagged: true }, false, false],
    ] as const)
      expect([answersTo(plain, asked), answersTo(snagged, asked)], JSON.stringify(asked)).toEqual([
        one,
        other,
      ]);
  });
});
