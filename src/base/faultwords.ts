/** What can be wrong with a value in a file. */
import { word } from './words.js';

const WHAT = 'what is wrong with a value in a file; after its key and a colon';

export const FAULT_WORDS = {
  'fault-missing': word('this key is missing; { $wanted } is wanted', WHAT, { wanted: 'a text' }),
  'fault-kind': word('{ $wanted } is wanted here', WHAT, { wanted: 'a number' }),
  'fault-unknown': word('"{ $given }" is not known here; known are { $known }', WHAT, {
    given: 'side-hang',
    known: 'fixed, top-hung, side-hung',
  }),
  'fault-exactly': word('"{ $given }" stands here; it must be "{ $wanted }"', WHAT, {
    given: 'pinchrod-job 2',
    wanted: 'pinchrod-job 1',
  }),
  'fault-few-items': word(
    'at least { $n } { $n ->\n  [one] entry\n *[other] entries\n} must stand here',
    WHAT,
    { n: 2 },
  ),
  'fault-many-items': word(
    'at most { $n } { $n ->\n  [one] entry\n *[other] entries\n} may stand here',
    WHAT,
    { n: 5 },
  ),
  'fault-short': word(
    'at least { $n } { $n ->\n  [one] character\n *[other] characters\n} must stand here',
    WHAT,
    { n: 2 },
  ),
  'fault-long': word(
    'at most { $n } { $n ->\n  [one] character\n *[other] characters\n} may stand here',
    WHAT,
    { n: 60 },
  ),
  'fault-least': word('it must be at least { $least }', WHAT, { least: '15' }),
  'fault-more': word('it must be more than { $least }', WHAT, { least: '0' }),
  'fault-most': word('it may be at most { $most }', WHAT, { most: '90' }),
  'fault-less': word('it must be less than { $most }', WHAT, { most: '90' }),
  'fault-forms': word('it has none of the forms that may stand here', WHAT),
  'kind-string': word('a text', 'a kind of value in a file'),
  'kind-number': word('a number', 'a kind of value in a file'),
  'kind-int': word('a whole number', 'a kind of value in a file'),
  'kind-boolean': word('true or false', 'a kind of value in a file'),
  'kind-array': word('a list', 'a kind of value in a file'),
  'kind-object': word('a group of keys', 'a kind of value in a file'),
  'kind-other': word('another kind of value', 'a kind of value in a file'),
};
