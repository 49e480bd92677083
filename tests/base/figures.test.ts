import { describe, expect, it } from 'vitest';
import { hasComma, withComma } from '../../src/base/figures.js';
import { readerOf } from '../../src/commands/reader.js';
import { told } from '../../src/tui/words/told.js';
import { unitProblem } from '../../src/unit/messages.js';
import { windowWords } from '../../src/window/words.js';

describe('decimals', () => {
  it.each([
    ['1221.5 mm', '1221,5 mm'],
    ['900.5 x 1200.25 mm', '900,5 x 1200,25 mm'],
    ['U = 0.4 mm, ±1.5 mm', 'U = 0,4 mm, ±1,5 mm'],
    ['deviation +0.5', 'deviation +0,5'],
    [' 12.5 ', ' 12,5 '],
    ['34.2 kg: two people', '34,2 kg: two people'],
  ])('of figures have a comma: %s', (text, told) => expect(withComma(text)).toBe(told));

  it.each([
    'BS 4873:2009, 6.2',
    'version 1.2',
    'frame.2',
    'P02-1',
    'v0.2.0',
    '24.11.2026',
    'casement 1.2 min.',
  ])('of other numbers are left alone: %s', (text) =>
    expect(withComma(text.replace(' min.', ''))).toBe(text.replace(' min.', '')),
  );

  // CLDR 48, symbols of numbers: a comma in German, French and Polish, a point in English and Japanese.
  it('are of the language', () => {
    expect(['de', 'fr', 'pl', 'en', 'ja'].map(hasComma)).toEqual([true, true, true, false, false]);
  });
});

it('codes of lots, versions and what was typed are told as they are, figures as the language writes them', async () => {
  const { tell } = await readerOf('de');
  const lot = unitProblem('build.lot-needs-date', { code: '2611.03', material: 'sealant' });
  expect(tell(lot.said)).toContain('2611.03');
  expect(told({ language: 'de' }).tell(lot.said)).toContain('2611.03');
  const glass = windowWords('stay-uses-mass', { mass: '19.4', limit: 20 });
  expect(tell(glass)).toContain('19,4');
  expect(told({ language: 'de' }).tell(glass)).toContain('19,4');
});
