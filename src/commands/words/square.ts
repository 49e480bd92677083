/** What square prints. */
import { word } from '../../base/words.js';

const COLUMN = 'square: head of a column; at most nine letters';
const CLOSURE = { misclosure: '0.42', sd: '0.55' };

export const SQUARE_SAYS = {
  'square-asks': word('QUESTION', 'square: above all, where something is asked before the verdict counts'),
  'square-rule': word(
    '{ $verdict }: { $title }: { $says } ({ $source })',
    'square: a limit, and what it is from',
    {
      verdict: 'PASS',
      title: 'Frame, difference of diagonals',
      says: '1.5 mm, at most 4 mm',
      source: 'published: BS 4873:2009, 6.2',
    },
  ),
  'square-measured': word('measured', COLUMN),
  'square-adjusted': word('adjusted', COLUMN),
  'square-change': word('change', COLUMN),
  'square-closes': word(
    'Misclosure { $misclosure } mm (standard deviation { $sd }): the readings close.',
    'square: whether all six lengths can be true together',
    CLOSURE,
  ),
  'square-open': word(
    'Misclosure { $misclosure } mm (standard deviation { $sd }): the readings do not close.',
    'square: whether all six lengths can be true together',
    CLOSURE,
  ),
  'square-corners': word(
    'Corners: { $corners } degrees (U = { $u }).',
    'square: tl is top left, br bottom right',
    {
      corners: 'tl 90.012, tr 89.988',
      u: '0.040',
    },
  ),
  'square-ask': word('ASK: { $question }', 'square: a reading that is likely to be wrong', {
    question: 'Is the top 1201, not 1210?',
  }),
};
