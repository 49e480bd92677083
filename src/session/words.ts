/** Words of the session besides its refusals. */
import { messagesOf, word, writtenOf } from '../base/words.js';

const CODE = 'what a code is of, where two things have one';
export const SESSION_WORDS = {
  'code-unit': word('a unit of { $job }', CODE, { job: 'pier-house' }),
  'code-person': word('person { $id }', CODE, { id: 'mv' }),
  'code-instrument': word('an instrument', CODE),
  'code-setup': word('a set-up', CODE),
  'code-lot': word('a lot', CODE),
  'code-bench': word('this bench', CODE),
  'nobody-named': word('somebody whom the lock does not name', 'who has a unit'),
  'late-snag': word(
    '{ $head }; { $bench } answered with it afterwards: { $n ->\n  [one] line\n *[other] lines\n} { $lines }.',
    'a snag, kept in a journal',
    {
      head: 'Set-up saw-3 had been ended by ot at 2026-11-24 08:00 UTC',
      bench: 'bench-1',
      n: 2,
      lines: '12, 13',
    },
  ),
  'late-note': word(
    '{ $head }; { $bench } answered with it afterwards: { $checks }.',
    'a note, kept in a journal',
    {
      head: 'Set-up saw-3 had been ended by ot at 2026-11-24 08:00 UTC',
      bench: 'bench-1',
      checks: 'frame.diagonals (line 12)',
    },
  ),
  'late-lines': word(
    '{ $check } ({ $n ->\n  [one] line\n *[other] lines\n} { $lines })',
    'part of the note',
    { check: 'frame.diagonals', n: 2, lines: '12, 13' },
  ),
  'taken-over': word(
    'Taken over from { $who }, who had it since { $since }: { $reason }',
    'kept in a journal or on the board, in English',
    { who: 'mv at bench-1', since: '2026-11-24 08:00 UTC', reason: 'gone home' },
  ),
  'taken-over-free': word(
    'Taken over from a bench that let it go meanwhile: { $reason }',
    'kept in a journal or on the board, in English',
    { reason: 'gone home' },
  ),
  'branch-lines': word(
    '{ $branch }: { $n } { $n ->\n  [one] line\n *[other] lines\n} that { $benches } gave on { $unit } while another bench wrote it count for nothing until this is decided',
    'kept in a journal or on the board, in English',
    { branch: 'P02-1~1', n: 2, benches: 'bench-2', unit: 'P02-1' },
  ),
  'another-bench': word('another bench', 'kept in a journal or on the board, in English'),
  'proven-passed': word(
    '{ $setup }: first-off passed, by { $person }.',
    'kept in a journal or on the board, in English',
    { setup: 'Mitre saw', person: 'Tom Reed' },
  ),
  'proven-failed': word(
    '{ $setup }: the first-off did not pass. { $why }',
    'kept in a journal or on the board, in English',
    { setup: 'Mitre saw', why: 'not proven' },
  ),
  'nobody-has': word('nobody has { $unit } any more.', 'kept in a journal or on the board, in English', {
    unit: 'P02-1',
  }),
  'run-verify': word('journal damaged: run pinchrod verify', 'kept in a journal or on the board, in English'),
  'made-under': word(
    'made under { $lastGood }; the first-off { $failed } of { $setup } failed',
    'a snag, kept in a journal',
    { lastGood: 'saw-3', failed: 'saw-4', setup: 'saw' },
  ),
  'made-under-none': word(
    'made under no first-off; the first-off { $failed } of { $setup } failed',
    'a snag, kept in a journal',
    { failed: 'saw-4', setup: 'saw' },
  ),
} as const;

export const sessionWords = messagesOf(SESSION_WORDS);
export const sessionSays = writtenOf(SESSION_WORDS);
