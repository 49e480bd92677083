/** Holds, snags, and what was asked of other units. */
import { word } from '../../../base/words.js';

export const HOLD_WORDS = {
  'hold-none': word('This step has no hold.', 'Screen of a hold.'),
  'hold-title': word('HOLD  { $title }', 'Screen of a hold.', { title: 'Final inspection' }),
  'hold-pin': word('{ $name }: type your PIN, then press F8.', 'Screen of a hold.', { name: 'Mira Volkov' }),
  'hold-press': word('{ $name }: press F8 to release it. Enter never does.', 'Screen of a hold.', {
    name: 'Mira Volkov',
  }),
  'hold-other': word('Not by the one who did the step.', 'Screen of a hold.'),
  'hold-picture': word('{ $ask } (with a picture)', 'What a hold rests on.', {
    ask: 'Are all corners sealed',
  }),
  'hold-by': word('{ $step }, by { $names }', 'What a hold rests on.', {
    step: 'Seal the corners',
    names: 'Joan Bexley',
  }),
  'hold-looked': word('Looked at and right: { $what }', 'What a hold rests on.', {
    what: 'all corners sealed',
  }),
  'hold-computed': word('worked out by the program', 'What a hold rests on.'),
  'hold-with': word('with { $tools }', 'What a hold rests on: instruments.', { tools: 'R1, R2' }),
  'hold-of': word('of { $unit } by { $name }', 'What a hold rests on: cited from another unit.', {
    unit: 'P02-1',
    name: 'jb',
  }),
  'hold-no-enter': word('Enter never releases a hold.', 'Refusal.'),
  'hold-key': word('F8 releases it; Esc leaves it.', 'Way out of that.'),
  'hold-step': word('HOLD: { $title }', 'At a step.', { title: 'Final inspection' }),
  'hold-waits': word(
    'Every check of this step passes. Work does not go past it until it is released: F8.',
    'At a step.',
  ),
  'snag-new': word('raise a new snag', 'In the list of snags.'),
  'snag-open': word('open, not decided', 'In the list of snags.'),
  'snag-decided': word('open, { $disposition }', 'In the list of snags.', { disposition: 'rework' }),
  'snag-closed': word('closed', 'In the list of snags.'),
  'snag-is-closed': word('Snag #{ $n } is closed.', 'Refusal.', { n: 12 }),
  'cited-with': word('Cited with your answer:', 'What another unit was asked goes along with an answer.'),
  'cited-released': word('released', 'What another unit was asked.'),
  'snag-waits-decision': word('Snag #{ $n }, "{ $text }": waits for a decision. F6.', 'An open snag.', {
    n: 12,
    text: 'gap too wide',
  }),
  'snag-waits-proof': word(
    'Snag #{ $n }, "{ $text }": { $disposition }. Once it is put right and checked again (F3, the step, F7), F6 closes it.',
    'An open snag.',
    { n: 12, text: 'gap too wide', disposition: 'rework' },
  ),
  'cited-stands': word('Right takes over what stands already:', 'What another unit was asked.'),
  'cited-ways': word('Or Left asks this step anew.', 'What another unit was asked.'),
  'cited-ways-lot': word(
    'Or scan another lot, or Left asks this step anew.',
    'What another unit was asked, with a lot among it.',
  ),
  'cited-right': word('right', 'What another unit was asked: it was looked at.'),
  'snag-row': word('#{ $n } { $severity }: { $cause }, { $text }  { $state }', 'In the list of snags.', {
    n: 16,
    severity: 'minor',
    cause: 'scratch',
    text: 'as measured',
    state: 'closed',
  }),
} as const;
