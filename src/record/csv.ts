/** One check per line, for a spreadsheet. RFC 4180 with CR LF; no cell can run as a formula. */
import { sanitize } from '../base/text.js';
import type { RecordView, RegistersThen } from './schema.js';
import { outcomeWords, tellingOf } from './telling.js';

export const CSV_COLUMNS = [
  'job',
  'unit',
  'unit_finished',
  'stage',
  'step',
  'step_status',
  'check',
  'asks',
  'kind',
  'reading',
  'typed',
  'expected',
  'judged',
  'unit_of_measure',
  'uncertainty_k2',
  'limits',
  'sources',
  'verdict',
  'remark',
  'person',
  'second',
  'at_utc',
  'instruments',
  'overdue_allowed_by',
  'lot',
  'fast',
  'evidence',
  'earlier',
  'journal_line',
  'seal',
] as const;

/** Version 0.1.0 had no chapter after release. */
const AFTER_COLUMNS = ['after_release', 'after_release_hash'] as const;

/** Where the workshop has registers: `bench 12 HASH; …`, and the key by which all others count. */
const REGISTER_COLUMNS = ['registers', 'first_key'] as const;

export function recordCsv(views: readonly RecordView[]): string {
  const { registers } = views[0]?.made ?? {};
  const then = registers ? [registersText(registers), registers.firstKey ?? ''] : [];
  const after = views.some(({ told }) => told !== undefined);
  const rows = [
    [...CSV_COLUMNS, ...(after ? AFTER_COLUMNS : []), ...(registers ? REGISTER_COLUMNS : [])],
    ...views.flatMap((view) => {
      const more = after ? [view.after?.says ?? '', view.after?.hash ?? ''] : [];
      return unitRows(view).map((row) => [...row, ...more, ...then]);
    }),
  ];
  return rows.map((row) => `${row.map(csvCell).join(',')}\r\n`).join('');
}

const registersText = ({ heads }: RegistersThen): string =>
  heads.map(({ bench, n, hash }) => `${bench} ${n} ${hash}`).join('; ');

/** From the cells of a row; undefined where it has none. */
export function registersInRow(cell: (column: string) => string): RegistersThen | undefined {
  const heads = [...cell('registers').matchAll(/(\S+) (\d{1,9}) ([0-9a-f]{64})/g)].map(
    ([, bench = '', n, hash = '']) => ({ bench, n: Number(n), hash }),
  );
  const firstKey = cell('first_key');
  if (heads.length === 0 && firstKey === '') return undefined;
  return { heads, ...(firstKey === '' ? {} : { firstKey }) };
}

function unitRows(view: RecordView): string[][] {
  const { say } = tellingOf(view.made);
  return view.stages.flatMap((stage) =>
    stage.steps.flatMap((step) =>
      step.checks.map((check) => {
        const { answer } = check;
        const cells: Record<(typeof CSV_COLUMNS)[number], string> = {
          job: view.unit.job,
          unit: view.unit.id,
          unit_finished: view.verdict.finished ? 'yes' : 'no',
          stage: stage.title,
          step: step.title,
          step_status: step.status,
          check: check.id,
          asks: check.asks,
          kind: check.kind,
          reading: answer?.says ?? '',
          typed: answer?.readings.map(({ raw }) => raw).join(' ') ?? '',
          expected: check.expect ?? '',
          judged: answer?.judged.value === undefined ? '' : String(answer.judged.value),
          unit_of_measure: answer?.judged.unit ?? '',
          uncertainty_k2: answer?.judged.uncertainty === undefined ? '' : String(answer.judged.uncertainty),
          limits: answer?.rules.map(({ title, says }) => `${title}: ${says}`).join('; ') ?? '',
          sources: answer?.rules.map(({ source, sourceKind }) => `${sourceKind}: ${source}`).join('; ') ?? '',
          verdict: outcomeWords(say, check.verdict),
          remark: check.remark ?? '',
          person: answer?.by ?? '',
          second: answer?.second ?? '',
          at_utc: answer?.at ?? '',
          instruments: [...new Set(answer?.readings.flatMap(({ instrument }) => instrument ?? []))].join(' '),
          overdue_allowed_by: answer?.overdueAllowedBy ?? '',
          lot: answer?.lot?.code ?? '',
          fast: answer?.burst ? 'yes' : '',
          evidence: answer?.evidence.map(({ sha256 }) => sha256).join(' ') ?? '',
          earlier: check.earlier.map((old) => `${old.says} (${old.outcome}; ${old.why})`).join('; '),
          journal_line: answer ? String(answer.line) : '',
          seal: view.seal.hash,
        };
        return CSV_COLUMNS.map((name) => cells[name]);
      }),
    ),
  );
}

/** Cells starting with = + - @ (also full-width) run as formulas: prefix an apostrophe unless a plain number. */
export function csvCell(text: string): string {
  const shown = sanitize(text);
  const runs = /^\s*[=+\-@\uff1d\uff0b\uff0d\uff20|%]/.test(shown) && !/^-?\d+(\.\d+)?$/.test(shown);
  const safe = runs ? `'${shown}` : shown;
  return /[",;\r\n\t]|^\s|\s$/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
