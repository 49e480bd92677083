/** Registers over the records of units: what an auditor asks of all of them. LedgerRows have a time, by which they are chosen. */
import { sanitize } from '../base/text.js';
import { data, type Spoken } from '../base/words.js';
import type { Instrument } from '../measure/types.js';
import type { DaybookOf } from '../unit/daybook.js';
import { actions, byJob, checkStem, deliveries, entriesOf, limits, nameOf } from './bookrows.js';
import { type Exception, exceptionsOf } from './exceptions.js';
import {
  type Books,
  COLUMNS,
  type ColumnId,
  type LedgerName,
  type LedgerRow,
  type LedgerRows,
} from './ledgercolumns.js';
import { checksOf } from './materialview.js';
import type { RecordView } from './schema.js';
import { type DocumentSay, joined, listed, type Telling, tellingOf, toMinute } from './telling.js';
import { lastRelease } from './unitblocks.js';

export interface Ledger {
  readonly name: LedgerName;
  /** A share of 0: in documents it stands below the column before it. */
  readonly columns: readonly { readonly id: ColumnId; readonly share: number }[];
  readonly rows: readonly LedgerRow[];
}

/** @param from, to days by the clock of the documents, both included; undefined: no bound */
export function ledgerOf(
  name: LedgerName,
  records: readonly RecordView[],
  books: Books,
  { from, to }: { readonly from?: string | undefined; readonly to?: string | undefined } = {},
): Ledger {
  const telling = tellingOf(records[0]?.made ?? {});
  const { say, when } = telling;
  const day = (at: string): string => when(at).slice(0, 10);
  const short: Telling = { say, when: (at) => toMinute(when(at)) };
  const rowsOf: LedgerRows =
    name === 'actions' ? actions(nonconformities(records, short, books), day) : ROWS[name];
  const rows = rowsOf(records, short, books)
    .filter(
      ({ at, since = at, on }) =>
        (from === undefined || (on ?? day(at)) >= from) && (to === undefined || (on ?? day(since)) <= to),
    )
    .sort((a, b) => (timeOf(a) < timeOf(b) ? -1 : timeOf(a) > timeOf(b) ? 1 : 0));
  const columns = Object.entries(COLUMNS[name]).map(([id, share]) => ({ id: id as ColumnId, share }));
  return { name, columns, rows };
}

const timeOf = ({ at, on = at }: LedgerRow): string => on;

/** All exceptions of page two, and of those about one check or of one cause, which of them it repeats. */
function nonconformities(records: readonly RecordView[], { say, when }: Telling, books: Books): LedgerRow[] {
  const found = records.flatMap((view) => exceptionsOf(view).map((each) => ({ view, each })));
  found.sort((a, b) => (a.each.at < b.each.at ? -1 : 1));
  const first = new Map<string, string>();
  return found.map(({ view, each }) => {
    const key = likeness(each);
    const repeat = first.get(key);
    if (repeat === undefined) first.set(key, `${view.unit.id} ${each.row}`);
    return {
      at: each.at,
      job: view.unit.job,
      cells: {
        unit: view.unit.id,
        kind: say(`doc-glance-${each.kind}`),
        what: joined(
          [each.what, ...each.lines.slice(1).flatMap(({ text }) => (each.what.endsWith(text) ? [] : text))],
          '; ',
        ),
        decision: joined(
          each.why.map(({ text }) => text),
          '; ',
        ),
        agreed: agreement(view, each, say, books),
        action: joined(
          entriesOf('action', books)
            .filter(({ against }) => against === causeOf(each))
            .map(({ on, what }) => say('doc-ledger-action-says', { day: on, what: sanitize(what) })),
          '; ',
        ),
        cause: causeOf(each),
        repeat: data(repeat ?? ''),
        by: each.by,
        at: when(each.at),
      },
    };
  });
}

/** Its cause, or the check that it is about: what an action names that is to keep it from coming again. */
export const causeOf = ({ cause, check }: Exception): Spoken =>
  cause ?? (check === undefined ? data('') : data(checkStem(check)));

/** What the customer said to what was decided; of a concession, also that nobody wrote it down. */
function agreement(view: RecordView, { kind, snag }: Exception, say: DocumentSay, books: Books): Spoken {
  const said = entriesOf('agreed', books).filter(
    (entry) => entry.snag === snag && `${entry.unit.job}/${entry.unit.unit}` === nameOf(view),
  );
  if (said.length === 0) return kind === 'conceded' ? say('doc-ledger-not-agreed') : data('');
  return joined(
    said.map(({ agrees, customer, how, on }) =>
      say(agrees ? 'doc-ledger-agreed-by' : 'doc-ledger-refused-by', {
        name: sanitize(customer),
        how: sanitize(how),
        day: on,
      }),
    ),
    '; ',
  );
}

