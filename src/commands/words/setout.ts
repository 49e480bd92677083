/** What setout prints: sizes of a unit, the cut list, the marks. */
import { word } from '../../base/words.js';

const ROW = 'setout: what the row is about; columns';
const SIZES = { w: '603', h: '1239' };

export const SETOUT_SAYS = {
  'setout-invented': word(' - invented set, not for real windows', 'setout: after the name of a profile set'),
  'setout-until': word(
    'REFUSED until each problem is mended, or overridden by a named person with a reason:',
    'setout: above what is wrong with a unit',
  ),
  'setout-row-frame': word('frame', ROW),
  'setout-row-mass': word('mass', ROW),
  'setout-row-sight': word('sight', ROW),
  'setout-row-addon': word('add-on', ROW),
  'setout-row-sash': word('sash', ROW),
  'setout-row-glass': word('glass', ROW),
  'setout-row-beads': word('beads', ROW),
  'setout-row-handle': word('handle', ROW),
  'setout-row-keeps': word('keeps', ROW),
  'setout-row-stay': word('stay', ROW),
  'setout-row-hinges': word('hinges', ROW),
  'setout-row-packing': word('packing', ROW),
  'setout-row-sums': word('sums', ROW),
  'setout-diagonal': word('{ $w } x { $h }, diagonal { $diagonal }', 'setout: size of a frame', {
    ...SIZES,
    diagonal: '1377.9',
  }),
  'setout-divider-upright': word(
    'upright divider, { $joint }, centre { $centre } from the left, { $length } long',
    'setout: a mullion; the joint is a name of the profile set or its kind',
    { joint: 'ported', centre: '650', length: '1239' },
  ),
  'setout-divider-level': word(
    'level divider, { $joint }, centre { $centre } from the bottom, { $length } long',
    'setout: a transom; the joint is a name of the profile set or its kind',
    { joint: 'ported', centre: '820', length: '1103' },
  ),
  'setout-joint-ported': word('ported', 'setout: how a divider is joined: screwed into its screw ports'),
  'setout-joint-cleated': word('cleated', 'setout: how a divider is joined: with cleats'),
  'setout-sight-only': word('{ $sight }', 'setout: the sight size of a light without glass', {
    sight: '620 x 1190',
  }),
  'setout-sight': word('{ $sight }   rebate { $rebate }', 'setout: sight size and rebate size of a light', {
    sight: '560 x 1196',
    rebate: '604 x 1240',
  }),
  'setout-sash': word('{ $w } x { $h }, diagonal { $diagonal }, { $mass } kg', 'setout: size of a sash', {
    ...SIZES,
    diagonal: '1341.9',
    mass: '19.4',
  }),
  'setout-glass': word(
    '{ $w } x { $h }, { $title }, { $area } m2, { $mass } kg, cover { $cover }, clearance { $clearance }',
    'setout: the glass of a light; how far the frame covers its edge, and the gap around it',
    { ...SIZES, title: '4-16-4 clear', area: '0.5389', mass: '10.8', cover: '17', clearance: '5' },
  ),
  'setout-handle': word(
    '{ $sash } on the sash, { $addon } on the add-on frame, { $side }',
    'setout: where the handle is, from the end of the part',
    { sash: '606', addon: '619.5', side: 'right side' },
  ),
  'setout-handle-sash': word(
    '{ $sash } on the sash, { $side }',
    'setout: the same, where there is no add-on frame',
    {
      sash: '606',
      side: 'right side',
    },
  ),
  'setout-side-left': word('left side', 'setout: side of the handle, seen from outside'),
  'setout-side-right': word('right side', 'setout: side of the handle, seen from outside'),
  'setout-side-bottom': word('bottom side', 'setout: side of the handle, seen from outside'),
  'setout-on-addon': word('on the add-on frame', 'setout: where keeps are, behind their places'),
  'setout-on-frame': word('on the frame', 'setout: where keeps are, behind their places'),
  'setout-keeps': word('{ $keeps } { $where }', 'setout: where the keeps are', {
    keeps: '310.5, 928.5',
    where: 'on the add-on frame',
  }),
  'setout-keeps-gear': word(
    '{ $keeps } { $where } ({ $gear })',
    'setout: where the keeps are, for which gear',
    {
      keeps: '310.5, 928.5',
      where: 'on the add-on frame',
      gear: 'espagnolette 300',
    },
  ),
  'setout-keeps-none': word('none', 'setout: instead of the places of keeps'),
  'setout-stay': word(
    '{ $stay }: { $uses }',
    'setout: the stay of a light, and how much of what it takes is used',
    {
      stay: '400',
      uses: 'width 576 of 650',
    },
  ),
  'setout-stay-near': word(
    '{ $stay }: { $uses } - near limit',
    'setout: the same, and more is hardly possible',
    {
      stay: '400',
      uses: 'height 1212 of 1250',
    },
  ),
  'setout-stay-none': word('none', 'setout: no stay'),
  'setout-sums': word(
    '{ $n } cuts across the whole close to { $error }',
    'setout: sums of all sizes in a row, and their largest error',
    {
      n: '6',
      error: '0',
    },
  ),
  'setout-sum-upright': word('upright: { $terms } = { $whole }', 'setout: a sum from bottom to top', {
    terms: 'bottom frame 52 + L1 1196 + top frame 52',
    whole: '1300',
  }),
  'setout-sum-level': word('level: { $terms } = { $whole }', 'setout: a sum from left to right', {
    terms: 'left frame 52 + L1 696 + right frame 52',
    whole: '800',
  }),
  'setout-measured-long': word(
    'long point',
    'setout --cut: a mitred bar is measured at its longest; columns',
  ),
  'setout-measured-square': word('square', 'setout --cut: a bar cut at right angles; columns'),
  'setout-measured-run': word('run', 'setout --cut: a gasket, by its length; columns'),
  'setout-datum': word('datum { $datum }', 'setout --cut: the end from which marks are measured', {
    datum: 'left end',
  }),
  'setout-loose': word('Loose pieces', 'setout --cut: above pieces that are not cut'),
  'setout-part': word(
    '{ $part }, { $length } long, from the { $datum }',
    'setout --marks: a part, above its marks',
    {
      part: 'frame head',
      length: '1000',
      datum: 'left end, seen from outside',
    },
  ),
  'setout-above': word('(as above)', 'setout --why: a number whose sum stands further up'),
  'setout-more': word(
    '({ $n } { $n ->\n  [one] line\n *[other] lines\n} more)',
    'setout --why: the rest of a long tree',
    { n: 12 },
  ),
};
