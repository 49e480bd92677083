/** What a set and a unit give together that nobody could make. */
import { wayOut, word } from '../base/words.js';

export const UNMADE_MESSAGES = {
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
  'setout.glass-place/frame': word(
    '{ $id }: the glass would stick out { $by } of the frame at the { $side }.',
    'as setout.glass-place',
    { id: 'L1', by: '13', side: 'left' },
  ),
  'setout.glass-place/frame.todo': wayOut(
    'A face or a depth of the profile set is mistyped: check them against the section drawing.',
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
} as const;
