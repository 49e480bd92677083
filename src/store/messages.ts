/** Every problem that the store raises, and what to do about it. */
import { wayOut, word } from '../base/words.js';
export const STORE_MESSAGES = {
  'workshop.shop-card': word(
    'The file cannot be used: { $why }.',
    'shop/shop.json, which says what shop this folder takes part in, cannot be used',
    { why: 'the file was changed' },
  ),
  'workshop.shop-card.todo': wayOut(
    'Bring the file back from a copy of this folder. Without it the folder is a workshop by itself.',
  ),
  'workshop.shop-card/no-card': word(
    'The file cannot be used: it is no card of a shop.',
    'as workshop.shop-card',
  ),
  'workshop.shop-card/gone': word(
    'The file is not there, though this folder took part in a shop.',
    'as workshop.shop-card',
  ),
  'workshop.shop-card/json': word('The file cannot be used: it is no JSON.', 'as workshop.shop-card'),
  'setups.twice': word(
    'The set-up "{ $setup }" stands twice.',
    'two set-ups, or two checks of one, have the same id in shared/setups.yaml',
    { setup: 'mitre-saw' },
  ),
  'setups.twice.todo': wayOut('Give each its own id; journals refer to it for years.'),
  'setups.twice/check': word('The check "{ $check }" of { $setup } stands twice.', 'as setups.twice', {
    check: 'frame.diagonals',
    setup: 'mitre-saw',
  }),
  'setups.limit': word(
    'There is no limit "{ $id }".',
    'a check of a first-off names no limit, or one that shared/limits.yaml does not have',
    { id: 'vent-1.diagonals' },
  ),
  'setups.limit.todo': wayOut('Name a limit of shared/limits.yaml under "limits".'),
  'setups.limit/number': word('The number "{ $check }" names no limit.', 'as setups.limit', {
    check: 'frame.diagonals',
  }),
  'setups.expect': word(
    '"{ $check }" does not say what is expected.',
    'a count of a first-off, or a number held against a deviation, has nothing expected',
    { check: 'frame.diagonals' },
  ),
  'setups.expect.todo': wayOut(
    'Give "expect"; for a number whose limit is held against the reading itself, "against: value".',
  ),
  'disk.full': word('{ $says } ({ $code }): { $name }, while { $doing }.', 'the disk is full', {
    says: 'The disk is full',
    code: 'ENOSPC',
    name: 'P02-1.jsonl',
    doing: 'the answer was written',
  }),
  'disk.full.todo': wayOut('Free some space, then do the same again: nothing was half written.'),
  'disk.read-only': word('{ $says } ({ $code }): { $name }, while { $doing }.', 'the disk is read-only', {
    says: 'The disk is full',
    code: 'ENOSPC',
    name: 'P02-1.jsonl',
    doing: 'the answer was written',
  }),
  'disk.read-only.todo': wayOut(
    'Make the disk writable (a stick may have a lock switch), then do the same again.',
  ),
  'disk.no-right': word(
    '{ $says } ({ $code }): { $name }, while { $doing }.',
    'the program may not read or write a file or folder',
    { says: 'The disk is full', code: 'ENOSPC', name: 'P02-1.jsonl', doing: 'the answer was written' },
  ),
  'disk.no-right.todo': wayOut('Give your account permission, then try again.'),
  'disk.too-many-open': word(
    '{ $says } ({ $code }): { $name }, while { $doing }.',
    'too many files are open on this machine',
    { says: 'The disk is full', code: 'ENOSPC', name: 'P02-1.jsonl', doing: 'the answer was written' },
  ),
  'disk.too-many-open.todo': wayOut('Close other programs, then do the same again.'),
  'disk.fault': word('{ $says } ({ $code }): { $name }, while { $doing }.', 'the disk reports a fault', {
    says: 'The disk is full',
    code: 'ENOSPC',
    name: 'P02-1.jsonl',
    doing: 'the answer was written',
  }),
  'disk.fault.todo': wayOut(
    'Copy the workshop folder to another disk and go on there; do not trust this one.',
  ),
  'disk.gone': word('{ $says } ({ $code }): { $name }, while { $doing }.', 'a file or folder is not there', {
    says: 'The disk is full',
    code: 'ENOSPC',
    name: 'P02-1.jsonl',
    doing: 'the answer was written',
  }),
  'disk.gone.todo': wayOut('Check that the disk or share is connected and the folder has not been moved.'),
  'disk.failed': word(
    '{ $says } ({ $code }): { $name }, while { $doing }.',
    'a file could not be read or written',
    { says: 'The disk is full', code: 'ENOSPC', name: 'P02-1.jsonl', doing: 'the answer was written' },
  ),
  'disk.failed.todo': wayOut('Fix the problem named, then try again: nothing was half written.'),
  'disk.failed/unreadable': word('{ $fault }', 'as disk.failed', {
    fault: 'The disk reports a fault (EIO): keys.jsonl, while it was verified.',
  }),
  'disk.short': word(
    'The disk took { $from } of { $count } bytes.',
    'the disk takes no more bytes without saying why',
    { from: '1', count: '3' },
  ),
  'disk.short.todo': wayOut('See whether the disk is full or the quota is used up, then do the same again.'),
  'disk.does-not-append': word(
    'What was appended to a file under logs/ did not come back.',
    'the logs folder does not really keep what is appended',
  ),
  'disk.does-not-append.todo': wayOut('Put the workshop on an ordinary local disk.'),
  'journal.damaged': word('{ $fault }', 'a journal is damaged before its end', {
    fault: 'The line was changed: its content does not give its hash.',
  }),
  'journal.damaged.todo': wayOut(
    'Run "pinchrod verify" and restore the journal from a copy; the program never mends it.',
  ),
  'journal.newer': word('{ $fault }', 'a journal is written in a newer format', {
    fault: 'The event is of format 13; this version reads up to 12.',
  }),
  'journal.newer.todo': wayOut('Use the newer version of pinchrod that wrote it.'),
  'journal.unknown-event': word('{ $fault }', 'a whole line holds an event that this version does not know', {
    fault: 'The line is whole, but this version does not know it: kind: Invalid input',
  }),
  'journal.unknown-event.todo': wayOut('Use the version of pinchrod that wrote it.'),
  'journal.torn': word(
    'Line { $line } was cut off while it was written; its { $count } bytes are kept as { $kept }.',
    'the last line of a journal was cut off while it was written, and is set aside',
    { line: '12', count: '3', kept: '40' },
  ),
  'journal.torn.todo': wayOut('Look at the last answer of the unit: if it is missing, give it again.'),
  'journal.changed-beneath': word(
    'The journal is not as this bench left it: something else wrote into it or replaced it.',
    'a journal was changed by something else while it was open',
  ),
  'journal.changed-beneath.todo': wayOut(
    'Leave the unit, see who else writes this folder, run "pinchrod verify", then open the unit again.',
  ),
  'journal.replaced': word(
    'The file under this name is not the one that was written.',
    'the file of a journal was replaced, removed, renamed or relinked while it was open, so an answer would be lost',
  ),
  'journal.replaced.todo': wayOut(
    'See what else works in this folder (a sync program, a restore, an editor) and put the right file under its name, then give the answer again.',
  ),
  'journal.replaced/open': word(
    'The file under the name of the journal is not the one that this bench has open.',
    'as journal.replaced',
  ),
  'journal.cannot-hold': word(
    'The line cannot be written: { $wrong }.',
    'an event cannot be written as a line of the record format',
    { wrong: 'a number is too large' },
  ),
  'journal.cannot-hold.todo': wayOut('Type the text again without the character named, or shorter.'),
  'journal.cannot-hold/cannot': word('"{ $kind }" cannot be written: { $why }.', 'as journal.cannot-hold', {
    kind: 'lot',
    why: 'the file was changed',
  }),
  'journal.cannot-hold/entry': word('The entry cannot be written: { $wrong }.', 'as journal.cannot-hold', {
    wrong: 'a number is too large',
  }),
  'journal.too-large': word(
    'The journal would have { $bytes } bytes.',
    'a journal is, or would become, larger than 32 MB',
    { bytes: '100000001' },
  ),
  'journal.too-large.todo': wayOut('Something wrote far too much into it; restore it from a copy.'),
  'journal.too-large/journal': word('The journal has { $stat } bytes.', 'as journal.too-large', {
    stat: '1048577',
  }),
  'journal.too-large/register': word('The register is full.', 'as journal.too-large'),
  'journal.name': word(
    '"{ $journal }" is no name of a journal.',
    'a job or unit name cannot be the name of a file',
    { journal: 'pier-house/P02-1' },
  ),
  'journal.name.todo': wayOut(
    'Use letters, digits, ".", "-" and "_" only, beginning with a letter or digit.',
  ),
  'journal.name/cannot': word('"{ $wrong }" cannot be the name of a file.', 'as journal.name', {
    wrong: 'a number is too large',
  }),
  'journal.name/cannot-name': word('"{ $job }" cannot be the name of a file.', 'as journal.name', {
    job: 'pier-house',
  }),
  'journal.name/cannot-name-file': word('"{ $text }" cannot be the name of a file.', 'as journal.name', {
    text: 'saw 45',
  }),
  'journal.let-go': word('The unit was let go.', 'a unit was released, or taken over by another bench'),
  'journal.let-go.todo': wayOut('Open the unit again.'),
  'journal.let-go/lock': word("The lock of { $unit } is no longer this bench's.", 'as journal.let-go', {
    unit: 'P02-1',
  }),
  'journal.let-go/here': word('{ $unit } was let go here.', 'as journal.let-go', { unit: 'P02-1' }),
  'lock.held': word('{ $holder } has { $unit }.', 'another bench has the unit', {
    holder: 'mv at bench-1 (process 4711 on shop-pc)',
    unit: 'P02-1',
  }),
  'lock.held.todo': wayOut(
    'Look at it here, or leave it there first. A lock that nothing runs behind is taken over at the bench, on the overview (F9).',
  ),
  'lock.other-machine': word(
    '{ $holder } has { $unit }.',
    'a bench on another machine has the unit, or had it when that machine stopped',
    { holder: 'mv at bench-1 (process 4711 on shop-pc)', unit: 'P02-1' },
  ),
  'lock.other-machine.todo': wayOut(
    'Leave the unit there. If that machine is off, take the unit over at the bench, on the overview (F9).',
  ),
  'lock.unreadable': word(
    '{ $unit } is locked, and the lock does not say by whom.',
    'a lock file cannot be read, so nobody knows who has the unit',
    { unit: 'P02-1' },
  ),
  'lock.unreadable.todo': wayOut(
    'Make sure that no bench has the unit open, then take it over at the bench, on the overview (F9), or delete the lock file named.',
  ),
  'source.missing': word(
    'The name of { $id } is not there as it was kept.',
    'what a unit was built from is not under logs/sources',
    { id: 'vent-1.diagonals' },
  ),
  'source.missing.todo': wayOut('Restore the file named from a copy of the workshop.'),
  'source.missing/other1': word('{ $file } is not there.', 'as source.missing', {
    file: 'shared/jobs/pier-house.yaml',
  }),
  'source.changed': word(
    'The file is not what its name says: its content was changed.',
    'a frozen source is not what it was when it was frozen',
  ),
  'source.changed.todo': wayOut(
    'Restore the file named from a copy of the workshop; never edit files under logs/.',
  ),
  'evidence.missing': word('"{ $evidence }" is not there.', 'an evidence file is not there', {
    evidence: 'corner.jpg',
  }),
  'evidence.missing.todo': wayOut('Restore it from a copy.'),
  'evidence.changed': word(
    '"{ $evidence }" is not what it was when it was kept.',
    'an evidence file was changed',
    { evidence: 'corner.jpg' },
  ),
  'evidence.changed.todo': wayOut('Restore it from a copy.'),
  'evidence.refused': word(
    'The file has a name that no file can have.',
    'a file cannot be taken as evidence',
  ),
  'evidence.refused.todo': wayOut('Give an ordinary file (photo, PDF, text) of at most 50 MB.'),
  'evidence.refused/gone': word('The file is not there.', 'as evidence.refused'),
  'evidence.refused/no-file': word('The file is not an ordinary file.', 'as evidence.refused'),
  'evidence.refused/empty': word('The file is empty.', 'as evidence.refused'),
  'evidence.refused/large': word(
    'The file has { $bytes } bytes; { $most } are taken.',
    'as evidence.refused',
    { bytes: 200000001, most: 100000000 },
  ),
  'key.there': word('{ $bench } has the key { $before } already.', 'the bench has a key already', {
    bench: 'bench-1',
    before: 'machining',
  }),
  'key.there.todo': wayOut(
    'Go on with it. For a new one, first move the private file named to a safe place; the public one stays in shared/keys.',
  ),
  'key.open': word(
    'Others than its owner may read this private key.',
    'the private key of a bench may be read by others than its owner',
  ),
  'key.open.todo': wayOut(
    'Take that right away (chmod 600 and the file named), or make a new key if others may have read it.',
  ),
  'key.unusable': word(
    'This is no key file.',
    'a key file holds no Ed25519 key in PEM, or stands under the name of another key',
  ),
  'key.unusable.todo': wayOut(
    'Restore the file from a copy. A private key that is lost is replaced by a new one: pinchrod key new.',
  ),
  'key.unusable/file': word('The file holds no Ed25519 key.', 'as key.unusable'),
  'key.unusable/file-does': word('The file does not hold the key { $id }.', 'as key.unusable', {
    id: 'vent-1.diagonals',
  }),
  'key.bench-name': word(
    '"{ $bench }" cannot be the name of a file.',
    'the name of the bench cannot be the name of a file',
    { bench: 'bench-1' },
  ),
  'key.bench-name.todo': wayOut(
    'Give the bench a name of letters, digits, ".", "-" and "_" in shared/workshop.yaml or PINCHROD_BENCH.',
  ),
  'key.gone': word(
    '{ $bench } has no key to be replaced.',
    'the private key that a bench signs with is not there',
    { bench: 'bench-1' },
  ),
  'key.gone.todo': wayOut(
    'Restore the file from a copy, readable by its owner alone. If it is lost: pinchrod key withdraw at another bench whose key counts, then pinchrod key new here; where no private key is left, pinchrod key new --anew.',
  ),
  'key.gone/signs': word(
    '{ $bench } signs with key { $key }, whose private part is not there.',
    'as key.gone',
    { bench: 'bench-1', key: 'k3f9' },
  ),
  'key.not-introduced': word(
    'Key { $key } of { $bench } does not count yet.',
    'the key of a bench does not count yet: the register of keys does not introduce it',
    { key: 'k3f9', bench: 'bench-1' },
  ),
  'key.not-introduced.todo': wayOut(
    'At a bench whose key counts: pinchrod key accept FINGERPRINT. If only its public part is missing: pinchrod key show prints it.',
  ),
  'key.register-gone': word(
    'The register of keys is not there.',
    'the register of keys that was there is not there any more',
  ),
  'key.register-gone.todo': wayOut(
    'Restore register/keys.jsonl from a copy. If there is none: pinchrod key new --anew at a bench that has its private key, then pinchrod key accept FINGERPRINT --bench NAME for every other, then pinchrod register accept. Give readers the fingerprint.',
  ),
  'key.register-gone/known': word('{ $fault }', 'as key.register-gone', {
    fault: 'This account knows of a register of keys, and there is none.',
  }),
  'key.withdrawn': word('Key { $key } of { $bench } was withdrawn.', 'the key of a bench was withdrawn', {
    key: 'k3f9',
    bench: 'bench-1',
  }),
  'key.withdrawn.todo': wayOut('Move the private file named away, then make a new one: pinchrod key new.'),
  'key.nobody-signs': word('No private key here counts.', 'no key that counts can sign here'),
  'key.nobody-signs.todo': wayOut(
    'Do it at a bench whose key counts. If no private key that counts is left anywhere, or the register of keys is lost: pinchrod key new --anew begins it again, and readers must be given the fingerprint.',
  ),
  'key.nobody-signs/key': word('{ $bench } has no key, and this workshop signs.', 'as key.nobody-signs', {
    bench: 'bench-1',
  }),
  'key.unknown': word(
    '"{ $given }" is no fingerprint: 64 hex digits.',
    'no key of that id or fingerprint is known here',
    { given: 'bench 1' },
  ),
  'key.unknown.todo': wayOut('See the keys with pinchrod key show.'),
  'key.unknown/key': word(
    'No key that waits for it has the fingerprint { $fingerprint }.',
    'as key.unknown',
    { fingerprint: 'SHA256:1f2e' },
  ),
  'key.unknown/key-counts': word('No key { $id } counts here.', 'as key.unknown', { id: 'vent-1.diagonals' }),
  'register.damaged': word('The last entry is not signed by a key that counts.', 'a register is damaged'),
  'register.damaged.todo': wayOut(
    'Run "pinchrod verify". Restore the file from a copy, or let somebody who may release accept what is there: pinchrod register accept.',
  ),
  'register.damaged/last': word('The last line of the register is damaged.', 'as register.damaged'),
  'register.damaged/chain': word('{ $fault }', 'as register.damaged', {
    fault: 'Event 3 is missing before this line.',
  }),
  'register.damaged/forged': word('{ $fault }', 'as register.damaged', {
    fault: 'Entry 3 is not signed by a key that counts.',
  }),
  'register.damaged/forged.todo': wayOut('{ $way }', { way: 'Restore the register of keys from a copy.' }),
  'register.gone': word(
    'This account knows entry { $known } of it, which is not there.',
    'a register that was there is not there any more',
    { known: 'saw, crimper' },
  ),
  'register.gone.todo': wayOut(
    'Restore the register folder from a copy. If there is none, let somebody who may release accept what is there: pinchrod register accept.',
  ),
  'register.locked': word(
    'The register is held by another: { $text }',
    'the register of the bench is held by another process',
    { text: 'saw 45' },
  ),
  'register.locked.todo': wayOut(
    'Let no two machines have the same name of bench. If the machine named is gone, remove the lock file named.',
  ),
  'register.nothing': word(
    'All agrees with the registers.',
    'there is nothing to accept: all agrees with the registers',
  ),
  'register.nothing.todo': wayOut('Nothing needs to be done.'),
  'register.not-restored': word(
    '{ $count } of what is wrong is of no restore.',
    'something is wrong that no restore explains, and that nobody can accept',
    { count: '3' },
  ),
  'register.not-restored.todo': wayOut('Put right what is named first: restore the files from a copy.'),
  'pins.unusable': word('The file holds no PINs.', 'keys/pins.json holds no PINs'),
  'pins.unusable.todo': wayOut(
    'Restore it from a copy, or remove it and set each PIN again: pinchrod person pin.',
  ),
  'pins.open': word(
    'Others than its owner may read the PINs.',
    'the PINs may be read by others than their owner',
  ),
  'pins.open.todo': wayOut(
    'Take that right away (chmod 600 and the file named), then choose new PINs if others may have read it.',
  ),
  'pins.in-people': word(
    'The PIN of { $old } stands here.',
    'PINs stand in shared/people.yaml, which everybody reads',
    { old: 'ot, mv' },
  ),
  'pins.in-people.todo': wayOut('Move them: pinchrod person move-pins.'),
  'pins.in-people/pins': word('The PINs stand in a form that cannot be taken out.', 'as pins.in-people'),
  'pins.in-people/pins.todo': wayOut(
    'Take each line "pin: …" out by hand, then set the PINs: pinchrod person pin.',
  ),
  'seal.open-units': word('Not finished: { $open }.', 'a job is not sealed while units of it are open', {
    open: 'P01-2, P02-1',
  }),
  'seal.open-units.todo': wayOut('Finish or scrap the units named, then seal the job.'),
  'seal.open-units/more': word('Not finished: { $open } and { $more } more.', 'as seal.open-units', {
    open: 'P01-2, P02-1',
    more: 3,
  }),
  'seal.no-units': word(
    'There is no job "{ $job }", or it has no units.',
    'a job has no units that could be sealed',
    { job: 'pier-house' },
  ),
  'seal.no-units.todo': wayOut('See the jobs with pinchrod board.'),
  'archive.no-job': word(
    'There is no journal of a job "{ $job }".',
    'there is nothing of that job to archive',
    { job: 'pier-house' },
  ),
  'archive.no-job.todo': wayOut(
    'See the jobs with pinchrod board; a job is archived once a unit of it is begun.',
  ),
  'archive.wanting': word(
    'The file is not there, or no ordinary file.',
    'a file that a journal names is not there, so the archive would not be whole',
  ),
  'archive.wanting.todo': wayOut('Run "pinchrod verify", restore the file from a copy, then archive again.'),
  'archive.too-large': word(
    'The job has more than { $largestArchive } MB, or { $mostFiles } files.',
    'a job is too large for one archive file',
    { largestArchive: '500', mostFiles: '100000' },
  ),
  'archive.too-large.todo': wayOut('Copy the logs folder itself, and check the copy with pinchrod verify.'),
  'archive.damaged': word('{ $fault }', 'an archive is not whole, or holds what it must not', {
    fault: 'It is no whole ZIP file.',
  }),
  'archive.damaged.todo': wayOut('Take another copy of the archive.'),
  'archive.not-removed': word(
    'Not closed: { $open }.',
    'a job is not removed: units are open, or a bench has one, or the archive does not hold the same',
    { open: 'P01-2, P02-1' },
  ),
  'archive.not-removed.todo': wayOut(
    'Nothing was removed. Put right what is named, then run the same command again.',
  ),
  'archive.not-removed/file': word('The file is not in the archive as it is now.', 'as archive.not-removed'),
  'archive.there': word('{ $out } is there.', 'a file of the name of the archive is there', {
    out: 'pier.tar',
  }),
  'archive.there.todo': wayOut('Name another with --out, or move the file away; nothing is overwritten.'),
  'workshop.missing': word(
    'There is no such file or folder.',
    'the folder is not a workshop: a file that every workshop has is missing',
  ),
  'workshop.missing.todo': wayOut(
    'Go to the workshop folder, name it with --workshop DIR, or make one with "pinchrod init DIR".',
  ),
  'workshop.too-large': word(
    'The file has { $stat } bytes; { $largestFile } are taken.',
    'a workshop file is larger than 2 MB',
    { stat: '1048577', largestFile: '1000000' },
  ),
  'workshop.too-large.todo': wayOut('Split the file, or remove what does not belong in it.'),
  'workshop.not-a-file': word(
    'This is no ordinary file.',
    'a name in a workshop folder is not an ordinary file',
  ),
  'workshop.not-a-file.todo': wayOut('Put an ordinary file there, or remove the name.'),
  'workshop.not-a-file/journal': word('The journal is not an ordinary file.', 'as workshop.not-a-file'),
  'workshop.outside': word(
    'The file lies outside the workshop folder.',
    'a name in the workshop leads out of the workshop folder',
  ),
  'workshop.outside.todo': wayOut('Copy the file into the workshop; links to elsewhere are not followed.'),
  'workshop.outside/folder': word('The folder is a link, or no folder.', 'as workshop.outside'),
  'workshop.not-text': word('The file is not text in UTF-8.', 'a workshop file is not text in UTF-8'),
  'workshop.not-text.todo': wayOut('Save it again as UTF-8 from your editor.'),
  'workshop.name': word(
    'The file holds "{ $loaded }", but is named for "{ $name }".',
    'a file is not named for what it holds',
    { loaded: 'quay-70', name: 'frame-size' },
  ),
  'workshop.name.todo': wayOut('Rename the file, or the name inside it, so that both are the same.'),
  'workshop.name/file': word(
    'The file holds "{ $language }", but is named for "{ $language2 }".',
    'as workshop.name',
    { language: 'de', language2: 'fr' },
  ),
  'workshop.unknown': word(
    'There is no "{ $name }" in { $folder }.',
    'a job, profile set or procedure is asked for that the workshop does not have',
    { name: 'frame-size', folder: 'shared/jobs' },
  ),
  'workshop.unknown.todo': wayOut('There are: { $known }.', { known: 'saw, crimper' }),
  'workshop.unknown/near': word('There is no "{ $name }" in { $folder }.', 'as workshop.unknown', {
    name: 'mitre-sow',
    folder: 'shared/setups.yaml',
  }),
  'workshop.unknown/near.todo': wayOut('Write "{ $near }"; there are: { $known }.', {
    near: 'mitre-saw',
    known: 'mitre-saw, crimper',
  }),
  'workshop.unknown/none': word('There is no "{ $name }" in { $folder }.', 'as workshop.unknown', {
    name: 'quay-70',
    folder: 'shared/profile-sets',
  }),
  'workshop.unknown/none.todo': wayOut('The folder holds none.'),
  'workshop.twice': word(
    '"{ $person }" stands for { $people } already.',
    'the same id or name is given twice',
    { person: 'Mara Vogt', people: 'Mara Vogt' },
  ),
  'workshop.twice.todo': wayOut('Give each its own.'),
  'workshop.twice/have': word('{ $file } and { $other } have the same name.', 'as workshop.twice', {
    file: 'shared/jobs/pier-house.yaml',
    other: 'glass.packed',
  }),
  'init.there': word(
    'The name is there and is not a folder.',
    'the folder for a new workshop already holds one, or files of its names',
  ),
  'init.there.todo': wayOut('Choose an empty or new folder; nothing is overwritten.'),
  'init.there/folder': word('The folder already holds "{ $taken }".', 'as init.there', { taken: 'logs' }),
  'init.no-source': word(
    'The shipped workshop is not there.',
    'the shipped workshop cannot be found beside the program',
  ),
  'init.no-source.todo': wayOut('Install the program again.'),
  'init.no-source/folder': word('The folder of the program holds no workshop.', 'as init.no-source'),
} as const;
