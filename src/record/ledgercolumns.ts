/** The registers, their columns and rows. */
import type { Spoken } from '../base/words.js';
import type { Limit } from '../measure/limits.js';
import type { Instrument } from '../measure/types.js';
import type { DaybookEntry } from '../unit/daybook.js';
import type { Namer } from './initials.js';
import type { RecordView } from './schema.js';
import type { Telling } from './telling.js';

export const LEDGERS = [
  'nonconformities',
  'actions',
  'instruments',
  'lots',
  'deliveries',
  'set-ups',
  'people',
  'limits',
  'complaints',
  'releases',
] as const;
export type LedgerName = (typeof LEDGERS)[number];

/** Columns of each, by the ids of their words, and their shares of a page. In characters of the text form, where dates must not break. */
export const COLUMNS = {
  nonconformities: {
    unit: 2.7,
    kind: 2.7,
    what: 4,
    decision: 4,
    agreed: 0,
    action: 0,
    cause: 2,
    repeat: 1.8,
    by: 2.2,
    at: 2.7,
  },
  actions: { on: 10, against: 14, what: 22, by: 11, before: 10, after: 10, worked: 14 },
  instruments: { id: 6, what: 11, calibrated: 10, due: 10, certificate: 11, first: 10, last: 10, units: 14 },
  lots: {
    material: 1.8,
    lot: 3.2,
    supplier: 0,
    certificate: 0,
    'use-by': 2.4,
    accepted: 2.2,
    by: 2.2,
    at: 2.4,
    units: 3.8,
  },
  deliveries: { on: 10, way: 6, note: 12, partner: 16, goods: 22, certificate: 12, by: 12 },
  'set-ups': { id: 1.8, checks: 6, by: 2.4, at: 2.4, units: 3.8 },
  people: { by: 2.4, level: 3.4, what: 3, first: 2.4, last: 2.4, units: 3.8 },
  limits: { limit: 13, was: 19, now: 19, reason: 14, by: 11, at: 10, units: 12 },
  complaints: { unit: 2.4, what: 3, decision: 6, by: 2.4, at: 2.4 },
  releases: {
    unit: 2.4,
    order: 3,
    verdict: 3,
    sent: 0,
    by: 2.4,
    at: 2.4,
    number: 3.8,
    'test-report': 0,
    keep: 2.4,
  },
} as const satisfies Record<LedgerName, Record<string, number>>;

export type ColumnId = { [N in LedgerName]: keyof (typeof COLUMNS)[N] }[LedgerName];

export interface LedgerRow {
  /** UTC, ISO 8601: in whose order it stands. */
  readonly at: string;
  /** By which it is chosen, where that is not the day of `at`: 2026-03-09. */
  readonly on?: string;
  /** UTC: where it is about a span of time that ends at `at`, its beginning. */
  readonly since?: string;
  /** Of the unit, where it is about one. */
  readonly job?: Spoken;
  readonly cells: Readonly<Partial<Record<ColumnId, Spoken>>>;
}

/** A text of limits that units were built on, or that somebody stood for. */
export interface LimitsText {
  readonly sha256: string;
  readonly limits: readonly Limit[];
  /** Units built on it, each with when it was begun: UTC, ISO 8601. */
  readonly units: readonly { readonly name: string; readonly at: string }[];
}

/** What registers know besides the records of units. */
export interface Books {
  /** That still count, oldest first. */
  readonly entries: readonly DaybookEntry[];
  readonly named: Namer;
  /** The job asked about; undefined: all. */
  readonly job?: string | undefined;
  /** As listed today. */
  readonly instruments: readonly Instrument[];
  readonly limits: readonly LimitsText[];
}

export type LedgerRows = (records: readonly RecordView[], telling: Telling, books: Books) => LedgerRow[];