/** Two of one kind about the same check, or of the same cause in the same step, are alike whatever the light. */
const likeness = ({ kind, check, cause, step, what }: Exception): string =>
  [kind, checkStem(check ?? step ?? what), cause ?? ''].join('\n');

/** One row for each calibration under which an instrument was used, or that stands in today's list. */
function instruments(records: readonly RecordView[], { say, when }: Telling, books: Books): LedgerRow[] {
  interface Use {
    readonly of: RecordView['instruments'][number];
    readonly units: Set<Spoken>;
    readonly overdue: Set<Spoken>;
    first: string;
    last: string;
  }
  const found = new Map<string, Use>();
  for (const view of records)
    for (const of of view.instruments) {
      const times = checksOf(view.stages).flatMap(({ answer }) =>
        answer?.readings.some(({ instrument }) => instrument === of.id) ? [answer.at] : [],
      );
      if (times.length === 0) continue;
      times.sort();
      const key = [of.id, of.calibrated, of.certificate].join('\n');
      const [first, last] = [times[0]!, times.at(-1)!];
      const use = found.get(key) ?? { of, units: new Set(), overdue: new Set(), first, last };
      use.units.add(nameOf(view));
      for (const text of of.overdue) use.overdue.add(text);
      if (first < use.first) use.first = first;
      if (last > use.last) use.last = last;
      found.set(key, use);
    }
  const used = [...found.values()].map(({ of, units, overdue, first, last }) => ({
    at: last,
    since: first,
    cells: {
      id: of.id,
      what: joined(
        [
          of.title,
          of.serial === undefined ? data('') : say('doc-serial', { serial: of.serial }),
          ...(overdue.size === 0 ? [] : [joined([say('doc-ledger-overdue'), ...overdue], ': ')]),
        ],
        ', ',
      ),
      calibrated: of.calibrated,
      due: of.due,
      certificate: of.certificate,
      first: when(first),
      last: when(last),
      units: byJob(units),
    },
  }));
  const calibrations = new Set(used.map(({ cells }) => [cells.id, cells.calibrated].join('\n')));
  return [...used, ...books.instruments.flatMap(unused)];

  function unused({ id, title, serial, calibrated, due = '', certificate = '' }: Instrument): LedgerRow[] {
    if (calibrated === undefined || calibrations.has([id, calibrated].join('\n'))) return [];
    const none = data('');
    return [
      {
        at: `${calibrated}T00:00:00.000Z`,
        on: calibrated,
        cells: {
          id: sanitize(id),
          what: joined(
            [sanitize(title), serial === undefined ? none : say('doc-serial', { serial: sanitize(serial) })],
            ', ',
          ),
          calibrated: sanitize(calibrated),
          due: sanitize(due),
          certificate: sanitize(certificate),
          first: say('doc-ledger-unused'),
          last: none,
          units: none,
        },
      },
    ];
  }
}

function lots(records: readonly RecordView[], { say, when }: Telling, books: Books): LedgerRow[] {
  const found = new Map<string, { readonly lot: RecordView['lots'][number]; readonly units: Set<Spoken> }>();
  for (const view of records)
    for (const lot of view.lots) {
      const key = JSON.stringify([lot.material, lot.code, lot.expires ?? '']);
      const known = found.get(key);
      const units = (known?.units ?? new Set<Spoken>()).add(nameOf(view));
      // Where it was accepted, or first named.
      const better =
        !known || (lot.accepted !== undefined && known.lot.accepted === undefined) || lot.at < known.lot.at;
      found.set(key, { lot: better ? lot : known.lot, units });
    }
  const cameWith = (code: string, tell: (entry: DaybookOf<'received'>) => Spoken): Spoken =>
    joined(
      entriesOf('received', books)
        .filter((entry) => entry.lots.some((each) => sanitize(each) === code))
        .map(tell),
      '; ',
    );
  const fromSupplier = ({ supplier, note, on }: DaybookOf<'received'>): Spoken =>
    say('doc-ledger-from-supplier', { name: sanitize(supplier), note: sanitize(note), day: on });
  const held = [...found.values()].map(({ lot, units }) => ({
    at: lot.at,
    cells: {
      material: lot.material,
      lot: lot.code,
      supplier: cameWith(lot.code, fromSupplier),
      certificate: cameWith(lot.code, ({ certificate = '' }) => sanitize(certificate)),
      'use-by': lot.expires ?? data(''),
      accepted: lot.accepted ?? data(''),
      by: lot.by,
      at: when(lot.at),
      units: byJob(units),
    },
  }));
  const codes = new Set(held.map(({ cells }) => cells.lot));
  // What came in and no unit holds yet; its material is known once a unit names it.
  const unused = entriesOf('received', books).flatMap((entry) =>
    entry.lots.flatMap((code): LedgerRow[] =>
      books.job !== undefined || codes.has(sanitize(code))
        ? []
        : [
            {
              at: entry.at,
              on: entry.on,
              cells: {
                lot: sanitize(code),
                supplier: cameWith(sanitize(code), fromSupplier),
                certificate: sanitize(entry.certificate ?? ''),
                by: books.named(entry.by),
                at: data(entry.on),
                units: say('doc-ledger-in-no-unit'),
              },
            },
          ],
    ),
  );
  return [...held, ...unused];
}

