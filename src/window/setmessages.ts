/** What is wrong with a profile set, whatever window it is read for. */
import { wayOut, word } from '../base/words.js';

export const SET_MESSAGES = {
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
} as const;
