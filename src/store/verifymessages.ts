/** Everything that `verify` finds, and what to do about it. */

import { tabled } from '../base/problem.js';
import { wayOut, word } from '../base/words.js';
/** A fault fails, a note is worth knowing. Source of the table in logs/README.md. */
export const VERIFY_MESSAGES = {
  'verify.torn-end': word(
    '{ $fault }',
    'the last line is only a piece of an event, or NUL bytes: a write was cut off',
    { fault: 'Line 12 is only a piece of an event (40 bytes).' },
  ),
  'verify.torn-end.todo': wayOut(
    'Open the unit at the bench: it sets the piece aside and goes on. Nothing that was acknowledged is lost.',
  ),
  'verify.no-line-end': word(
    'Line { $line } is whole but has no line end.',
    'the last event is whole, but its line end is missing',
    { line: 12 },
  ),
  'verify.no-line-end.todo': wayOut('Open the unit at the bench: it adds the line end.'),
  'verify.changed-line': word(
    '{ $fault }',
    'a line was changed: its content does not give its hash, or it cannot be read, or it is spelled differently',
    { fault: 'The line was changed: its content does not give its hash.' },
  ),
  'verify.changed-line.todo': wayOut('Restore the journal from a copy, and ask who changed it.'),
  'verify.missing-line': word('{ $fault }', 'one or more lines are missing', {
    fault: 'The line was changed: its content does not give its hash.',
  }),
  'verify.missing-line.todo': wayOut('Restore the journal from a copy, and ask who removed them.'),
  'verify.re-ordered-line': word('{ $fault }', 'lines stand in another order than they were written', {
    fault: 'The line was changed: its content does not give its hash.',
  }),
  'verify.re-ordered-line.todo': wayOut('Restore the journal from a copy.'),
  'verify.repeated-line': word('{ $fault }', 'a line stands in the journal twice', {
    fault: 'The line was changed: its content does not give its hash.',
  }),
  'verify.repeated-line.todo': wayOut('Restore the journal from a copy.'),
  'verify.broken-chain': word(
    '{ $fault }',
    'a line does not follow from the one before it: one of them was written anew',
    { fault: 'The line was changed: its content does not give its hash.' },
  ),
  'verify.broken-chain.todo': wayOut('Restore the journal from a copy, and ask who wrote it.'),
  'verify.not-opened': word('{ $fault }', 'a journal does not begin with the event "opened"', {
    fault: 'The line was changed: its content does not give its hash.',
  }),
  'verify.not-opened.todo': wayOut('Restore the journal from a copy.'),
  'verify.not-opened/register': word(
    'It does not begin as the register of that bench.',
    'as verify.not-opened',
  ),
  'verify.wrong-unit': word('{ $fault }', 'a journal stands under the name of another unit or job', {
    fault: 'The line was changed: its content does not give its hash.',
  }),
  'verify.wrong-unit.todo': wayOut('Put the file back to its own name.'),
  'verify.newer-format': word('{ $fault }', 'a line is of a format newer than this program', {
    fault: 'The line was changed: its content does not give its hash.',
  }),
  'verify.newer-format.todo': wayOut('Verify with the version of pinchrod that wrote it.'),
  'verify.unknown-event': word(
    '{ $fault }',
    'a whole line holds an event or a field that this program does not know',
    { fault: 'The line was changed: its content does not give its hash.' },
  ),
  'verify.unknown-event.todo': wayOut('Verify with the version of pinchrod that wrote it.'),
  'verify.source-missing': word(
    '{ $file } is not there.',
    'a frozen source that a journal names is not under logs/sources',
    { file: 'shared/jobs/pier-house.yaml' },
  ),
  'verify.source-missing.todo': wayOut('Restore the file from a copy.'),
  'verify.source-changed': word(
    'The content is not what the name says.',
    'a frozen source is not what its name says',
  ),
  'verify.source-changed.todo': wayOut('Restore the file from a copy.'),
  'verify.setup-gone': word(
    'It rests on the first-off of line { $firstOff } of a journal of set-ups, which is not there as it was.',
    'a first-off that units rest on is not in the journal of set-ups as it was: lines were taken away or written anew',
    { firstOff: '3' },
  ),
  'verify.setup-gone.todo': wayOut(
    'Restore logs/setups.jsonl from a copy, and ask who changed it. What the units rest on is kept under logs/sources.',
  ),
  'verify.name-missing': word('{ $file } is not there.', 'the name of a person is not under logs/names', {
    file: 'shared/jobs/pier-house.yaml',
  }),
  'verify.name-missing.todo': wayOut(
    'Restore the file from a copy. A name is erased with "pinchrod person erase", never by removing its file.',
  ),
  'verify.name-changed': word(
    'The content is not what the name says.',
    'a file under logs/names is not what its name says',
  ),
  'verify.name-changed.todo': wayOut('Restore the file from a copy.'),
  'verify.evidence-missing': word(
    '"{ $evidence }" ({ $hash }) is not there.',
    'an evidence file that a journal names is not there',
    { evidence: 'corner.jpg', hash: '9a1c' },
  ),
  'verify.evidence-missing.todo': wayOut('Restore the file from a copy.'),
  'verify.evidence-changed': word(
    '"{ $evidence }" is not what its name says.',
    'an evidence file is not what its name says',
    { evidence: 'corner.jpg' },
  ),
  'verify.evidence-changed.todo': wayOut('Restore the file from a copy.'),
  'verify.unknown-key': word(
    'Signed with key { $signedBy }, which is not under shared/keys.',
    'a seal is signed with a key whose public part is not under shared/keys',
    { signedBy: 'bench-2' },
  ),
  'verify.unknown-key.todo': wayOut(
    'Put the public key of that bench there, from the person who has it; never from whoever handed you the journal.',
  ),
  'verify.unknown-key/signed': word(
    'Signed with key { $key }, which is not under shared/keys.',
    'as verify.unknown-key',
    { key: 'k3f9' },
  ),
  'verify.untrusted-key': word(
    'Signed with key { $key }, which has no fingerprint given here.',
    'a seal is signed with a key whose fingerprint was not given to --trust',
    { key: 'k3f9' },
  ),
  'verify.untrusted-key.todo': wayOut(
    'Ask the workshop, by another way than these files, whether that key is theirs. If not, what it signed is forged.',
  ),
  'verify.key-missing': word(
    'The document names the key { $firstKey }, by which nothing counts here.',
    'a key whose fingerprint was given to --trust is not there',
    { firstKey: 'k3f9' },
  ),
  'verify.key-missing.todo': wayOut(
    'Compare the fingerprint with the one on paper. If it is right, the key was removed: put it back under shared/keys.',
  ),
  'verify.key-missing/trusted': word(
    'No key has the fingerprint { $fingerprint }.',
    'as verify.key-missing',
    { fingerprint: 'SHA256:1f2e' },
  ),
  'verify.key-missing/file': word('{ $file } is not there.', 'as verify.key-missing', {
    file: 'shared/keys/3f9a.pem',
  }),
  'verify.key-not-introduced': word(
    'No register introduces the key { $id }.',
    'a key is there that no register introduces, or it signed something',
    { id: 'vent-1.diagonals' },
  ),
  'verify.key-not-introduced.todo': wayOut(
    'If the key is that of a bench of the workshop: pinchrod key accept FINGERPRINT at a bench whose key counts. If not, somebody put it there: what it signed is forged. Remove the key and restore the files from a copy.',
  ),
  'verify.key-not-introduced/signed': word(
    'Signed with key { $key }, which no register introduces.',
    'as verify.key-not-introduced',
    { key: 'k3f9' },
  ),
  'verify.key-entry': word(
    'Entry { $entry } is not signed by a key that counts.',
    'an entry of the register of keys is not signed by a key that counts',
    { entry: 'pier-house/P02-1' },
  ),
  'verify.key-entry.todo': wayOut('Restore register/keys.jsonl from a copy, and ask who wrote it.'),
  'verify.key-withdrawn': word(
    'Key { $signedBy } was withdrawn before it signed this.',
    'a key signed after it was withdrawn',
    { signedBy: 'bench-2' },
  ),
  'verify.key-withdrawn.todo': wayOut(
    'Ask who has that key. What it signed since then is forged, or was signed by a bench that did not know: build a new record on it only after you know.',
  ),
  'verify.key-withdrawn/key': word(
    'Key { $key } was withdrawn before any register knew this signature.',
    'as verify.key-withdrawn',
    { key: 'k3f9' },
  ),
  'verify.key-begun-anew': word(
    'Entry { $entry } begins it anew with key { $key }.',
    'the register of keys was begun anew with another first key, as where all private keys were lost',
    { entry: 3, key: 'k3f9' },
  ),
  'verify.key-begun-anew.todo': wayOut(
    'Ask the workshop, by another way than these files, whether that is so. Then name both fingerprints (--trust OLD --trust NEW); an account of the workshop takes the new one for good: pinchrod key accept FINGERPRINT.',
  ),
  'verify.signature-missing': word(
    'Line { $line } closes the unit at { $bench }, which signs, and no signature follows.',
    'a unit was closed at a bench that signs, and carries no signature: it was cut off, or the bench never closed it',
    { line: '12', bench: 'bench-1' },
  ),
  'verify.signature-missing.todo': wayOut(
    'Restore the journal from a copy, and ask who wrote its end. Sign nothing over it.',
  ),
  'verify.register-gone': word(
    'The register of keys is not there.',
    'a register is not there, though a journal, a document or this account knows of it',
  ),
  'verify.register-gone.todo': wayOut(
    'Restore the register folder from a copy, and ask who removed it. After a restore of the whole workshop: pinchrod register accept.',
  ),
  'verify.register-gone/names': word(
    '{ $whence } names entry { $head } of { $file }, which is not there.',
    'as verify.register-gone',
    { whence: 'from the backup of 20 November', head: '40', file: 'shared/jobs/pier-house.yaml' },
  ),
  'verify.register-cut': word(
    '{ $whence } names entry { $head } of { $file }, which ends with entry { $lines }: it was cut, or an older copy was put back.',
    'a register ends before an entry that a journal, a document or this account knows: its end was cut off, or an older copy was put back',
    {
      whence: 'from the backup of 20 November',
      head: '40',
      file: 'shared/jobs/pier-house.yaml',
      lines: '12',
    },
  ),
  'verify.register-cut.todo': wayOut(
    'Restore it from a copy, and ask who changed it. After a restore of the whole workshop: pinchrod register accept.',
  ),
  'verify.register-anew': word(
    '{ $whence } names entry { $head } of { $file }, which is another there: it was written anew.',
    'a register has another entry than the one that a journal, a document or this account knows: it was written anew',
    { whence: 'from the backup of 20 November', head: '40', file: 'shared/jobs/pier-house.yaml' },
  ),
  'verify.register-anew.todo': wayOut(
    'Restore it from a copy, and ask who wrote it. After a restore of the whole workshop: pinchrod register accept.',
  ),
  'verify.register-unsigned': word(
    'Entry { $n } carries no signature, though { $bench } signs.',
    'entries of a register carry no signature though its bench signs',
    { n: '7', bench: 'bench-1' },
  ),
  'verify.register-unsigned.todo': wayOut('Restore the register from a copy, and ask who changed it.'),
  'verify.journal-gone': word(
    '{ $file } is not there. { $knows }.',
    'a journal that a register knows is not there: it was removed',
    { file: 'shared/jobs/pier-house.yaml', knows: '40' },
  ),
  'verify.journal-gone.todo': wayOut(
    'Restore it from a copy, and ask who removed it. After a restore: pinchrod register accept.',
  ),
  'verify.journal-emptied': word(
    'The journal is empty. { $knows }.',
    'a journal that a register knows has no line left',
    { knows: '40' },
  ),
  'verify.journal-emptied.todo': wayOut(
    'Restore it from a copy, and ask who emptied it. After a restore: pinchrod register accept.',
  ),
  'verify.journal-cut': word(
    'The journal has { $lines } { $lines ->\n  [one] line\n *[other] lines\n}. { $knows }.',
    'a journal has fewer lines than a register knows: its end was cut off',
    { lines: 12, knows: 'register/bench-1.jsonl line 7 knows 40 lines of it, on 2026-11-24 08:00 UTC' },
  ),
  'verify.journal-cut.todo': wayOut(
    'Restore it from a copy, and ask who cut it. After a restore: pinchrod register accept.',
  ),
  'verify.journal-put-back': word(
    'The journal is as it was on { $when }, with { $lines } { $lines ->\n  [one] line\n *[other] lines\n}. { $knows }.',
    'a journal is as it was at an earlier entry of a register: an older copy was put back, or its end was cut off there',
    {
      when: '2026-11-23 08:00 UTC',
      lines: 12,
      knows: 'register/bench-1.jsonl line 7 knows 40 lines of it, on 2026-11-24 08:00 UTC',
    },
  ),
  'verify.journal-put-back.todo': wayOut(
    'Restore it from a newer copy, and ask who put it back. After a restore: pinchrod register accept.',
  ),
  'verify.journal-anew': word(
    'Between lines { $events } and { $events2 } the journal was written anew: { $place } line { $line } knows another line { $events2 }.',
    'a journal has other lines than a register knows, from some line on: they were written anew',
    { events: '42', events2: '44', place: 'logs/pier-house/P02-1.jsonl', line: '12' },
  ),
  'verify.journal-anew.todo': wayOut('Restore it from a copy, and ask who wrote them.'),
  'verify.journal-born-again': word(
    'The journal is another: line { $events } is not the one that { $place } line { $line } knows.',
    'a journal of this name is another than the one that a register knows, from its beginning on',
    { events: '42', place: 'logs/pier-house/P02-1.jsonl', line: '12' },
  ),
  'verify.journal-born-again.todo': wayOut(
    'Restore it from a copy, and ask who made it. After a restore: pinchrod register accept.',
  ),
  'verify.seal-gone': word(
    'The seal of { $job } that { $place } line { $line } knows is not there.',
    'a seal of a job that a register knows is not there as it was',
    { job: 'pier-house', place: 'logs/pier-house/P02-1.jsonl', line: '12' },
  ),
  'verify.seal-gone.todo': wayOut('Restore it from a copy, and ask who removed or changed it.'),
  'verify.bad-signature': word(
    'The seal is of another line than the one before it.',
    'a seal holds no signature, or signs another line than the one before it',
  ),
  'verify.bad-signature.todo': wayOut('Restore the file from a copy, and ask who changed it.'),
  'verify.bad-signature/signature': word(
    'The signature is not 64 bytes in base64.',
    'as verify.bad-signature',
  ),
  'verify.forged-chain': word(
    'Key { $signedBy } did not sign the entries up to this one.',
    'every line follows from the one before, but the signature is not of these lines: they were written anew from some line on',
    { signedBy: 'bench-2' },
  ),
  'verify.forged-chain.todo': wayOut(
    'Restore the file from a copy, and ask who wrote it. The lines up to the last good seal are as they were signed.',
  ),
  'verify.forged-chain/lines': word(
    'Every line follows from the one before, but key { $key } did not sign them: they were written anew from some line on.',
    'as verify.forged-chain',
    { key: 'k3f9' },
  ),
  'verify.forged-chain/after': word(
    'Every line follows from the one before, but key { $key } did not sign them: they were written anew from some line after { $good } on, where the last good seal stands.',
    'as verify.forged-chain',
    { key: 'k3f9', good: 40 },
  ),
  'verify.forged-chain/seal': word(
    'Key { $key } did not sign this seal: it, or the journals that it covers, were written anew.',
    'as verify.forged-chain',
    { key: 'k3f9' },
  ),
  'verify.key-damaged': word(
    '{ $fault }',
    'a file under shared/keys is not the public key that its name says',
    { fault: 'The file does not hold the key k3f9.' },
  ),
  'verify.key-damaged.todo': wayOut('Restore the file from a copy.'),
  'verify.job-seal': word(
    'The file holds no seal of a job.',
    "a job's seal does not fit: a unit it covers is missing, shorter, or was written anew, or the seal was changed",
  ),
  'verify.job-seal.todo': wayOut('Restore the journals and the seal from a copy, and ask who changed them.'),
  'verify.job-seal/seal': word('The seal is of job "{ $job }".', 'as verify.job-seal', { job: 'pier-house' }),
  'verify.job-seal/seal-one': word(
    'The seal is not the one over the units that it lists.',
    'as verify.job-seal',
  ),
  'verify.job-seal/journal': word('The journal of { $unit } is not there.', 'as verify.job-seal', {
    unit: 'P02-1',
  }),
  'verify.job-seal/had': word(
    '{ $unit } had { $lines } lines when the job was sealed and has { $lines2 }.',
    'as verify.job-seal',
    { unit: 'P02-1', lines: '12', lines2: '40' },
  ),
  'verify.job-seal/line': word(
    'Line { $lines } of { $unit } is not the one that was sealed.',
    'as verify.job-seal',
    { lines: '12', unit: 'P02-1' },
  ),
  'verify.document-differs': word(
    '{ $difference }',
    'a document says something else than the journal gives',
    { difference: 'It holds a file that a record has not.' },
  ),
  'verify.document-differs.todo': wayOut('Believe the journal, and make the document anew: pinchrod record.'),
  'verify.document-differs/leaves-out': word(
    'It leaves out { $unit } of { $job }, which answers to what was asked for.',
    'as verify.document-differs',
    { unit: 'P02-1', job: 'pier-house' },
  ),
  'verify.document-differs/shows': word(
    'It shows { $unit } of { $job }, which does not answer to what was asked for.',
    'as verify.document-differs',
    { unit: 'P02-1', job: 'pier-house' },
  ),
  'verify.document-seal': word(
    'Its seal is of no line of the journal of { $unit }.',
    "a document's seal is of no line of the journal: one of the two was changed, or the journal lost lines",
    { unit: 'P02-1' },
  ),
  'verify.document-seal.todo': wayOut(
    'Verify the journal; if it holds and is signed, the document is false. If lines were lost, restore a copy.',
  ),
  'verify.document-seal/lines': word(
    'It is of { $lines } lines; the journal of { $unit } has { $there }.',
    'as verify.document-seal',
    { lines: 40, unit: 'P02-1', there: 30 },
  ),
  'verify.document-seal/line': word(
    'Its seal is not of line { $lines } of the journal of { $unit }.',
    'as verify.document-seal',
    { lines: 40, unit: 'P02-1' },
  ),
  'verify.document-archived': word(
    '{ $unit } of { $job } was archived on { $away }.',
    'a document is of a unit whose journal was archived and taken away',
    { unit: 'P02-1', job: 'pier-house', away: '2026-11-24' },
  ),
  'verify.document-archived.todo': wayOut('Unpack the archive of the job, and verify the document there.'),
  'verify.document-unknown': word(
    'It is no record of units as this version writes it.',
    'a file is no document that can be checked: records and sheets of particulars as this version writes them can',
  ),
  'verify.document-unknown.todo': wayOut(
    'Give the file as pinchrod record wrote it. A register cannot be checked: have it made anew, and compare.',
  ),
  'verify.credential': word(
    'It is issued by { $issuer }, whose key does not count here.',
    'a credential is not issued by a key of this workshop, is changed, or does not say what its own record says',
    { issuer: 'did:key:z6Mk' },
  ),
  'verify.credential.todo': wayOut('Ask whoever handed it over for another copy.'),
  'verify.credential/signature': word(
    'Its signature does not hold: something in it was changed.',
    'as verify.credential',
  ),
  'verify.credential/signature.todo': wayOut('Ask whoever handed it over for another copy.'),
  'verify.credential/words': word('It does not say what its own record says.', 'as verify.credential'),
  'verify.credential/words.todo': wayOut('Ask whoever handed it over for another copy.'),
  'verify.archive': word(
    '{ $fault }',
    'an archive cannot be read, has names that lead elsewhere or too much in it, or is not what its manifest says',
    { fault: 'It is no whole ZIP file.' },
  ),
  'verify.archive.todo': wayOut('Take another copy of the archive.'),
  'verify.not-a-file': word(
    'This is a link, which is not followed.',
    'a name that should be a journal, a source or an evidence file is no ordinary file',
  ),
  'verify.not-a-file.todo': wayOut('Put the ordinary file back; links are not followed.'),
  'verify.not-a-file/found': word('{ $fault }', 'as verify.not-a-file', {
    fault: 'This is no ordinary file.',
  }),
  'verify.unreadable': word('{ $fault }', 'a file could not be read', {
    fault: 'The disk reports a fault (EIO): keys.jsonl, while it was verified.',
  }),
  'verify.unreadable.todo': wayOut('Put right what is named, then verify again.'),
  'verify.not-signed': word(
    'The unit is closed by line { $open }, and no signature follows.',
    'a closed unit carries no signature, though this workshop has keys',
    { open: '40' },
  ),
  'verify.not-signed/allowed': word(
    'The unit is closed by line { $open }, and no signature follows. { $by } let it be closed without, as the bench could not sign ({ $why }).',
    'as verify.not-signed',
    { open: '40', by: 'ot', why: 'the key is not there' },
  ),
  'verify.not-signed.todo': wayOut(
    'Where a person let it be closed so, ask them. Else it was closed before there was a key: hold it against a record that was printed then. Only where it is as it was, sign it: pinchrod seal JOB.',
  ),
  'verify.not-signed/seal': word('The seal of the job carries no signature.', 'as verify.not-signed'),
  'verify.restore-accepted': word(
    'On { $day } { $by } accepted what a restore had left ({ $reason }): { $lost } were lost.',
    'a named person accepted what a restore had left; what the registers said of it before does not count any more',
    {
      day: '2026-11-24',
      by: 'ot',
      reason: 'disk replaced',
      lost: 'logs/pier/P02-1.jsonl; entries of bench-1',
    },
  ),
  'verify.restore-accepted.todo': wayOut(
    'Ask that person whether it is so. Documents from before the restore may have more than the journals.',
  ),
  'verify.branched': word(
    'On { $at } what { $bench } had given on { $entry } behind line { $common } became { $branch }: another bench had written it meanwhile.',
    'answers that a bench gave while another wrote the unit were set aside as a branch',
    { at: '2026-11-24', bench: 'bench-1', entry: 'pier-house/P02-1', common: '30', branch: '2' },
  ),
  'verify.branched.todo': wayOut(
    "Read the branch (pinchrod record JOB/UNIT~1) with the unit's snag about it: somebody decided what its answers are worth.",
  ),
  'verify.not-entered': word(
    'No register knows this journal.',
    'lines stand behind the last one that a register knows: a bench is at work, a stop came before the entry, the register could not be written, or somebody wrote them there',
  ),
  'verify.not-entered/behind': word(
    'No register knows the lines behind line { $known }.',
    'as verify.not-entered',
    { known: 40 },
  ),
  'verify.not-entered.todo': wayOut(
    'Where nobody is at work, ask the persons whom they name. The next bench that opens the unit, or the next sign-off or first-off, enters them.',
  ),
  'verify.no-register': word(
    'There are keys and no register.',
    'there is no register, so nothing says which keys count and whether journals are missing',
  ),
  'verify.no-register.todo': wayOut(
    'The first bench that opens a unit begins one. For keys, compare their fingerprints with those on paper (--trust).',
  ),
  'verify.grown': word(
    'The journal of { $unit } has { $more } more { $more ->\n  [one] line\n *[other] lines\n} than the document.',
    'a unit went on after its job was sealed, or after a document was made',
    { unit: 'P02-1', more: 2 },
  ),
  'verify.grown/sealed': word(
    '{ $unit } has { $lines } more { $lines ->\n  [one] line\n *[other] lines\n} than when the job was sealed.',
    'as verify.grown',
    { unit: 'P02-1', lines: 2 },
  ),
  'verify.grown/before': word(
    'The journal of { $unit } has { $more } more { $more ->\n  [one] line\n *[other] lines\n} than the document. { $known } of them { $known ->\n  [one] is\n *[other] are\n} from before it was made.',
    'as verify.grown',
    { unit: 'P02-1', more: 2, known: 1 },
  ),
  'verify.grown.todo': wayOut('See what was added; then seal the job or make the document anew.'),
  'verify.key-brought': word(
    'Key { $id } came with the archive.',
    'the key that vouches for an archive came with the archive, and this workshop does not know it',
    { id: 'vent-1.diagonals' },
  ),
  'verify.key-brought.todo': wayOut('Compare the key id with one that the workshop gave you on paper.'),
  'verify.document-told': word(
    'What it states of names, instruments or the maker is kept nowhere else any more; all the rest is what the journal gives.',
    'a document states facts that are kept nowhere else any more: names that were erased, or what an earlier version did not keep',
  ),
  'verify.document-told.todo': wayOut(
    'Nothing is wrong with the rest. Whether these facts are so, other papers must tell: a certificate, a list of people.',
  ),
  'verify.document-zone': word(
    'It tells times by { $zone }; this machine knows { $here }.',
    'a document tells times by another clock than the zone it names has, as far as this machine knows',
    { zone: 'Europe/Dublin, +00:00', here: 'Europe/Dublin, +01:00' },
  ),
  'verify.document-zone/unknown': word(
    'It tells times by { $zone }; this machine does not know that zone.',
    'as verify.document-zone',
    { zone: 'Europe/Dublin, +00:00' },
  ),
  'verify.document-zone.todo': wayOut(
    'The times in the journal are in UTC; the zone may have been decided anew since, or the document was made to mislead.',
  ),
  'verify.name-erased': word(
    'The name of { $name } was erased on { $erased }.',
    'the name of a person was erased on request; records show the id instead',
    { name: 'frame-size', erased: '2026-11-24' },
  ),
  'verify.name-erased.todo': wayOut('Nothing is wrong: the journals are as they were.'),
  'verify.name-unknown': word(
    'Nothing names this file.',
    'a file under logs/names that nothing names, or whose name is no hash',
  ),
  'verify.name-unknown.todo': wayOut('Nothing needs it; remove it if you put it there.'),
  'verify.source-unknown': word(
    'No journal names this file.',
    'a file under logs/sources that no journal names, or whose name is no hash',
  ),
  'verify.source-unknown.todo': wayOut('Nothing needs it; remove it if you put it there.'),
  'verify.evidence-unknown': word('No journal names this file.', 'an evidence file that no journal names'),
  'verify.evidence-unknown.todo': wayOut(
    'It may be of an answer that a crash cut off; remove it if nobody needs it.',
  ),
  'verify.set-aside': word(
    'A piece of a line, set aside after a crash.',
    'a piece of a line that was set aside after a crash',
  ),
  'verify.set-aside.todo': wayOut('Keep it with the journal; it says what was being written.'),
  'verify.stray-file': word('{ $shown } is no job.', 'a file under logs/ that the program did not make', {
    shown: 'logs/sources/9a1c',
  }),
  'verify.stray-file.todo': wayOut('Move it elsewhere if you put it there.'),
  'verify.stray-file/none': word("{ $file } is none of the program's.", 'as verify.stray-file', {
    file: 'shared/jobs/pier-house.yaml',
  }),
} as const;

/** With only these, `verify` still passes. */
export const VERIFY_NOTES: ReadonlySet<string> = new Set([
  'verify.not-signed',
  'verify.restore-accepted',
  'verify.branched',
  'verify.not-entered',
  'verify.no-register',
  'verify.grown',
  'verify.key-brought',
  'verify.source-unknown',
  'verify.document-told',
  'verify.document-zone',
  'verify.name-erased',
  'verify.name-unknown',
  'verify.evidence-unknown',
  'verify.set-aside',
  'verify.stray-file',
]);

export function verifyTable(): string {
  const rows = tabled(VERIFY_MESSAGES).map(
    ([id, { what, todo }]) =>
      `| \`${id}\` | ${VERIFY_NOTES.has(id) ? 'note' : 'fault'} | ${what} | ${todo} |`,
  );
  return ['| id | kind | what it means | what to do |', '|---|---|---|---|', ...rows].join('\n');
}
