/** What the window room refuses or warns of, each with its way out. */
import { wayOut, word } from '../base/words.js';
import { JOB_MESSAGES } from './jobmessages.js';
import { SET_MESSAGES } from './setmessages.js';
import { UNMADE_MESSAGES } from './unmademessages.js';

export const WINDOW_MESSAGES = {
  ...SET_MESSAGES,
  ...JOB_MESSAGES,
  ...UNMADE_MESSAGES,
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
