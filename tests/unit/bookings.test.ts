/** What is booked is what was done: instruments, lots, pieces, sets of readings, second names, pictures. */
import { describe, expect, it } from 'vitest';
import type { Action } from '../../src/unit/actions.js';
import type { JournalEvent } from '../../src/unit/events.js';
import { fold } from '../../src/unit/fold.js';
import { lotsOffered } from '../../src/unit/lots.js';
import type { LotUsed } from '../../src/unit/types.js';
import { Bench, INSTRUMENTS, RULES, route, SQUARE, step } from './routes.js';

const GOODS = route({ s: [], use: [] }, [
  step('in', 's', {
    checks: [{ id: 'lot', kind: 'text', lot: 'sealant', accepts: true, dated: true }, 'whole'],
  }),
  step('seal', 'use', { checks: [{ id: 'lot', kind: 'text', lot: 'sealant' }] }),
]);
const GLASS = route({ s: [] }, [
  ...['L1', 'L2'].map((item) =>
    step(`in@${item}`, 's', {
      item,
      checks: [{ id: 'lot', kind: 'text', lot: 'glass', accepts: true, serial: true }],
    }),
  ),
  ...['L1', 'L2'].map((item) =>
    step(`fit@${item}`, 's', { item, checks: [{ id: 'lot', kind: 'text', lot: 'glass', serial: true }] }),
  ),
]);
const lotOf = (bench: Bench, id: string) =>
  bench.state.steps.get(id.split('/')[0]!)!.checks.find((check) => check.id === id)!.answered?.lot;

describe('a lot', () => {
  it('must have been accepted, its step done, and be in date on the day of use', () => {
    const bench = new Bench(GOODS);
    expect(bench.refusal({ do: 'answer', check: 'seal/lot', value: 'SE-9 2026-06-30' }).id).toBe(
      'build.lot-not-accepted',
    );
    // A lot accepted on the spot needs its date as one at goods-in does.
    expect(bench.refusal({ do: 'answer', check: 'seal/lot', value: 'SE-9' }).id).toBe('build.lot-needs-date');
    bench.say('in/lot', 'SE-9 2026-06-30');
    // Named at goods-in is not accepted yet: the cartridges may be torn.
    expect(bench.refusal({ do: 'answer', check: 'seal/lot', value: 'SE-9' }).id).toBe(
      'build.lot-not-accepted',
    );
    bench.yes('in/whole');
    bench.say('seal/lot', 'se-9');
    expect(lotOf(bench, 'seal/lot')).toMatchObject({ code: 'SE-9', expires: '2026-06-30' });
    const late = new Bench(GOODS);
    late.say('in/lot', 'SE-9 2026-06-30');
    late.yes('in/whole');
    late.minutes = 200 * 24 * 60;
    expect(late.refusal({ do: 'answer', check: 'seal/lot', value: 'SE-9' }).id).toBe('build.lot-expired');
  });

  it('a date behind it is never part of its name', () => {
    const bench = new Bench(GOODS);
    expect(bench.refusal({ do: 'answer', check: 'in/lot', value: 'SE-9 31.01.2020' }).id).toBe(
      'build.lot-expiry-bad',
    );
    bench.more = { workshop: { ...RULES, dates: 'DD.MM.YYYY' } };
    expect(bench.refusal({ do: 'answer', check: 'in/lot', value: 'SE-9 31.01.2020' })).toMatchObject({
      id: 'build.lot-expired',
      text: 'Lot SE-9 (sealant) expired on 2020-01-31.',
    });
  });

  it('is read from a GS1 code, with its date', () => {
    const bench = new Bench(GOODS);
    bench.say('in/lot', '\u001d10SE-9\u001d17280300');
    expect(lotOf(bench, 'in/lot')).toMatchObject({
      code: 'SE-9',
      expires: '2028-03-31',
      raw: '\u001d10SE-9\u001d17280300',
    });
  });

  it('is accepted on the spot by who may, and by name', () => {
    const bench = new Bench(GOODS);
    const answer = { do: 'answer', check: 'seal/lot', value: 'SE-1 2026-12-31' } as const;
    expect(bench.refusal({ ...answer, acceptedBy: { person: 'mk' } }).id).toBe('build.no-right');
    expect(bench.refusal({ ...answer, acceptedBy: { person: 'rl', pin: '9' } }).id).toBe('build.pin-wrong');
    bench.do({ ...answer, acceptedBy: { person: 'rl', pin: '1111' } });
    expect(lotOf(bench, 'seal/lot')).toMatchObject({ acceptedBy: 'rl' });
  });

  it('last in use is offered, but not one that is expired, snagged or not accepted', () => {
    const bench = new Bench(GOODS);
    const check = bench.state.route.steps[1]!.checks[0]!;
    const lot = (code: string, at: string, more: Partial<LotUsed> = {}): LotUsed => ({
      material: 'sealant',
      code,
      at,
      expires: '2027-01-31',
      accepted: true,
      ...more,
    });
    const shop = [
      lot('A', '2026-01-02'),
      lot('B', '2026-01-03'),
      lot('C', '2026-01-04', { expires: '2026-01-01' }),
      lot('D', '2026-01-05'),
      { ...lot('E', '2026-01-06'), accepted: undefined as never },
    ];
    const offered = lotsOffered(bench.state, check, shop, ['D'], '2026-03-02T08:00:00.000Z');
    expect(offered.map(({ code }) => code)).toEqual(['B', 'A']);
  });
});

