/** What is answered sooner than it can be read. */
import { expect, it } from 'vitest';
import { hasteOf } from '../../src/unit/haste.js';
import { Bench, route, step } from './routes.js';

const LONG = 'Do all four datum ends lie as the drawing shows, seen from outside the window?';
const over = route({ s: [] }, [
  step('s', 's', {
    checks: [
      { id: 'a', kind: 'go-no-go', ask: LONG },
      { id: 'b', kind: 'go-no-go', ask: 'Is it dry?' },
      {
        id: 'n',
        kind: 'number',
        expect: 1000,
        limits: ['t.length'],
        quantity: 'length',
        instruments: ['tape'],
      },
      { id: 'c', kind: 'go-no-go', ask: LONG },
      {
        id: 'm',
        kind: 'number',
        expect: 1000,
        limits: ['t.length'],
        quantity: 'length',
        instruments: ['tape'],
      },
    ],
  }),
]);

it('counts looks by the words of all their questions, and gives the time of measured answers beside them', () => {
  const bench = new Bench(over);
  // 15 and 3 words at 300 a minute: 3.6 s.
  bench.do({ do: 'look', step: 's', stood: 3.5 });
  bench.do({ do: 'answer', check: 's/n', value: '1000', stood: 20 });
  // 15 words: 3 s.
  bench.do({ do: 'answer', check: 's/c', value: 'yes', stood: 3 });
  bench.do({ do: 'answer', check: 's/m', value: '1000', stood: 31 });
  expect(hasteOf(bench.state)).toEqual([{ by: 'mk', looks: 2, sooner: 1, measured: 25.5 }]);
});

it('says nothing of answers whose time is not known', () => {
  const bench = new Bench(over);
  bench.do({ do: 'look', step: 's' });
  expect(hasteOf(bench.state)).toEqual([]);
});
