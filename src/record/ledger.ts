/** Registers over the records of units: what an auditor asks of all of them. Rows have a time, by which they are chosen. */
import { data, type Spoken } from '../base/words.js';
import { type Exception, exceptionsOf } from './exceptions.js';
import { checksOf } from './materialview.js';
import type { RecordView } from './schema.js';
import { joined, listed, type Telling, tellingOf, toMinute } from './telling.js';
import { lastRelease } from './unitblocks.js';

export const LEDGERS = [
  'nonconformities',
  'instruments',
  'lots',
  'set-ups',
  'people',
  'complaints',
  'releases',
] as const;
export type LedgerName = (typeof LEDGERS)[number];

/** Columns of each, by the ids of their words, and their shares of a page. */
const COLUMNS = {
  nonconformities: { unit: 2.7, kind: 2.7, what: 4, decision: 4, cause: 1.8, repeat: 1.8, by: 2.2, at: 2.7 },
  // In characters of the text form, where dates must not break.
  instruments: { id: 6, what: 11, calibrated: 10, due: 10, certificate: 11, first: 10, last: 10, units: 14 },
  lots: { material: 1.8, lot: 3.4, 'use-by': 2.4, accepted: 2.2, by: 2.2, at: 2.4, units: 3.8 },
  'set-ups': { id: 1.8, checks: 6, by: 2.4, at: 2.4, units: 3.8 },
  people: { by: 2.4, level: 3.4, what: 3, first: 2.4, last: 2.4, units: 3.8 },
  complaints: { unit: 2.4, what: 3, decision: 6, by: 2.4, at: 2.4 },
  releases: { unit: 2.4, order: 3, verdict: 3, by: 2.4, at: 2.4, number: 3.8, keep: 2.4 },
} as const satisfies Record<LedgerName, Record<string, number>>;

type ColumnId = { [N in LedgerName]: keyof (typeof COLUMNS)[N] }[LedgerName];

interface LedgerRow {
  /** UTC, ISO 8601: by which it is chosen and in whose order it stands. */
  readonly at: string;
  /** Of the unit, where it is about one. */
  readonly job?: Spoken;
  readonly cells: Readonly<Partial<Record<ColumnId, Spoken>>>;
}

export interface Ledger {
  readonly name: LedgerName;
  readonly columns: readonly { readonly id: ColumnId; readonly share: number }[];
  readonly rows: readonly LedgerRow[];
}

/** @param from, to days by the clock of the documents, both included; undefined: no bound */
export function ledgerOf(
  name: LedgerName,
  records: readonly RecordView[],
  { from, to }: { readonly from?: string | undefined; readonly to?: string | undefined } = {},
): Ledger {
  const telling = tellingOf(records[0]?.made ?? {});
  const { say, when } = telling;
  const day = (at: string): string => when(at).slice(0, 10);
  const rows = ROWS[name](records, { say, when: (at) => toMinute(when(at)) })
    .filter(({ at }) => (from === undefined || day(at) >= from) && (to === undefined || day(at) <= to))
    .sort((a, b) => (a.at < b.at ? -1 : a.at > b.at ? 1 : 0));
  const columns = Object.entries(COLUMNS[name]).map(([id, share]) => ({ id: id as ColumnId, share }));
  return { name, columns, rows };
}

type Rows = (records: readonly RecordView[], telling: Telling) => LedgerRow[];

const nameOf = ({ unit: { job, id } }: RecordView): Spoken => data(`${job}/${id}`);

/** `pier-house: P01-1, P02-1; mill-lane: W1-1` */
function byJob(units: ReadonlySet<Spoken>): Spoken {
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

/** All exceptions of page two, and of those about one check or of one cause, which of them it repeats. */
function nonconformities(records: readonly RecordView[], { say, when }: Telling): LedgerRow[] {
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
        what: joined([each.what, ...each.lines.slice(1).map(({ text }) => text)], '; '),
        decision: joined(
          each.why.map(({ text }) => text),
          '; ',
        ),
        cause: each.cause ?? data(''),
        repeat: data(repeat ?? ''),
        by: each.by,
        at: when(each.at),
      },
    };
  });
}

/** Two of one kind about the same check, or of the same cause in the same step, are alike whatever the light. */
const likeness = ({ kind, check, cause, step, what }: Exception): string =>
  [kind, (check ?? step ?? what).replace(/@\w+/, ''), cause ?? ''].join('\n');

/** One row for each calibration under which an instrument was used. */
function instruments(records: readonly RecordView[], { say, when }: Telling): LedgerRow[] {
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
  return [...found.values()].map(({ of, units, overdue, first, last }) => ({
    at: last,
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
}

function lots(records: readonly RecordView[], { when }: Telling): LedgerRow[] {
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
  return [...found.values()].map(({ lot, units }) => ({
    at: lot.at,
    cells: {
      material: lot.material,
      lot: lot.code,
      'use-by': lot.expires ?? data(''),
      accepted: lot.accepted ?? data(''),
      by: lot.by,
      at: when(lot.at),
      units: byJob(units),
    },
  }));
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
const complaints: Rows = (records, { when }) =>
  records.flatMap((view) =>
    (view.after?.entries ?? []).map(({ what, says, by, at }) => ({
      at,
      job: view.unit.job,
      cells: { unit: view.unit.id, what, decision: says, by, at: when(at) },
    })),
  );

const releases: Rows = (records, { say, when }) =>
  records
    .filter(({ verdict }) => verdict.finished)
    .map((view) => ({
      at: view.seal.at,
      job: view.unit.job,
      cells: {
        unit: view.unit.id,
        order: joined([view.unit.order ?? data(''), view.unit.customer], ', '),
        verdict: view.after ? listed(say, [view.verdict.line, view.after.says]) : view.verdict.line,
        by: lastRelease(view)?.by ?? view.seal.by ?? data(''),
        at: when(view.seal.at),
        number: view.papers?.number ?? data(''),
        keep: view.papers?.keepUntil ?? data(''),
      },
    }));

const ROWS: Record<LedgerName, Rows> = {
  nonconformities,
  instruments,
  lots,
  'set-ups': setUps,
  people,
  complaints,
  releases,
};
