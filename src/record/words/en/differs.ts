/** How a document differs from what the journal gives. */
import { word } from '../../../base/words.js';

const WHERE = 'verify: where a document differs.';

export const DIFFER_WORDS = {
  'differs-nothing': word('nothing', 'In the place of a text that is not there.'),
  'differs-quoted': word('"{ $text }"', 'What a document says, or the journal gives.', { text: '2.5 mm' }),
  'differs-line-end': word('It ends with line { $n }; the journal gives { $wanted } lines.', WHERE, {
    n: 200,
    wanted: 210,
  }),
  'differs-line': word('Line { $n } says { $said }; the journal gives { $wanted }.', WHERE, {
    n: 12,
    said: '"2.5 mm"',
    wanted: '"3.5 mm"',
  }),
  'differs-checks': word('It has { $n } checks; the journal gives { $wanted }.', WHERE, {
    n: 80,
    wanted: 84,
  }),
  'differs-cell': word(
    'Row { $n }, { $check }, { $column } is { $said }; the journal gives { $wanted }.',
    WHERE,
    {
      n: 12,
      check: 'diagonals',
      column: 'reading',
      said: '"2.5 mm"',
      wanted: '"3.5 mm"',
    },
  ),
  'differs-cell-check': word('check', 'In the place of the name of a check.'),
  'differs-cell-more': word('one cell more', 'In the place of the name of a column.'),
  'differs-member': word('{ $path } is { $said }; the journal gives { $wanted }.', WHERE, {
    path: 'unit.width',
    said: '1000',
    wanted: '1001',
  }),
  'differs-pdf': word('This is not a PDF written by this program.', WHERE),
  'differs-pages': word('It has { $n } pages; the journal gives { $wanted }.', WHERE, { n: 28, wanted: 29 }),
  'differs-page': word('Page { $n } says { $said }; the journal gives { $wanted }.', WHERE, {
    n: 2,
    said: '"2.5 mm"',
    wanted: '"3.5 mm"',
  }),
  'differs-drawn': word(
    'It says the same words, but is not drawn as the program draws it: something was changed or added.',
    WHERE,
  ),
  'differs-language': word(
    'It says that it is told in "{ $language }", in which this version of the program tells no document.',
    WHERE,
    { language: 'fr' },
  ),
  'differs-version': word(
    '{ $difference } It was made by another version of the program, and its facts hash fits: it may only be drawn otherwise.',
    WHERE,
    { difference: 'Line 12 says "Did"; the journal gives "Done".' },
  ),
  'differs-words': word(
    '{ $difference } It is told by words that this version of the program does not have: it may only be worded otherwise.',
    WHERE,
    { difference: 'Line 12 says "Did"; the journal gives "Done".' },
  ),
} as const;
