/** Holds, snags, corrections and the like as blocks. If there were none, the record says so. */
import { data, type Spoken } from '../base/words.js';
import { type Block, type BlockLine, type Cell, tableOr } from './blocks.js';
import type { HoldView, RecordView, SnagView } from './schema.js';
import { joined, listed, type Telling, tellingOf } from './telling.js';

export function historyBlocks(view: RecordView): Block[] {
  const telling = tellingOf(view.made);
  const { say, when } = telling;
  const who = say('doc-col-person-time');
  const why = say('doc-col-why');
  return [
    ...tableOr(
      say('doc-holds'),
      say('doc-no-holds'),
      [
        say('doc-col-hold'),
        say('doc-col-released'),
        say('doc-col-by'),
        say('doc-col-time'),
        say('doc-col-how'),
      ],
      [3, 1.4, 2.4, 2, 3],
      view.holds.map((hold) => holdRow(hold, view.told !== undefined, telling)),
    ),
    ...tableOr(
      say('doc-snags'),
      say('doc-no-snags'),
      [say('doc-col-snag'), say('doc-col-what'), say('doc-col-decided'), say('doc-col-closed')],
      [1.3, 4, 3.2, 2.5],
      view.snags.map((snag) => snagRow(snag, telling)),
    ),
    ...tableOr(
      say('doc-corrections'),
      say(view.counts.again === undefined ? 'doc-no-corrections' : 'doc-none-taken-back'),
      [say('doc-col-what'), say('doc-col-was'), say('doc-col-now'), why, who],
      [2.4, 2.3, 2.3, 2.3, 2.3],
      view.corrections.map((c) => [c.what, c.was, c.now, c.reason, stamped(c, telling)]),
    ),
    ...optional(
      say('doc-reworks'),
      [say('doc-col-step-again'), why, say('doc-col-reopened'), who],
      [2.3, 2.6, 4, 2.4],
      view.reworks.map((r) => [
        r.step,
        r.snag === undefined ? r.reason : say('doc-reason-snag', { reason: r.reason, n: r.snag }),
        listed(say, r.reopened) || say('doc-nothing-else'),
        stamped(r, telling),
      ]),
    ),
    ...optional(
      say('doc-overrides'),
      [say('doc-col-problem'), why, who],
      [4, 3, 2.4],
      view.overrides.map((o) => [o.text, o.reason, stamped(o, telling)]),
    ),
    ...optional(
      say('doc-revisions'),
      [say('doc-col-changed'), why, who],
      [4, 3, 2.4],
      view.revisions.map((r) => [
        r.because
          ? r.changed.map((step) => ({
              text: say('doc-step-why', { step, why: joined(r.because?.[step] ?? [], '; ') }),
            }))
          : listed(say, r.changed),
        r.reason,
        stamped(r, telling),
      ]),
    ),
    ...optional(
      say('doc-timers'),
      [say('doc-col-timer'), say('doc-col-until')],
      [3, 1],
      view.timers.map((t) => [t.text, when(t.until)]),
    ),
    ...noteBlocks(view),
  ];
}

/** What people wrote beside their answers, and what befell the unit: put aside, a clock that jumped. */
export function noteBlocks(view: RecordView): Block[] {
  const telling = tellingOf(view.made);
  const { say } = telling;
  return optional(
    say('doc-notes'),
    [say('doc-col-note'), say('doc-col-person-time')],
    [5, 2.4],
    view.notes.map((n) => [n.text, stamped(n, telling)]),
  );
}

const optional = (
  title: Spoken,
  titles: readonly Spoken[],
  shares: readonly number[],
  rows: readonly (readonly Cell[])[],
): Block[] => (rows.length === 0 ? [] : tableOr(title, data(''), titles, shares, rows));

const stamped = (
  { by, at, line: n }: { by: Spoken; at: string; line: number },
  { say, when }: Telling,
): BlockLine[] => [{ text: by }, { text: say('doc-at-line', { time: when(at), n }), look: 'quiet' }];

/** @param pins where a release without a PIN is told */
function holdRow(hold: HoldView, pins: boolean, { say, when }: Telling): Cell[] {
  const quiet = (text: Spoken) => ({ text, look: 'quiet' as const });
  return [
    [{ text: hold.title, look: 'strong' }, quiet(hold.step)],
    [
      hold.released
        ? { text: say('doc-hold-released'), look: 'good' }
        : { text: say('doc-hold-open'), look: 'bad' },
    ],
    hold.by ?? data(''),
    hold.at ? when(hold.at) : data(''),
    [
      ...(hold.byChecks ? [{ text: say('doc-by-checks') }] : []),
      ...(hold.pin ? [{ text: say('doc-with-pin') }] : []),
      ...(pins && hold.pin === false && !hold.cited
        ? [{ text: say('doc-without-pin'), look: 'open' as const }]
        : []),
      ...(hold.walk === undefined ? [] : [{ text: say('doc-in-one-walk', { n: hold.walk - 1 }) }]),
      ...(hold.cited === undefined ? [] : [quiet(hold.cited)]),
      ...(hold.rule === undefined ? [] : [{ text: hold.rule, look: 'open' as const }]),
      ...hold.evidence.map(({ name }) => quiet(say('doc-evidence', { name }))),
      ...hold.earlier.map(({ by, at, why }) =>
        quiet(say('doc-hold-before', { name: by, time: when(at), why })),
      ),
    ],
  ];
}

function snagRow(snag: SnagView, { say, when }: Telling): Cell[] {
  const quiet = (text: Spoken) => ({ text, look: 'quiet' as const });
  const { decided, closed } = snag;
  return [
    [
      { text: say('doc-snag', { n: snag.number }), look: 'strong' },
      { text: snag.severity },
      snag.open
        ? { text: say('doc-snag-open'), look: 'bad' }
        : { text: say('doc-snag-closed'), look: 'good' },
    ],
    [
      { text: snag.text },
      ...(snag.step === undefined ? [] : [quiet(say('doc-snag-at', { step: snag.step }))]),
      ...(snag.check === undefined ? [] : [quiet(say('doc-snag-check', { check: snag.check }))]),
      quiet(
        say('doc-snag-cause', {
          cause: snag.cause,
          touches: listed(say, snag.touches) || say('doc-nothing-else'),
        }),
      ),
      ...(snag.containment === undefined
        ? []
        : [quiet(say('doc-snag-at-once', { containment: snag.containment }))]),
      quiet(say('doc-snag-by', { name: snag.by, time: when(snag.at) })),
    ],
    decided
      ? [
          { text: decided.disposition, look: 'strong' },
          { text: decided.reason },
          ...(decided.limit === undefined ? [] : [{ text: say('doc-snag-limit', { limit: decided.limit }) }]),
          quiet(
            say(decided.pin ? 'doc-by-at-pin' : 'doc-by-at', { name: decided.by, time: when(decided.at) }),
          ),
        ]
      : [{ text: say('doc-not-decided'), look: 'bad' }],
    closed
      ? [
          ...(closed.note === '' ? [] : [{ text: closed.note }]),
          quiet(say('doc-by-at', { name: closed.by, time: when(closed.at) })),
        ]
      : data(''),
  ];
}
