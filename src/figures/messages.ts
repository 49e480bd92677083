/** Messages of figures over many units, with what to do about each. */
import { problemFactory } from '../base/problem.js';
import { wayOut, word } from '../base/words.js';

export const FIGURES_MESSAGES = {
  'figures.csv': word('This is not a table in CSV.', 'a table of readings cannot be read'),
  'figures.csv.todo': wayOut(
    'Save it as CSV from the spreadsheet: one line of names, then one line a reading.',
  ),
  'figures.csv/empty': word('The table has no lines under its names.', 'as figures.csv'),
  'figures.csv/empty.todo': wayOut('Give one line of names, then one line a reading.'),
  'figures.csv/large': word('The table is larger than 200 MB.', 'as figures.csv'),
  'figures.csv/large.todo': wayOut('Split it.'),
  'figures.csv/gone': word('There is no file "{ $file }".', 'as figures.csv', { file: 'readings.csv' }),
  'figures.csv/gone.todo': wayOut('Check the name, and the folder that you are in.'),
  'figures.csv/folder': word('"{ $file }" is no file.', 'as figures.csv', { file: 'readings' }),
  'figures.csv/folder.todo': wayOut('Name the CSV file inside it.'),
  'figures.csv/twice': word('Two columns are called "{ $name }".', 'as figures.csv', { name: 'reading' }),
  'figures.csv/twice.todo': wayOut('Rename one.'),
  'figures.column': word(
    'There is no column "{ $name }": { $columns }.',
    'a column that is not in the table',
    {
      name: 'reading',
      columns: 'part, person, value',
    },
  ),
  'figures.column.todo': wayOut('Name one of the columns.'),
  'figures.column/near': word('There is no column "{ $name }".', 'as figures.column', { name: 'valeu' }),
  'figures.column/near.todo': wayOut('Perhaps "{ $near }" is meant.', { near: 'value' }),
  'figures.cell': word('"{ $cell }" is not a number.', 'a cell of a table', { cell: 'n/a' }),
  'figures.cell.todo': wayOut('Correct the cell, or take the line out.'),
  'figures.cell/size': word('"{ $cell }" is too large or too small to reckon with.', 'as figures.cell', {
    cell: '1e200',
  }),
  'figures.cell/size.todo': wayOut('Use another unit.'),
  'figures.cell/signs': word('"{ $cell }" has a point where others have a comma.', 'as figures.cell', {
    cell: '1.234',
  }),
  'figures.cell/signs.todo': wayOut('Write decimals alike, and no sign between thousands.'),
  'figures.cell/typed': word('"{ $cell }" is not a reading.', 'as figures.cell, while readings are typed', {
    cell: '12..1',
  }),
  'figures.cell/typed.todo': wayOut('Type it again; an empty line ends it for now.'),
  'figures.cell/missing': word('This cell is empty.', 'as figures.cell'),
  'figures.cell/missing.todo': wayOut('Fill it in, or take the line out.'),
  'figures.cell/share': word('"{ $cell }" is neither 0 nor 1.', 'as figures.cell, of a chart of shares', {
    cell: '2',
  }),
  'figures.cell/share.todo': wayOut(
    'Write 1 for each that failed and 0 for the rest, or name with --of how many there were.',
  ),
  'figures.cell/count': word(
    '{ $failed } of { $of } is not a count.',
    'as figures.cell, of a chart of shares',
    { failed: 12, of: 10 },
  ),
  'figures.cell/count.todo': wayOut(
    'Give whole numbers: how many failed, and with --of how many there were.',
  ),
  'figures.few': word(
    '{ $n ->\n  [one] One reading is\n *[other] { $n } readings are\n } too few.',
    'readings for a chart or a study',
    { n: 1 },
  ),
  'figures.few.todo': wayOut('Two are the least; limits are of use from about twenty.'),
  'figures.few/none': word('No reading is left by what was chosen: { $chosen }.', 'as figures.few', {
    chosen: '--set w60',
  }),
  'figures.few/none.todo': wayOut('Check the names and the days; "pinchrod figures" alone shows all.'),
  'figures.few/groups': word('No group has two readings.', 'as figures.few'),
  'figures.few/groups.todo': wayOut('Leave --subgroup out: single readings have a chart of their own.'),
  'figures.few/first': word('--first { $first } does not fit { $n } points.', 'as figures.few', {
    first: 1,
    n: 20,
  }),
  'figures.few/first.todo': wayOut('Take at least two points, and no more than there are.'),
  'figures.few/alike': word('All readings of { $check } are alike.', 'as figures.few', {
    check: 'square.frame/square:diagonals',
  }),
  'figures.few/alike.todo': wayOut('Limits need readings that scatter.'),
  'figures.check': word('Nothing measured is called "{ $check }".', 'a check that no unit measured', {
    check: 'frame',
  }),
  'figures.check.todo': wayOut('One of these is meant: { $known }.', {
    known: 'square.frame/square:diagonals',
  }),
  'figures.check/near': word('Nothing measured is called "{ $check }".', 'as figures.check', {
    check: 'frame',
  }),
  'figures.check/near.todo': wayOut('Perhaps "{ $near }" is meant.', {
    near: 'square.frame/square:diagonals',
  }),
  'figures.option': word('--{ $name } { $given } is not known.', 'an option of figures or study', {
    name: 'chart',
    given: 'pie',
  }),
  'figures.option.todo': wayOut('Use one of { $known }.', { known: 'individuals, mean, range' }),
  'figures.option/number': word('--{ $name } takes a number, not "{ $given }".', 'as figures.option', {
    name: 'low',
    given: 'x',
  }),
  'figures.option/number.todo': wayOut('Write it with a decimal point, such as -1.5.'),
  'figures.option/turned': word('--low { $low } is not below --high { $high }.', 'as figures.option', {
    low: 2,
    high: 1,
  }),
  'figures.option/turned.todo': wayOut('Give the lower limit first.'),
  'figures.option/idle': word('--{ $name } does nothing here.', 'as figures.option', { name: 'of' }),
  'figures.option/idle.todo': wayOut('Leave it out, or see --help for what it goes with.'),
  'figures.option/between': word(
    '--{ $name } takes a whole number from { $least } to { $most }, not "{ $given }".',
    'as figures.option',
    { name: 'parts', given: '1', least: 2, most: 100 },
  ),
  'figures.option/between.todo': wayOut('See --help.'),
  'figures.option/there': word('"{ $file }" is there already.', 'as figures.option', { file: 'study.csv' }),
  'figures.option/there.todo': wayOut('Give another name.'),
  'figures.option/beside': word('"{ $check }" does nothing beside --csv.', 'as figures.option', {
    check: 'square.frame',
  }),
  'figures.option/beside.todo': wayOut('Name the column with --value.'),
  'figures.option/over': word('--out would write over "{ $file }", which is read.', 'as figures.option', {
    file: 'readings.csv',
  }),
  'figures.option/over.todo': wayOut('Give another name.'),
  'figures.option/needs': word('--{ $name } needs --{ $needed }.', 'as figures.option', {
    name: 'chart p',
    needed: 'subgroup',
  }),
  'figures.option/needs.todo': wayOut('Name both.'),
  'figures.option/groups': word('--chart { $given } is for single readings.', 'as figures.option', {
    given: 'individuals',
  }),
  'figures.option/groups.todo': wayOut('Leave --subgroup out.'),
  'figures.study': word('There is one part only: { $part }.', 'a study that cannot be worked out', {
    part: '7',
  }),
  'figures.study.todo': wayOut('Measure at least two parts; ten are usual.'),
  'figures.study/person': word('There is one person only: { $person }.', 'as figures.study', { person: 'A' }),
  'figures.study/person.todo': wayOut('At least two must measure; three are usual.'),
  'figures.study/trials': word('Each part was measured once by each person.', 'as figures.study'),
  'figures.study/trials.todo': wayOut('Each must measure each part at least twice.'),
  'figures.study/unbalanced': word(
    'Person { $person } measured part { $part } { $times ->\n  [0] never\n  [one] once\n *[other] { $times } times\n }, others { $usual } times.',
    'as figures.study',
    { person: 'B', part: '7', times: 2, usual: 3 },
  ),
  'figures.study/unbalanced.todo': wayOut(
    'Let each person measure each part as often, or take the part out.',
  ),
  'figures.study/alike': word('All readings are alike.', 'as figures.study'),
  'figures.study/alike.todo': wayOut('Does the instrument read finely enough, and do the parts differ?'),
  'figures.study/word': word(
    'study takes plan, take FILE, or --csv FILE, not "{ $word }".',
    'as figures.study',
    {
      word: 'go',
    },
  ),
  'figures.study/word.todo': wayOut('See pinchrod study --help.'),
  'figures.study/large': word(
    '{ $parts } parts and { $people } people are more than a study takes.',
    'as figures.study',
    {
      parts: 2000,
      people: 3,
    },
  ),
  'figures.study/large.todo': wayOut('Check the columns of --part and --person.'),
  'figures.study/references': word('A study of linearity needs two references or more.', 'as figures.study'),
  'figures.study/references.todo': wayOut('Measure several references along the range.'),
} as const;

export const figuresProblem = problemFactory(FIGURES_MESSAGES);
