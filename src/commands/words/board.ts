/** What board, bench and trace print. */
import { word } from '../../base/words.js';

export const BOARD_SAYS = {
  'board-none': word('No units: put a job into shared/jobs.', 'board'),
  'board-differs': word('(built from another { $what } than the files now)', 'board, behind a unit', {
    what: 'procedure, profile set',
  }),
  'board-file-profileSet': word('profile set', 'board: which file differs, in a list'),
  'board-file-procedure': word('procedure', 'board: which file differs, in a list'),
  'board-file-limits': word('limits', 'board: which file differs, in a list'),
  'board-file-job': word('job', 'board: which file differs, in a list'),
  'board-file-unit': word('job line', 'board: which file differs, in a list'),
  'board-open': word('> { $n } open: { $units }', 'board --by stage: keep the sign', {
    n: 2,
    units: 'a/P1-1',
  }),
  'board-held': word('H { $n } held: { $units }', 'board --by stage: keep the sign', {
    n: 2,
    units: 'a/P1-1',
  }),
  'board-not-started': word('. { $n } not started: { $units }', 'board --by stage: keep the sign', {
    n: 2,
    units: 'a/P1-1',
  }),
  'board-more': word('{ $units } and { $n } more', 'a list that is cut', { units: 'a/P1-1, a/P1-2', n: 4 }),
  'board-no-step': word('No step is open or held in any unit.', 'board --by stage'),
  'board-handover': word('Hand-over at { $at }; notes since { $since }', 'board --hand-over', {
    at: '2026-03-09 16:00:00 UTC',
    since: '2026-03-09 04:00:00 UTC',
  }),
  'board-quiet': word('Nothing is half done, held, curing, snagged or parked.', 'board --hand-over'),
  'no-terminal': word(
    'This is no terminal. To open the bench, run pinchrod in one.',
    'bench, below the board',
  ),
  'trace-row': word('{ $at }  { $by } { $where }: { $what }', 'trace: a row', {
    at: '2026-03-09 16:00:00 UTC',
    by: 'jb',
    where: 'seal',
    what: 'lot S-1 (sealant)',
  }),
  'trace-dead': word('{ $row } (made again or put right since)', 'trace: a row', { row: '…' }),
  'trace-none': word('Nothing found.', 'trace'),
  'trace-count': word(
    '{ $units } { $units ->\n  [one] unit\n *[other] units\n}, { $rows } { $rows ->\n  [one] entry\n *[other] entries\n}.',
    'trace: below the rows',
    { units: 2, rows: 9 },
  ),
} as const;
