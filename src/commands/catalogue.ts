/** Every refusal of the verbs. `id.todo` is the way out of `id`; `id/case` says the same of a case with words of its own. */
import { messagesOf, wayOut, word } from '../base/words.js';

export const COMPARE_MESSAGES = {
  'compare.no-file': word('"{ $file }" cannot be read ({ $code }).', 'a file to compare cannot be read', {
    file: 'shared/jobs/pier-house.yaml',
    code: 'EACCES',
  }),
  'compare.no-file.todo': wayOut('Name two files that exist.'),
  'compare.no-file/bytes': word(
    '"{ $file }" has { $size } bytes; { $largest } are taken.',
    'as compare.no-file',
    { file: 'shared/jobs/pier-house.yaml', size: '8 MB', largest: '1000000' },
  ),
  'compare.no-file/there': word('There is no file "{ $file }".', 'as compare.no-file', {
    file: 'shared/jobs/pier-house.yaml',
  }),
  'compare.kinds': word(
    'These cannot be compared: { $named }.',
    'the two files are not of one kind, or of a kind that cannot be compared',
    { named: 'a.yaml is pinchrod-limits; b.yaml is pinchrod-procedure' },
  ),
  'compare.kinds.todo': wayOut('Name two procedures, or two limits files.'),
} as const;

export const SETOUT_MESSAGES = {
  'setout.no-job': word('There is no job "{ $word }".', 'the job named is not there', { word: 'mullion' }),
  'setout.no-job.todo': wayOut('Name a file of shared/jobs, with or without its ending, or give a path.'),
  'setout.no-set': word(
    'Job { $job } is made of profile set "{ $profileSet }", and there is no file of that name.',
    'the job’s profile set is not there',
    { job: 'pier-house', profileSet: 'quay70' },
  ),
  'setout.no-set.todo': wayOut('Put the profile set into shared/profile-sets, under its name.'),
  'setout.no-job/near': word('There is no job "{ $word }".', 'as setout.no-job', { word: 'mill-lnae' }),
  'setout.no-job/near.todo': wayOut('Write { $near }, or name another file of shared/jobs.', {
    near: 'mill-lane',
  }),
  'setout.no-unit/near': word('Job { $job } has no unit "{ $positionals }".', 'as setout.no-unit', {
    job: 'mill-lane',
    positionals: 'P2-1',
  }),
  'setout.no-unit/near.todo': wayOut('Write { $near }, or another unit as "board" lists them.', {
    near: 'P02-1',
  }),
  'setout.no-unit': word('Job { $job } has no unit "{ $positionals }".', 'the unit named is not in the job', {
    job: 'pier-house',
    positionals: 'P09-1',
  }),
  'setout.no-unit.todo': wayOut('Name a unit as "board" lists them.'),
  'setout.no-unit/drawing': word('A drawing is of one unit; the job has several.', 'as setout.no-unit'),
  'setout.begun': word(
    '{ $unit } was begun with other figures than these.',
    'a unit was begun, and is made by other figures than the files give now',
    { unit: 'P02-1' },
  ),
  'setout.begun.todo': wayOut(
    'Its own figures are at the bench and in its record; pinchrod revise shows what these would change.',
  ),
  'setout.option': word(
    '"{ $spot }" is no spot of the drawing.',
    'an option has a value that it does not take',
    { spot: 'corner' },
  ),
  'setout.option.todo': wayOut('Use one of { $spots }.', { spots: 'head, sill' }),
  'setout.option/triangle': word(
    '--triangle takes hinge or handle, not "{ $triangle }".',
    'as setout.option',
    { triangle: 'TT1' },
  ),
  'setout.option/triangle.todo': wayOut('See setout --help.'),
} as const;

