/** What verify prints. */
import { word } from '../../base/words.js';

const COUNT = 'verify: what was looked at, in a list';

export const VERIFY_SAYS = {
  'verify-note': word('note: { $problem }', 'verify: something to know that is no fault', {
    problem: 'P02-1 has 1 more line than the document.',
  }),
  'verify-holds': word('{ $file }: { $of }: says what the journal gives.', 'verify: a document', {
    file: 'P02-1.pdf',
    of: 'P02-1 of pier-house, 90 lines',
  }),
  'verify-differs': word('{ $file }: { $of }: does not hold.', 'verify: a document', {
    file: 'P02-1.pdf',
    of: 'P02-1 of pier-house, 90 lines',
  }),
  'verify-not-checked': word('{ $file }: not checked: it is no record.', 'verify: a document', {
    file: 'lots.pdf',
  }),
  'verify-of': word(
    '{ $unit } of { $job }, { $n } { $n ->\n  [one] line\n *[other] lines\n}',
    'verify: what a document covers',
    {
      unit: 'P02-1',
      job: 'pier-house',
      n: 90,
    },
  ),
  'verify-of-unsure': word('{ $unit } of { $job }', 'verify: what a document covers', {
    unit: 'P02-1',
    job: 'pier-house',
  }),
  'verify-no-record': word('no record', 'verify: what a document covers, where it covers nothing'),
  'verify-journals': word('{ $n } { $n ->\n  [one] journal\n *[other] journals\n}', COUNT, { n: 9 }),
  'verify-events': word('{ $n } { $n ->\n  [one] event\n *[other] events\n}', COUNT, { n: 900 }),
  'verify-sources': word('{ $n } { $n ->\n  [one] source\n *[other] sources\n}', COUNT, { n: 6 }),
  'verify-files': word('{ $n } { $n ->\n  [one] evidence file\n *[other] evidence files\n}', COUNT, { n: 2 }),
  'verify-seals': word('{ $n } { $n ->\n  [one] seal\n *[other] seals\n}', COUNT, { n: 3 }),
  'verify-entries': word('{ $n } register { $n ->\n  [one] entry\n *[other] entries\n}', COUNT, { n: 40 }),
  'verify-whole': word('{ $what }: all whole and unaltered.', 'verify', { what: '9 journals, 900 events' }),
  'verify-faults': word('{ $what }: { $n } { $n ->\n  [one] fault\n *[other] faults\n}.', 'verify', {
    what: '9 journals, 900 events',
    n: 1,
  }),
  'verify-first-key': word(
    'Signatures count by the first key. Compare its fingerprint with the one on paper:',
    'verify: the fingerprint follows on a line of its own',
  ),
} as const;
