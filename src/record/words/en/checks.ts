/** The tables of checks: question, reading, limit, verdict, person. */
import { word } from '../../../base/words.js';

const COLUMN = 'Title of a column.';
const CELL = 'In the table of checks.';
const STATUS = 'Where a step stands, above its checks.';
const VERDICT = 'Verdict of a check. Capitals are a warning.';
const SOURCE = 'Where a limit comes from.';
const WHY = 'Why an answer does not count any more.';

export const CHECK_WORDS = {
  'doc-every-check': word('Every check, stage by stage', 'Heading.'),
  'doc-stage': word('{ $title } ({ $done } of { $of } steps done)', 'Heading of a stage.', {
    title: 'Frame',
    done: 11,
    of: 12,
  }),
  'doc-col-check': word('Check', COLUMN),
  'doc-col-reading': word('Reading', COLUMN),
  'doc-col-limit': word('Limit, rule and source', COLUMN),
  'doc-col-verdict': word('Verdict', COLUMN),
  'doc-col-who': word('Person, time and instrument', COLUMN),
  'doc-col-judged': word('Judged', COLUMN),
  'doc-col-uncertainty': word('Uncertainty (k = 2)', COLUMN),
  'doc-col-limit-alone': word('Limit', COLUMN),
  'doc-col-instrument': word('Instrument', COLUMN),
  'doc-step-waiting': word('step not done', STATUS),
  'doc-step-begun': word('step begun, not done', STATUS),
  'doc-step-failed': word('step failed', STATUS),
  'doc-step-held': word('step waits for release', STATUS),
  'doc-step-stale': word('step to be done again', STATUS),
  'doc-safety': word('safety: no concession', CELL),
  'doc-expected': word('expected { $value }', CELL, { value: '1000 x 700 mm' }),
  'doc-judged': word('judged { $value }', CELL, { value: '0.5 mm' }),
  'doc-judged-uncertain': word('judged { $value }, uncertainty { $uncertainty } (k = 2)', CELL, {
    value: '0.5 mm',
    uncertainty: '0.6 mm',
  }),
  'doc-lot-of': word('lot of { $material }', CELL, { material: 'sealant' }),
  'doc-lot-of-until': word('lot of { $material }, use by { $day }', CELL, {
    material: 'sealant',
    day: '2026-11-30',
  }),
  'doc-evidence': word('evidence: { $name }', CELL, { name: 'corner.jpg' }),
  'doc-before': word('before: { $says } ({ $outcome }), { $name }, { $time }; { $why }', CELL, {
    says: '2.5 mm',
    outcome: 'FAIL',
    name: 'Jana Brook (JB)',
    time: '2026-03-09 16:00:00',
    why: 'measured again',
  }),
  'doc-rule-outcome': word('{ $says }: { $outcome }', CELL, { says: 'at most 2 mm', outcome: 'pass' }),
  'doc-rule-source': word('{ $title }; { $kind }: { $source }', CELL, {
    title: 'Diagonals',
    kind: 'house rule',
    source: 'owner, 2024',
  }),
  'doc-rule-kind': word('{ $title }; { $kind }', CELL, { title: 'Diagonals', kind: 'common practice' }),
  'doc-fast': word('fast', 'A mark beside the verdict: answered sooner than the work can be done.'),
  'doc-second': word('second: { $name }', 'Who stood beside.', { name: 'Orla Tench (OT)' }),
  'doc-at-line': word('{ $time }, line { $n }', 'When, and on which line of the journal.', {
    time: '2026-03-09 16:00:00',
    n: 12,
  }),
  'doc-line': word('line { $n }', 'Of the journal.', { n: 12 }),
  'doc-with': word('with { $tools }', 'Instruments.', { tools: 'R1 and R2' }),
  'doc-setup': word('set-up { $id }', CELL, { id: 'mitre-saw' }),
  'doc-overdue-allowed': word('instrument overdue, allowed by { $name }', CELL, { name: 'Orla Tench (OT)' }),

  'doc-outcome-pass': word('pass', VERDICT),
  'doc-outcome-fail': word('FAIL', VERDICT),
  'doc-outcome-not-proven': word('NOT PROVEN', VERDICT),
  'doc-outcome-conceded': word('fail, conceded', VERDICT),
  'doc-outcome-open': word('NOT DONE', VERDICT),
  'doc-source-published': word('published', SOURCE),
  'doc-source-manual': word('profile manual', SOURCE),
  'doc-source-house-rule': word('house rule', SOURCE),
  'doc-source-common-practice': word('common practice', SOURCE),
  'doc-source-memory': word('from memory', SOURCE),
  'doc-source-invented': word('invented', SOURCE),

  'doc-remark-stale': word('does not count any more: something it rests on was made again', 'Of an answer.'),
  'doc-remark-not-settled': word('not settled', 'Of an answer that failed or was not proven.'),
  'doc-remark-conceded': word('let stand by the concession on snag { $n }', 'Of an answer.', { n: 41 }),
  'doc-remark-computed': word('worked out by the program', 'Of a check that nobody answers.'),
  'doc-put-right-why': word('put right: { $reason }', WHY, { reason: 'read upside down' }),
  'doc-put-right': word('put right', WHY),
  'doc-why-superseded': word('measured again', WHY),
  'doc-why-reworked': word('the step was made again', WHY),
  'doc-why-stale': word('something it rests on was made again', WHY),
  'doc-accepted-here': word('here, at goods-in', 'Where a lot was accepted.'),
  'doc-accepted-by': word('on the spot, by { $name }', 'Where a lot was accepted.', {
    name: 'Orla Tench (OT)',
  }),

  'doc-says-done': word('done', 'An answer: ticked.'),
  'doc-says-yes': word('yes', 'An answer.'),
  'doc-says-no': word('no', 'An answer.'),
  'doc-says-of': word('{ $what } { $value }', 'A reading of one of several lengths or points.', {
    what: 'top',
    value: '1000 mm',
  }),
  'doc-says-typed': word('{ $says } (typed "{ $raw }")', 'A reading that was typed in another form.', {
    says: '1000 mm',
    raw: '100 cm',
  }),
  'doc-says-confirmed': word('{ $says } (asked again, confirmed)', 'A reading that looked like a misread.', {
    says: '1000 mm',
  }),
  'doc-cited': word(
    'of { $unit }, line { $n } ({ $rhythm })',
    'Where an answer was given: at another unit.',
    {
      unit: 'P01-1',
      n: 12,
      rhythm: 'once a shift',
    },
  ),
  'doc-rhythm-batch': word('once for a batch', 'How often a check is asked.'),
  'doc-rhythm-first-off': word('once for each set-up', 'How often a check is asked.'),
  'doc-rhythm-lot': word('once for each lot', 'How often a check is asked.'),
  'doc-rhythm-shift': word('once a shift', 'How often a check is asked.'),
  'doc-rhythm-job': word('once for the order', 'How often a check is asked.'),
  'doc-rhythm-nth': word('on every nth unit', 'How often a check is asked.'),
  'doc-and': word('{ $most } and { $last }', 'The last two of a list; commas stand between the others.', {
    most: 'Jana, Sam',
    last: 'Orla',
  }),
  'doc-unseen-letters': word(
    'Some signs have no picture in the font of this file and are shown as �; the HTML and text documents show them.',
    'At the end of a PDF.',
  ),
  'doc-page': word('page { $n } of { $of }', 'At the foot of every page.', { n: 1, of: 29 }),
} as const;
