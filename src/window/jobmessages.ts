/** What is wrong with a job, and with the way a unit of it is divided. */
import { wayOut, word } from '../base/words.js';

export const JOB_MESSAGES = {
  'job.duplicate': word('Mark { $mark } stands twice in this job.', 'two units of a job have one mark', {
    mark: 'P02',
  }),
  'job.duplicate.todo': wayOut('Give each line a mark of its own; use quantity for more of the same.'),
  'job.duplicate/marks': word(
    'Marks { $other } and { $mark } give one unit id, { $unit }.',
    'as job.duplicate',
    { other: 'glass.packed', mark: 'P02', unit: 'P02-1' },
  ),
  'job.layout': word('The split has { $keys } together.', 'a layout cannot be read', { keys: 'at, sight' }),
  'job.layout.todo': wayOut(
    'Give one of: at (centre lines), sight (sight sizes), ratio, equal: sight, equal: glass.',
  ),
  'job.layout/centre': word(
    'Centre lines of { $split } dividers cannot be measured from the { $from }.',
    'as job.layout',
    { split: 'side', from: '1' },
  ),
  'job.layout/from': word('"from" goes with "at" only.', 'as job.layout'),
  'job.layout/from.todo': wayOut('Remove "from", or give centre lines under "at".'),
  'job.layout/none': word('The split does not say where its dividers are.', 'as job.layout'),
  'job.layout/none.todo': wayOut(
    'Give one of: at (centre lines), sight (sight sizes), ratio, equal: sight, equal: glass.',
  ),
  'job.layout/deep': word('Splits are nested more than { $deepest } deep.', 'as job.layout', { deepest: 8 }),
  'job.handing': word(
    'A fixed light has a hinge, a way of opening or a handle.',
    'the handing of a light is not clear',
  ),
  'job.handing.todo': wayOut('Remove those keys, or say which way the light is hung.'),
  'job.handing/top': word('A top-hung light is hinged { $hinge }.', 'as job.handing', { hinge: 'left' }),
  'job.handing/top.todo': wayOut('Write hinge: top or leave it out; for a side hinge use light: side-hung.'),
  'job.handing/side': word('A side-hung light needs hinge: left or hinge: right.', 'as job.handing'),
  'job.handing/side.todo': wayOut(
    'Give three keys: hinge (left or right), viewed_from (outside or inside), opens (out).',
  ),
  'job.handing/hinged': word(
    '"hinged { $hinge }" does not say from which side it was looked at.',
    'as job.handing',
    { hinge: 'left' },
  ),
  'job.handing/hinged.todo': wayOut(
    'Give three keys: hinge (left or right), viewed_from (outside or inside), opens (out).',
  ),
  'job.handing/side-hung': word(
    'A side-hung light does not say whether it opens out or in.',
    'as job.handing',
  ),
  'job.handing/side-hung.todo': wayOut(
    'Give three keys: hinge (left or right), viewed_from (outside or inside), opens (out).',
  ),
  'job.glass': word(
    '{ $id }: glass "{ $glass }" is not one of the job\'s or of { $set }, nor a make-up written out.',
    'a glass is not known',
    { id: 'vent-1.diagonals', glass: 'triple', set: 'Quay 70' },
  ),
  'job.glass.todo': wayOut(
    'Name a glass of the profile set or of the job, or write its panes and gaps as in 4-16-4.',
  ),
  'job.glass/near': word(
    '{ $id }: glass "{ $glass }" is not one of the job\'s or of { $set }, nor a make-up written out.',
    'as job.glass',
    { id: 'L1', glass: '4-16', set: 'Quay 70' },
  ),
  'job.glass/near.todo': wayOut('Write "{ $near }", or panes and gaps as in 4-16-4.', { near: '4-16-4' }),
  'job.glass/glass': word('Glass { $name } has { $count } panes and { $count2 } gaps.', 'as job.glass', {
    name: 'frame-size',
    count: '3',
    count2: '2',
  }),
  'job.glass/glass.todo': wayOut('Give one gap fewer than there are panes.'),
  'job.glass/light': word(
    '{ $id } names no glass, and neither does its unit or the job; { $set } has glass.',
    'as job.glass',
    { id: 'L1', set: 'Quay 70' },
  ),
  'job.csv': word('{ $fault }', 'a job table cannot be read', {
    fault: 'Invalid Opening Quote: a quote is found on field 2 at line 3',
  }),
  'job.csv.todo': wayOut('Save the sheet as CSV with the columns of the job manual.'),
  'job.csv/column': word('Column { $path }: { $issue }', 'as job.csv', {
    path: 'logs/sources/9a1c',
    issue: '"width" is missing',
  }),
  'job.csv/table': word('The table is empty.', 'as job.csv'),
  'job.csv/column-known': word('Column "{ $name }" is not known.', 'as job.csv', { name: 'frame-size' }),
  'job.csv/column-known.todo': wayOut('Known columns: { $known }.', { known: 'mark, width, height' }),
  'job.csv/column-near': word('Column "{ $name }" is not known; "{ $near }" is.', 'as job.csv', {
    name: 'witdh',
    near: 'width',
  }),
  'job.csv/column-near.todo': wayOut('Write "{ $near }" in the head of the table.', { near: 'width' }),
  'job.csv/column-stands': word('Column "{ $name }" stands twice.', 'as job.csv', { name: 'frame-size' }),
  'job.csv/line': word('The line has { $count } cells; the head has { $count2 }.', 'as job.csv', {
    count: '3',
    count2: '2',
  }),
  'job.csv/table-units': word('The table has no units.', 'as job.csv'),
  'job.csv/column-says': word(
    'Column { $key } says "{ $here }" here and "{ $first }" in the first line.',
    'as job.csv',
    { key: 'k3f9', here: 'Europe/Dublin', first: 'frame.cut' },
  ),
  'job.csv/number': word('Column { $column }: "{ $given }" is not a number.', 'as job.csv', {
    column: 'width',
    given: '1.221,5',
  }),
  'job.csv/number.todo': wayOut('Write millimetres in digits, without unit or thousands sign.'),
  'job.csv/thousands': word(
    'Column { $column }: "{ $given }" is { $whole } or { $part }.',
    'as job.csv; a point before three figures, in a table that has commas for decimals',
    { column: 'width', given: '1.400', whole: '1400', part: '1,400' },
  ),
  'job.csv/thousands.todo': wayOut('Write { $whole } or { $part }.', { whole: '1400', part: '1,400' }),
  'job.csv/yes': word('Column { $column }: "{ $given }" is neither yes nor no.', 'as job.csv', {
    column: 'escape',
    given: 'maybe',
  }),
  'job.csv/yes.todo': wayOut('Write yes or no.'),
  'job.csv/no-light': word('The line has no light.', 'as job.csv'),
  'job.csv/no-light.todo': wayOut('Fill light_1: fixed, top-hung or side-hung.'),
  'job.csv/no-split': word('The line has { $count } lights and no split.', 'as job.csv', { count: 2 }),
  'job.csv/no-split.todo': wayOut('Fill split: upright or level.'),
  'job.csv/large': word('The table has { $count } characters; { $largest } are taken.', 'as job.csv', {
    count: 2000001,
    largest: 2000000,
  }),
  'layout.room': word(
    'A light would be { $w } x { $h } between its sight lines.',
    'the lights do not fit into the frame',
    { w: '980', h: '1450' },
  ),
  'layout.room.todo': wayOut('Change the divider positions or the overall size.'),
  'layout.room/divider': word('Divider { $ids } at { $at } lies outside its opening.', 'as layout.room', {
    ids: 'left, middle',
    at: '2026-11-24',
  }),
  'layout.room/sight': word(
    'Sight sizes of the split at { $ids } add up to { $used }; there is room for { $space }.',
    'as layout.room',
    { ids: 'left, middle', used: '990', space: '980' },
  ),
  'layout.room/sight.todo': wayOut('Write "rest" for one of them, or correct the sizes.'),
  'layout.room/split': word(
    'The split at { $ids } leaves sight sizes of { $sizes } in { $width }.',
    'as layout.room',
    { ids: 'left, middle', sizes: '300, 300, 400', width: '640' },
  ),
  'layout.room/would': word('{ $id }: its { $name } would be { $w } x { $h }.', 'as layout.room', {
    id: 'vent-1.diagonals',
    name: 'frame-size',
    w: '980',
    h: '1450',
  }),
  'layout.count': word(
    '{ $count } centre lines are needed, { $count2 } given.',
    'the number of positions does not go with the number of parts',
    { count: '3', count2: '2' },
  ),
  'layout.count.todo': wayOut(
    'Give one position fewer than there are parts, and one size or share for each part.',
  ),
  'layout.count/parts': word(
    '{ $count } parts go with { $wanted } under "{ $key }", not { $found }.',
    'as layout.count',
    { count: '3', wanted: 'one', key: 'k3f9', found: '2' },
  ),
  'layout.count/rest': word('"rest" stands more than once in the sight sizes.', 'as layout.count'),
  'layout.count/rest.todo': wayOut('Write "rest" for one part only.'),
  'layout.equal-glass': word(
    'A part of the split is itself split the same way, so that its lights are not as wide as the part.',
    'equal glass cannot be worked out here',
  ),
  'layout.equal-glass.todo': wayOut('Use equal sight sizes or centre lines for this split.'),
  'layout.equal-glass/lights': word(
    'Lights above one another in a part of the split have different deductions.',
    'as layout.equal-glass',
  ),
  'layout.equal-glass/glass': word(
    'The glass does not grow with the sight size in this profile set.',
    'as layout.equal-glass',
  ),
} as const;
