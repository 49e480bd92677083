export const MEASURE_MESSAGES = {
  'measure.reading-empty': {
    what: 'a reading is empty',
    todo: 'Type the number that the instrument shows.',
  },
  'measure.reading-unclear': {
    what: 'what was typed is not one number',
    todo: 'Type the number again: digits, and one point or comma where there is a fraction.',
  },
  'measure.reading-ambiguous': {
    what: 'what was typed can be read as two different numbers',
    todo: 'Type it without a thousands separator, and with one, two or four decimals.',
  },
  'measure.reading-unit': {
    what: 'a reading carries a unit that is not taken here',
    todo: 'Set the instrument to the unit asked for, and read again.',
  },
  'measure.reading-fraction': {
    what: 'a fraction of an inch cannot be read',
    todo: 'Write it as whole inches, a space, and halves to sixty-fourths: 48 3/16.',
  },
  'measure.reading-range': {
    what: 'a reading is outside the measurable range',
    todo: 'Look at the instrument again and type the number it shows.',
  },
  'measure.limit-no-source': {
    what: 'a limit has no source',
    todo: 'Add source: {kind: published, manual, house-rule, common-practice or memory; text: where it stands}.',
  },
  'measure.limit-value': {
    what: 'a limit does not say what is allowed',
    todo: 'Give one of within, most, least or between, either for the limit or for each of its bands.',
  },
  'measure.limit-bands': {
    what: 'the size bands of a limit are not in rising order, or only one is open at the top and it is not the last',
    todo: 'List the bands from small to large; only the last may leave out upto.',
  },
  'measure.instrument-twice': {
    what: 'two instruments have the same identity',
    todo: 'Give each instrument an id of its own; upper and lower case count as the same.',
  },
  'measure.instrument-error': {
    what: 'an instrument has neither an accuracy class nor a maximum error',
    todo: 'Give class (tapes) or maxError, from the instrument or its certificate.',
  },
  'measure.instrument-dates': {
    what: 'the next calibration is before the last one',
    todo: 'Put the dates right from the certificate.',
  },
  'measure.instrument-overdue': {
    what: 'an instrument is overdue for calibration',
    todo: 'Take another instrument, or have somebody with the right allow it; the record will show that.',
  },
  'measure.instrument-quantity': {
    what: 'an instrument does not say properly what it measures',
    todo: 'Give measures, a unit of that quantity, and range or steps, as the head of shared/instruments.yaml tells.',
  },
  'measure.reading-outside': {
    what: 'a reading is outside what the instrument shows',
    todo: 'Read it again, or take an instrument that reaches so far.',
  },
  'measure.reading-step': {
    what: 'a reading is between two steps of an instrument that goes by steps',
    todo: 'Type the largest step that enters, or 0 where none does.',
  },
  'measure.square-too-few': {
    what: 'the readings given are too few to say anything of squareness',
    todo: 'Read both diagonals; for more, two sizes or all four sides as well.',
  },
  'measure.square-argument': {
    what: 'the squareness calculator was given something it does not take',
    todo: 'See pinchrod square --help.',
  },
} as const;
