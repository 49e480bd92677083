/** How far the program's own words are translated. */
import { createHash } from 'node:crypto';
import { expect, it } from 'vitest';
import { countWords } from '../../src/commands/wordscount.js';
import { command } from '../errors/museum.js';
import { ROOT } from '../tui/terminal.js';

const text = (words: string) => ({ text: words, note: 'A test.', example: {} });

it('counts texts that are missing, that nobody reviewed, and that changed since their review', () => {
  const print = (words: string) => createHash('sha256').update(words).digest('hex').slice(0, 8);
  const catalogue = {
    gone: text('Nobody told this yet'),
    plain: text('Saw'),
    reviewed: text('Router'),
    old: text('Drill the hole'),
  };
  const [count] = countWords([{ room: 'x', catalogue }], {
    plain: 'Säge',
    reviewed: ['Fräse', 'lb', print('Router')],
    old: ['Bohren', 'lb', print('Drill')],
  });
  expect(count).toEqual({ room: 'x', texts: 4, missing: ['gone'], unreviewed: ['plain'], changed: ['old'] });
});

it('lint --words: German has every text, and says that nobody has reviewed it', async () => {
  const { code, out, err } = await command(ROOT, ['lint', '--words', 'de', '--json']);
  expect({ code, err }).toEqual({ code: 0, err: '' });
  const rooms = JSON.parse(out) as { texts: number; missing: string[]; unreviewed: string[] }[];
  expect(rooms.flatMap((room) => room.missing)).toEqual([]);
  expect(rooms.reduce((sum, room) => sum + room.texts, 0)).toBeGreaterThan(2000);
});