function setUps(records: readonly RecordView[], { say, when }: Telling): LedgerRow[] {
  type Setup = NonNullable<RecordView['setups']>[number];
  const found = new Map<string, { readonly setup: Setup; readonly units: Set<Spoken> }>();
  for (const view of records)
    for (const setup of view.setups ?? []) {
      const key = [setup.id, setup.at, setup.hash ?? ''].join('\n');
      const known = found.get(key) ?? { setup, units: new Set<Spoken>() };
      known.units.add(nameOf(view));
      found.set(key, known);
    }
  return [...found.values()].map(({ setup, units }) => ({
    at: setup.at,
    cells: {
      id: setup.id,
      checks: joined(
        setup.checks.map(({ asks, says, outcome }) => {
          const read = joined([asks, says], ' ');
          return outcome === say('doc-outcome-pass')
            ? read
            : say('doc-rule-outcome', { says: read, outcome });
        }),
        '; ',
      ),
      by: setup.by,
      at: when(setup.at),
      units: byJob(units),
    },
  }));
}

/** By name and the level that counted: a change of level is a row of its own. */
function people(records: readonly RecordView[], { say, when }: Telling): LedgerRow[] {
  interface Work {
    readonly name: Spoken;
    readonly level: Spoken;
    readonly units: Set<Spoken>;
    answers: number;
    first: string;
    last: string;
  }
  const found = new Map<string, Work>();
  for (const view of records)
    for (const { name, level = say('doc-level-not-kept') } of view.people) {
      const times = [
        ...checksOf(view.stages).flatMap(({ answer }) => (answer?.by === name ? [answer.at] : [])),
        ...view.holds.flatMap(({ by, at }) => (by === name && at !== undefined ? [at] : [])),
      ].sort();
      if (times.length === 0) continue;
      const key = `${name}\n${level}`;
      const [first, last] = [times[0]!, times.at(-1)!];
      const work = found.get(key) ?? { name, level, units: new Set<Spoken>(), answers: 0, first, last };
      work.units.add(nameOf(view));
      work.answers += times.length;
      if (first < work.first) work.first = first;
      if (last > work.last) work.last = last;
      found.set(key, work);
    }
  return [...found.values()].map(({ name, level, units, answers, first, last }) => ({
    at: last,
    since: first,
    cells: {
      by: name,
      level,
      what: say('doc-ledger-answers', { n: answers }),
      first: when(first),
      last: when(last),
      units: byJob(units),
    },
  }));
}

/** Complaints, inspections, repairs: all that was written once a record was closed. */
const complaints: LedgerRows = (records, { when }) =>
  records.flatMap((view) =>
    (view.after?.entries ?? []).map(({ what, says, by, at }) => ({
      at,
      job: view.unit.job,
      cells: { unit: view.unit.id, what, decision: says, by, at: when(at) },
    })),
  );

const releases: LedgerRows = (records, { say, when }, books) =>
  records
    .filter(({ verdict }) => verdict.finished)
    .map((view) => ({
      at: lastRelease(view)?.at ?? view.seal.at,
      job: view.unit.job,
      cells: {
        unit: view.unit.id,
        order: joined([view.unit.order ?? data(''), view.unit.customer], ', '),
        verdict: view.after ? listed(say, [view.verdict.line, view.after.says]) : view.verdict.line,
        sent: joined(
          entriesOf('sent', books)
            .filter(({ units }) => units.some(({ job, unit }) => `${job}/${unit}` === nameOf(view)))
            .map(({ on, note }) => say('doc-ledger-sent-with', { day: on, note: sanitize(note) })),
          '; ',
        ),
        by: lastRelease(view)?.by ?? view.seal.by ?? data(''),
        at: when(lastRelease(view)?.at ?? view.seal.at),
        number: view.papers?.number ?? data(''),
        'test-report': view.papers?.testReport ?? data(''),
        keep: view.papers?.keepUntil ?? data(''),
      },
    }));

const ROWS: Record<Exclude<LedgerName, 'actions'>, LedgerRows> = {
  nonconformities,
  instruments,
  lots,
  deliveries,
  limits,
  'set-ups': setUps,
  people,
  complaints,
  releases,
};
