/** What init asks for a shop's own workshop, and what new says. */
import { word } from '../../base/words.js';

const ASKS = 'init: a question at the terminal';
const NEXT = 'init: what a command is for, behind it';
const ASKS_SECTION = 'new set: a question at the terminal';
const MADE = 'new set: what a file is, behind its name';
const DRAWER = 'init: an instrument that may lie in the drawer';

/** The same in every language. */
export const NEXT_COMMANDS = {
  pin: 'pinchrod person pin',
  set: 'pinchrod new set NAME',
  bench: 'pinchrod',
} as const;

/** From there to the first step of an own window. */
export const FIRST_PAGE = 'shared/first-window.md';

export const FIRST_SAYS = {
  'first-title': word('a new workshop', 'init: over the questions'),
  'first-hello': word(
    'Esc twice leaves and writes nothing; < goes back one question.',
    'init: above the questions',
  ),
  'first-help': word(
    'Type the answer and press Enter. - leaves it empty, < goes back one question. All of it can be changed later in shared/.',
    'init: help at the questions',
  ),
  'first-of': word('question { $n } of { $of }', 'init: which question it is', { n: 2, of: 5 }),
  'first-name': word('What is the workshop called?', ASKS),
  'first-place': word('Its address, for labels; - for none.', ASKS),
  'first-people': word(
    'Who works here? A short code and the name, one at a time: jb Joan Bexley. First whoever runs the workshop.',
    ASKS,
  ),
  'first-people-more': word(
    '{ $last } is here, { $n } so far. The next one, or a full stop when all are there; < takes the last back.',
    ASKS,
    { last: 'jb: Joan Bexley', n: 2 },
  ),
  'first-instruments': word(
    'What lies in the drawer? Their numbers, such as 1 3 5; all, or - for nothing.',
    ASKS,
  ),
  'first-row': word('{ $n }  { $what }', 'init: a row of the list of instruments', {
    n: 3,
    what: 'steel rule 1 m',
  }),
  'first-tape': word('tape measure that reads millimetres', DRAWER),
  'first-fine-tape': word('tape measure that reads half millimetres', DRAWER),
  'first-rule': word('steel rule 1 m', DRAWER),
  'first-long-rule': word('long rule 3 m with an end stop', DRAWER),
  'first-calliper': word('digital calliper 150 mm', DRAWER),
  'first-feeler': word('feeler gauges', DRAWER),
  'first-bevel': word('digital bevel', DRAWER),
  'first-straight-edge': word('straight-edge 2 m', DRAWER),
  'first-spring-balance': word('spring balance', DRAWER),
  'first-clock': word('clock at the bench', DRAWER),
  'first-thermometer': word('thermometer', DRAWER),
  'first-gap-gauge': word('stepped gap gauge 4 to 20 mm', DRAWER),
  'first-coating-gauge': word('coating gauge', DRAWER),
  'first-language': word('Which language does the bench speak? { $languages }', ASKS, {
    languages: 'en, de',
  }),
  'first-confirm': word('That is all. Type ok and press Enter.', 'init: the last question'),
  'first-done': word('All is answered.', 'init: after the last question'),
  'first-made': word(
    '{ $name } is a workshop now: { $folder }, { $n } { $n ->\n  [one] file\n *[other] files\n}.',
    'init',
    { name: 'Quay Lane Windows', folder: 'shop', n: 30 },
  ),
  'first-next': word('Now: cd { $folder }', 'init: the first command in a new workshop', { folder: 'shop' }),
  'first-pin': word('the PIN of { $name }, which releases holds', NEXT, { name: 'Joan Bexley' }),
  'first-bench': word('the bench, with an invented window to try', NEXT),
  'first-set': word('your first window: it asks for five dimensions', NEXT),
  'first-levels': word(
    '{ $first } and { $second } may release holds (shared/people.yaml)',
    'init: after the commands, where two or more work',
    { first: 'Joan Bexley', second: 'Max Kuhn' },
  ),
  'first-page': word('Your first window, step by step: { $file }', 'init: after the commands', {
    file: 'shared/first-window.md',
  }),
  'first-nothing': word('Nothing was made.', 'init: somebody left the questions'),
  'section-title': word('profile set { $name }', 'new set: over the questions', { name: 'own' }),
  'section-hello': word(
    'Five dimensions from the maker’s section of a fixed light, and a window to try. Esc twice leaves and writes nothing; < goes back.',
    'new set: above the questions',
  ),
  'section-face': word('face: outer edge to sight line, mm', ASKS_SECTION),
  'section-floor': word('floor: sight line to rebate floor, mm', ASKS_SECTION),
  'section-edge': word('edge: clearance from the glass to the rebate floor, mm', ASKS_SECTION),
  'section-cover': word('cover: glass behind the sight line, mm (floor less edge)', ASKS_SECTION),
  'section-bead': word('bead: height of the glazing bead, mm', ASKS_SECTION),
  'section-window': word('window: overall width x height, mm, such as 900 x 1200', ASKS_SECTION),
  'section-done': word('All is answered.', 'new set: after the last question'),
  'section-help': word(
    'A number in millimetres, then Enter. All of it can be changed later in the file.',
    'new set: help',
  ),
  'section-set': word('your five dimensions; the rest is made up', MADE),
  'section-procedure': word('how it is built: make it your own', MADE),
  'section-job': word('the window to try', MADE),
  'section-made': word(
    'Glass of { $unit }: { $w } x { $h } mm.\nBy hand: { $width } - 2 x { $face } + 2 x { $cover } = { $w }. Check the height likewise.\nNow: pinchrod, then { $unit }, then your code.',
    'new set: below the files that were made',
    { unit: 'W1-1', w: 830, h: 1130, width: 900, face: 50, cover: 15 },
  ),
  'new-set': word(
    '{ $file } is there: a set that works, with made-up figures and what each is for. Put your own in their place.\nThen: pinchrod new job NAME --set { $name }, and pinchrod setout NAME',
    'new set',
    { file: 'shared/profile-sets/own.yaml', name: 'own' },
  ),
  'new-job': word(
    '{ $file } is there: one window of profile set { $set }, by procedure { $procedure }.\nThen: pinchrod setout { $name } { $unit }',
    'new job',
    { file: 'shared/jobs/own.yaml', name: 'own', set: 'w52', procedure: 'casement', unit: 'W1-1' },
  ),
  'new-job-procedure': word(
    '{ $file } is there: no procedure here built a window of { $set }, so one is begun. Make it your own.',
    'new job: above the lines of new-job',
    { file: 'procedures/own.yaml', set: 'own' },
  ),
  'new-procedure': word(
    '{ $file } is there: cut, assemble, square, glaze, release.\nThen: pinchrod new job NAME --procedure { $name }, and pinchrod lint { $file }',
    'new procedure',
    { file: 'procedures/own.yaml', name: 'own' },
  ),
  'new-instrument': word(
    '{ $name } stands at the end of { $file } as a tape of 5 m. Put its own figures there.',
    'new instrument',
    { file: 'shared/instruments.yaml', name: 'T5' },
  ),
} as const;