/** Messages of the verbs themselves, for bad usage or when they cannot go on. */
export const COMMAND_MESSAGES = {
  'command.usage': word(
    'Something is missing.',
    'a verb was given a word or option that it does not take, or lacks one',
  ),
  'command.usage.todo': wayOut('Run the verb with --help.'),
  'command.usage/missing': word('Something is missing.', 'as command.usage'),
  'command.usage/missing.todo': wayOut('{ $usage }', { usage: 'pinchrod board [JOB]' }),
  'command.usage/option': word('{ $fault }', 'as command.usage', { fault: "Unknown option '--with'" }),
  'command.usage/option.todo': wayOut('{ $usage }', { usage: 'pinchrod board [JOB]' }),
  'command.usage/many': word('"{ $word }" is one word too many.', 'as command.usage', { word: 'again' }),
  'command.usage/many.todo': wayOut('{ $usage }', { usage: 'pinchrod board [JOB]' }),
  'command.usage/setup': word('That is no way to use setup.', 'as command.usage'),
  'command.usage/setup.todo': wayOut('{ $usage }', { usage: 'pinchrod board [JOB]' }),
  'command.usage/shop': word(
    'shop takes one of: init, join, status, publish, take UNIT, resume, leave, copy DIR, remove JOB.',
    'as command.usage',
  ),
  'command.usage/shop.todo': wayOut('{ $usage }', { usage: 'pinchrod board [JOB]' }),
  'command.usage/by': word('{ $verb } needs --by: who does it.', 'as command.usage', { verb: 'publish' }),
  'command.usage/by.todo': wayOut('{ $usage }', { usage: 'pinchrod board [JOB]' }),
  'command.usage/reason': word('{ $verb } needs --reason.', 'as command.usage', { verb: 'publish' }),
  'command.usage/reason.todo': wayOut('{ $usage }', { usage: 'pinchrod board [JOB]' }),
  'command.usage/revise': word('A person and a reason are needed.', 'as command.usage'),
  'command.usage/revise.todo': wayOut('{ $usage }', { usage: 'pinchrod board [JOB]' }),
  'command.usage/person': word('Something is missing or not known.', 'as command.usage'),
  'command.usage/person.todo': wayOut('{ $usage }', { usage: 'pinchrod board [JOB]' }),
  'command.usage/erase': word('--by names who erases it.', 'as command.usage'),
  'command.usage/erase.todo': wayOut('{ $usage }', { usage: 'pinchrod board [JOB]' }),
  'command.usage/withdraw': word('withdraw needs --why lost or --why exposed.', 'as command.usage'),
  'command.usage/withdraw.todo': wayOut('{ $usage }', { usage: 'pinchrod board [JOB]' }),
  'command.usage/key': word('That is not something to do with a key.', 'as command.usage'),
  'command.usage/key.todo': wayOut('{ $usage }', { usage: 'pinchrod board [JOB]' }),
  'command.usage/register': word(
    'accept needs --by and --reason; nothing else is done with a register.',
    'as command.usage',
  ),
  'command.usage/register.todo': wayOut('{ $usage }', { usage: 'pinchrod board [JOB]' }),
  'command.usage/daybook': word(
    'daybook takes received, sent, agreed, action, limits, chart or strike, not "{ $word }".',
    'as command.usage',
    { word: 'sold' },
  ),
  'command.usage/daybook.todo': wayOut('{ $usage }', { usage: 'pinchrod board [JOB]' }),
  'command.usage/daybook-needs': word('daybook { $word } needs { $needs }.', 'as command.usage', {
    word: 'action',
    needs: '--against and --what',
  }),
  'command.usage/daybook-needs.todo': wayOut('{ $usage }', { usage: 'pinchrod board [JOB]' }),
  'daybook.snag': word(
    '"{ $unit }" has no snag { $snag }.',
    "a customer's word is about a snag that the unit does not have",
    { unit: 'P02-1', snag: '57' },
  ),
  'daybook.snag.todo': wayOut('pinchrod record UNIT names the snags of a unit with their numbers.'),
  'daybook.against': word(
    'Nothing of "{ $against }" has gone wrong so far.',
    'a corrective action is against something that no unit has had',
    { against: 'saw' },
  ),
  'daybook.against.todo': wayOut(
    'Name a cause or a check as "pinchrod ledger nonconformities" does: { $known }',
    {
      known: 'saw stop; frame.mitres/length',
    },
  ),
  'daybook.same-limits': word(
    'Somebody stands for these limits already.',
    'the limits are those that the day book names last',
  ),
  'daybook.same-limits.todo': wayOut(
    'Change shared/limits.yaml first. "pinchrod daybook" shows who stands for what.',
  ),
  'daybook.entry': word(
    'No entry of the day book has the mark "{ $mark }".',
    'an entry to be struck out is not there',
    {
      mark: '1a2b3c4d',
    },
  ),
  'daybook.entry.todo': wayOut('"pinchrod daybook" shows them, each with its mark of eight characters.'),
  'command.usage/trace': word('Nothing to look for.', 'as command.usage'),
  'command.usage/trace.todo': wayOut('{ $usage }', { usage: 'pinchrod board [JOB]' }),
  'command.usage/board-by': word('There is no board by "{ $by }".', 'as command.usage', { by: 'person' }),
  'command.usage/board-by.todo': wayOut('{ $usage }', { usage: 'pinchrod board [JOB]' }),
  'command.usage/board-since': word('"{ $since }" is no time.', 'as command.usage', { since: 'noon' }),
  'command.usage/board-since.todo': wayOut('{ $usage }', { usage: 'pinchrod board [JOB]' }),
  'command.usage/language': word(
    'The program does not speak "{ $language }"; it speaks { $spoken }.',
    'as command.usage',
    { language: 'fr', spoken: 'en, de' },
  ),
  'command.usage/language.todo': wayOut('{ $usage }', { usage: 'pinchrod lint --words LANGUAGE' }),
  'board.no-job': word('There is no job "{ $job }".', 'the job named is not there', { job: 'pier-house' }),
  'board.no-job.todo': wayOut('Jobs are the files in shared/jobs.'),
  'demo.no-unit': word('There is no unit "{ $unit }".', 'the demonstration has no unit of that name', {
    unit: 'P02-1',
  }),
  'demo.no-unit.todo': wayOut('pinchrod board lists the units.'),
  'demo.no-unit/told': word('{ $fault }', 'as demo.no-unit', { fault: 'There is no unit "P09-1".' }),
  'demo.no-unit/told.todo': wayOut('pinchrod board lists the units.'),
  'demo.stuck': word('The demonstration stopped: { $why }', 'the unattended demonstration could not go on', {
    why: 'nothing is open',
  }),
  'demo.stuck.todo': wayOut('The journal so far is whole: pinchrod --workshop { $folder } opens it.', {
    folder: '/tmp/demo',
  }),
  'feed.usage': word('feed takes one unit.', 'feed takes one unit'),
  'feed.usage.todo': wayOut('Example: pinchrod feed P02-1; pinchrod board lists the units.'),
  'feed.json': word('The line is not JSON.', 'a line of the feed is not JSON'),
  'feed.json.todo': wayOut('Send one JSON object a line.'),
  'feed.action': word('{ $field }: { $fault }', 'a line of the feed is no action', {
    field: 'do',
    fault: 'Invalid input',
  }),
  'feed.action.todo': wayOut('The actions and their fields are in shared/schemas/action.json.'),
  'feed.action/whole': word('The action: { $fault }', 'as feed.action', { fault: 'Invalid input' }),
  'feed.action/whole.todo': wayOut('The actions and their fields are in shared/schemas/action.json.'),
  'feed.person': word('No person "{ $person }" in the workshop.', 'a person is not in the workshop', {
    person: 'xx',
  }),
  'feed.person.todo': wayOut('Known are: { $known }.', { known: 'ot, mv' }),
  'feed.instrument': word(
    'No instrument "{ $instrument }" in the workshop.',
    'an instrument is not in the workshop',
    { instrument: 'T9' },
  ),
  'feed.instrument.todo': wayOut('Known are: { $known }.', { known: 'T1, T2' }),
  'init.usage': word('init takes one folder.', 'init takes one folder'),
  'init.usage.todo': wayOut('Example: pinchrod init my-workshop'),
  'init.usage/option': word('{ $fault }', 'as init.usage', { fault: "Unknown option '--with'" }),
  'init.usage/option.todo': wayOut('Example: pinchrod init my-workshop'),
  'init.unasked': word(
    'This is no terminal, so nothing can be asked: name the workshop and who works there.',
    'init has neither a terminal nor the answers as options',
  ),
  'init.unasked.todo': wayOut(
    'Example: pinchrod init my-workshop --name "Quay Lane Windows" --person "jb Joan Bexley" --instrument all. With --demonstration the invented workshop is copied.',
  ),
  'init.name': word('A workshop needs a name.', 'the question for the name is answered with nothing'),
  'init.name.todo': wayOut('Type what records and labels are to print.'),
  'init.person': word('"{ $text }" is no code and name.', 'a person is not given as a code and a name', {
    text: 'Joan',
  }),
  'init.person.todo': wayOut(
    'Write a short code, a blank and the name: jb Joan Bexley. A code is letters and digits, up to 20.',
  ),
  'init.person/twice': word('Two people have the code { $id }.', 'as init.person', { id: 'jb' }),
  'init.person/twice.todo': wayOut('Give one of them another code, such as { $id }2.', { id: 'jb' }),
  'init.person/none': word('Nobody works here yet.', 'as init.person'),
  'init.instrument': word(
    '"{ $word }" is no instrument of the list.',
    'an instrument is not one that init knows',
    { word: 'ruler' },
  ),
  'init.instrument.todo': wayOut('Known are: { $known }. Others come later: pinchrod new instrument ID.', {
    known: 'tape, rule',
  }),
  'init.language': word(
    'The bench does not speak "{ $language }".',
    'a language that the program does not speak',
    { language: 'xx' },
  ),
  'init.language.todo': wayOut('Choose one of: { $spoken }.', { spoken: 'en, de' }),
  'new.kind': word('"{ $kind }" is nothing that can be begun.', 'new is asked for something else', {
    kind: 'window',
  }),
  'new.kind.todo': wayOut('Usage: { $usage }', { usage: 'pinchrod new set|job|procedure|instrument NAME' }),
  'new.name': word('"{ $name }" is no name for a file.', 'the name of a new file cannot be used', {
    name: 'my set',
  }),
  'new.name.todo': wayOut('Use letters, digits, points, dashes and underlines, up to 20.'),
  'new.there': word('{ $file } is there already.', 'a new file would overwrite one', {
    file: 'shared/jobs/own.yaml',
  }),
  'new.there.todo': wayOut('Choose another name; nothing is overwritten.'),
  'new.there/instrument': word('{ $file } has an instrument { $name } already.', 'as new.there', {
    file: 'shared/instruments.yaml',
    name: 'T1',
  }),
  'new.section': word('"{ $text }" is no dimension of a section.', 'new set: a number is wanted', {
    text: '58 mm',
  }),
  'new.section.todo': wayOut('Type millimetres alone, from 0.1 to 200: 58, or 58.5.'),
  'new.section/window': word('"{ $text }" is no size of a window.', 'as new.section', { text: '1100' }),
  'new.section/window.todo': wayOut('Type width x height in millimetres, from 400 to 2400: 900 x 1200.'),
  'new.section/floor': word(
    'The rebate, { $floor } mm, is as deep as the face, { $face } mm, is wide: its floor would lie outside the frame.',
    'as new.section',
    { floor: 22, face: 6 },
  ),
  'new.section/floor.todo': wayOut('Check both against the drawing; < goes back to the face.'),
  'new.section/edge': word(
    'A clearance of { $edge } mm leaves no glass in a rebate of { $floor } mm.',
    'as new.section',
    {
      edge: 22,
      floor: 22,
    },
  ),
  'new.section/edge.todo': wayOut('Check both against the drawing; < goes back to the depth.'),
  'new.section/cover': word(
    'The glass cannot be covered by { $cover } mm: a rebate of { $floor } mm less { $edge } mm of clearance is { $is } mm.',
    'as new.section',
    { cover: 17, floor: 22, edge: 4, is: 18 },
  ),
  'new.section/cover.todo': wayOut(
    'One of the three is mistyped: check them against the drawing; < goes back.',
  ),
  'new.unknown': word(
    'There is no profile set "{ $name }".',
    'a new job names a set or procedure that is not there',
    {
      name: 'w53',
    },
  ),
  'new.unknown.todo': wayOut('Known are: { $known }.', { known: 'w52, k70' }),
  'new.unknown/procedure.todo': wayOut('Known are: { $known }.', { known: 'casement, inward' }),
  'new.unknown/procedure': word('There is no procedure "{ $name }".', 'as new.unknown', { name: 'casemnt' }),
  'new.by-hand': word(
    'The list of instruments does not end { $file }.',
    'a new instrument cannot be put at the end of the file',
    { file: 'shared/instruments.yaml' },
  ),
  'new.by-hand.todo': wayOut('Put it into the list yourself:\n{ $text }', { text: '  - {id: T5, ...}' }),
  'lint.no-file': word('There is no file "{ $file }".', 'a file to check is not there', {
    file: 'shared/jobs/pier-house.yaml',
  }),
  'lint.no-file.todo': wayOut('Name files as they stand in the workshop: procedures/casement.yaml.'),
  'lint.translation-alone': word(
    'There is no procedure "{ $procedure }" for it to translate.',
    'a translation stands beside no procedure of that name',
    { procedure: 'casement' },
  ),
  'lint.translation-alone.todo': wayOut(
    'Name the file for the procedure it translates, then a point and the language: procedures/casement.de.yaml.',
  ),
  'lint.language-none': word(
    '{ $name } reads "{ $language }", in which there is no procedure.',
    'somebody reads a language in which there is no procedure',
    { name: 'frame-size', language: 'de' },
  ),
  'lint.language-none.todo': wayOut(
    'Add a translation (procedures/README.md says how), or mend "language" in shared/people.yaml.',
  ),
  'messages.unknown': word('There is no message "{ $id }".', 'there is no message of that id', {
    id: 'build.nothing',
  }),
  'messages.unknown.todo': wayOut('pinchrod messages lists them all.'),
  'person.unknown': word(
    '"{ $code }" is nobody known here.',
    'a person is not in the workshop, or no name of theirs is kept',
    { code: 'mv' },
  ),
  'person.unknown.todo': wayOut(
    'Name one of shared/people.yaml by id or initials; to erase a name, the id as journals show it.',
  ),
  'person.unknown/nobody': word('"{ $by }" is nobody known here.', 'as person.unknown', { by: 'ot' }),
  'person.listed': word(
    '{ $code } stands in shared/people.yaml.',
    'the name of somebody who works here is not erased: it would be kept again with their next answer',
    { code: 'mv' },
  ),
  'person.listed.todo': wayOut('Take the person out of shared/people.yaml first.'),
  'person.right': word(
    '{ $person } may not do this: it takes level { $assesses } (may assess).',
    'somebody may not set PINs or erase names of others',
    { person: 'Mara Vogt', assesses: '5' },
  ),
  'person.right.todo': wayOut('Let somebody at level 5 do it.'),
  'person.right/may': word(
    '{ $person } may not do this: it takes level { $level } ({ $levelWords }).',
    'as person.right',
    { person: 'Mara Vogt', level: '2', levelWords: 'under supervision' },
  ),
  'person.right/may.todo': wayOut('Let somebody of level { $level } or more do it.', { level: '2' }),
  'person.pin-wrong': word('That is not the PIN of { $person }.', 'the PIN typed is not right', {
    person: 'Mara Vogt',
  }),
  'person.pin-wrong.todo': wayOut('Type it again.'),
  'person.pin-form': word(
    'The PIN is shorter than four, or was not typed twice alike.',
    'a new PIN is too short, or was not typed twice alike',
  ),
  'person.pin-form.todo': wayOut('Type four digits or more, twice.'),
  'verify.usage': word('verify takes at most a job and a unit.', 'verify was used wrongly'),
  'verify.usage.todo': wayOut('Example: pinchrod verify pier-house'),
  'verify.usage/option': word('{ $fault }', 'as verify.usage', { fault: "Unknown option '--with'" }),
  'verify.usage/option.todo': wayOut('Example: pinchrod verify pier-house'),
  'verify.usage/no-journal': word('There is no journal of "{ $names }" under logs/.', 'as verify.usage', {
    names: 'pier-house P09-1',
  }),
  'verify.usage/no-journal.todo': wayOut('Example: pinchrod verify pier-house'),
  'verify.usage/large': word('{ $file } has { $size } bytes; { $most } are taken.', 'as verify.usage', {
    file: 'shared/jobs/pier-house.yaml',
    size: '600000000',
    most: '500000000',
  }),
  'verify.usage/large.todo': wayOut('Example: pinchrod verify pier-house'),
  'verify.usage/trust': word(
    '"{ $given }" is no fingerprint: 64 hex digits, as pinchrod key show prints.',
    'as verify.usage',
    { given: '3f9a' },
  ),
  'verify.usage/trust.todo': wayOut('Example: pinchrod verify pier-house'),
  'main.usage': word('"{ $verb }" is not a verb of pinchrod.', 'the program was used wrongly', {
    verb: 'bord',
  }),
  'main.usage.todo': wayOut('Run pinchrod --help for usage.'),
  'main.usage/near': word('"{ $verb }" is not a verb of pinchrod.', 'as main.usage', { verb: 'bord' }),
  'main.usage/near.todo': wayOut('Write pinchrod { $near }; pinchrod --help lists all verbs.', {
    near: 'board',
  }),
  'main.usage/workshop': word('--workshop needs a folder.', 'as main.usage'),
  'main.resource': word(
    '{ $fault }',
    'a file or another resource of the machine failed outside the reach of a verb',
    { fault: 'ENOSPC: no space left on device, write' },
  ),
  'main.resource.todo': wayOut(
    'See to the file, folder or disk named above, then run the command again; nothing was left half-written.',
  ),
  'main.unexpected': word(
    'The program met something it did not expect: { $fault }',
    'the program met something it did not expect',
    { fault: 'x is not defined' },
  ),
  'main.unexpected.todo': wayOut(
    'Nothing that was acknowledged is lost. Please report this line and what you were doing.',
  ),
  'measure.misread-repeat': word(
    'The repeats differ.',
    'two readings of one thing differ by more than is usual; asked, not refused',
  ),
  'measure.misread-repeat.todo': wayOut('Read both again, or send the reading again as confirmed.'),
  'measure.misread-far': word(
    'The reading lies far from what is expected.',
    'a reading lies far from what is expected; asked, not refused',
  ),
  'measure.misread-far.todo': wayOut('Read again, or confirm it.'),
  'measure.misread-impossible': word(
    'The lengths give no figure.',
    'the lengths give no figure; asked, not refused',
  ),
  'measure.misread-impossible.todo': wayOut('At least one reading is wrong: read them again.'),
  'measure.misread-open': word(
    'The readings cannot all be true.',
    'the readings cannot all be true; asked, not refused',
  ),
  'measure.misread-open.todo': wayOut('Read again the ones you doubt.'),
} as const;

