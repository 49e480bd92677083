/** The layers of a record: what page one says at a glance, the exceptions, the measured values, what passed. */
import { word } from '../../../base/words.js';

const COLUMN = 'Title of a column.';
const GLANCE = 'On page one: what a reader looks for first; rows of the table of exceptions stand beside it.';
const CELL = 'In the table of exceptions.';

export const LAYER_WORDS = {
  'doc-glance': word('At a glance', 'Caption of the first table.'),
  'doc-released-by': word('Released by { $name }, { $time }', 'Below the verdict.', {
    name: 'Orla Tench (OT)',
    time: '2026-03-09 16:00:00',
  }),
  'doc-glance-failed': word('Failed', GLANCE),
  'doc-glance-not-proven': word('Not proven', GLANCE),
  'doc-glance-conceded': word('Conceded', GLANCE),
  'doc-glance-overridden': word('Order problems overridden', GLANCE),
  'doc-glance-snag': word('Snags', GLANCE),
  'doc-glance-again': word('Failed first, passed later', GLANCE),
  'doc-glance-rework': word('Made again', GLANCE),
  'doc-glance-taken-back': word('Answers taken back', GLANCE),
  'doc-glance-overdue': word('Instrument overdue', GLANCE),
  'doc-glance-coarse': word('Instrument too coarse', GLANCE),
  'doc-glance-fast': word('Faster than the work', GLANCE),
  'doc-glance-alone': word('Released by whoever did it, or without PIN', GLANCE),
  'doc-glance-released-before': word('Released, then opened again', GLANCE),
  'doc-glance-revision': word('Moved to other files', GLANCE),
  'doc-glance-none': word('None of these', 'Before the kinds of exceptions of which there are none.'),
  'doc-glance-none-of': word('{ $kinds }.', 'Kinds of exceptions of which there are none.', {
    kinds: 'Failed, Conceded and Snags',
  }),
  'doc-glance-row': word('{ $row } { $what }', 'A link to a row of the table of exceptions.', {
    row: 'E1',
    what: 'Diagonals of the frame',
  }),
  'doc-exceptions': word('Exceptions', 'Heading: what was not as it should be, or not at once.'),
  'doc-no-exceptions': word(
    'There were none: every check passed at its first answer, and nothing was conceded, taken back or made again.',
    'In place of the table of exceptions.',
  ),
  'doc-col-row': word('Row', COLUMN),
  'doc-col-exception': word('What', COLUMN),
  'doc-col-reason': word('Why, and what was decided', COLUMN),
  'doc-exception-was': word('first { $was } ({ $outcome })', CELL, { was: '2.5 mm', outcome: 'FAIL' }),
  'doc-exception-now': word('then { $now } ({ $outcome })', CELL, { now: '1 mm', outcome: 'pass' }),
  'doc-exception-coarse': word('U = { $uncertainty } is too wide for { $limit }', CELL, {
    uncertainty: '0.8 mm',
    limit: 'at most 0.5 mm',
  }),
  'doc-exception-fast': word('answered sooner than the work can be done', CELL),
  'doc-exception-overdue': word('allowed by { $name }', CELL, { name: 'Orla Tench (OT)' }),
  'doc-exception-no-pin': word('released without a PIN', CELL),
  'doc-exception-measured': word('measured value { $row }', 'A link to the table of measured values.', {
    row: 'M4',
  }),
  'doc-measured': word('Measured values', 'Heading.'),
  'doc-no-measured': word('Nothing was measured.', 'In place of the table of measured values.'),
  'doc-measured-says': word(
    'U is the expanded uncertainty (k = 2) of what was judged. Codes of limits (#) and rules of judging (*) stand below the table.',
    'Above the table of measured values.',
  ),
  'doc-col-measured': word('What was measured', COLUMN),
  'doc-col-readings': word('Readings', COLUMN),
  'doc-col-held': word('Held against its limit', COLUMN),
  'doc-col-u': word('U, with', 'Title of a column: expanded uncertainty, and ids of instruments.'),
  'doc-rule-coded': word('{ $says } ({ $code })', 'What a limit says of a reading, with its code.', {
    says: '0.2 mm, at most 0.5 mm',
    code: 'L3',
  }),
  'doc-limits': word('Limits and rules', 'Heading of the legend below the table of measured values.'),
  'doc-col-coded': word('Code', COLUMN),
  'doc-col-limit-title': word('Limit and its source, or rule of judging', COLUMN),
  'doc-drawn-says': word(
    'Drawn as measured, seen from outside: errors are enlarged, dotted lines are nominal.',
    'Above the drawings.',
  ),
  'doc-holds-short': word('Holds in short', 'Heading: one line a hold.'),
  'doc-period-short': word(
    'Of units that were not right at once, what was not; of others there is only their row above. A unit’s own record (pinchrod record UNIT), or this one with --annex, has the rest.',
    'Before the units of a period.',
  ),
  'doc-passed': word('Passed without a figure', 'Heading: steps and how many of their checks passed.'),
  'doc-col-passed': word('Passed', COLUMN),
  'doc-passed-step': word('{ $step }: { $n }', 'A step and how many of its checks passed.', {
    step: 'Close the corners',
    n: 4,
  }),
  'doc-passed-cited': word(
    '{ $step }: { $n }, { $cited } cited',
    'A step, how many of its checks passed, and how many of them were asked of another unit.',
    {
      step: 'Close the corners',
      n: 4,
      cited: 2,
    },
  ),
  'doc-passed-says': word(
    'Each step with how many of its checks passed; cited are those that were asked once for several units, of another one.',
    'Above the table of what passed.',
  ),
  'doc-passed-some': word('{ $step }: { $n } of { $of }', 'The same, where not all passed.', {
    step: 'Close the corners',
    n: 4,
    of: 5,
  }),
  'doc-passed-between': word('{ $from } to { $to }', 'From the first answer of a stage to its last.', {
    from: '2026-03-09 14:00:00',
    to: '2026-03-09 16:00:00',
  }),
  'doc-readings-in': word('{ $readings } { $unit }', 'Several readings, with their unit once.', {
    readings: 'top 1000; bottom 1000',
    unit: 'mm',
  }),
  'doc-col-accepted': word('Accepted', COLUMN),
  'doc-col-named': word('Named', 'Title of a column: how often a lot was named in the work.'),
  'doc-annex-left-out': word(
    'Every answer with its line of the journal, and everything that no longer counts, stands in the annex of this record (pinchrod record { $unit } --annex) and in its JSON form.',
    'At the end of a record without its annex.',
    { unit: 'P02-1' },
  ),
  'doc-number': word('Record number', 'Label of a fact on page one.'),
  'doc-number-is': word(
    '{ $job }/{ $unit }/{ $lines }',
    'Job, unit and number of lines of the journal: a later record of the unit has a greater last number.',
    { job: 'pier-house', unit: 'P02-1', lines: 418 },
  ),
  'doc-supersedes': word(
    'takes the place of { $number }, as it was released',
    'Below the number of a record.',
    {
      number: 'pier-house/P02-1/418',
    },
  ),
  'doc-supersedes-earlier': word(
    'takes the place of every record of this unit whose last number is smaller',
    'Below the number of a record.',
  ),
  'doc-type-test': word('Type-test report', 'Label of a fact on page one.'),
  'doc-keep': word('To be kept', 'Label of a fact on page one.'),
  'doc-keep-until': word('until { $day } ({ $years } years)', 'How long the record must be kept.', {
    day: '2036-03-09',
    years: 10,
  }),
  'doc-not-stated': word('not stated by the workshop', 'Where a fact on page one is not given.'),
} as const;
