/** What a step and a unit show while one works. */
import { word } from '../../../base/words.js';

export const STEP_WORDS = {
  'bench-no-unit': word('No unit is on the bench. Scan one, or F2.', 'A screen without a unit.'),
  'look-which': word('Which of them is not right?', 'Told where a key or what was typed did nothing.'),
  'look-mark': word('Down and Up mark it, then Left; Right takes all as good.', 'Way out of that.'),
  'typed-yes': word(
    'y yes done ok go',
    'Words that a person may type for yes, in small letters, parted by spaces. The English ones count in every language.',
  ),
  'typed-no': word('n no no-go nogo', 'Words that a person may type for no, as for yes.'),
  'wants-tick': word('Right arrow says it is done.', 'How a check is answered.'),
  'wants-go-no-go': word('Right arrow for yes, Left arrow for no.', 'How a check is answered.'),
  'wants-number': word('Type or send the reading, then Enter.', 'How a check is answered.'),
  'wants-square': word('Type or send the reading, then Enter.', 'How a check is answered.'),
  'wants-points': word('Type or send the reading, then Enter.', 'How a check is answered.'),
  'wants-count': word('Type the count, then Enter.', 'How a check is answered.'),
  'wants-choice': word('Up and Down choose, Enter takes it; or type its number.', 'How a check is answered.'),
  'wants-text': word('Type or scan it, then Enter.', 'How a check is answered.'),
  'wants-computed': word('The program works it out.', 'How a check is answered.'),
  'question-retry': word(
    'Right arrow: try again.   Left arrow: leave it unlogged.',
    'At a question: the disk failed.',
  ),
  'question-picture': word(
    'Right arrow: it is meant here too.   Left arrow: back, and take another.',
    'At a question about a picture.',
  ),
  'question-set': word(
    'Right arrow: it is so, log it.   Left arrow: back to the readings.   Or mark the one you doubt below, and type it again.   Home: all anew.',
    'At a question about several readings.',
  ),
  'question-one': word(
    'Right arrow: it is so, log it.   Left arrow: back.   Or type the new reading.',
    'At a question about one reading.',
  ),
  'step-with': word(
    'with { $tool } (± { $u })',
    'After a question: the instrument that the reading is booked to, and its uncertainty.',
    { tool: 'R2', u: '0.3 mm' },
  ),
  'step-with-steps': word(
    'with { $tool } (steps of { $u })',
    'After a question: a gauge that goes by steps.',
    { tool: 'F1', u: '0.05 mm' },
  ),
  'tool-not-this': word('{ $tool } in hand does not measure { $quantity }.', 'At a check.', {
    tool: 'R2',
    quantity: 'force',
  }),
  'tool-asked': word('Asks for an instrument: { $quantity }.', 'At a check.', { quantity: 'length' }),
  'tool-offered': word('Right takes up { $tool }, { $title }; or scan another.', 'Way out of that.', {
    tool: 'R2',
    title: 'long rule 3 m',
  }),
  'tool-scan': word('Scan one that does, or { $key }.', 'Way out of that.', { key: '^E' }),
  'picture-newest': word('Takes a picture: the newest is { $name }.', 'At a check.', { name: 'corner.jpg' }),
  'picture-none': word(
    'Takes a picture: put it into the folder "inbox", or type its path.',
    'At a check. The folder keeps its name.',
  ),
  'look-all': word('Are all of these right?', 'One look answers several questions.'),
  'lot-serial': word('Scan or type the number of this piece.', 'At a check.'),
  'lot-dated': word('Scan it, or type it and its date: AB12 2027-03-31', 'At a check: a lot with its date.'),
  'lot-scan': word('Scan or type it.', 'At a check.'),
  'big-number': word('the number', 'Beside a large figure.'),
  'big-expected': word('expected', 'Beside a large figure.'),
  'big-shows': word(
    '{ $tool } shows { $figure }',
    'Beside a large figure: the instrument does not begin at zero.',
    { tool: 'T3', figure: '1100.0' },
  ),
  'set-taken-again': word('{ $place }, taken again', 'After a question: a reading of a set is taken again.', {
    place: 'top',
  }),
  'set-all-in': word('all readings are in; Right arrow judges them', 'After a question: the set is whole.'),
  'picture-of-frame': word('{ $key }: the frame as measured, and what to do.', 'At a set that failed.', {
    key: 'End',
  }),
  'again-number': word('measure again', 'Way out of a failed check.'),
  'again-count': word('count again', 'Way out of a failed check.'),
  'again-choice': word('answer again', 'Way out of a failed check.'),
  'again-text': word('type it again', 'Way out of a failed check.'),
  'again-check': word('check it again', 'Way out of a failed check.'),
  'make-again': word('make again: { $step }', 'Way out of a failed check.', {
    step: 'Cut the frame members',
  }),
  'do-again': word('do this step again: { $step }', 'Way out of a failed check.', {
    step: 'Cut the frame members',
  }),
  'snag-and-park': word('raise a snag and park the unit', 'Way out of a failed check.'),
  'reading-with': word('{ $reading }  with { $tool }', 'A reading of a set.', {
    reading: '1000.0',
    tool: 'R2',
  }),
  'lot-offered': word('{ $lot }, last named { $day }', 'A lot that is offered.', {
    lot: 'AB12',
    day: '2026-12-01',
  }),
  'right-takes': word('(Right takes it)', 'Behind the first that is offered.'),
  'unit-finished': word('{ $unit } is finished.', 'A unit with nothing left to do.', { unit: 'P02-1' }),
  'unit-scrapped': word('{ $unit } is scrapped.', 'A unit with nothing left to do.', { unit: 'P02-1' }),
  'unit-record': word('Its record: { $command }', 'A unit with nothing left to do.', {
    command: 'pinchrod record P02-1',
  }),
  'unit-parked': word(
    'This unit is parked. ^B takes it up again; F2 shows the other units.',
    'A unit that is put aside.',
  ),
  'unit-nothing': word('Nothing can be done on this unit now.', 'A unit in which all waits.'),
  'unit-keys': word('F3 shows the steps, F6 the snags, F2 the other units.', 'Way out of that.'),
  'unit-in': word('{ $step }: in { $left }. { $text }.', 'A step waits for a cure.', {
    step: 'Seal the sash',
    left: '2 h 58 min',
    text: 'It cures',
  }),
  'time-left': word('{ $left } left, until { $time }: { $text }', 'What runs out while one works.', {
    left: '12 min',
    time: '10:42',
    text: 'open time',
  }),
  'time-over': word('the time is over, until { $time }: { $text }', 'What has run out.', {
    time: '10:42',
    text: 'open time',
  }),
  'overview-parked': word('Parked. ^B takes it up again.', 'Overview of a unit.'),
  'overview-in': word('(in { $left })', 'Overview of a unit: until a cure is over.', { left: '2 h' }),
  'overview-snag': word('snag #{ $n }: { $text }', 'Overview of a unit.', { n: 12, text: 'gap too wide' }),
  'overview-take-over': word('take it over from { $who }', 'Overview of a unit.', { who: 'bench-2' }),
  'overview-refused': word('refused: { $why }', 'Overview of a unit.', { why: 'the light is too heavy.' }),
  'handover-title': word('Hand-over, with the notes of the last twelve hours', 'Head of a page.'),
  'handover-none': word('Nothing is half done, held, curing, snagged or parked.', 'An empty page.'),
  'walk-last': word('the last one', 'One step is done on many units: how many are left.'),
  'walk-more': word('{ $n } more: { $units }', 'One step is done on many units: how many are left.', {
    n: 2,
    units: 'P02-1 P03-1',
  }),
  'why-wrong': word('What usually goes wrong: { $what }', 'Reasons of a step.', {
    what: 'The outside face lies down.',
  }),
  'why-no-sum': word('No worked-out number stands behind this check.', 'Reasons of a step.'),
  'why-care': word('Take care: { $caution }', 'Reasons of a step. A matter of safety.', {
    caution: 'No gloves at the drill.',
  }),
  'leave-ask': word('Leave the bench?', 'Before the program ends.'),
  'leave-lost': word('Nothing is lost: all that was acknowledged is on disk.', 'Before the program ends.'),
  'leave-again': word('{ $unit } is taken up again at the same check.', 'Before the program ends.', {
    unit: 'P02-1',
  }),
  'leave-keys': word('Right arrow, ^X or ^C: leave.   Left arrow or Esc: stay.', 'Before the program ends.'),
} as const;
