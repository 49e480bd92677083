/** Words of the measure room besides its refusals. */
import { messagesOf, word, writtenOf } from '../base/words.js';

const UNIT = 'name of a unit in a sentence';
const LENGTH = 'one of the six lengths of a frame, seen from outside';
const CORNER = 'a corner by its initials: top left, top right, bottom right, bottom left';
const MISREAD = 'asks about a likely misreading, before it is judged';
const SLIP = 'a usual slip that explains a reading, before "?"';
const BOUNDS = 'a limit';
const NOTE = 'of a verdict; a journal keeps it in English';
const WANTING = 'why a limit cannot be applied';
const ADVICE = 'what the readings of a frame show, and what to do; a journal keeps it in English';
const PICTURE = 'below the picture of a frame as it was measured';
const QUANTITY = 'what an instrument measures';
const KIND = 'kind of an instrument, after "with a"';
export const MEASURE_WORDS = {
  'unit-mm': word('mm', UNIT),
  'unit-inch': word('inches', UNIT),
  'unit-N': word('newtons', UNIT),
  'unit-kg': word('kg', UNIT),
  'unit-deg': word('degrees', UNIT),
  'unit-min': word('minutes', UNIT),
  'unit-C': word('degrees Celsius', UNIT),
  'unit-Nm': word('newton metres', UNIT),
  'unit-%': word('percent', UNIT),
  'unit-lx': word('lux', UNIT),
  'unit-Pa': word('pascals', UNIT),
  'unit-bar': word('bar', UNIT),
  'unit-µm': word('micrometres', UNIT),
  wanted: word('{ $quantity }, { $unit }', 'what a check asks an instrument for', {
    quantity: 'gap',
    unit: 'mm',
  }),
  'wanted-kind': word(
    '{ $quantity } with a { $kinds }, { $unit }',
    'what a check asks an instrument for, of one of some kinds',
    { quantity: 'length', kinds: 'tape', unit: 'mm' },
  ),
  'quantity-length': word('length', QUANTITY),
  'quantity-gap': word('gap', QUANTITY),
  'quantity-depth': word('depth', QUANTITY),
  'quantity-angle': word('angle', QUANTITY),
  'quantity-mass': word('mass', QUANTITY),
  'quantity-force': word('force', QUANTITY),
  'quantity-torque': word('torque', QUANTITY),
  'quantity-temperature': word('temperature', QUANTITY),
  'quantity-humidity': word('humidity', QUANTITY),
  'quantity-time': word('time', QUANTITY),
  'quantity-illuminance': word('illuminance', QUANTITY),
  'quantity-pressure': word('pressure', QUANTITY),
  'quantity-coating': word('coating thickness', QUANTITY),
  'kind-tape': word('tape', KIND),
  'kind-rule': word('rule', KIND),
  'kind-calliper': word('calliper', KIND),
  'kind-feeler': word('feeler gauge', KIND),
  'kind-square': word('square', KIND),
  'kind-straight-edge': word('straight edge', KIND),
  'kind-trammel': word('trammel', KIND),
  'kind-spring-balance': word('spring balance', KIND),
  'kind-timer': word('timer', KIND),
  'kind-gauge': word('gauge', KIND),
  'length-top': word('top', LENGTH),
  'length-bottom': word('bottom', LENGTH),
  'length-left': word('left', LENGTH),
  'length-right': word('right', LENGTH),
  'length-bl_tr': word('bottom left to top right', LENGTH),
  'length-br_tl': word('bottom right to top left', LENGTH),
  'corner-tl': word('tl', CORNER),
  'corner-tr': word('tr', CORNER),
  'corner-br': word('br', CORNER),
  'corner-bl': word('bl', CORNER),
  'misread-finer': word(
    '{ $figure }{ $unit } is finer than { $id } reads: its smallest step is { $step }{ $unit }.',
    MISREAD,
    { figure: '12.53', unit: ' mm', id: 'tape-3', step: '1' },
  ),
  'misread-other-instrument': word(
    'Was it read from another instrument? Scan that one, and type the reading again.',
    MISREAD,
  ),
  'misread-repeat': word(
    'The repeats differ by { $apart }{ $unit }; { $usual } is usual. Read both again.',
    MISREAD,
    { apart: '2', unit: ' mm', usual: '0.5' },
  ),
  'misread-read': word('Read: { $figures }.', MISREAD, { figures: '1200, 1202' }),
  'misread-hook': word('A slipped hook or a different edge at the corner shows like this.', MISREAD),
  'misread-far': word(
    '{ $figure }{ $unit } lies { $apart }{ $unit } from the expected { $expected }. Read again, or confirm it.',
    MISREAD,
    { figure: '1300', unit: ' mm', apart: '100', expected: '1200' },
  ),
  'misread-slip': word('{ $figure }: { $slip }?', MISREAD, { figure: '1300', slip: 'a slip of 100 mm' }),
  'misread-at': word('{ $length }: { $what }', MISREAD, {
    length: 'top',
    what: 'The repeats differ by 2 mm; 0.5 is usual. Read both again.',
  }),
  'misread-impossible': word(
    'These lengths cannot form a frame: at least one reading is wrong. Read them again.',
    MISREAD,
  ),
  'misread-length': word('{ $length } { $figure }', MISREAD, { length: 'top', figure: '1200' }),
  'misread-sizes': word(
    'The diagonals and sizes miss each other by { $apart }{ $unit }, where { $usual } is usual: opposite sides differ, or a reading is wrong. Read the other two sides.',
    MISREAD,
    { apart: '4', unit: ' mm', usual: '1.2' },
  ),
  'misread-six': word(
    'The six readings cannot all be true: they miss closing by { $apart }{ $unit }, where up to { $usual } is usual. Read again the ones you doubt.',
    MISREAD,
    { apart: '4', unit: ' mm', usual: '1.2' },
  ),
  'misread-which': word('Which one is wrong cannot be told from the numbers.', MISREAD),
  'misread-no-change': word(
    '{ $length } { $figure }: no change of this one alone would close the figure',
    MISREAD,
    { length: 'top', figure: '1200' },
  ),
  'misread-change': word('{ $length } { $figure }: { $change } to { $needed }', MISREAD, {
    length: 'top',
    figure: '1200',
    change: '+5',
    needed: '1205',
  }),
  'misread-change-slips': word('{ $length } { $figure }: { $change } to { $needed } ({ $slips }?)', MISREAD, {
    length: 'top',
    figure: '1200',
    change: '+5',
    needed: '1205',
    slips: 'a slip of 5 mm',
  }),
  'slip-end': word('the tape was held at its end, not at the 100 mm mark', SLIP),
  'slip-start': word('the 100 mm start was not taken off', SLIP),
  'slip-of': word('a slip of { $length }', SLIP, { length: '5 mm' }),
  'slip-swapped': word('two digits swapped: { $figure }', SLIP, { figure: '1212' }),
  'slip-turned': word('6 and 9 mixed up: { $figure }', SLIP, { figure: '1209' }),
  'bounds-within': word('within ±{ $high } { $unit }', BOUNDS, { high: '1.5', unit: 'mm' }),
  'bounds-from': word('from { $low } to { $high } { $unit }', BOUNDS, { low: '-0.5', high: '0', unit: 'mm' }),
  'bounds-most': word('at most { $high } { $unit }', BOUNDS, { high: '4', unit: 'mm' }),
  'bounds-least': word('at least { $low } { $unit }', BOUNDS, { low: '3', unit: 'mm' }),
  'says-within': word('{ $figure }, within ±{ $high } { $unit }', NOTE, {
    figure: 'deviation +0.5 mm',
    high: '1.5',
    unit: 'mm',
  }),
  'says-between': word('{ $figure }, from { $low } to { $high } { $unit }', NOTE, {
    figure: '3 mm',
    low: '2',
    high: '4',
    unit: 'mm',
  }),
  'says-most': word('{ $figure }, at most { $high } { $unit }', NOTE, {
    figure: '3 mm',
    high: '4',
    unit: 'mm',
  }),
  'says-least': word('{ $figure }, at least { $low } { $unit }', NOTE, {
    figure: '5 mm',
    low: '4',
    unit: 'mm',
  }),
  'says-deviation': word('deviation { $off } { $unit }', NOTE, { off: '+0.5', unit: 'mm' }),
  'says-diagonals': word('difference of diagonals { $apart } mm', NOTE, { apart: '1.5' }),
  'says-sides': word('{ $a } and { $b } differ by { $apart } mm', NOTE, {
    a: 'top',
    b: 'bottom',
    apart: '1.5',
  }),
  'says-corner': word('corner { $corner } { $off } degrees from square', NOTE, { corner: 'tl', off: '+0.1' }),
  'says-from': word('{ $length } { $off } mm from { $size }', NOTE, {
    length: 'top',
    off: '+0.5',
    size: '1200',
  }),
  'says-point-from': word('{ $point } { $off } { $unit } from { $size }', NOTE, {
    point: 'Middle of the sill',
    off: '+0.5',
    unit: 'mm',
    size: '1200',
  }),
  'says-minus': word('{ $more } { $a } minus { $less } { $b }: { $apart } { $unit }', NOTE, {
    more: 'left',
    a: '4.5',
    less: 'right',
    b: '4',
    apart: '0.5',
    unit: 'mm',
  }),
  'says-area': word('{ $w } by { $h } is { $area } m2', NOTE, { w: '500', h: '700', area: '0.35' }),
  'mean-of': word('Mean of { $n } readings: { $figure } { $unit }.', NOTE, {
    n: 3,
    figure: '12.4',
    unit: 'mm',
  }),
  corrected: word('Corrected by { $by } mm from { $celsius } to 20 degrees.', NOTE, {
    by: '+0.3',
    celsius: '8',
  }),
  'sizes-corrected': word('Sizes corrected from { $celsius } to 20 degrees before they were judged.', NOTE, {
    celsius: '8',
  }),
  'limit-no-size': word('The limit { $id } depends on size, and no nominal size is known here.', NOTE, {
    id: 'frame-size',
  }),
  'limit-no-band': word(
    'The limit { $id } has no band for a size of { $size } mm: add one to shared/limits.yaml.',
    NOTE,
    { id: 'frame-size', size: '6000' },
  ),
  'limit-unknown': word('The limit { $id } is not in shared/limits.yaml: add it, with its source.', NOTE, {
    id: 'frame-size',
  }),
  'limit-not-these': word('The limit { $id } ({ $title }) cannot be applied to these readings.', NOTE, {
    id: 'frame-size',
    title: 'Frame size',
  }),
  'limit-not-these-why': word(
    'The limit { $id } ({ $title }) cannot be applied to these readings: { $why }.',
    NOTE,
    { id: 'frame-size', title: 'Frame size', why: 'both diagonals are needed' },
  ),
  'wanting-diagonals': word('both diagonals are needed', WANTING),
  'wanting-opposite-sides': word('two opposite sides are needed', WANTING),
  'wanting-corner-angle': word('four sides and two diagonals are needed', WANTING),
  'wanting-deviation': word('a nominal size and at least one side are needed', WANTING),
  'wanting-value': word('it is for single numbers', WANTING),
  'wanting-spread': word('it is for checks of several points', WANTING),
  'wanting-pairs': word('it is for checks of several points', WANTING),
  'wanting-rise': word('it is for checks of several points', WANTING),
  'wanting-area': word('it is for two readings', WANTING),
  confirmed: word('The reading was asked about as a likely misread, and confirmed.', NOTE),
  'unnamed-guarded': word(
    'No instrument was named, so the guard band cannot be worked out: scan the instrument and read again.',
    NOTE,
  ),
  unnamed: word('No instrument was named: the uncertainty of this figure is not known.', NOTE),
  'unnamed-guess': word('Name the instrument: without it the guard band is a guess.', NOTE),
  'coarse-take': word(
    'U = { $U } { $unit } is as wide as the limit: this pass says little. Take { $better }.',
    NOTE,
    { U: '1.2', unit: 'mm', better: 'calliper-1' },
  ),
  'coarse-none': word(
    'U = { $U } { $unit } is as wide as the limit: this pass says little. No instrument here is good enough.',
    NOTE,
    { U: '1.2', unit: 'mm' },
  ),
  'of-limit': word('{ $limit }: { $note }', NOTE, { limit: 'Diagonals of a frame', note: 'Not proven: …' }),
  'rule-simple': word('Decision rule: simple acceptance.', NOTE),
  'rule-simple-u': word('Decision rule: simple acceptance. Uncertainty U = { $U } { $unit }.', NOTE, {
    U: '0.4',
    unit: 'mm',
  }),
  'rule-guarded': word('Decision rule: guarded, w = { $factor }{ $named }.', NOTE, {
    factor: '0.83 U',
    named: ' (ISO 14253-1)',
  }),
  'rule-guarded-u': word(
    'Decision rule: guarded, w = { $factor } = { $width } { $unit }{ $named }. Uncertainty U = { $U } { $unit }.',
    NOTE,
    { factor: '0.83 U', width: '0.33', unit: 'mm', named: ' (ISO 14253-1)', U: '0.4' },
  ),
  'rule-steps': word('Decision rule: by steps; each lies between the step that enters and the next.', NOTE),
  'no-limit': word('Recorded only: no limit is set for this.', NOTE),
  'open-impossible': word('Not judged: the readings give no figure.', NOTE),
  'open-sizes': word('Not judged: diagonals and sizes do not go together. Read the other two sides.', NOTE),
  'open-confirmed': word(
    'Not judged, although confirmed: the readings are too far from closing to be true together. Measure all six again.',
    NOTE,
  ),
  open: word('Not judged: the readings do not close.', NOTE),
  'not-proven-inside': word(
    'Not proven: { $figure } { $unit } lies { $by } { $unit } inside the limit, less than the guard band. The chance that it holds is about { $probability } %.',
    NOTE,
    { figure: '1.4', unit: 'mm', by: '0.1', probability: '80' },
  ),
  'not-proven-outside': word(
    'Not proven: { $figure } { $unit } lies { $by } { $unit } outside the limit, less than the guard band. The chance that it holds is about { $probability } %.',
    NOTE,
    { figure: '1.6', unit: 'mm', by: '0.1', probability: '30' },
  ),
  'settle-repeat': word(
    'A repeat would settle it, if the mean stays where it is (readings that fall on the same mark do not help).',
    NOTE,
  ),
  'settle-mean': word(
    'The mean of { $n } fresh readings would settle it, if it stays where it is (readings that fall on the same mark do not help).',
    NOTE,
    { n: 3 },
  ),
  'settle-instrument': word(
    'A better instrument would settle it if the figure stays: { $instruments }.',
    NOTE,
    { instruments: 'calliper-1, calliper 150 mm' },
  ),
  'settle-none': word(
    'No instrument of this workshop can settle it: correct the work, or treat it as a fail.',
    NOTE,
  ),
  unseen: word(
    'Diagonals do not show bow, twist or a lifted corner: check those on the flat bench with straight-edge and feeler.',
    ADVICE,
  ),
  'tape-assumed': word('No instrument was named: a class II tape read to the millimetre is assumed.', ADVICE),
  'shows-diagonals': word('Difference of diagonals { $apart } mm (U = { $U }).', ADVICE, {
    apart: '1.5',
    U: '0.8',
  }),
  'shows-racking': word('Racking { $apart } mm over the height (U = { $U }).', ADVICE, {
    apart: '0',
    U: '0.8',
  }),
  'shows-racking-right': word(
    'Racking { $apart } mm over the height (U = { $U }), the top stands to the right.',
    ADVICE,
    { apart: '2', U: '0.8' },
  ),
  'shows-racking-left': word(
    'Racking { $apart } mm over the height (U = { $U }), the top stands to the left.',
    ADVICE,
    { apart: '2', U: '0.8' },
  ),
  'shows-taper-width': word('Top less bottom { $off } mm.', ADVICE, { off: '+0.5' }),
  'shows-taper-height': word('Right less left { $off } mm.', ADVICE, { off: '+0.5' }),
  'cannot-five': word(
    'Five readings fix the figure and check nothing: a misread would not show. The sixth reading would show it.',
    ADVICE,
  ),
  'cannot-sizes': word(
    'With two sizes, opposite sides are taken as equal: a taper is not seen, and equal diagonals would not prove square.',
    ADVICE,
  ),
  'cannot-diagonals-alone': word(
    'Two diagonals alone give their difference: neither sizes, nor taper, nor how far a corner is out.',
    ADVICE,
  ),
  'cannot-diagonals': word(
    'Diagonals without all four sides do not show a taper, and a misread would not show.',
    ADVICE,
  ),
  'cannot-too-few': word('Nothing can be said of squareness without both diagonals.', ADVICE),
  'cannot-impossible': word('These readings give no figure at all.', ADVICE),
  'push-long': word('The diagonal { $diagonal } is long by { $by } mm.', ADVICE, {
    diagonal: 'bottom left to top right',
    by: '3',
  }),
  'push-set': word(
    'The corners have set: a cured corner is not to be forced, its seal would break where nobody sees it. Raise a snag; a corner is cut out and replaced, or conceded by who may.',
    ADVICE,
  ),
  'push-in': word('Push it in at its two ends before the sealant sets.', ADVICE),
  'push-in-left': word(
    'Push it in at its two ends before the sealant sets: the top right corner goes about { $by } mm to the left with the bottom held.',
    ADVICE,
    { by: '2' },
  ),
  'push-in-right': word(
    'Push it in at its two ends before the sealant sets: the top left corner goes about { $by } mm to the right with the bottom held.',
    ADVICE,
    { by: '2' },
  ),
  'push-aim': word(
    'Aim for { $aim } on both diagonals; go a little past, it springs back, and measure again when it is let go.',
    ADVICE,
    { aim: '1920.9' },
  ),
  'member-either': word(
    'The { $long } is { $by } mm longer than the { $short }: either the { $long } is long or the { $short } is short. No pushing will cure that: measure both at both ends, then look for swarf in the mitre, a cleat not home, or a piece cut wrong.',
    ADVICE,
    { long: 'top', by: '3', short: 'bottom' },
  ),
  'member-both': word(
    'The { $long } is { $by } mm longer than the { $short }: both are off their size, by { $offLong } and { $offShort } mm. No pushing will cure that: measure both at both ends, then look for swarf in the mitre, a cleat not home, or a piece cut wrong.',
    ADVICE,
    { long: 'top', by: '3', short: 'bottom', offLong: '1.5', offShort: '1.5' },
  ),
  'member-one': word(
    'The { $long } is { $by } mm longer than the { $short }: the { $which } is the one off its size. No pushing will cure that: measure both at both ends, then look for swarf in the mitre, a cleat not home, or a piece cut wrong.',
    ADVICE,
    { long: 'top', by: '3', short: 'bottom', which: 'top' },
  ),
  'sizes-longer': word(
    'Both diagonals are longer than the computed { $size } by more than { $by } mm: that is a size error, look at the sides.',
    ADVICE,
    { size: '1920.9', by: '2' },
  ),
  'sizes-shorter': word(
    'Both diagonals are shorter than the computed { $size } by more than { $by } mm: that is a size error, look at the sides.',
    ADVICE,
    { size: '1920.9', by: '2' },
  ),
  picture: word(
    'As measured, seen from outside; error drawn { $factor } times its size. Dotted: square, of the mean sizes.',
    PICTURE,
    { factor: '20' },
  ),
  'picture-nominal': word(
    'As measured, seen from outside; error drawn { $factor } times its size. Dotted: nominal { $w } x { $h }.',
    PICTURE,
    { factor: '20', w: '1200', h: '1500' },
  ),
  'picture-diagonals': word('Diagonals: { $diagonals }.', PICTURE, {
    diagonals: 'bottom left to top right 1920 mm',
  }),
  'picture-diagonal': word('{ $diagonal } { $label }', PICTURE, {
    diagonal: 'bottom left to top right',
    label: '1920.5',
  }),
  'picture-diagonal-long': word('{ $diagonal } { $label }, the long one', PICTURE, {
    diagonal: 'bottom left to top right',
    label: '1922',
  }),
  'source-published': word('published: { $source }', 'where a limit comes from', {
    source: 'BS 4873:2009, 6.2',
  }),
  'source-manual': word('manual: { $source }', 'where a limit comes from', { source: 'BS 4873:2009, 6.2' }),
  'source-house-rule': word('house rule: { $source }', 'where a limit comes from', {
    source: 'BS 4873:2009, 6.2',
  }),
  'source-common-practice': word('common practice: { $source }', 'where a limit comes from', {
    source: 'BS 4873:2009, 6.2',
  }),
  'source-invented': word('invented: { $source }', 'where a limit comes from', {
    source: 'the demonstration',
  }),
  'source-memory': word('memory: { $source }', 'where a limit comes from', { source: 'BS 4873:2009, 6.2' }),
  'steps-between': word(
    'Decision rule: by steps; { $low } { $unit } enters, { $high } { $unit } does not.',
    'of a verdict; a journal keeps it in English',
    { low: '0.1', unit: 'mm', high: '0.15' },
  ),
  'steps-none': word(
    'Decision rule: by steps; none enters, { $high } { $unit } does not.',
    'of a verdict; a journal keeps it in English',
    { high: '0.05', unit: 'mm' },
  ),
  'steps-all': word(
    'Decision rule: by steps; { $low } { $unit } enters, and there is none above it.',
    'of a verdict; a journal keeps it in English',
    { low: '1', unit: 'mm' },
  ),
  'steps-nothing': word(
    'Decision rule: by steps; none enters, and there is none above it.',
    'of a verdict; a journal keeps it in English',
  ),
  'error-at-most': word('error at most { $error } { $unit }', 'of a verdict; a journal keeps it in English', {
    error: '0.5',
    unit: 'mm',
  }),
  'accuracy-class': word('class { $class }', 'of a verdict; a journal keeps it in English', { class: 'II' }),
} as const;

export const measureWords = messagesOf(MEASURE_WORDS);
/** As a journal keeps them: in English. */
export const measureSays = writtenOf(MEASURE_WORDS);
