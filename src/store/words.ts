/** Words of the store besides its refusals. */
import { messagesOf, word } from '../base/words.js';

const WHILE = 'completes "the disk is full, while …"';
const DISK = 'what the disk said, before "while …"';
const ARCHIVE = 'what is wrong with an archive';
const LINE = 'what is wrong with a line or file of a journal or register';
export const STORE_WORDS = {
  'while-shop-copied': word('the shop was copied', WHILE),
  'while-handed-over': word('it was handed over', WHILE),
  'while-taken-over-shop': word('it was taken over from the shop', WHILE),
  'while-an-edition-taken': word('an edition was taken', WHILE),
  'while-shop-left': word('the shop was left', WHILE),
  'while-unit-opened': word('the unit was opened', WHILE),
  'while-answer-written-journal': word('the answer was written; it is not in the journal', WHILE),
  'while-verified': word('it was verified', WHILE),
  'while-name-person-kept': word('the name of a person was kept', WHILE),
  'while-name-erased': word('a name was erased', WHILE),
  'while-read': word('it was read', WHILE),
  'while-written': word('it was written', WHILE),
  'while-pins-read': word('the PINs were read', WHILE),
  'while-pin-kept': word('a PIN was kept', WHILE),
  'while-journal-read': word('the journal was read', WHILE),
  'while-written-journal': word('it was written; it is not in the journal', WHILE),
  'while-logs-folder-tested': word('the logs folder was tested', WHILE),
  'while-restore-accepted': word('the restore was accepted', WHILE),
  'while-register-read': word('the register was read', WHILE),
  'while-key-bench-looked': word('the key of the bench was looked up', WHILE),
  'while-register-written': word('the register was written', WHILE),
  'while-unit-built-frozen': word('what the unit is built from was frozen', WHILE),
  'while-frozen-source-read': word('a frozen source was read', WHILE),
  'while-evidence-read': word('the evidence was read', WHILE),
  'while-table-read': word('the table was read', WHILE),
  'while-evidence-kept': word('the evidence was kept', WHILE),
  'while-workshop-made': word('the workshop was made', WHILE),
  'while-key-bench-read': word('the key of the bench was read', WHILE),
  'while-key-made': word('the key was made', WHILE),
  'while-public-keys-read': word('the public keys were read', WHILE),
  'while-unit-taken': word('the unit was taken', WHILE),
  'while-job-archived': word('the job was archived', WHILE),
  'while-job-removed': word('the job was removed', WHILE),
  'while-job-sealed': word('the job was sealed', WHILE),
  'while-pins-taken-out': word('the PINs were taken out', WHILE),
  'while-journal-opened': word('the journal was opened', WHILE),
  'while-files-listed': word('its files were listed', WHILE),
  'while-journals-listed': word('its journals were listed', WHILE),
  'disk-full': word('The disk is full', DISK),
  'disk-quota': word('Your disk quota is used up', DISK),
  'disk-larger': word('The file is larger than this disk takes', DISK),
  'disk-read-only': word('The disk is read-only', DISK),
  'disk-no-right': word('The program may not use this', DISK),
  'disk-open': word('Too many files are open', DISK),
  'disk-fault': word('The disk reports a fault', DISK),
  'disk-missing': word('Something is not there', DISK),
  'disk-gone': word('The disk is gone', DISK),
  'disk-failed': word('The file call failed', DISK),
  holder: word('{ $bench } (process { $pid } on { $host })', 'which bench has a unit, before "has P02-1"', {
    bench: 'bench-1',
    pid: '4711',
    host: 'shop-pc',
  }),
  'holder-who': word(
    '{ $who } at { $bench } (process { $pid } on { $host })',
    'who has a unit at which bench, before "has P02-1"',
    { who: 'mv', bench: 'bench-1', pid: '4711', host: 'shop-pc' },
  ),
  'archive-outside': word('"{ $file }" leads out of the archive.', ARCHIVE, { file: '../key' }),
  'archive-twice': word('"{ $file }" is in it twice.', ARCHIVE, { file: 'pier/a' }),
  'archive-more': word('It holds more than an archive of a job can.', ARCHIVE),
  'archive-no-zip': word('It is no whole ZIP file.', ARCHIVE),
  'archive-no-job': word('It is no archive of one job.', ARCHIVE),
  'archive-lacks': word('It has no { $file }.', ARCHIVE, { file: 'MANIFEST' }),
  'archive-unreadable': word('{ $file } cannot be read.', ARCHIVE, { file: 'MANIFEST' }),
  'archive-not-there': word('{ $file } is in { $manifest }, but not there.', ARCHIVE, {
    file: 'logs/a',
    manifest: 'MANIFEST',
  }),
  'archive-other': word('{ $file } is not what { $manifest } says.', ARCHIVE, {
    file: 'logs/a',
    manifest: 'MANIFEST',
  }),
  'archive-extra': word('{ $file } is not in { $manifest }.', ARCHIVE, {
    file: 'logs/a',
    manifest: 'MANIFEST',
  }),
  'no-file': word('This is no ordinary file.', LINE),
  'file-bytes': word('The file has { $bytes } bytes.', LINE, { bytes: 200000001 }),
  'line-unknown': word('The line is whole, but this version does not know it: { $fault }', LINE, {
    fault: 'kind: Invalid input',
  }),
  'line-piece': word('Line { $line } is only a piece of an event ({ $bytes } bytes).', LINE, {
    line: 12,
    bytes: 40,
  }),
  'not-opened': word('The journal does not begin with "opened".', LINE),
  'wrong-unit': word(
    'The journal is of unit "{ $unit }" of job "{ $job }", not of "{ $otherUnit }" of "{ $otherJob }".',
    LINE,
    { unit: 'P01-1', job: 'pier', otherUnit: 'P02-1', otherJob: 'mole' },
  ),
  'newer-format': word('The event is of format { $format }; this version reads up to { $newest }.', LINE, {
    format: 13,
    newest: 12,
  }),
  'lost-none': word('no entries', 'what a restore lost, before "were lost"'),
  'lost-entries': word('entries of { $benches }', 'what a restore lost, before "were lost"', {
    benches: 'bench-1',
  }),
  'register-restore': word(
    'Restore the register from a copy, and ask who changed it. A torn end is set aside with the next entry.',
    'the way out where a register is damaged',
  ),
  'head-known': word(
    '{ $place } line { $line } knows { $n } { $n ->\n  [one] line\n *[other] lines\n} of it, on { $when }',
    'what a register knows of a journal',
    { place: 'register/bench-1.jsonl', line: 7, n: 40, when: '2026-11-24 08:00 UTC' },
  ),
  'known-keys': word('The register of keys', 'what knows an entry of a register, at the front of a sentence'),
  'known-account': word(
    'What this account knows',
    'what knows an entry of a register, at the front of a sentence',
  ),
  'known-line': word('Line { $line }', 'what knows an entry of a register, at the front of a sentence', {
    line: 12,
  }),
  'known-document': word('The document', 'what knows an entry of a register, at the front of a sentence'),
} as const;

export const storeWords = messagesOf(STORE_WORDS);
