import { wayOut, word } from '../base/words.js';
export const MEASURE_MESSAGES = {
  'measure.reading-empty': word('Nothing was typed.', 'a reading is empty'),
  'measure.reading-empty.todo': wayOut('Type the number that the instrument shows.'),
  'measure.reading-unclear': word('"{ $typed }" is not one number.', 'what was typed is not one number', {
    typed: '12..5',
  }),
  'measure.reading-unclear.todo': wayOut(
    'Type the number again: digits, and one point or comma where there is a fraction.',
  ),
  'measure.reading-ambiguous': word(
    '"{ $typed }" can be read in two ways: it holds two separators.',
    'what was typed can be read as two different numbers',
    { typed: '1.221,5' },
  ),
  'measure.reading-ambiguous.todo': wayOut(
    'Type it without a thousands separator, and with one, two or four decimals.',
  ),
  'measure.reading-ambiguous/space': word(
    '"{ $typed }" can be read in two ways: it may be one number or two.',
    'as measure.reading-ambiguous',
    { typed: '1 221' },
  ),
  'measure.reading-ambiguous/thousand': word(
    '"{ $typed }" can be read in two ways: it is { $whole }{ $part }, or { $whole } and { $part } thousandths.',
    'as measure.reading-ambiguous',
    { typed: '1,221', whole: '1', part: '221' },
  ),
  'measure.reading-ambiguous/thousand.todo': wayOut(
    'Type { $whole }{ $part }, or { $small } if the small number is meant.',
    { whole: '1', part: '221', small: '1.2210' },
  ),
  'measure.reading-unit': word(
    '"{ $typed }" is in { $unit }; { $wanted } is asked for here.',
    'a reading carries a unit that is not taken here',
    { typed: '12 in', unit: 'inches', wanted: 'mm' },
  ),
  'measure.reading-unit.todo': wayOut('Set the instrument to { $wanted }, and read again.', { wanted: 'mm' }),
  'measure.reading-fraction': word(
    '"{ $typed }" is not a fraction of an inch that a rule shows.',
    'a fraction of an inch cannot be read',
    { typed: '3/7' },
  ),
  'measure.reading-fraction.todo': wayOut(
    'Write it as whole inches, a space, and halves to sixty-fourths: 48 3/16.',
  ),
  'measure.reading-fraction/unit': word(
    '"{ $typed }" is a fraction; only inches are read so.',
    'as measure.reading-fraction',
    { typed: '3/8' },
  ),
  'measure.reading-fraction/unit.todo': wayOut('Type the reading as a decimal number.'),
  'measure.reading-range': word(
    '"{ $typed }" is too large for a reading.',
    'a reading is outside the measurable range',
    { typed: '12215000' },
  ),
  'measure.reading-range.todo': wayOut('Look at the instrument again and type the number it shows.'),
  'measure.limit-no-source': word('{ $id } has no source.', 'a limit has no source', {
    id: 'vent-1.diagonals',
  }),
  'measure.limit-no-source.todo': wayOut(
    'Add source: { "{" }kind: published, manual, house-rule, common-practice or memory; text: where it stands{ "}" }.',
  ),
  'measure.limit-value': word(
    '{ $id } has bands and a value of its own.',
    'a limit does not say what is allowed',
    { id: 'vent-1.diagonals' },
  ),
  'measure.limit-value.todo': wayOut(
    'Give one of within, most, least or between, either for the limit or for each of its bands.',
  ),
  'measure.limit-value/does': word(
    '{ $id } does not say what is allowed, or says it twice.',
    'as measure.limit-value',
    { id: 'vent-1.diagonals' },
  ),
  'measure.limit-bands': word(
    '{ $id }: this band is out of order.',
    'the size bands of a limit are not in rising order, or only one is open at the top and it is not the last',
    { id: 'vent-1.diagonals' },
  ),
  'measure.limit-bands.todo': wayOut('List the bands from small to large; only the last may leave out upto.'),
  'measure.instrument-twice': word('{ $given } stands twice.', 'two instruments have the same identity', {
    given: 'bench 1',
  }),
  'measure.instrument-twice.todo': wayOut(
    'Give each instrument an id of its own; upper and lower case count as the same.',
  ),
  'measure.instrument-error': word(
    '{ $given } has neither class nor maxError.',
    'an instrument has neither an accuracy class nor a maximum error',
    { given: 'bench 1' },
  ),
  'measure.instrument-error.todo': wayOut(
    'Give class (tapes) or maxError, from the instrument or its certificate.',
  ),
  'measure.instrument-dates': word(
    '{ $given } is due on { $due }, before its calibration.',
    'the next calibration is before the last one',
    { given: 'bench 1', due: '2026-10-01' },
  ),
  'measure.instrument-dates.todo': wayOut('Put the dates right from the certificate.'),
  'measure.instrument-overdue': word(
    '{ $instrument } ({ $instrument2 }) was due for calibration on { $due }.',
    'an instrument is overdue for calibration',
    { instrument: 'tape-3', instrument2: 'Tape, 3 m', due: '2026-10-01' },
  ),
  'measure.instrument-overdue.todo': wayOut(
    'Take another instrument, or have somebody with the right allow it; the record will show that.',
  ),
  'measure.instrument-quantity': word(
    '{ $id } does not say what it measures, or from where to where.',
    'an instrument does not say properly what it measures',
    { id: 'tape-3' },
  ),
  'measure.instrument-quantity.todo': wayOut(
    'Give measures, a unit of that quantity, and range or steps, as the head of shared/instruments.yaml tells.',
  ),
  'measure.instrument-quantity/unit': word(
    '{ $id } measures { $quantity }, which is read in { $units }, not in { $unit }.',
    'as measure.instrument-quantity',
    { id: 'scale-1', quantity: 'mass', units: 'kg', unit: 'mm' },
  ),
  'measure.instrument-quantity/range': word(
    'The range of { $id } ends before it begins.',
    'as measure.instrument-quantity',
    { id: 'tape-3' },
  ),
  'measure.instrument-quantity/steps': word(
    'The steps of { $id } do not rise.',
    'as measure.instrument-quantity',
    { id: 'gauge-1' },
  ),
  'measure.reading-outside': word(
    '{ $id } reads from { $from } to { $to }; { $raw } was typed.',
    'a reading is outside what the instrument shows',
    { id: 'vent-1.diagonals', from: '1', to: '10000', raw: '12,5,0' },
  ),
  'measure.reading-outside.todo': wayOut('Read it again, or take an instrument that reaches so far.'),
  'measure.reading-step': word(
    '{ $raw } is no step of { $id }: there are { $below } and { $above }.',
    'a reading is between two steps of an instrument that goes by steps',
    { raw: '0.07', id: 'gauge-1', below: '0.05 mm', above: '0.1 mm' },
  ),
  'measure.reading-step.todo': wayOut('Type the largest step that enters, or 0 where none does.'),
  'measure.reading-step/largest': word(
    '{ $raw } is no step of { $id }: its largest is { $below }.',
    'as measure.reading-step',
    { raw: '1.5', id: 'gauge-1', below: '1 mm' },
  ),
  'measure.square-too-few': word(
    'Too few readings were given.',
    'the readings given are too few to say anything of squareness',
  ),
  'measure.square-too-few.todo': wayOut(
    'Read both diagonals; for more, two sizes or all four sides as well.',
  ),
  'measure.square-too-few/none': word('No readings were given.', 'as measure.square-too-few'),
  'measure.square-argument': word(
    '{ $fault }',
    'the squareness calculator was given something it does not take',
    { fault: "Unknown option '--with'." },
  ),
  'measure.square-argument.todo': wayOut('See pinchrod square --help.'),
  'measure.square-argument/limits': word(
    'No limit of this workshop is for a frame by its id: name them with --limits.',
    'as measure.square-argument',
  ),
  'measure.square-argument/length': word('{ $side } must be more than zero.', 'as measure.square-argument', {
    side: 'head',
  }),
  'measure.square-argument/instrument': word(
    'The instrument "{ $id }" is not in shared/instruments.yaml.',
    'as measure.square-argument',
    { id: 'tape-9' },
  ),
  'measure.square-argument/unit': word(
    '--unit takes mm or inch, not "{ $given }".',
    'as measure.square-argument',
    { given: 'cm' },
  ),
  'measure.square-argument/rule': word(
    '--rule takes simple, guarded or guarded:0.83, not "{ $given }".',
    'as measure.square-argument',
    { given: 'strict' },
  ),
  'measure.square-argument/nominal': word(
    '--nominal takes a width and a height, such as 1200x1500, not "{ $given }".',
    'as measure.square-argument',
    { given: '1200' },
  ),
} as const;
