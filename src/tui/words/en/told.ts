/** What is told where a key or an entry did nothing, and after what was done. */
import { word } from '../../../base/words.js';

export const TOLD_WORDS = {
  'language-one': word('This procedure is in one language only.', 'There is no other language to turn to.'),
  'language-add': word('procedures/README.md says how to add another one.', 'Way out of that.'),
  'language-now': word(
    'The steps are in { $language }.',
    'After the language was changed; its name in that language.',
    { language: 'Deutsch' },
  ),
  'no-unit-open': word('No unit is open.', 'Refusal.'),
  'choose-unit': word('Choose or scan a unit.', 'Way out of that.'),
  'here-nothing': word('Nothing is asked here now.', 'Told where a key or what was typed did nothing.'),
  'here-other-units': word('F2 shows the other units.', 'Way out of that.'),
  'here-held': word('This step is held.', 'Told where a key or what was typed did nothing.'),
  'here-held-key': word('F8 shows the hold; only that key releases it.', 'Way out of that.'),
  'here-waits': word('This step waits.', 'Told where a key or what was typed did nothing.'),
  'here-open-steps': word('F3 shows the steps that are open.', 'Way out of that.'),
  'asked-anew': word('Asked anew.', 'What another unit was asked is asked here again.'),
  'asked-anew-stands': word('What is answered here stands from now on.', 'Follows that.'),
  'tick-only': word(
    'Left arrow means no, and this check can only be ticked.',
    'Told where a key or what was typed did nothing.',
  ),
  'tick-snag': word('Not as it should be? F6 raises a snag.', 'Way out of that.'),
  'set-judged': word('These readings are judged already.', 'Told where a key or what was typed did nothing.'),
  'set-again': word('Mark one and type it again, or Home begins the set anew.', 'Way out of that.'),
  'arrows-no-answer': word(
    'The arrows do not answer this check.',
    'Told where a key or what was typed did nothing.',
  ),
  'in-hand': word('In hand: { $id }, { $title }.', 'An instrument was taken up.', {
    id: 'R2',
    title: 'long rule 3 m',
  }),
  'on-line-again': word(
    '"{ $text }" stands on the line again: Enter logs it.',
    'What was typed before the instrument was taken up.',
    { text: '818' },
  ),
  'set-which': word(
    'All readings of this set are in: which one is it?',
    'Told where a key or what was typed did nothing.',
  ),
  'set-mark': word('Mark it with Up and Down, then Enter; Home begins the set anew.', 'Way out of that.'),
  'not-logged-no-check': word(
    '"{ $text }" was not logged: no check is asked here now.',
    'Told where a key or what was typed did nothing.',
    { text: '818' },
  ),
  'f3-steps': word('F3 shows the steps.', 'Way out of that.'),
  'not-logged-number': word(
    '"{ $text }" reads like a measurement; it was not logged.',
    'Told where a key or what was typed did nothing.',
    { text: '818' },
  ),
  'not-logged-unknown': word(
    '"{ $text }" is nothing this workshop knows; it was not logged.',
    'Told where a key or what was typed did nothing.',
    { text: 'AB12' },
  ),
  'nobody-here': word(
    'Nobody is at the bench, so nothing was logged.',
    'Told where a key or what was typed did nothing.',
  ),
  'nobody-way': word('Scan or choose a person (F4), then answer again.', 'Way out of that.'),
  'nobody-yet': word(
    'Who signs? Scan or type your code, or F4.',
    'At the foot of a step while nobody is at the bench.',
  ),
  'look-not-write': word('You may look, not write: { $why }', 'The unit is read-only, with the reason.', {
    why: 'bench-2 has P02-1.',
  }),
  'open-again': word('Open it again here (F2).', 'Way out of that.'),
  'close-there': word('Close it there, then open it here again (F2).', 'Way out of that.'),
  'close-or-take': word(
    'Close it there, then open it here again (F2). If nobody has it there, F9 takes it over.',
    'Way out of that.',
  ),
  'finish-first': word(
    'Finish this first, or leave it with Esc: nothing is written by leaving.',
    'Told where a key or what was typed did nothing.',
  ),
  'none-measured': word(
    'No set of sides and diagonals was measured on this unit yet.',
    'Told where a key or what was typed did nothing.',
  ),
  'rework-which': word(
    'Choose the step to be made again.',
    'Told where a key or what was typed did nothing.',
  ),
  'rework-mark': word('F3 shows the steps; mark one with the arrows, then F7.', 'Way out of that.'),
  'rework-not-begun': word(
    '"{ $step }" has not been begun: there is nothing to make again.',
    'Told where a key or what was typed did nothing.',
    { step: 'Cut the frame members' },
  ),
  'rework-mark-done': word('F3 shows the steps; mark one that was done, then F7.', 'Way out of that.'),
  'no-set': word('No set of readings is begun here.', 'Told where a key or what was typed did nothing.'),
  'line-not-empty': word('The entry line is not empty.', 'Told where a key or what was typed did nothing.'),
  'line-empty-it': word('Enter acts on it, Esc empties it; then the arrows answer.', 'Way out of that.'),
  'enter-nothing': word(
    'Enter chose nothing: the arrows have marked nothing yet.',
    'Told where a key or what was typed did nothing.',
  ),
  'enter-mark': word('Up and Down mark, Enter then takes it; or type what it is.', 'Way out of that.'),
  'pin-first': word('Your PIN first, then F8.', 'Told where a key or what was typed did nothing.'),
  'no-hold': word('No hold waits to be released here.', 'Told where a key or what was typed did nothing.'),
  'too-soon': word('Too soon after the last.', 'Told where a key or what was typed did nothing.'),
  'press-again': word(
    'The second press came too soon after it and was not taken: press again.',
    'Way out of that.',
  ),
  idle: word(
    `{ $n ->
  [one] No key for a minute: nobody is at the bench now.
 *[other] No key for { $n } minutes: nobody is at the bench now.
}`,
    'Told where a key or what was typed did nothing.',
    { n: 10 },
  ),
  'choose-person': word('Scan or choose a person.', 'Way out of that.'),
  'too-long': word(
    'That was too long to be one scan; nothing was taken.',
    'Told where a key or what was typed did nothing.',
  ),
  'scan-again': word('Scan or type it again.', 'Way out of that.'),
  'here-already': word(
    '{ $unit } is on the bench already.',
    'Told where a key or what was typed did nothing.',
    { unit: 'P02-1' },
  ),
  'wrong-sign': word(
    '"{ $text }" is a label\'s code with a sign read or typed wrongly.',
    'Told where a key or what was typed did nothing.',
    { text: 'PR-17X' },
  ),
  'scan-label': word('Scan the label again.', 'Way out of that.'),
  'second-is-other': word(
    "{ $name } is at the bench already; a second name is somebody else's.",
    'Told where a key or what was typed did nothing.',
    { name: 'Mira Volkov' },
  ),
  'asks-nothing': word(
    '"{ $text }" was not logged: this screen asks for nothing.',
    'Told where a key or what was typed did nothing.',
    { text: '818' },
  ),
  'esc-to-step': word('Esc goes back to the step.', 'Way out of that.'),
  'not-in-list': word('"{ $text }" is not in this list.', 'Told where a key or what was typed did nothing.', {
    text: 'X9',
  }),
  'choose-or-scan': word('Choose with Up, Down and Enter, or scan again.', 'Way out of that.'),
  'person-here': word('{ $name } is at the bench.', 'Told after what was done.', { name: 'Joan Bexley' }),
  'person-again': word('{ $name } is at the bench again.', 'Told after what was done.', {
    name: 'Joan Bexley',
  }),
  'second-back': word('take back the second name, { $name }', 'Answer in the list of people.', {
    name: 'Mira Volkov',
  }),
  'second-gone': word('The second name is taken back.', 'Told after what was done.'),
  'found-no-unit': word('No unit for "{ $text }".', 'Nothing in the list has it.', { text: 'Q9' }),
  'found-no-step': word('No step for "{ $text }".', 'Nothing in the list has it.', { text: 'Q9' }),
  'found-units': word('{ $n } units for "{ $text }".', 'Several in the list have it.', { n: 8, text: 'P0' }),
  'found-steps': word('{ $n } steps for "{ $text }".', 'Several in the list have it.', { n: 8, text: 'cut' }),
  'type-more': word('Type more of it, or choose with Up, Down and Enter.', 'Way out of that.'),
  'not-logged': word('Not logged.', 'Told after what was done.'),
  'another-picture': word('Take another picture.', 'Way out of that.'),
  'measure-again': word('Measure again.', 'Way out of that.'),
  'not-taken': word('"{ $text }" was not taken.', 'Told where a key or what was typed did nothing.', {
    text: '818',
  }),
  'left-measure': word('Left arrow, then measure again.', 'Way out of that.'),
  'no-reading': word('"{ $text }" is no reading.', 'Told where a key or what was typed did nothing.', {
    text: 'abc',
  }),
  'which-reading': word('Which reading is it?', 'Told where a key or what was typed did nothing.'),
  'type-number': word('Type the number again.', 'Way out of that.'),
  'asking-shop': word('Asking the shop for { $unit } …', 'While another bench is asked for a unit.', {
    unit: 'P02-1',
  }),
  yours: word('{ $unit } is yours to write now.', 'Told after what was done.', { unit: 'P02-1' }),
  'files-edition': word(
    "The shop's files are edition { $n } now, by { $by }: { $reason }",
    'Told after what was done.',
    { n: 3, by: 'ot', reason: 'R2 is bent' },
  ),
  'tool-gone': word('{ $id } is no instrument of the workshop any more: take another.', 'Way out of that.', {
    id: 'R2',
  }),
  'done-nothing': word('Nothing had to be written.', 'Told after what was done.'),
  'done-unit': word(
    'Every step is done: this unit is finished and its record is closed.',
    'Told after what was done.',
  ),
  'done-fast': word('(answered very fast; the record says so)', 'After a verdict.'),
  'done-look': word(
    `{ $n ->
  [2] both are right
 *[other] all { $n } are right
}`,
    'After a verdict on several questions at once.',
    { n: 3 },
  ),
  'done-read': word('logged: { $reading }', 'A reading was logged.', { reading: 'top 1000.0' }),
  'done-read-with': word('logged: { $reading } with { $tool }', 'A reading was logged.', {
    reading: 'top 1000.0',
    tool: 'R2',
  }),
  'done-anew': word('The set is read anew, from the first reading.', 'Told after what was done.'),
  'done-undone': word('Entry { $n } taken back: { $reason }', 'Told after what was done.', {
    n: 12,
    reason: 'typed wrongly',
  }),
  'done-again': word(
    `{ $n ->
  [0] To be made again.
  [one] To be made again; 1 step re-opened.
 *[other] To be made again; { $n } steps re-opened.
}`,
    'Told after what was done.',
    { n: 3 },
  ),
  'done-released': word('Hold released by { $name }.', 'Told after what was done.', { name: 'Mira Volkov' }),
  'done-release-counts': word(
    'The release of { $unit } by { $name } counts here, too.',
    'Told after what was done.',
    { unit: 'P02-1', name: 'Mira Volkov' },
  ),
  'done-snag': word('Snag #{ $n } raised.', 'Told after what was done.', { n: 12 }),
  'done-parked': word('Parked.', 'Told after what was done.'),
  'done-parked-way': word('F2 shows the other units; ^B takes this one up again.', 'Way out of that.'),
  'done-readings': word('{ $n } readings', 'In place of the figures of a set.', { n: 6 }),
  'done-until': word('{ $lot }, until { $date }', 'A lot with its date.', {
    lot: 'AB12',
    date: '2027-03-31',
  }),
  'unseen-short': word(
    'Diagonals do not show bow, twist or a lifted corner: checks of their own do.',
    'After a verdict on diagonals.',
  ),
  'left-says': word(
    'Left says that this one is not right; Right takes all as good.',
    'Told at a list that one look answers.',
  ),
  'take-again': word('{ $what }: take it again.', 'A reading of a set was chosen.', { what: 'top 1000.0' }),
  'new-reading': word('Type or send the new reading, then Enter.', 'Way out of that.'),
  'check-again': word('Check it again.', 'A failed check is to be answered again.'),
  'then-answer': word('Then answer again.', 'Way out of that.'),
  'took-over': word(
    'Who had it, and why it was taken over, is in its journal.',
    'After a unit was taken over.',
  ),
  'step-waits': word('"{ $step }" waits.', 'Refusal.', { step: 'Seal the sash' }),
  'step-before': word('Something before it is not done.', 'Way out of that.'),
  'step-is-done': word('"{ $step }" is done.', 'Refusal.', { step: 'Seal the sash' }),
  'step-make-again': word('F7 makes it again, and shows first what that re-opens.', 'Way out of that.'),
  'walk-over': word('"{ $step }" has been taken over all its units.', 'One step was done on many units.', {
    step: 'Square the frame',
  }),
  'done-resumed': word('Taken up again.', 'Told after what was done.'),
  'done-noted': word('The note is in the journal.', 'Told after what was done.'),
  'done-closed': word('Snag #{ $n } is closed.', 'Told after what was done.', { n: 16 }),
  'done-decided': word('Snag #{ $n }: { $disposition }.', 'Told after what was done.', {
    n: 16,
    disposition: 'rework',
  }),
  'not-saved': word('Not saved: { $action }', 'What was typed, where the disk refused it.', {
    action: '1200',
  }),
  'right-again': word('Right arrow tries again.', 'Below the refusal of the disk.'),
  'typed-waits': word(
    '{ $refusal } { $typed } waits.',
    'What was typed is kept until an instrument is taken.',
    { refusal: '"Gap" asks for gap, mm.', typed: '0.3' },
  ),
  logged: word('Logged: { $action }', 'What was written, where there is nothing else to say.', {
    action: 'the hold released',
  }),
  'action-first-off': word('the first-off of { $setup }', 'After "Not saved:".', { setup: 'saw' }),
  'action-end-setup': word('{ $setup }: to be proven again', 'After "Not saved:".', { setup: 'saw' }),
  'action-readings': word('the readings', 'After "Not saved:".'),
  'action-all-right': word('all of them right', 'After "Not saved:".'),
  'action-one-not-right': word('one of them not right', 'After "Not saved:".'),
  'action-read': word('{ $place } { $value }', 'After "Not saved:".', { place: 'top', value: '1200' }),
  'action-undo': word('the last answer taken back', 'After "Not saved:".'),
  'action-release': word('the hold released', 'After "Not saved:".'),
  'action-decide': word('snag #{ $n }: { $disposition }', 'After "Not saved:".', {
    n: 2,
    disposition: 'rework',
  }),
  'action-close': word('snag #{ $n } closed', 'After "Not saved:".', { n: 2 }),
  'action-other': word('what was done', 'After "Not saved:".'),
  'measured-length': word(
    '{ $length }: { $label }  read { $raws }',
    'A length of a frame: its mean, and what was read.',
    { length: 'top', label: '1200', raws: '1200, 1201' },
  ),
  'measured-long': word(
    '{ $length }: { $label }, the long one  read { $raws }',
    'As above, of the longer diagonal.',
    { length: 'bottom left to top right', label: '1922', raws: '1922' },
  ),
  'picture-long': word('* the long diagonal, { $length }', 'Below the picture of a frame.', {
    length: 'bottom left to top right',
  }),
  'at-bench': word('at { $bench }:', 'In the list of units: another bench has it.', { bench: 'bench-2' }),
  'rows-more': word('{ $n } more', 'At the end of a list that goes on.', { n: 3 }),
  'more-below': word('… Down for more', 'Below a text that goes on.'),
  'seen-outside': word('seen from outside', 'Below the drawing of a window.'),
  'left-minutes': word('{ $minutes } min', 'How long until something runs out.', { minutes: '12' }),
  'left-hours': word('{ $hours } h { $minutes } min', 'How long until something runs out.', {
    hours: '2',
    minutes: '5',
  }),
  undrawable: word(
    'The bench cannot draw its screen. Nothing that was acknowledged is lost: ^X leaves.',
    'Instead of a screen.',
  ),
  'too-small': word(
    'The bench needs { $needs }; this is { $is }. Make the window larger.',
    'Instead of a screen.',
    { needs: '80 x 24', is: '60 x 20' },
  ),
  'compares-only': word('compares only', 'An instrument that measures nothing.'),
  'tool-line': word('{ $title }: { $measures }', 'An instrument in the list: what it measures.', {
    title: 'Tape 3 m',
    measures: 'length',
  }),
  'tool-line-due': word(
    '{ $title }: { $measures }, due { $due }',
    'An instrument in the list: what it measures, and when it is due for calibration.',
    { title: 'Tape 3 m', measures: 'length', due: '2027-03-31' },
  ),
  'next-unit-first': word(
    '"{ $typed }" was not logged: the next unit comes first.',
    'What was typed when another unit was opened.',
    { typed: '1200' },
  ),
  'hold-released': word('hold released', 'What was last done, in a form that takes it back.'),
  'several-codes': word(
    '"{ $code }" is the code of { $kinds }; nothing was taken.',
    'A code that two things have.',
    { code: 'P01', kinds: 'a unit; a person' },
  ),
  'several-type': word('Type it with its letter: { $codes }.', 'Below the one above.', {
    codes: 'U.P01, P.P01',
  }),
  'code-U': word('a unit', 'What a code is of.'),
  'code-P': word('a person', 'What a code is of.'),
  'code-I': word('an instrument', 'What a code is of.'),
  'code-L': word('a lot', 'What a code is of.'),
  'code-S': word('a set-up', 'What a code is of.'),
  'practice-head': word('PRACTICE  { $title }', 'At the top of a drill.', { title: 'squaring drill' }),
  'practice-over': word('It is over. Enter shows how it went.', 'At the foot of a drill.'),
  'practice-leaves': word('Esc again leaves the drill; any other key goes on.', 'At the foot of a drill.'),
  'asked-over': word('All is answered. Enter goes on.', 'At the foot, after the last question.'),
  'asked-leaves': word(
    'Esc again leaves, and nothing is written; any other key goes on.',
    'At the foot, under questions.',
  ),
  'practice-help': word('help and Enter: what you can type', 'At the foot of a drill.'),
  'practice-keys': word('PgUp PgDn  Esc leave', 'At the foot of a drill.'),
  'unexpected-end': word(
    'The bench met something it did not expect: { $fault } [bench.unexpected]\n  Nothing that was acknowledged is lost; start it again and it stands at the same check.',
    'After the bench ended.',
    { fault: 'x is not defined' },
  ),
} as const;
