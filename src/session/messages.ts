/** Messages raised by the bench itself. */
import { wayOut, word } from '../base/words.js';
export const BENCH_MESSAGES = {
  'bench.no-terminal': word('There is no terminal here.', 'the bench was opened where there is no terminal'),
  'bench.no-terminal.todo': wayOut('Run pinchrod in a terminal; "pinchrod board" needs none.'),
  'bench.no-unit': word('No unit is open.', 'a unit was asked for that no job has'),
  'bench.no-unit.todo': wayOut(
    '"pinchrod board" lists the units; several jobs may have one of that name: say JOB/UNIT.',
  ),
  'bench.no-unit/job': word('Job "{ $job }" has no unit "{ $unitId }".', 'as bench.no-unit', {
    job: 'pier-house',
    unitId: 'P02-1',
  }),
  'bench.no-unit/unit': word('There is no unit "{ $unit }".', 'as bench.no-unit', { unit: 'P02-1' }),
  'bench.no-setup': word(
    'There is no set-up "{ $id }".',
    'a set-up was named that shared/setups.yaml does not have',
    { id: 'router' },
  ),
  'bench.no-setup.todo': wayOut('There are: { $known }.', { known: 'mitre-saw' }),
  'bench.no-setup/none': word('This workshop asks for no set-ups.', 'as bench.no-setup'),
  'bench.no-setup/none.todo': wayOut(
    'Put shared/setups.yaml into the workshop to have first-offs asked for.',
  ),
  'bench.same-sources': word(
    '{ $unit } is built from the files as they are now.',
    'a revision was asked for, and the files are those that the unit is built from',
    { unit: 'P02-1' },
  ),
  'bench.same-sources.todo': wayOut('Change the job, profile set, procedure or limits first.'),
  'bench.not-begun': word(
    'Nothing of { $unit } is logged yet.',
    'a revision was requested for a unit with nothing logged yet',
    { unit: 'P02-1' },
  ),
  'bench.not-begun.todo': wayOut('Just begin it: it takes the files as they are.'),
  'bench.not-frozen': word(
    '{ $unit } does not say from which { $kind } it is built.',
    "a unit's first event does not name what it is built from",
    { unit: 'P02-1', kind: 'lot' },
  ),
  'bench.not-frozen.todo': wayOut('Run "pinchrod verify"; the unit may be looked at, not worked on.'),
  'bench.not-frozen/does': word('{ $unit } does not say from what it is built.', 'as bench.not-frozen', {
    unit: 'P02-1',
  }),
  'bench.read-only': word(
    '{ $held } is written by somebody else.',
    'an answer was given on a unit that somebody else is writing',
    { held: 'tape-3' },
  ),
  'bench.read-only.todo': wayOut('Close it there, then open it here again.'),
  'bench.inbox-empty': word(
    'There is no file in { $inbox }/.',
    'the newest file of the inbox folder was to be evidence, and there is none',
    { inbox: 'inbox' },
  ),
  'bench.inbox-empty.todo': wayOut(
    'Put the picture into the folder "inbox" of the workshop, or name a file.',
  ),
  'bench.not-kept': word(
    '{ $held } is open here for writing.',
    'a unit was to be taken over that is open here for writing already',
    { held: 'tape-3' },
  ),
  'bench.not-kept.todo': wayOut('Go on; there is nobody to take it from.'),
  'bench.nothing-in-doubt': word(
    'Nothing made under "{ $setup }" waits for a snag.',
    'snags were to be raised for a set-up under which nothing is in doubt, or all have one',
    { setup: 'mitre-saw' },
  ),
  'bench.nothing-in-doubt.todo': wayOut('"pinchrod setup" says how the set-ups stand.'),
  'bench.reread': word(
    'A fault of the program: { $fault } [bench.reread]',
    'a fault of the program while a unit was open',
    { fault: 'x is not defined' },
  ),
  'bench.reread.todo': wayOut(
    'The unit was read anew from its journal: look whether your last answer stands, then go on. Please report this line.',
  ),
  'bench.look-only': word(
    'A fault of the program: { $fault } [bench.look-only]',
    'a second fault of the program on the same unit',
    { fault: 'x is not defined' },
  ),
  'bench.look-only.todo': wayOut(
    'The unit may be looked at only. Leave the bench and start it again, or open another unit (F2). Please report this line.',
  ),
  'bench.let-go': word(
    'A fault of the program: { $fault } [bench.let-go]',
    'a third fault of the program on the same unit',
    { fault: 'x is not defined' },
  ),
  'bench.let-go.todo': wayOut(
    'The unit was closed. Nothing that was acknowledged is lost: leave the bench and start it again. Please report this line.',
  ),
  'bench.unexpected': word(
    'A fault of the program: { $fault } [bench.unexpected]',
    'the bench met something it did not expect',
    { fault: 'x is not defined' },
  ),
  'bench.unexpected.todo': wayOut(
    'Nothing that was acknowledged is lost; start it again and it stands at the same check.',
  ),
  'evidence.no-picture': word(
    '"{ $name }" is no picture that this program knows.',
    'a file given as evidence is no picture',
    { name: 'frame-size' },
  ),
  'evidence.no-picture.todo': wayOut(
    'Give a photograph: JPEG, PNG, WebP or HEIC, as cameras and phones write them.',
  ),
  'evidence.cut-off': word(
    '"{ $name }" ends in the middle: it is not whole.',
    'a picture given as evidence is not whole',
    { name: 'frame-size' },
  ),
  'evidence.cut-off.todo': wayOut('Wait until it is copied whole, or copy it again, then answer again.'),
  'evidence.too-small': word(
    '"{ $name }" has { $width } x { $height } pixels; at least { $least } x { $least2 } are asked for.',
    'a picture given as evidence is too small to show anything',
    { name: 'frame-size', width: '640', height: '480', least: '400', least2: '300' },
  ),
  'evidence.too-small.todo': wayOut(
    'Take it again, larger; leastPicture in shared/workshop.yaml says how large.',
  ),
  'bench.no-measure': word(
    'Nothing in date measures "{ $quantity }" in { $unit }, which { $check } asks.',
    'no instrument in date measures a quantity that is asked',
    { quantity: 'gap', unit: 'mm', check: 'frame.diagonals' },
  ),
  'bench.no-measure.todo': wayOut('Have one of those calibrated that measure it.'),
  'bench.no-measure/none': word(
    'Nothing here measures "{ $quantity }" in { $unit }, which { $check } asks.',
    'as bench.no-measure',
    { quantity: 'gap', unit: 'mm', check: 'frame.diagonals' },
  ),
  'bench.no-measure/none.todo': wayOut(
    'Add one that does ({ $kinds }) with "pinchrod new instrument ID", or take the check out.',
    { kinds: 'tape, rule' },
  ),
  'bench.limit-unsupported': word(
    'No instrument here can support the limit "{ $id }" ({ $limit }), as { $check } asks it.',
    'no instrument of the workshop is good enough for a limit, by the rule of judging in force',
    { id: 'vent-1.diagonals', limit: 'Diagonals of a frame', check: 'frame.diagonals' },
  ),
  'bench.limit-unsupported.todo': wayOut(
    'Get one whose uncertainty is smaller than the limit, or widen the limit; until then a pass says little.',
  ),
  'bench.limit-unused': word(
    'No check is held to the limit "{ $id }" ({ $title }).',
    'a limit is used by no check',
    { id: 'vent-1.diagonals', title: 'Square the frame' },
  ),
  'bench.limit-unused.todo': wayOut(
    'Hold a check to it, or take it out: a limit that nothing is held to looks as if something were.',
  ),
  'bench.mark-unmade': word(
    'No step names the marks that it makes.',
    'a mark of the set-out is made by no step of the procedure',
  ),
  'bench.mark-unmade.todo': wayOut(
    'Name it under "marks" of the step that makes it, such as frame/drain-inner.',
  ),
  'bench.mark-unmade/one': word(
    'No step makes the { $mark } of the { $part } ({ $id }).',
    'as bench.mark-unmade',
    { mark: 'drain slot', part: 'sill', id: 'F-sill' },
  ),
  'bench.mark-twice': word(
    'More than one step makes the { $mark } of the { $part } ({ $id }): { $steps }.',
    'two steps of the procedure make one mark',
    { mark: 'drain slot', part: 'sill', id: 'F-sill', steps: 'frame.drill, frame.rout' },
  ),
  'bench.mark-twice.todo': wayOut('Take it out of "marks" of one of them.'),
  'bench.code-shared': word(
    '"{ $code }" names two things: { $kinds }.',
    'two things have one code, so that a scan of it cannot be told apart',
    { code: 'P01-1', kinds: 'a unit of pier; this bench' },
  ),
  'bench.code-shared.todo': wayOut(
    'Give one of them another code; until then each is taken only with its letter, such as I.B1 or U.B1.',
  ),
} as const;
