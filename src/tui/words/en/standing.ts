/** Where things stand: statuses, verdicts, heads of screens and lists. */
import { word } from '../../../base/words.js';

export const STANDS_WORDS = {
  'status-waiting': word('waits', 'Of a step: something before it is not done.'),
  'status-ready': word('open', 'Of a step: it can be done now.'),
  'status-begun': word('begun', 'Of a step.'),
  'status-failed': word('failed', 'Of a step: a check of it failed.'),
  'status-held': word('held', 'Of a step: it waits for somebody to release it.'),
  'status-done': word('done', 'Of a step.'),
  'status-stale': word('to be made again', 'Of a step: what it rests on was made again.'),
  'outcome-pass': word('PASS', 'Verdict on a check. In capitals, so that it is seen from afar.'),
  'outcome-fail': word('FAIL', 'Verdict on a check.'),
  'outcome-not-proven': word('NOT PROVEN', 'Verdict on a check: the instrument cannot settle it.'),
  'standing-not-started': word('not started', 'Of a unit, in the list of units.'),
  'standing-refused': word('refused', 'Of a unit: the check of the order refuses it.'),
  'standing-under-way': word('under way', 'Of a unit.'),
  'standing-held': word('held', 'Of a unit: it waits for a release.'),
  'standing-curing': word('curing', 'Of a unit: adhesive or sealant cures.'),
  'standing-snagged': word('snagged', 'Of a unit: a snag stops it.'),
  'standing-parked': word('parked', 'Of a unit: put aside.'),
  'standing-finished': word('finished', 'Of a unit.'),
  'standing-scrapped': word('scrapped', 'Of a unit.'),
  'title-units': word('Units: scan one, type a part of its name, or choose', 'Head of a list.'),
  'title-stages': word(
    'Steps open across units: choosing one takes it over its units in turn',
    'Head of a list.',
  ),
  'title-steps': word('Steps of this unit: type a part of a name, or choose', 'Head of a list.'),
  'title-people': word('Who is at the bench?', 'Head of a list.'),
  'title-instruments': word('Which instrument is in hand?', 'Head of a list.'),
  'title-menu': word('What the keys do: choose one, or press its key', 'Head of a list.'),
  'title-snags': word('Snags of this unit', 'Head of a list.'),
  'title-setups': word(
    'Set-ups: proven on first-off pieces before work rests on them. Choose one',
    'Head of a list.',
  ),
  'list-cutting': word('Cutting list', 'Name of a list.'),
  'list-machining': word('Machining list', 'Name of a list.'),
  'list-kit': word('Kit list', 'Name of a list: small parts of a unit.'),
  'list-glass': word('Glass', 'Name of a list.'),
  'list-packers': word('Packer plan', 'Name of a list: where the packers of the glass lie.'),
  'list-hardware': word('Hardware list', 'Name of a list: hinges, handles, locks.'),
  'list-none': word('Nothing stands on this list.', 'An empty list.'),
  'list-done': word('{ $done } / { $of } done', 'At the head of a list, how many rows are done.', {
    done: 3,
    of: 8,
  }),
  'list-stage': word('This stage', 'Head of what is listed beside a step.'),
  'list-readings': word('Last readings', 'Head of what is listed beside a step.'),
  'head-no-unit': word('no unit on the bench', 'Top of the screen.'),
  'head-signs': word('signs:', 'Top of the screen, before the initials of whoever answers.'),
  'head-with': word('with', 'Top of the screen, before the initials of the second person.'),
  'head-nobody': word('nobody signs', 'Top of the screen: nobody is at the bench.'),
  'head-lights': word('{ $n } lights', 'Top of the screen: how many lights the unit has.', { n: 2 }),
  'head-invented': word('invented set', 'Top of the screen: the profile set is invented.'),
  'head-look': word('LOOKING ONLY', 'Top of the screen: the unit cannot be written here.'),
  'head-free': word('FREE AGAIN: F2', 'Top of the screen: the unit can be opened for writing.'),
  'head-parked': word('PARKED', 'Top of the screen.'),
  'head-snags': word(
    `{ $n ->
  [one] 1 snag
 *[other] { $n } snags
}`,
    'Top of the screen.',
    { n: 2 },
  ),
  'head-holds': word(
    `{ $n ->
  [one] 1 hold
 *[other] { $n } holds
}`,
    'Top of the screen: holds that wait.',
    { n: 2 },
  ),
  'head-done': word('{ $done } of { $of } done', 'Top of the screen: steps.', { done: 3, of: 73 }),
  'head-line-down': word('LINE DOWN', 'Top of the screen: the server of the shop is not reached.'),
  'head-hand-over': word(
    '{ $n } to hand over',
    'Top of the screen: answers that the server does not have yet.',
    { n: 12 },
  ),
  'stage-open': word('{ $n } open', 'How many units stand at a step.', { n: 2 }),
  'stage-held': word('{ $n } held', 'How many units stand at a step.', { n: 2 }),
  'stage-not-started': word('{ $n } not started', 'How many units stand at a step.', { n: 2 }),
  'answer-done': word('done', 'An answer: it was ticked.'),
  'answer-go': word('yes', 'An answer to a check that is answered yes or no.'),
  'answer-no-go': word('no', 'An answer to a check that is answered yes or no.'),
} as const;
