/** What a unit's record says first: verdict, what is missing, what one must know; the window; the seal. */
import { word } from '../../../base/words.js';

const TITLE = 'Title of a document.';
const VERDICT = 'The verdict, in large letters. Capitals are a warning.';
const COUNTS = 'In the line of counts below the verdict, between semicolons.';
const MISSING = 'In the list of what is missing.';
const REMARK = 'In the list of what a reader must know.';
const FRONT = 'Label of a row on the front page.';
const SEAL = 'In the table of the seal.';
const unit = 'P02-1';
const job = 'pier-house';

export const PAGE_WORDS = {
  'doc-title': word('Quality record { $unit }, job { $job }', TITLE, { unit, job }),
  'doc-heading': word('Quality record of window { $unit }', TITLE, { unit }),
  'doc-heading-product': word('Quality record: { $product } { $unit }', TITLE, {
    product: 'fly screen',
    unit,
  }),
  'doc-job': word('job { $job }', 'Below the title, and in the title of a job’s record.', { job }),
  'doc-how-to-read': word(
    'How to read this: left and right are as seen from outside; lengths are in millimetres, times { $clock }. Every check shows what was read, the limit it was held against and where that limit comes from. "NOT PROVEN" means that the instrument used could not settle it. Nothing was erased: what was put right is listed with its old value.',
    'Below the front page. The verdict in quotation marks must be that of the tables.',
    { clock: 'by the clock of Europe/Berlin (UTC+01:00)' },
  ),
  'doc-clock-zone': word('by the clock of { $zone }', 'How times are told.', {
    zone: 'Europe/Berlin (UTC+01:00)',
  }),
  'doc-clock-utc': word('in UTC', 'How times are told.'),
  'doc-foot': word(
    '{ $workshop }: { $job }, { $unit }. { $state }. { $seal }',
    'At the foot of every page.',
    {
      workshop: 'Quay Lane Windows',
      job,
      unit,
      state: 'Finished',
      seal: 'Seal K7Q2-9XHM',
    },
  ),
  'doc-foot-finished': word('Finished', 'At the foot of every page.'),
  'doc-foot-open': word('NOT FINISHED', 'At the foot of every page.'),
  'doc-foot-seal': word('Seal { $code }', 'At the foot of every page: of a closed record.', {
    code: 'K7Q2-9XHM',
  }),
  'doc-foot-state': word('State { $code }', 'At the foot of every page: of a record that is not closed.', {
    code: 'K7Q2-9XHM',
  }),
  'doc-none': word('none', 'In the place of a code, a hash or a time that is not there.'),

  'doc-scrapped': word(
    'SCRAPPED: not to be delivered. { $done } of { $of } { $of ->\n  [one] step\n *[other] steps\n} done',
    VERDICT,
    { done: 71, of: 73 },
  ),
  'doc-released': word('Finished and released', VERDICT),
  'doc-released-conceded': word(
    'Finished and released, with { $n } { $n ->\n  [one] concession\n *[other] concessions\n}',
    VERDICT,
    { n: 2 },
  ),
  'doc-refused': word('NOT FINISHED: refused at the order check', VERDICT),
  'doc-not-begun': word(
    'NOT FINISHED: not begun, { $done } of { $of } { $of ->\n  [one] step\n *[other] steps\n} done',
    VERDICT,
    { done: 0, of: 73 },
  ),
  'doc-not-finished': word(
    'NOT FINISHED: { $done } of { $of } { $of ->\n  [one] step\n *[other] steps\n} done',
    VERDICT,
    { done: 12, of: 73 },
  ),
  'doc-not-finished-also': word('{ $verdict }; { $also }', VERDICT, {
    verdict: 'NOT FINISHED: 12 of 73 steps done',
    also: '1 check failed',
  }),
  'doc-also-failed': word('{ $n } { $n ->\n  [one] check\n *[other] checks\n} failed', VERDICT, { n: 1 }),
  'doc-also-snags': word('{ $n } { $n ->\n  [one] snag\n *[other] snags\n} open', VERDICT, { n: 1 }),
  'doc-also-aside': word('put aside', VERDICT),
  'doc-since-scrapped': word('{ $verdict }; since then SCRAPPED', VERDICT, {
    verdict: 'Finished and released',
  }),
  'doc-since-open': word('{ $verdict }; since then NOT SETTLED', VERDICT, {
    verdict: 'Finished and released',
  }),

  'doc-count-steps': word('{ $done } of { $of } { $of ->\n  [one] step\n *[other] steps\n} done', COUNTS, {
    done: 73,
    of: 73,
  }),
  'doc-count-passed': word(
    '{ $passed } of { $of } { $of ->\n  [one] check\n *[other] checks\n} passed',
    COUNTS,
    { passed: 83, of: 84 },
  ),
  'doc-count-failed': word('{ $n } failed', COUNTS, { n: 1 }),
  'doc-count-not-proven': word('{ $n } not proven', COUNTS, { n: 1 }),
  'doc-count-conceded': word('{ $n } conceded', COUNTS, { n: 1 }),
  'doc-count-holds': word(
    '{ $released } of { $of } { $of ->\n  [one] hold\n *[other] holds\n} released',
    COUNTS,
    { released: 7, of: 7 },
  ),
  'doc-count-no-snags': word('no snags', COUNTS),
  'doc-count-snags-open': word('{ $n } { $n ->\n  [one] snag\n *[other] snags\n}, { $open } open', COUNTS, {
    n: 3,
    open: 1,
  }),
  'doc-count-snags-closed': word('{ $n } { $n ->\n  [one] snag\n *[other] snags\n}, all closed', COUNTS, {
    n: 2,
  }),
  'doc-count-no-corrections': word('nothing corrected', COUNTS),
  'doc-count-corrections': word('{ $n } { $n ->\n  [one] correction\n *[other] corrections\n}', COUNTS, {
    n: 2,
  }),
  'doc-count-again': word(
    '{ $n } { $n ->\n  [one] check\n *[other] checks\n} answered more than once',
    COUNTS,
    { n: 2 },
  ),
  'doc-count-none-back': word('no answer taken back', COUNTS),
  'doc-count-back': word('{ $n } { $n ->\n  [one] answer\n *[other] answers\n} taken back', COUNTS, { n: 2 }),
  'doc-count-reworks': word('{ $n } { $n ->\n  [one] rework\n *[other] reworks\n}', COUNTS, { n: 2 }),

  'doc-missing': word('What is missing', 'Heading.'),
  'doc-nothing-missing-then': word('Nothing was missing when it was closed.', 'In the place of that list.'),
  'doc-nothing-missing': word('Nothing is missing.', 'In the place of that list.'),
  'doc-missing-setout': word(
    'The set-out that this unit was built from cannot be read: sizes and drawing are not shown.',
    MISSING,
  ),
  'doc-missing-order': word('Refused at the order check: { $why }', MISSING, {
    why: 'the sash is wider than the stays take.',
  }),
  'doc-missing-failed': word('Failed and not settled: { $check } ({ $says }).', MISSING, {
    check: 'Widest mitre gap',
    says: '0.35 mm',
  }),
  'doc-missing-not-proven': word('Not proven and not settled: { $check } ({ $says }).', MISSING, {
    check: 'Widest mitre gap',
    says: '0.35 mm',
  }),
  'doc-missing-evidence': word('No picture or file was kept for: { $check }.', MISSING, {
    check: 'Widest mitre gap',
  }),
  'doc-missing-snag': word('Snag { $n } is open, not decided: { $text }', MISSING, {
    n: 41,
    text: 'a corner is open.',
  }),
  'doc-missing-snag-decided': word('Snag { $n } is open (decided: { $disposition }): { $text }', MISSING, {
    n: 41,
    disposition: 'rework',
    text: 'a corner is open.',
  }),
  'doc-missing-aside': word('The unit is put aside.', MISSING),
  'doc-missing-end': word('The record is not closed: nobody has finished the unit.', MISSING),
  'doc-missing-hold': word('Hold not released: { $title }.', MISSING, { title: 'Frame square before cure' }),
  'doc-missing-holds': word('{ $n } holds not released: { $titles }.', MISSING, {
    n: 2,
    titles: 'Frame square before cure; Final inspection',
  }),
  'doc-times': word('{ $title } ({ $n } times)', 'A title that stands several times in a list.', {
    title: 'Sash square before cure',
    n: 2,
  }),
  'doc-missing-again': word('{ $stage }, to be done again: { $step }', MISSING, {
    stage: 'Frame',
    step: 'Seal the corners.',
  }),
  'doc-missing-again-why': word('{ $stage }, to be done again: { $step } ({ $why }).', MISSING, {
    stage: 'Frame',
    step: 'Seal the corners',
    why: 'Saw the frame was made again',
  }),
  'doc-missing-stage': word(
    '{ $stage }: not begun ({ $n } { $n ->\n  [one] step\n *[other] steps\n}).',
    MISSING,
    { stage: 'Glazing', n: 5 },
  ),
  'doc-missing-steps': word(
    '{ $stage }: { $n } of { $of } { $of ->\n  [one] step\n *[other] steps\n} not done ({ $steps }).',
    MISSING,
    { stage: 'Glazing', n: 2, of: 5, steps: 'Set the packers and Glaze' },
  ),
  'doc-more': word('{ $n } more', 'Last item of a list that is cut.', { n: 3 }),

  'doc-remark-invented': word(
    'The profile set is invented for demonstration: this is not the record of a real window.',
    REMARK,
  ),
  'doc-remark-invented-product': word(
    'The profile set is invented for demonstration: this is not the record of a real product.',
    REMARK,
  ),
  'doc-remark-not-proven': word(
    '{ $n } { $n ->\n  [one] check\n *[other] checks\n} could not be proven with the instrument used (marked NOT PROVEN).',
    REMARK,
    { n: 2 },
  ),
  'doc-remark-overrides': word(
    '{ $n } { $n ->\n  [one] problem\n *[other] problems\n} of the order check let pass by a named person (see Overrides).',
    REMARK,
    { n: 2 },
  ),
  'doc-remark-overdue': word(
    "{ $n } { $n ->\n  [one] check\n *[other] checks\n} made with an instrument past its calibration date, on a named person's word.",
    REMARK,
    { n: 2 },
  ),
  'doc-remark-fast': word(
    '{ $n } { $n ->\n  [one] check\n *[other] checks\n} answered faster than the work can be done (marked "fast").',
    REMARK,
    { n: 2 },
  ),
  'doc-remark-haste': word(
    '{ $name }: { $n } of { $of } { $of ->\n  [one] look\n *[other] looks\n} ({ $share } %) answered sooner than the questions can be read.',
    REMARK,
    { name: 'Jana Brook (JB)', n: 3, of: 40, share: 8 },
  ),
  'doc-remark-haste-beside': word(
    '{ $name }: { $n } of { $of } { $of ->\n  [one] look\n *[other] looks\n} ({ $share } %) answered sooner than the questions can be read; measured answers took { $seconds } s in the median.',
    REMARK,
    { name: 'Jana Brook (JB)', n: 3, of: 40, share: 8, seconds: '9.4' },
  ),
  'doc-remark-solo': word(
    '{ $n } { $n ->\n  [one] hold\n *[other] holds\n} released by the person who did the work, under the one-person rule.',
    REMARK,
    { n: 2 },
  ),
  'doc-remark-clock': word("The bench's clock jumped while this unit was built (see Notes).", REMARK),
  'doc-remark-initials': word(
    "People's names are replaced by their initials in this document; the journal is unchanged and holds who they are.",
    REMARK,
  ),
  'doc-remark-partly': word(
    'This unit was begun by a version that did not keep all that its verdicts rest on: where the journal holds no more, names, instruments, set-ups and the maker are shown as they are listed on { $day }, the day of printing, not as on the day of the work.',
    REMARK,
    { day: '2026-03-09' },
  ),
  'doc-remark-levels': word(
    'From line { $n } on, other levels counted for { $name }: { $is }; before, { $was } (see People).',
    REMARK,
    { n: 41, name: 'Jana Brook (JB)', is: 'frame 4', was: 'frame 3' },
  ),
  'doc-remark-setout': word(
    'The set-out worked out by this version of the program is not the one that was frozen when the unit was begun.',
    REMARK,
  ),
  'doc-level-not-given': word('{ $stage } not given', 'A stage for which somebody has no level, in a list.', {
    stage: 'frame',
  }),

  'doc-window': word('The window', 'Heading of the facts on the front page.'),
  'doc-unit': word('Unit', FRONT),
  'doc-order': word('Order', FRONT),
  'doc-revision': word('revision { $revision }', 'Of an order.', { revision: 'B' }),
  'doc-job-label': word('Job', FRONT),
  'doc-room': word('Where it goes', FRONT),
  'doc-frame': word('Frame, overall', FRONT),
  'doc-window-label': word('Window', FRONT),
  'doc-product': word('What it is', 'Heading of the facts on the front page of what is no window.'),
  'doc-product-label': word('What it is', FRONT),
  'doc-glass': word('Glass', FRONT),
  'doc-glass-of': word('{ $light }: { $glass }', 'Glass or sash of one of several lights.', {
    light: 'L1',
    glass: '4-16-4',
  }),
  'doc-glass-size': word('{ $size }, { $thickness } mm thick, { $mass }', 'A pane.', {
    size: '840 x 560 mm',
    thickness: '24',
    mass: '9.4 kg',
  }),
  'doc-sash': word('Sash', FRONT),
  'doc-mass': word('Mass', FRONT),
  'doc-lift': word('To lift it', FRONT),
  'doc-colour': word('Colour', FRONT),
  'doc-outside': word('outside { $colour }', 'Colour of a window.', { colour: 'RAL 7016' }),
  'doc-inside': word('inside { $colour }', 'Colour of a window.', { colour: 'RAL 9010' }),
  'doc-must-be': word('Must be', FRONT),
  'doc-need-escape': word('escape window', 'What a window must be.'),
  'doc-need-restrictor': word('opening restrictor', 'What a window must have.'),
  'doc-need-safety': word('safety glass', 'What a window must have.'),
  'doc-profile-set': word('Profile set', FRONT),
  'doc-invented': word('{ $set } (invented)', 'A profile set.', { set: 'W52' }),
  'doc-procedure': word('Built by procedure', FRONT),
  'doc-version': word('{ $title }, version { $version }', 'A procedure.', {
    title: 'Casement',
    version: '3.1',
  }),
  'doc-replaces': word('Replaces', FRONT),
  'doc-replaced-by': word('Replaced by', FRONT),
  'doc-note-on-order': word('Note on the order', FRONT),
  'doc-record': word('Record', FRONT),
  'doc-closed-at': word('closed { $time }', 'Of a record.', { time: '2026-03-09 16:00:00' }),
  'doc-open-last': word('open; last entry { $time }', 'Of a record.', { time: '2026-03-09 16:00:00' }),
  'doc-seal-code': word('seal { $code }', 'Of a closed record.', { code: 'K7Q2-9XHM' }),
  'doc-state-code': word('state { $code }', 'Of a record that is not closed.', { code: 'K7Q2-9XHM' }),
  'doc-words': word('in { $language }, words { $hash }', 'By which words a document is told.', {
    language: 'English',
    hash: '3f2a91c4',
  }),
  'doc-language': word('English', 'Name of the language itself, in the language itself.'),
  'doc-printed': word('printed { $time }', 'Of a document.', { time: '2026-03-09 16:00:00 UTC' }),
  'doc-one-light': word('One light: { $sentence }', 'What a window is.', {
    sentence: 'hinged left, seen from outside, opens out',
  }),
  'doc-product-lights': word('{ $product }: { $sentences }', 'What something is that is no window.', {
    product: 'fly screen',
    sentences: 'mesh panel',
  }),
  'doc-lights': word('{ $n } lights: { $sentences }', 'What a window is.', {
    n: 2,
    sentences: 'L1 fixed light; L2 hinged left, seen from outside, opens out',
  }),
  'doc-seen': word('Seen from outside', 'Title of the drawing.'),
  'doc-seen-hinge': word(
    'Seen from outside; slanting lines meet at the hinge, broken where it opens inwards',
    'Title of the drawing. Two customs: this says which one is meant.',
  ),
  'doc-seen-handle': word(
    'Seen from outside; slanting lines meet at the handle, broken where it opens inwards',
    'Title of the drawing. Two customs: this says which one is meant.',
  ),
  'doc-drawing-product': word(
    '{ $unit } seen from outside, { $size }. { $sentence }',
    'The drawing, for whoever cannot see it.',
    { unit, size: '1000 x 700 mm', sentence: 'fly screen: mesh panel' },
  ),
  'doc-drawing': word(
    'Window { $unit } seen from outside, { $size }. { $sentence }',
    'The drawing, for whoever cannot see it.',
    {
      unit,
      size: '1000 x 700 mm',
      sentence: 'One light: fixed light',
    },
  ),
  'doc-as-measured': word('As measured', 'Heading.'),
  'doc-measured-alt': word('{ $title }, as measured: { $facts }', 'A drawing, for whoever cannot see it.', {
    title: 'Square the frame',
    facts: 'top 1000 mm',
  }),
  'doc-nominal': word('Nominal { $size }', 'Below a drawing.', { size: '1000 x 700 mm' }),
  'doc-pair': word('{ $one } { $a } mm, { $other } { $b } mm, difference { $apart } mm', 'Below a drawing.', {
    one: 'top',
    a: '1000',
    other: 'bottom',
    b: '1000.5',
    apart: '0.5',
  }),
  'doc-pair-nominal': word(
    '{ $one } { $a } mm, { $other } { $b } mm (nominal { $nominal }), difference { $apart } mm',
    'Below a drawing.',
    { one: 'top', a: '1000', other: 'bottom', b: '1000.5', nominal: '1000', apart: '0.5' },
  ),

  'doc-coarse': word('Passes that say little', 'Heading: the instrument was too coarse for the limit.'),
  'doc-coarse-link': word(
    '{ $n } { $n ->\n  [one] check\n *[other] checks\n} passed with an instrument too coarse for the limit: see "{ $heading }".',
    'On the first page.',
    { n: 2, heading: 'Passes that say little' },
  ),

  'doc-seal': word('Seal', 'Heading, and label of a row.'),
  'doc-state': word('State (not sealed)', 'Heading.'),
  'doc-state-of-journal': word('State of the journal', SEAL),
  'doc-short-code': word('Short code', SEAL),
  'doc-last-hash': word('Hash of the last line', SEAL),
  'doc-journal': word('Journal', SEAL),
  'doc-journal-lines': word('{ $file }, { $n } { $n ->\n  [one] line\n *[other] lines\n}', SEAL, {
    file: 'logs/pier-house/P02-1.jsonl',
    n: 90,
  }),
  'doc-journal-lines-last': word(
    '{ $file }, { $n } { $n ->\n  [one] line\n *[other] lines\n}, last { $time }',
    SEAL,
    { file: 'logs/pier-house/P02-1.jsonl', n: 90, time: '2026-03-09 16:00:00' },
  ),
  'doc-signed-by': word('Signed by', SEAL),
  'doc-key': word('key { $key }', SEAL, { key: '3f2a' }),
  'doc-over-hash': word('over hash { $hash }', SEAL, { hash: '9c1d' }),
  'doc-signature': word('Signature', SEAL),
  'doc-when-closed': word('When closed', SEAL),
  'doc-unsigned': word('none: the bench had no key when the unit was finished', SEAL),
  'doc-unsigned-by': word(
    'none: { $name } closed the unit without, as the bench could not sign ({ $why })',
    SEAL,
    { name: 'Orla Tench (OT)', why: 'the key could not be read' },
  ),
  'doc-released-early': word('Released early', SEAL),
  'doc-unseen-evidence': word("the shop's server did not have all of the evidence yet", SEAL),
  'doc-unseen-lines': word(
    "the shop's server did not have { $n } { $n ->\n  [one] line\n *[other] lines\n} of it yet",
    SEAL,
    { n: 2 },
  ),
  'doc-seal-says': word(
    'Every line of the journal holds the SHA-256 hash of the line before it, so a later change anywhere changes this hash. The journal is plain text; logs/README.md in the workshop folder tells how to check it without this program.',
    'Below the seal.',
  ),
  'doc-state-says': word(
    'Every line of the journal holds the SHA-256 hash of the line before it, so a later change anywhere changes this hash. The journal is plain text; logs/README.md in the workshop folder tells how to check it without this program. The unit is not finished, so this hash shows how far the journal had come, no more.',
    'Below the hash of a record that is not closed.',
  ),
  'doc-registers': word('Registers', 'Heading.'),
  'doc-registers-then': word('How far the registers had come', 'Title of a table.'),
  'doc-register-entry': word('entry { $n }', 'Of a register.', { n: 12 }),
  'doc-first-key': word('Fingerprint of the first key', 'In the table of registers.'),
  'doc-registers-say': word(
    'Each bench enters how far every journal has come. A workshop whose registers do not have these entries is another, or an older copy, than the one that made this document. The fingerprint is the one that the workshop has on paper.',
    'Below the registers.',
  ),
} as const;
