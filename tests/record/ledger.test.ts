/** Registers over units: what was so in the records stands in them, once, with its unit; days bound them. */
import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { data } from '../../src/base/words.js';
import { exceptionsOf } from '../../src/record/exceptions.js';
import { ledgerOf } from '../../src/record/ledger.js';
import { type Books, LEDGERS, type LedgerName } from '../../src/record/ledgercolumns.js';
import { ledgerCsv, ledgerDocument } from '../../src/record/ledgerdocument.js';
import { textOf } from '../../src/record/text.js';
import { recordView } from '../../src/record/view.js';
import { CONTEXT, FINISHED, SETOUT, UNFINISHED } from './states.js';

const context = { ...CONTEXT, program: 'pinchrod 0.2.0', annex: false };
const done = recordView(FINISHED, SETOUT, context);
const other = recordView(UNFINISHED, SETOUT, context);
// The same unit twice stands for two that had the same trouble.
const again = { ...done, unit: { ...done.unit, id: data('P09-1') } };
/** A shop without a day book, and with nothing but what the units say. */
const NO_BOOKS: Books = { entries: [], named: (id) => data(id), instruments: [], limits: [] };
const rowsOf = (name: LedgerName, records = [done, again]) => ledgerOf(name, records, NO_BOOKS).rows;
const AS_THEY_ARE = { bom: false, separator: ',', decimal: '.' } as const;

describe('of nonconformities', () => {
  it('has every exception of every unit, and says which repeats which', () => {
    const rows = rowsOf('nonconformities');
    expect(rows).toHaveLength(2 * exceptionsOf(done).length);
    const repeated = rows.filter(({ cells }) => cells.repeat !== '');
    expect(repeated.length).toBeGreaterThanOrEqual(exceptionsOf(done).length);
    for (const { cells } of repeated) expect(cells.repeat).toMatch(/^P0\d-1 E\d+$/);
  });
  it('a first of its kind repeats nothing', () => {
    const rows = rowsOf('nonconformities', [done]);
    const snag = rows.find(({ cells }) => cells.kind === 'Snags');
    expect(snag?.cells.cause).toBe(done.snags[0]!.cause);
    expect(snag?.cells.repeat).toBe('');
  });
});

it('of instruments: a calibration once, with every unit measured under it', () => {
  const rows = rowsOf('instruments');
  expect(rows).toHaveLength(
    new Set(done.instruments.map(({ id, calibrated }) => `${id} ${calibrated}`)).size,
  );
  for (const { cells } of rows) expect(cells.units).toMatch(/P02-1.*P09-1/);
  // Calibrated anew, it has a row of its own.
  const [first] = again.instruments;
  const anew = {
    ...again,
    instruments: [{ ...first!, calibrated: data('2026-03-05') }],
  };
  const of = rowsOf('instruments', [done, anew]).filter(({ cells }) => cells.id === first!.id);
  expect(of.map(({ cells }) => cells.units)).toEqual([
    expect.stringMatching(/P02-1$/),
    expect.stringMatching(/P09-1$/),
  ]);
});

it('of lots: each once, with its units', () => {
  const rows = rowsOf('lots');
  expect(rows).toHaveLength(new Set(done.lots.map(({ material, code }) => `${material} ${code}`)).size);
  expect(rows.length).toBeGreaterThan(0);
  for (const { cells } of rows) expect(cells.units).toMatch(/P02-1.*P09-1/);
});

it('of people: whoever answered or released, with the units', () => {
  const names = new Set(rowsOf('people').map(({ cells }) => cells.by));
  const answered = done.stages.flatMap(({ steps }) =>
    steps.flatMap(({ checks }) => checks.flatMap(({ answer }) => answer?.by ?? [])),
  );
  for (const name of answered) expect(names).toContain(name);
});

it('of releases: finished units alone, each with the number of its record', () => {
  const rows = rowsOf('releases', [done, other]);
  expect(rows.map(({ cells }) => cells.number)).toEqual([done.papers!.number]);
});

it('days bound a register, both included', () => {
  const { rows } = ledgerOf('nonconformities', [done], NO_BOOKS);
  const day = rows[0]!.at.slice(0, 10);
  const within = (from: string, to: string) =>
    ledgerOf('nonconformities', [done], NO_BOOKS, { from, to }).rows.length;
  expect(within(day, day)).toBe(rows.filter(({ at }) => at.startsWith(day)).length);
  expect(within('2001-01-01', '2001-01-02')).toBe(0);
});

describe('as a table for a spreadsheet', () => {
  it.each(LEDGERS)('%s is read back as it is', (name) => {
    const ledger = ledgerOf(name, [done, again], NO_BOOKS);
    const [head, ...rows] = parse(ledgerCsv(ledger, AS_THEY_ARE)) as string[][];
    expect(head!.at(-1)).toBe('at_utc');
    expect(rows).toHaveLength(ledger.rows.length);
    for (const row of rows) expect(row).toHaveLength(head!.length);
  });
  it('with a byte-order mark, semicolons and decimal commas, if wanted', () => {
    const ledger = ledgerOf('lots', [done], NO_BOOKS);
    const bound = {
      ...ledger,
      rows: [{ at: '2026-03-04T09:00:00Z', cells: { lot: '12.5', by: 'A;B' } }],
    } as unknown as typeof ledger;
    const text = ledgerCsv(bound, { bom: true, separator: ';', decimal: ',' });
    expect(text.charCodeAt(0)).toBe(0xfeff);
    const rows = parse(text.slice(1), { delimiter: ';' }) as string[][];
    expect(rows[1]).toContain('12,5');
    expect(rows[1]).toContain('A;B');
  });
  it('no cell runs as a formula', () => {
    const ledger = ledgerOf('lots', [done], NO_BOOKS);
    const bound = { ...ledger, rows: [{ at: '', cells: { lot: '=1+1' } }] } as unknown as typeof ledger;
    expect(ledgerCsv(bound, AS_THEY_ARE)).toContain("'=1+1");
  });
});

it.each(LEDGERS)('%s is a document with all its rows', (name) => {
  const ledger = ledgerOf(name, [done, again], NO_BOOKS);
  const facts = { made: done.made, workshop: done.workshop, units: 2, from: '2026-01-01' };
  const text = textOf(ledgerDocument(ledger, facts));
  expect(text).toContain('from 2026-01-01');
  expect(text).not.toContain('For pinchrod verify');
  for (const { cells } of ledger.rows) if (cells.unit) expect(text).toContain(cells.unit);
});
