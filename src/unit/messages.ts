/** Every refusal of the unit room. `todo` is the general remedy; the place that raises one gives the specific one. */

import { problemFactory, type RaiseArgs, type Refusals } from '../base/problem.js';
import { wayOut, word } from '../base/words.js';

export const BUILD_MESSAGES = {
  'build.bad-action': word(
    '{ $field }: { $fault }',
    'an action is not one the bench knows, or a field of it is missing or of the wrong kind',
    { field: 'do', fault: 'Invalid input' },
  ),
  'build.bad-action.todo': wayOut('Send an action as the JSON Schema of actions describes it.'),
  'build.bad-action/whole': word('The action: { $fault }', 'as build.bad-action', { fault: 'Invalid input' }),
  'build.nobody': word('Nobody is at the bench.', 'nobody is at the bench, so nothing can be written'),
  'build.nobody.todo': wayOut('Choose or scan a person first.'),
  'build.unknown-person': word(
    '"{ $code }" is nobody in this workshop.',
    'a person is not in the list of people',
    { code: 'mv' },
  ),
  'build.unknown-person.todo': wayOut(
    'Scan one of the people in shared/people.yaml, or add the person there.',
  ),
  'build.person-expired': word(
    'The sign-off of { $person } ran out on { $validUntil }.',
    "a person's sign-off has run out",
    { person: 'Mara Vogt', validUntil: '2026-10-01' },
  ),
  'build.person-expired.todo': wayOut('Let somebody who may assess renew it in shared/people.yaml.'),
  'build.needs-second': word(
    '{ $person } is at level { $level } ({ $levelWords }) for stage { $stage } and does not do it alone.',
    'the person may not do this stage alone',
    { person: 'Mara Vogt', level: '2', levelWords: 'under supervision', stage: 'frame' },
  ),
  'build.needs-second.todo': wayOut('Name a second person who may do this stage alone (level 3 or more).'),
  'build.second-not-able': word(
    '{ $person } is at level { $level } ({ $levelWords }) for stage { $stage }.',
    'the second person may not do this stage alone either, or is the same person',
    { person: 'Mara Vogt', level: '2', levelWords: 'under supervision', stage: 'frame' },
  ),
  'build.second-not-able.todo': wayOut('Name another person, with level 3 or more for this stage.'),
  'build.second-not-able/self': word(
    '{ $person } cannot stand by for themselves.',
    'as build.second-not-able',
    { person: 'Mara Vogt' },
  ),
  'build.no-right': word(
    '{ $person } is at level { $level } ({ $levelWords }) for stage { $stage }; { $what } takes level { $least } ({ $leastWords }).',
    'the person is not authorised to do this',
    {
      person: 'Mara Vogt',
      level: '2',
      levelWords: 'under supervision',
      stage: 'frame',
      what: 'closing a snag',
      least: '3',
      leastWords: 'alone',
    },
  ),
  'build.no-right.todo': wayOut('Let one of these do it: { $able }.', { able: 'ot, mv' }),
  'build.no-right/nobody': word(
    '{ $person } is at level { $level } ({ $levelWords }) for stage { $stage }; { $what } takes level { $least } ({ $leastWords }).',
    'as build.no-right',
    {
      person: 'Mara Vogt',
      level: '2',
      levelWords: 'under supervision',
      stage: 'frame',
      what: 'closing a snag',
      least: '3',
      leastWords: 'alone',
    },
  ),
  'build.no-right/nobody.todo': wayOut(
    'Nobody has level { $least } for stage { $stage }: name somebody in shared/people.yaml.',
    { least: '3', stage: 'frame' },
  ),
  'build.same-person': word(
    '{ $person } did this work and may not also release or concede it.',
    'the one who did the step may not release or concede it',
    { person: 'Mara Vogt' },
  ),
  'build.same-person.todo': wayOut('Let one of these do it: { $others }.', { others: 'ot, mv' }),
  'build.same-person/nobody': word(
    '{ $person } did this work and may not also release or concede it.',
    'as build.same-person',
    { person: 'Mara Vogt' },
  ),
  'build.same-person/nobody.todo': wayOut(
    'Name a second person with level 4 in shared/people.yaml, or set soloRelease in shared/workshop.yaml; then open the bench anew.',
  ),
  'build.solo-too-soon': word(
    '{ $minutes } minutes must lie between the work and its release by the same person; { $waited } have passed.',
    'in a one-person workshop the same person may do this only after a pause',
    { minutes: '30', waited: '3' },
  ),
  'build.solo-too-soon.todo': wayOut('Come back in { $wait } minutes and look again.', { wait: '7' }),
  'build.pin-needed': word('The PIN of { $person } is asked for here.', 'a PIN is required', {
    person: 'Mara Vogt',
  }),
  'build.pin-needed.todo': wayOut('Type the PIN of the person at the bench.'),
  'build.pin-wrong': word('That is not the PIN of { $person }.', 'the PIN is not right', {
    person: 'Mara Vogt',
  }),
  'build.pin-wrong.todo': wayOut('Type the PIN again.'),
  'build.pin-wrong/assessor': word(
    'That is not the PIN of the assessor; nothing was written.',
    'as build.pin-wrong',
  ),
  'build.pin-wrong/assessor.todo': wayOut('Type the PIN on the first line.'),
  'build.pin-locked': word('Too many wrong PINs for { $person }.', 'too many wrong PINs were typed', {
    person: 'Mara Vogt',
  }),
  'build.pin-locked.todo': wayOut('Wait, or let somebody else with the right do it.'),
  'build.unknown-step': word('{ $unit } has no step "{ $id }".', 'the unit has no such step', {
    unit: 'P02-1',
    id: 'vent-1.diagonals',
  }),
  'build.unknown-step.todo': wayOut('Name a step of this unit; the bench and `board` list them.'),
  'build.no-look': word(
    '{ $step } asks nothing now that one look answers.',
    'one answer was given to questions that are not asked together now',
    { step: 'sash.square' },
  ),
  'build.no-look.todo': wayOut('Answer the check that is asked.'),
  'build.no-look/check': word(
    '{ $check } is not among what one look answers at { $step } now.',
    'as build.no-look',
    { check: 'frame.diagonals', step: 'sash.square' },
  ),
  'build.unknown-check': word('{ $unit } has no check "{ $id }".', 'the unit has no such check', {
    unit: 'P02-1',
    id: 'vent-1.diagonals',
  }),
  'build.unknown-check.todo': wayOut('Name a check of this unit; the bench lists them.'),
  'build.unknown-check/check': word('{ $unit } has no check "{ $check }".', 'as build.unknown-check', {
    unit: 'P02-1',
    check: 'frame.diagonals',
  }),
  'build.unknown-check/check2': word('{ $step } has no check "{ $check }".', 'as build.unknown-check', {
    step: 'sash.square',
    check: 'frame.diagonals',
  }),
  'build.waits-for-step': word(
    '{ $step } ({ $id }) comes first and is not done.',
    'a step that comes before is not done',
    { step: 'Square the frame', id: 'frame.square' },
  ),
  'build.waits-for-step.todo': wayOut('Do { $id } first.', { id: 'frame.square' }),
  'build.waits-for-hold': word(
    'The hold "{ $hold }" at { $step } ({ $id }) is not released.',
    'a hold before this step is not released',
    { hold: 'Frame closed', step: 'Square the frame', id: 'frame.square' },
  ),
  'build.waits-for-hold.todo': wayOut('Let somebody with the right release { $id }.', { id: 'frame.square' }),
  'build.waits-for-cure': word(
    '{ $step } must stand { $minutes } minutes; it is ready at { $when }.',
    'something is still curing',
    { step: 'Seal the corners', minutes: '30', when: '14:20' },
  ),
  'build.waits-for-cure.todo': wayOut('Wait until { $when }.', { when: '14:20' }),
  'build.open-time-over': word(
    'The { $minutes } minutes since { $step } ran out at { $when }.',
    'the open time ran out before the step was done',
    { minutes: '30', step: 'Seal the corners', when: '14:20' },
  ),
  'build.open-time-over.todo': wayOut('Rework { $id } (clean off and apply anew), or raise a snag.', {
    id: 'frame.seal',
  }),
  'build.waits-for-snag': word(
    'Snag { $snag } is open and touches { $step } or what it rests on.',
    'an open snag touches what this rests on',
    { snag: '2', step: 'sash.square' },
  ),
  'build.waits-for-snag.todo': wayOut('Decide and close snag { $snag }.', { snag: '2' }),
  'build.waits-for-snag/rests': word(
    'Snag { $snag } is open and touches what { $step } rests on.',
    'as build.waits-for-snag',
    { snag: '2', step: 'sash.square' },
  ),
  'build.waits-for-snag/rests.todo': wayOut('Decide and close snag { $snag }.', { snag: '2' }),
  'build.check-order': word(
    '{ $check } is not answered.',
    'an earlier check of the step is not answered or has failed',
    { check: 'frame.diagonals' },
  ),
  'build.check-order.todo': wayOut('Answer { $check } too.', { check: 'frame.diagonals' }),
  'build.check-order/first': word('{ $check } comes first and is not answered.', 'as build.check-order', {
    check: 'frame.diagonals',
  }),
  'build.check-order/first.todo': wayOut('Answer { $check } first.', { check: 'frame.diagonals' }),
  'build.check-order/failed': word('{ $check } comes first and has not passed.', 'as build.check-order', {
    check: 'frame.diagonals',
  }),
  'build.check-order/failed.todo': wayOut('Measure { $check } again, rework { $step }, or raise a snag.', {
    check: 'frame.diagonals',
    step: 'sash.square',
  }),
  'build.already-answered': word(
    '{ $check } is answered and counts.',
    'the check is answered already and counts',
    { check: 'frame.diagonals' },
  ),
  'build.already-answered.todo': wayOut(
    'Undo the answer with a reason if it was the last one, or rework the step.',
  ),
  'build.parked': word('{ $unit } is parked.', 'the unit is parked', { unit: 'P02-1' }),
  'build.parked.todo': wayOut('Resume the unit first.'),
  'build.not-parked': word('{ $unit } is not parked.', 'the unit is not parked', { unit: 'P02-1' }),
  'build.not-parked.todo': wayOut('Go on; nothing needs resuming.'),
  'build.scrapped': word('{ $unit } is scrapped.', 'the unit is scrapped', { unit: 'P02-1' }),
  'build.scrapped.todo': wayOut('Build its replacement, { $replacement }; only notes are taken here.', {
    replacement: 'P02-1-R',
  }),
  'build.finished': word('{ $unit } is finished; { $check } is answered.', 'the unit is finished', {
    unit: 'P02-1',
    check: 'frame.diagonals',
  }),
  'build.finished.todo': wayOut(
    'Raise a snag or rework a step if something was found; that opens the unit again.',
  ),
  'build.finished/finished': word('{ $unit } is finished.', 'as build.finished', { unit: 'P02-1' }),
  'build.not-opened': word('{ $unit } is not opened: it has no journal yet.', 'the unit is not opened', {
    unit: 'P02-1',
  }),
  'build.not-opened.todo': wayOut('Open the unit at the bench first.'),
  'build.not-opened/opened': word('{ $unit } is not opened.', 'as build.not-opened', { unit: 'P02-1' }),
  'build.refused-order': word(
    'The order check refuses this unit: { $problem }',
    'the order check refused the unit',
    { problem: 'L1: safety glass is asked for.' },
  ),
  'build.refused-order.todo': wayOut(
    'Correct the job, or let somebody who may release override "{ $id }" with a reason.',
    { id: 'order.safety-glass' },
  ),
  'build.no-such-problem': word(
    'The order check has no open problem "{ $problem }".',
    'the order check has no such open problem',
    { problem: 'order.stay' },
  ),
  'build.no-such-problem.todo': wayOut('Open problems: { $open }.', { open: 'order.limit' }),
  'build.no-such-problem/none': word(
    'The order check has no open problem "{ $problem }".',
    'as build.no-such-problem',
    { problem: 'order.stay' },
  ),
  'build.no-such-problem/none.todo': wayOut('Go on; nothing needs overriding.'),
  'build.no-setup': word(
    '{ $step } needs the set-up "{ $kind }", and its first-off is not valid now.',
    'the step needs a set-up with a valid first-off',
    { step: 'sash.square', kind: 'lot' },
  ),
  'build.no-setup.todo': wayOut(
    'Make a first-off for the set-up "{ $kind }" and log it: F11 at the bench, or pinchrod setup first-off { $kind }.',
    { kind: 'lot' },
  ),
  'build.nothing-to-cite': word(
    'Nothing that { $unit } shares with other units stands now.',
    'nothing that units share stands now, so nothing can be cited',
    { unit: 'P02-1' },
  ),
  'build.nothing-to-cite.todo': wayOut('Answer the checks of the step.'),
  'build.setup-blocked': word(
    'An open snag touches the set-up { $setup }.',
    'an open snag touches the set-up',
    { setup: 'mitre-saw' },
  ),
  'build.setup-blocked.todo': wayOut('Decide and close the snag, or make a new first-off.'),
  'build.answer-kind': word(
    'That is no answer to { $check } ({ $kind }).',
    'the value is not an answer to this kind of check',
    { check: 'frame.diagonals', kind: 'number' },
  ),
  'build.answer-kind.todo': wayOut('Send the value as text.'),
  'build.answer-kind/tick': word('That is no answer to { $check } ({ $kind }).', 'as build.answer-kind', {
    check: 'frame.diagonals',
    kind: 'tick',
  }),
  'build.answer-kind/tick.todo': wayOut('Say yes when it is done; if it cannot be done, raise a snag.'),
  'build.answer-kind/yes': word('That is no answer to { $check } ({ $kind }).', 'as build.answer-kind', {
    check: 'frame.diagonals',
    kind: 'go-no-go',
  }),
  'build.answer-kind/yes.todo': wayOut('Answer yes or no.'),
  'build.answer-kind/count': word('That is no answer to { $check } ({ $kind }).', 'as build.answer-kind', {
    check: 'frame.diagonals',
    kind: 'count',
  }),
  'build.answer-kind/count.todo': wayOut('Type a whole number.'),
  'build.answer-kind/choice': word('That is no answer to { $check } ({ $kind }).', 'as build.answer-kind', {
    check: 'frame.diagonals',
    kind: 'choice',
  }),
  'build.answer-kind/choice.todo': wayOut('Choose one of: { $choices }.', { choices: 'left, right' }),
  'build.answer-kind/text': word('That is no answer to { $check } ({ $kind }).', 'as build.answer-kind', {
    check: 'frame.diagonals',
    kind: 'text',
  }),
  'build.answer-kind/text.todo': wayOut('Type or scan a text of at most 200 characters.'),
  'build.answer-kind/keys': word('That is no answer to { $check } ({ $kind }).', 'as build.answer-kind', {
    check: 'frame.diagonals',
    kind: 'square',
  }),
  'build.answer-kind/keys.todo': wayOut('Send the readings by key: { $keys }.', { keys: 'head, sill' }),
  'build.no-instrument': word('"{ $ask }" asks for { $wanted }.', 'no suitable instrument is in hand', {
    ask: 'Diagonal from top left',
    wanted: 'gap, mm',
  }),
  'build.no-instrument.todo': wayOut('Scan one of these: { $instruments }.', {
    instruments: 'feeler-1 (Feeler gauge)',
  }),
  'build.no-instrument/none': word('"{ $ask }" asks for { $wanted }.', 'as build.no-instrument', {
    ask: 'Diagonal from top left',
    wanted: 'gap, mm',
  }),
  'build.no-instrument/none.todo': wayOut('Scan one that does: the workshop lists none that is in date.'),
  'build.unknown-instrument': word(
    '"{ $instrument }" is no instrument of this workshop.',
    'an instrument is not in the list of instruments',
    { instrument: 'tape-3' },
  ),
  'build.unknown-instrument.todo': wayOut(
    'Scan one of the instruments in shared/instruments.yaml, or add it there.',
  ),
  'build.unknown-instrument/instrument': word(
    '"{ $id }" is no instrument of this workshop.',
    'as build.unknown-instrument',
    { id: 'vent-1.diagonals' },
  ),
  'build.instrument-overdue': word(
    '{ $instrument } was due for calibration on { $due }.',
    "an instrument's calibration is overdue",
    { instrument: 'tape-3', due: '2026-10-01' },
  ),
  'build.instrument-overdue.todo': wayOut(
    'Take another instrument, or let somebody who may release this stage allow it by name.',
  ),
  'build.instrument-overdue/was': word(
    '{ $instrument } was due for calibration on { $due }.',
    'as build.instrument-overdue',
    { instrument: 'tape-3', due: '2026-10-01' },
  ),
  'build.instrument-overdue/was.todo': wayOut(
    'Take another instrument: a first-off is proven with one that is in date.',
  ),
  'build.unseen': word(
    "The shop's server does not have { $lines } { $lines ->\n  [one] line\n *[other] lines\n} of { $unit } yet.",
    "the last step of a unit is released, and the shop's server does not have all of its answers and evidence yet",
    { lines: 3, unit: 'P02-1' },
  ),
  'build.unseen.todo': wayOut(
    'Wait until the line is up and the count at the top is gone, then do the same again. A shop may allow it: pinchrod shop status says.',
  ),
  'build.unseen/evidence': word(
    "The shop's server does not have all evidence of { $unit } yet.",
    'as build.unseen',
    { unit: 'P02-1' },
  ),
  'build.unsigned': word(
    '{ $why } { $unit } would be closed unsigned.',
    "a unit would be closed, and the bench's key cannot sign it",
    { why: 'the file was changed', unit: 'P02-1' },
  ),
  'build.unsigned.todo': wayOut('Mend the key and do this again, or let one who may release allow it.'),
  'build.instrument-quantity': word(
    '{ $id } ({ $instrument }) does not measure { $wanted }.',
    'the instrument in hand does not measure what is asked',
    { id: 'tape-3', instrument: 'Tape, 3 m', wanted: 'gap, mm' },
  ),
  'build.instrument-quantity.todo': wayOut('Scan one of these: { $instruments }.', {
    instruments: 'feeler-1 (Feeler gauge)',
  }),
  'build.instrument-quantity/none': word(
    '{ $id } ({ $instrument }) does not measure { $wanted }.',
    'as build.instrument-quantity',
    { id: 'tape-3', instrument: 'Tape, 3 m', wanted: 'gap, mm' },
  ),
  'build.instrument-quantity/none.todo': wayOut(
    'Scan one that does: the workshop lists none that is in date.',
  ),
  'build.nothing-to-begin': word(
    '{ $id } has no readings that could be taken anew.',
    'a check has no readings that could be taken anew',
    { id: 'vent-1.diagonals' },
  ),
  'build.nothing-to-begin.todo': wayOut('Answer the check that is asked.'),
  'build.second-unconfirmed': word(
    '{ $name } has not confirmed standing by for { $person } in stage { $stage }.',
    'the second person has not confirmed standing by in this stage',
    { name: 'frame-size', person: 'Mara Vogt', stage: 'frame' },
  ),
  'build.second-unconfirmed.todo': wayOut('Let them type their PIN, or scan their own code.'),
  'build.second-unconfirmed/code': word(
    'That is the code of { $code }, not of { $name }.',
    'as build.second-unconfirmed',
    { code: 'mv', name: 'frame-size' },
  ),
  'build.lot-code': word(
    'This code names no lot (AI 10).',
    'a scanned code names no lot, or no number of a piece',
  ),
  'build.lot-code.todo': wayOut('Scan the code that holds it, or type it.'),
  'build.lot-code/number': word('This code names no number (AI 21).', 'as build.lot-code'),
  'build.lot-needs-date': word(
    'Lot { $code } ({ $material }) is named without its date.',
    'the lot of a material that goes off is named without its date',
    { code: 'mv', material: 'corner glue' },
  ),
  'build.lot-needs-date.todo': wayOut('Type the date after it: { $code } 2027-03-31; or scan its code.', {
    code: 'mv',
  }),
  'build.lot-needs-date/other': word(
    'Lot { $code } is known as { $other }, not as { $material }, and is named without a date.',
    'as build.lot-needs-date; the same code was named as a lot of another material',
    { code: 'G-9001', other: 'gasket', material: 'sealant' },
  ),
  'build.lot-needs-date/other.todo': wayOut(
    'Scan the lot of { $material }; where it is one, type its date after it: { $code } 2027-03-31.',
    { material: 'sealant', code: 'G-9001' },
  ),
  'build.lot-not-accepted': word(
    'Lot { $code } ({ $material }) was not accepted at goods-in.',
    'a lot, or a piece, was not accepted at goods-in',
    { code: 'mv', material: 'corner glue' },
  ),
  'build.lot-not-accepted.todo': wayOut(
    'Take one that was accepted, or let somebody who may release this stage accept it here.',
  ),
  'build.lot-not-accepted/was': word(
    '{ $material } { $code } was not accepted at goods-in.',
    'as build.lot-not-accepted',
    { material: 'corner glue', code: 'mv' },
  ),
  'build.lot-which': word(
    'There are { $count } lots { $code } of { $material }: until { $dates }.',
    'two lots of different dates have one code',
    { count: 2, code: 'G-17', material: 'corner glue', dates: '2027-01-31, 2027-03-31' },
  ),
  'build.lot-which.todo': wayOut('Type the date after it: { $code } { $first }.', {
    code: 'G-17',
    first: '2027-01-31',
  }),
  'build.piece-elsewhere': word(
    '{ $material } { $code } belongs to { $unit }, not to { $here }.',
    'a piece with its own number belongs to another place',
    { material: 'corner glue', code: 'mv', unit: 'P02-1', here: 'Europe/Dublin' },
  ),
  'build.piece-elsewhere.todo': wayOut(
    'Look at the label of the piece again. If it is to change places, take back or make again where it was accepted.',
  ),
  'build.piece-elsewhere/was': word(
    '{ $material } { $code } was accepted for { $here }; { $code2 } is another.',
    'as build.piece-elsewhere',
    { material: 'corner glue', code: 'mv', here: 'Europe/Dublin', code2: '1234' },
  ),
  'build.lot-expired': word(
    'Lot { $code } ({ $material }) expired on { $expires }.',
    'the lot has passed its expiry date',
    { code: 'mv', material: 'corner glue', expires: '2026-11-01' },
  ),
  'build.lot-expired.todo': wayOut('Take a lot that is in date and scan that.'),
  'build.lot-expiry-bad': word('"{ $given }" is no date.', 'an expiry date cannot be read', {
    given: '31.02.2027',
  }),
  'build.lot-expiry-bad.todo': wayOut('Type the date after the lot as 2027-03-31.'),
  'build.lot-expiry-bad/ai': word('"{ $date }" (AI 17) is no date.', 'as build.lot-expiry-bad', {
    date: '2026-13-01',
  }),
  'build.lot-expiry-bad/form': word('"{ $given }" is no date.', 'as build.lot-expiry-bad', {
    given: '31.02.2027',
  }),
  'build.lot-expiry-bad/form.todo': wayOut('Type the date after the lot as { $form } or 2027-03-31.', {
    form: 'DD.MM.YYYY',
  }),
  'build.lot-snagged': word(
    'An open snag touches lot { $code } ({ $material }).',
    'an open snag touches the lot',
    { code: 'G-17', material: 'corner glue' },
  ),
  'build.lot-snagged.todo': wayOut('Take another lot, or decide and close the snag.'),
  'build.lot-snagged/number': word(
    'The open snag { $snag } touches lot { $code } ({ $material }).',
    'as build.lot-snagged',
    { snag: 2, code: 'G-17', material: 'corner glue' },
  ),
  'build.evidence-needed': word('A picture is asked for: { $ask }', 'a picture or file is asked for', {
    ask: 'Diagonal from top left',
  }),
  'build.evidence-needed.todo': wayOut('Name a file, or put one into the inbox folder and take the newest.'),
  'build.evidence-needed/releasing': word(
    'Releasing "{ $hold }" asks for a picture or a file.',
    'as build.evidence-needed',
    { hold: 'frame-closed' },
  ),
  'build.evidence-missing': word(
    '"{ $name }" was not found, or not kept.',
    'an evidence file was not found or not kept',
    { name: 'frame-size' },
  ),
  'build.evidence-missing.todo': wayOut('Name a file that is there.'),
  'build.square-incomplete': word(
    '{ $check } still lacks { $missing }.',
    'the squareness set is not complete',
    { check: 'frame.diagonals', missing: 'top left, sill' },
  ),
  'build.square-incomplete.todo': wayOut(
    'Read the missing sides and diagonals; four sides and both diagonals make a set.',
  ),
  'build.square-key': word(
    'There is no reading { $replaces } of "{ $key }" to replace.',
    'a reading of a set has an unknown key, or the check is no set of readings',
    { replaces: 'P02-0', key: 'k3f9' },
  ),
  'build.square-key.todo': wayOut(
    'Use the keys of the check: top, bottom, left, right, bl_tr and br_tl, or its points.',
  ),
  'build.square-key/reading': word('"{ $odd }" is no reading of { $check }.', 'as build.square-key', {
    odd: 'middle',
    check: 'frame.diagonals',
  }),
  'build.square-key/set': word('"{ $key }" is no reading of { $check }.', 'as build.square-key', {
    key: 'middle',
    check: 'frame.diagonals',
  }),
  'build.square-key/set.todo': wayOut('Use one of: { $keys }.', { keys: 'head, sill' }),
  'build.square-key/no-set': word('{ $check } is no set of readings ({ $kind }).', 'as build.square-key', {
    check: 'frame.diagonals',
    kind: 'number',
  }),
  'build.nothing-to-undo': word(
    'Nothing was answered that could be taken back.',
    'there is no last answer that can be taken back',
  ),
  'build.nothing-to-undo.todo': wayOut('Rework the step instead; that keeps both readings.'),
  'build.nothing-to-undo/since': word(
    'Since the last answer (event { $last }) a step was made again; that is not taken back.',
    'as build.nothing-to-undo',
    { last: '17' },
  ),
  'build.nothing-to-undo/since.todo': wayOut('Answer the step anew.'),
  'build.nothing-to-undo/snag': word(
    'A snag was decided after the last answer (event { $last }); what the decision stood on is not taken back.',
    'as build.nothing-to-undo',
    { last: '17' },
  ),
  'build.nothing-to-undo/snag.todo': wayOut('Rework { $step } instead; that keeps both readings.', {
    step: 'sash.square',
  }),
  'build.nothing-to-rework': word(
    '{ $step } has not been begun.',
    'the step has not been begun, so there is nothing to make again',
    { step: 'sash.square' },
  ),
  'build.nothing-to-rework.todo': wayOut('Just do the step.'),
  'build.no-hold': word('{ $id } is held by another hold than { $step }.', 'the step has no hold', {
    id: 'vent-1.diagonals',
    step: 'sash.square',
  }),
  'build.no-hold.todo': wayOut('Release it by itself.'),
  'build.no-hold/hold': word('{ $step } has no hold.', 'as build.no-hold', { step: 'sash.square' }),
  'build.no-hold/hold.todo': wayOut('Name a step that has one.'),
  'build.not-held': word('{ $step } is released already.', 'the hold cannot be released yet', {
    step: 'sash.square',
  }),
  'build.not-held.todo': wayOut('Go on with the next step.'),
  'build.not-held/open': word(
    '{ $step } is not complete: { $open } { $count ->\n  [one] is\n *[other] are\n} open.',
    'as build.not-held',
    { step: 'sash.square', open: 'frame.diagonals', count: 1 },
  ),
  'build.not-held/open.todo': wayOut(
    'Answer { $open } so that { $count ->\n  [one] it passes\n *[other] all pass\n}, then release.',
    { open: 'frame.diagonals', count: 1 },
  ),
  'build.not-held/rests': word('{ $step } rests on work that is not done. { $why }', 'as build.not-held', {
    step: 'sash.square',
    why: 'Square the frame (frame.square) comes first and is not done.',
  }),
  'build.not-held/rests.todo': wayOut('{ $why }', {
    why: 'Square the frame (frame.square) comes first and is not done.',
  }),
  'build.hold-skipped': word(
    '{ $skipped } went on before the hold at { $step } was released.',
    'work went on past this hold before it was released',
    { skipped: 'sash.square', step: 'sash.square' },
  ),
  'build.hold-skipped.todo': wayOut(
    'Raise a snag on { $step }: open it up, test it or scrap it; a hold is not released late.',
    { step: 'sash.square' },
  ),
  'build.unknown-snag': word('Snag { $snag } is closed.', 'the unit has no such snag, or it is closed', {
    snag: '2',
  }),
  'build.unknown-snag.todo': wayOut('Open snags: { $open }.', { open: '3, 4' }),
  'build.unknown-snag/closed': word('Snag { $snag } is closed.', 'as build.unknown-snag', { snag: '2' }),
  'build.unknown-snag/closed.todo': wayOut('No snag of this unit is open.'),
  'build.unknown-snag/never': word('{ $unit } has no snag { $snag }.', 'as build.unknown-snag', {
    unit: 'P02-1',
    snag: '2',
  }),
  'build.unknown-snag/never.todo': wayOut('Open snags: { $open }.', { open: '3, 4' }),
  'build.unknown-snag/none': word('{ $unit } has no snag { $snag }.', 'as build.unknown-snag', {
    unit: 'P02-1',
    snag: '2',
  }),
  'build.unknown-snag/none.todo': wayOut('No snag of this unit is open.'),
  'build.concession-no-limit': word(
    'The concession must name what is given way: { $missing }.',
    'a concession must name the limit it waives',
    { missing: 'top left, sill' },
  ),
  'build.concession-no-limit.todo': wayOut('Decide again with limit "{ $broken }".', { broken: 'diagonals' }),
  'build.concession-no-failure': word(
    'Snag { $snag } is not about a failed reading that counts now.',
    'there is no failed check that the concession could let stand',
    { snag: '2' },
  ),
  'build.concession-no-failure.todo': wayOut(
    'Raise the snag on the failed check, or choose rework or repair.',
  ),
  'build.concession-safety': word(
    '{ $check } is a matter of safety and takes no concession.',
    'safety glass, escape, restrictors and critical snags take no concession',
    { check: 'frame.diagonals' },
  ),
  'build.concession-safety.todo': wayOut('Rework or scrap.'),
  'build.concession-safety/critical': word(
    'Snag { $snag } is critical and takes no concession.',
    'as build.concession-safety',
    { snag: '2' },
  ),
  'build.concession-product-limit': word(
    '{ $limit } is a limit of a published standard ({ $source }).',
    'a limit of a published standard takes no concession',
    { limit: 'Diagonals of a frame', source: 'mastic sheet 4' },
  ),
  'build.concession-product-limit.todo': wayOut('Rework or scrap.'),
  'build.snag-not-decided': word(
    'Snag { $snag } has no disposition yet.',
    'the snag has no disposition yet',
    { snag: '2' },
  ),
  'build.snag-not-decided.todo': wayOut('Decide it first: rework, repair, concession, scrap or return.'),
  'build.snag-needs-rework': word(
    'Snag { $snag } was decided as rework, and nothing has been reworked since.',
    'the snag was decided as rework and nothing has been reworked since',
    { snag: '2' },
  ),
  'build.snag-needs-rework.todo': wayOut('Rework { $step } and take its readings again.', {
    step: 'sash.square',
  }),
  'build.snag-needs-rework/unit': word(
    'Snag { $snag } was decided as rework, and nothing has been reworked since.',
    'as build.snag-needs-rework',
    { snag: '2' },
  ),
  'build.snag-needs-rework/unit.todo': wayOut('Rework the step that is wrong and take its readings again.'),
  'build.snag-needs-readings': word(
    'The reading that snag { $snag } conceded no longer counts.',
    'a snag closes only with readings taken again',
    { snag: '2' },
  ),
  'build.snag-needs-readings.todo': wayOut('Answer { $check } again, or decide snag { $snag } anew.', {
    check: 'frame.diagonals',
    snag: '2',
  }),
  'build.snag-needs-readings/again': word(
    'Snag { $snag } closes only with readings taken again.',
    'as build.snag-needs-readings',
    { snag: '2' },
  ),
  'build.snag-needs-readings/again.todo': wayOut(
    'Answer { $open } so that { $count ->\n  [one] it passes\n *[other] they pass\n}.',
    { open: 'frame.diagonals', count: 1 },
  ),
} as const;

/** What a refusal is raised with. */
export type BuildRaise<K extends string> = RaiseArgs<typeof BUILD_MESSAGES, K>;
export type BuildRefusal = Refusals<typeof BUILD_MESSAGES>;
export const unitProblem = problemFactory(BUILD_MESSAGES);
