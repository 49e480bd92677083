/** Words in catalogues: forms of number, what is filled in, and that a translation says as much as the original. */
import { FluentResource } from '@fluent/bundle';
import { describe, expect, it } from 'vitest';
import { ENGLISH, sayIn, type Translations, teller, word } from '../../src/base/words.js';
import { DE } from '../../src/tui/words/de.js';
import { BENCH_WORDS } from '../../src/tui/words/en.js';

const FEW = {
  plain: word('Nothing is filled in here.', 'A note.'),
  snags: word('{ $n ->\n  [one] One snag\n *[other] { $n } snags\n}', 'A note.', { n: 2 }),
  both: word('{ $unit } is at { $bench }.', 'A note.', { unit: 'P01-1', bench: 'bench-1' }),
} as const;

const told = (language: string, texts: Translations) =>
  sayIn(
    FEW,
    teller(language, (id) => texts[id]),
  );

describe('a catalogue', () => {
  it('fills in, and says a number by its form, as plain digits', () => {
    const say = sayIn(FEW, ENGLISH);
    expect(say('plain')).toBe('Nothing is filled in here.');
    expect(say('both', { unit: '{ $n }', bench: 'b' })).toBe('{ $n } is at b.');
    expect([0, 1, 2, 12_345].map((n) => say('snags', { n }))).toEqual([
      '0 snags',
      'One snag',
      '2 snags',
      '12345 snags',
    ]);
  });

  // CLDR 48, plural rules of Polish: one for 1, few for 2 to 4 and 22 to 24, many for 0, 5 to 21 and 25.
  it('has the forms of number of the language it is told in', () => {
    const say = told('pl', {
      plain: '',
      both: '',
      snags: '{ $n ->\n  [one] { $n } wada\n  [few] { $n } wady\n *[many] { $n } wad\n}',
    });
    expect([1, 3, 5, 12, 22, 25].map((n) => say('snags', { n }))).toEqual([
      '1 wada',
      '3 wady',
      '5 wad',
      '12 wad',
      '22 wady',
      '25 wad',
    ]);
  });

  it('throws where a message is none, or lacks what it asks for', () => {
    const say = told('en', { plain: '{ $n', snags: 'x', both: '{ $unit } { $other }' });
    expect(() => say('plain')).toThrow('plain');
    expect(() => say('both', { unit: 'u', bench: 'b' })).toThrow();
  });
});

const filledIn = (text: string): readonly string[] =>
  [...new Set([...text.matchAll(/\$(\w+)/g)].map(([, name]) => name!))].sort();

describe('the words of the bench', () => {
  const english = sayIn(BENCH_WORDS, ENGLISH);
  const german = sayIn(
    BENCH_WORDS,
    teller('de', (id) => (DE as Translations)[id]),
  );

  it.each(Object.keys(BENCH_WORDS) as (keyof typeof BENCH_WORDS)[])('%s', (id) => {
    const { text, note, example } = BENCH_WORDS[id];
    const [translated] = [DE[id]].flat();
    expect(note.trim()).not.toBe('');
    expect(Object.keys(example).sort()).toEqual(filledIn(text));
    expect(filledIn(translated!)).toEqual(filledIn(text));
    for (const source of [text, translated!])
      expect(new FluentResource(`m = ${source.replaceAll('\n', '\n  ')}`).body).toHaveLength(1);
    for (const say of [english, german]) {
      const said = (say as (id: string, args: object) => string)(id, example);
      expect(said.trim()).toBe(said);
      expect(said).not.toMatch(/[{}$]/);
      for (const value of Object.values(example)) expect(said).toContain(String(value));
    }
  });
});
