/** Registers over units: nonconformities, instruments, lots, set-ups, people, complaints, releases. */
import { word } from '../../../base/words.js';

const TITLE = 'Title of a register over units.';
const COLUMN = 'Title of a column of a register.';

export const LEDGER_WORDS = {
  'doc-ledger-nonconformities': word('Register of nonconformities', TITLE),
  'doc-ledger-instruments': word('Register of measuring instruments', TITLE),
  'doc-ledger-lots': word('Register of lots', TITLE),
  'doc-ledger-set-ups': word('Register of set-ups and first-offs', TITLE),
  'doc-ledger-people': word('Register of people', TITLE),
  'doc-ledger-complaints': word('Register of what came after release', TITLE),
  'doc-ledger-releases': word('Register of releases', TITLE),
  'doc-ledger-under': word(
    '{ $units } { $units ->\n  [one] unit\n *[other] units\n}, printed { $time }',
    'Below the title of a register.',
    {
      units: 12,
      time: '2026-03-09 16:00:00 UTC',
    },
  ),
  'doc-ledger-from': word('from { $day }', 'Below the title: what is older is left out.', {
    day: '2026-03-01',
  }),
  'doc-ledger-to': word('to { $day }', 'Below the title: what is younger is left out.', {
    day: '2026-03-31',
  }),
  'doc-ledger-rows': word('{ $n } { $n ->\n  [one] entry\n *[other] entries\n}', 'How long a register is.', {
    n: 4,
  }),
  'doc-ledger-empty': word('No entries.', 'In place of the table of a register.'),
  'doc-ledger-unit': word('Unit', COLUMN),
  'doc-ledger-kind': word('Kind', COLUMN),
  'doc-ledger-what': word('What', COLUMN),
  'doc-ledger-decision': word('Why, and what was decided', COLUMN),
  'doc-ledger-cause': word('Cause', COLUMN),
  'doc-ledger-repeat': word('Repeat of', COLUMN),
  'doc-ledger-by': word('Person', COLUMN),
  'doc-ledger-at': word('Time', COLUMN),
  'doc-ledger-id': word('Id', COLUMN),
  'doc-ledger-calibrated': word('Calibrated', COLUMN),
  'doc-ledger-due': word('Due', COLUMN),
  'doc-ledger-certificate': word('Certificate', COLUMN),
  'doc-ledger-first': word('First use', COLUMN),
  'doc-ledger-last': word('Last use', COLUMN),
  'doc-ledger-units': word('Units', COLUMN),
  'doc-ledger-overdue': word('Used overdue', COLUMN),
  'doc-ledger-material': word('Material', COLUMN),
  'doc-ledger-lot': word('Lot', COLUMN),
  'doc-ledger-use-by': word('Use by', COLUMN),
  'doc-ledger-accepted': word('Accepted', COLUMN),
  'doc-ledger-checks': word('First-off', COLUMN),
  'doc-ledger-level': word('Level then', COLUMN),
  'doc-ledger-order': word('Order', COLUMN),
  'doc-ledger-verdict': word('Verdict', COLUMN),
  'doc-ledger-number': word('Record number', COLUMN),
  'doc-ledger-keep': word('To be kept', COLUMN),
  'doc-ledger-answers': word(
    '{ $n } { $n ->\n  [one] answer or release\n *[other] answers and releases\n}',
    'What a person did.',
    { n: 40 },
  ),
  'doc-ledger-foot': word('{ $workshop }: { $title }', 'At the foot of each page of a register.', {
    workshop: 'Quay Lane Windows',
    title: 'Register of lots',
  }),
} as const;
