/** Every measured value as one table: readings, what they were held against, U, verdict, instrument; limits and rules by code. */
import { data, type Spoken } from '../base/words.js';
import { boundsText } from '../measure/limits.js';
import { type Block, type Cell, tableOr } from './blocks.js';
import { LOOKS } from './checkblocks.js';
import { readWith } from './exceptions.js';
import { checksOf } from './materialview.js';
import type { CheckView, RecordView } from './schema.js';
import {
  figureText3,
  joined,
  listed,
  outcomeWords,
  sourceWords,
  type Telling,
  tellingOf,
  withUnit,
} from './telling.js';

/** A count is no figure: it is right or not. */
const MEASURED: ReadonlySet<string> = new Set(['number', 'square', 'points']);

/** Whether it is answered by a figure read from an instrument. */
export const isMeasured = ({ kind, answer }: CheckView): boolean =>
  MEASURED.has(kind) && answer !== undefined;

/** In the order of work; the row of a check is M1, M2 … */
export const measuredIn = (view: RecordView): CheckView[] => checksOf(view.stages).filter(isMeasured);

/** Codes in the order in which they are first needed: #1 … for limits, *1 … for sentences about judging. No instrument and no light is called so. */
class Legend {
  readonly #codes = new Map<string, { readonly code: string; readonly cell: Cell }>();
  readonly #counts = { '#': 0, '*': 0 };

  code(lead: '#' | '*', key: string, cell: Cell): string {
    const id = `${lead} ${key}`;
    const known = this.#codes.get(id);
    if (known) return known.code;
    const code = `${lead}${++this.#counts[lead]}`;
    this.#codes.set(id, { code, cell });
    return code;
  }

  /** Two entries side by side: limits first, then rules. */
  rows(): readonly (readonly Cell[])[] {
    const all = [...this.#codes.values()].sort((a, b) =>
      a.code[0] === b.code[0] ? 0 : a.code < b.code ? -1 : 1,
    );
    const half = Math.ceil(all.length / 2);
    const cells = (entry: (typeof all)[number] | undefined): readonly Cell[] =>
      entry ? [[{ text: data(entry.code), look: 'strong' as const }], entry.cell] : [data(''), data('')];
    return all.slice(0, half).map((entry, i) => [...cells(entry), ...cells(all[half + i])]);
  }
}

/** @param anchor of a row, so that exceptions can lead to it */
export function measuredBlocks(view: RecordView, anchor: (row: string) => string): Block[] {
  const telling = tellingOf(view.made);
  const { say } = telling;
  const legend = new Legend();
  const measured = measuredIn(view);
  const rows = measured.map((check, i) => measuredRow(check, `M${i + 1}`, legend, telling));
  const [head, table] = tableOr(
    say('doc-measured'),
    say('doc-no-measured'),
    [
      say('doc-col-row'),
      say('doc-col-measured'),
      say('doc-col-readings'),
      say('doc-col-held'),
      say('doc-col-u'),
      say('doc-col-verdict'),
    ],
    [0.75, 3.2, 4.1, 5.2, 1.35, 1.1],
    rows,
  );
  if (rows.length === 0) return [head!, table!];
  const marks = measured.map((_, i) => anchor(`M${i + 1}`));
  return [
    head!,
    { kind: 'text', text: say('doc-measured-says'), look: 'quiet' },
    { ...(table as Block & { kind: 'table' }), marks },
    ...tableOr(
      say('doc-limits'),
      data(''),
      [say('doc-col-coded'), say('doc-col-limit-title'), say('doc-col-coded'), say('doc-col-limit-title')],
      [0.7, 5.3, 0.7, 5.3],
      legend.rows(),
    ),
  ];
}

