/** Everything that `verify` finds, and what to do about it. */
/** A fault fails, a note is worth knowing. Source of the table in logs/README.md. */
export const VERIFY_MESSAGES = {
  'verify.torn-end': {
    what: 'the last line is only a piece of an event, or NUL bytes: a write was cut off',
    todo: 'Open the unit at the bench: it sets the piece aside and goes on. Nothing that was acknowledged is lost.',
  },
  'verify.no-line-end': {
    what: 'the last event is whole, but its line end is missing',
    todo: 'Open the unit at the bench: it adds the line end.',
  },
  'verify.changed-line': {
    what: 'a line was changed: its content does not give its hash, or it cannot be read, or it is spelled differently',
    todo: 'Restore the journal from a copy, and ask who changed it.',
  },
  'verify.missing-line': {
    what: 'one or more lines are missing',
    todo: 'Restore the journal from a copy, and ask who removed them.',
  },
  'verify.re-ordered-line': {
    what: 'lines stand in another order than they were written',
    todo: 'Restore the journal from a copy.',
  },
  'verify.repeated-line': {
    what: 'a line stands in the journal twice',
    todo: 'Restore the journal from a copy.',
  },
  'verify.broken-chain': {
    what: 'a line does not follow from the one before it: one of them was written anew',
    todo: 'Restore the journal from a copy, and ask who wrote it.',
  },
  'verify.not-opened': {
    what: 'a journal does not begin with the event "opened"',
    todo: 'Restore the journal from a copy.',
  },
  'verify.wrong-unit': {
    what: 'a journal stands under the name of another unit or job',
    todo: 'Put the file back to its own name.',
  },
  'verify.newer-format': {
    what: 'a line is of a format newer than this program',
    todo: 'Verify with the version of pinchrod that wrote it.',
  },
  'verify.unknown-event': {
    what: 'a whole line holds an event or a field that this program does not know',
    todo: 'Verify with the version of pinchrod that wrote it.',
  },
  'verify.source-missing': {
    what: 'a frozen source that a journal names is not under logs/sources',
    todo: 'Restore the file from a copy.',
  },
  'verify.source-changed': {
    what: 'a frozen source is not what its name says',
    todo: 'Restore the file from a copy.',
  },
  'verify.setup-gone': {
    what: 'a first-off that units rest on is not in the journal of set-ups as it was: lines were taken away or written anew',
    todo: 'Restore logs/setups.jsonl from a copy, and ask who changed it. What the units rest on is kept under logs/sources.',
  },
  'verify.name-missing': {
    what: 'the name of a person is not under logs/names',
    todo: 'Restore the file from a copy. A name is erased with "pinchrod person erase", never by removing its file.',
  },
  'verify.name-changed': {
    what: 'a file under logs/names is not what its name says',
    todo: 'Restore the file from a copy.',
  },
  'verify.evidence-missing': {
    what: 'an evidence file that a journal names is not there',
    todo: 'Restore the file from a copy.',
  },
  'verify.evidence-changed': {
    what: 'an evidence file is not what its name says',
    todo: 'Restore the file from a copy.',
  },
  'verify.unknown-key': {
    what: 'a seal is signed with a key whose public part is not under shared/keys',
    todo: 'Put the public key of that bench there, from the person who has it; never from whoever handed you the journal.',
  },
  'verify.untrusted-key': {
    what: 'a seal is signed with a key whose fingerprint was not given to --trust',
    todo: 'Ask the workshop, by another way than these files, whether that key is theirs. If not, what it signed is forged.',
  },
  'verify.key-missing': {
    what: 'a key whose fingerprint was given to --trust is not there',
    todo: 'Compare the fingerprint with the one on paper. If it is right, the key was removed: put it back under shared/keys.',
  },
  'verify.key-not-introduced': {
    what: 'a key is there that no register introduces, or it signed something',
    todo: 'If the key is that of a bench of the workshop: pinchrod key accept FINGERPRINT at a bench whose key counts. If not, somebody put it there: what it signed is forged. Remove the key and restore the files from a copy.',
  },
  'verify.key-entry': {
    what: 'an entry of the register of keys is not signed by a key that counts',
    todo: 'Restore register/keys.jsonl from a copy, and ask who wrote it.',
  },
  'verify.key-withdrawn': {
    what: 'a key signed after it was withdrawn',
    todo: 'Ask who has that key. What it signed by then is forged, or was signed by a bench that did not know: build a new record on it only after you know.',
  },
  'verify.key-begun-anew': {
    what: 'the register of keys was begun anew with another first key, as where all private keys were lost',
    todo: 'Ask the workshop, by another way than these files, whether that is so. Then name both fingerprints (--trust OLD --trust NEW); an account of the workshop takes the new one for good: pinchrod key accept FINGERPRINT.',
  },
  'verify.signature-missing': {
    what: 'a unit was closed at a bench that signs, and carries no signature: it was cut off, or the bench never closed it',
    todo: 'Restore the journal from a copy, and ask who wrote its end. Sign nothing over it.',
  },
  'verify.register-gone': {
    what: 'a register is not there, though a journal, a document or this account knows of it',
    todo: 'Restore the register folder from a copy, and ask who removed it. After a restore of the whole workshop: pinchrod register accept.',
  },
  'verify.register-cut': {
    what: 'a register ends before an entry that a journal, a document or this account knows: its end was cut off, or an older copy was put back',
    todo: 'Restore it from a copy, and ask who changed it. After a restore of the whole workshop: pinchrod register accept.',
  },
  'verify.register-anew': {
    what: 'a register has another entry than the one that a journal, a document or this account knows: it was written anew',
    todo: 'Restore it from a copy, and ask who wrote it. After a restore of the whole workshop: pinchrod register accept.',
  },
  'verify.register-unsigned': {
    what: 'entries of a register carry no signature though its bench signs',
    todo: 'Restore the register from a copy, and ask who changed it.',
  },
  'verify.journal-gone': {
    what: 'a journal that a register knows is not there: it was removed',
    todo: 'Restore it from a copy, and ask who removed it. After a restore: pinchrod register accept.',
  },
  'verify.journal-emptied': {
    what: 'a journal that a register knows has no line left',
    todo: 'Restore it from a copy, and ask who emptied it. After a restore: pinchrod register accept.',
  },
  'verify.journal-cut': {
    what: 'a journal has fewer lines than a register knows: its end was cut off',
    todo: 'Restore it from a copy, and ask who cut it. After a restore: pinchrod register accept.',
  },
  'verify.journal-put-back': {
    what: 'a journal is as it was at an earlier entry of a register: an older copy was put back, or its end was cut off there',
    todo: 'Restore it from a newer copy, and ask who put it back. After a restore: pinchrod register accept.',
  },
  'verify.journal-anew': {
    what: 'a journal has other lines than a register knows, from some line on: they were written anew',
    todo: 'Restore it from a copy, and ask who wrote them.',
  },
  'verify.journal-born-again': {
    what: 'a journal of this name is another than the one that a register knows, from its beginning on',
    todo: 'Restore it from a copy, and ask who made it. After a restore: pinchrod register accept.',
  },
  'verify.seal-gone': {
    what: 'a seal of a job that a register knows is not there as it was',
    todo: 'Restore it from a copy, and ask who removed or changed it.',
  },
  'verify.bad-signature': {
    what: 'a seal holds no signature, or signs another line than the one before it',
    todo: 'Restore the file from a copy, and ask who changed it.',
  },
  'verify.forged-chain': {
    what: 'every line follows from the one before, but the signature is not of these lines: they were written anew from some line on',
    todo: 'Restore the file from a copy, and ask who wrote it. The lines up to the last good seal are as they were signed.',
  },
  'verify.key-damaged': {
    what: 'a file under shared/keys is not the public key that its name says',
    todo: 'Restore the file from a copy.',
  },
  'verify.job-seal': {
    what: "a job's seal does not fit: a unit it covers is missing, shorter, or was written anew, or the seal was changed",
    todo: 'Restore the journals and the seal from a copy, and ask who changed them.',
  },
  'verify.document-differs': {
    what: 'a document says something else than the journal gives',
    todo: 'Believe the journal, and make the document anew: pinchrod record.',
  },
  'verify.document-seal': {
    what: "a document's seal is of no line of the journal: one of the two was changed, or the journal lost lines",
    todo: 'Verify the journal; if it holds and is signed, the document is false. If lines were lost, restore a copy.',
  },
  'verify.document-archived': {
    what: 'a document is of a unit whose journal was archived and taken away',
    todo: 'Unpack the archive of the job, and verify the document there.',
  },
  'verify.document-unknown': {
    what: 'a file is no document that can be checked: records and sheets of particulars as this version writes them can',
    todo: 'Give the file as pinchrod record wrote it, text under a name that ends in .txt.',
  },
  'verify.archive': {
    what: 'an archive cannot be read, has names that lead elsewhere or too much in it, or is not what its manifest says',
    todo: 'Take another copy of the archive.',
  },
  'verify.not-a-file': {
    what: 'a name that should be a journal, a source or an evidence file is no ordinary file',
    todo: 'Put the ordinary file back; links are not followed.',
  },
  'verify.unreadable': {
    what: 'a file could not be read',
    todo: 'Put right what is named, then verify again.',
  },
  'verify.not-signed': {
    what: 'a closed unit carries no signature, though this workshop has keys',
    todo: 'Where a person let it be closed so, ask them. Else it was closed before there was a key: hold it against a record that was printed then. Only where it is as it was, sign it: pinchrod seal JOB.',
  },
  'verify.restore-accepted': {
    what: 'a named person accepted what a restore had left; what the registers said of it before does not count any more',
    todo: 'Ask that person whether it is so. Documents from before the restore may have more than the journals.',
  },
  'verify.branched': {
    what: 'answers that a bench gave while another wrote the unit were set aside as a branch',
    todo: "Read the branch (pinchrod record JOB/UNIT~1) with the unit's snag about it: somebody decided what its answers are worth.",
  },
  'verify.not-entered': {
    what: 'lines stand behind the last one that a register knows: a bench is at work, a stop came before the entry, the register could not be written, or somebody wrote them there',
    todo: 'Where nobody is at work, ask the persons whom they name. The next bench that opens the unit, or the next sign-off or first-off, enters them.',
  },
  'verify.no-register': {
    what: 'there is no register, so nothing says which keys count and whether journals are missing',
    todo: 'The first bench that opens a unit begins one. For keys, compare their fingerprints with those on paper (--trust).',
  },
  'verify.grown': {
    what: 'a unit went on after its job was sealed, or after a document was made',
    todo: 'See what was added; then seal the job or make the document anew.',
  },
  'verify.key-brought': {
    what: 'the key that vouches for an archive came with the archive, and this workshop does not know it',
    todo: 'Compare the key id with one that the workshop gave you on paper.',
  },
  'verify.document-told': {
    what: 'a document states facts that are kept nowhere else any more: names that were erased, or what an earlier version did not keep',
    todo: 'Nothing is wrong with the rest. Whether these facts are so, other papers must tell: a certificate, a list of people.',
  },
  'verify.document-zone': {
    what: 'a document tells times by another clock than the zone it names has, as far as this machine knows',
    todo: 'The times in the journal are in UTC; the zone may have been decided anew since, or the document was made to mislead.',
  },
  'verify.name-erased': {
    what: 'the name of a person was erased on request; records show the id instead',
    todo: 'Nothing is wrong: the journals are as they were.',
  },
  'verify.name-unknown': {
    what: 'a file under logs/names that nothing names, or whose name is no hash',
    todo: 'Nothing needs it; remove it if you put it there.',
  },
  'verify.source-unknown': {
    what: 'a file under logs/sources that no journal names, or whose name is no hash',
    todo: 'Nothing needs it; remove it if you put it there.',
  },
  'verify.evidence-unknown': {
    what: 'an evidence file that no journal names',
    todo: 'It may be of an answer that a crash cut off; remove it if nobody needs it.',
  },
  'verify.set-aside': {
    what: 'a piece of a line that was set aside after a crash',
    todo: 'Keep it with the journal; it says what was being written.',
  },
  'verify.stray-file': {
    what: 'a file under logs/ that the program did not make',
    todo: 'Move it elsewhere if you put it there.',
  },
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
  const rows = Object.entries(VERIFY_MESSAGES).map(
    ([id, { what, todo }]) =>
      `| \`${id}\` | ${VERIFY_NOTES.has(id) ? 'note' : 'fault'} | ${what} | ${todo} |`,
  );
  return ['| id | kind | what it means | what to do |', '|---|---|---|---|', ...rows].join('\n');
}
