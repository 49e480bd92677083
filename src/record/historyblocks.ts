/** Holds, snags, corrections and the like as blocks. If there were none, the record says so. */
import { type Block, type BlockLine, type Cell, tableOr } from './blocks.js';
import type { HoldView, RecordView, SnagView } from './schema.js';
import { listed, type When, whenIn } from './words.js';

export function historyBlocks(view: RecordView): Block[] {
  const when = whenIn(view.made.zone);
  return [
    ...tableOr(
      'Holds',
      'This route has no holds.',
      ['Hold', 'Released', 'By', 'Time', 'How'],
      [3, 1.4, 2.4, 2, 3],
      view.holds.map((hold) => holdRow(hold, view.told !== undefined, when)),
    ),
    ...tableOr(
      'Snags and what became of them',
      'No snag was raised.',
      ['Snag', 'What', 'Decided', 'Closed'],
      [1.3, 4, 3.2, 2.5],
      view.snags.map((snag) => snagRow(snag, when)),
    ),
    ...tableOr(
      'Corrections and why',
      view.counts.again === undefined ? 'Nothing was corrected.' : 'No answer was taken back.',
      ['What', 'Was', 'Is now', 'Why', 'Person, time'],
      [2.4, 2.3, 2.3, 2.3, 2.3],
      view.corrections.map((c) => [c.what, c.was, c.now, c.reason, stamped(c, when)]),
    ),
    ...optional(
      'Reworks',
      ['Step made again', 'Why', 'Re-opened', 'Person, time'],
      [2.3, 2.6, 4, 2.4],
      view.reworks.map((r) => [
        r.step,
        `${r.reason}${r.snag === undefined ? '' : ` (snag ${r.snag})`}`,
        listed(r.reopened) || 'nothing else',
        stamped(r, when),
      ]),
    ),
    ...optional(
      'Overrides',
      ['Problem let pass', 'Why', 'Person, time'],
      [4, 3, 2.4],
      view.overrides.map((o) => [o.text, o.reason, stamped(o, when)]),
    ),
    ...optional(
      'Revisions',
      ['What changed', 'Why', 'Person, time'],
      [4, 3, 2.4],
      view.revisions.map((r) => [
        r.because
          ? r.changed.map((step) => ({ text: `${step}: ${(r.because?.[step] ?? []).join('; ')}` }))
          : listed(r.changed),
        r.reason,
        stamped(r, when),
      ]),
    ),
    ...optional(
      'Timers that run',
      ['Timer', 'Until'],
      [3, 1],
      view.timers.map((t) => [t.text, when(t.until)]),
    ),
    ...optional(
      'Notes',
      ['Note', 'Person, time'],
      [5, 2.4],
      view.notes.map((n) => [n.text, stamped(n, when)]),
    ),
  ];
}

const optional = (
  title: string,
  titles: readonly string[],
  shares: readonly number[],
  rows: readonly (readonly Cell[])[],
): Block[] => (rows.length === 0 ? [] : tableOr(title, '', titles, shares, rows));

const stamped = ({ by, at, line }: { by: string; at: string; line: number }, when: When): BlockLine[] => [
  { text: by },
  { text: `${when(at)}, line ${line}`, look: 'quiet' },
];

/** @param pins where a release without a PIN is told */
function holdRow(hold: HoldView, pins: boolean, when: When): Cell[] {
  return [
    [
      { text: hold.title, look: 'strong' },
      { text: hold.step, look: 'quiet' },
    ],
    [hold.released ? { text: 'released', look: 'good' } : { text: 'NOT RELEASED', look: 'bad' }],
    hold.by ?? '',
    hold.at ? when(hold.at) : '',
    [
      ...(hold.byChecks ? [{ text: 'by its own checks' }] : []),
      ...(hold.pin ? [{ text: 'with PIN' }] : []),
      ...(pins && hold.pin === false && !hold.cited ? [{ text: 'WITHOUT PIN', look: 'open' as const }] : []),
      ...(hold.walk === undefined ? [] : [{ text: `with ${hold.walk - 1} like it, in one walk` }]),
      ...(hold.cited === undefined ? [] : [{ text: hold.cited, look: 'quiet' as const }]),
      ...(hold.rule === undefined ? [] : [{ text: hold.rule, look: 'open' as const }]),
      ...hold.evidence.map(({ name }) => ({ text: `evidence: ${name}`, look: 'quiet' as const })),
      ...hold.earlier.map((old) => ({
        text: `before: released by ${old.by}, ${when(old.at)}; ${old.why}`,
        look: 'quiet' as const,
      })),
    ],
  ];
}

function snagRow(snag: SnagView, when: When): Cell[] {
  return [
    [
      { text: `Snag ${snag.number}`, look: 'strong' },
      { text: snag.severity },
      { text: snag.open ? 'OPEN' : 'closed', look: snag.open ? 'bad' : 'good' },
    ],
    [
      { text: snag.text },
      ...(snag.step === undefined ? [] : [{ text: `at: ${snag.step}`, look: 'quiet' as const }]),
      ...(snag.check === undefined ? [] : [{ text: `check: ${snag.check}`, look: 'quiet' as const }]),
      { text: `cause: ${snag.cause}; touches ${listed(snag.touches) || 'nothing else'}`, look: 'quiet' },
      ...(snag.containment === undefined
        ? []
        : [{ text: `at once: ${snag.containment}`, look: 'quiet' as const }]),
      { text: `raised by ${snag.by}, ${when(snag.at)}`, look: 'quiet' },
    ],
    snag.decided
      ? [
          { text: snag.decided.disposition, look: 'strong' },
          { text: snag.decided.reason },
          ...(snag.decided.limit === undefined ? [] : [{ text: `limit given way: ${snag.decided.limit}` }]),
          {
            text: `${snag.decided.by}, ${when(snag.decided.at)}${snag.decided.pin ? ', with PIN' : ''}`,
            look: 'quiet',
          },
        ]
      : [{ text: 'not decided', look: 'bad' }],
    snag.closed
      ? [
          ...(snag.closed.note === '' ? [] : [{ text: snag.closed.note }]),
          { text: `${snag.closed.by}, ${when(snag.closed.at)}`, look: 'quiet' },
        ]
      : '',
  ];
}
