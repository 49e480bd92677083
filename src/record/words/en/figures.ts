/** Figures over many units and studies of instruments, as documents. */
import { word } from '../../../base/words.js';

const CHART = 'Name of a chart.';
const FACT = 'Before a figure.';
const COLUMN = 'Title of a column.';
const REFUSED = 'Why no capability is told.';

export const FIGURES_WORDS = {
  'doc-fig-title': word('Figures: { $what }', 'Title.', { what: 'Frame diagonals' }),
  'doc-fig-under': word(
    '{ $n ->\n  [one] { $n } reading\n *[other] { $n } readings\n }, { $time }',
    'Under the title.',
    { n: 250, time: '2026-11-24 16:20' },
  ),
  'doc-fig-foot': word('Figures, { $what }', 'At the foot of a page.', { what: 'Frame diagonals' }),
  'doc-fig-subject': word(
    '{ $n ->\n  [one] { $n } reading\n *[other] { $n } readings\n }, { $signals ->\n  [0] no point signals\n  [one] { $signals } signal\n *[other] { $signals } signals\n }',
    'Said when the document is written.',
    { n: 250, signals: 2 },
  ),
  'doc-fig-n': word('Readings', FACT),
  'doc-fig-mean': word('Mean', FACT),
  'doc-fig-sd': word('Standard deviation of all', FACT),
  'doc-fig-within': word('Standard deviation within groups', FACT),
  'doc-fig-by-moving-range': word('{ $sd }, from moving ranges', 'How it was found.', { sd: '0.21' }),
  'doc-fig-by-range': word('{ $sd }, from ranges', 'How it was found.', { sd: '0.21' }),
  'doc-fig-by-sd': word('{ $sd }, from standard deviations', 'How it was found.', { sd: '0.21' }),
  'doc-fig-by-frozen': word('{ $sd }, frozen', 'How it was found.', { sd: '0.21' }),
  'doc-fig-tolerance': word('Limits of a reading', FACT),
  'doc-fig-from-to': word('{ $low } to { $high }', 'A range.', { low: '1.02', high: '1.41' }),
  'doc-fig-at-least': word('at least { $low }', 'A range with one end.', { low: '1.02' }),
  'doc-fig-at-most': word('at most { $high }', 'A range with one end.', { high: '1.41' }),
  'doc-fig-index': word('{ $value } ({ $low } to { $high })', 'A figure with its interval.', {
    value: '1.21',
    low: '1.02',
    high: '1.41',
  }),
  'doc-fig-capability': word('Capability', 'Heading.'),
  'doc-fig-level': word(
    'In brackets: where the true figure lies in 95 of 100 cases. Cp and Cpk rest on the scatter within groups, Pp and Ppk on that of all readings.',
    'Under the figures of capability.',
  ),
  'doc-fig-uncertainty': word(
    'A single reading is uncertain by ±{ $u }: what scatters is the work and the measuring together.',
    'Under the figures of capability.',
    { u: '0.3 mm' },
  ),
  'doc-fig-refused': word('No capability: { $why }', 'In place of the figures.', {
    why: 'readings are too few.',
  }),
  'doc-fig-refused-no-limits': word('no limit of a reading is given.', REFUSED),
  'doc-fig-refused-no-scatter': word(
    'all readings are alike; does the instrument read finely enough?',
    REFUSED,
  ),
  'doc-fig-refused-few-readings': word('{ $n } readings are too few; 30 are the least.', REFUSED, { n: 12 }),
  'doc-fig-refused-few-values': word(
    'there are fewer than five different readings: the instrument is too coarse.',
    REFUSED,
  ),
  'doc-fig-refused-coarse': word('the instrument reads in steps larger than the scatter.', REFUSED),
  'doc-fig-refused-unstable': word(
    'points signal, so what comes next cannot be told from what was.',
    REFUSED,
  ),
  'doc-fig-refused-not-normal': word(
    'the readings are not spread as a normal distribution is; percentiles need 1,000 readings.',
    REFUSED,
  ),
  'doc-fig-percentiles': word(
    'By the readings’ own percentiles (0.135, 50 and 99.865 %): { $low }, { $middle }, { $high }; Pp { $pp }, Ppk { $ppk }.',
    'For readings that are not normal.',
    { low: '-1.2', middle: '0.1', high: '2.3', pp: '1.1', ppk: '0.9' },
  ),
  'doc-fig-chart-individuals': word('Single readings', CHART),
  'doc-fig-chart-moving-range': word('Moving ranges', CHART),
  'doc-fig-chart-mean': word('Means of groups', CHART),
  'doc-fig-chart-range': word('Ranges of groups', CHART),
  'doc-fig-chart-sd': word('Standard deviations of groups', CHART),
  'doc-fig-chart-p': word('Share that failed', CHART),
  'doc-fig-chart-laney': word('Share that failed, limits widened after Laney', CHART),
  'doc-fig-limits': word('Centre { $centre }, limits { $lower } and { $upper }.', 'Under a chart.', {
    centre: '50.81',
    lower: '45.816',
    upper: '55.804',
  }),
  'doc-fig-limits-vary': word(
    'Centre { $centre }; limits change with the size of the group.',
    'Under a chart.',
    {
      centre: '50.81',
    },
  ),
  'doc-fig-first': word(
    'Limits are found from points 1 to { $first } and judge the rest.',
    'Under a chart.',
    {
      first: 25,
    },
  ),
  'doc-fig-frozen': word('Limits were frozen by { $who } on { $day }.', 'Under a chart.', {
    who: 'Joan Bexley',
    day: '2026-11-24',
  }),
  'doc-fig-calm': word('No point signals.', 'Under a chart.'),
  'doc-fig-signal': word('Point { $at } signals: { $rule }.', 'Under a chart.', {
    at: 7,
    rule: 'beyond three standard deviations',
  }),
  'doc-fig-more-signals': word(
    '{ $n ->\n  [one] { $n } more signal\n *[other] { $n } more signals\n }.',
    'Under a chart.',
    { n: 12 },
  ),
  'doc-fig-rule-R1': word('beyond three standard deviations (R1)', 'A rule.'),
  'doc-fig-rule-R2': word('two of three beyond two, on one side (R2)', 'A rule.'),
  'doc-fig-rule-R3': word('four of five beyond one, on one side (R3)', 'A rule.'),
  'doc-fig-rule-R4': word('eight in a row on one side (R4)', 'A rule.'),
  'doc-fig-signs': word(
    'o reading, X signal, = centre, - limits, . limits of a reading',
    'Signs of a chart in text.',
  ),
  'doc-fig-alt': word(
    '{ $chart }: { $n } points, { $limits } { $signals }',
    'Read out where a chart is not seen.',
    {
      chart: 'Single readings',
      n: 40,
      limits: 'Centre 50.81, limits 45.816 and 55.804.',
      signals: 'No point signals.',
    },
  ),
  'doc-fig-points': word('Points', 'Heading of a table.'),
  'doc-fig-col-at': word('Point', COLUMN),
  'doc-fig-col-of': word('Of', COLUMN),
  'doc-fig-col-value': word('Value', COLUMN),
  'doc-fig-col-limits': word('Limits', COLUMN),
  'doc-fig-col-signal': word('Signal', COLUMN),
  'doc-study-title': word('Study: { $what }', 'Title.', { what: 'gauge.csv' }),
  'doc-study-under': word(
    '{ $parts } parts, { $people } people, { $trials } readings each, { $time }',
    'Under the title.',
    { parts: 10, people: 3, trials: 3, time: '2026-11-24 16:20' },
  ),
  'doc-study-judged': word('{ $parts } pieces, { $people } people, { $time }', 'Under the title.', {
    parts: 10,
    people: 3,
    time: '2026-11-24 16:20',
  }),
  'doc-study-subject': word(
    'measuring makes up { $percent } % of what scatters',
    'Said when it is written.',
    {
      percent: '27.9',
    },
  ),
  'doc-study-verdict': word(
    'Measuring makes up { $percent } % of the study variation; { $ndc } kinds of part can be told apart.',
    'The result in one line.',
    { percent: '27.9', ndc: 4 },
  ),
  'doc-study-advice': word(
    'Common practice: below 10 % good, up to 30 % fit for some uses, above it not; five kinds or more.',
    'Under the result.',
  ),
  'doc-study-interaction': word(
    'Interaction of part and person: F { $f }, p { $p }. { $used ->\n  [pooled] Above 0.25 it is taken for chance: the pooled figures count.\n *[other] It is real: the figures with it count.\n }',
    'How the block that counts was chosen.',
    { f: '0.4337', p: '0.9741', used: 'pooled' },
  ),
  'doc-study-pooled': word('Without the interaction (pooled)', 'Heading.'),
  'doc-study-unpooled': word('With the interaction (unpooled)', 'Heading.'),
  'doc-study-by-ranges': word('By ranges', 'Heading.'),
  'doc-study-repeatability': word('Repeatability', 'A source of scatter.'),
  'doc-study-reproducibility': word('Reproducibility', 'A source of scatter.'),
  'doc-study-grr': word('Measuring in all', 'A source of scatter.'),
  'doc-study-part': word('Parts', 'A source of scatter.'),
  'doc-study-total': word('Total', 'A source of scatter.'),
  'doc-study-col-source': word('Source', COLUMN),
  'doc-study-col-variance': word('Variance', COLUMN),
  'doc-study-col-sd': word('Deviation', COLUMN),
  'doc-study-col-contribution': word('% of variance', COLUMN),
  'doc-study-col-variation': word('% of deviation', COLUMN),
  'doc-study-bias': word('Bias', 'Heading.'),
  'doc-study-bias-line': word(
    'Reference { $reference }: { $n } readings, mean { $mean }, bias { $bias } ({ $low } to { $high }), p { $p }.',
    'A result.',
    { reference: '1000', n: 10, mean: '1000.2', bias: '0.2', low: '0.1', high: '0.3', p: '0.002' },
  ),
  'doc-study-bias-real': word('The interval leaves zero out: the instrument is off.', 'After it.'),
  'doc-study-bias-none': word('The interval holds zero: no bias is shown.', 'After it.'),
  'doc-study-linearity': word('Linearity', 'Heading.'),
  'doc-study-slope': word(
    'The bias grows by { $slope } for each unit of length ({ $low } to { $high }), p { $p }.',
    'A result.',
    { slope: '0.0002', low: '0.0001', high: '0.0003', p: '0.002' },
  ),
  'doc-study-agreement': word('Agreement', 'Heading.'),
  'doc-study-all': word('all together (Fleiss)', 'Whose judgements.'),
  'doc-study-col-who': word('Who', COLUMN),
  'doc-study-col-kappa': word('Kappa', COLUMN),
  'doc-study-col-agree': word('Agree', COLUMN),
  'doc-study-pair': word('{ $first } and { $second } (Cohen)', 'Whose judgements.', {
    first: 'A',
    second: 'B',
  }),
  'doc-study-self': word('{ $person } with themselves', 'Whose judgements.', { person: 'A' }),
  'doc-study-share': word('{ $agree } of { $of }', 'Pieces.', { agree: 9, of: 10 }),
} as const;
