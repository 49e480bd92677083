/** What is wrong with a value, in words of our own: the validating library says it in English, and for programmers. */
import type * as z from 'zod';
import { type Message, messagesOf, word } from './words.js';

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
const fault = messagesOf(FAULT_WORDS);

const KINDS = {
  string: 'kind-string',
  number: 'kind-number',
  int: 'kind-int',
  boolean: 'kind-boolean',
  array: 'kind-array',
  tuple: 'kind-array',
  object: 'kind-object',
  record: 'kind-object',
  map: 'kind-object',
} as const;
const kind = (expected: string): Message => fault(KINDS[expected as keyof typeof KINDS] ?? 'kind-other');

/** A text where the schema gives a reason of its own. */
export function faultOf(issue: z.core.$ZodIssue): Message | string {
  switch (issue.code) {
    case 'invalid_type':
      return issue.input === undefined
        ? fault('fault-missing', { wanted: kind(issue.expected) })
        : fault('fault-kind', { wanted: kind(issue.expected) });
    case 'invalid_value': {
      const known = issue.values.map(String);
      if (issue.input === undefined) return fault('fault-missing', { wanted: known.join(' / ') });
      const given = String(issue.input).slice(0, 40);
      return known.length === 1
        ? fault('fault-exactly', { given, wanted: known[0]! })
        : fault('fault-unknown', { given, known });
    }
    case 'too_small': {
      const n = Number(issue.minimum);
      if (issue.origin === 'array' || issue.origin === 'set') return fault('fault-few-items', { n });
      if (issue.origin === 'string') return fault('fault-short', { n });
      return fault(issue.inclusive === false ? 'fault-more' : 'fault-least', { least: String(n) });
    }
    case 'too_big': {
      const n = Number(issue.maximum);
      if (issue.origin === 'array' || issue.origin === 'set') return fault('fault-many-items', { n });
      if (issue.origin === 'string') return fault('fault-long', { n });
      return fault(issue.inclusive === false ? 'fault-less' : 'fault-most', { most: String(n) });
    }
    case 'invalid_union':
      return issue.input === undefined
        ? fault('fault-missing', { wanted: fault('kind-other') })
        : fault('fault-forms');
    default:
      return issue.message;
  }
}
