/** Set-ups and their first-offs. */
import { word } from '../../../base/words.js';

export const SETUP_WORDS = {
  'setup-proven': word('proven', 'In the list of set-ups.'),
  'setup-proven-until': word('proven until { $time }', 'In the list of set-ups.', { time: '18:10' }),
  'setup-to-prove': word('to be proven: { $why }', 'In the list of set-ups.', { why: 'no first-off yet.' }),
  'setup-doubt': word(
    `{ $n ->
  [one] 1 unit in doubt
 *[other] { $n } units in doubt
}`,
    'In the list of set-ups.',
    { n: 2 },
  ),
  'setup-none': word('This workshop asks for no set-ups.', 'Refusal.'),
  'setup-add': word('Put shared/setups.yaml into it to have first-offs asked for.', 'Way out of that.'),
  'setup-prove-now': word('Prove it now: answer these; Esc leaves it.', 'A step waits for its set-up.'),
  'setup-snags': word(
    `{ $n ->
  [one] 1 snag raised.
 *[other] { $n } snags raised.
}`,
    'After a set-up was found wrong.',
    { n: 2 },
  ),
  'setup-not-on': word('Not on { $units }: { $why }', 'After a set-up was found wrong.', {
    units: 'P02-1',
    why: 'it is finished.',
  }),
  'setup-ended': word('{ $title }: to be proven again before it is used.', 'A set-up was ended.', {
    title: 'Mitre saw',
  }),
  'setup-passed': word('{ $title } is proven: { $id }.', 'A first-off passed; after the word PASS.', {
    title: 'Mitre saw',
    id: 'saw-12',
  }),
  'setup-failed': word(
    '{ $by }: { $title } must be set and proven again.',
    'A first-off failed; after the word FAIL. What did not pass comes first.',
    { by: 'Angle of a first-off mitre 45.3', title: 'Mitre saw' },
  ),
  'setup-in-doubt': word(
    'In doubt since { $since }: { $units }. F11, then choose it: a snag on each.',
    'A first-off failed.',
    { since: 'saw-12', units: 'P01-1' },
  ),
  'setup-no-doubt': word('Nothing made since the last good first-off is in doubt.', 'A first-off failed.'),
  'setup-what': word('What is to be done?', 'Question of a form.'),
  'setup-raise': word('raise a snag on each unit made since { $since }: { $units }', 'Answer.', {
    since: 'saw-12',
    units: 'P01-1',
  }),
  'setup-prove': word('prove it on first-off pieces', 'Answer.'),
  'setup-shift-end': word('the shift ended: prove it again', 'Answer.'),
  'setup-knock': word('it was knocked: prove it again', 'Answer.'),
  'setup-with-which': word('{ $ask }: with which instrument?', 'Question of a form.', {
    ask: 'Angle of a first-off mitre',
  }),
  'setup-figure': word('Type or send the figure, then Enter.', 'Way out of that.'),
  'setup-blade-changed': word('the blade was changed: prove it again', 'Answer.'),
  'setup-tool-changed': word('the tool was changed: prove it again', 'Answer.'),
  'setup-moved': word('it was moved: prove it again', 'Answer.'),
  'setup-other': word('it was ended: prove it again', 'Answer.'),
} as const;
