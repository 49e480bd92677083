/** Recall lists: what a lot, an instrument, a person, a set-up or a version of the procedure reached. */
import { describe, expect, it } from 'vitest';
import type { JournalEvent } from '../../src/unit/events.js';
import { mayHold, reachesOf, traceUnits } from '../../src/unit/trace.js';
import { Bench, route, SQUARE, step } from './routes.js';

describe('a recall list', () => {
  it('of nothing asked is empty; of a person holds what was read, released and stood by', () => {
    const bench = new Bench(route({ s: [] }, [step('g', 's')]));
    bench.do({ do: 'answer', check: 'g/a', value: 'yes', second: 'mk', confirm: { code: 'mk' } }, 'tr');
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
  it('holds what a snag is on, single readings, who allowed an instrument, and says what no longer counts', () => {
    const set = {
      id: 'set',
      kind: 'square',
      nominal: { w: 1000, h: 700 },
      quantity: 'length',
      instruments: ['tape'],
    } as const;
    const bench = new Bench(route({ s: [] }, [step('g', 's', { checks: [set, 'b'], setup: 'saw' })]));
    bench.more = { setups: { saw: { id: 'saw-1' } }, inHand: 'T9' };
    const overdueAllowedBy = { person: 'rl', pin: '1111' };
    bench.do({ do: 'read', check: 'g/set', key: 'top', value: '1000', overdueAllowedBy });
    bench.do({ do: 'answer', check: 'g/set', value: SQUARE, overdueAllowedBy });
    bench.yes('g/b');
    bench.do({ do: 'undo', reason: 'not seen' });
    bench.do({ do: 'snag', cause: 'other', text: 'burr', setup: 'saw-1' });
    bench.do({ do: 'snag', cause: 'other', text: 'lumps', lot: 'S-1' });
    const rows = (query: Parameters<typeof traceUnits>[1]) =>
      traceUnits([{ unit: 'u', job: 'j', events: bench.state.events }], query).map(
        ({ kind, step, check: at, what, counts }) => [kind, step, at, what, counts],
      );
    expect(rows({ instrument: 't9' })).toEqual([
      ['read', 'g', 'g/set', 'instrument T9', true],
      ['answered', 'g', 'g/set', 'instrument T9', true],
    ]);
    expect(rows({ person: 'rl' })).toEqual([
      ['read', 'g', 'g/set', 'overdue instrument allowed by rl', true],
      ['answered', 'g', 'g/set', 'overdue instrument allowed by rl', true],
    ]);
    expect(rows({ setup: 'SAW-1' })).toEqual([
      ['answered', 'g', 'g/set', 'set-up saw-1', true],
      ['answered', 'g', 'g/b', 'set-up saw-1', false],
      ['snag-raised', null, null, 'snag on set-up saw-1', true],
    ]);
    expect(rows({ lot: 's-1' })).toEqual([['snag-raised', null, null, 'snag on lot S-1', true]]);
    expect(rows({ lot: 's-1', person: 'rl' })).toEqual([]);
    const reaches = reachesOf(bench.state.events);
    expect(reaches).toMatchObject({ lot: ['s-1'], instrument: ['t9'], setup: ['saw-1'] });
    // What is sorted out by its codes has no rows; what has rows is not sorted out.
    for (const lot of [undefined, 'S-1', 'S-2'])
      for (const setup of [undefined, 'saw-1', 'saw-2']) {
        const query = { ...(lot ? { lot } : {}), ...(setup ? { setup } : {}) };
        expect(mayHold(reaches, query), JSON.stringify(query)).toBe(lot !== 'S-2' && setup !== 'saw-2');
        if (rows(query).length > 0) expect(mayHold(reaches, query)).toBe(true);
      }
    expect(mayHold(reaches, { lot: undefined } as object)).toBe(true);
  });
});
