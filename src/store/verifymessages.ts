/**
 * What `verify` can find. A fault means that the thing checked does not hold; a note is worth knowing. The table in
 * logs/README.md is made from this one.
 */
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
    todo: 'It was closed before there was a key, or the end was cut off: pinchrod seal JOB signs it as it is now.',
  },
  'verify.grown': {
    what: 'a unit went on after its job was sealed, or after a document was made',
    todo: 'See what was added; then seal the job or make the document anew.',
  },
  'verify.key-brought': {
    what: 'the key that vouches for an archive came with the archive, and this workshop does not know it',
    todo: 'Compare the key id with one that the workshop gave you on paper.',
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

/** These are notes: `verify` still passes. */
export const VERIFY_NOTES: ReadonlySet<string> = new Set([
  'verify.not-signed',
  'verify.grown',
  'verify.key-brought',
  'verify.source-unknown',
  'verify.evidence-unknown',
  'verify.set-aside',
  'verify.stray-file',
]);

/** The table of ids for logs/README.md. */
export function verifyTable(): string {
  const rows = Object.entries(VERIFY_MESSAGES).map(
    ([id, { what, todo }]) =>
      `| \`${id}\` | ${VERIFY_NOTES.has(id) ? 'note' : 'fault'} | ${what} | ${todo} |`,
  );
  return ['| id | kind | what it means | what to do |', '|---|---|---|---|', ...rows].join('\n');
}