function measuredRow(check: CheckView, row: string, legend: Legend, telling: Telling): readonly Cell[] {
  const { say } = telling;
  const answer = check.answer!;
  const { judged, rules, notes } = answer;
  const u = judged.uncertainty;
  const several = rules.length > 1;
  const held = rules.map(({ limit, title, says, low, high, source, sourceKind, outcome }) => {
    const kind = sourceWords(say, sourceKind);
    const code = legend.code(
      '#',
      `${limit}${title}${sourceKind}${source}`,
      source === '' ? say('doc-rule-kind', { title, kind }) : say('doc-rule-source', { title, kind, source }),
    );
    const coded = say('doc-rule-coded', {
      says: shortly(says, { low, high }, judged.unit),
      code: data(code),
    });
    return several && outcome !== 'pass'
      ? say('doc-rule-outcome', { says: coded, outcome: outcomeWords(say, outcome) })
      : coded;
  });
  const codes: Spoken[] = [];
  const own: Spoken[] = [];
  for (const note of notes) {
    const general = withoutFigures(note, u);
    // What a square's sides and diagonals give besides stands in the annex.
    if (general === undefined && check.kind !== 'square') own.push(note);
    if (general === undefined) continue;
    codes.push(data(legend.code('*', general, general)));
  }
  return [
    [{ text: data(row), look: 'strong' }],
    check.expect === undefined
      ? check.asks
      : joined([check.asks, say('doc-expected', { value: check.expect })], ', '),
    readingsTold(check, telling),
    joined([joined(held, '; '), ...own, joined(codes, ', ')], ' '),
    [
      { text: u === undefined ? data('') : withUnit(u, judged.unit) },
      { text: listed(say, readWith(check)), look: 'quiet' as const },
    ].filter(({ text }) => text !== ''),
    [
      { text: outcomeWords(say, check.verdict), look: LOOKS[check.verdict] },
      ...(check.remark === undefined ? [] : [{ text: check.remark, look: 'quiet' as const }]),
    ],
  ];
}

/** With the signs of the limit in place of its words: `0 mm, ±0.5`. Where the words are others, as they are. */
function shortly(says: Spoken, { low, high }: Bounds, unit: string | undefined): Spoken {
  if (low === undefined && high === undefined) return says;
  const band = { ...(low === undefined ? {} : { low }), ...(high === undefined ? {} : { high }) };
  const end = `, ${boundsText(band, unit ?? '')}`;
  return says.endsWith(end) ? data(`${says.slice(0, -end.length)}, ${signs(band)}`) : says;
}

interface Bounds {
  readonly low?: number | undefined;
  readonly high?: number | undefined;
}

function signs({ low, high }: Bounds): string {
  if (low === undefined) return `≤ ${high}`;
  if (high === undefined) return `≥ ${low}`;
  return low === -high ? `±${high}` : `${low} … ${high}`;
}

/** Each as it was read; their unit once, where nothing else is to be said of any. */
function readingsTold({ answer }: CheckView, { say }: Telling): Spoken {
  const { readings, says } = answer!;
  const unit = readings[0]?.unit;
  const plain = readings.every(
    (reading) =>
      reading.value !== undefined &&
      reading.unit === unit &&
      !reading.confirmed &&
      Number(reading.raw.trim().replace(',', '.')) === reading.value,
  );
  if (!plain || readings.length < 2) return says;
  const each = readings.map(({ what, value }) => joined([what, figureText3(value!)], ' '));
  return unit === undefined
    ? joined(each, '; ')
    : say('doc-readings-in', { readings: joined(each, '; '), unit });
}

const FIGURE = /\d+(?:[.,]\d+)*/g;

/**
 * A sentence about judging, with its U left out, so that it can be told once for all rows; undefined where it has another figure
 * of its own, which belongs to its row.
 */
function withoutFigures(note: Spoken, u: number | undefined): Spoken | undefined {
  const isU = (figure: string) =>
    u !== undefined && Math.abs(Number(figure.replace(',', '.')) - u) <= 0.006 * Math.max(1, u);
  const figures = note.match(FIGURE) ?? [];
  if (!figures.every(isU)) return undefined;
  return figures.length === 0 ? note : data(note.replace(FIGURE, '…'));
}
