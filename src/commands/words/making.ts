/** What init, demo, setup, revise, setout, square, train, compare and messages print. */
import { word } from '../../base/words.js';

const SETUP = 'setup: machines and their first-offs';
const REVISE = 'revise: what a change of the files re-opens';
const DEMO = 'demo';

export const MAKING_SAYS = {
  'init-made': word(
    '{ $folder } is a workshop now: { $n } { $n ->\n  [one] file\n *[other] files\n}.',
    'init',
    {
      folder: 'shop',
      n: 40,
    },
  ),
  'init-try': word(
    'Try it: cd { $folder }, then pinchrod. Put your own people into shared/people.yaml first.',
    'init',
    { folder: 'shop' },
  ),
  'demo-left': word('The demonstration workshop is { $folder }; nothing outside it was changed.', DEMO, {
    folder: '/tmp/shop',
  }),
  'demo-is': word('The demonstration workshop is { $folder }.', DEMO, { folder: '/tmp/shop' }),
  'demo-no-terminal': word('This is no terminal. In one, run: pinchrod --workshop { $folder }', DEMO, {
    folder: '/tmp/shop',
  }),
  'demo-records': word('Records:  { $files }', 'demo --unattended: columns', { files: 'P02-1.html' }),
  'demo-journals': word('Journals: { $folder }', 'demo --unattended: columns', { folder: 'logs/pier-house' }),
  'demo-workshop': word('Workshop: { $folder }', 'demo --unattended: columns', { folder: '/tmp/shop' }),
  'demo-each': word('Confirmations of each: { $units }', 'demo --unattended', {
    units: 'P01-1 41   P02-1 84',
  }),
  'demo-tally': word(
    'Confirmations: { $confirmations }   holds: { $holds }   keys: { $keys }   readings: { $readings }   shared: { $shared }',
    'demo --unattended: what it took',
    { confirmations: '84', holds: '7', keys: '612', readings: '98', shared: '12' },
  ),
  'demo-waits': word(
    "(the demonstration's clock goes on to { $time }: something cures)",
    'demo --unattended',
    {
      time: '18:30:00 UTC',
    },
  ),
  'demo-no-keys': word('the bench has no keys for "{ $action }"', 'demo --unattended: why it got stuck', {
    action: 'park',
  }),
  'demo-nothing-came': word('nothing came of { $action }', 'demo --unattended: why it got stuck', {
    action: 'answer',
  }),
  'demo-nothing-came-note': word(
    'nothing came of { $action }: { $note }',
    'demo --unattended: why it got stuck',
    {
      action: 'answer',
      note: 'Nobody is at the bench.',
    },
  ),
  'demo-no-walk': word('nothing comes of walking { $step }', 'demo --unattended: why it got stuck', {
    step: 'saw-frame',
  }),
  'demo-no-cure': word(
    '{ $unit }: nothing can be done, and nothing cures',
    'demo --unattended: why it got stuck',
    {
      unit: 'P02-1',
    },
  ),

  'setups-none': word('This workshop asks for no set-ups: it has no shared/setups.yaml.', SETUP),
  'setup-valid': word('* valid  { $setup }  { $because }', SETUP, { setup: 'mitre-saw', because: 'Proven.' }),
  'setup-valid-until': word('* valid  { $setup }  { $because } Until { $until }.', SETUP, {
    setup: 'mitre-saw',
    because: 'Proven.',
    until: '2026-03-09 16:00:00 UTC',
  }),
  'setups-to-prove': word('x to be proven  { $setup }  { $because }', SETUP, {
    setup: 'mitre-saw',
    because: 'Not proven yet.',
  }),
  'setup-check': word('{ $check }: { $ask }', SETUP, { check: 'angle', ask: 'Angle of the first cut' }),
  'setup-check-with': word('{ $check }: { $ask } ({ $tools })', SETUP, {
    check: 'angle',
    ask: 'Angle of the first cut',
    tools: 'A1 or S1',
  }),
  'setup-or': word('{ $some } or { $last }', 'setup: instruments, the last two of a list', {
    some: 'A1, A2',
    last: 'S1',
  }),
  'setup-confirm': word('Measure again, or stand by it with --confirmed.', SETUP),
  'setup-pass': word('PASS  { $setup } is proven: { $id }.', SETUP, {
    setup: 'mitre-saw',
    id: 'mitre-saw-4',
  }),
  'setup-fail': word('FAIL  { $setup } must be set and proven again.', SETUP, { setup: 'mitre-saw' }),
  'setup-failed-check': word('{ $check }: { $says }', SETUP, { check: 'guards', says: 'no' }),
  'setup-failed-check-why': word('{ $check }: { $says } ({ $why })', SETUP, {
    check: 'angle',
    says: '46.5',
    why: 'off by 1.5 deg, within ±0.2 deg',
  }),
  'setups-no-doubt': word('Nothing was made under it since the last good first-off.', SETUP),
  'setups-doubt': word('In doubt, made since { $since }:', SETUP, { since: 'mitre-saw-3' }),
  'setup-doubt-row': word('{ $unit }  { $steps }', SETUP, { unit: 'pier-house/P02-1', steps: 'saw-frame' }),
  'setup-doubt-snag': word('{ $row }  snag raised', SETUP, { row: 'pier-house/P02-1  saw-frame' }),
  'setup-doubt-no-snag': word('{ $row }  no snag: { $why }', SETUP, {
    row: 'pier-house/P02-1  saw-frame',
    why: 'The unit is finished.',
  }),
  'setup-snag-how': word('The same command with --snag raises a snag on each of them.', SETUP),

  'revise-done': word('Revised.', REVISE),
  'revise-not-yet': word('Nothing is written yet. With --person, --reason and --yes it is done.', REVISE),
  'revise-step': word('{ $title } ({ $id })', REVISE, { title: 'Saw the frame', id: 'saw-frame' }),
  'revise-rests': word('rests on one of these', REVISE),
  'revise-finished': word('{ $unit } is finished and released. To revise it opens it again.', REVISE, {
    unit: 'P02-1',
  }),
  'revise-again': word('To be done again:', REVISE),
  'revise-release': word('To be checked and released again, the work itself stands:', REVISE),
  'revise-nothing': word('Nothing that was done is to be done again.', REVISE),

  'setout-refused': word('Refused, do not make: { $units }', 'setout: above a cut list', {
    units: 'P02-1, P03-1',
  }),
  'square-published': word(
    'There is no shared/limits.yaml here: held against the published limits only.',
    'square',
  ),
  'square-with': word('Read with { $instrument }.', 'square', { instrument: 'T2, 3 m tape' }),
  'compare-same': word('Nothing changed.', 'compare'),
  'train-unkept': word(
    'Not kept: nobody was named. Add --person ID to keep what is practised.',
    'train: a drill without a person',
  ),
  'train-whole': word(
    '{ $journals } { $journals ->\n  [one] journal\n *[other] journals\n}, { $events } { $events ->\n  [one] event\n *[other] events\n}: all whole and unaltered.',
    'train verify',
    { journals: 3, events: 40 },
  ),
  'train-faults': word(
    '{ $journals } { $journals ->\n  [one] journal\n *[other] journals\n}, { $events } { $events ->\n  [one] event\n *[other] events\n}: { $n } { $n ->\n  [one] does\n *[other] do\n} not hold.',
    'train verify',
    { journals: 3, events: 40, n: 1 },
  ),
  'train-written': word(
    'Written as line { $n } of { $file }: { $verb } { $person }, stage { $stage }.',
    'train assess',
    {
      n: 4,
      file: 'logs/people/sign-offs.jsonl',
      verb: 'sign',
      person: 'sw',
      stage: 'frame',
    },
  ),
  'train-written-level': word(
    'Written as line { $n } of { $file }: { $verb } { $person }, stage { $stage }, level { $level }.',
    'train assess',
    {
      n: 4,
      file: 'logs/people/sign-offs.jsonl',
      verb: 'sign',
      person: 'sw',
      stage: 'frame',
      level: '3',
    },
  ),
} as const;
