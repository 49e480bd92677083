/** What shop prints: several benches on one server. */
import { word } from '../../base/words.js';

const SHOP = 'shop: several benches on one server';
const ROW = 'shop status: a row; the first word is padded to a column';
const shop = 'Quay Lane';
const bench = 'bench-1';

export const SHOP_SAYS = {
  'shop-brought': word('"{ $shop }" is brought up to date.', SHOP, { shop }),
  'shop-made': word('"{ $shop }" is a shop now, on { $server }.', SHOP, {
    shop,
    server: 'shed:5432/pinchrod',
  }),
  'shop-roles': word('This user may not make roles. Let the keeper of the server run:', SHOP),
  'shop-first-edition': word("The workshop's files are published as edition 1.", SHOP),
  'shop-part': word('This folder takes part in "{ $shop }" as { $bench }.', SHOP, { shop, bench }),
  'shop-all-here': word('All that the shop has is here. Open the bench with: pinchrod', SHOP),
  'shop-progress': word('{ $what }: { $percent } % of { $of }', SHOP, {
    what: 'journals',
    percent: 40,
    of: 200,
  }),
  'shop-what-journals': word('journals', 'shop join: what is fetched, with how much of it'),
  'shop-what-files': word('files', 'shop join: what is fetched, with how much of it'),
  'shop-row-shop': word('Shop       { $shop }, on { $server }', ROW, { shop, server: 'shed:5432/pinchrod' }),
  'shop-row-behind': word('Bench      { $bench }; clock { $seconds } s behind the server', ROW, {
    bench,
    seconds: '0.4',
  }),
  'shop-row-ahead': word('Bench      { $bench }; clock { $seconds } s ahead of the server', ROW, {
    bench,
    seconds: '0.4',
  }),
  'shop-row-benches': word('Benches    { $benches }', ROW, { benches: 'bench-1, bench-2' }),
  'shop-left': word('{ $bench } (left)', 'shop status: a bench that takes part no more', { bench }),
  'shop-row-handed': word('Handed over: everything.', ROW),
  'shop-row-waiting': word(
    'To hand over: { $lines } { $lines ->\n  [one] line\n *[other] lines\n}, { $files } { $files ->\n  [one] file\n *[other] files\n}.',
    ROW,
    { lines: 12, files: 1 },
  ),
  'shop-row-no-files': word('Files      nothing is published yet', ROW),
  'shop-row-files': word('Files      edition { $n } of { $day } by { $by } ({ $reason })', ROW, {
    n: 3,
    day: '2026-03-09',
    by: 'ot',
    reason: 'new limits',
  }),
  'shop-row-files-other': word('{ $row }; here is edition { $n }', ROW, {
    row: 'Files      edition 3 of 2026-03-09 by ot (new limits)',
    n: 2,
  }),
  'shop-row-changed': word('           changed here and not published: { $files }', ROW, {
    files: 'shared/limits.yaml',
  }),
  'shop-row-no-leases': word('Leases     none', ROW),
  'shop-row-leases': word('Leases     { $bench }: { $units }', ROW, { bench, units: 'a/P1-1, a/P1-2' }),
  'shop-row-leases-also': word('           { $bench }: { $units }', ROW, { bench, units: 'a/P1-1' }),
  'shop-row-branches': word('Branches   { $branches }', ROW, { branches: 'P1-1' }),
  'shop-as-published': word('The files are as they are published.', SHOP),
  'shop-as-published-kept': word(
    'The files are as they are published. Yours are kept under shop/dropped: { $files }.',
    SHOP,
    { files: 'shared/limits.yaml' },
  ),
  'shop-nothing-new': word('Nothing is new.', SHOP),
  'shop-edition': word('Published as edition { $n }.', SHOP, { n: 4 }),
  'shop-taken': word("{ $unit } is { $bench }'s now.", SHOP, { unit: 'P02-1', bench }),
  'shop-no-wait': word('Nothing waits to be resumed.', SHOP),
  'shop-leases-again': word('Leases are given again.', SHOP),
  'shop-copied': word(
    '{ $journals } { $journals ->\n  [one] journal\n *[other] journals\n} and { $files } { $files ->\n  [one] file\n *[other] files\n} are in { $folder }: a workshop by itself.',
    SHOP,
    { journals: 40, files: 12, folder: 'copy' },
  ),
  'shop-removed': word(
    '{ $n } { $n ->\n  [one] journal\n *[other] journals\n} of { $job } { $n ->\n  [one] is\n *[other] are\n} off the server. Each bench still has its own: pinchrod archive { $job } --out FILE --remove takes them away there.',
    SHOP,
    { n: 9, job: 'pier-house' },
  ),
  'shop-left-all': word(
    'Everything is handed over. This folder is a workshop by itself; its bench is that of shared/workshop.yaml.',
    SHOP,
  ),
  'shop-as-last': word('This is how the shop stood here when the line was last up. { $problem }', SHOP, {
    problem: 'The server cannot be reached.',
  }),
  'shop-later': word('It stands here and is handed over with the next connection. { $problem }', SHOP, {
    problem: 'The server cannot be reached.',
  }),
  'shop-same': word(
    'On the server: { $journals } { $journals ->\n  [one] journal\n *[other] journals\n}, { $lines } { $lines ->\n  [one] line\n *[other] lines\n}, { $files } { $files ->\n  [one] file\n *[other] files\n}, as they are here.',
    'verify --shop',
    { journals: 40, lines: 9000, files: 12 },
  ),
  'shop-same-waiting': word(
    '{ $said } { $n } { $n ->\n  [one] journal has\n *[other] journals have\n} more here, to be handed over.',
    'verify --shop',
    { said: 'On the server: 40 journals, 9000 lines, 12 files, as they are here.', n: 2 },
  ),
  'shop-differs': word(
    'On the server: { $journals } { $journals ->\n  [one] journal\n *[other] journals\n}, { $lines } { $lines ->\n  [one] line\n *[other] lines\n}, { $files } { $files ->\n  [one] file\n *[other] files\n}; { $n } { $n ->\n  [one] does\n *[other] do\n} not hold.',
    'verify --shop',
    { journals: 40, lines: 9000, files: 12, n: 1 },
  ),
} as const;
