/** Records of several units, sheets of particulars, and labels. */
import { word } from '../../../base/words.js';

const VERDICT = 'Verdict over several units, in large letters.';
const CHOSEN = 'Which units were asked for.';
const COUNTS = 'In the line of counts over several units, between semicolons.';
const FIELD = 'A field of the particulars that EN 14351-1 asks for.';
const CHARACTERISTIC = 'An essential characteristic of a window, as EN 14351-1 names it.';
const LABEL = 'On a label: short.';
const LEFT = 'What had no room on a label.';
const unit = 'P02-1';
const job = 'pier-house';

export const SHEET_WORDS = {
  'doc-collection-title': word('Quality record, { $title }', 'Title of a document.', {
    title: 'job pier-house',
  }),
  'doc-collection-heading': word('Quality record: { $title }', 'Title of a document.', {
    title: 'job pier-house',
  }),
  'doc-collection-foot': word(
    '{ $workshop }: { $title }. { $state }. { $seal }',
    'At the foot of every page.',
    {
      workshop: 'Quay Lane Windows',
      title: 'job pier-house',
      state: 'Finished',
      seal: 'Seal K7Q2-9XHM',
    },
  ),
  'doc-collection-foot-none': word('{ $workshop }: { $title }. No unit.', 'At the foot of every page.', {
    workshop: 'Quay Lane Windows',
    title: 'all units',
  }),
  'doc-all-units': word('all units', CHOSEN),
  'doc-units-since': word('units from { $since }', CHOSEN, { since: '2026-03-01' }),
  'doc-units-until': word('units to { $until }', CHOSEN, { until: '2026-03-31' }),
  'doc-units-between': word('units from { $since } to { $until }', CHOSEN, {
    since: '2026-03-01',
    until: '2026-03-31',
  }),
  'doc-only-snagged': word('only units with a snag', CHOSEN),
  'doc-only-since': word('only units worked on from { $since }', CHOSEN, { since: '2026-03-01' }),
  'doc-only-until': word('only units worked on to { $until }', CHOSEN, { until: '2026-03-31' }),
  'doc-only-between': word('only units worked on from { $since } to { $until }', CHOSEN, {
    since: '2026-03-01',
    until: '2026-03-31',
  }),
  'doc-only-snagged-also': word('{ $only }, with a snag', CHOSEN, {
    only: 'only units worked on from 2026-03-01',
  }),
  'doc-none-answers': word('No unit answers to what was asked for', VERDICT),
  'doc-all-released': word(
    '{ $n ->\n  [one] The unit is finished and released\n *[other] All { $n } units are finished and released\n}',
    VERDICT,
    { n: 9 },
  ),
  'doc-all-released-also': word('{ $verdict }; { $also }', VERDICT, {
    verdict: 'All 9 units are finished and released',
    also: '1 unit scrapped',
  }),
  'doc-units-scrapped': word('{ $n } { $n ->\n  [one] unit\n *[other] units\n} scrapped', VERDICT, { n: 1 }),
  'doc-concessions': word('{ $n } { $n ->\n  [one] concession\n *[other] concessions\n}', VERDICT, { n: 1 }),
  'doc-units-unsettled': word('after release, NOT SETTLED: { $units }', VERDICT, {
    units: 'P02-1 and P03-1',
  }),
  'doc-units-finished': word(
    'NOT FINISHED: { $finished } of { $of } { $of ->\n  [one] unit\n *[other] units\n} finished',
    VERDICT,
    { finished: 3, of: 9 },
  ),
  'doc-units-not-begun': word(
    '{ $n ->\n  [one] Unit not begun: { $units }.\n *[other] Units not begun: { $units }.\n}',
    'In the list of what is missing.',
    { n: 2, units: 'P02-1 and P03-1' },
  ),
  'doc-unit-missing': word('{ $unit }: { $first }', 'In the list of what is missing.', {
    unit,
    first: 'The unit is put aside.',
  }),
  'doc-unit-missing-more': word(
    '{ $unit }: { $first } And { $n } more { $n ->\n  [one] thing\n *[other] things\n}; see its record.',
    'In the list of what is missing.',
    { unit, first: 'The unit is put aside.', n: 3 },
  ),
  'doc-unit-after': word('{ $unit }, after release: { $says }.', 'In the list of what is missing.', {
    unit,
    says: 'NOT SETTLED: 1 critical snag open',
  }),
  'doc-units': word('Units', 'Heading of a table.'),
  'doc-no-units': word('There are none.', 'In its place.'),
  'doc-col-unit': word('Unit', 'Title of a column.'),
  'doc-col-window': word('Window', 'Title of a column.'),
  'doc-col-figures': word('In figures', 'Title of a column.'),
  'doc-col-code': word('Short code', 'Title of a column.'),
  'doc-unit-after-says': word('After release: { $says }', 'In the table of units.', { says: 'notes only' }),
  'doc-all-sealed': word('Seal of all units', 'Heading.'),
  'doc-all-state': word('State of all units (not sealed)', 'Heading.'),
  'doc-hash': word('Hash', 'Label of a row.'),
  'doc-covers': word('Covers', 'Label of a row.'),
  'doc-covers-units': word(
    'the last hashes of { $n } { $n ->\n  [one] unit\n *[other] units\n}, in the order above, each followed by a line feed',
    'What a hash covers.',
    { n: 9 },
  ),
  'doc-total-units': word('{ $n } { $n ->\n  [one] unit\n *[other] units\n}', COUNTS, { n: 9 }),
  'doc-total-snags': word('{ $n } { $n ->\n  [one] snag\n *[other] snags\n}, { $open } open', COUNTS, {
    n: 3,
    open: 0,
  }),
  'doc-total-later': word('{ $n } { $n ->\n  [one] snag\n *[other] snags\n} after release', COUNTS, { n: 1 }),

  'doc-sheet-title': word(
    'Particulars for the declaration, { $unit }, job { $job }',
    'Title of a document.',
    {
      unit,
      job,
    },
  ),
  'doc-sheet-heading': word('Particulars for the declaration: window { $unit }', 'Title of a document.', {
    unit,
  }),
  'doc-sheet-subject': word(
    'Particulars under EN 14351-1 as filled in by the workshop',
    'Title of a document.',
  ),
  'doc-sheet-foot': word(
    '{ $workshop }: particulars for { $job }, { $unit }. This sheet does not decide conformity. { $seal }',
    'At the foot of every page.',
    { workshop: 'Quay Lane Windows', job, unit, seal: 'Seal K7Q2-9XHM' },
  ),
  'doc-sheet-full': word('All particulars are filled in', VERDICT),
  'doc-sheet-empty': word('{ $n } particulars are empty', VERDICT, { n: 4 }),
  'doc-sheet-says': word(
    '{ $stands }. This sheet prints what the workshop filled in; it does not decide conformity.',
    'Below the verdict: how the record of the unit stands.',
    { stands: 'Finished and released' },
  ),
  'doc-what-is-empty': word('What is empty', 'Heading.'),
  'doc-particulars': word('Particulars', 'Heading.'),
  'doc-classes': word('Declared levels and classes', 'Heading.'),
  'doc-record-closed': word('Record closed', 'Label of a row.'),
  'doc-seal-of-record': word('Seal of the record', 'Label of a row.'),
  'doc-state-of-record': word('State of the record', 'Label of a row.'),
  'doc-sheet-decides-nothing': word(
    'The program prints these particulars and decides nothing: whether this window is of the tested type, which marking and which declaration the law asks for, and what they must say, is for the maker to settle. That law is changing (Regulation (EU) 2024/3110; the rules for Great Britain): check it before you rely on this sheet.',
    'A deferral: it must lose nothing.',
  ),
  'doc-field-declarationNumber': word('Number of the declaration', FIELD),
  'doc-field-productType': word('Product type', FIELD),
  'doc-field-intendedUse': word('Intended use', FIELD),
  'doc-field-maker': word('Maker', FIELD),
  'doc-field-address': word('Registered address', FIELD),
  'doc-field-contact': word('Contact', FIELD),
  'doc-field-standard': word('Standard and its date', FIELD),
  'doc-field-system': word('System of assessment', FIELD),
  'doc-field-laboratory': word('Laboratory', FIELD),
  'doc-field-yearAffixed': word('Year in which the mark was first affixed (last two digits)', FIELD),
  'doc-class-wind': word('Resistance to wind load', CHARACTERISTIC),
  'doc-class-snow': word('Resistance to snow and permanent load', CHARACTERISTIC),
  'doc-class-water': word('Watertightness', CHARACTERISTIC),
  'doc-class-substances': word('Dangerous substances', CHARACTERISTIC),
  'doc-class-impact': word('Impact resistance', CHARACTERISTIC),
  'doc-class-safety': word('Load-bearing capacity of safety devices', CHARACTERISTIC),
  'doc-class-acoustic': word('Acoustic performance', CHARACTERISTIC),
  'doc-class-thermal': word('Thermal transmittance', CHARACTERISTIC),
  'doc-class-radiation': word('Radiation properties', CHARACTERISTIC),
  'doc-class-air': word('Air permeability', CHARACTERISTIC),

  'doc-label-job': word('job { $job }', LABEL, { job }),
  'doc-label-job-room': word('job { $job }, { $room }', LABEL, { job, room: 'kitchen' }),
  'doc-label-size': word('{ $size } overall', LABEL, { size: '1000 x 700 mm' }),
  'doc-label-scrapped': word('SCRAPPED: do not deliver', LABEL),
  'doc-label-instead': word('Made instead: { $unit }', LABEL, { unit: 'P02-1R1' }),
  'doc-label-invented': word('Invented profile set: demonstration only.', LABEL),
  'doc-label-title': word(
    'Label of { $unit }, job { $job }: { $sentence }; { $lift }; code { $code }',
    'A label, for whoever cannot see it.',
    { unit, job, sentence: 'One light: fixed light', lift: '12 kg: one person', code: 'K7Q2' },
  ),
  'doc-label-title-scrapped': word(
    'Label of { $unit }, job { $job }: SCRAPPED; code { $code }',
    'A label, for whoever cannot see it.',
    { unit, job, code: 'K7Q2' },
  ),
  'doc-label-lift': word('{ $mass }: { $who }', LABEL, { mass: '31 kg', who: 'TWO PEOPLE' }),
  'doc-lift-one': word('one person', 'Who may lift a unit, on its label.'),
  'doc-lift-one-or-two': word('one or two people', 'Who may lift a unit, on its label.'),
  'doc-lift-two': word('TWO PEOPLE', 'Who may lift a unit, on its label. Capitals are a warning.'),
  'doc-lift-aid': word('LIFTING AID', 'Who may lift a unit, on its label. Capitals are a warning.'),
  'doc-left-bars': word('Code 128 (the label is too narrow for this code; the QR code holds the same)', LEFT),
  'doc-left-sketch': word('the sketch', LEFT),
  'doc-left-text': word('"{ $text }"', LEFT, { text: 'Quay Lane Windows' }),
  'doc-label-ends': word('ends { $a }° and { $b }°; profile { $profile }', LABEL, {
    a: '45',
    b: '45',
    profile: 'F-60',
  }),
  'doc-label-piece': word('piece { $n } of { $of }', LABEL, { n: 1, of: 2 }),
  'doc-label-marks': word('marks from { $datum }: { $marks }', LABEL, {
    datum: 'left end',
    marks: 'drain-inner 112, 497',
  }),
  'doc-label-part': word('{ $unit } { $part }', LABEL, { unit, part: 'sill' }),
  'doc-label-part-title': word(
    'Label of part { $part } of { $unit }, job { $job }: { $title }, { $length } mm; code { $code }',
    'A label, for whoever cannot see it.',
    { part: 'sill', unit, job, title: 'P02-1 sill', length: '1000', code: 'K7Q2' },
  ),
  'doc-labels': word('{ $n } labels', 'Title of a sheet of labels.', { n: 9 }),
} as const;