const SAID = 'put before or behind a refusal';
export const COMMAND_WORDS = {
  'figures-reading': word(
    'Reading journals: { $done } of { $of } units.',
    'said while figures are made for the first time',
    {
      done: 400,
      of: 2000,
    },
  ),
  'about-unit': word('{ $unit }: { $said }', SAID, { unit: 'P02-1', said: 'no stay takes the sash.' }),
  'kind-of': word('{ $file } is { $kind }', 'which kind of file is compared', {
    file: 'a.yaml',
    kind: 'pinchrod-limits',
  }),
  'kind-none': word('{ $file } is of no known kind', 'which kind of file is compared', { file: 'a.yaml' }),
  'words-room': word(
    '{ $room } { $texts } texts { $missing } missing { $unreviewed } unreviewed { $changed } changed since',
    'lint --words: a line for each room, in columns',
    { room: 'unit', texts: '320', missing: '0', unreviewed: '320', changed: '0' },
  ),
  'words-named': word('  missing: { $ids }', 'lint --words: below the line of a room', {
    ids: 'build.nobody',
  }),
  'words-changed': word('  changed since: { $ids }', 'lint --words: below the line of a room', {
    ids: 'build.nobody',
  }),
  'lint-nothing': word('Nothing is wrong.', 'what lint says'),
  'record-lost': word(
    'The font of the PDF lacks { $n ->\n  [one] a letter, shown as a box\n *[other] { $n } letters, shown as boxes\n}: { $letters }. Put a font that has them (.ttf or .otf) into shared/fonts; the HTML form needs none.',
    'record, below the name of the file',
    { n: 2, letters: '窓 枠' },
  ),
  'lint-no-pin': word(
    'Still to do: nobody who may release has a PIN. pinchrod person pin { $person }',
    'lint, below what is wrong',
    { person: 'ot' },
  ),
  'lint-limits-unsaid': word(
    'Still to do: the limits have changed, and nobody says why. pinchrod daybook limits --reason "..." --by PERSON',
    'lint, below what is wrong',
  ),
  'lint-invented': word(
    'Not for real windows: the figures of { $sets } are invented.',
    'lint, below what is wrong',
    {
      sets: 'w52',
    },
  ),
  'lint-count': word('{ $n } { $n ->\n  [one] problem\n *[other] problems\n}.', 'what lint says', { n: 2 }),
  'lines-wait': word(
    '{ $said } { $n ->\n  [0] No lines wait\n  [one] 1 line waits\n *[other] { $n } lines wait\n} here to be handed over.',
    SAID,
    { said: 'Nothing answers.', n: 12 },
  ),
} as const;
export const commandWords = messagesOf(COMMAND_WORDS);

/** Letters that the font of a PDF does not have. */
export const tellLost = (lost: ReadonlySet<string>) =>
  commandWords('record-lost', { letters: [...lost].join(' '), n: lost.size });
