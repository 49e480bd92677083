/** Rows of a list that is longer than its place, and times that are counted down. */

import widthOf from 'string-width';
import { describe, expect, it } from 'vitest';
import { data } from '../../src/base/words.js';
import { listLines } from '../../src/tui/parts/rows.js';
import { timeLeft } from '../../src/tui/theme.js';
import { told } from '../../src/tui/words/told.js';

const theme = { colours: 'dark', ascii: false } as const;
const items = Array.from({ length: 10 }, (_, n) => ({
  id: String(n),
  text: data(`item ${n} ${'x'.repeat(n * 4)}`),
}));
const rows = (at: number, height: number, width = 30) =>
  listLines({ items, at, marked: true, width, height, theme, say: told({}) }).map((line) =>
    line.map(({ text }) => text).join(''),
  );

describe('a list', () => {
  it('says how many rows are below and above', () => {
    expect(rows(0, 4).at(-1)).toMatch(/^ {2}item 3 x+… {2}↓ 6 more$|^ {2}item 3 x+ +↓ 6 more$/);
    expect(rows(0, 4)[0]).toBe('▸ item 0 ');
    expect(rows(9, 4)[0]).toMatch(/↑ 6 more$/);
    expect(rows(9, 4).at(-1)).toMatch(/^▸ item 9/);
    expect(rows(5, 1)[0]).toMatch(/↑ 5 more ↓ 4 more$/);
  });

  it('says nothing of the kind where all are seen, and is never wider than its place', () => {
    expect(rows(3, 10).join('\n')).not.toMatch(/more/);
    for (let at = 0; at < 10; at += 1)
      for (const width of [12, 20, 44])
        for (const row of rows(at, 3, width)) expect(widthOf(row)).toBeLessThanOrEqual(width);
  });
});

it('time left is in whole minutes, the last one begun counted', () => {
  const now = '2026-03-02T10:00:00.000Z';
  expect(timeLeft('2026-03-02T12:58:00.000Z', now, told({}))).toBe('2 h 58 min');
  expect(timeLeft('2026-03-02T10:00:30.000Z', now, told({}))).toBe('1 min');
  expect(timeLeft('2026-03-02T11:00:00.000Z', now, told({}))).toBe('1 h 0 min');
});
