/** What is wrong with a value, in words of our own: the validating library says it in English, and for programmers. */
import type * as z from 'zod';
import { FAULT_WORDS } from './faultwords.js';
import { type Message, messagesOf } from './words.js';

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
export function valueFault(issue: z.core.$ZodIssue): Message | string {
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
