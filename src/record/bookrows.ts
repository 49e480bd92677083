/** Registers that rest on the day book: deliveries, corrective actions and what became of them, changes of limits. */

import { sanitize } from '../base/text.js';
import { data, type Spoken } from '../base/words.js';
import { boundsText, type Limit } from '../measure/limits.js';
import type { DaybookEntry, DaybookKind, DaybookOf } from '../unit/daybook.js';
import type { Books, LedgerRow, LedgerRows, LimitsText } from './ledgercolumns.js';
import { checksOf } from './materialview.js';
import type { RecordView } from './schema.js';
import { type DocumentSay, joined, listed, sourceWords } from './telling.js';

export const entriesOf = <K extends DaybookKind>(kind: K, { entries }: Books): readonly DaybookOf<K>[] =>
  entries.filter((each: DaybookEntry): each is DaybookOf<K> => each.kind === kind);

/** `pier-house: P01-1, P02-1; mill-lane: W1-1` */
export function byJob(units: Iterable<Spoken>): Spoken {
  const jobs = new Map<string, string[]>();
  for (const unit of units) {
    const at = unit.lastIndexOf('/');
    const job = unit.slice(0, at);
    jobs.set(job, [...(jobs.get(job) ?? []), unit.slice(at + 1)]);
  }
  return joined(
    [...jobs].map(([job, ids]) => data(`${job}: ${ids.join(', ')}`)),
    '; ',
  );
}

export const nameOf = ({ unit: { job, id } }: RecordView): Spoken => data(`${job}/${id}`);

const sentOf = (books: Books) =>
  entriesOf('sent', books).flatMap((entry) => {
    const units = entry.units.filter(({ job }) => books.job === undefined || job === books.job);
    return units.length === 0 ? [] : [{ ...entry, units }];
  });

export const deliveries: LedgerRows = (_, { say }, books) => [
  // What comes in is for no one job.
  ...(books.job === undefined ? entriesOf('received', books) : []).map(
    ({ at, by, on, note, supplier, lots, certificate = '' }) => ({
      at,
      on,
      cells: {
        on: data(on),
        way: say('doc-ledger-in'),
        note: sanitize(note),
        partner: sanitize(supplier),
        goods: joined(lots.map(sanitize), ', '),
        certificate: sanitize(certificate),
        by: books.named(by),
      },
    }),
  ),
  ...sentOf(books).map(({ at, by, on, note, customer, units }) => ({
    at,
    on,
    cells: {
      on: data(on),
      way: say('doc-ledger-out'),
      note: sanitize(note),
      partner: sanitize(customer),
      goods: byJob(units.map(({ job, unit }) => data(`${job}/${unit}`))),
      certificate: data(''),
      by: books.named(by),
    },
  })),
];

/**
 * What each action was against, and how often that came before its day and since. An action names a cause, or a check
 * by its id without the light; where the check is known, only units in which it was answered are counted.
 * @param found the register of nonconformities
 */
export const actions =
  (found: readonly LedgerRow[], dayOf: (at: string) => string): LedgerRows =>
  (records, { say }, books) =>
    entriesOf('action', books).map(({ at, by, on, against, what }) => {
      const alike = found.filter(({ cells }) => cells.cause === against);
      const asked = records.flatMap((view) => askedIn(view, against) ?? []);
      const met = asked.length > 0 ? asked : records.flatMap((view) => lastAnswer(view) ?? []);
      const count = (isIn: (day: string) => boolean) => ({
        times: alike.filter((row) => isIn(dayOf(row.at))).length,
        units: met.filter((time) => isIn(dayOf(time))).length,
      });
      const before = count((day) => day < on);
      const since = count((day) => day >= on);
      return {
        at,
        on,
        cells: {
          on: data(on),
          against: sanitize(against),
          what: sanitize(what),
          by: books.named(by),
          before: say('doc-ledger-times', before),
          after: say('doc-ledger-times', since),
          worked:
            since.times > 0
              ? say('doc-ledger-came-again')
              : since.units === 0
                ? say('doc-ledger-nothing-since')
                : say('doc-ledger-not-again'),
        },
      };
    });

/** Without the light: `saw.cut/length`. */
export const checkStem = (id: string): string => id.replace(/@\w+/, '');

/** When the check was answered in this unit, of whatever light; undefined where it was not. */
const askedIn = (view: RecordView, check: string): string | undefined =>
  checksOf(view.stages).find(({ id, answer }) => answer && checkStem(id) === check)?.answer?.at;

const lastAnswer = (view: RecordView): string | undefined =>
  checksOf(view.stages)
    .flatMap(({ answer }) => answer?.at ?? [])
    .sort()
    .at(-1);

/** One row for each limit that another text changed, in the order in which the texts came into use. */
export const limits: LedgerRows = (_, { say, when }, books) => {
  const stood = entriesOf('limits', books);
  const since = ({ sha256, units }: LimitsText): string =>
    [...stood.filter(({ sources }) => sources.limits === sha256), ...units].map(({ at }) => at).sort()[0] ??
    '';
  const texts = books.limits
    .map((text) => ({ ...text, at: since(text) }))
    .sort((a, b) => (a.at < b.at ? -1 : 1));
  return texts.flatMap(({ sha256, limits: now, units, at }, i): LedgerRow[] => {
    const entry = stood.find(({ sources }) => sources.limits === sha256);
    const ended = {
      reason: entry ? sanitize(entry.reason) : say('doc-ledger-no-reason'),
      by: entry ? books.named(entry.by) : data(''),
      at: when(at),
      units: byJob(units.map(({ name }) => sanitize(name))),
    };
    const before = texts[i - 1]?.limits;
    if (!before)
      return [
        {
          at,
          cells: {
            limit: say('doc-ledger-all-limits', { n: now.length }),
            was: data(''),
            now: data(''),
            ...ended,
          },
        },
      ];
    return changed(before, now, say).map((cells) => ({ at, cells: { ...cells, ...ended } }));
  });
};

function changed(
  before: readonly Limit[],
  now: readonly Limit[],
  say: DocumentSay,
): readonly { readonly limit: Spoken; readonly was: Spoken; readonly now: Spoken }[] {
  const says = (limits: readonly Limit[], id: string): Spoken => {
    const limit = limits.find((each) => each.id === id);
    return limit ? limitSays(limit, say) : say('doc-ledger-no-limit');
  };
  return [...new Set([...before, ...now].map(({ id }) => id))]
    .map((id) => ({ limit: sanitize(id), was: says(before, id), now: says(now, id) }))
    .filter(({ was, now: is }) => was !== is);
}

/** `up to 1500 mm: within ±1 mm; else within ±1.5 mm (house rule: saw list)` */
const limitSays = ({ bands, unit, source }: Limit, say: DocumentSay): Spoken =>
  say('doc-ledger-limit-says', {
    bounds: listed(
      say,
      bands.map((band) => {
        const bounds = say.retell(boundsText(band, unit));
        return band.upto === undefined ? bounds : say('doc-ledger-upto', { size: band.upto, bounds });
      }),
    ),
    source: joined([sourceWords(say, source.kind), sanitize(source.text)], ': '),
  });
