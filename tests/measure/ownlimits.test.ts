/** Readings of one set that are held to limits of their own. */
import { expect, it } from 'vitest';
import { judgePoints } from '../../src/measure/judgepoints.js';
import { parseLimits } from '../../src/measure/limits.js';

const limits = parseLimits({
  file: 'limits.yaml',
  text: `format: pinchrod-limits 1
limits:
  gap: {title: gap, of: value, most: 0.2, source: {kind: house-rule, text: invented for tests}}
  step: {title: step, of: value, most: 0.3, source: {kind: house-rule, text: invented for tests}}
  pair: {title: pair, of: pairs, most: 0.5, source: {kind: house-rule, text: invented for tests}}
`,
});
if (!limits.ok) throw new Error('limits');

const judge = (a: number, b: number, step: number) =>
  judgePoints(
    {
      points: [
        { id: 'a', text: 'a' },
        { id: 'b', text: 'b' },
        { id: 'step', text: 'step', limits: ['step'] },
      ],
      readings: Object.fromEntries(
        Object.entries({ a, b, step }).map(([id, value]) => [id, [{ raw: String(value), value }]]),
      ),
      pairs: [['a', 'b']],
      limits: ['gap', 'pair'],
      unit: 'mm',
      rule: { kind: 'simple' },
      instruments: [],
      now: '2026-03-02T07:00:00.000Z',
    },
    limits.value,
  );

it('a reading with limits of its own is held to those alone, and the others to those of the set', () => {
  expect(judge(0.1, 0.2, 0.3).outcome).toBe('pass');
  expect(judge(0.1, 0.3, 0.1).rules.map(({ limit, outcome }) => [limit, outcome])).toEqual([
    ['gap', 'fail'],
    ['pair', 'pass'],
    ['step', 'pass'],
  ]);
  expect(judge(0.1, 0.1, 0.4).rules.find(({ outcome }) => outcome === 'fail')?.limit).toBe('step');
});
