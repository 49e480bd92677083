import { wayOut, word } from '../base/words.js';
export const WINDOW_MESSAGES = {
  'set.missing': word(
    'sizes.{ $scope } gives no { $name }.',
    'a profile set lacks a size that the program needs',
    { scope: 'frame', name: 'frame-size' },
  ),
  'set.missing.todo': wayOut('Add a formula of that name; the manual lists the names that are needed.'),
  'set.missing/boxes': word('boxes.{ $scope } gives no { $name }.', 'as set.missing', {
    scope: 'frame',
    name: 'frame-size',
  }),
  'set.missing/face': word('layout gives no { $direction }, and the set makes dividers.', 'as set.missing', {
    direction: 'upright',
  }),
  'set.missing/face.todo': wayOut(
    'Give the face of the divider there, or write "joints: []" where the set makes none.',
  ),
  'set.unhung': word(
    'Nothing carries a { $kind } sash: hardware has neither stays nor hinges for it.',
    'a kind of light has neither stays nor hinges',
    { kind: 'top-hung' },
  ),
  'set.unhung.todo': wayOut(
    'Give stays or hinges for it under "hardware", or leave the kind out of "lights".',
  ),
  'set.missing/handle': word('hardware has gears and no handle.', 'as set.missing'),
  'set.missing/handle.todo': wayOut('Say under "hardware" where the handle sits, or leave the gears out.'),
  'set.missing/each': word(
    'A mark stands at each of the { $each }, and hardware has none.',
    'as set.missing',
    {
      each: 'locks',
    },
  ),
  'set.missing/each.todo': wayOut(
    'Give gears (for locks) or hinges under "hardware", or leave the mark out.',
  ),
  'set.hung-twice': word(
    'A { $kind } sash would hang on stays and on hinges.',
    'a kind of light stands in the chart of stays and in the table of hinges',
    { kind: 'side-hung' },
  ),
  'set.hung-twice.todo': wayOut('Keep it in one of the two.'),
  'set.unpacked': word(
    'The glass of a { $kind } light lies on nothing: packers has no plan for it.',
    'a kind of light has glass and no packers',
    { kind: 'top-hung' },
  ),
  'set.unpacked.todo': wayOut('Give its packers, or leave the kind out of "lights".'),
  'set.circular': word(
    'These need one another in a ring: { $ring }.',
    'formulas of a profile set need one another in a ring',
    { ring: 'w → h → w' },
  ),
  'set.circular.todo': wayOut('Write one of them without the other.'),
  'set.unknown': word(
    '{ $what } is not in this file.',
    'a profile set refers to something it does not hold',
    { what: 'the title' },
  ),
  'set.unknown.todo': wayOut('Use one that the file has, or add it: { $known }.', { known: 'manual, chart' }),
  'set.unknown/opening': word(
    'Fixed lights have no box "{ $name }", and this mark is of every light.',
    'as set.unknown',
    { name: 'sash' },
  ),
  'set.unknown/opening.todo': wayOut('Write "per: opening", and give fixed lights a mark of their own.'),
  'set.range': word('A row goes from { $from } to { $to }.', 'a row of gears or stays begins above its end', {
    from: '600',
    to: '350',
  }),
  'set.range.todo': wayOut('Change the two over: "from" is the smaller.'),
  'set.unknown/near': word('{ $what } is not in this file.', 'as set.unknown', { what: 'the title' }),
  'set.unknown/near.todo': wayOut('Write "{ $near }", or another that the file has: { $known }.', {
    near: 'manual',
    known: 'manual, chart',
  }),
  'order.joint': word(
    '{ $id } is cleated to { $dividers }: cleats slide into the frame before its corners are closed, and that divider is not there yet.',
    'a divider is cleated to another divider',
    { id: 'D2', dividers: 'D1' },
  ),
  'order.joint.todo': wayOut('Order it with the ported joint, or end it on the frame.'),
  'order.fitting': word(
    'A run-up block is ordered and no light is side-hung.',
    'a fitting is ordered that nothing of the unit can take, or two that exclude each other',
  ),
  'order.fitting.todo': wayOut('Take it out of "fittings", or change the light.'),
  'order.fitting/protector': word('A hinge protector is ordered and no light opens.', 'as order.fitting'),
  'order.fitting/fixing': word(
    'Wall lugs and fixing holes are both ordered; a frame is fixed by one or the other.',
    'as order.fitting',
  ),
  'set.no-clearance': word(
    '{ $what } share a wall of { $member } ({ $hung }), and no clearance names both.',
    'two things can meet in one wall of a part, and no clearance says how near they may come',
    { what: 'the title', member: 'sash', hung: 'top-hung' },
  ),
  'set.no-clearance.todo': wayOut(
    'Add a rule for the pair under "clearances"; "least: 0" says that they may meet.',
  ),
  'set.no-clearance/across': word(
    '{ $what } can meet in one wall of a divider with a light on each side, and no clearance names both.',
    'as set.no-clearance',
    { what: 'Two marks "hinge leaf"' },
  ),
  'set.no-clearance/across.todo': wayOut(
    'Add a rule for the pair under "clearances"; "least: 0" says that they may meet.',
  ),
  'set.unused': word(
    'Constant { $name } is used nowhere.',
    'a constant or size of a profile set is used nowhere',
    { name: 'frame-size' },
  ),
  'set.unused.todo': wayOut('Remove it, or use it where it was meant.'),
  'set.unused/size': word('Size { $name } of sizes.{ $scope } is used nowhere.', 'as set.unused', {
    name: 'frame-size',
    scope: 'frame',
  }),
  'set.units': word(
    '"{ $formula }" adds or compares { $left } and { $right }.',
    'a formula of a profile set puts quantities of two units together',
    { formula: 'frame.w + kg_frame', left: 'mm', right: 'kg' },
  ),
  'set.units.todo': wayOut('Use a name of the same unit, or say the right unit where the name is given.'),
  'set.never': word('No unit ever meets "{ $when }".', 'a "when" of a profile set can never be true', {
    when: 'fitted.lugs && !fitted.lugs',
  }),
  'set.never.todo': wayOut('Mend it, or take out what hangs on it.'),
  'set.twice': word(
    'The role { $role } is given twice under parts.{ $scope }.',
    'two parts of one scope have the same role',
    {
      role: 'frame-sill',
      scope: 'unit',
    },
  ),
  'set.twice.todo': wayOut('Rename one, or give both a "when" so that no unit has both.'),
  'set.beads-overlap': word(
    'Glass of { $from } to { $to } is held by the bead of an earlier row, too.',
    'two rows of the table of beads hold the same thickness, or a row begins after its end',
    { from: '27.5', to: '28.5' },
  ),
  'set.beads-overlap.todo': wayOut('Give each thickness one row, with "from" below "to".'),
  'set.bead-fixed': word(
    'Glass of { $from } to { $to } takes { $article }, and no part goes by that table: parts are { $parts } whatever the glass.',
    'the table of beads names an article that no part can have',
    { from: '35.5', to: '36.5', article: 'K70-52', parts: 'K70-50' },
  ),
  'set.bead-fixed.todo': wayOut(
    'Write "profile: {"{"}by_thickness: bead{"}"}" (or gasket) at the parts that go by the glass.',
  ),
  'set.unused/feature': word('Feature { $kind } has no mark.', 'as set.unused', { kind: 'lot' }),
  'set.unused/source': word('Source { $name } is cited nowhere.', 'as set.unused', { name: 'frame-size' }),
  'set.unused/divider-mark': word(
    'Mark { $kind } of dividers is never made: its rule is not "at".',
    'as set.unused',
    { kind: 'drain' },
  ),
  'set.unused/divider-mark.todo': wayOut('Give the places of a divider’s marks as a list under "at".'),
  'set.unused/place': word(
    'Mark { $kind } on { $on } is never made: only a divider has such a place.',
    'as set.unused',
    { kind: 'drain', on: 'frame.ends' },
  ),
  'set.unused/place.todo': wayOut('Name the side: bottom, top, left, right, hinge or handle.'),
  'set.unused/near': word(
    'Packer { $n } of { $kind } lies on edge { $edge }, which has no end at { $near }.',
    'as set.unused',
    { n: 2, kind: 'fixed', edge: 'top', near: 'bottom' },
  ),
  'set.unused/near.todo': wayOut('Name an end of that edge: left or right, or bottom or top.'),
  'set.setting': word(
    'Setting packer { $n } of { $kind } lies on edge { $edge }.',
    'a packer that carries the glass does not lie under it',
    { n: 1, kind: 'fixed', edge: 'top' },
  ),
  'set.setting.todo': wayOut('Put it on edge bottom, or call it location or bracing.'),
  'set.along': word(
    'Marks of { $kind } on { $on } stand where { $each } are, and these count along the sash.',
    'marks that follow the hardware of a sash are measured along something else',
    { kind: 'keep', on: 'addon.handle', each: 'locks' },
  ),
  'set.along.todo': wayOut('Add "along: sash" to the mark, and leave sash.x and sash.y out of its formula.'),
  'set.unused/fixed': word(
    'Mark { $kind } on { $on } is never made: a fixed light has no hinge and no handle side.',
    'as set.unused',
    { kind: 'drain', on: 'hinge' },
  ),
  'set.unused/fixed.todo': wayOut('Name the side: bottom, top, left or right.'),
  'set.unused/packer': word(
    'Packer { $n } of fixed lights is never placed: a fixed light has no hinge and no handle side.',
    'as set.unused',
    { n: 2 },
  ),
  'set.unused/packer.todo': wayOut('Name the side: bottom, top, left or right.'),
  'set.number': word(
    '"{ $formula }" divides a whole number by a whole number, which discards the remainder.',
    'a formula gives no usable number for this unit',
    { formula: 'glass.w * (1 / 2)' },
  ),
  'set.number.todo': wayOut('Write one of them with a point: 1.0 / 2.'),
  'set.number/gives': word('{ $name } gives no usable number for { $unit }.', 'as set.number', {
    name: 'frame-size',
    unit: 'P02-1',
  }),
  'set.number/gives.todo': wayOut(
    'Look at the sum with "pinchrod setout JOB UNIT --why NAME", and mend the formula or the job.',
  ),
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
  'setout.sum': word(
    'Across the { $direction } cut at { $at } the sizes miss the frame by { $error }.',
    'the sizes across a cut do not add up to the frame',
    { direction: 'left', at: '2026-11-24', error: 'the name is not known' },
  ),
  'setout.sum.todo': wayOut('Mend the layout formulas of the profile set.'),
  'setout.glass': word(
    '{ $id }: the glass is { $w } x { $h } by one formula and { $otherW } x { $otherH } by the other.',
    'the two glass formulas disagree',
    { id: 'L1', w: '980', h: '1450', otherW: '982', otherH: '1450' },
  ),
  'setout.glass.todo': wayOut(
    'A constant of the profile set is mistyped: check it against the section drawing.',
  ),
  'setout.below-none': word(
    '{ $what } is { $value }.',
    'a size or a quantity that the profile set gives is below nothing, no whole number or far too large, or a part has no length',
    { what: 'frame-sill.length', value: '-4' },
  ),
  'setout.below-none.todo': wayOut('Mend its formula in the profile set; --why shows what it is made of.'),
  'setout.below-none/more': word(
    '{ $what } is { $value }; no unit has more than { $most }.',
    'as setout.below-none',
    { what: 'corner screw.quantity', value: '1000000000', most: 10000 },
  ),
  'setout.below-none/more.todo': wayOut('Mend its formula in the profile set.'),
  'setout.twice': word('Two parts are called { $part }.', 'two parts of one unit have the same id', {
    part: 'frame-sill',
  }),
  'setout.twice.todo': wayOut('Give each role once, or each with a "when" of its own.'),
  'setout.same-side': word(
    '{ $part } and { $other } lie on the same side, and marks stand on it.',
    'two parts of one unit have the same box and side, so it is not said which of them carries the marks',
    { part: 'frame-sill', other: 'sub-sill' },
  ),
  'setout.same-side.todo': wayOut('Leave "box" and "side" out of the one that carries no marks.'),
  'setout.no-article': word(
    '{ $part }: the table of beads names no article for this glass.',
    'the article of a part goes by the thickness of the glass, and its column is empty',
    { part: 'L1.wedge' },
  ),
  'setout.no-article.todo': wayOut('Fill the column of that row in "glass.beads" of the profile set.'),
  'setout.crowded': word(
    '{ $item }: a pitch of { $pitch } gives more than { $most } of { $mark } in one row.',
    'a row of marks has a pitch of nothing, or a very small one',
    { item: 'L1', pitch: '0', most: 200, mark: 'drain slot' },
  ),
  'setout.crowded.todo': wayOut('Mend the pitch of the rule; it is in millimetres.'),
  'setout.no-part': word(
    '{ $item }: marks of { $mark } stand on "{ $on }", and there is no such part.',
    'a rule of the profile set marks a part that this unit does not have',
    { item: 'L1', mark: 'keep centre', on: 'addon.handle' },
  ),
  'setout.no-part.todo': wayOut(
    'Give the set that part (box and side), name the part that is there, or say with "when" which units have these marks.',
  ),
  'setout.part-start': word(
    '{ $part } is { $length } long on a side of { $fills }, and the set does not say where it begins.',
    'marks are counted from the end of a part, and its end is not where its box begins',
    { part: 'frame-sill', length: '676', fills: '800' },
  ),
  'setout.part-start.todo': wayOut(
    'Give the part its "start": how far it begins from the left or the bottom of what it lies on; 0 where it begins there.',
  ),
  'setout.sticks-out': word(
    '{ $part } begins { $from } inside its side of { $fills } and sticks out { $over } at the other end.',
    'a part is longer than what it lies on or in',
    { part: 'frame-left', from: '54', fills: '1270', over: '54' },
  ),
  'setout.sticks-out.todo': wayOut(
    'Mend its length or its "start": a horn sticks out without the other end drawing back.',
  ),
  'setout.sticks-out/uneven': word(
    '{ $part } ends { $from } from one side and { $other } from the other.',
    'as setout.sticks-out',
    { part: 'frame-sill', from: '55', other: '103' },
  ),
  'setout.sticks-out/uneven.todo': wayOut(
    'Mend its length or its "start": a level member and a divider end alike on both sides; minus means that it laps over.',
  ),
  'setout.beads': word(
    '{ $item } has { $level } level and { $upright } upright beads.',
    'glass is not held by two level and two upright beads',
    { item: 'L1', level: '1', upright: '2' },
  ),
  'setout.beads.todo': wayOut('Give each of both "kind: bead" and the quantity 2.'),
  'setout.corner': word(
    '{ $part } is cut at { $angle } degrees where { $other } is cut at { $otherAngle }.',
    'two members do not close at their corner',
    { part: 'L1.sash-top', angle: '45', other: 'L1.sash-right', otherAngle: '90' },
  ),
  'setout.corner.todo': wayOut(
    'Mend "ends": the end at the left or the bottom stands first; both square, or together 90 degrees.',
  ),
  'setout.wrong-side': word(
    '{ $part } lies on the { $side }.',
    'the role of a part names another side than the one it lies on',
    { part: 'frame-left', side: 'right' },
  ),
  'setout.wrong-side.todo': wayOut('Mend "side", or the role.'),
  'setout.same-place': word(
    '{ $part } has two marks of { $mark } at { $at }.',
    'two marks of one kind stand at the same place of a part',
    { part: 'D1', mark: 'cleat screw', at: '959' },
  ),
  'setout.same-place.todo': wayOut('Mend the places of the rule: mostly one of two has the wrong sign.'),
  'setout.glass-mass': word(
    '{ $id }: the glass would weigh { $mass } kg; { $area } m2 of { $panes } mm of glass weigh about { $usual }.',
    'the area or the mass of a glass cannot be that of its panes',
    { id: 'L1', mass: '4.8', area: '0.96', panes: '12', usual: '28.7' },
  ),
  'setout.glass-mass.todo': wayOut(
    'Mend glass.mass: area times panes.thickness times 2.5 (kg for each square metre and millimetre).',
  ),
  'setout.glass-mass/area': word(
    '{ $id }: the area of the glass would be { $area } m2; its width times its height is { $real }.',
    'as setout.glass-mass',
    { id: 'L1', area: '956', real: '0.956' },
  ),
  'setout.glass-mass/area.todo': wayOut('Mend glass.area: glass.w * glass.h / 1000000.0.'),
  'setout.heavy': word(
    '{ $part } would weigh { $kg } kg a metre.',
    'a part has more mass for each metre than any profile of a window',
    { part: 'frame-head', kg: '1400' },
  ),
  'setout.heavy.todo': wayOut('Mend its kg_per_m: it is in kilograms, not in grams.'),
  'setout.sticks-out/before': word(
    '{ $part } begins { $before } before its side of { $fills } and ends { $short } short of the other end.',
    'as setout.sticks-out',
    { part: 'frame-left', before: '54', fills: '1270', short: '54' },
  ),
  'setout.sticks-out/before.todo': wayOut('Mend its length or its "start".'),
  'setout.sticks-out/divider': word(
    '{ $part } is { $length } long; between the rebate floors there are { $span }.',
    'as setout.sticks-out',
    { part: 'D1', length: '946', span: '940' },
  ),
  'setout.sticks-out/divider.todo': wayOut(
    'Mend divider.length; where the divider laps over its neighbours, give its part a "start" below nothing.',
  ),
  'setout.sticks-out/bead': word(
    '{ $part } is { $length } long; the rebate there is { $side }.',
    'as setout.sticks-out',
    { part: 'L1.bead-upright', length: '1260', side: '1110' },
  ),
  'setout.sticks-out/bead.todo': wayOut('Mend the formula of the bead.'),
  'setout.box-size': word(
    '{ $id }: box { $name } is { $w } x { $h }, and its sizes say { $sizeW } x { $sizeH }.',
    'a box of a light is not as wide or as high as the thing it stands for',
    { id: 'L1', name: 'glass', w: '812', h: '1102', sizeW: '802', sizeH: '1102' },
  ),
  'setout.box-size.todo': wayOut('Mend "w" and "h" of the box, or the sizes.'),
  'setout.box-place': word(
    '{ $id }: { $name } would lie { $by } off the middle of its light.',
    'the box of a sash or an add-on frame is not where it can lie',
    { id: 'L1', name: 'sash', by: '18' },
  ),
  'setout.box-place.todo': wayOut(
    'Mend "x" of the box: it counts from the sight line to the right, minus before it. Where the two sides really differ, write it with hinge_left.',
  ),
  'setout.box-place/level': word(
    '{ $id }: { $name } would end { $short } short of the sight line at one end and { $past } past it at the other.',
    'as setout.box-place',
    { id: 'L1', name: 'sash', short: '9', past: '27' },
  ),
  'setout.box-place/level.todo': wayOut(
    'Mend "y" of the box: it counts from the sight line up, minus below it.',
  ),
  'setout.glass-place': word(
    '{ $id }: the glass would lie { $by } off the middle of its light.',
    'the box of the glass is not where the glass can lie',
    { id: 'L1', by: '15' },
  ),
  'setout.glass-place.todo': wayOut(
    'Mend "x" of the box "glass": it counts from the sight line to the right, so it is mostly 0 less the cover.',
  ),
  'setout.glass-place/short': word(
    '{ $id }: the glass would end { $by } short of the sight line at the { $side }.',
    'as setout.glass-place',
    { id: 'L1', by: '15', side: 'bottom' },
  ),
  'setout.glass-place/short.todo': wayOut(
    'Mend "x" and "y" of the box "glass": they count from the sight line to the right and up.',
  ),
  'setout.glass-place/out': word(
    '{ $id }: the glass would stick out { $by } of its sash at the { $side }.',
    'as setout.glass-place',
    { id: 'L1', by: '15', side: 'bottom' },
  ),
  'setout.glass-place/out.todo': wayOut(
    'Mend "x" and "y" of the box "glass": they count from the sight line to the right and up.',
  ),
  'setout.off-part': word(
    '{ $light }: a { $use } packer { $length } long at { $at } does not lie under the glass, { $size } long.',
    'a mark does not lie on its part',
    { light: 'L1', use: 'bearing', length: '100', at: '30', size: '400' },
  ),
  'setout.off-part.todo': wayOut(
    'The glass is too small for the packer plan of the profile set, or the plan places the packer wrongly.',
  ),
  'setout.off-part/does': word(
    '{ $set } at { $at } does not lie on { $part } ({ $says }, { $count } long).',
    'as setout.off-part',
    { set: 'Quay 70', at: '2026-11-24', part: 'jamb left', says: 'hinge 1 at 187.5', count: '3' },
  ),
  'setout.off-part/does.todo': wayOut(
    'Change the size, the handle or the hardware: the part is too short for it; or mend the rule of a set that is new.',
  ),
  'setout.clash': word(
    'On { $part } ({ $says }, { $count } long) these rules cannot hold together: { $stuck }.',
    'the rules for a part cannot all hold',
    { part: 'jamb left', says: 'hinge 1 at 187.5', count: '3', stuck: 'hinge 1 at 187.5' },
  ),
  'setout.clash.todo': wayOut(
    'Change the size, the handle or the divider position, or mend the rules of a set that is new; or a named person overrides this with a reason.',
  ),
  'setout.clash-unproven': word(
    'The least shift on { $part } was not proven within the search bound.',
    'positions satisfy every rule, but the least shift was not proven within the search bound',
    { part: 'jamb left' },
  ),
  'setout.clash-unproven.todo': wayOut(
    'Use the positions, or move the handle or divider so that fewer marks meet.',
  ),
  'setout.clash-unproven/none': word(
    'That nothing satisfies the rules on { $part } was not proven within the search bound.',
    'as setout.clash-unproven',
    { part: 'jamb left' },
  ),
  'order.gear': word(
    '{ $id }: no gear of { $set } suits a sash member of { $rail } ({ $gears }; { $source }).',
    'no gear of the set suits the sash member with the handle',
    { id: 'L1', set: 'Quay 70', rail: '2400', gears: 'G1 400–800', source: 'quay-70, gears' },
  ),
  'order.gear.todo': wayOut('Change the size or opening of the light.'),
  'order.gear/cams': word(
    '{ $id }: no gear of { $set } keeps its cams { $end } from the ends of a sash member of { $rail } with the handle at { $at } ({ $gears }; { $source }).',
    'as order.gear',
    {
      id: 'L1',
      set: 'Quay 70',
      end: '90',
      rail: '700',
      at: '350',
      gears: 'G1, G2',
      source: 'quay-70, gears',
    },
  ),
  'order.stay': word(
    '{ $light }: no stay takes a { $kind } sash { $w } x { $h } of { $mass } kg ({ $refused }; { $source }).',
    'no stay of the chart takes the sash',
    {
      light: 'L1',
      kind: 'top-hung',
      w: '980',
      h: '700',
      mass: '41.2',
      refused: 'ST-10: mass over 20 kg',
      source: 'quay-70, stays',
    },
  ),
  'order.stay.todo': wayOut(
    'Add a divider or change how the light opens; a named person may override with a reason.',
  ),
  'order.stay/none': word(
    '{ $light }: no stay takes a { $kind } sash { $w } x { $h } of { $mass } kg (the chart has none for { $kind }; { $source }).',
    'as order.stay',
    { light: 'L1', kind: 'top-hung', w: '980', h: '700', mass: '41.2', source: 'quay-70, stays' },
  ),
  'order.hinges': word(
    '{ $light }: no hinges take a sash { $w } x { $h } of { $mass } kg ({ $refused }; { $source }).',
    'no row of the table of hinges takes the sash',
    {
      light: 'L1',
      w: '900',
      h: '1500',
      mass: '92.0',
      refused: 'two hinges: mass over 40 kg',
      source: 'quay-70, hinges',
    },
  ),
  'order.hinges.todo': wayOut(
    'Add a divider or change how the light opens; a named person may override with a reason.',
  ),
  'order.kind': word(
    '{ $id } is { $kind }; { $set } makes { $kinds }.',
    'the profile set does not make this kind of light',
    { id: 'L1', kind: 'top-hung', set: 'Quay 70', kinds: 'fixed, side-hung' },
  ),
  'order.kind.todo': wayOut('Order another kind, or use a profile set that makes it.'),
  'order.no-divider': word(
    '{ $set } makes no dividers.',
    'a unit is divided, and the profile set makes no dividers',
    { set: 'Quay 70' },
  ),
  'order.no-divider.todo': wayOut('Order one light, or use a profile set that makes dividers.'),
  'order.no-glass': word(
    '{ $id } names { $glass }, and { $set } has no glass.',
    'a light names a glass, and the profile set has none',
    { id: 'L1', glass: '4-16-4', set: 'fly screen F20' },
  ),
  'order.no-glass.todo': wayOut('Take the glass out of the job, or use a profile set that is glazed.'),
  'order.no-handle': word(
    '{ $light } says where its handle sits, and { $set } has none.',
    'a light places a handle, and the profile set has none',
    { light: 'L1', set: 'Quay 70' },
  ),
  'order.no-handle.todo': wayOut('Take "handle_at" out of the job.'),
  'order.near-limit': word(
    '{ $light }: stay { $stay } is near a limit: { $uses } ({ $source }).',
    'a sash is near a limit of its stay or hinges',
    { light: 'L1', stay: 'ST-16', uses: 'mass 19.4 of 20 kg', source: 'quay-70, stays' },
  ),
  'order.near-limit/hinges': word(
    '{ $light }: { $hinges } are near a limit: { $uses } ({ $source }).',
    'as order.near-limit',
    { light: 'L1', hinges: 'two hinges', uses: 'mass 39 of 40 kg', source: 'quay-70, hinges' },
  ),
  'order.near-limit.todo': wayOut('Check the chart of the hardware maker before release.'),
  'order.glass-thickness': word(
    '{ $light }: glass { $glass } is { $thickness } thick; beads of { $set } hold { $beads } ({ $source }).',
    'no bead of the set holds this thickness of glass',
    {
      light: 'L1',
      glass: 'triple',
      thickness: '44',
      set: 'Quay 70',
      beads: '24–28, 30–34',
      source: 'quay-70, beads',
    },
  ),
  'order.glass-thickness.todo': wayOut('Choose a glass within the bead range of the profile set.'),
  'order.limit': word(
    '{ $id }: the handle at { $at } is outside { $least } to { $most } ({ $set }).',
    'a size or ratio is outside the profile set',
    { id: 'vent-1.diagonals', at: '2026-11-24', least: '400', most: '4', set: 'Quay 70' },
  ),
  'order.limit.todo': wayOut('Change the order; a named person may override with a reason.'),
  'order.limit/least': word(
    '{ $id }: { $check } is { $value }; at least { $limit } ({ $name }; { $source }).',
    'as order.limit',
    {
      id: 'L1',
      check: 'the width of the sash',
      value: '380 mm',
      limit: '400 mm',
      name: 'sash-width',
      source: 'quay-70, sizes',
    },
  ),
  'order.limit/most': word(
    '{ $id }: { $check } is { $value }; at most { $limit } ({ $name }; { $source }).',
    'as order.limit',
    {
      id: 'L1',
      check: 'the width of the sash',
      value: '980 mm',
      limit: '900 mm',
      name: 'sash-width',
      source: 'quay-70, sizes',
    },
  ),
  'order.limit/joint': word('Dividers of { $set } are { $joints }, not { $joint }.', 'as order.limit', {
    set: 'Quay 70',
    joints: 'ported',
    joint: 'cleated',
  }),
  'order.opens-in': word(
    '{ $light } opens in; { $set } does not.',
    'a light opens in, which the profile set does not make',
    { light: 'L1', set: 'Quay 70' },
  ),
  'order.opens-in.todo': wayOut('Order it to open out, or use a profile set that makes it.'),
  'order.opens-in/out': word('{ $light } opens out; { $set } does not.', 'as order.opens-in', {
    light: 'L1',
    set: 'Quay 70',
  }),
  'order.safety-glass': word(
    '{ $light }: safety glass is asked for; { $glass } is not marked as safety glass.',
    'safety glass is asked for and a glass is not marked as such',
    { light: 'left', glass: 'triple' },
  ),
  'order.safety-glass.todo': wayOut('Choose a glass that is marked safety: true.'),
  'order.escape': word(
    'An escape opening is asked for and no light of the unit opens.',
    'no opening of the unit gives the escape opening asked for',
  ),
  'order.escape.todo': wayOut('Make a light larger or hinge it otherwise; local rules come first.'),
  'order.escape/clear': word(
    'Clear opening: { $found }; at least { $leastSide } each way and { $leastAreaM2 } m2 are asked for ({ $source }).',
    'as order.escape',
    { found: 'L1 380 x 900, 0.342 m2', leastSide: '450', leastAreaM2: '0.33', source: 'quay-70, escape' },
  ),
  'order.escape-unknown': word(
    'An escape opening is asked for; { $set } does not say how far its stays open, so the clear opening is unknown.',
    'the escape opening cannot be worked out from this profile set',
    { set: 'Quay 70' },
  ),
  'order.escape-unknown.todo': wayOut(
    'Find the clear opening in the hardware maker’s data; then a named person may override with that as the reason.',
  ),
  'why.unknown': word('No number of { $unit } is called "{ $name }".', 'no number of that name', {
    unit: 'P02-1',
    name: 'sash.L9.w',
  }),
  'why.unknown.todo': wayOut('Use one of the names that setout --why lists.'),
  'why.unknown/near': word('No number of { $unit } is called "{ $name }".', 'as why.unknown', {
    unit: 'P02-1',
    name: 'sash.L1.wide',
  }),
  'why.unknown/near.todo': wayOut('Did you mean { $near }? "setout JOB { $unit } --why ?" lists all names.', {
    near: 'sash.L1.w',
    unit: 'P02-1',
  }),
} as const;
