import { FluentResource } from '@fluent/bundle';
import { expect, it } from 'vitest';
import { DE } from '../../src/tui/words/de.js';
import { BENCH_WORDS } from '../../src/tui/words/en.js';
import { CATALOGUES } from './catalogues.js';
import { accentedText, growth, longer } from './pseudo.js';

it('a language that nobody speaks is in the syntax of the others, and has no word as it was', () => {
  for (const { catalogue } of CATALOGUES)
    for (const [id, { text, example }] of Object.entries(catalogue)) {
      const made = accentedText(text);
      expect(new FluentResource(`m = ${made.replaceAll('\n', '\n  ')}`).body, id).toHaveLength(1);
      for (const name of Object.keys(example)) expect(made).toContain(`$${name}`);
    }
  expect(accentedText('{ $n ->\n  [one] One snag\n *[other] { $n } snags\n} of { $unit }.')).toBe(
    '{ $n ->\n  [one] Óñé šñàğ\n *[other] { $n } šñàğš\n} óƒ { $unit }.',
  );
});

it('German is seldom longer than the longer language: 9 of 10 texts', () => {
  const texts = Object.entries(BENCH_WORDS).map(([id, { text }]) => [
    text,
    [DE[id as keyof typeof DE]].flat()[0]!,
  ]);
  const within = texts.filter(
    ([text, german]) => german!.length <= text!.length * (1 + growth(text!.length)) + 1,
  );
  expect(within.length / texts.length).toBeGreaterThan(0.9);
  expect(longer('Wait until then.').length).toBeGreaterThanOrEqual(24);
});
