/** What daybook prints. */
import { word } from '../../base/words.js';

export const DAYBOOK_SAYS = {
  'daybook-none': word('The day book is empty.', 'daybook'),
  'daybook-entry': word('{ $mark }  { $day }  { $by }  { $says }', 'daybook: columns', {
    mark: '1a2b3c4d',
    day: '2026-03-09',
    by: 'ot',
    says: 'limits: looser',
  }),
  'daybook-struck-out': word('(struck out) { $line }', 'daybook', { line: '1a2b3c4d  2026-03-09' }),
  'daybook-received': word(
    'received { $on } from { $supplier }, delivery note { $note }: { $lots }; certificate { $certificate }',
    'daybook',
    { on: '2026-03-09', supplier: 'Harbour Extrusions', note: '4711', lots: 'B-12', certificate: 'C-9' },
  ),
  'daybook-sent': word('sent { $on } to { $customer }, delivery note { $note }: { $units }', 'daybook', {
    on: '2026-03-09',
    customer: 'Ms Lind',
    note: '77',
    units: 'pier-house/P02-1',
  }),
  'daybook-agreed': word('snag { $snag } of { $unit }: { $customer } agreed, { $how }, { $on }', 'daybook', {
    snag: '57',
    unit: 'pier-house/P02-1',
    customer: 'Ms Lind',
    how: 'by letter',
    on: '2026-03-09',
  }),
  'daybook-refused': word(
    'snag { $snag } of { $unit }: { $customer } did not agree, { $how }, { $on }',
    'daybook',
    { snag: '57', unit: 'pier-house/P02-1', customer: 'Ms Lind', how: 'by letter', on: '2026-03-09' },
  ),
  'daybook-action': word('corrective action of { $on } against { $against }: { $what }', 'daybook', {
    on: '2026-03-09',
    against: 'saw stop',
    what: 'stop re-set',
  }),
  'daybook-limits': word('stands for the limits as they are: { $reason }', 'daybook', { reason: 'new jig' }),
  'daybook-chart': word(
    'freezes the chart of { $check } at { $centre }, deviation { $sd }, from { $n } readings: { $reason }',
    'daybook',
    { check: 'square.frame/square:diagonals', centre: '0.1', sd: '0.4', n: 40, reason: 'press re-set' },
  ),
  'daybook-struck': word('strikes { $mark } out: { $reason }', 'daybook', {
    mark: '1a2b3c4d',
    reason: 'wrong lot',
  }),
} as const;