describe('a piece with its own number', () => {
  it('accepted for one light is not another light’s', () => {
    const bench = new Bench(GLASS);
    bench.say('in@L1/lot', 'G-1');
    expect(bench.refusal({ do: 'answer', check: 'in@L2/lot', value: 'g-1' })).toMatchObject({
      id: 'build.piece-elsewhere',
      text: 'glass G-1 belongs to T01-1 L1, not to T01-1 L2.',
    });
    bench.say('in@L2/lot', 'G-2');
    expect(bench.refusal({ do: 'answer', check: 'fit@L1/lot', value: 'G-2' }).id).toBe(
      'build.piece-elsewhere',
    );
    bench.say('fit@L1/lot', 'G-1');
    // Its own place may name it again, and once taken back it is free.
    bench.do({ do: 'rework', step: 'fit@L1', reason: 'fell out' });
    bench.say('fit@L1/lot', 'G-1');
  });

  it('of another unit is refused', () => {
    const bench = new Bench(GLASS);
    const other = {
      material: 'glass',
      code: 'G-9',
      serial: true,
      accepted: true,
      at: 'x',
      job: 'test',
      unit: 'T02-1',
      item: 'L1',
    } as const;
    bench.more = { lots: [other] };
    expect(bench.refusal({ do: 'answer', check: 'in@L1/lot', value: 'G-9' }).text).toContain(
      'belongs to T02-1 L1',
    );
  });
});

describe('an instrument', () => {
  const thermometer = {
    ...INSTRUMENTS[0]!,
    id: 'H1',
    title: 'thermometer',
    measures: ['temperature'],
    unit: 'C',
  } as const;
  it('in hand that does not measure what is asked is refused by name; nothing is taken in its place', () => {
    const bench = new Bench();
    bench.more = { instruments: [...INSTRUMENTS, thermometer], inHand: 'H1' };
    const refused = bench.refusal({ do: 'answer', check: 'cut.frame/length', value: '1000' });
    expect(refused).toMatchObject({ id: 'build.instrument-quantity', todo: 'Scan one of these: T1 (tape).' });
    expect(refused.text).toContain('H1 (thermometer) does not measure length');
    bench.do({ do: 'answer', check: 'cut.frame/length', value: '1000', with: 't1' });
    expect(bench.state.events.at(-1)).toMatchObject({ answer: { readings: [{ instrument: 'T1' }] } });
  });
});

describe('a set of readings', () => {
  const squared = () => {
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
            },
          ],
        }),
      ]),
    );
    const read = (key: keyof typeof SQUARE, value = SQUARE[key], more = {}) =>
      bench.do({ do: 'read', check: 'q/set', key, value, ...more });
    return { bench, read };
  };

  it('is settled by its last reading', () => {
    const { bench, read } = squared();
    for (const key of ['bottom', 'top', 'left', 'right', 'bl_tr', 'br_tl'] as const) read(key);
    expect(read('bl_tr').map(({ kind }) => kind)).toEqual(['read', 'answered', 'finished']);
    expect(bench.status('q')).toBe('done');
  });

  it('keeps a reading that raises a question, and any one can be taken again', () => {
    const { bench, read } = squared();
    for (const key of ['bottom', 'top', 'left', 'right', 'bl_tr'] as const) read(key);
    read('br_tl', '1225.5');
    // The six cannot all be true: the reading is logged, the verdict waits.
    expect(read('bl_tr').map(({ kind }) => kind)).toEqual(['read']);
    expect(bench.decide({ do: 'answer', check: 'q/set', value: {} })).toMatchObject({ kind: 'ask' });
    expect(read('br_tl', '1220.5', { replaces: 1 }).map(({ kind }) => kind)).toEqual([
      'read',
      'answered',
      'finished',
    ]);
    expect(bench.status('q')).toBe('done');
    expect(bench.refusal({ do: 'read', check: 'q/set', key: 'top', value: '1000', replaces: 3 }).id).toMatch(
      /finished/,
    );
  });

  it('that did not pass keeps its readings; one is retaken, or all are begun anew', () => {
    const { bench, read } = squared();
    for (const key of ['bottom', 'top', 'left', 'right'] as const) read(key);
    for (const [key, value] of [
      ['bl_tr', '1225'],
      ['br_tl', '1216'],
      ['bl_tr', '1225'],
    ] as const)
      read(key, value);
    expect(bench.status('q')).toBe('failed');
    const { partial } = bench.state.steps.get('q')!.checks[0]!;
    expect(partial?.bl_tr?.map(({ value }) => value)).toEqual([1225, 1225]);
    bench.do({ do: 'begin-set', check: 'q/set' });
    expect(bench.state.steps.get('q')!.checks[0]!.partial).toBeUndefined();
  });

  it('of a journal of version 1 begins anew after every answer, as it did then', () => {
    const { bench, read } = squared();
    for (const key of ['bottom', 'top', 'left', 'right'] as const) read(key);
    for (const [key, value] of [
      ['bl_tr', '1225'],
      ['br_tl', '1216'],
      ['bl_tr', '1225'],
    ] as const)
      read(key, value);
    const old = bench.state.events.map((event) => ({ ...event, v: 1 }) as JournalEvent);
    expect(fold(bench.state.route, old).steps.get('q')!.checks[0]!.partial).toBeUndefined();
  });

  it('taken back comes back with its readings', () => {
    const { bench, read } = squared();
    for (const key of ['bottom', 'top', 'left', 'right', 'bl_tr', 'br_tl', 'bl_tr'] as const) read(key);
    bench.do({ do: 'undo', reason: 'typed wrongly' });
    expect(Object.keys(bench.state.steps.get('q')!.checks[0]!.partial ?? {})).toHaveLength(6);
    // A reading that replaced another gives way to it when it is taken back itself.
    read('top', '1000', { replaces: 1 });
    expect(bench.status('q')).toBe('done');
  });
});

