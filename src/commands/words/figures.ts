/** What study says while it plans and asks. */
import { word } from '../../base/words.js';

export const FIGURES_SAYS = {
  'study-planned': word('{ $file }: { $n } readings in an order drawn by lot.', 'study plan', {
    n: 90,
    file: 'study.csv',
  }),
  'study-planned-next': word(
    'Number the parts where nobody who measures sees it. Then: pinchrod study take { $file } --by { $person }',
    'study plan',
    { file: 'study.csv', person: 'jb' },
  ),
  'study-part': word('Part { $part } ({ $n } of { $of }):', 'study take: asks for a reading', {
    part: '7',
    n: 3,
    of: 30,
  }),
  'study-taken': word(
    '{ $n ->\n  [one] { $n } reading\n *[other] { $n } readings\n } taken; { $left } are open, of all people.',
    'study take',
    { n: 30, left: 60 },
  ),
  'study-taken-all': word('{ $person } has no reading left.', 'study take', { person: 'jb' }),
  'study-taken-done': word(
    'Result: pinchrod study --csv { $file } --part part --person person --value value',
    'study take',
    { file: 'study.csv' },
  ),
} as const;
