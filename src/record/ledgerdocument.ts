/** A register as a document, a table of figures or data. */
import { data, type Spoken } from '../base/words.js';
import { type Block, type Document, tableOr } from './blocks.js';
import { wideEnough } from './columns.js';
import { csvCell } from './csv.js';
import type { Ledger } from './ledger.js';
import type { RecordView } from './schema.js';
import { joined, printedAt, tellingOf } from './telling.js';

export interface LedgerFacts {
  readonly made: RecordView['made'];
  readonly workshop: Spoken;
  /** How many units were looked at. */
  readonly units: number;
  readonly from?: string | undefined;
  readonly to?: string | undefined;
}

export function ledgerDocument(ledger: Ledger, { made, workshop, units, from, to }: LedgerFacts): Document {
  const { say } = tellingOf(made);
  const title = say(`doc-ledger-${ledger.name}`);
  const subject = say('doc-ledger-rows', { n: ledger.rows.length });
  const under = joined(
    [
      subject,
      from === undefined ? data('') : say('doc-ledger-from', { day: from }),
      to === undefined ? data('') : say('doc-ledger-to', { day: to }),
      say('doc-ledger-under', { units, time: printedAt(made) }),
    ],
    ', ',
  );
  const shown = ledger.columns.flatMap(({ id, share }, i) => {
    if (share === 0) return [];
    const next = ledger.columns.slice(i + 1);
    const end = next.findIndex((each) => each.share > 0);
    return [{ id, share, below: (end < 0 ? next : next.slice(0, end)).map((each) => each.id) }];
  });
  const rows = ledger.rows.map(({ job, cells }) =>
    shown.map(({ id, below }) => {
      const text = joined(
        [id, ...below].map((each) => cells[each] ?? data('')),
        '; ',
      );
      return id === 'unit' && job !== undefined ? joined([text, job], ' ') : text;
    }),
  );
  const titles = shown.map(({ id }) => say(`doc-ledger-${id}`));
  const [, table] = tableOr(
    title,
    say('doc-ledger-empty'),
    titles,
    wideEnough(
      shown.map(({ share }) => share),
      titles.map((title, i) => [title, ...rows.map((row) => row[i]!)]),
    ),
    rows,
  );
  const blocks: Block[] = [{ kind: 'title', over: workshop, text: title, under, newPage: false }, table!];
  return {
    title,
    subject,
    foot: say('doc-ledger-foot', { workshop, title }),
    author: workshop,
    at: made.at,
    say,
    proof: '',
    layered: true,
    paper: made.paper,
    blocks,
  };
}

export interface CsvForm {
  readonly bom: boolean;
  readonly separator: ',' | ';' | '\t';
  /** Sign of decimals in cells that are numbers. */
  readonly decimal: '.' | ',';
}

/** RFC 4180 but for the separator; columns by their ids, so that a script need not know the language. */
export function ledgerCsv({ columns, rows }: Ledger, { bom, separator, decimal }: CsvForm): string {
  const cell = (text: string): string => {
    const shown = decimal === ',' && /^-?\d+\.\d+$/.test(text) ? text.replace('.', ',') : text;
    return csvCell(shown);
  };
  const ofUnits = rows.some(({ job }) => job !== undefined);
  const lines = [
    [...(ofUnits ? ['job'] : []), ...columns.map(({ id }) => id), 'at_utc'],
    ...rows.map(({ at, job = '', cells }) =>
      [...(ofUnits ? [job] : []), ...columns.map(({ id }) => cells[id] ?? ''), at].map(cell),
    ),
  ];
  return `${bom ? '\ufeff' : ''}${lines.map((line) => `${line.join(separator)}\r\n`).join('')}`;
}

export const ledgerJson = (ledger: Ledger, { made, units, from, to }: LedgerFacts): string =>
  `${JSON.stringify(
    {
      format: 'pinchrod-ledger 1',
      ledger: ledger.name,
      made,
      units,
      ...(from === undefined ? {} : { from }),
      ...(to === undefined ? {} : { to }),
      rows: ledger.rows.map(({ at, job, cells }) => ({
        at_utc: at,
        ...(job === undefined ? {} : { job }),
        ...cells,
      })),
    },
    null,
    2,
  )}\n`;