describe('a second person', () => {
  const answer = { do: 'answer', check: 'cut.frame/length', value: '1000', second: 'rl' } as const;
  it('confirms by their own PIN, or by their own code where they have none, once a stage', () => {
    const bench = new Bench();
    expect(bench.refusal(answer, 'tr').id).toBe('build.second-unconfirmed');
    expect(bench.refusal({ ...answer, confirm: { code: 'rl' } }, 'tr').id).toBe('build.second-unconfirmed');
    expect(bench.refusal({ ...answer, confirm: { pin: '0000' } }, 'tr').id).toBe('build.pin-wrong');
    expect(bench.refusal({ ...answer, second: 'mk', confirm: { code: 'ql' } }, 'tr').text).toMatch(
      /not of Person mk/,
    );
    const [confirmed] = bench.do({ ...answer, confirm: { pin: '1111' } }, 'tr');
    expect(confirmed).toMatchObject({
      kind: 'second-confirmed',
      by: 'tr',
      second: 'rl',
      stage: 'cut',
      pin: true,
    });
    // The next check of that stage takes the name alone; the next stage asks again.
    const next = { do: 'answer', check: 'cut.sash/a', value: 'yes', second: 'rl' } as const;
    expect(bench.do(next, 'tr').map(({ kind }) => kind)).toEqual(['began', 'answered']);
    bench.say('cut.sash/count', '4');
    expect(bench.refusal({ do: 'answer', check: 'frame.seal/lot', value: 'S', second: 'rl' }, 'tr').id).toBe(
      'build.second-unconfirmed',
    );
  });
});

describe('a picture', () => {
  it('for a second check is asked about', () => {
    const bench = new Bench(
      route({ s: [] }, [
        step('g', 's', {
          checks: [
            { id: 'a', evidence: true },
            { id: 'b', evidence: true },
          ],
        }),
      ]),
    );
    const evidence = { p: { sha256: 'a'.repeat(64), name: 'p.jpg', bytes: 9 } };
    bench.more = { evidence };
    const shown = (check: string, more = {}) =>
      ({ do: 'answer' as const, check, value: 'yes', evidence: ['p'], ...more }) satisfies Action;
    bench.do(shown('g/a'));
    expect(bench.decide(shown('g/b'))).toMatchObject({ kind: 'ask', question: { id: 'build.same-picture' } });
    bench.do(shown('g/b', { confirmed: true }));
    const other = new Bench(bench.state.route);
    other.more = { evidence, pictures: new Set([evidence.p.sha256]) };
    const asked = other.decide(shown('g/a'));
    expect(asked.kind === 'ask' && String(asked.question.details[0])).toContain('another unit');
  });
});

it('a snag decided as rework on a step that was never begun can be closed', () => {
  const bench = new Bench();
  bench.do({ do: 'snag', step: 'hang', cause: 'wrong-material', text: 'wrong stays in the box' }, 'ql');
  const { n } = bench.state.snags[0]!;
  bench.do({ do: 'decide', snag: n, disposition: 'rework', reason: 'box changed' }, 'ql');
  bench.do({ do: 'close', snag: n, note: 'right stays now' }, 'ql');
  expect(bench.state.snags[0]!.open).toBe(false);
});
