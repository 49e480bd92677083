/** Entries of the day book as `daybook` prints them. */
import { sanitize } from '../base/text.js';
import { localDay } from '../base/wallclock.js';
import { data, type Spoken } from '../base/words.js';
import { plainFigure } from '../record/chartpicture.js';
import type { Workshop } from '../store/workshop.js';
import { type DaybookEntry, type DaybookKind, stillCounting } from '../unit/daybook.js';
import { asJson, EXIT, type Io, saying } from './io.js';
import type { UnitName } from './unitload.js';
import { DAYBOOK_SAYS } from './words/daybook.js';

/** So many digits of an entry's hash name it. */
export const MARK = 8;

/** Gives the exit code. */
export function printEntries(
  entries: readonly DaybookEntry[],
  workshop: Workshop,
  json: boolean,
  io: Io,
): number {
  if (json) {
    io.out(asJson({ entries }, 2));
    return EXIT.done;
  }
  const say = saying(io, DAYBOOK_SAYS);
  if (entries.length === 0) io.out(say('daybook-none'));
  const counting = new Set(stillCounting(entries).map(({ hash }) => hash));
  for (const entry of entries) {
    const line = say('daybook-entry', {
      mark: entry.hash.slice(0, MARK),
      day: localDay(entry.at, workshop.zone),
      by: sanitize(entry.by),
      says: SAYS[entry.kind](entry as never, say),
    });
    io.out(counting.has(entry.hash) || entry.kind === 'struck' ? line : say('daybook-struck-out', { line }));
  }
  return EXIT.done;
}

type Told = ReturnType<typeof saying<typeof DAYBOOK_SAYS>>;
const units = (names: readonly UnitName[]): Spoken =>
  sanitize(names.map(({ job, unit }) => `${job}/${unit}`).join(', '));

/** One sentence for each kind of entry. */
const SAYS: {
  readonly [K in DaybookKind]: (entry: Extract<DaybookEntry, { kind: K }>, say: Told) => Spoken;
} = {
  received: ({ supplier, note, on, lots, certificate }, say) =>
    say('daybook-received', {
      supplier: sanitize(supplier),
      note: sanitize(note),
      on,
      lots: lots.map(sanitize),
      certificate: certificate === undefined ? data('-') : sanitize(certificate),
    }),
  sent: ({ customer, note, on, units: of }, say) =>
    say('daybook-sent', { customer: sanitize(customer), note: sanitize(note), on, units: units(of) }),
  agreed: ({ unit, snag, agrees, customer, how, on }, say) =>
    say(agrees ? 'daybook-agreed' : 'daybook-refused', {
      unit: units([unit]),
      snag,
      customer: sanitize(customer),
      how: sanitize(how),
      on,
    }),
  action: ({ against, what, on }, say) =>
    say('daybook-action', { against: sanitize(against), what: sanitize(what), on }),
  limits: ({ reason }, say) => say('daybook-limits', { reason: sanitize(reason) }),
  chart: ({ check, centre, sd, readings, reason }, say) =>
    say('daybook-chart', {
      check: sanitize(check),
      centre: plainFigure(centre),
      sd: plainFigure(sd),
      n: readings,
      reason: sanitize(reason),
    }),
  struck: ({ of, reason }, say) =>
    say('daybook-struck', { mark: of.slice(0, MARK), reason: sanitize(reason) }),
};
