/** What key, register, seal, archive and person print. */
import { word } from '../../base/words.js';

const KEY = 'key: about the keys of benches';
const bench = 'bench-1';
const key = '3f2a91c4d07be518';
const file = 'keys/bench-1.pem';

export const KEY_SAYS = {
  'key-introduced': word('Key { $key }, whose private part is here too, introduced it.', KEY, { key }),
  'key-waits': word(
    '{ $bench } has a key, which does not count yet: what it finishes is not signed with it.',
    KEY,
    { bench },
  ),
  'key-waits-how': word('At a bench whose key counts, with this fingerprint read from here:', KEY),
  'key-accept': word('pinchrod key accept { $fingerprint }', 'a command to type: not translated', {
    fingerprint: '3f2a…',
  }),
  'key-private': word('private: { $file } (yours alone; keep a copy in a safe place)', KEY, { file }),
  'key-public': word('public:  { $file }', KEY, { file }),
  'key-begin-anew': word('If no private key that counts is left anywhere: pinchrod key new --anew.', KEY),
  'key-signs': word('{ $bench } signs with key { $key } from now on.', KEY, { bench, key }),
  'key-fingerprint': word('fingerprint: { $fingerprint }', KEY, { fingerprint: '3f2a…' }),
  'key-on-paper': word('(write it on paper: pinchrod verify --trust asks for it)', KEY),
  'key-first-here': word('This account takes { $fingerprint } for a first key from now on.', KEY, {
    fingerprint: '3f2a…',
  }),
  'key-counts': word('The key { $key } of { $bench } counts from now on; key { $signer } signed that.', KEY, {
    key,
    bench,
    signer: '9c1d',
  }),
  'key-replaced': word('Key { $key } is withdrawn: what it signed until now still counts.', KEY, { key }),
  'key-withdrawn': word(
    'Key { $key } is withdrawn: what the registers know that it signed still counts, and nothing else.',
    KEY,
    { key },
  ),
  'key-has': word('{ $bench } has key { $key }.', KEY, { bench, key }),
  'key-has-withdrawn': word('{ $bench } has key { $key }, which is withdrawn.', KEY, { bench, key }),
  'key-not-yet': word('It does not count yet: pinchrod key accept, at a bench whose key counts.', KEY),
  'key-not-there': word('Its public part is not at { $file }: save the text above there.', KEY, { file }),
  'key-none': word(
    '{ $bench } has no key: what it finishes is not signed. pinchrod key new makes one.',
    KEY,
    { bench },
  ),
  'key-row-counts': word('Counts: key { $key }', KEY, { key }),
  'key-row-counts-of': word('Counts: key { $key } of { $bench }', KEY, { key, bench }),
  'key-row-withdrawn': word('Withdrawn: key { $key }', KEY, { key }),
  'key-row-withdrawn-of': word('Withdrawn: key { $key } of { $bench }', KEY, { key, bench }),
  'key-others': word('Other keys that this workshop knows: { $keys }.', KEY, { keys: key }),
  'key-asks': word('{ $bench } asks for its key to count. If its own screen shows the same:', KEY, { bench }),

  'register-none': word(
    'There is no register yet: the first bench that opens a unit begins one.',
    'register',
  ),
  'register-head': word('{ $bench }: entry { $n }', 'register: how far a register has come', {
    bench,
    n: 12,
  }),
  'register-unread': word('{ $bench }: cannot be read; pinchrod verify says why.', 'register', { bench }),
  'register-no-key': word('No key counts: nothing is signed.', 'register'),
  'register-first-key': word('Fingerprint of the first key, by which all others count:', 'register'),
  'register-accepted': word(
    'Accepted by { $name }: entry { $n } of { $bench }. It stays in the register, and verify names it.',
    'register accept',
    { name: 'Orla Tench', n: 12, bench },
  ),

  'seal-made': word(
    '{ $file }: { $n } { $n ->\n  [one] unit\n *[other] units\n} sealed, code { $code }',
    'seal',
    {
      file: 'logs/pier-house/job.seal.json',
      n: 9,
      code: 'K7Q2-9XHM',
    },
  ),
  'seal-there': word(
    '{ $file }: { $n } { $n ->\n  [one] unit\n *[other] units\n} sealed already, code { $code }',
    'seal',
    { file: 'logs/pier-house/job.seal.json', n: 9, code: 'K7Q2-9XHM' },
  ),
  'seal-signed': word('Signed with key { $key } of { $bench }.', 'seal', { key, bench }),
  'seal-unsigned': word('Not signed: this bench has no key. pinchrod key new makes one.', 'seal'),
  'seal-late': word('{ $unit }: signed as it is now.', 'seal', { unit: 'P02-1' }),

  'archive-made': word(
    '{ $file }: { $journals } { $journals ->\n  [one] journal\n *[other] journals\n}, { $events } { $events ->\n  [one] event\n *[other] events\n}, { $files } { $files ->\n  [one] file\n *[other] files\n}, verified.',
    'archive: a job was packed',
    { file: 'pier-house.zip', journals: 9, events: 1200, files: 60 },
  ),
  'archive-removed': word(
    '{ $n } { $n ->\n  [one] file\n *[other] files\n} of { $job } removed from logs/.',
    'archive --remove',
    { n: 60, job: 'pier-house' },
  ),
  'archive-then': word(
    "Remove the job's own file from shared/jobs as well, or its units show as not begun.",
    'archive --remove',
  ),

  'pin-new': word('New PIN of { $name }, four digits or more:', 'person pin: asked at the terminal', {
    name: 'Orla Tench',
  }),
  'pin-again': word('The same again:', 'person pin: asked at the terminal'),
  'pin-set': word('The PIN of { $name } is set, in { $file }.', 'person pin', {
    name: 'Orla Tench',
    file: 'shared/pins.json',
  }),
  'pin-now': word('PIN of { $name } now:', 'asked at the terminal', { name: 'Orla Tench' }),
  'pin-of': word('PIN of { $name }:', 'asked at the terminal', { name: 'Orla Tench' }),
  'name-erased': word(
    'The name of { $id } is erased: records show "{ $id } (name erased)" from now on.',
    'person erase',
    { id: 'jb' },
  ),
  'name-elsewhere': word(
    'No journal was changed. Archives, printed records and what people typed into notes may still hold the name.',
    'person erase',
  ),
  'pins-none': word('No PIN stands in shared/people.yaml.', 'person move-pins'),
  'pins-moved': word(
    '{ $n } { $n ->\n  [one] PIN stands\n *[other] PINs stand\n} in { $file } now, and no more in shared/people.yaml. Copies of that file still hold them: let their owners choose new ones.',
    'person move-pins',
    { n: 3, file: 'shared/pins.json' },
  ),
} as const;
