/** Every problem that the store raises, and what to do about it. */
export const STORE_MESSAGES = {
  'workshop.shop-card': {
    what: 'shop/shop.json, which says what shop this folder takes part in, cannot be used',
    todo: 'Bring the file back from a copy of this folder. Without it the folder is a workshop by itself.',
  },
  'setups.twice': {
    what: 'two set-ups, or two checks of one, have the same id in shared/setups.yaml',
    todo: 'Give each its own id; journals refer to it for years.',
  },
  'setups.limit': {
    what: 'a check of a first-off names no limit, or one that shared/limits.yaml does not have',
    todo: 'Name a limit of shared/limits.yaml under "limits".',
  },
  'setups.expect': {
    what: 'a count of a first-off, or a number held against a deviation, has nothing expected',
    todo: 'Give "expect"; for a number whose limit is held against the reading itself, "against: value".',
  },
  'disk.full': {
    what: 'the disk is full',
    todo: 'Free some space, then do the same again: nothing was half written.',
  },
  'disk.read-only': {
    what: 'the disk is read-only',
    todo: 'Make the disk writable (a stick may have a lock switch), then do the same again.',
  },
  'disk.no-right': {
    what: 'the program may not read or write a file or folder',
    todo: 'Give your account permission, then try again.',
  },
  'disk.too-many-open': {
    what: 'too many files are open on this machine',
    todo: 'Close other programs, then do the same again.',
  },
  'disk.fault': {
    what: 'the disk reports a fault',
    todo: 'Copy the workshop folder to another disk and go on there; do not trust this one.',
  },
  'disk.gone': {
    what: 'a file or folder is not there',
    todo: 'Check that the disk or share is connected and the folder has not been moved.',
  },
  'disk.failed': {
    what: 'a file could not be read or written',
    todo: 'Fix the problem named, then try again: nothing was half written.',
  },
  'disk.short': {
    what: 'the disk takes no more bytes without saying why',
    todo: 'See whether the disk is full or the quota is used up, then do the same again.',
  },
  'disk.does-not-append': {
    what: 'the logs folder does not really keep what is appended',
    todo: 'Put the workshop on an ordinary local disk.',
  },
  'journal.damaged': {
    what: 'a journal is damaged before its end',
    todo: 'Run "pinchrod verify" and restore the journal from a copy; the program never mends it.',
  },
  'journal.newer': {
    what: 'a journal is written in a newer format',
    todo: 'Use the newer version of pinchrod that wrote it.',
  },
  'journal.unknown-event': {
    what: 'a whole line holds an event that this version does not know',
    todo: 'Use the version of pinchrod that wrote it.',
  },
  'journal.torn': {
    what: 'the last line of a journal was cut off while it was written, and is set aside',
    todo: 'Look at the last answer of the unit: if it is missing, give it again.',
  },
  'journal.changed-beneath': {
    what: 'a journal was changed by something else while it was open',
    todo: 'Leave the unit, see who else writes this folder, run "pinchrod verify", then open the unit again.',
  },
  'journal.replaced': {
    what: 'the file of a journal was replaced, removed, renamed or relinked while it was open, so an answer would be lost',
    todo: 'See what else works in this folder (a sync program, a restore, an editor) and put the right file under its name, then give the answer again.',
  },
  'journal.cannot-hold': {
    what: 'an event cannot be written as a line of the record format',
    todo: 'Type the text again without the character named, or shorter.',
  },
  'journal.too-large': {
    what: 'a journal is, or would become, larger than 32 MB',
    todo: 'Something wrote far too much into it; restore it from a copy.',
  },
  'journal.name': {
    what: 'a job or unit name cannot be the name of a file',
    todo: 'Use letters, digits, ".", "-" and "_" only, beginning with a letter or digit.',
  },
  'journal.let-go': {
    what: 'a unit was released, or taken over by another bench',
    todo: 'Open the unit again.',
  },
  'lock.held': {
    what: 'another bench has the unit',
    todo: 'Look at it here, or leave it there first. A lock that nothing runs behind is taken over at the bench, on the overview (F9).',
  },
  'lock.other-machine': {
    what: 'a bench on another machine has the unit, or had it when that machine stopped',
    todo: 'Leave the unit there. If that machine is off, take the unit over at the bench, on the overview (F9).',
  },
  'lock.unreadable': {
    what: 'a lock file cannot be read, so nobody knows who has the unit',
    todo: 'Make sure that no bench has the unit open, then take it over at the bench, on the overview (F9), or delete the lock file named.',
  },
  'source.missing': {
    what: 'what a unit was built from is not under logs/sources',
    todo: 'Restore the file named from a copy of the workshop.',
  },
  'source.changed': {
    what: 'a frozen source is not what it was when it was frozen',
    todo: 'Restore the file named from a copy of the workshop; never edit files under logs/.',
  },
  'evidence.missing': { what: 'an evidence file is not there', todo: 'Restore it from a copy.' },
  'evidence.changed': { what: 'an evidence file was changed', todo: 'Restore it from a copy.' },
  'evidence.refused': {
    what: 'a file cannot be taken as evidence',
    todo: 'Give an ordinary file (photo, PDF, text) of at most 50 MB.',
  },
  'key.there': {
    what: 'the bench has a key already',
    todo: 'Go on with it. For a new one, first move the private file named to a safe place; the public one stays in shared/keys.',
  },
  'key.open': {
    what: 'the private key of a bench may be read by others than its owner',
    todo: 'Take that right away (chmod 600 and the file named), or make a new key if others may have read it.',
  },
  'key.unusable': {
    what: 'a key file holds no Ed25519 key in PEM, or stands under the name of another key',
    todo: 'Restore the file from a copy. A private key that is lost is replaced by a new one: pinchrod key new.',
  },
  'key.bench-name': {
    what: 'the name of the bench cannot be the name of a file',
    todo: 'Give the bench a name of letters, digits, ".", "-" and "_" in shared/workshop.yaml or PINCHROD_BENCH.',
  },
  'key.gone': {
    what: 'the private key that a bench signs with is not there',
    todo: 'Restore the file from a copy, readable by its owner alone. If it is lost: pinchrod key withdraw at another bench whose key counts, then pinchrod key new here; where no private key is left, pinchrod key new --anew.',
  },
  'key.not-introduced': {
    what: 'the key of a bench does not count yet: the register of keys does not introduce it',
    todo: 'At a bench whose key counts: pinchrod key accept FINGERPRINT. If only its public part is missing: pinchrod key show prints it.',
  },
  'key.register-gone': {
    what: 'the register of keys that was there is not there any more',
    todo: 'Restore register/keys.jsonl from a copy. If there is none: pinchrod key new --anew at a bench that has its private key, then pinchrod key accept FINGERPRINT --bench NAME for every other, then pinchrod register accept. Give readers the fingerprint.',
  },
  'key.withdrawn': {
    what: 'the key of a bench was withdrawn',
    todo: 'Move the private file named away, then make a new one: pinchrod key new.',
  },
  'key.nobody-signs': {
    what: 'no key that counts can sign here',
    todo: 'Do it at a bench whose key counts. If no private key that counts is left anywhere, or the register of keys is lost: pinchrod key new --anew begins it again, and readers must be given the fingerprint.',
  },
  'key.unknown': {
    what: 'no key of that id or fingerprint is known here',
    todo: 'See the keys with pinchrod key show.',
  },
  'register.damaged': {
    what: 'a register is damaged',
    todo: 'Run "pinchrod verify". Restore the file from a copy, or let somebody who may release accept what is there: pinchrod register accept.',
  },
  'register.gone': {
    what: 'a register that was there is not there any more',
    todo: 'Restore the register folder from a copy. If there is none, let somebody who may release accept what is there: pinchrod register accept.',
  },
  'register.locked': {
    what: 'the register of the bench is held by another process',
    todo: 'Let no two machines have the same name of bench. If the machine named is gone, remove the lock file named.',
  },
  'register.nothing': {
    what: 'there is nothing to accept: all agrees with the registers',
    todo: 'Nothing needs to be done.',
  },
  'register.not-restored': {
    what: 'something is wrong that no restore explains, and that nobody can accept',
    todo: 'Put right what is named first: restore the files from a copy.',
  },
  'pins.unusable': {
    what: 'keys/pins.json holds no PINs',
    todo: 'Restore it from a copy, or remove it and set each PIN again: pinchrod person pin.',
  },
  'pins.open': {
    what: 'the PINs may be read by others than their owner',
    todo: 'Take that right away (chmod 600 and the file named), then choose new PINs if others may have read it.',
  },
  'pins.in-people': {
    what: 'PINs stand in shared/people.yaml, which everybody reads',
    todo: 'Move them: pinchrod person move-pins.',
  },
  'seal.open-units': {
    what: 'a job is not sealed while units of it are open',
    todo: 'Finish or scrap the units named, then seal the job.',
  },
  'seal.no-units': {
    what: 'a job has no units that could be sealed',
    todo: 'See the jobs with pinchrod board.',
  },
  'archive.no-job': {
    what: 'there is nothing of that job to archive',
    todo: 'See the jobs with pinchrod board; a job is archived once a unit of it is begun.',
  },
  'archive.wanting': {
    what: 'a file that a journal names is not there, so the archive would not be whole',
    todo: 'Run "pinchrod verify", restore the file from a copy, then archive again.',
  },
  'archive.too-large': {
    what: 'a job is too large for one archive file',
    todo: 'Copy the logs folder itself, and check the copy with pinchrod verify.',
  },
  'archive.damaged': {
    what: 'an archive is not whole, or holds what it must not',
    todo: 'Take another copy of the archive.',
  },
  'archive.not-removed': {
    what: 'a job is not removed: units are open, or a bench has one, or the archive does not hold the same',
    todo: 'Nothing was removed. Put right what is named, then run the same command again.',
  },
  'archive.there': {
    what: 'a file of the name of the archive is there',
    todo: 'Name another with --out, or move the file away; nothing is overwritten.',
  },
  'workshop.missing': {
    what: 'the folder is not a workshop: a file that every workshop has is missing',
    todo: 'Go to the workshop folder, name it with --workshop DIR, or make one with "pinchrod init DIR".',
  },
  'workshop.too-large': {
    what: 'a workshop file is larger than 2 MB',
    todo: 'Split the file, or remove what does not belong in it.',
  },
  'workshop.not-a-file': {
    what: 'a name in a workshop folder is not an ordinary file',
    todo: 'Put an ordinary file there, or remove the name.',
  },
  'workshop.outside': {
    what: 'a name in the workshop leads out of the workshop folder',
    todo: 'Copy the file into the workshop; links to elsewhere are not followed.',
  },
  'workshop.not-text': {
    what: 'a workshop file is not text in UTF-8',
    todo: 'Save it again as UTF-8 from your editor.',
  },
  'workshop.name': {
    what: 'a file is not named for what it holds',
    todo: 'Rename the file, or the name inside it, so that both are the same.',
  },
  'workshop.unknown': {
    what: 'a job, profile set or procedure is asked for that the workshop does not have',
    todo: 'See the names that it has; names are file names without the ending.',
  },
  'workshop.twice': {
    what: 'the same id or name is given twice',
    todo: 'Give each its own.',
  },
  'init.there': {
    what: 'the folder for a new workshop already holds one, or files of its names',
    todo: 'Choose an empty or new folder; nothing is overwritten.',
  },
  'init.no-source': {
    what: 'the shipped workshop cannot be found beside the program',
    todo: 'Install the program again.',
  },
} as const;
