import { wayOut, word } from '../base/words.js';
export const RECORD_MESSAGES = {
  'record.unknown-unit': word('There is no job "{ $job }".', 'no unit and no job has the name given', {
    job: 'pier-house',
  }),
  'record.unknown-unit.todo': wayOut('pinchrod board lists the units and jobs.'),
  'record.unknown-unit/unit': word('There is no unit and no job "{ $word }".', 'as record.unknown-unit', {
    word: 'mullion',
  }),
  'record.ambiguous': word(
    'There is a unit "{ $word }" in several jobs.',
    'several jobs have a unit of that name',
    { word: 'mullion' },
  ),
  'record.ambiguous.todo': wayOut('Name one of { $all }.', { all: 'pier-house/P02-1, mole/P02-1' }),
  'record.no-declaration': word(
    '{ $unit } is no window ({ $product }), and the sheet holds the particulars of EN 14351-1.',
    'particulars for the declaration of a window are asked for of something else',
    { unit: 'F1-2', product: 'fly screen' },
  ),
  'record.no-declaration.todo': wayOut('Leave --declaration out.'),
  'record.wrong-check': word(
    '"{ $word }" was read or typed wrongly.',
    'the check character of a code does not fit the rest of it',
    { word: 'mullion' },
  ),
  'record.wrong-check.todo': wayOut('Scan the label again, or type the code again.'),
  'record.out-place': word(
    "{ $file } is among the workshop's own files.",
    "a document would be written over or among the workshop's own files",
    { file: 'shared/jobs/pier-house.yaml' },
  ),
  'record.out-place.todo': wayOut('Give --out a place outside procedures/, shared/ and logs/.'),
  'record.needs-out': word(
    '{ $format } cannot be printed into a terminal.',
    'a document that is not text, or of several files, needs --out',
    { format: 'PDF' },
  ),
  'record.needs-out.todo': wayOut('Give --out FILE.'),
  'record.needs-out/these': word('These are { $count } files.', 'as record.needs-out', { count: '3' }),
  'record.needs-out/pdf': word('A PDF cannot be printed into a terminal.', 'as record.needs-out'),
  'record.option': word(
    '".{ $asked }" at the end of --out names no format.',
    'an option has a value that is not known',
    { asked: 'docx' },
  ),
  'record.option.todo': wayOut('End it with one of { $formats }, or name one with --format.', {
    formats: '.pdf, .html',
  }),
  'record.option/format': word('--format "{ $asked }" is not known.', 'as record.option', { asked: 'docx' }),
  'record.option/format.todo': wayOut('Use one of { $formats }.', { formats: '.pdf, .html' }),
  'record.option/date': word('--{ $name } "{ $name2 }" is no date.', 'as record.option', {
    name: 'frame-size',
    name2: '2026-13-01',
  }),
  'record.option/date.todo': wayOut('Write it as 2026-03-31.'),
  'record.option/future': word('{ $day } has not come yet.', 'as record.option', { day: '2099-01-01' }),
  'record.option/future.todo': wayOut('Write the day on which it happened.'),
  'record.option/unit': word('No unit, job or period is named.', 'as record.option'),
  'record.option/unit.todo': wayOut('pinchrod record --help tells what it takes.'),
  'record.option/paper': word('--paper "{ $paper }" is not known.', 'as record.option', { paper: 'a3' }),
  'record.option/paper.todo': wayOut('Use a4 or letter.'),
  'record.option/declaration': word('The sheet of particulars has no { $format } form.', 'as record.option', {
    format: 'csv',
  }),
  'record.option/declaration.todo': wayOut(
    'Use text, html or pdf; without --declaration the record has both.',
  ),
  'record.option/turned': word(
    'From { $from } to { $to } is no time: the end lies before the beginning.',
    'as record.option',
    {
      from: '2026-03-31',
      to: '2026-03-01',
    },
  ),
  'record.option/turned.todo': wayOut('Change the two over.'),
  'record.option/separator': word('--separator "{ $separator }" is not known.', 'as record.option', {
    separator: '|',
  }),
  'record.option/separator.todo': wayOut('Use comma, semicolon or tab.'),
  'record.option/ending': word(
    '--format { $format } and a file that ends in .{ $ending } do not agree.',
    'as record.option',
    { format: 'pdf', ending: 'csv' },
  ),
  'record.option/ending.todo': wayOut('Leave out --format, or give the file the ending of its format.'),
  'record.option/csv': word('--{ $name } is for CSV alone.', 'as record.option', { name: 'bom' }),
  'record.option/csv.todo': wayOut('Add --format csv, or leave it out.'),
  'record.option/language': word('Documents are not told in "{ $language }".', 'as record.option', {
    language: 'fr',
  }),
  'record.option/language.todo': wayOut('Use one of { $spoken }.', { spoken: 'en, de' }),
  'record.option/decimal': word('--decimal "{ $decimal }" is not known.', 'as record.option', {
    decimal: ':',
  }),
  'record.option/decimal.todo': wayOut('Use . or ,'),
  'record.ledger': word('There is no register "{ $name }".', 'a register over units has another name', {
    name: 'faults',
  }),
  'record.ledger.todo': wayOut('Use one of { $known }.', { known: 'lots, instruments' }),
  'record.option/stock': word('--stock "{ $given }" is not known.', 'as record.option', { given: 'roll' }),
  'record.option/stock.todo': wayOut('Use one of { $known }.', { known: 'roll-100x60' }),
  'record.option/skip': word('--skip "{ $given }" does not fit this sheet.', 'as record.option', {
    given: '40',
  }),
  'record.option/skip.todo': wayOut('Use 0 to { $most }.', { most: 20 }),
  'record.option/dpi': word('--dpi "{ $given }" is not taken.', 'as record.option', { given: '20' }),
  'record.option/dpi.todo': wayOut('Use 150 to 1200.'),
  'record.label-room': word(
    '{ $label }: left out for want of room: { $left }.',
    'something does not fit on the label of this size and was left out',
    { label: 'P02-1', left: 'the reference' },
  ),
  'record.label-room.todo': wayOut('Use a larger label (--stock), if it is wanted.'),
  'record.option/credential': word('A credential is JSON, and of one unit.', 'as record.option'),
  'record.option/credential.todo': wayOut('Name one unit, and --format json or a file that ends in .json.'),
  'record.credential': word(
    '{ $unit } is not released.',
    'a credential is wanted of a unit that is not released, or by a bench that cannot sign',
    { unit: 'P02-1' },
  ),
  'record.credential.todo': wayOut('Release it first: a credential says that the unit is right.'),
  'record.credential/key': word('{ $bench } has no key to sign with.', 'as record.credential', {
    bench: 'bench-1',
  }),
  'record.credential/key.todo': wayOut('pinchrod key new'),
  'record.out-folder': word(
    'There is no folder { $value }.',
    'a document is to be written into a folder that is not there',
    { value: 'work' },
  ),
  'record.out-folder.todo': wayOut('Make the folder first, or mend the path.'),
  'record.out-folder/is': word('{ $value } is a folder.', 'as record.out-folder', { value: 'work' }),
  'record.out-folder/is.todo': wayOut('Name a file in it.'),
} as const;
