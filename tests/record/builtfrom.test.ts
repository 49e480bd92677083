/** Which texts a unit is built from, after revisions under way: the one that counts first, with since when. */
import { expect, it } from 'vitest';
import { builtFrom } from '../../src/record/materialview.js';
import { tellingOf } from '../../src/record/telling.js';
import type { JournalEvent } from '../../src/unit/events.js';

const event = (n: number, at: string, body: object) =>
  ({ v: 1, n, at, by: 'jb', bench: 'b', prev: '', hash: '', ...body }) as unknown as JournalEvent;
const opened = event(1, '2026-03-02T08:00:00.000Z', {
  kind: 'opened',
  unit: 'P01-1',
  job: 'pier-house',
  sources: { job: 'a1', procedure: 'b1', limits: 'c1' },
  procedure: { name: 'casement', version: '1' },
  profileSet: 'w52',
  program: 'test',
});
const revised = (n: number, at: string, sources: object) =>
  event(n, at, { kind: 'revised', sources, changed: [], reason: 'r' });

it('names each text once where nothing was exchanged', () => {
  expect(builtFrom([opened], { name: 'casement', version: '1' }, 2, tellingOf({}))).toEqual([
    { what: 'Job', name: 'pier-house', sha256: 'a1' },
    { what: 'Procedure', name: 'casement, version 1', sha256: 'b1' },
    { what: 'Limits', name: '', sha256: 'c1' },
  ]);
});

it('says which counts and since when, and under it what was before; what stayed the same is not called exchanged', () => {
  const events = [
    opened,
    revised(5, '2026-03-03T09:30:00.000Z', { job: 'a2', procedure: 'b2', limits: 'c1' }),
    revised(9, '2026-03-04T10:00:00.000Z', { job: 'a2', procedure: 'b3', limits: 'c1' }),
  ];
  const rows = builtFrom(events, { name: 'casement', version: '3' }, 2, tellingOf({}));
  expect(rows.map(({ sha256, name }) => [sha256, name])).toEqual([
    ['a2', 'pier-house'],
    ['a1', 'pier-house'],
    ['b3', 'casement, version 3'],
    ['b2', 'casement'],
    ['b1', 'casement, version 1'],
    ['c1', ''],
  ]);
  expect(rows.map(({ what }) => what)).toEqual([
    expect.stringMatching(/^Job, since .*3.* 09:30/),
    expect.stringMatching(/^Job, until .*3.* 09:30/),
    expect.stringMatching(/^Procedure, since .*4.* 10:00/),
    expect.stringMatching(/^Procedure, until .*4.* 10:00/),
    expect.stringMatching(/^Procedure, until .*3.* 09:30/),
    'Limits',
  ]);
});

it('says nothing where the journal does not', () => {
  expect(builtFrom([], { name: 'casement', version: '1' }, 2, tellingOf({}))).toEqual([]);
});
